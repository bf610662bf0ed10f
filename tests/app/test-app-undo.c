// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* F10: the last thing that was done, on whatever page, and nothing older in its place; in a field what is typed. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-call-form.h"
#include "hs-ask.h"
#include "hs-call-slip-window.h"
#include "hs-deed-arrive.h"
#include "hs-deed.h"
#include "hs-demo.h"
#include "hs-field-row.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-job-row.h"
#include "hs-roll-op.h"
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

static char *
dump_job (AppBook *book, const char *number)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  g_autofree char *job_id = hs_job_find (other, number, NULL);
  g_autoptr (HsJobView) view = hs_job_view_load (other, job_id, hs_demo_get_now (), NULL);

  g_assert_nonnull (view);
  return g_strdup_printf ("%s, %s", hs_stage_id (view->tag->stage), view->group != NULL ? view->group : "no group");
}

#define ASSERT_JOB(book, number, expected) \
  G_STMT_START \
  { \
    g_autofree char *hs_job = dump_job (book, number); \
    g_assert_cmpstr (hs_job, ==, expected); \
  } \
  G_STMT_END

/* Across jobs, pages and what is kept in the book or not: always the last thing first. */
static void
test_order (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.lock");
  act (book, "win.next-stage");
  ASSERT_SAYS (book, "A-0021: Rolling");
  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  ASSERT_JOB (book, "A-0024", "promised, will_not_start");
  app_book_show (book, "money");
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back on A-0024: complaint group: Will not start");
  ASSERT_JOB (book, "A-0024", "promised, no group");
  ASSERT_JOB (book, "A-0021", "rolling, no group");
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back on A-0021: stage: Rolling");
  ASSERT_JOB (book, "A-0021", "promised, no group");
  g_assert_true (is_locked (book, 0));
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back: Larch & Weir Auto Electrical locked");
  g_assert_false (is_locked (book, 0));
  act (book, "win.undo");
  ASSERT_SAYS (book, "Nothing was done that a key can take back.");
}

/* And once more, in the order in which it was done; what a key cannot do again is said. */
static void
test_again (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  act (book, "win.redo");
  ASSERT_SAYS (book, "Nothing was taken back since something was done last.");
  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.next-stage");
  act (book, "win.next-stage");
  ASSERT_JOB (book, "A-0021", "on_site, no group");
  act (book, "win.undo");
  act (book, "win.undo");
  ASSERT_JOB (book, "A-0021", "promised, no group");
  act (book, "win.redo");
  ASSERT_SAYS (book, "Done again on A-0021: stage: Rolling");
  act (book, "win.redo");
  ASSERT_JOB (book, "A-0021", "on_site, no group");
  act (book, "win.redo");
  ASSERT_SAYS (book, "Nothing was taken back since something was done last.");
}

/* Two presses at once are two steps. */
static void
test_fast (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.next-stage");
  act (book, "win.next-stage");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.undo", NULL));
  app_book_settle (book);
  ASSERT_JOB (book, "A-0021", "promised, no group");
}

/* The window was shut, or killed: the book knows what was done. */
static void
test_restart (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  app_book_type (book, "1242\n");
  app_book_close_window (book);
  app_book_open_window (book);
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back on A-0024: reading: Battery at rest, 12.42 V");
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back on A-0024: complaint group: Will not start");
  ASSERT_JOB (book, "A-0024", "promised, no group");
}

/* A row that another program changed since stays as it is, and nothing older goes in its place. */
static void
test_other_device (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "test", "there", 2, hs_demo_get_now () };
  g_autoptr (HsBook) other = NULL;
  g_autofree char *job_id = NULL;
  g_autoptr (HsJobRow) job = NULL;

  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  job_id = hs_job_find (other, "A-0024", NULL);
  g_assert_true (hs_store_begin (hs_book_get_store (other), hs_demo_get_now (), NULL));
  g_assert_true (hs_job_row_load (hs_book_get_store (other), job_id, &job, NULL));
  hs_row_set (&job->complaint_group, "overheats");
  g_assert_true (hs_store_end (hs_book_get_store (other), hs_job_row_save (hs_book_get_store (other), job, NULL),
                               NULL));
  g_clear_pointer (&other, hs_book_close);
  act (book, "win.undo");
  ASSERT_SAYS (book, "“complaint group: Will not start” can't be undone: the job was changed since");
  ASSERT_JOB (book, "A-0024", "promised, overheats");
}

/* A call that was taken stays; what was done before it is not taken back in its place by the same press. */
static void
test_call_taken (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today"), *slip;

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  act (book, "win.next-stage");
  act (book, "win.call-slip");
  slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  g_assert_nonnull (slip);
  gtk_editable_set_text (GTK_EDITABLE (hs_app_test_find (slip, GTK_TYPE_ENTRY)), "555-0199");
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
  act (book, "win.undo");
  ASSERT_SAYS (book, "“Call slip: “said nothing yet”” can’t be taken back by a key.");
  ASSERT_JOB (book, "A-0021", "rolling, no group");
  act (book, "win.undo");
  ASSERT_JOB (book, "A-0021", "promised, no group");
}

