// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The lists and sums that pages ask for, the moves of a job, and what the store works out by itself. */

#include <string.h>

#include "book.h"
#include "hs-advice-row.h"
#include "hs-area-row.h"
#include "hs-chase-row.h"
#include "hs-core-row.h"
#include "hs-installed-row.h"
#include "hs-job-glance.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-need-row.h"
#include "hs-odometer-row.h"
#include "hs-part-row.h"
#include "hs-plan-row.h"
#include "hs-reading-row.h"
#include "hs-stock-row.h"
#include "hs-store-private.h"
#include "hs-supplier-row.h"
#include "hs-van-row.h"
#include "hs-visit-row.h"

typedef struct
{
  char *folder;
  HsStore *store;
  GError *error;
} Place;

static const HsDate day = 20522; /* 2026-03-10 */

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->store = test_book_new (place->folder);
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_assert_no_error (place->error);
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

/* The first text field behind @offset of each row, with blanks between them. */
static char *
texts (GPtrArray *rows, gsize offset)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rows->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", *(char **) ((guint8 *) rows->pdata[i] + offset));
  return g_string_free (text, FALSE);
}

#define assert_rows(rows, Type, field, expected) G_STMT_START { \
    g_autofree char *assert_text = texts (rows, G_STRUCT_OFFSET (Type, field)); \
    g_assert_cmpstr (assert_text, ==, expected); \
    g_clear_pointer (&rows, g_ptr_array_unref); \
  } G_STMT_END

static void
sql (Place *place, const char *statements)
{
  test_run (place->store->db, statements);
}

static void
test_travel (Place *place, gconstpointer data)
{
  g_autoptr (HsTravelRow) row = hs_travel_row_new ();
  g_autoptr (HsTravelRow) other = hs_travel_row_new ();
  g_autoptr (HsTravelRow) there = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  hs_row_set (&row->from_id, "Q");
  hs_row_set (&row->to_id, "O");
  row->seconds = 360;
  row->millimiles = 1900;
  g_assert_true (hs_travel_row_save (place->store, row, &place->error));
  g_assert_cmpstr (row->from_id, ==, "O");
  hs_row_set (&other->from_id, "O");
  hs_row_set (&other->to_id, "Q");
  other->seconds = 420;
  other->millimiles = 2000;
  g_assert_true (hs_travel_row_save (place->store, other, &place->error));
  g_assert_cmpstr (other->id, ==, row->id);
  g_assert_true (hs_travel_row_find (place->store, "Q", "O", &there, &place->error));
  g_assert_cmpint (there->seconds, ==, 420);
  g_assert_true (hs_travel_row_list (place->store, &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 1);
  g_clear_pointer (&there, hs_travel_row_free);
  assert_refused (hs_travel_row_find (place->store, "O", "O", &there, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "O to O");
  g_clear_error (&place->error);
}

static void
test_numbers (Place *place, gconstpointer data)
{
  g_autoptr (HsVanRow) van = NULL;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autofree char *third = NULL;

  g_assert_true (hs_van_row_find (place->store, "A", &van, &place->error));
  g_assert_true (hs_van_row_take_number (place->store, van->id, &first, &place->error));
  g_assert_true (hs_van_row_take_number (place->store, van->id, &second, &place->error));
  g_assert_cmpstr (first, ==, "A-0001");
  g_assert_cmpstr (second, ==, "A-0002");
  sql (place, "UPDATE van SET next_number = 1000000");
  assert_refused (hs_van_row_take_number (place->store, van->id, &third, &place->error), place->error,
                  HS_STORE_ERROR_REFUSED, "used up");
  g_clear_error (&place->error);
}

/* Stages. */

static char *
stage_of (Place *place, const char *id)
{
  g_autoptr (HsJobRow) job = NULL;

  g_assert_true (hs_job_row_load (place->store, id, &job, &place->error));
  return g_strdup (job->stage);
}

static const struct
{
  const char *job;
  HsStage to;
  const char *reason;
  const char *says;
} moves[] = {
  { "open", HS_STAGE_WAITING_PART, NULL, NULL },
  { "open", HS_STAGE_PROVEN, NULL, "no reading taken after" },
  { "open", HS_STAGE_PROVEN, "customer drove off", NULL },
  { "open", HS_STAGE_CALLED_OFF, NULL, "called off needs a reason" },
  { "open", HS_STAGE_CALLED_OFF, "gone on arrival", NULL },
  { "open", HS_STAGE_TURNED_AWAY, NULL, "passed on needs a reason" },
  { "open", HS_STAGE_TURNED_AWAY, "gearbox", NULL },
  { "open2", HS_STAGE_PROVEN, NULL, NULL },
  { "proven", HS_STAGE_SQUARED, NULL, NULL },
  { "squared", HS_STAGE_PROVEN, NULL, "does not go back" },
  { "nothing", HS_STAGE_PROVEN, NULL, "no job" },
};

static void
test_moves (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (moves); i++)
    {
      g_autofree char *stage = NULL;

      g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
      if (hs_job_row_move (place->store, moves[i].job, moves[i].to, moves[i].reason, &place->error))
        {
          g_assert_null (moves[i].says);
          stage = stage_of (place, moves[i].job);
          g_assert_cmpstr (stage, ==, hs_stage_id (moves[i].to));
        }
      else
        {
          g_assert_nonnull (moves[i].says);
          g_assert_nonnull (strstr (place->error->message, moves[i].says));
          g_clear_error (&place->error);
        }
      hs_store_rollback (place->store);
    }
}

static void
test_revisions (Place *place, gconstpointer data)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsJobRow) again = NULL;

  g_assert_true (hs_job_row_load (place->store, "open", &job, &place->error));
  g_assert_true (hs_job_row_save (place->store, job, &place->error));
  g_assert_cmpint (job->rev, ==, 1);
  g_assert_cmpint (job->changed_at, ==, 1);
  hs_row_set (&job->words, "slower crank");
  job->rev = 77;
  job->owed_cents = 5;
  g_assert_true (hs_job_row_save (place->store, job, &place->error));
  g_assert_true (hs_job_row_load (place->store, "open", &again, &place->error));
  g_assert_cmpint (again->rev, ==, 2);
  g_assert_cmpint (again->changed_at, ==, TEST_NOW);
  g_assert_cmpint (again->owed_cents, ==, 0);
}

