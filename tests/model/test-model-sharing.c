// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* HsSharing: found in the background, accepted, taken back, refused, given up. The demo morning is best driven by van A
 * alone (that is what plan --share proves); here A-0024 is given to van B first. */

#include "hs-demo.h"
#include "hs-job-row.h"
#include "hs-sharing.h"
#include "hs-van-row.h"
#include "model-book.h"

typedef struct
{
  HsSharing *sharing;
  HsSharingState state;
  guint told;
} Wait;

static gboolean
has_come (gpointer data)
{
  const Wait *wait = data;

  return hs_sharing_get_state (wait->sharing) == wait->state;
}

static void
wait_for (HsSharing *sharing, HsSharingState state)
{
  Wait wait = { sharing, state };

  model_wait (has_come, &wait);
  g_assert_cmpint (hs_sharing_get_state (sharing), ==, state);
}

/* As another program would. */
static void
give (ModelBook *book, const char *number, const char *letter)
{
  g_autoptr (HsBook) other = model_other_book (book);
  HsStore *store = hs_book_get_store (other);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (GError) error = NULL;

  hs_store_begin (store, hs_demo_get_now (), &error);
  hs_job_row_find (store, number, &job, &error);
  hs_van_row_find (store, letter, &van, &error);
  g_assert_no_error (error);
  hs_row_set (&job->van_id, van->id);
  hs_job_row_save (store, job, &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
}

static void
assert_has (ModelBook *book, const char *number, const char *letter)
{
  g_autoptr (HsBook) other = model_other_book (book);
  HsStore *store = hs_book_get_store (other);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (GError) error = NULL;

  hs_job_row_find (store, number, &job, &error);
  hs_van_row_load (store, job->van_id, &van, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (van->letter, ==, letter);
}

static HsSharing *
found_on (ModelBook *book, int days_ahead)
{
  HsSharing *sharing = hs_sharing_new (book->ledger, hs_ledger_get_today (book->ledger) + days_ahead);

  hs_sharing_begin (sharing);
  g_assert_cmpint (hs_sharing_get_state (sharing), ==, HS_SHARING_LOADING);
  g_assert_null (hs_sharing_get_plan (sharing));
  wait_for (sharing, HS_SHARING_FOUND);
  return sharing;
}

static HsSharing *
found_sharing (ModelBook *book)
{
  return found_on (book, 0);
}

/* Whether it could be taken back by one who asks only now. */
static void
assert_can_take_back (ModelBook *book, int days_ahead, gboolean can)
{
  g_autoptr (HsSharing) sharing = found_on (book, days_ahead);

  g_assert_cmpint (hs_sharing_can_take_back (sharing), ==, can);
}

static void
put_off (ModelBook *book, const char *number)
{
  g_autoptr (HsBook) other = model_other_book (book);
  HsStore *store = hs_book_get_store (other);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GError) error = NULL;

  hs_store_begin (store, hs_demo_get_now (), &error);
  hs_job_row_find (store, number, &job, &error);
  g_assert_no_error (error);
  job->day += 1;
  job->window_from += 24 * 3600;
  job->window_to += 24 * 3600;
  hs_job_row_save (store, job, &error);
  hs_store_commit (store, &error);
  g_assert_no_error (error);
}

static void
count_cb (HsSharing *sharing, gpointer data)
{
  Wait *wait = data;

  wait->told += hs_sharing_get_state (sharing) == HS_SHARING_SEARCHING && hs_sharing_get_plan (sharing) != NULL;
}

static void
test_found (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) sharing = hs_sharing_new (book->ledger, hs_ledger_get_today (book->ledger));
  Wait wait = { sharing, HS_SHARING_FOUND, 0 };
  const HsSharePlan *plan;

  give (book, "A-0024", "B");
  g_signal_connect (sharing, "changed", G_CALLBACK (count_cb), &wait);
  hs_sharing_begin (sharing);
  model_wait (has_come, &wait);
  /* The best so far was shown before the search was over. */
  g_assert_cmpuint (wait.told, >, 0);
  plan = hs_sharing_get_plan (sharing);
  g_assert_true (plan->proven);
  g_assert_cmpuint (plan->moves->len, ==, 1);
  g_assert_cmpstr (((HsShareMove *) g_ptr_array_index (plan->moves, 0))->number, ==, "A-0024");
  g_assert_cmpint (plan->total.cents, ==, 76439);
  g_assert_null (hs_sharing_get_trouble (sharing));
}

