// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The queue of the endpoint: what gets into it, with which revision and key, in which order it is taken, and that it is
 * written with what it tells of or not at all. */

#include <string.h>

#include "book.h"
#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-money-row.h"
#include "hs-outbox-row.h"
#include "hs-store-private.h"
#include "hs-undo.h"

typedef struct
{
  char *folder;
  HsStore *store;
  GError *error;
} Place;

static void
switch_on (Place *place, const char *device)
{
  g_autoptr (HsPostDeviceRow) row = hs_post_device_row_new ();

  hs_row_set (&row->id, device);
  hs_row_set (&row->name, "bench");
  row->since = 1;
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
  g_assert_true (hs_post_device_row_save (place->store, row, &place->error));
  g_assert_true (hs_store_commit (place->store, &place->error));
}

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->store = test_book_new (place->folder);
  hs_store_set_device (place->store, "this");
}

static void
set_up_on (Place *place, gconstpointer data)
{
  set_up (place, data);
  switch_on (place, "this");
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_assert_no_error (place->error);
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

static gint64
count (Place *place, const char *where)
{
  g_autofree char *query = g_strdup_printf ("SELECT count (*) FROM outbox WHERE %s", where);

  return test_int (place->store->db, query);
}

static void
begin_at (Place *place, HsInstant now)
{
  g_assert_true (hs_store_begin (place->store, now, &place->error));
}

static void
commit (Place *place)
{
  g_assert_true (hs_store_commit (place->store, &place->error));
}

static void
move_at (Place *place, const char *job_id, HsStage stage, HsInstant now)
{
  begin_at (place, now);
  hs_undo_note (place->store, job_id, "stage");
  g_assert_true (hs_job_row_move (place->store, job_id, stage, "x", &place->error));
  commit (place);
}

static HsOutboxRow *
find (Place *place, const char *job_id)
{
  HsOutboxRow *row = NULL;

  g_assert_true (hs_outbox_row_find (place->store, job_id, &row, &place->error));
  return row;
}

static void
test_off (Place *place, gconstpointer data)
{
  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  g_assert_cmpint (count (place, "1"), ==, 0);
  switch_on (place, "another");
  move_at (place, "open", HS_STAGE_ON_SITE, TEST_NOW);
  g_assert_cmpint (count (place, "1"), ==, 0);
  switch_on (place, "this");
  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  g_assert_cmpint (count (place, "job_id = 'open'"), ==, 1);
  hs_store_set_device (place->store, NULL);
  move_at (place, "open2", HS_STAGE_WAITING_PART, TEST_NOW);
  g_assert_cmpint (count (place, "1"), ==, 1);
}

static void
test_stage (Place *place, gconstpointer data)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsOutboxRow) row = NULL;

  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  row = find (place, "open");
  g_assert_cmpint (row->revision, ==, TEST_NOW);
  g_assert_cmpstr (row->state, ==, "waiting");
  g_assert_cmpint (row->queued_at, ==, TEST_NOW);
  g_assert_cmpint (row->tries, ==, 0);
  g_assert_true (row->next_at == HS_INSTANT_NONE && row->sent_at == HS_INSTANT_NONE);
  g_assert_null (row->body);
  g_assert_true (g_uuid_string_is_valid (row->id));
  /* Anything but the stage is no reason to post. */
  begin_at (place, TEST_NOW + 9);
  g_assert_true (hs_job_row_load (place->store, "open2", &job, &place->error));
  hs_row_set (&job->words, "other words");
  g_assert_true (hs_job_row_save (place->store, job, &place->error));
  commit (place);
  g_assert_cmpint (count (place, "1"), ==, 1);
}

static void
test_new_job (Place *place, gconstpointer data)
{
  g_autoptr (HsJobRow) job = hs_job_row_new ();

  begin_at (place, TEST_NOW);
  hs_row_set (&job->number, "A-0099");
  hs_row_set (&job->customer_id, "c1");
  hs_row_set (&job->words, "hums");
  g_assert_true (hs_job_row_save (place->store, job, &place->error));
  commit (place);
  g_assert_cmpint (count (place, "state = 'waiting'"), ==, 1);
  begin_at (place, TEST_NOW);
  g_assert_true (hs_job_row_delete (place->store, job->id, &place->error));
  commit (place);
  g_assert_cmpint (count (place, "1"), ==, 0);
}

