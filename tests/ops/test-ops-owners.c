// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Who hears what of a vehicle's past: present owners, former ones, nobody; why a job's vehicle failed; which day a job
 * is spoken of by; what a vehicle is called. */

#include "hs-history.h"

#include "hs-finding-row.h"
#include "hs-job-day.h"
#include "hs-job-row.h"
#include "hs-job-why.h"
#include "hs-vehicle-name.h"
#include "ops-town.h"

#include <string.h>

#define PLATE "TDM 1204"

static HsHistory *
history_of (OpsTown *town, const char *plate)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *vehicle = ops_town_vehicle (town, plate);
  HsHistory *history = hs_history_load (town->book, vehicle, ops_town_now (town), &error);

  g_assert_no_error (error);
  return history;
}

static const HsHistoryEntry *
entry_at (const HsHistory *history, guint i)
{
  g_assert_cmpuint (i, <, history->entries->len);
  return g_ptr_array_index (history->entries, i);
}

static const HsHistoryEntry *
entry_of (const HsHistory *history, const char *number)
{
  for (guint i = 0; i < history->entries->len; i++)
    if (g_strcmp0 (entry_at (history, i)->job_number, number) == 0)
      return entry_at (history, i);
  return NULL;
}

static char *
done_on (OpsTown *town, const char *number, const char *phone, const char *day, gint64 cents)
{
  const OpsTownDone done = { number, phone, PLATE, "no crank", day, cents, TRUE };

  return ops_town_add_done (town, &done);
}

/* Sold twice: each owner's prices stay with that owner. */
static void
test_sold_twice (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *first = done_on (town, "A-0100", "555-0111", "2025-01-10", 11100);
  g_autofree char *second = NULL;
  g_autofree char *third = NULL;
  g_autoptr (HsHistory) history = NULL;

  ops_town_sell (town, PLATE, "555-0118", "2025-06-01");
  second = done_on (town, "A-0101", "555-0118", "2025-07-10", 22200);
  ops_town_sell (town, PLATE, "555-0121", "2025-12-01");
  third = done_on (town, "A-0102", "555-0121", "2026-02-10", 33300);
  history = history_of (town, PLATE);
  g_assert_cmpstr (history->customer, ==, "Rue Abernant");
  g_assert_cmpuint (history->entries->len, ==, 5);
  g_assert_cmpstr (entry_at (history, 0)->job_number, ==, "A-0102");
  g_assert_cmpint (entry_at (history, 0)->total_cents, ==, 33300);
  g_assert_cmpstr (entry_at (history, 1)->title, ==, "New owner: Rue Abernant");
  g_assert_cmpint (entry_at (history, 2)->total_cents, ==, -1);
  g_assert_cmpstr (entry_at (history, 3)->title, ==, "Changed hands");
  g_assert_null (entry_at (history, 3)->detail);
  g_assert_cmpint (entry_at (history, 4)->total_cents, ==, -1);
}

/* Bought back: what that owner paid before may be told again. */
static void
test_bought_back (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *first = done_on (town, "A-0100", "555-0111", "2025-01-10", 11100);
  g_autofree char *second = NULL;
  g_autoptr (HsHistory) history = NULL;

  ops_town_sell (town, PLATE, "555-0118", "2025-06-01");
  second = done_on (town, "A-0101", "555-0118", "2025-07-10", 22200);
  ops_town_sell (town, PLATE, "555-0111", "2025-12-01");
  history = history_of (town, PLATE);
  g_assert_cmpstr (history->customer, ==, "Ottoline Mabry");
  g_assert_cmpint (entry_of (history, "A-0100")->total_cents, ==, 11100);
  g_assert_cmpint (entry_of (history, "A-0101")->total_cents, ==, -1);
}

