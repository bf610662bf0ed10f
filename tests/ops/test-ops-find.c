// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* "Which battery, and when?" on the demo business, and batteries that are known in other ways. */

#include "hs-find.h"

#include "hs-demo.h"
#include "hs-vehicle-row.h"
#include "ops-demo.h"
#include "ops-town.h"

static HsDate
day_of (const char *text)
{
  HsDate day = HS_DATE_NONE;

  g_assert_true (hs_date_parse (text, &day, NULL));
  return day;
}

static GPtrArray *
find (const char *words)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *hits = hs_find (ops_demo_book (), words, 20, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  return hits;
}

static const HsHit *
find_plate (GPtrArray *hits, const char *plate)
{
  for (guint i = 0; i < hits->len; i++)
    if (g_strcmp0 (((HsHit *) g_ptr_array_index (hits, i))->plate, plate) == 0)
      return g_ptr_array_index (hits, i);
  return NULL;
}

/* Four digits of the caller's phone: the battery, its age, how it is known, and that its cover is over. */
static void
test_four_digits (void)
{
  g_autoptr (GPtrArray) hits = find ("0121");
  const HsHit *hit;

  g_assert_cmpuint (hits->len, ==, 1);
  hit = g_ptr_array_index (hits, 0);
  g_assert_cmpstr (hit->plate, ==, "TDM 8816");
  g_assert_cmpstr (hit->vehicle, ==, "Vostle Crag 2016");
  g_assert_cmpstr (hit->customer, ==, "Rue Abernant");
  g_assert_cmpstr (hit->area, ==, "Quayside");
  g_assert_true (hit->present);
  g_assert_cmpint (hit->until, ==, HS_DATE_NONE);
  g_assert_nonnull (hit->battery);
  g_assert_cmpint (hit->battery->installed_on, ==, day_of ("2023-10-05"));
  g_assert_cmpint (hit->battery->age_months, ==, 29);
  g_assert_cmpstr (hit->battery->known_by, ==, "we_installed_it");
  g_assert_cmpstr (hit->battery->kind, ==, "flooded");
  g_assert_cmpfloat (hit->battery->ah, ==, 55);
  g_assert_cmpfloat (hit->battery->cca, ==, 480);
  g_assert_cmpint (hit->battery->warranty_until, ==, day_of ("2025-10-05"));
  g_assert_false (hit->battery->swapped);
  g_assert_cmpstr (hit->battery->job_number, ==, "A-0002");
  g_assert_cmpstr (hit->battery->say, ==, "Installed October 5, 2023: 29 months. Cover ended last October.");
}

/* The seller's number leads to the vehicle he kept and, as past, to the one he sold. */
static void
test_sold (void)
{
  g_autoptr (GPtrArray) hits = find ("0118");
  const HsHit *kept = find_plate (hits, "TDM 1216");
  const HsHit *sold = find_plate (hits, "TDM 8816");

  g_assert_cmpuint (hits->len, ==, 2);
  g_assert_nonnull (kept);
  g_assert_true (kept->present);
  g_assert_cmpstr (kept->customer, ==, "Jory Pellam");
  g_assert_nonnull (sold);
  g_assert_false (sold->present);
  g_assert_cmpint (sold->until, ==, day_of ("2025-08-17"));
}

/* A battery that was swapped under warranty keeps the first clock. */
static void
test_swapped (void)
{
  g_autoptr (GPtrArray) hits = find ("2218");
  const HsHit *hit = find_plate (hits, "TDM 2218");

  g_assert_nonnull (hit);
  g_assert_cmpint (hit->battery->installed_on, ==, day_of ("2025-09-02"));
  g_assert_cmpint (hit->battery->warranty_until, ==, day_of ("2027-05-14"));
  g_assert_true (hit->battery->swapped);
  g_assert_cmpstr (hit->battery->kind, ==, "AGM");
  g_assert_cmpstr (hit->battery->say, ==,
                   "Swapped under warranty September 2, 2025: 6 months. "
                   "Covered until May 14, 2027, counted from the first one.");
}

static void
test_none (void)
{
  g_autoptr (GPtrArray) hits = find ("zebra 9999");
  g_autoptr (GPtrArray) without = find ("TDM 1315");

  g_assert_cmpuint (hits->len, ==, 0);
  g_assert_cmpuint (without->len, ==, 1);
  g_assert_null (((HsHit *) g_ptr_array_index (without, 0))->battery);
}

/* Without words: what was seen lately, newest first, no more than asked for. */
static void
test_lately (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) hits = hs_find (ops_demo_book (), NULL, 5, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  g_assert_cmpuint (hits->len, ==, 5);
  for (guint i = 0; i < hits->len; i++)
    g_assert_cmpint (((HsHit *) g_ptr_array_index (hits, i))->last_seen, !=, HS_INSTANT_NONE);
}

/* Ways to know a date ---------------------------------------------------------------------------------------------- */

typedef struct
{
  const char *csv;
  const char *today;
  int age_months;
  const char *until;
  const char *say;
} Known;

#define HEAD "plate,what,date,place,known_by,warranty_from,warranty_months,ah,battery_kind\n"
#define ROW HEAD "TDM 1204,battery 45 Ah,"

