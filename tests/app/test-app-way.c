// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* On the way: what F4 brings when the van rolls off, what it says on the demo morning, and how it goes. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-job-page.h"
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
  ADD ("/way/fits-a-phone", test_fits_a_phone);
  return g_test_run ();
}