static void
test_facts (Place *place, gconstpointer data)
{
  HsStageFacts facts = { 0 };

  sql (place, "UPDATE installed_part SET replaced_why = NULL WHERE job_id = 'open';"
              "INSERT INTO advice (id, job_id, wording, price_cents) VALUES ('z', 'open', 'x', 1);"
              "UPDATE job SET unproved_why = 'rain', turned_away_why = ' ' WHERE id = 'open';");
  g_assert_true (hs_job_row_facts (place->store, "open", &facts, &place->error));
  g_assert_false (facts.has_after_reading);
  g_assert_true (facts.has_unproven_reason);
  g_assert_cmpint (facts.parts_without_reason, ==, 1);
  g_assert_cmpint (facts.open_choices, ==, 1);
  g_assert_cmpint (facts.charges_cents, ==, 20000);
  g_assert_cmpint (facts.ceiling_cents, ==, 20000);
  g_assert_false (facts.has_leaving_reason);
  g_assert_true (hs_job_row_facts (place->store, "open2", &facts, &place->error));
  g_assert_true (facts.has_after_reading);
  g_assert_false (facts.has_unproven_reason);
  g_assert_cmpint (facts.parts_without_reason, ==, 0);
  g_assert_cmpint (facts.open_choices, ==, 0);
}

