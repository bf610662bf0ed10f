// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A window that is shut before the book has answered: what the book refuses is told in the window beneath, with what
 * was typed. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask-arrive.h"
#include "hs-job-page.h"
#include "hs-limit-window.h"
#include "hs-safety-window.h"
#include "hs-stage-window.h"

static GtkWidget *
beneath (AppBook *book)
{
  return GTK_WIDGET (book->window);
}

static void
shut (AppBook *book, GtkWidget *window)
{
  gtk_window_destroy (GTK_WINDOW (window));
  app_book_settle (book);
}

/* Asks, and is shut in the same moment. */
static void
ask_and_shut (AppBook *book, GtkWidget *window, const char *action)
{
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  g_assert_nonnull (window);
  g_assert_true (g_action_parse_detailed_name (action, &name, &target, NULL));
  g_assert_true (gtk_widget_activate_action_variant (window, name, target));
  shut (book, window);
}

static void
assert_told (AppBook *book, const char *why, const char *typed)
{
  g_assert_true (hs_app_test_says_part (beneath (book), "Not stored: "));
  g_assert_true (hs_app_test_says_part (beneath (book), why));
  if (typed != NULL)
    g_assert_true (hs_app_test_says_part (beneath (book), typed));
}

/* A limit without its source, with both figures. */
static void
test_limit (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  GtkWidget *window;

  app_book_type (book, "1");
  hs_findings_go (hs_job_page_get_findings (HS_JOB_PAGE (page)), "battery_rest", NULL);
  app_book_type (book, ".");
  window = hs_app_test_window (HS_TYPE_LIMIT_WINDOW);
  hs_limit_window_fill (HS_LIMIT_WINDOW (window), "1220", "1550", "", TRUE);
  ask_and_shut (book, window, "limit.write");
  assert_told (book, "who says so", "1220 – 1550");
  hs_app_test_picture (beneath (book), "late-limit");
}

/* A stage that cannot be: nothing is typed, so nothing is read back. */
static void
test_stage (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *window;

  g_assert_true (gtk_widget_activate_action (page, "page.stages", NULL));
  window = hs_app_test_window (HS_TYPE_STAGE_WINDOW);
  hs_stage_window_move (HS_STAGE_WINDOW (window), HS_STAGE_PROVEN);
  gtk_window_destroy (GTK_WINDOW (window));
  app_book_settle (book);
  assert_told (book, "A-0021", NULL);
  g_assert_false (hs_app_test_says_part (beneath (book), "Typed was"));
}

/* A line of high voltage that does not apply. */
static void
test_safety (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0026", "call");

  for (guint i = 0; i < 2; i++)
    app_book_next_stage (book, page);
  ask_and_shut (book, hs_app_test_window (HS_TYPE_SAFETY_WINDOW), "safety.answer::not_here");
  assert_told (book, "it always applies", NULL);
}

/* What was not refused is not told, and is in the book: all that the digit of the last line answers. */
static void
test_good (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  g_autoptr (HsQuestion) ask = NULL;
  const HsArrival *arrival;
  GtkWidget *window;

  for (guint i = 0; i < 2; i++)
    app_book_next_stage (book, page);
  window = hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
  g_assert_true (hs_app_test_key (gtk_window_get_focus (GTK_WINDOW (window)), GDK_KEY_6, 0));
  shut (book, window);
  g_assert_false (hs_app_test_says_part (beneath (book), "Not stored"));
  ask = hs_question_new (book->ledger, hs_ask_arrival, (GDestroyNotify) hs_arrival_free);
  hs_question_ask (ask, g_variant_new ("(s)", hs_job_page_get_job_id (HS_JOB_PAGE (page))));
  app_book_settle (book);
  arrival = hs_question_get (ask);
  g_assert_cmpuint (arrival->safety->lines->len, ==, 6);
  for (guint i = 0; i < arrival->safety->lines->len; i++)
    g_assert_cmpstr (((const HsSafetyLine *) g_ptr_array_index (arrival->safety->lines, i))->answer, ==, "done");
}

#define ADD(name, func) g_test_add ("/late/" name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  ADD ("limit", test_limit);
  ADD ("stage", test_stage);
  ADD ("safety", test_safety);
  ADD ("good", test_good);
  return g_test_run ();
}
