// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* On the way: what F4 brings when the van rolls off, what it says on the demo morning, and how it goes. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-demo.h"
#include "hs-holiday-op.h"
#include "hs-job-page.h"
#include "hs-next-card.h"
#include "hs-roll-window.h"
#include "hs-safety-window.h"
#include "hs-call-slip-window.h"
#include "hs-way-window.h"

static GtkWidget *
get_way (void)
{
  return hs_app_test_window (HS_TYPE_WAY_WINDOW);
}

/* F4 on a job of the morning: promised to rolling. */
static GtkWidget *
roll (AppBook *book, const char *number)
{
  app_book_open_job (book, number, "call");
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (get_way () != NULL && hs_way_window_is_shown (HS_WAY_WINDOW (get_way ())));
  app_book_settle (book);
  return get_way ();
}

static void
press (AppBook *book, GtkWidget *window, const char *action)
{
  g_assert_true (gtk_widget_activate_action (window, action, NULL));
  app_book_settle (book);
}

static void
assert_says (GtkWidget *widget, const char *text)
{
  if (!hs_app_test_says_part (widget, text))
    g_error ("not shown: %s", text);
}

/* Where to is the largest line; the promise, the counter on the way; nothing to type. Esc leaves the job rolling. */
static void
test_one_large_line (AppBook *book, gconstpointer data)
{
  GtkWidget *way = roll (book, "A-0021");

  assert_says (way, "Marguerite Stane");
  assert_says (way, "Old Market");
  assert_says (way, "there 08:");
  assert_says (way, "promised 08:00");
  assert_says (way, "First Larch");
  g_assert_null (hs_app_test_find (way, GTK_TYPE_EDITABLE));
  g_assert_false (hs_app_test_says (way, "Stop, then ring them"));
  hs_app_test_picture (way, "way");
  press (book, way, "way.close");
  hs_app_test_wait (get_way () == NULL);
  g_assert_true (hs_app_test_says_part (hs_window_get_job (book->window), "Marguerite Stane"));
}

/* A promise of another day says so. */
static void
test_another_day (AppBook *book, gconstpointer data)
{
  HsInstant evening = hs_instant_from_local (hs_ledger_get_zone (book->ledger),
                                             hs_ledger_get_today (book->ledger) - 1, 20 * 60);

  hs_clock_freeze_at (hs_window_get_clock (book->window), evening);
  app_book_settle (book);
  assert_says (roll (book, "A-0021"), "promised Mar 10, 08:00");
}

/* F4 there is the next stage: the line goes, the safety list comes. */
static void
test_arrives (AppBook *book, gconstpointer data)
{
  press (book, roll (book, "A-0021"), "way.arrived");
  hs_app_test_wait (get_way () == NULL);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_SAFETY_WINDOW) != NULL);
}

/* Moved on elsewhere, the line has nothing to say any more. */
static void
test_goes_with_the_stage (AppBook *book, gconstpointer data)
{
  roll (book, "A-0021");
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (get_way () == NULL);
}

/* A caller comes first. */
static void
test_call (AppBook *book, gconstpointer data)
{
  press (book, roll (book, "A-0021"), "way.call");
  hs_app_test_wait (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW) != NULL);
  g_assert_nonnull (get_way ());
}

static GtkWidget *
get_question (void)
{
  return hs_app_test_window (HS_TYPE_ROLL_WINDOW);
}

static gboolean
is_rolling (AppBook *book)
{
  return hs_app_test_button (hs_window_get_job (book->window), "Rolling") != NULL;
}

static guint
count_over (AppBook *book)
{
  g_autoptr (GList) tops = gtk_window_list_toplevels ();
  guint n = 0;

  for (GList *at = tops; at != NULL; at = at->next)
    n += gtk_widget_get_visible (at->data) && gtk_window_get_transient_for (at->data) == GTK_WINDOW (book->window);
  return n;
}

/* Pressed twice where nothing is to be asked: it rolls, and nothing is refused. */
static void
test_twice (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0021", "call");
  app_book_press (book, GDK_KEY_F4);
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (get_way () != NULL);
  app_book_settle (book);
  g_assert_cmpuint (count_over (book), ==, 1);
}