static void
test_job_lists (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsJobRow) job = NULL;
  guint64 count = 0;

  sql (place, "UPDATE job SET day = '2026-03-10', window_from = 300 WHERE id = 'open';"
              "UPDATE job SET day = '2026-03-10', window_from = 200, van_id = 'va' WHERE id = 'open2';"
              "UPDATE job SET day = '2026-03-10' WHERE id = 'proven';"
              "UPDATE job SET day = '2026-03-11' WHERE id = 'squared';"
              "INSERT INTO van (id, letter) VALUES ('vb', 'B');");
  g_assert_true (hs_job_row_list_day (place->store, day, NULL, &rows, &place->error));
  assert_rows (rows, HsJobRow, id, "open2 open proven");
  g_assert_true (hs_job_row_list_day (place->store, day, "vb", &rows, &place->error));
  assert_rows (rows, HsJobRow, id, "open proven");
  g_assert_true (hs_job_row_list_of_vehicle (place->store, "v1", &rows, &place->error));
  assert_rows (rows, HsJobRow, id, "squared proven open2 open");
  g_assert_true (hs_job_row_list_of_vehicle (place->store, "v2", &rows, &place->error));
  assert_rows (rows, HsJobRow, id, "");
  g_assert_true (hs_job_row_list_of_customer (place->store, "c1", 2, &rows, &place->error));
  assert_rows (rows, HsJobRow, id, "squared proven");
  g_assert_true (hs_job_row_ids (place->store, NULL, &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 4);
  g_assert_cmpstr (rows->pdata[0], ==, "squared");
  g_clear_pointer (&rows, g_ptr_array_unref);
  g_assert_true (hs_job_row_ids (place->store, "on_site", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 2);
  g_assert_true (hs_job_row_count (place->store, HS_STAGE_ON_SITE, &count, &place->error));
  g_assert_cmpint (count, ==, 2);
  g_assert_true (hs_job_row_count_closed (place->store, &count, &place->error));
  g_assert_cmpint (count, ==, 1);
  g_assert_true (hs_job_row_find (place->store, "A-0003", &job, &place->error));
  g_assert_cmpstr (job->id, ==, "proven");
}

/* The board. */

static HsJobGlance *
glance_of (GPtrArray *glances, const char *id)
{
  for (guint i = 0; i < glances->len; i++)
    if (g_str_equal (((HsJobGlance *) glances->pdata[i])->id, id))
      return glances->pdata[i];
  return NULL;
}

static void
fill_board (Place *place)
{
  sql (place, "UPDATE job SET kind = 'return_visit', follows_job_id = 'squared', return_why = 'not_decided',"
              "  window_from = 300, window_to = 400 WHERE id = 'open';"
              "UPDATE job SET stage = 'promised', window_from = 200 WHERE id = 'open2';"
              "UPDATE vehicle SET year = 2016, high_voltage = 1 WHERE id = 'v1';"
              "INSERT INTO visit (id, job_id, arrived_at, left_at) VALUES ('s1', 'squared', 1771000000, 1771003600);"
              "INSERT INTO visit (id, job_id, rolling_at, left_at) VALUES ('s2', 'open', 10, 20);"
              "INSERT INTO visit (id, job_id, rolling_at, arrived_at) VALUES ('s3', 'open', 30, 40);"
              "INSERT INTO part (id, number, name) VALUES ('st', 'ST-15', 'starter');"
              "INSERT INTO need (id, job_id, part_id, state) VALUES ('n0', 'open', 'b', 'in_the_van');"
              "INSERT INTO need (id, job_id, part_id, supplier_id, sure_percent) VALUES ('n1', 'open', 'st', 'k', 38);"
              "INSERT INTO need (id, job_id, part_id, state) VALUES ('n2', 'open', 'b', 'laid_aside');"
              "INSERT INTO need (id, job_id, part_id, state) VALUES ('n3', 'open', 'b', 'dropped');"
              "INSERT INTO advice (id, job_id, wording, price_cents) VALUES ('z', 'open', 'x', 1);"
              "INSERT INTO draft (id, job_id, page, field, text, at) VALUES ('d', 'open', 'p', 'f', 't', 1);"
              "INSERT INTO van (id, letter) VALUES ('second', 'B');"
              "UPDATE job SET van_id = 'second' WHERE id = 'open'; UPDATE job SET van_id = NULL WHERE id = 'open2'");
}

static void
test_glance (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) glances = NULL;
  HsJobGlance *open;

  fill_board (place);
  g_assert_true (hs_job_glance_list (place->store, &glances, &place->error));
  g_assert_cmpint (glances->len, ==, 3);
  g_assert_cmpstr (((HsJobGlance *) glances->pdata[0])->id, ==, "open2");
  g_assert_cmpstr (((HsJobGlance *) glances->pdata[1])->id, ==, "open");
  g_assert_cmpstr (((HsJobGlance *) glances->pdata[2])->id, ==, "proven");
  open = glance_of (glances, "open");
  g_assert_cmpstr (open->customer, ==, "Rue Abernant");
  g_assert_cmpstr (open->area, ==, "Quayside");
  g_assert_cmpstr (open->signal, ==, "good");
  g_assert_cmpstr (open->plate, ==, "TDM 8816");
  g_assert_cmpstr (open->vehicle, ==, "Vostle Crag 2016");
  g_assert_true (open->high_voltage);
  g_assert_cmpstr (open->follows_number, ==, "A-0004");
  g_assert_cmpint (open->need_count, ==, 2);
  g_assert_cmpstr (open->need_part, ==, "starter");
  g_assert_cmpstr (open->need_supplier, ==, "Kingpost Parts Counter");
  g_assert_cmpint (open->need_sure_percent, ==, 38);
  g_assert_cmpstr (open->van_part, ==, "battery 55 Ah");
  g_assert_cmpint (open->open_choices, ==, 1);
  g_assert_cmpint (open->charges_cents, ==, 20000);
  g_assert_cmpint (open->ceiling_cents, ==, 20000);
  g_assert_cmpint (open->rolling_at, ==, 30);
  g_assert_cmpint (open->arrived_at, ==, 40);
  g_assert_cmpint (open->left_at, ==, HS_INSTANT_NONE);
  g_assert_true (open->has_draft);
  g_assert_false (glance_of (glances, "open2")->has_draft);
  g_assert_null (glance_of (glances, "open2")->need_part);
  g_assert_cmpstr (open->van_id, ==, "second");
  g_assert_null (glance_of (glances, "open2")->van_id);
}