static HsPaymentRow *
pay (Place *place, const char *job_id, HsInstant now)
{
  HsPaymentRow *payment = hs_payment_row_new ();

  begin_at (place, now);
  hs_row_set (&payment->job_id, job_id);
  hs_row_set (&payment->how, "cash");
  payment->at = now;
  payment->cents = 500;
  g_assert_true (hs_payment_row_save (place->store, payment, &place->error));
  commit (place);
  return payment;
}

static void
credit (Place *place, HsInstant now)
{
  g_autoptr (HsInvoiceRow) invoice = hs_invoice_row_new ();
  g_autoptr (GPtrArray) invoices = NULL;

  g_assert_true (hs_invoice_row_list_of (place->store, "squared", &invoices, &place->error));
  begin_at (place, now);
  hs_row_set (&invoice->number, "A-0004-C1");
  hs_row_set (&invoice->job_id, "squared");
  hs_row_set (&invoice->credits_id, ((HsInvoiceRow *) g_ptr_array_index (invoices, 0))->id);
  hs_row_set (&invoice->frozen, "-");
  hs_row_set (&invoice->sha256, "-");
  invoice->issued_on = invoice->due_on = 20000;
  invoice->net_cents = invoice->total_cents = -100;
  invoice->tax_cents = 0;
  g_assert_true (hs_invoice_row_save (place->store, invoice, &place->error));
  commit (place);
}

static void
test_money (Place *place, gconstpointer data)
{
  g_autoptr (HsPaymentRow) open = pay (place, "open", TEST_NOW);
  g_autoptr (HsPaymentRow) squared = NULL;
  g_autoptr (HsOutboxRow) first = NULL;
  g_autoptr (HsOutboxRow) second = NULL;
  g_autoptr (HsOutboxRow) third = NULL;

  g_assert_cmpint (count (place, "1"), ==, 0);
  squared = pay (place, "squared", TEST_NOW + 1);
  first = find (place, "squared");
  g_assert_cmpint (first->revision, ==, TEST_NOW + 1);
  credit (place, TEST_NOW + 2);
  second = find (place, "squared");
  g_assert_cmpint (second->revision, ==, TEST_NOW + 2);
  begin_at (place, TEST_NOW + 3);
  squared->taken = FALSE;
  g_assert_true (hs_payment_row_save (place->store, squared, &place->error));
  commit (place);
  third = find (place, "squared");
  g_assert_cmpint (third->revision, ==, TEST_NOW + 3);
  g_assert_cmpint (count (place, "1"), ==, 1);
}

/* A newer one takes the place of what is not sent: another key, a higher revision whatever the clock says, and since
 * when something is not sent stays. It goes behind those that wait. */
static void
test_replaced (Place *place, gconstpointer data)
{
  g_autoptr (HsOutboxRow) first = NULL;
  g_autoptr (HsOutboxRow) second = NULL;
  g_autoptr (HsOutboxRow) third = NULL;
  g_autoptr (HsOutboxRow) next = NULL;

  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  move_at (place, "open2", HS_STAGE_WAITING_PART, TEST_NOW);
  first = find (place, "open");
  move_at (place, "open", HS_STAGE_ON_SITE, TEST_NOW + 60);
  second = find (place, "open");
  g_assert_cmpstr (second->id, !=, first->id);
  g_assert_cmpint (second->revision, ==, TEST_NOW + 60);
  g_assert_cmpint (second->queued_at, ==, TEST_NOW);
  g_assert_true (hs_outbox_row_next (place->store, TEST_NOW + 60, &next, &place->error));
  g_assert_cmpstr (next->job_id, ==, "open2");
  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW - 86400);
  third = find (place, "open");
  g_assert_cmpint (third->revision, ==, TEST_NOW + 61);
  g_assert_cmpint (count (place, "1"), ==, 2);
}

