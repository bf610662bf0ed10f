// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day and its windows where there is little room: on a small screen, in the hand, with large text. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-map-window.h"
#include "hs-room.h"
#include "hs-why-window.h"

static void
set_size (AppBook *book, int width, int height)
{
  gtk_window_set_default_size (GTK_WINDOW (book->window), width, height);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == width
                    && gtk_widget_get_height (GTK_WIDGET (book->window)) == height);
  app_book_settle (book);
  hs_app_test_frames ();
}

/* With its edge, 44 px each way. */
static void
assert_touchable (GtkWidget *widget)
{
  graphene_rect_t area;

  g_assert_nonnull (widget);
  g_assert_true (gtk_widget_get_mapped (widget));
  g_assert_true (gtk_widget_compute_bounds (widget, widget, &area));
  g_assert_cmpfloat (area.size.width, >=, 44);
  g_assert_cmpfloat (area.size.height, >=, 44);
}

static void
assert_whole (GtkWidget *label)
{
  g_assert_nonnull (label);
  g_assert_true (gtk_widget_get_mapped (label));
  g_assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
}

/* Where the bar has no room for it, the way to the reasons stands beside the day; five stops can be read without
 * scrolling. */
static void
test_small_screens (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, height;
    const char *why, *day;
    int rows, row_height;
  } rows[] = {
    { 1024, 600, "Why This Order", "Tuesday, March 10, 2026", 5, 44 },
    { 360, 720, "Why", "Tue, Mar 10", 5, 62 },
  };
  GtkWidget *page = app_book_show (book, "today");

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *why, *list = gtk_widget_get_parent (hs_app_test_find (page, GTK_TYPE_LIST_VIEW));

      set_size (book, rows[i].width, rows[i].height);
      why = hs_app_test_button (page, rows[i].why);
      g_assert_nonnull (why);
      g_assert_true (gtk_widget_get_mapped (why));
      assert_touchable (why);
      assert_whole (hs_app_test_label (page, rows[i].day));
      g_test_message ("%d px: list of %d", rows[i].width, gtk_widget_get_height (list));
      g_assert_cmpint (gtk_widget_get_height (list), >=, rows[i].rows * rows[i].row_height);
      g_signal_emit_by_name (why, "clicked");
      g_assert_nonnull (hs_app_test_window (HS_TYPE_WHY_WINDOW));
      gtk_window_destroy (GTK_WINDOW (hs_app_test_window (HS_TYPE_WHY_WINDOW)));
    }
}

static int
least_width (GtkWidget *widget)
{
  int least;

  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

/* The widest chain of widgets, for whoever has to mend it. */
static void
name_widest (GtkWidget *widget, int depth)
{
  GtkWidget *widest = NULL;

  g_test_message ("%*s%s needs %d", 2 * depth, "", G_OBJECT_TYPE_NAME (widget), least_width (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_should_layout (child) && gtk_widget_get_child_visible (child)
        && (widest == NULL || least_width (child) > least_width (widest)))
      widest = child;
  if (widest != NULL)
    name_widest (widest, depth + 1);
}

static void
assert_narrow (GtkWidget *widget)
{
  if (least_width (widget) > 360)
    name_widest (widget, 0);
  g_assert_cmpint (least_width (widget), <=, 360);
}

/* Text of twice the size in the hand: nothing is wider than the screen. */
static void
test_large_text (AppBook *book, gconstpointer data)
{
  static const char *const pages[] = { "today", "parts" };
  static const char *const actions[] = { "win.squeeze-in", "win.share", "win.why", "win.set-up" };
  GtkWidget *content = gtk_widget_get_first_child (hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_ROOM));

  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Cantarell 22", NULL);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 720);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      app_book_show (book, pages[i]);
      hs_app_test_wait (hs_window_get_narrow (book->window));
      hs_app_test_frames ();
      hs_app_test_picture (GTK_WIDGET (book->window), pages[i]);
      g_test_message ("%s", pages[i]);
      assert_narrow (content);
    }
  app_book_show (book, "today");
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      GtkWidget *over = NULL;
      GListModel *windows = gtk_window_get_toplevels ();

      g_test_message ("%s", actions[i]);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), actions[i], NULL));
      for (guint w = 0; w < g_list_model_get_n_items (windows); w++)
        {
          g_autoptr (GtkWidget) window = g_list_model_get_item (windows, w);

          over = ADW_IS_WINDOW (window) && gtk_window_get_transient_for (GTK_WINDOW (window)) != NULL ? window : over;
        }
      g_assert_nonnull (over);
      hs_app_test_frames ();
      app_book_settle (book);
      hs_app_test_picture (over, actions[i]);
      assert_narrow (over);
      gtk_window_destroy (GTK_WINDOW (over));
    }
  g_object_set (gtk_settings_get_default (), "gtk-font-name", "Cantarell 11", NULL);
}

/* Over a small screen the way out of the map is on it. */
static void
test_map_on_a_small_screen (AppBook *book, gconstpointer data)
{
  GtkWidget *map;

  app_book_show (book, "today");
  set_size (book, 1024, 600);
  map = GTK_WIDGET (hs_map_window_present (GTK_WINDOW (book->window), book->ledger, "Base", NULL,
                                           hs_ledger_get_today (book->ledger)));
  hs_app_test_frames ();
  g_assert_cmpint (gtk_widget_get_height (map), <=, 600);
  assert_touchable (hs_app_test_button (map, "Use This Place"));
  assert_touchable (hs_app_test_button (map, "Closer"));
  gtk_window_destroy (GTK_WINDOW (map));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/room/small-screens", test_small_screens);
  ADD ("/room/large-text", test_large_text);
  ADD ("/room/map-on-a-small-screen", test_map_on_a_small_screen);
  return g_test_run ();
}
