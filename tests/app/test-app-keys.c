// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An owner with a keyboard and nothing else: keys do what is printed for them, and nothing besides. */

#include "app-book.h"
#include "hs-act-check.h"
#include "hs-app-test.h"
#include "hs-job-page.h"
#include "hs-key-row.h"
#include "hs-run-line.h"
#include "hs-share-window.h"
#include "hs-why-window.h"

static void
add_lines (GtkWidget *parent, GPtrArray *lines)
{
  for (GtkWidget *child = gtk_widget_get_first_child (parent); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (HS_IS_RUN_LINE (child) && gtk_widget_get_mapped (child))
      g_ptr_array_add (lines, child);
    else
      add_lines (child, lines);
}

static GPtrArray *
lines_of (GtkWidget *page)
{
  GPtrArray *lines = g_ptr_array_new ();

  add_lines (page, lines);
  return lines;
}

/* Which line has the focus, from 0 on; -1: none. */
static int
focused_at (AppBook *book, GtkWidget *page)
{
  g_autoptr (GPtrArray) lines = lines_of (page);
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (book->window));

  for (guint i = 0; focus != NULL && i < lines->len; i++)
    if (gtk_widget_is_ancestor (focus, g_ptr_array_index (lines, i)))
      return (int) i;
  return -1;
}

static guint
count_ticked (GtkWidget *page)
{
  g_autoptr (GPtrArray) lines = lines_of (page);
  guint n = 0;

  for (guint i = 0; i < lines->len; i++)
    n += hs_run_line_get_ticked (g_ptr_array_index (lines, i));
  return n;
}

static void
press (AppBook *book, guint keyval)
{
  app_book_press (book, keyval);
  app_book_settle (book);
}

/* ↓ from the bar with the keys onto the first line, from there through all of them and back; nothing is ticked. */
static void
test_lines_of_the_run (AppBook *book, gconstpointer data)
{
  static const guint down[] = { GDK_KEY_Down, GDK_KEY_KP_Down, GDK_KEY_Return };
  static const guint up[] = { GDK_KEY_Up, GDK_KEY_KP_Up, GDK_KEY_Up };
  GtkWidget *page = app_book_show (book, "parts");
  g_autoptr (GPtrArray) lines = lines_of (page);
  GtkWidget *row = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);
  int last = (int) lines->len - 1;

  g_assert_cmpint (last, >, 3);
  for (guint round = 0; round < G_N_ELEMENTS (down); round++)
    {
      gtk_window_set_focus_visible (GTK_WINDOW (book->window), FALSE);
      gtk_widget_grab_focus (gtk_widget_get_first_child (row));
      g_assert_true (hs_app_test_key (gtk_root_get_focus (GTK_ROOT (book->window)), down[round % 2], 0));
      g_assert_cmpint (focused_at (book, page), ==, 0);
      g_assert_true (gtk_window_get_focus_visible (GTK_WINDOW (book->window)));
      for (int at = 1; at <= last + 1; at++)
        {
          press (book, down[round]);
          g_assert_cmpint (focused_at (book, page), ==, MIN (at, last));
        }
      for (int at = last - 1; at >= -1; at--)
        {
          press (book, up[round]);
          g_assert_cmpint (focused_at (book, page), ==, MAX (at, 0));
        }
    }
  g_assert_cmpuint (count_ticked (page), ==, 0);
}

/* Ticked by its key where the focus is, and the walk goes on from there. Without a focused line it only goes to one. */
static void
test_tick_of_the_run (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "parts");

  gtk_window_set_focus (GTK_WINDOW (book->window), NULL);
  press (book, GDK_KEY_plus);
  g_assert_cmpint (focused_at (book, page), ==, 0);
  g_assert_cmpuint (count_ticked (page), ==, 0);
  press (book, GDK_KEY_Down);
  press (book, GDK_KEY_plus);
  g_assert_cmpint (focused_at (book, page), ==, 1);
  g_assert_cmpuint (count_ticked (page), ==, 1);
  press (book, GDK_KEY_Down);
  g_assert_cmpint (focused_at (book, page), ==, 2);
  g_assert_cmpuint (count_ticked (page), ==, 1);
  hs_app_test_picture (GTK_WIDGET (book->window), "parts-run-walked");
  press (book, GDK_KEY_Up);
  press (book, GDK_KEY_KP_Add);
  g_assert_cmpuint (count_ticked (page), ==, 0);
}