static void
mark_sent (Place *place, const char *job_id, HsInstant at)
{
  g_autoptr (HsOutboxRow) row = find (place, job_id);

  begin_at (place, at);
  hs_row_set (&row->state, "sent");
  hs_row_set (&row->body, NULL);
  row->sent_at = at;
  row->sent_revision = row->revision;
  g_assert_true (hs_outbox_row_save (place->store, row, &place->error));
  commit (place);
}

static void
test_after_sent (Place *place, gconstpointer data)
{
  g_autoptr (HsOutboxRow) row = NULL;
  HsOutboxSums sums;

  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  mark_sent (place, "open", TEST_NOW + 5);
  g_assert_true (hs_outbox_sums_load (place->store, &sums, &place->error));
  g_assert_cmpint (sums.waiting, ==, 0);
  g_assert_true (sums.soonest == HS_INSTANT_NONE);
  move_at (place, "open", HS_STAGE_ON_SITE, TEST_NOW + 9);
  row = find (place, "open");
  g_assert_cmpstr (row->state, ==, "waiting");
  g_assert_cmpint (row->queued_at, ==, TEST_NOW + 9);
  g_assert_cmpint (row->revision, ==, TEST_NOW + 9);
  g_assert_cmpint (row->sent_at, ==, TEST_NOW + 5);
  g_assert_cmpint (row->sent_revision, ==, TEST_NOW);
}

/* Neither without the other. */
static void
test_together (Place *place, gconstpointer data)
{
  begin_at (place, TEST_NOW);
  g_assert_true (hs_job_row_move (place->store, "open", HS_STAGE_WAITING_PART, NULL, &place->error));
  g_assert_cmpint (count (place, "1"), ==, 1);
  hs_store_rollback (place->store);
  g_assert_cmpint (count (place, "1"), ==, 0);
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM job WHERE stage = 'waiting_part'"), ==, 0);
  begin_at (place, TEST_NOW);
  test_run (place->store->db, "CREATE TEMP TRIGGER full BEFORE INSERT ON main.outbox"
                              " BEGIN SELECT RAISE (ABORT, 'full'); END");
  g_assert_false (hs_job_row_move (place->store, "open", HS_STAGE_WAITING_PART, NULL, &place->error));
  g_clear_error (&place->error);
  hs_store_rollback (place->store);
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM job WHERE stage = 'waiting_part'"), ==, 0);
}

/* Taking a stage back is told too, and neither the queue nor what was sent is taken back with it. */
static void
test_undo (Place *place, gconstpointer data)
{
  g_autoptr (HsOutboxRow) row = NULL;
  g_autoptr (HsOutboxRow) again = NULL;

  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  mark_sent (place, "open", TEST_NOW + 1);
  g_assert_true (hs_undo_last (place->store, "open", TEST_NOW + 2, NULL, &place->error));
  row = find (place, "open");
  g_assert_cmpstr (row->state, ==, "waiting");
  g_assert_cmpint (row->revision, ==, TEST_NOW + 2);
  g_assert_cmpint (row->sent_revision, ==, TEST_NOW);
  g_assert_true (hs_undo_again (place->store, "open", TEST_NOW + 3, NULL, &place->error));
  again = find (place, "open");
  g_assert_cmpint (again->revision, ==, TEST_NOW + 3);
  g_assert_cmpint (count (place, "1"), ==, 1);
}

static void
test_bulk (Place *place, gconstpointer data)
{
  hs_store_set_bulk (place->store, TRUE);
  begin_at (place, TEST_NOW);
  g_assert_true (hs_job_row_move (place->store, "open", HS_STAGE_WAITING_PART, NULL, &place->error));
  commit (place);
  g_assert_cmpint (count (place, "1"), ==, 0);
  hs_store_set_bulk (place->store, FALSE);
}