static const Known known_rows[] = {
  { ROW "2024-01-31,under the hood,receipt,2024-01-31,24,45,flooded\n", "2026-02-27", 24, "2026-01-31",
    "By its receipt installed January 31, 2024: 24 months. Cover ended 27 days ago, on January 31." },
  { ROW "2024-02-01,under the hood,date_stamp,,,45,flooded\n", "2026-03-10", 25, NULL,
    "Its date stamp says February 2024: about 25 months." },
  { ROW "2022-06-01,under the hood,customer_says,,,45,flooded\n", "2026-03-10", 45, NULL,
    "By what we were told installed in June 2022: about 45 months, not checked." },
  { ROW "2022-06-01,under the hood,not_known,,,45,flooded\n", "2026-03-10", -1, NULL,
    "When it was installed is not known." },
  { ROW "2026-03-01,under the hood,we_installed_it,2026-03-01,24,45,AGM\n", "2026-03-10", 0, "2028-03-01",
    "Installed March 1, 2026: less than a month. Covered until March 1, 2028." },
  { ROW "2025-02-09,under the hood,we_installed_it,2025-02-09,0,45,AGM\n", "2026-03-10", 13, NULL,
    "Installed February 9, 2025: 13 months. It has no cover." },
  { ROW "2024-03-09,under the hood,we_installed_it,2024-03-09,24,45,AGM\n", "2026-03-10", 24, "2026-03-09",
    "Installed March 9, 2024: 24 months. Cover ended yesterday." },
  { ROW "2024-03-10,under the hood,we_installed_it,2024-03-10,24,45,AGM\n", "2026-03-10", 24, "2026-03-10",
    "Installed March 10, 2024: 24 months. Covered until March 10, 2026." },
};

static void
test_known_by (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (known_rows); i++)
    {
      const Known *row = &known_rows[i];
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) vehicles = NULL;
      g_autoptr (HsBatteryFact) fact = NULL;

      ops_town_add (town, "installed", row->csv);
      g_assert_true (
          hs_vehicle_row_list_by_plate (hs_book_get_store (town->book), "tdm1204", &vehicles, &error));
      fact = hs_battery_fact_load (town->book, ((HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id,
                                   day_of (row->today), &error);
      g_assert_no_error (error);
      g_assert_nonnull (fact);
      g_assert_cmpstr (fact->say, ==, row->say);
      g_assert_cmpint (fact->age_months, ==, row->age_months);
      g_assert_cmpint (fact->warranty_until, ==, row->until != NULL ? day_of (row->until) : HS_DATE_NONE);
      g_assert_cmpstr (fact->place, ==, "under the hood");
    }
}

/* The one that was taken out is not the one that is in it. */
static void
test_removed (void)
{
  static const char csv[] = "plate,what,date,place,known_by,removed_on,ah,battery_kind\n"
                            "TDM 1204,battery 44 Ah,2020-01-01,under the hood,receipt,2024-05-05,44,flooded\n"
                            "TDM 1204,battery 45 Ah,2024-05-05,under the hood,receipt,,45,AGM\n";
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) hits = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add (town, "installed", csv);
  hits = hs_find (town->book, "1204", 5, ops_town_now (town), &error);
  g_assert_no_error (error);
  g_assert_cmpuint (hits->len, ==, 1);
  g_assert_cmpfloat (((HsHit *) g_ptr_array_index (hits, 0))->battery->ah, ==, 45);
  g_assert_cmpint (((HsHit *) g_ptr_array_index (hits, 0))->last_seen, ==, HS_INSTANT_NONE);
}

/* A job by its number, in any of the ways in which one says it; what is none finds none. */
static void
test_job_numbers (void)
{
  static const struct
  {
    const char *words;
    const char *number;
  } rows[] = {
    { "A-0024", "A-0024" }, { "a24", "A-0024" }, { " A 24 ", "A-0024" }, { "0024", "A-0024" },
    { "24", "A-0024" },     { "1", "A-0001" },   { "0", NULL },           { "0027", NULL },
    { "B-0024", NULL },     { "", NULL },        { "24x", NULL },         { "TDM 24", NULL },
    { "1234567", NULL },    { NULL, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) hits = hs_find_jobs (ops_demo_book (), rows[i].words, hs_demo_get_now (), &error);
      const HsHit *hit;

      g_assert_no_error (error);
      g_assert_cmpuint (hits->len, ==, rows[i].number != NULL ? 1 : 0);
      if (hits->len == 0)
        continue;
      hit = g_ptr_array_index (hits, 0);
      g_assert_cmpstr (hit->job_number, ==, rows[i].number);
      g_assert_nonnull (hit->job_id);
      g_assert_nonnull (hit->customer);
      g_assert_nonnull (hit->plate);
      g_assert_cmpint (hit->stage, ==, *rows[i].number != '\0' && g_str_has_suffix (rows[i].number, "24")
                                           ? HS_STAGE_PROMISED : HS_STAGE_SQUARED);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/find/four-digits", test_four_digits);
  g_test_add_func ("/ops/find/job-numbers", test_job_numbers);
  g_test_add_func ("/ops/find/sold", test_sold);
  g_test_add_func ("/ops/find/swapped", test_swapped);
  g_test_add_func ("/ops/find/none", test_none);
  g_test_add_func ("/ops/find/lately", test_lately);
  g_test_add_func ("/ops/find/known-by", test_known_by);
  g_test_add_func ("/ops/find/removed", test_removed);
  return ops_demo_run ();
}