/* Squaring up is for good: that is said, and no step of another job goes in its place by the same press. */
static void
test_squared (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "test", "there", 2, hs_demo_get_now () };
  g_autoptr (HsBook) other = NULL;
  g_autofree char *job_id = NULL;
  HsInstant now = hs_demo_get_now ();
  g_autoptr (GError) error = NULL;
  GtkWidget *form;

  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  job_id = hs_job_find (other, "A-0021", NULL);
  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_ROLLING, NULL, now, &error)
                 && hs_job_move_stage (other, job_id, HS_STAGE_ON_SITE, NULL, now, &error)
                 && hs_job_price (other, job_id, NULL, now, &error)
                 && hs_go_ahead_add (other, job_id, 100000, "Marguerite", "phone", now, &error)
                 && hs_job_move_stage (other, job_id, HS_STAGE_PROVEN, "no power on the street", now, &error));
  g_assert_no_error (error);
  g_clear_pointer (&other, hs_book_close);
  app_book_open_job (book, "A-0021", "bill");
  act (book, "win.next-stage");
  app_book_keys (book, "\n");
  ASSERT_SAYS (book, "A-0021: Squared up");
  act (book, "win.undo");
  ASSERT_SAYS (book, "“A-0021: Squared up” can’t be taken back. Write a return visit or a credit.");
  ASSERT_JOB (book, "A-0024", "promised, will_not_start");
  /* What was said on the phone is squared up with it. */
  form = hs_app_test_find (app_book_open_job (book, "A-0021", "call"), HS_TYPE_CALL_FORM);
  g_assert_false (gtk_widget_is_sensitive (form));
  ASSERT_SAYS (book, "Squared up: nothing here can be changed any more.");
}

/* What the van left is squared up since: F10 takes the roll back and says what stays. */
static void
test_roll_from_squared (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "test", "there", 2, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *left = hs_job_find (other, "A-0021", NULL), *rolled = hs_job_find (other, "A-0022", NULL);
  HsInstant now = hs_demo_get_now ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (other, left, HS_STAGE_ROLLING, NULL, now - 3600, &error)
                 && hs_job_move_stage (other, left, HS_STAGE_ON_SITE, NULL, now - 3000, &error)
                 && hs_roll (other, rolled, NULL, TRUE, now - 1000, &error)
                 && hs_job_price (other, left, "had to go", now - 900, &error)
                 && hs_job_move_stage (other, left, HS_STAGE_PROVEN, "had to go", now - 800, &error)
                 && hs_job_square (other, left, now - 700, &error));
  g_assert_no_error (error);
  g_clear_pointer (&other, hs_book_close);
  app_book_show (book, "today");
  act (book, "win.undo");
  ASSERT_SAYS (book, "Taken back on A-0022: rolling, labor clock stopped: A-0021. The labor clock of what is squared up"
                     " stays as it is: A-0021.");
  hs_app_test_picture (GTK_WIDGET (book->window), "undo-squared");
  act (book, "win.redo");
  ASSERT_SAYS (book, "Done again on A-0022: rolling, labor clock stopped: A-0021. The labor clock of what is squared up"
                     " stays as it is: A-0021.");
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

static HsFieldRow *
field_of (GtkWidget *widget, const char *id)
{
  if (HS_IS_FIELD_ROW (widget) && g_str_equal (hs_field_row_get_id (HS_FIELD_ROW (widget)), id))
    return HS_FIELD_ROW (widget);
  for (GtkWidget *at = gtk_widget_get_first_child (widget); at != NULL; at = gtk_widget_get_next_sibling (at))
    {
      HsFieldRow *found = field_of (at, id);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* What another device writes into a field that has the cursor, and what was typed there and is in the book, is no
 * typing: F10 takes back what was done last, and the field keeps what the book has. */
static void
test_filled (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (page));
  HsFieldRow *odometer = field_of (page, "odometer");

  gtk_widget_grab_focus (GTK_WIDGET (odometer));
  hs_deed_identify (book->ledger, id, HS_IDENTIFY_ODOMETER, "104500", NULL, NULL, NULL);
  app_book_settle (book);
  g_assert_cmpstr (hs_field_row_get_text (odometer), ==, "104500");
  hs_deed_set_group (book->ledger, id, "drains", NULL, NULL);
  app_book_settle (book);
  act (book, "win.undo");
  g_assert_cmpstr (hs_field_row_get_text (odometer), ==, "104500");
  ASSERT_JOB (book, "A-0021", "promised, no group");

  gtk_editable_set_text (GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (book->window))), "104600");
  gtk_widget_grab_focus (GTK_WIDGET (field_of (page, "plate")));
  app_book_settle (book);
  gtk_widget_grab_focus (GTK_WIDGET (odometer));
  hs_deed_set_group (book->ledger, id, "drains", NULL, NULL);
  app_book_settle (book);
  act (book, "win.undo");
  g_assert_cmpstr (hs_field_row_get_text (odometer), ==, "104600");
  ASSERT_JOB (book, "A-0021", "promised, no group");
  /* And what is only typed is taken back as ever. */
  g_signal_emit_by_name (gtk_window_get_focus (GTK_WINDOW (book->window)), "insert-at-cursor", "9");
  g_assert_cmpstr (hs_field_row_get_text (odometer), !=, "104600");
  act (book, "win.undo");
  g_assert_cmpstr (hs_field_row_get_text (odometer), ==, "104600");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/undo/lock", test_lock);
  ADD ("/undo/order", test_order);
  ADD ("/undo/again", test_again);
  ADD ("/undo/fast", test_fast);
  ADD ("/undo/restart", test_restart);
  ADD ("/undo/other-device", test_other_device);
  ADD ("/undo/call-taken", test_call_taken);
  ADD ("/undo/squared", test_squared);
  ADD ("/undo/roll-from-squared", test_roll_from_squared);
  ADD ("/undo/tick", test_tick);
  ADD ("/undo/typed", test_typed);
  ADD ("/undo/filled", test_filled);
  return g_test_run ();
}