static void
test_all (Place *place, gconstpointer data)
{
  guint n = 0;

  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  mark_sent (place, "open", TEST_NOW + 1);
  begin_at (place, TEST_NOW + 2);
  g_assert_true (hs_outbox_row_queue_all (place->store, &n, &place->error));
  commit (place);
  g_assert_cmpuint (n, ==, 3);
  g_assert_cmpint (count (place, "state = 'waiting'"), ==, 3);
  begin_at (place, TEST_NOW + 3);
  g_assert_true (hs_outbox_row_queue_all (place->store, &n, &place->error));
  commit (place);
  g_assert_cmpuint (n, ==, 0);
}

static int
step_cb (gpointer n)
{
  ++*(guint *) n;
  return 0;
}

/* What SQLite does, in its own steps, to look for one that waits, to sum up and to catch up, with @n_sent jobs that
 * were paid and told of. */
static void
count_steps (guint n_sent, guint *ret_look, guint *ret_catch_up)
{
  Place place = { 0 };
  g_autofree char *fill = g_strdup_printf (
    "CREATE TEMP TABLE n AS WITH RECURSIVE c (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM c WHERE i < %u)"
    " SELECT i FROM c;"
    "INSERT INTO job (id, number, customer_id, vehicle_id, stage, words, changed_at)"
    " SELECT 'j' || i, 'N-' || i, 'c1', 'v1', 'on_site', 'x', 1 FROM n;"
    "INSERT INTO payment (id, job_id, at, cents, how) SELECT 'p' || i, 'j' || i, 1, 100, 'cash' FROM n;"
    "INSERT INTO change_log (at, who, tbl, row_id, act) SELECT 1, 'halfshaft', 'payment', 'p' || i, 'added' FROM n;"
    "INSERT INTO outbox (id, job_id, revision, state, queued_at, sent_at, sent_revision)"
    " SELECT 'k' || i, 'j' || i, 5, 'sent', 5, 6, 5 FROM n", n_sent);
  g_autoptr (HsOutboxRow) none = NULL;
  HsOutboxSums sums;
  guint n;

  set_up_on (&place, NULL);
  test_run (place.store->db, fill);
  *ret_look = *ret_catch_up = 0;
  sqlite3_progress_handler (place.store->db, 1, step_cb, ret_look);
  g_assert_true (hs_outbox_row_next (place.store, 1000, &none, &place.error));
  g_assert_null (none);
  g_assert_true (hs_outbox_sums_load (place.store, &sums, &place.error));
  begin_at (&place, TEST_NOW);
  sqlite3_progress_handler (place.store->db, 1, step_cb, ret_catch_up);
  g_assert_true (hs_outbox_row_queue_all (place.store, &n, &place.error));
  sqlite3_progress_handler (place.store->db, 0, NULL, NULL);
  g_assert_cmpuint (n, ==, 4); /* those of every test book */
  commit (&place);
  g_test_message ("%u sent: %u steps to look, %u to catch up", n_sent, *ret_look, *ret_catch_up);
  tear_down (&place, NULL);
}

/* A year of jobs that were told of costs a message nothing, and catching up with them what they are. */
static void
test_work (void)
{
  guint look, more_look, catch_up, more_catch_up;

  count_steps (100, &look, &catch_up);
  count_steps (400, &more_look, &more_catch_up);
  g_assert_cmpuint (more_look, ==, look);
  g_assert_cmpuint (more_catch_up, <, 5 * catch_up);
}

#define WAITING(id, job, next) "('" id "', '" job "', 1, 'waiting', 10, " next ", NULL)"
#define PARKED(id, job) "('" id "', '" job "', 1, 'parked', 10, NULL, 'answered')"