/* The newest of what is closed, however it ended; nothing that is open. */
static void
test_glance_closed (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "UPDATE job SET stage = 'turned_away', turned_away_why = 'far' WHERE id = 'open2'");
  g_assert_true (hs_job_glance_list_closed (place->store, 5, &rows, &place->error));
  assert_rows (rows, HsJobGlance, id, "squared open2");
  g_assert_true (hs_job_glance_list_closed (place->store, 1, &rows, &place->error));
  assert_rows (rows, HsJobGlance, id, "squared");
  g_assert_true (hs_job_glance_list_closed (place->store, 0, &rows, &place->error));
  assert_rows (rows, HsJobGlance, id, "");
}

static void
test_glance_one (Place *place, gconstpointer data)
{
  g_autoptr (HsJobGlance) glance = NULL;

  sql (place, "UPDATE job SET vehicle_id = NULL WHERE id = 'open'");
  g_assert_true (hs_job_glance_load (place->store, "squared", &glance, &place->error));
  g_assert_cmpint (glance->due_on, ==, hs_date_from_ymd (2026, 3, 24));
  g_assert_cmpint (glance->invoiced_on, ==, day);
  g_clear_pointer (&glance, hs_job_glance_free);
  g_assert_true (hs_job_glance_load (place->store, "open", &glance, &place->error));
  g_assert_null (glance->vehicle);
  g_clear_pointer (&glance, hs_job_glance_free);
  assert_refused (hs_job_glance_load (place->store, "x", &glance, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "no job");
  g_clear_error (&place->error);
}

/* Money. */

static gint64
owed (Place *place, const char *job)
{
  g_autoptr (HsJobRow) row = NULL;

  g_assert_true (hs_job_row_load (place->store, job, &row, &place->error));
  return row->owed_cents;
}

static HsPaymentRow *
pay (Place *place, const char *job, gint64 cents, gboolean taken)
{
  HsPaymentRow *row = hs_payment_row_new ();

  hs_row_set (&row->job_id, job);
  hs_row_set (&row->how, "card");
  row->at = TEST_NOW;
  row->cents = cents;
  row->taken = taken;
  g_assert_true (hs_payment_row_save (place->store, row, &place->error));
  return row;
}

static HsInvoiceRow *
bill (Place *place, const char *number, const char *job, const char *credits, gint64 cents)
{
  HsInvoiceRow *row = hs_invoice_row_new ();

  hs_row_set (&row->number, number);
  hs_row_set (&row->job_id, job);
  hs_row_set (&row->credits_id, credits);
  row->issued_on = day;
  row->due_on = day + 14;
  row->net_cents = row->total_cents = cents;
  row->tax_cents = 0;
  hs_row_set (&row->frozen, "{}");
  hs_row_set (&row->sha256, "x");
  g_assert_true (hs_invoice_row_save (place->store, row, &place->error));
  return row;
}

static void
test_owed (Place *place, gconstpointer data)
{
  g_autoptr (HsPaymentRow) early = pay (place, "proven", 500, TRUE);
  g_autoptr (HsInvoiceRow) invoice = NULL;
  g_autoptr (HsInvoiceRow) credit = NULL;
  g_autoptr (HsPaymentRow) card = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_cmpint (owed (place, "proven"), ==, 0);
  invoice = bill (place, "A-0003", "proven", NULL, 20000);
  g_assert_cmpint (owed (place, "proven"), ==, 19500);
  card = pay (place, "proven", 10000, FALSE);
  g_assert_cmpint (owed (place, "proven"), ==, 19500);
  card->taken = TRUE;
  g_assert_true (hs_payment_row_save (place->store, card, &place->error));
  g_assert_cmpint (owed (place, "proven"), ==, 9500);
  credit = bill (place, "A-0003-C", "proven", invoice->id, -9000);
  g_assert_cmpint (owed (place, "proven"), ==, 500);
  g_assert_true (hs_invoice_row_list_unpaid (place->store, 10, &rows, &place->error));
  assert_rows (rows, HsInvoiceRow, number, "A-0003");
  g_assert_true (hs_payment_row_delete (place->store, card->id, &place->error));
  g_assert_cmpint (owed (place, "proven"), ==, 10500);
  g_clear_pointer (&card, hs_payment_row_free);
  card = pay (place, "open", 10500, TRUE);
  hs_row_set (&card->job_id, "proven");
  g_assert_true (hs_payment_row_save (place->store, card, &place->error));
  g_assert_cmpint (owed (place, "proven"), ==, 0);
  g_assert_true (hs_invoice_row_list_unpaid (place->store, 10, &rows, &place->error));
  assert_rows (rows, HsInvoiceRow, number, "");
  g_assert_true (hs_invoice_row_list_of (place->store, "proven", &rows, &place->error));
  assert_rows (rows, HsInvoiceRow, number, "A-0003 A-0003-C");
  g_assert_true (hs_invoice_row_list (place->store, 2, &rows, &place->error));
  assert_rows (rows, HsInvoiceRow, number, "A-0003-C A-0003");
}

static void
test_sums (Place *place, gconstpointer data)
{
  g_autoptr (HsPaymentRow) part = pay (place, "squared", 5000, TRUE);
  g_autoptr (HsPaymentRow) later = pay (place, "squared", 100, FALSE);
  g_autoptr (GPtrArray) rows = NULL;
  HsJobSums sums = { 0 };

  g_assert_true (hs_job_sums_load (place->store, "squared", &sums, &place->error));
  g_assert_cmpint (sums.price_cents, ==, 18000);
  g_assert_cmpint (sums.tax_cents, ==, 2000);
  g_assert_cmpint (sums.cost_cents, ==, 0);
  g_assert_cmpint (sums.ceiling_cents, ==, 20000);
  g_assert_cmpint (sums.invoiced_cents, ==, 20000);
  g_assert_cmpint (sums.paid_cents, ==, 5000);
  g_assert_true (hs_job_sums_load (place->store, "nothing", &sums, &place->error));
  g_assert_cmpint (sums.price_cents, ==, 0);
  g_assert_true (hs_line_row_list_of (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsLineRow, id, "l-open");
  g_assert_true (hs_payment_row_list_of (place->store, "squared", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 2);
}

/* Parts. */

static int
count_step (gpointer steps)
{
  ++*(guint *) steps;
  return 0;
}

/* A thousand times as many paid invoices cost next to nothing: read one by one they would take ten steps each. */
static void
test_unpaid_among_many (Place *place, gconstpointer data)
{
  g_autoptr (HsInvoiceRow) invoice = bill (place, "A-0003", "proven", NULL, 20000);
  g_autoptr (GPtrArray) rows = NULL;
  guint steps = 0;

  sql (place, "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n LIMIT 5000)"
              " INSERT INTO job (id, number, customer_id, words, changed_at)"
              " SELECT 'paid' || i, 'P-' || i, 'c1', 'x', 0 FROM n;"
              "INSERT INTO invoice (id, number, job_id, issued_on, due_on, net_cents, tax_cents, total_cents, frozen,"
              " sha256) SELECT id, number, id, '2026-01-01', '2026-01-01', 1, 0, 1, '{}', 'x' FROM job"
              " WHERE number GLOB 'P-*'");
  sqlite3_progress_handler (place->store->db, 1, count_step, &steps);
  g_assert_true (hs_invoice_row_list_unpaid (place->store, 10, &rows, &place->error));
  sqlite3_progress_handler (place->store->db, 0, NULL, NULL);
  assert_rows (rows, HsInvoiceRow, number, "A-0003");
  g_assert_cmpuint (steps, <, 1000);
}

static void
test_stock (Place *place, gconstpointer data)
{
  g_autoptr (HsStockMoveRow) move = hs_stock_move_row_new ();
  g_autoptr (HsStockRow) stock = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  hs_row_set (&move->van_id, "va");
  hs_row_set (&move->part_id, "b");
  hs_row_set (&move->why, "bought");
  move->quantity_milli = 2000;
  move->at = TEST_NOW;
  g_assert_true (hs_stock_move_row_save (place->store, move, &place->error));
  g_assert_true (hs_stock_row_find (place->store, "va", "b", &stock, &place->error));
  g_assert_cmpint (stock->quantity_milli, ==, 2000);
  g_clear_pointer (&stock, hs_stock_row_free);
  move->quantity_milli = 3000;
  g_assert_true (hs_stock_move_row_save (place->store, move, &place->error));
  g_assert_true (hs_stock_row_find (place->store, "va", "b", &stock, &place->error));
  g_assert_cmpint (stock->quantity_milli, ==, 3000);
  g_clear_pointer (&stock, hs_stock_row_free);
  g_assert_true (hs_stock_move_row_list_of (place->store, "b", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 1);
  g_clear_pointer (&rows, g_ptr_array_unref);
  g_assert_true (hs_stock_move_row_delete (place->store, move->id, &place->error));
  g_assert_true (hs_stock_row_list (place->store, NULL, &rows, &place->error));
  g_assert_cmpint (((HsStockRow *) rows->pdata[0])->quantity_milli, ==, 0);
  g_clear_pointer (&rows, g_ptr_array_unref);
  g_assert_true (hs_stock_row_list (place->store, "other", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 0);
  assert_refused (hs_stock_row_find (place->store, "va", "x", &stock, &place->error), place->error,
                  HS_STORE_ERROR_NOT_FOUND, "x");
  g_clear_error (&place->error);
}

static void
test_counters (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsSupplierRow) supplier = NULL;
  g_autoptr (HsPartRow) part = NULL;

  sql (place, "INSERT INTO supplier (id, name) VALUES ('l', 'Larch & Weir');"
              "INSERT INTO supplier_hours (id, supplier_id, weekday, opens_minutes, shuts_minutes) VALUES"
              " ('h3', 'l', 2, 795, 1020), ('h2', 'l', 2, 480, 750), ('h1', 'l', 1, 480, 750),"
              " ('h0', 'k', 6, 480, 960);"
              "INSERT INTO price (id, supplier_id, part_id, cost_cents, seen_on) VALUES ('p1', 'k', 'b', 5800, NULL),"
              " ('p2', 'k', 'b', 6200, '2026-01-01'), ('p3', 'k', 'b', 6100, '2025-01-01'),"
              " ('p4', 'l', 'b', 6150, '2024-01-01');");
  g_assert_true (hs_supplier_row_list (place->store, &rows, &place->error));
  assert_rows (rows, HsSupplierRow, id, "k l");
  g_assert_true (hs_supplier_row_find (place->store, "Larch & Weir", &supplier, &place->error));
  g_assert_cmpint (supplier->stop_seconds, ==, 600);
  g_assert_true (hs_hours_row_list_of (place->store, "l", &rows, &place->error));
  assert_rows (rows, HsHoursRow, id, "h1 h2 h3");
  g_assert_true (hs_hours_row_list_of (place->store, NULL, &rows, &place->error));
  assert_rows (rows, HsHoursRow, id, "h0 h1 h2 h3");
  g_assert_true (hs_price_row_list_latest (place->store, "b", &rows, &place->error));
  assert_rows (rows, HsPriceRow, id, "p4 p2");
  g_assert_true (hs_price_row_list_of (place->store, "b", &rows, &place->error));
  assert_rows (rows, HsPriceRow, id, "p1 p4 p3 p2");
  g_assert_true (hs_part_row_find (place->store, "B-55", &part, &place->error));
  g_assert_true (hs_part_row_list (place->store, &rows, &place->error));
  assert_rows (rows, HsPartRow, id, "b");
}

static void
test_days_apart (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "INSERT INTO counter_day (id, supplier_id, on_date, opens_minutes, shuts_minutes) VALUES"
              " ('d4', 'k', '2026-03-10', 780, 900), ('d3', 'k', '2026-03-10', 540, 720),"
              " ('d1', NULL, '2026-03-10', NULL, NULL), ('d0', 'k', '2026-03-11', NULL, NULL);");
  g_assert_true (hs_counter_day_row_list_on (place->store, day, &rows, &place->error));
  g_assert_cmpint (((HsCounterDayRow *) rows->pdata[0])->opens_minutes, ==, HS_INT_NONE);
  assert_rows (rows, HsCounterDayRow, id, "d1 d3 d4");
}

static void
test_run_lists (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "UPDATE job SET day = '2026-03-10' WHERE id IN ('open', 'open2', 'squared');"
              "UPDATE job SET stage = 'called_off', called_off_why = 'x' WHERE id = 'open2';"
              "INSERT INTO need (id, job_id, part_id) VALUES ('n1', 'open', 'b'), ('n2', 'open2', 'b'),"
              " ('n3', 'squared', 'b'), ('n4', 'proven', 'b');"
              "INSERT INTO core (id, supplier_id, deposit_cents, paid_on, due_on, where_now, credit_ref) VALUES"
              " ('k2', 'k', 1, '2026-01-01', '2026-03-29', 'in_the_van', NULL),"
              " ('k3', 'k', 1, '2026-01-01', '2026-03-12', 'at_base', NULL),"
              " ('k4', 'k', 1, '2026-01-01', '2026-02-19', 'credited', 'CR-5521'),"
              " ('k5', 'k', 1, '2026-01-01', NULL, 'lost', NULL);"
              "INSERT INTO return_part (id, supplier_id, part_id, amount_cents, bought_on, last_day, handed_in_on)"
              " VALUES"
              " ('r1', 'k', 'b', 1, '2026-02-09', NULL, NULL), ('r2', 'k', 'b', 1, '2026-02-09', '2026-03-11', NULL),"
              " ('r3', 'k', 'b', 1, '2026-02-09', '2026-03-01', '2026-02-20');");
  g_assert_true (hs_need_row_list_day (place->store, day, &rows, &place->error));
  assert_rows (rows, HsNeedRow, id, "n1");
  g_assert_true (hs_need_row_list_of (place->store, "open2", &rows, &place->error));
  assert_rows (rows, HsNeedRow, id, "n2");
  g_assert_true (hs_core_row_list (place->store, TRUE, &rows, &place->error));
  assert_rows (rows, HsCoreRow, id, "k3 k2 k1");
  g_assert_true (hs_core_row_list (place->store, FALSE, &rows, &place->error));
  assert_rows (rows, HsCoreRow, id, "k4 k3 k2 k1 k5");
  g_assert_true (hs_return_row_list (place->store, TRUE, &rows, &place->error));
  assert_rows (rows, HsReturnRow, id, "r2 r1");
  g_assert_true (hs_return_row_list (place->store, FALSE, &rows, &place->error));
  assert_rows (rows, HsReturnRow, id, "r3 r2 r1");
}

static void
test_vehicle_lists (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "INSERT INTO installed_part (id, vehicle_id, kind, what, installed_on, known_by, removed_on) VALUES"
              " ('z1', 'v2', 'battery', 'b', '2023-10-05', 'receipt', '2025-01-01'),"
              " ('z2', 'v2', 'battery', 'b', '2025-01-01', 'receipt', NULL),"
              " ('z3', 'v2', NULL, 'hose', '2024-01-01', 'receipt', NULL);"
              "INSERT INTO reading (id, job_id, check_id, unit, decimals, value, phase, taken_at) VALUES"
              " ('y1', 'open', 'rest', 'V', 2, 1100, 'before', 9), ('y2', 'open', 'rest', 'V', 2, 1270, 'after', 9);"
              "INSERT INTO check_own (id, vehicle_id, check_id, low, source) VALUES ('own', 'v1', 'rest', 1240, 'm');");
  g_assert_true (hs_installed_row_list_of_vehicle (place->store, "v2", &rows, &place->error));
  assert_rows (rows, HsInstalledRow, id, "z2 z3 z1");
  g_assert_true (hs_installed_row_list_batteries (place->store, "v2", &rows, &place->error));
  assert_rows (rows, HsInstalledRow, id, "z2");
  g_assert_true (hs_installed_row_list_of_job (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsInstalledRow, id, "i-open");
  g_assert_true (hs_reading_row_list_latest (place->store, "v1", &rows, &place->error));
  assert_rows (rows, HsReadingRow, id, "y1 y2");
  g_assert_true (hs_reading_row_list_of (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsReadingRow, id, "y1 y2");
  g_assert_true (hs_check_own_row_list_of (place->store, "v1", &rows, &place->error));
  assert_rows (rows, HsCheckOwnRow, id, "own");
  g_assert_true (hs_check_kind_row_list (place->store, &rows, &place->error));
  assert_rows (rows, HsCheckKindRow, id, "rest draw");
  g_assert_true (hs_odometer_row_list_of (place->store, "v1", &rows, &place->error));
  assert_rows (rows, HsOdometerRow, id, "o1 o2");
}

static void
test_job_parts (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "INSERT INTO visit (id, job_id) VALUES ('s1', 'open'), ('s2', 'open');"
              "INSERT INTO pause (id, visit_id, from_at) VALUES ('p1', 's1', 1), ('p2', 's2', 1);"
              "INSERT INTO asked (id, job_id, question, answer) VALUES ('q1', 'open', 'lamps?', 'dim');"
              "INSERT INTO go_ahead (id, job_id, ceiling_cents, by_whom, at, means)"
              " VALUES ('later', 'open', 22000, 'x', 1, 'phone');");
  g_assert_true (hs_visit_row_list_of (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsVisitRow, id, "s1 s2");
  g_assert_true (hs_pause_row_list_of (place->store, "s2", &rows, &place->error));
  assert_rows (rows, HsPauseRow, id, "p2");
  g_assert_true (hs_asked_row_list_of (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsAskedRow, id, "q1");
  g_assert_true (hs_go_ahead_row_list_of (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsGoAheadRow, id, "g-open later");
  g_assert_true (hs_advice_row_list_of (place->store, "open", &rows, &place->error));
  assert_rows (rows, HsAdviceRow, id, "a-open");
}

static void
test_chase_and_trips (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *job_id, *kind;
    int days;
    const char *id;
  } calls[] = { { "open", "unpaid", 0, "x2" },       { "open", "unpaid", 1, NULL },   { NULL, "unpaid", 1, "x1" },
                { "open", "declined_work", 0, NULL }, { "open", "unpaid", -59, NULL } };
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "INSERT INTO chase (id, kind, due_on, done_on) VALUES ('x1', 'unpaid', '2026-03-11', NULL),"
              " ('x2', 'unpaid', '2026-03-10', NULL), ('x3', 'unpaid', '2026-01-10', '2026-01-11'),"
              " ('x4', 'unpaid', '2026-02-10', NULL);"
              "INSERT INTO trip (id, van_id, on_date, millimiles, purpose) VALUES"
              " ('t1', 'va', '2026-03-10', 1, 'job'), ('t2', 'va', '2026-03-09', 1, 'job'),"
              " ('t3', 'va', '2026-03-11', 1, 'job');");
  g_assert_true (hs_chase_row_list_due (place->store, day, &rows, &place->error));
  assert_rows (rows, HsChaseRow, id, "x4 x2");
  g_assert_true (hs_chase_row_list_due (place->store, HS_DATE_NONE, &rows, &place->error));
  assert_rows (rows, HsChaseRow, id, "x4 x2 x1");
  sql (place, "UPDATE chase SET job_id = 'open' WHERE id <> 'x1'");
  for (guint i = 0; i < G_N_ELEMENTS (calls); i++)
    {
      g_autoptr (HsChaseRow) call = NULL;

      g_assert_true (hs_chase_row_find_open (place->store, calls[i].job_id, calls[i].kind, day + calls[i].days, &call,
                                             &place->error));
      g_assert_cmpstr (call != NULL ? call->id : NULL, ==, calls[i].id);
    }
  g_assert_true (hs_trip_row_list (place->store, day - 1, day, &rows, &place->error));
  assert_rows (rows, HsTripRow, id, "t2 t1");
}

/* The day and the desk. */

static HsPlanStopRow *
stop (const char *job_id, const char *supplier_id, gboolean locked)
{
  HsPlanStopRow *row = hs_plan_stop_row_new ();

  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->supplier_id, supplier_id);
  row->locked = locked;
  return row;
}

static void
accept (Place *place, GPtrArray *stops, HsInstant leave)
{
  g_autoptr (HsPlanRow) plan = hs_plan_row_new ();

  hs_row_set (&plan->van_id, "va");
  plan->day = day;
  plan->leave_at = leave;
  g_assert_true (hs_plan_row_accept (place->store, plan, stops, &place->error));
}

static void
test_plan (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) stops = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_plan_stop_row_free);
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsPlanRow) plan = NULL;

  g_assert_true (hs_plan_row_find (place->store, "va", day, &plan, &place->error));
  g_assert_null (plan);
  g_ptr_array_add (stops, stop (NULL, "k", FALSE));
  g_ptr_array_add (stops, stop ("open", NULL, TRUE));
  accept (place, stops, 100);
  g_ptr_array_add (stops, stop ("open2", NULL, FALSE));
  accept (place, stops, 200);
  g_assert_true (hs_plan_row_find (place->store, "va", day, &plan, &place->error));
  g_assert_cmpint (plan->leave_at, ==, 200);
  g_assert_cmpint (plan->accepted_at, ==, TEST_NOW);
  g_assert_true (hs_plan_stop_row_list_of (place->store, plan->id, &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 3);
  g_assert_cmpstr (((HsPlanStopRow *) rows->pdata[0])->supplier_id, ==, "k");
  g_assert_true (((HsPlanStopRow *) rows->pdata[1])->locked);
  g_assert_cmpint (((HsPlanStopRow *) rows->pdata[2])->position, ==, 2);
  g_ptr_array_add (stops, stop (NULL, NULL, FALSE));
  assert_refused (hs_plan_row_accept (place->store, plan, stops, &place->error), place->error, HS_STORE_ERROR_REFUSED,
                  "a call or a counter");
  g_clear_error (&place->error);
}

