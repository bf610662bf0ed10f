// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The window's frame: pages, the job page, keys, lasting messages, room, the injected clock. */

#include <glib/gstdio.h>

#include "hs-app-test.h"
#include "hs-key-row.h"
#include "hs-shots.h"
#include "hs-tabs.h"
#include "hs-window.h"

/* 2026-03-10 07:52 UTC, a Tuesday. */
#define MORNING 1773129120

static HsWindow *
create_window (void)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autoptr (HsClock) clock = hs_clock_new (zone);
  HsWindow *window;

  hs_clock_freeze_at (clock, MORNING);
  window = hs_window_new (NULL, clock);
  hs_window_add_page (window, "jobs", "Jobs", "jobs", gtk_label_new ("the jobs"));
  hs_window_add_page (window, "today", "Today", "today", gtk_label_new ("the day"));
  hs_window_add_page (window, "vehicles", "Vehicles", "vehicles", gtk_label_new ("the vehicles"));
  return window;
}

static void
count_call (gpointer object,
            gpointer count)
{
  (*(int *) count)++;
}

static void
test_pages (void)
{
  HsWindow *window = create_window ();

  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  g_assert_cmpstr (hs_window_get_page (window), ==, "jobs");
  hs_window_show_page (window, "today");
  g_assert_cmpstr (hs_window_get_page (window), ==, "today");
  hs_window_show_page (window, "nowhere");
  g_assert_cmpstr (hs_window_get_page (window), ==, "today");
  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", "vehicles");
  g_assert_cmpstr (hs_window_get_page (window), ==, "vehicles");
  gtk_window_destroy (GTK_WINDOW (window));
}

static gboolean
later_cb (gpointer later)
{
  *(gboolean *) later = TRUE;
  return G_SOURCE_REMOVE;
}

/* Shut while its pictures are taken, which takes two of them a second. */
static void
test_shut_while_shown (void)
{
  HsWindow *window = create_window ();
  g_autofree char *folder = g_dir_make_tmp (NULL, NULL);
  gboolean later = FALSE;

  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  hs_shots_start (window, folder);
  gtk_window_destroy (GTK_WINDOW (window));
  g_timeout_add (1600, later_cb, &later);
  hs_app_test_wait (later);
  g_rmdir (folder);
}