static void
test_next (Place *place, gconstpointer data)
{
  g_autoptr (HsOutboxRow) row = NULL;
  g_autoptr (HsOutboxRow) none = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  HsOutboxSums sums;

  test_run (place->store->db,
            "INSERT INTO outbox (id, job_id, revision, state, queued_at, next_at, ended) VALUES "
            PARKED ("k1", "open") ", " WAITING ("k2", "open2", "100") ", " WAITING ("k3", "proven", "50"));
  g_assert_true (hs_outbox_row_next (place->store, 49, &none, &place->error));
  g_assert_null (none);
  g_assert_true (hs_outbox_row_next (place->store, 50, &row, &place->error));
  g_assert_cmpstr (row->id, ==, "k3");
  g_clear_pointer (&row, hs_outbox_row_free);
  g_assert_true (hs_outbox_row_next (place->store, 100, &row, &place->error));
  g_assert_cmpstr (row->id, ==, "k2");
  g_assert_true (hs_outbox_sums_load (place->store, &sums, &place->error));
  g_assert_cmpint (sums.waiting, ==, 2);
  g_assert_cmpint (sums.parked, ==, 1);
  g_assert_cmpint (sums.soonest, ==, 50);
  test_run (place->store->db, "UPDATE outbox SET body = '{}' WHERE id = 'k1'");
  g_assert_true (hs_outbox_row_list_unsent (place->store, 2, &rows, &place->error));
  g_assert_cmpuint (rows->len, ==, 2);
  g_assert_cmpstr (((HsOutboxRow *) g_ptr_array_index (rows, 0))->id, ==, "k1");
  g_assert_null (((HsOutboxRow *) g_ptr_array_index (rows, 0))->body);
}

#define TRIED(id, job, tries, tried, next, ended, status) \
  "('" id "', '" job "', 1, 'waiting', 10, " tries ", " tried ", " next ", " ended ", " status ")"

/* Due at once is 0, whatever the clock said when it was queued; the latest try and the most count. */
static void
test_waits (Place *place, gconstpointer data)
{
  HsOutboxSums sums;

  test_run (place->store->db,
            "INSERT INTO outbox (id, job_id, revision, state, queued_at, tries, tried_at, next_at, ended, status)"
            " VALUES "
            TRIED ("k1", "open", "4", "500", "900", "'timed_out'", "NULL") ", "
            TRIED ("k2", "open2", "2", "700", "900", "'answered'", "500") ", "
            TRIED ("k3", "proven", "0", "NULL", "NULL", "NULL", "NULL"));
  g_assert_true (hs_outbox_sums_load (place->store, &sums, &place->error));
  g_assert_cmpint (sums.soonest, ==, 0);
  g_assert_cmpint (sums.tried_at, ==, 700);
  g_assert_cmpint (sums.most_tries, ==, 4);
  begin_at (place, 600);
  g_assert_true (hs_outbox_row_clear_silence (place->store, &place->error));
  g_assert_cmpint (count (place, "next_at IS NULL AND id IN ('k1', 'k3')"), ==, 2);
  g_assert_cmpint (count (place, "next_at = 900 AND id = 'k2'"), ==, 1);
  g_assert_true (hs_outbox_row_follow_clock (place->store, 600, &place->error));
  g_assert_cmpint (count (place, "next_at IS NULL AND tried_at = 600 AND id = 'k2'"), ==, 1);
  g_assert_cmpint (count (place, "tried_at = 500 AND id = 'k1'"), ==, 1);
  test_run (place->store->db, "UPDATE outbox SET next_at = 900 WHERE id = 'k2'");
  g_assert_true (hs_outbox_row_let_go (place->store, &place->error));
  g_assert_cmpint (count (place, "tried_at IS NULL AND id IN ('k1', 'k3')"), ==, 2);
  g_assert_cmpint (count (place, "tried_at = 600 AND id = 'k2'"), ==, 1);
  commit (place);
  g_assert_false (hs_outbox_row_let_go (place->store, &place->error));
  g_clear_error (&place->error);
  g_assert_false (hs_outbox_row_clear_silence (place->store, &place->error));
  g_clear_error (&place->error);
  g_assert_false (hs_outbox_row_follow_clock (place->store, 600, &place->error));
  g_clear_error (&place->error);
}