/* What the owner before called off is not told; what the present one called off is. */
static void
test_called_off (void)
{
  static const char jobs[] = "number,customer_phone,words,plate,stage,area,day,window_from,window_to,minutes\n"
                             "A-0100,555-0111,squeak,TDM 1204,promised,Q,2025-03-10,08:00,10:00,30\n"
                             "A-0101,555-0118,rattle,TDM 1204,promised,Q,2025-09-10,08:00,10:00,30\n";
  static const char *const numbers[] = { "A-0100", "A-0101" };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsHistory) history = NULL;
  g_autoptr (GError) error = NULL;
  HsStore *store = hs_book_get_store (town->book);

  ops_town_add (town, "jobs", jobs);
  ops_town_sell (town, PLATE, "555-0118", "2025-06-01");
  g_assert_true (hs_store_begin (store, ops_town_now (town), &error));
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *job = ops_town_job (town, numbers[i]);

      g_assert_true (hs_job_row_move (store, job, HS_STAGE_CALLED_OFF, "sold it", &error));
    }
  g_assert_true (hs_store_commit (store, &error));
  history = history_of (town, PLATE);
  g_assert_null (entry_of (history, "A-0100"));
  g_assert_nonnull (entry_of (history, "A-0101"));
  g_assert_cmpstr (entry_of (history, "A-0101")->stage, ==, "called_off");
  g_assert_cmpint (entry_of (history, "A-0101")->total_cents, ==, -1);
}

static void
test_odometer (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsHistory) history = NULL;

  ops_town_add (town, "odometer", "plate,date,value\nTDM 1204,2001-01-10,999\nTDM 1204,2025-06-10,1234567\n");
  history = history_of (town, PLATE);
  g_assert_cmpuint (history->entries->len, ==, 2);
  g_assert_cmpint (entry_at (history, 0)->kind, ==, HS_HISTORY_ODOMETER);
  g_assert_cmpstr (entry_at (history, 0)->title, ==, "Odometer 1,234,567 mi");
  g_assert_cmpstr (entry_at (history, 1)->title, ==, "Odometer 999 mi");
  g_assert_cmpint (entry_at (history, 1)->day, ==, ops_town_day ("2001-01-10"));
  g_assert_null (history->battery);
}

/* Why it failed ---------------------------------------------------------------------------------------------------- */

static void
link_findings (OpsTown *town, const char *job, const char *effect, const char *cause, const char *proof)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBecauseRow) link = hs_because_row_new ();

  g_assert_true (hs_store_begin (store, ops_town_now (town), &error));
  hs_row_set (&link->job_id, job);
  hs_row_set (&link->effect_id, effect);
  hs_row_set (&link->cause_id, cause);
  hs_row_set (&link->proof, proof);
  hs_row_set (&link->proof_kind, "seen");
  hs_because_row_save (store, link, &error);
  g_assert_no_error (error);
  g_assert_true (hs_store_commit (store, &error));
}

static char *
open_job (OpsTown *town)
{
  ops_town_add (town, "jobs",
                "number,customer_phone,words,plate,stage,area\nA-0100,555-0111,lamp on,TDM 1204,called_in,Q\n");
  return ops_town_job (town, "A-0100");
}

static void
test_why_none (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *job = open_job (town);
  g_autofree char *seen = ops_town_add_finding (town, job, "seen", "belt wet", "proven");
  g_autofree char *why = NULL;
  g_autoptr (GPtrArray) links = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_why_load (town->book, job, &why, &error));
  g_assert_null (why);
  g_assert_true (hs_job_why_links (town->book, job, &links, &error));
  g_assert_cmpuint (links->len, ==, 0);
}