static void
test_tab_clicked (void)
{
  HsWindow *window = create_window ();
  GtkWidget *tabs, *second;

  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  tabs = hs_app_test_find (GTK_WIDGET (window), HS_TYPE_TABS);
  second = gtk_widget_get_next_sibling (gtk_widget_get_first_child (tabs));
  g_assert_cmpint (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (second)), ==, GTK_ACCESSIBLE_ROLE_TAB);
  g_signal_emit_by_name (second, "clicked");
  g_assert_cmpstr (hs_window_get_page (window), ==, "today");
  g_assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (second)));
  g_signal_emit_by_name (second, "clicked");
  g_assert_true (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (second)));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_job (void)
{
  HsWindow *window = create_window ();
  GtkWidget *stack = gtk_stack_new ();
  int closed = 0;

  gtk_stack_add_titled (GTK_STACK (stack), gtk_label_new ("call"), "call", "Call");
  gtk_stack_add_titled (GTK_STACK (stack), gtk_label_new ("bill"), "bill", "Bill");
  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  g_signal_connect (window, "job-closed", G_CALLBACK (count_call), &closed);
  hs_window_show_page (window, "today");
  hs_window_open_job (window, "A-0024", GTK_STACK (stack), stack);
  g_assert_cmpstr (hs_window_get_page (window), ==, "job");
  g_assert_true (hs_window_get_visible_page (window) == stack);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "A-0024"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "Bill"));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.back", NULL);
  g_assert_cmpstr (hs_window_get_page (window), ==, "today");
  g_assert_null (hs_window_get_job (window));
  g_assert_cmpint (closed, ==, 1);
  hs_window_close_job (window);
  g_assert_cmpint (closed, ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_keys (void)
{
  static const HsKeyHint jobs[] = { { "F3", "Call slip", "win.call-slip" }, { "F7", "Customer", "win.customer" } };
  static const HsKeyHint today[] = { { "F8", "Lock stop", "win.lock" } };
  HsWindow *window = create_window ();
  GtkWidget *row;
  int slips = 0;

  g_signal_connect (window, "call-slip", G_CALLBACK (count_call), &slips);
  hs_window_set_keys (window, "jobs", jobs, G_N_ELEMENTS (jobs));
  hs_window_set_keys (window, "today", today, G_N_ELEMENTS (today));
  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  row = hs_app_test_find (GTK_WIDGET (window), HS_TYPE_KEY_ROW);
  hs_app_test_wait (hs_key_row_get_n_shown (HS_KEY_ROW (row)) == 2);
  g_assert_true (hs_app_test_says (row, "Call slip"));
  g_signal_emit_by_name (gtk_widget_get_first_child (row), "clicked");
  g_assert_cmpint (slips, ==, 1);
  hs_window_show_page (window, "today");
  g_assert_true (hs_app_test_says (row, "Lock stop"));
  g_assert_false (hs_app_test_says (row, "Call slip"));
  hs_window_show_page (window, "vehicles");
  g_assert_null (gtk_widget_get_first_child (row));
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_where (void)
{
  HsWindow *window = create_window ();
  int asked = 0;

  g_signal_connect (window, "where-was-i", G_CALLBACK (count_call), &asked);
  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.where-was-i", NULL);
  g_assert_cmpint (asked, ==, 0);
  g_assert_false (hs_app_test_says (GTK_WIDGET (window), "6 min ago"));
  hs_window_set_where (window, "A-0026 · Call · Who holds the key", "6 min ago");
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "A-0026 · Call · Who holds the key"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "6 min ago"));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.where-was-i", NULL);
  g_assert_cmpint (asked, ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_notices (void)
{
  HsWindow *window = create_window ();

  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  hs_window_set_notice (window, "disk", "The disk is full.");
  hs_window_set_notice (window, "book", "The book can only be read.");
  hs_window_set_notice (window, "disk", "The disk is still full.");
  g_assert_false (hs_app_test_says (GTK_WIDGET (window), "The disk is full."));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "The disk is still full."));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "The book can only be read."));
  hs_window_set_notice (window, "disk", NULL);
  hs_window_set_notice (window, "never", NULL);
  g_assert_false (hs_app_test_says (GTK_WIDGET (window), "The disk is still full."));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "The book can only be read."));
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A key's answer is not kept waiting by the answer to the key before. */
static void
test_latest_toast (void)
{
  HsWindow *window = create_window ();

  hs_app_test_show (GTK_WIDGET (window), 900, 600);
  hs_window_toast (window, "first word", NULL, NULL);
  hs_app_test_wait (hs_app_test_says (GTK_WIDGET (window), "first word"));
  hs_window_toast (window, "second & <last> word", NULL, NULL);
  hs_app_test_wait (hs_app_test_says (GTK_WIDGET (window), "second & <last> word"));
  gtk_window_destroy (GTK_WINDOW (window));
}