static void
test_release (Place *place, gconstpointer data)
{
  test_run (place->store->db,
            "INSERT INTO outbox (id, job_id, revision, state, queued_at, next_at, ended) VALUES "
            PARKED ("k1", "open") ", " WAITING ("k2", "open2", "100") ", " PARKED ("k3", "proven"));
  begin_at (place, TEST_NOW);
  g_assert_true (hs_outbox_row_release (place->store, "open", &place->error));
  commit (place);
  g_assert_cmpint (count (place, "state = 'waiting' AND next_at IS NULL AND id = 'k1'"), ==, 1);
  g_assert_cmpint (count (place, "state = 'parked'"), ==, 1);
  begin_at (place, TEST_NOW);
  g_assert_true (hs_outbox_row_release (place->store, NULL, &place->error));
  commit (place);
  g_assert_cmpint (count (place, "state = 'waiting' AND next_at IS NULL"), ==, 3);
}

/* What has a body gets a new one later, in its place; what has none or is done with stays as it is. */
static void
test_remake (Place *place, gconstpointer data)
{
  g_autoptr (HsOutboxRow) row = NULL;

  test_run (place->store->db,
            "INSERT INTO outbox (id, job_id, revision, state, queued_at, body, ended) VALUES"
            " ('k1', 'open', 5, 'waiting', 10, 'b', NULL), ('k2', 'open2', 1773139600, 'parked', 10, 'b', 'answered'),"
            " ('k3', 'proven', 5, 'waiting', 10, NULL, NULL);"
            "INSERT INTO outbox (id, job_id, revision, state, queued_at, sent_at, sent_revision) VALUES"
            " ('k4', 'squared', 5, 'sent', 10, 11, 5)");
  begin_at (place, TEST_NOW);
  g_assert_true (hs_outbox_row_remake (place->store, &place->error));
  commit (place);
  g_assert_cmpint (count (place, "id IN ('k1', 'k2') OR body IS NOT NULL"), ==, 0);
  g_assert_cmpint (count (place, "id IN ('k3', 'k4') AND revision = 5"), ==, 2);
  g_assert_cmpint (count (place, "job_id = 'open' AND revision = 1773139500 AND state = 'waiting'"), ==, 1);
  g_assert_cmpint (count (place, "job_id = 'open2' AND revision = 1773139601 AND state = 'parked'"), ==, 1);
  g_assert_true (hs_outbox_row_next (place->store, TEST_NOW, &row, &place->error));
  g_assert_cmpstr (row->job_id, ==, "open");
}

/* The switch of a machine is part of the business and is logged; the queue is not. */
static void
test_log (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) entries = NULL;

  move_at (place, "open", HS_STAGE_WAITING_PART, TEST_NOW);
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM change_log WHERE tbl LIKE 'outbox%'"), ==, 0);
  g_assert_true (hs_log_row_list_of (place->store, "post_device", "this", &entries, &place->error));
  g_assert_cmpuint (entries->len, ==, 1);
  g_assert_true (hs_store_check (place->store, TRUE, &place->error));
}

static void
test_queue (Place *place, gconstpointer data)
{
  g_autoptr (HsOutboxQueueRow) row = NULL;
  g_autoptr (HsOutboxQueueRow) again = NULL;

  g_assert_true (hs_outbox_queue_row_get (place->store, &row, &place->error));
  g_assert_true (row->paused_at == HS_INSTANT_NONE && row->hold_until == HS_INSTANT_NONE);
  row->hold_until = 77;
  begin_at (place, TEST_NOW);
  g_assert_true (hs_outbox_queue_row_save (place->store, row, &place->error));
  commit (place);
  g_assert_true (hs_outbox_queue_row_get (place->store, &again, &place->error));
  g_assert_cmpint (again->hold_until, ==, 77);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "stage", test_stage },       { "new-job", test_new_job }, { "money", test_money },
    { "replaced", test_replaced }, { "sent", test_after_sent }, { "together", test_together },
    { "undo", test_undo },         { "bulk", test_bulk },       { "all", test_all },
    { "next", test_next },         { "release", test_release }, { "log", test_log },
    { "queue", test_queue },       { "remake", test_remake },   { "waits", test_waits },
  };

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/store/outbox/work", test_work);
  g_test_add ("/store/outbox/off", Place, NULL, set_up, test_off, tear_down);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *name = g_strconcat ("/store/outbox/", tests[i].name, NULL);

      g_test_add (name, Place, NULL, set_up_on, tests[i].test, tear_down);
    }
  return g_test_run ();
}