static void
test_accept (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) sharing = NULL;

  give (book, "A-0024", "B");
  sharing = found_sharing (book);
  hs_sharing_take_back (sharing);
  wait_for (sharing, HS_SHARING_FOUND);
  g_assert_nonnull (strstr (hs_sharing_get_trouble (sharing), "nothing to take back"));
  hs_sharing_accept (sharing);
  g_assert_cmpint (hs_sharing_get_state (sharing), ==, HS_SHARING_WRITING);
  wait_for (sharing, HS_SHARING_ACCEPTED);
  assert_has (book, "A-0024", "A");
  hs_sharing_take_back (sharing);
  wait_for (sharing, HS_SHARING_FOUND);
  assert_has (book, "A-0024", "B");
  hs_sharing_accept (sharing);
  wait_for (sharing, HS_SHARING_ACCEPTED);
  assert_has (book, "A-0024", "A");
}

/* The day has changed under it: the plan stays to be looked at, and another search finds the new one. */
static void
test_refused (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) sharing = NULL;

  give (book, "A-0024", "B");
  sharing = found_sharing (book);
  give (book, "A-0023", "B");
  hs_sharing_accept (sharing);
  wait_for (sharing, HS_SHARING_FOUND);
  g_assert_nonnull (g_strstr_len (hs_sharing_get_trouble (sharing), -1, "The day has changed"));
  g_assert_nonnull (hs_sharing_get_plan (sharing));
  assert_has (book, "A-0024", "B");
  hs_sharing_begin (sharing);
  wait_for (sharing, HS_SHARING_FOUND);
  g_assert_null (hs_sharing_get_trouble (sharing));
  g_assert_cmpuint (hs_sharing_get_plan (sharing)->moves->len, ==, 2);
}

static void
test_failed (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) sharing = hs_sharing_new (book->ledger, hs_ledger_get_today (book->ledger) - 1);

  hs_sharing_begin (sharing);
  wait_for (sharing, HS_SHARING_FAILED);
  g_assert_nonnull (g_strstr_len (hs_sharing_get_trouble (sharing), -1, "over"));
  hs_sharing_accept (sharing);
  g_assert_cmpint (hs_sharing_get_state (sharing), ==, HS_SHARING_FAILED);
}

/* Begun twice in a row only the second counts; dropped in the middle nothing comes of it. */
static void
test_dropped (ModelBook *book, gconstpointer data)
{
  HsSharing *sharing = hs_sharing_new (book->ledger, hs_ledger_get_today (book->ledger));

  hs_sharing_begin (sharing);
  hs_sharing_begin (sharing);
  wait_for (sharing, HS_SHARING_FOUND);
  hs_sharing_begin (sharing);
  wait_for (sharing, HS_SHARING_SEARCHING);
  hs_sharing_stop (sharing);
  g_assert_finalize_object (sharing);
  g_usleep (100000);
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

/* The one that accepted is gone; another finds what can be taken back, but not for another day. */
static void
test_take_back_later (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) first = NULL, later = NULL;

  give (book, "A-0024", "B");
  first = found_sharing (book);
  g_assert_false (hs_sharing_can_take_back (first));
  hs_sharing_accept (first);
  wait_for (first, HS_SHARING_ACCEPTED);
  g_assert_true (hs_sharing_can_take_back (first));
  g_clear_object (&first);
  assert_can_take_back (book, 0, TRUE);
  assert_can_take_back (book, 1, FALSE);
  later = hs_sharing_new (book->ledger, hs_ledger_get_today (book->ledger));
  hs_sharing_take_back (later);
  wait_for (later, HS_SHARING_FOUND);
  assert_has (book, "A-0024", "B");
  g_assert_false (hs_sharing_can_take_back (later));
  assert_can_take_back (book, 0, FALSE);
}

/* Two days, taken back in the order in which they were accepted: neither forgets the other. */
static void
test_two_days (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) first = NULL, second = NULL;

  give (book, "A-0024", "B");
  put_off (book, "A-0026");
  first = found_sharing (book);
  hs_sharing_accept (first);
  wait_for (first, HS_SHARING_ACCEPTED);
  second = found_on (book, 1);
  hs_sharing_accept (second);
  wait_for (second, HS_SHARING_ACCEPTED);
  hs_sharing_take_back (first);
  wait_for (first, HS_SHARING_FOUND);
  assert_has (book, "A-0024", "B");
  assert_can_take_back (book, 0, FALSE);
  assert_can_take_back (book, 1, TRUE);
}