/* The line with the focus is seen whole. */
static void
assert_seen (AppBook *book, GtkWidget *page)
{
  g_autoptr (GPtrArray) lines = lines_of (page);
  GtkWidget *scroller = hs_app_test_find (page, GTK_TYPE_SCROLLED_WINDOW);
  int at = focused_at (book, page);
  graphene_rect_t bounds;

  g_assert_cmpint (at, >=, 0);
  g_assert_true (gtk_widget_compute_bounds (g_ptr_array_index (lines, (guint) at), scroller, &bounds));
  g_test_message ("line %d from %g on, %g high", at, (double) bounds.origin.y, (double) bounds.size.height);
  g_assert_cmpfloat (bounds.size.height, >, 0);
  g_assert_cmpfloat (bounds.origin.y, >=, 0);
  g_assert_cmpfloat (bounds.origin.y + bounds.size.height, <=, gtk_widget_get_height (scroller));
}

/* On a small screen: where a line is ticked, there the page stays. */
static void
test_ticks_stay_in_sight (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "parts");
  GtkAdjustment *down;
  g_autoptr (GPtrArray) lines = lines_of (page);
  guint last = lines->len - 1;
  double value = 0;

  gtk_window_set_default_size (GTK_WINDOW (book->window), 1024, 600);
  hs_app_test_wait (gtk_widget_get_height (GTK_WIDGET (book->window)) <= 600);
  app_book_settle (book);
  down = gtk_scrolled_window_get_vadjustment (
    GTK_SCROLLED_WINDOW (hs_app_test_find (page, GTK_TYPE_SCROLLED_WINDOW)));
  gtk_window_set_focus (GTK_WINDOW (book->window), NULL);
  for (guint at = 0; at <= last; at++)
    {
      press (book, GDK_KEY_Down);
      hs_app_test_frames ();
      assert_seen (book, page);
      value = gtk_adjustment_get_value (down);
      press (book, GDK_KEY_plus);
      hs_app_test_frames ();
      g_assert_cmpint (focused_at (book, page), ==, (int) at);
      g_assert_cmpuint (count_ticked (page), ==, at + 1);
      g_assert_cmpfloat (gtk_adjustment_get_value (down), ==, value);
      assert_seen (book, page);
      hs_app_test_picture (GTK_WIDGET (book->window), "parts-run-small");
    }
  g_assert_cmpfloat (value, >, 0);
  for (guint at = last; at > 0; at--)
    {
      press (book, GDK_KEY_Up);
      hs_app_test_frames ();
      assert_seen (book, page);
    }
}

/* The windows that are read scroll from wherever the focus is, as far as there is anything to read. */
static void
assert_scrolls (AppBook *book, GtkWindow *window)
{
  static const struct
  {
    guint down, up;
  } rows[] = {
    { GDK_KEY_Down, GDK_KEY_Up },
    { GDK_KEY_KP_Down, GDK_KEY_KP_Up },
    { GDK_KEY_Page_Down, GDK_KEY_Page_Up },
    { GDK_KEY_End, GDK_KEY_Home },
  };
  GtkWidget *scroller = hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_SCROLLED_WINDOW);
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  double end;

  hs_app_test_wait (gtk_adjustment_get_upper (down) > gtk_adjustment_get_page_size (down));
  hs_app_test_frames ();
  g_assert_nonnull (gtk_window_get_focus (window));
  end = gtk_adjustment_get_upper (down) - gtk_adjustment_get_page_size (down);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpfloat (gtk_adjustment_get_value (down), ==, 0);
      g_assert_true (hs_app_test_key (gtk_window_get_focus (window), rows[i].down, 0));
      g_assert_cmpfloat (gtk_adjustment_get_value (down), >, 0);
      if (rows[i].down == GDK_KEY_End)
        g_assert_cmpfloat (gtk_adjustment_get_value (down), ==, end);
      g_assert_true (hs_app_test_key (gtk_window_get_focus (window), rows[i].up, 0));
    }
  g_assert_cmpfloat (gtk_adjustment_get_value (down), ==, 0);
  g_assert_false (hs_app_test_key (gtk_window_get_focus (window), GDK_KEY_Down, GDK_CONTROL_MASK));
}

