// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Ctrl+Z: the last thing that was done, on whatever page, and nothing older in its place; in a field what is typed. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-demo.h"
#include "hs-run-line.h"
#include "hs-time-strip.h"

static gboolean
is_locked (AppBook *book, guint index)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  g_autoptr (HsDayPlan) plan
    = hs_day_plan_standing (other, hs_ledger_get_today (book->ledger), NULL, HS_INSTANT_NONE, NULL);

  g_assert_nonnull (plan);
  return ((const HsPlannedStop *) g_ptr_array_index (plan->stops, index))->locked;
}

static void
act (AppBook *book, const char *action)
{
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), action, NULL));
  app_book_settle (book);
}

#define ASSERT_SAYS(book, text) g_assert_true (hs_app_test_says (GTK_WIDGET ((book)->window), text))

/* Nothing, then a lock from another page, then nothing again. */
static void
test_lock (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  act (book, "win.undo");
  ASSERT_SAYS (book, "Nothing was done that a key can take back.");
  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.lock");
  g_assert_true (is_locked (book, 0));
  app_book_show (book, "money");
  act (book, "win.undo");
  g_assert_false (is_locked (book, 0));
  ASSERT_SAYS (book, "Taken back: Larch & Weir Auto Electrical locked");
  act (book, "win.undo");
  ASSERT_SAYS (book, "Nothing was done that a key can take back.");
  g_assert_false (is_locked (book, 0));
  /* And the other way round. */
  app_book_show (book, "today");
  act (book, "win.lock");
  act (book, "win.lock");
  g_assert_false (is_locked (book, 0));
  act (book, "win.undo");
  g_assert_true (is_locked (book, 0));
  ASSERT_SAYS (book, "Taken back: Larch & Weir Auto Electrical unlocked");
}

/* A stage is not taken back by a key, and the lock before it is not taken back in its place. */
static void
test_nothing_older (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.lock");
  act (book, "win.next-stage");
  ASSERT_SAYS (book, "A-0021: Rolling");
  act (book, "win.undo");
  ASSERT_SAYS (book, "“A-0021: Rolling” can’t be taken back by a key.");
  g_assert_true (is_locked (book, 0));
}

static void
test_tick (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "parts");
  HsRunLine *line = HS_RUN_LINE (hs_app_test_find (page, HS_TYPE_RUN_LINE));

  hs_run_line_toggle (line);
  app_book_settle (book);
  line = HS_RUN_LINE (hs_app_test_find (page, HS_TYPE_RUN_LINE));
  g_assert_true (hs_run_line_get_ticked (line));
  app_book_show (book, "jobs");
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back: a tick of the parts run");
  page = app_book_show (book, "parts");
  g_assert_false (hs_run_line_get_ticked (HS_RUN_LINE (hs_app_test_find (page, HS_TYPE_RUN_LINE))));
}

/* What is typed is the field's own to take back. */
static void
test_typed (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today"), *entry;

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.lock");
  page = app_book_show (book, "vehicles");
  entry = hs_app_test_find (page, GTK_TYPE_ENTRY);
  g_assert_true (gtk_widget_grab_focus (entry));
  g_signal_emit_by_name (hs_app_test_find (entry, GTK_TYPE_TEXT), "insert-at-cursor", "0121");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "0121");
  act (book, "win.undo");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "");
  g_assert_true (is_locked (book, 0));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/undo/lock", test_lock);
  ADD ("/undo/nothing-older", test_nothing_older);
  ADD ("/undo/tick", test_tick);
  ADD ("/undo/typed", test_typed);
  return g_test_run ();
}
