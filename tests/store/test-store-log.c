// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The log of changes: who changed what from what to what; and what is said, and not logged, when the book refuses. */

#include <string.h>

#include "book.h"
#include "hs-log-row.h"
#include "hs-money-row.h"
#include "hs-odometer-row.h"
#include "hs-store-private.h"
#include "hs-supplier-row.h"
#include "hs-undo.h"
#include "hs-vehicle-row.h"

typedef struct
{
  char *folder;
  HsStore *store;
  GError *error;
} Place;

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

static void
assert_log (HsLogRow *row, const char *act, const char *field, const char *was, const char *became)
{
  g_assert_cmpstr (row->act, ==, act);
  g_assert_cmpstr (row->field, ==, field);
  g_assert_cmpstr (row->was, ==, was);
  g_assert_cmpstr (row->became, ==, became);
  g_assert_cmpint (row->at, ==, TEST_NOW);
}

static void
test_log (Place *place, gconstpointer data)
{
  g_autoptr (HsSupplierRow) supplier = hs_supplier_row_new ();
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GPtrArray) all = NULL;

  hs_row_set (&supplier->id, "new");
  hs_row_set (&supplier->name, "Ridgeback Salvage Yard");
  g_assert_true (hs_supplier_row_save (place->store, supplier, &place->error));
  hs_store_set_who (place->store, "B");
  supplier->return_days = 14;
  hs_row_set (&supplier->note, "no deposits");
  g_assert_true (hs_supplier_row_save (place->store, supplier, &place->error));
  g_assert_true (hs_supplier_row_delete (place->store, "new", &place->error));
  g_assert_true (hs_log_row_list_of (place->store, "supplier", "new", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 8);
  assert_log (rows->pdata[0], "added", NULL, NULL, NULL);
  g_assert_cmpstr (((HsLogRow *) rows->pdata[0])->who, ==, "A");
  assert_log (rows->pdata[1], "changed", "return_days", NULL, "14");
  g_assert_cmpstr (((HsLogRow *) rows->pdata[1])->who, ==, "B");
  assert_log (rows->pdata[2], "changed", "note", NULL, "no deposits");
  assert_log (rows->pdata[3], "removed", "name", "Ridgeback Salvage Yard", NULL);
  assert_log (rows->pdata[4], "removed", "return_days", "14", NULL);
  assert_log (rows->pdata[5], "removed", "restock_basis_points", "0", NULL);
  assert_log (rows->pdata[6], "removed", "stop_seconds", "600", NULL);
  assert_log (rows->pdata[7], "removed", "note", "no deposits", NULL);
  g_assert_true (hs_log_row_list (place->store, ((HsLogRow *) rows->pdata[2])->seq, 2, &all, &place->error));
  g_assert_cmpint (all->len, ==, 2);
  assert_log (all->pdata[0], "removed", "name", "Ridgeback Salvage Yard", NULL);
}

/* Every type of field is told apart from nothing, and a change to the same value is none. */
static void
test_reals_and_flags (Place *place, gconstpointer data)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (HsOdometerRow) odometer = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_vehicle_row_load (place->store, "v2", &vehicle, &place->error));
  g_assert_true (isnan (vehicle->battery_ah));
  g_assert_cmpint (vehicle->year, ==, HS_INT_NONE);
  vehicle->battery_ah = 55.5;
  vehicle->high_voltage = 7;
  g_assert_true (hs_vehicle_row_save (place->store, vehicle, &place->error));
  vehicle->battery_ah = HS_REAL_NONE;
  vehicle->high_voltage = FALSE;
  g_assert_true (hs_vehicle_row_save (place->store, vehicle, &place->error));
  g_assert_true (hs_log_row_list_of (place->store, "vehicle", "v2", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 4);
  assert_log (rows->pdata[0], "changed", "battery_ah", NULL, "55.5");
  assert_log (rows->pdata[1], "changed", "high_voltage", "0", "1");
  assert_log (rows->pdata[2], "changed", "battery_ah", "55.5", NULL);
  assert_log (rows->pdata[3], "changed", "high_voltage", "1", "0");
  g_clear_pointer (&rows, g_ptr_array_unref);
  g_assert_true (hs_odometer_row_load (place->store, "o2", &odometer, &place->error));
  odometer->on_date++;
  g_assert_true (hs_odometer_row_save (place->store, odometer, &place->error));
  g_assert_true (hs_log_row_list_of (place->store, "odometer", "o2", &rows, &place->error));
  assert_log (rows->pdata[0], "changed", "on_date", "2025-12-11", "2025-12-12");
}