static GtkWindow *
find_over (AppBook *book, GType type)
{
  g_autoptr (GList) tops = gtk_window_list_toplevels ();

  for (GList *at = tops; at != NULL; at = at->next)
    if (g_type_is_a (G_OBJECT_TYPE (at->data), type))
      return at->data;
  return NULL;
}

static void
test_read_windows_scroll (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *action;
    GType (*type) (void);
  } rows[] = { { "win.why", hs_why_window_get_type }, { "win.share", hs_share_window_get_type } };

  app_book_show (book, "today");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 1024, 400);
  hs_app_test_wait (gtk_widget_get_height (GTK_WIDGET (book->window)) <= 600);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWindow *window;

      g_test_message ("%s", rows[i].action);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), rows[i].action, NULL));
      app_book_settle (book);
      window = find_over (book, rows[i].type ());
      g_assert_nonnull (window);
      assert_scrolls (book, window);
      hs_app_test_picture (GTK_WIDGET (window), rows[i].action);
      gtk_window_destroy (window);
      app_book_settle (book);
    }
}

/* One key goes through the tabs of a job, round about and with the cursor, whatever has it. */
static void
test_tabs_of_a_job (AppBook *book, gconstpointer data)
{
  static const char *const tabs[] = { "findings", "choices", "bill", "after", "call" };
  GtkWidget *page = app_book_open_job (book, "A-0024", "call");
  GtkStack *stack = hs_job_page_get_stack (HS_JOB_PAGE (page));

  for (guint i = 0; i < G_N_ELEMENTS (tabs); i++)
    {
      GtkWidget *focus;

      app_book_press (book, i % 2 == 0 ? GDK_KEY_Page_Down : GDK_KEY_KP_Page_Down);
      app_book_settle (book);
      g_assert_cmpstr (gtk_stack_get_visible_child_name (stack), ==, tabs[i]);
      focus = gtk_root_get_focus (GTK_ROOT (book->window));
      g_assert_true (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (stack)));
    }
  app_book_press (book, GDK_KEY_Page_Up);
  g_assert_cmpstr (gtk_stack_get_visible_child_name (stack), ==, "after");
}

/* An arrow goes from one tick to the next, or stays; it never ticks. */
static void
test_arrows_tick_nothing (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *checks[] = { hs_act_check_new (), hs_act_check_new () };
  GtkWindow *window;

  for (guint i = 0; i < G_N_ELEMENTS (checks); i++)
    {
      gtk_check_button_set_label (GTK_CHECK_BUTTON (checks[i]), "Hose");
      gtk_check_button_set_active (GTK_CHECK_BUTTON (checks[i]), TRUE);
      gtk_box_append (GTK_BOX (box), checks[i]);
    }
  window = hs_app_test_show (box, 360, 200);
  gtk_widget_grab_focus (checks[0]);
  for (guint i = 0; i < 3; i++)
    {
      gtk_widget_child_focus (GTK_WIDGET (window), GTK_DIR_DOWN);
      g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (checks[0])));
      g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (checks[1])));
      if (i == 0)
        g_assert_true (gtk_widget_is_focus (checks[1]));
    }
  gtk_window_destroy (window);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/keys/tabs-of-a-job", test_tabs_of_a_job);
  g_test_add_func ("/keys/arrows-tick-nothing", test_arrows_tick_nothing);
  ADD ("/keys/lines-of-the-run", test_lines_of_the_run);
  ADD ("/keys/tick-of-the-run", test_tick_of_the_run);
  ADD ("/keys/ticks-stay-in-sight", test_ticks_stay_in_sight);
  ADD ("/keys/read-windows-scroll", test_read_windows_scroll);
  return g_test_run ();
}