/* A-0023 before its turn: whose promise it breaks stands there before the van rolls. Esc stays, and the cursor is where
 * it was; F4 and Enter, which a hand presses twice, say nothing to it; 1 rolls. */
static void
test_breaks_a_promise (AppBook *book, gconstpointer data)
{
  GtkWidget *focus;

  app_book_open_job (book, "A-0023", "call");
  focus = gtk_window_get_focus (GTK_WINDOW (book->window));
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (get_question () != NULL);
  assert_says (get_question (), "Roll to A-0023 now?");
  assert_says (get_question (), "A-0021 · Marguerite Stane · 555-0122 · promised by 10:00");
  assert_says (get_question (), " min late");
  hs_app_test_picture (get_question (), "roll");
  app_book_press_in (get_question (), GDK_KEY_Escape);
  hs_app_test_wait (get_question () == NULL);
  app_book_settle (book);
  g_assert_null (get_way ());
  g_assert_false (is_rolling (book));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (book->window)) == focus);
  /* Held or pressed twice. */
  app_book_press (book, GDK_KEY_F4);
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (get_question () != NULL);
  app_book_settle (book);
  g_assert_cmpuint (count_over (book), ==, 1);
  app_book_press_in (get_question (), GDK_KEY_F4);
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (get_question ())), GDK_KEY_Return, 0));
  app_book_settle (book);
  g_assert_nonnull (get_question ());
  g_assert_false (is_rolling (book));
  app_book_press_in (get_question (), GDK_KEY_KP_1);
  hs_app_test_wait (get_way () != NULL && get_question () == NULL);
  app_book_settle (book);
  g_assert_true (is_rolling (book));
}

/* The window of stages is no way round it. */
static void
test_breaks_by_stage (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0023", "call");
  g_assert_true (gtk_widget_activate_action (hs_window_get_job (book->window), "page.stages", NULL));
  app_book_settle (book);
  app_book_keys (book, "F4");
  hs_app_test_wait (get_question () != NULL);
  app_book_keys (book, "\x1b");
  hs_app_test_wait (get_question () == NULL);
  g_assert_false (is_rolling (book));
}

static void
shut_larch (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);
  g_autoptr (HsHolidayUndo) done = hs_holiday_add (other, "Larch & Weir Auto Electrical", "2026-03-10", "", "",
                                                   "stocktaking", hs_demo_get_now (), &error);

  g_assert_no_error (error);
}

/* A counter that does not open today is said by the card of what is next, before the van rolls and at the wheel. */
static void
test_shut_counter (AppBook *book, gconstpointer data)
{
  static const char words[] = "Larch & Weir Auto Electrical is shut until Wed, Mar 11, 08:00: starter for A-0021";
  GtkWidget *page;

  shut_larch (book);
  page = app_book_show (book, "jobs");
  hs_app_test_wait (hs_app_test_says_part (hs_app_test_find (page, HS_TYPE_NEXT_CARD), words));
  app_book_open_job (book, "A-0021", "call");
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (get_question () != NULL);
  assert_says (get_question (), words);
  app_book_press_in (get_question (), GDK_KEY_KP_1);
  hs_app_test_wait (get_way () != NULL && hs_way_window_is_shown (HS_WAY_WINDOW (get_way ())));
  assert_says (get_way (), words);
}

static void
test_fits_a_phone (AppBook *book, gconstpointer data)
{
  GtkWidget *way;
  int least;

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 640);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  way = roll (book, "A-0022");
  gtk_widget_measure (way, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  hs_app_test_picture (way, "way-360");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/way/one-large-line", test_one_large_line);
  ADD ("/way/another-day", test_another_day);
  ADD ("/way/arrives", test_arrives);
  ADD ("/way/goes-with-the-stage", test_goes_with_the_stage);
  ADD ("/way/call", test_call);
  ADD ("/way/twice", test_twice);
  ADD ("/way/breaks-a-promise", test_breaks_a_promise);
  ADD ("/way/breaks-by-stage", test_breaks_by_stage);
  ADD ("/way/shut-counter", test_shut_counter);
  ADD ("/way/fits-a-phone", test_fits_a_phone);
  return g_test_run ();
}