/* Accepted twice, taken back twice. */
static void
test_twice (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) first = NULL, second = NULL;

  give (book, "A-0024", "B");
  first = found_sharing (book);
  hs_sharing_accept (first);
  wait_for (first, HS_SHARING_ACCEPTED);
  second = found_sharing (book);
  hs_sharing_accept (second);
  wait_for (second, HS_SHARING_ACCEPTED);
  hs_sharing_take_back (second);
  wait_for (second, HS_SHARING_FOUND);
  g_assert_true (hs_sharing_can_take_back (second));
  assert_has (book, "A-0024", "A");
  hs_sharing_take_back (second);
  wait_for (second, HS_SHARING_LOADING);
  wait_for (second, HS_SHARING_FOUND);
  g_assert_false (hs_sharing_can_take_back (second));
  assert_has (book, "A-0024", "B");
}

static void
opened_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  hs_ledger_open_finish (HS_LEDGER (source), result, &error);
  g_assert_no_error (error);
}

/* The book was shut and opened again; and a sharing of the book that was shut leaves the one that is open alone. */
static void
test_take_back_after_shutting (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) first = NULL, later = NULL;
  g_autofree char *elsewhere = g_build_filename (book->folder, "elsewhere.hsbook", NULL);

  give (book, "A-0024", "B");
  first = found_sharing (book);
  hs_sharing_accept (first);
  wait_for (first, HS_SHARING_ACCEPTED);
  hs_ledger_open_async (book->ledger, elsewhere, HS_LEDGER_DEMO, NULL, opened_cb, NULL);
  hs_ledger_wait (book->ledger);
  hs_sharing_take_back (first);
  g_assert_cmpint (hs_sharing_get_state (first), ==, HS_SHARING_ACCEPTED);
  hs_ledger_open_async (book->ledger, book->path, HS_LEDGER_OPEN, NULL, opened_cb, NULL);
  hs_ledger_wait (book->ledger);
  later = found_sharing (book);
  g_assert_true (hs_sharing_can_take_back (later));
  hs_sharing_take_back (later);
  wait_for (later, HS_SHARING_LOADING);
  wait_for (later, HS_SHARING_FOUND);
  assert_has (book, "A-0024", "B");
}

/* After a search of its own it searches again: what it found was found for the shared day. */
static void
test_take_back_after_a_search (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) first = NULL, later = NULL;

  give (book, "A-0024", "B");
  first = found_sharing (book);
  hs_sharing_accept (first);
  wait_for (first, HS_SHARING_ACCEPTED);
  later = found_sharing (book);
  g_assert_cmpuint (hs_sharing_get_plan (later)->moves->len, ==, 0);
  hs_sharing_take_back (later);
  wait_for (later, HS_SHARING_LOADING);
  wait_for (later, HS_SHARING_FOUND);
  assert_has (book, "A-0024", "B");
  g_assert_cmpuint (hs_sharing_get_plan (later)->moves->len, ==, 1);
  hs_sharing_accept (later);
  wait_for (later, HS_SHARING_ACCEPTED);
  assert_has (book, "A-0024", "A");
}

/* The call has gone on since: refused, and it can be tried again. */
static void
test_take_back_later_refused (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsSharing) first = NULL, later = NULL;

  give (book, "A-0024", "B");
  first = found_sharing (book);
  hs_sharing_accept (first);
  wait_for (first, HS_SHARING_ACCEPTED);
  give (book, "A-0024", "B");
  later = found_sharing (book);
  hs_sharing_take_back (later);
  wait_for (later, HS_SHARING_FOUND);
  g_assert_nonnull (strstr (hs_sharing_get_trouble (later), "cannot be taken back"));
  g_assert_true (hs_sharing_can_take_back (later));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add (path, ModelBook, NULL, model_book_open, func, model_book_close)
  ADD ("/model/sharing/found", test_found);
  ADD ("/model/sharing/accept", test_accept);
  ADD ("/model/sharing/take-back-later", test_take_back_later);
  ADD ("/model/sharing/two-days", test_two_days);
  ADD ("/model/sharing/twice", test_twice);
  ADD ("/model/sharing/take-back-after-shutting", test_take_back_after_shutting);
  ADD ("/model/sharing/take-back-after-a-search", test_take_back_after_a_search);
  ADD ("/model/sharing/take-back-later-refused", test_take_back_later_refused);
  ADD ("/model/sharing/refused", test_refused);
  ADD ("/model/sharing/failed", test_failed);
  ADD ("/model/sharing/dropped", test_dropped);
  return g_test_run ();
}