static void
test_ticks (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  for (guint i = 0; i < 2; i++)
    g_assert_true (hs_tick_row_put (place->store, day, "pick_up", "n1", TRUE, &place->error));
  g_assert_true (hs_tick_row_put (place->store, day + 1, "pick_up", "n1", TRUE, &place->error));
  g_assert_true (hs_tick_row_list (place->store, day, &rows, &place->error));
  assert_rows (rows, HsTickRow, row_id, "n1");
  for (guint i = 0; i < 2; i++)
    g_assert_true (hs_tick_row_put (place->store, day, "pick_up", "n1", FALSE, &place->error));
  g_assert_true (hs_tick_row_list (place->store, day, &rows, &place->error));
  assert_rows (rows, HsTickRow, row_id, "");
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "travel", test_travel },
    { "numbers", test_numbers },
    { "moves", test_moves },
    { "revisions", test_revisions },
    { "facts", test_facts },
    { "job-lists", test_job_lists },
    { "glance", test_glance },
    { "glance-one", test_glance_one },
    { "glance-closed", test_glance_closed },
    { "owed", test_owed },
    { "unpaid-among-many", test_unpaid_among_many },
    { "sums", test_sums },
    { "stock", test_stock },
    { "counters", test_counters },
    { "days-apart", test_days_apart },
    { "run-lists", test_run_lists },
    { "vehicle-lists", test_vehicle_lists },
    { "job-parts", test_job_parts },
    { "chase-and-trips", test_chase_and_trips },
    { "plan", test_plan },
    { "ticks", test_ticks },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/store/lists/", tests[i].name, NULL);

      g_test_add (path, Place, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