static GtkWidget *
find_named (GtkWidget *widget, const char *css_name)
{
  if (g_str_equal (gtk_widget_get_css_name (widget), css_name) && gtk_widget_get_mapped (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_named (child, css_name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkWidget *
where_box_of (HsWindow *window)
{
  GtkWidget *row = hs_app_test_find (GTK_WIDGET (window), HS_TYPE_KEY_ROW);

  return gtk_widget_get_prev_sibling (row);
}

static gboolean
count_down (gpointer left)
{
  return --*(int *) left > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

/* In the hand a long word of the program wraps; nothing of it is cut. */
static void
test_long_toast (void)
{
  static const char text[] = "A-0022 was called off: nothing is measured on it any more, and the fee is on the bill.";
  HsWindow *window = create_window ();
  GtkWidget *words;

  hs_app_test_show (GTK_WIDGET (window), 360, 640);
  hs_window_toast (window, text, NULL, NULL);
  hs_app_test_wait ((words = hs_app_test_label (GTK_WIDGET (window), text)) != NULL && gtk_widget_get_mapped (words));
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (window), "toast-360");
  g_assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (words))));
  g_assert_cmpint (pango_layout_get_line_count (gtk_label_get_layout (GTK_LABEL (words))), >, 1);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Words that follow each other more quickly than the toolkit can move them in and out: the last one stands. */
static void
test_toasts_in_a_hurry (void)
{
  static const guint paces[] = { 20, 60, 120, 180, 240, 300 };
  HsWindow *window = create_window ();

  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  for (gsize i = 0; i < G_N_ELEMENTS (paces); i++)
    {
      for (int k = 0; k < 8; k++)
        {
          g_autofree char *text = g_strdup_printf ("word %d of %u", k, paces[i]);
          int left = 1;

          hs_window_toast (window, text, k % 2 == 0 ? "Do It Again" : NULL, k % 2 == 0 ? "win.redo" : NULL);
          g_timeout_add (paces[i], count_down, &left);
          while (left > 0)
            g_main_context_iteration (NULL, TRUE);
          if (k == 7)
            hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (window), text));
        }
    }
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* An answer to a key hides neither the keys nor the tabs at the bottom. */
static void
test_toast_leaves_the_bars (void)
{
  static const int widths[] = { 1280, 360 };

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      HsWindow *window = create_window ();
      graphene_rect_t area, words;
      GtkWidget *toast;

      hs_window_set_where (window, "A-0026 · Call", "6 min ago");
      hs_app_test_show (GTK_WIDGET (window), widths[i], 640);
      hs_window_toast (window, "This order stands.", NULL, NULL);
      hs_app_test_wait (find_named (GTK_WIDGET (window), "toast") != NULL);
      hs_app_test_frames ();
      toast = find_named (GTK_WIDGET (window), "toast");
      g_assert_true (gtk_widget_compute_bounds (toast, GTK_WIDGET (window), &area));
      g_assert_true (gtk_widget_compute_bounds (where_box_of (window), GTK_WIDGET (window), &words));
      g_test_message ("%d: toast to %g, bar from %g", widths[i], area.origin.y + area.size.height, words.origin.y);
      g_assert_cmpfloat (area.size.height, >, 0);
      g_assert_cmpfloat (area.origin.y + area.size.height, <=, words.origin.y);
      gtk_window_destroy (GTK_WINDOW (window));
    }
}

static void
test_room (void)
{
  static const struct
  {
    int width, height;
    gboolean narrow, cramped;
  } rows[] = {
    { 1280, 800, FALSE, FALSE },
    { 1024, 600, FALSE, TRUE },
    { 360, 700, TRUE, TRUE },
    { 360, 294, TRUE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsWindow *window = create_window ();

      hs_window_set_where (window, "A-0026 · Call · Who holds the key", "6 min ago");
      hs_app_test_show (GTK_WIDGET (window), rows[i].width, rows[i].height);
      hs_app_test_wait (hs_window_get_narrow (window) == rows[i].narrow);
      hs_app_test_wait (hs_window_get_cramped (window) == rows[i].cramped);
      g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), ==, rows[i].width);
      g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), ==, rows[i].height);
      gtk_window_destroy (GTK_WINDOW (window));
    }
}

static void
test_clock (void)
{
  HsWindow *window = create_window ();
  HsClock *clock = hs_window_get_clock (window);
  g_autoptr (GTimeZone) west = g_time_zone_new_offset (-5 * 3600);

  hs_app_test_show (GTK_WIDGET (window), 1280, 800);
  g_assert_true (hs_clock_get_demo (clock));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "07:52"));
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "Demo, Tue, Mar 10"));
  hs_clock_freeze_at (clock, MORNING + 130 * 60);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "10:02"));
  hs_clock_set_zone (clock, west);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "05:02"));
  hs_clock_start_at (clock, MORNING);
  g_assert_cmpint (hs_clock_get_now (clock), >=, MORNING);
  g_assert_cmpint (hs_clock_get_now (clock), <, MORNING + 60);
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int   argc,
      char *argv[])
{
  hs_app_test_init (&argc, &argv);
  g_test_add_func ("/app/window/pages", test_pages);
  g_test_add_func ("/app/window/shut-while-shown", test_shut_while_shown);
  g_test_add_func ("/app/window/tab-clicked", test_tab_clicked);
  g_test_add_func ("/app/window/job", test_job);
  g_test_add_func ("/app/window/keys", test_keys);
  g_test_add_func ("/app/window/where", test_where);
  g_test_add_func ("/app/window/notices", test_notices);
  g_test_add_func ("/app/window/latest-toast", test_latest_toast);
  g_test_add_func ("/app/window/long-toast", test_long_toast);
  g_test_add_func ("/app/window/toasts-in-a-hurry", test_toasts_in_a_hurry);
  g_test_add_func ("/app/window/toast-leaves-the-bars", test_toast_leaves_the_bars);
  g_test_add_func ("/app/window/room", test_room);
  g_test_add_func ("/app/window/clock", test_clock);
  return g_test_run ();
}