/* What was done to more than one row stands in the log under its own name. */
static void
test_deed (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_log_row_add_deed (place->store, "day_share", "2026-03-10", "added", "so it was", &place->error));
  g_assert_true (hs_log_row_add_deed (place->store, "day_share", "2026-03-11", "added", NULL, &place->error));
  g_assert_true (hs_log_row_add_deed (place->store, "day_share", "2026-03-10", "removed", NULL, &place->error));
  g_assert_false (hs_log_row_add_deed (place->store, "day_share", "2026-03-10", "undone", NULL, &place->error));
  g_clear_error (&place->error);
  g_assert_true (hs_log_row_list_of (place->store, "day_share", "2026-03-10", &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 2);
  assert_log (rows->pdata[0], "added", NULL, NULL, "so it was");
  assert_log (rows->pdata[1], "removed", NULL, NULL, NULL);
}

static gint64
next_step (Place *place)
{
  gint64 seq = 0;

  g_assert_true (hs_log_row_next_step (place->store, &seq, &place->error));
  g_assert_no_error (place->error);
  return seq;
}

/* The place of a step is known before it is written, and none has it again. */
static void
test_next_step (Place *place, gconstpointer data)
{
  gint64 first = next_step (place);

  for (gint64 seq = first; seq < first + 3; seq++)
    {
      g_autoptr (HsVehicleRow) vehicle = NULL;
      g_autoptr (HsUndoStep) step = NULL;

      g_assert_true (hs_vehicle_row_load (place->store, "v2", &vehicle, &place->error));
      g_assert_true (hs_store_begin (place->store, 20, &place->error));
      hs_undo_note (place->store, "open", "battery");
      vehicle->battery_ah = 55.5 + (double) seq;
      g_assert_true (hs_vehicle_row_save (place->store, vehicle, &place->error));
      g_assert_cmpint (next_step (place), ==, seq);
      g_assert_true (hs_store_end (place->store, TRUE, &place->error));
      g_assert_true (hs_undo_last (place->store, "open", 21, &step, &place->error));
      g_assert_cmpint (step->seq, ==, seq);
      g_assert_cmpint (next_step (place), ==, seq + 1);
    }
}

/* What is refused leaves neither a row nor a line in the log, and says the rule. */
static void
test_refused_leaves_nothing (Place *place, gconstpointer data)
{
  g_autoptr (HsLineRow) line = hs_line_row_new ();
  gint64 logged = test_int (place->store->db, "SELECT count (*) FROM change_log");

  hs_row_set (&line->job_id, "squared");
  hs_row_set (&line->kind, "labor");
  hs_row_set (&line->what, "more");
  line->price_cents = 1;
  assert_refused (hs_line_row_save (place->store, line, &place->error), place->error, HS_STORE_ERROR_REFUSED,
                  "The job is squared up; write a return visit or a credit");
  g_clear_error (&place->error);
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM change_log"), ==, logged);
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM line WHERE job_id = 'squared'"), ==, 1);
}

static const struct
{
  const char *sql;
  const char *says;
} sentences[] = {
  { "UPDATE job SET number = 'A-0001' WHERE id = 'open2'", "The number of the job is in the book already" },
  { "UPDATE customer SET name = NULL", "The name of the customer is missing" },
  { "UPDATE customer SET name = ' '", "A customer needs a name" },
  { "UPDATE customer SET reach_from_minutes = 1441", "The book takes only: reach_from_minutes BETWEEN 0 AND 1440" },
  { "INSERT INTO ownership (id, vehicle_id, customer_id) VALUES ('w', 'v1', 'c2')",
    "A vehicle has one present owner; end the old one first" },
  { "INSERT INTO phone (id, customer_id, shown, digits) VALUES ('p', 'x', '1', '1')",
    "It names something that is not in the book" },
  { "UPDATE job SET stage = 'called_in' WHERE id = 'squared'", "Squared up does not go back; open a return visit" },
  { "UPDATE customer SET terms_days = 'soon'", "cannot store TEXT value in INTEGER column" },
};

static void
test_sentences (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (sentences); i++)
    {
      assert_refused (hs_store_exec (place->store, sentences[i].sql, &place->error), place->error,
                      HS_STORE_ERROR_REFUSED, sentences[i].says);
      g_clear_error (&place->error);
    }
  assert_refused (hs_store_exec (place->store, "SELECT nowhere", &place->error), place->error, HS_STORE_ERROR_FAILED,
                  "no such column");
  g_clear_error (&place->error);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "log", test_log },
    { "reals-and-flags", test_reals_and_flags },
    { "deed", test_deed },
    { "next-step", test_next_step },
    { "refused-leaves-nothing", test_refused_leaves_nothing },
    { "sentences", test_sentences },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/store/log/", tests[i].name, NULL);

      g_test_add (path, Place, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