/* Only the end of a chain is the reason; every end is told, each as sure as it is. */
static void
test_why_chain (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *job = open_job (town);
  g_autofree char *lamp = ops_town_add_finding (town, job, "complaint", "lamp on", "proven");
  g_autofree char *belt = ops_town_add_finding (town, job, "cause", "belt glazed", "proven");
  g_autofree char *seal = ops_town_add_finding (town, job, "cause", "pump seal weeps", "proven");
  g_autofree char *clamp = ops_town_add_finding (town, job, "cause", "clamp loose", "proven");
  g_autofree char *water = ops_town_add_finding (town, job, "cause", "plain water", "suspected");
  g_autofree char *rest = ops_town_add_finding (town, job, "cause", "noise at idle", "not_known");
  g_autofree char *why = NULL;
  g_autoptr (GPtrArray) links = NULL;
  g_autoptr (GError) error = NULL;

  link_findings (town, job, lamp, belt, "charge 12.30 V");
  link_findings (town, job, belt, seal, "0.3 bar lost");
  g_assert_true (hs_job_why_load (town->book, job, &why, &error));
  g_assert_cmpstr (why, ==,
                   "Why it failed: pump seal weeps; clamp loose. Suspected: plain water. "
                   "Not known why: noise at idle");
  g_assert_true (hs_job_why_links (town->book, job, &links, &error));
  g_assert_cmpuint (links->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (links, 0), ==, "lamp on ← belt glazed (charge 12.30 V)");
  g_assert_cmpstr (g_ptr_array_index (links, 1), ==, "belt glazed ← pump seal weeps (0.3 bar lost)");
}

/* Days and names --------------------------------------------------------------------------------------------------- */

static void
test_job_day (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autofree char *done = done_on (town, "A-0200", "555-0111", "2025-11-03", 1000);
  g_autofree char *open = open_job (town);
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (HsJobRow) over = NULL;
  g_autoptr (HsJobRow) called = NULL;
  g_autoptr (GError) error = NULL;
  HsDate day;

  g_assert_true (hs_job_row_load (store, done, &over, &error));
  over->day = ops_town_day ("2025-11-01");
  g_assert_true (hs_job_day (town->book, over, &day, &error));
  g_assert_cmpint (day, ==, ops_town_day ("2025-11-03"));
  g_assert_true (hs_job_row_load (store, open, &called, &error));
  called->called_at = ops_town_at (town, "2026-03-09T23:30");
  g_assert_true (hs_job_day (town->book, called, &day, &error));
  g_assert_cmpint (day, ==, ops_town_day ("2026-03-09"));
  called->day = ops_town_day ("2026-03-12");
  g_assert_true (hs_job_day (town->book, called, &day, &error));
  g_assert_cmpint (day, ==, ops_town_day ("2026-03-12"));
  called->day = HS_DATE_NONE;
  called->called_at = HS_INSTANT_NONE;
  g_assert_true (hs_job_day (town->book, called, &day, &error));
  g_assert_cmpint (day, ==, ops_town_day ("2026-03-10"));
}

static void
test_vehicle_name (void)
{
  static const struct
  {
    const char *make;
    const char *model;
    gint64 year;
    const char *name;
  } rows[] = {
    { "Vostle", "Crag", 2016, "Vostle Crag 2016" },
    { "Vostle", NULL, 2016, "Vostle 2016" },
    { NULL, "Crag", HS_INT_NONE, "Crag" },
    { "", "", HS_INT_NONE, "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsVehicleRow) vehicle = hs_vehicle_row_new ();
      g_autofree char *name = NULL;

      hs_row_set (&vehicle->make, rows[i].make);
      hs_row_set (&vehicle->model, rows[i].model);
      vehicle->year = rows[i].year;
      name = hs_vehicle_name (vehicle);
      g_assert_cmpstr (name, ==, rows[i].name);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/owners/sold-twice", test_sold_twice);
  g_test_add_func ("/ops/owners/bought-back", test_bought_back);
  g_test_add_func ("/ops/owners/called-off", test_called_off);
  g_test_add_func ("/ops/owners/odometer", test_odometer);
  g_test_add_func ("/ops/owners/why-none", test_why_none);
  g_test_add_func ("/ops/owners/why-chain", test_why_chain);
  g_test_add_func ("/ops/owners/job-day", test_job_day);
  g_test_add_func ("/ops/owners/vehicle-name", test_vehicle_name);
  return g_test_run ();
}
