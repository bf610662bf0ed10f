// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* When a counter is open on a day: its week, days that are different for it, days that are different for all; and that
 * the plan, the parts run, the choice of a counter and squeezing in all follow. Tuesday is 2026-03-10. */

#include "hs-counter-hours.h"

#include "hs-day-plan.h"
#include "hs-parts-run.h"
#include "hs-supplier-row.h"
#include "ops-town.h"

#include <string.h>

#define TUESDAY "2026-03-10"
#define K "Kingpost Parts Counter"
#define L "Larch & Weir Auto Electrical"
#define JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define NEEDS "job,part,quantity,supplier\n"
#define DAYS "supplier,date,opens,shuts,words\n"

typedef struct
{
  const char *what;
  const char *rows;
  const char *day;
  const char *hours;
  const char *words;
  gboolean apart;
} Case;

/* @hours: of Larch & Weir on @day, as hs_hours_format() tells them. */
static const Case cases[] = {
  { "the week", "", TUESDAY, "08:00–12:30, 13:15–17:00", NULL, FALSE },
  { "another day", L ",2026-03-11,,,Founders' Day\n", TUESDAY, "08:00–12:30, 13:15–17:00", NULL, FALSE },
  { "another counter", K "," TUESDAY ",,,Founders' Day\n", TUESDAY, "08:00–12:30, 13:15–17:00", NULL, FALSE },
  { "shut", L "," TUESDAY ",,,Founders' Day\n", TUESDAY, "shut", "Founders' Day", TRUE },
  { "shut without words", L "," TUESDAY ",,,\n", TUESDAY, "shut", NULL, TRUE },
  { "all shut", "," TUESDAY ",,,Founders' Day\n", TUESDAY, "shut", "Founders' Day", TRUE },
  { "other hours", L "," TUESDAY ",09:00,11:00,stocktaking\n", TUESDAY, "09:00–11:00", "stocktaking", TRUE },
  { "two spans", L "," TUESDAY ",13:00,15:00,\n" L "," TUESDAY ",09:00,11:00,late in one row\n", TUESDAY,
    "09:00–11:00, 13:00–15:00", "late in one row", TRUE },
  { "all at other hours", "," TUESDAY ",09:00,11:00,\n", TUESDAY, "09:00–11:00", NULL, TRUE },
  { "its own before all", "," TUESDAY ",,,Founders' Day\n" L "," TUESDAY ",10:00,12:00,half a day\n", TUESDAY,
    "10:00–12:00", "half a day", TRUE },
  { "its own shut before all", L "," TUESDAY ",,,funeral\n," TUESDAY ",10:00,12:00,half a day\n", TUESDAY, "shut",
    "funeral", TRUE },
  { "its own words only", "," TUESDAY ",,,Founders' Day\n" L "," TUESDAY ",,,\n", TUESDAY, "shut", NULL, TRUE },
  { "open on a Sunday", L ",2026-03-15,10:00,14:00,open house\n", "2026-03-15", "10:00–14:00", "open house", TRUE },
};

static char *
supplier_id (OpsTown *town, const char *name)
{
  g_autoptr (HsSupplierRow) supplier = NULL;
  g_autoptr (GError) error = NULL;

  hs_supplier_row_find (hs_book_get_store (town->book), name, &supplier, &error);
  g_assert_no_error (error);
  return g_strdup (supplier->id);
}

static HsCounterHours *
load (OpsTown *town, const char *day)
{
  g_autoptr (GError) error = NULL;
  HsCounterHours *hours = hs_counter_hours_load (hs_book_get_store (town->book), ops_town_day (day), &error);

  g_assert_no_error (error);
  return hours;
}

static void
add_days (OpsTown *town, const char *rows)
{
  g_autofree char *csv = g_strconcat (DAYS, rows, NULL);

  ops_town_add (town, "holidays", csv);
}

static void
assert_hours (OpsTown *town, const Case *row)
{
  g_autoptr (HsCounterHours) hours = load (town, row->day);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsOpenSpan));
  g_autofree char *id = supplier_id (town, L);
  g_autofree char *words = NULL;
  g_autofree char *text = NULL;
  gboolean shut;

  g_assert_cmpint (hs_counter_hours_fill (hours, id, spans, &shut, &words), ==, row->apart);
  g_assert_cmpstr (words, ==, row->words);
  g_assert_cmpint (shut, ==, row->apart && g_str_equal (row->hours, "shut"));
  g_assert_cmpint (hs_counter_hours_is_open (hours, id), ==, !g_str_equal (row->hours, "shut"));
  text = hs_hours_format ((const HsOpenSpan *) (gpointer) spans->data, spans->len,
                          hs_date_weekday (ops_town_day (row->day)));
  g_assert_cmpstr (text, ==, row->hours);
}

static void
test_hours (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();

      g_test_message ("%s", cases[i].what);
      add_days (town, cases[i].rows);
      assert_hours (town, &cases[i]);
    }
}

/* Nobody wrote down when it opens: at any time, but for a day that the book knows. */
static void
test_hours_not_known (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsCounterHours) free_day = NULL;
  g_autoptr (HsCounterHours) holiday = NULL;
  g_autofree char *id = NULL;

  ops_town_add (town, "suppliers", "name,area\nHollow Lane Spares,O\n");
  add_days (town, ",2026-07-03,,,Founders' Day\n");
  id = supplier_id (town, "Hollow Lane Spares");
  free_day = load (town, TUESDAY);
  holiday = load (town, "2026-07-03");
  g_assert_true (hs_counter_hours_is_open (free_day, id));
  g_assert_false (hs_counter_hours_is_open (holiday, id));
}

/* Plans ------------------------------------------------------------------------------------------------------------ */

static void
add_call (OpsTown *town, const char *part, const char *supplier)
{
  g_autofree char *needs = g_strdup_printf (NEEDS "A-0001,%s,1,%s\n", part, supplier);

  ops_town_add (town, "jobs", JOBS "A-0001,555-0122,a,repair,promised,O," TUESDAY ",08:00,17:00,30\n");
  ops_town_add (town, "needs", needs);
}

static HsDayPlan *
plan (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsDayPlan *made = hs_day_plan_make (town->book, ops_town_day (TUESDAY), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  return made;
}

static const HsPlannedStop *
find_stop (const HsDayPlan *made, const char *id)
{
  for (guint i = 0; i < made->stops->len; i++)
    if (g_str_equal (((HsPlannedStop *) g_ptr_array_index (made->stops, i))->id, id))
      return g_ptr_array_index (made->stops, i);
  return NULL;
}

static const char *
why (const HsDayPlan *made, const char *id)
{
  for (guint i = 0; i < made->broken->len; i++)
    if (g_str_equal (((HsBrokenPromise *) g_ptr_array_index (made->broken, i))->id, id))
      return ((HsBrokenPromise *) g_ptr_array_index (made->broken, i))->why;
  return NULL;
}

static void
test_plan_says_why (void)
{
  static const char *const rows[][2] = {
    { L "," TUESDAY ",,,Founders' Day\n", L " does not open on " TUESDAY ": Founders' Day" },
    { "," TUESDAY ",,,Founders' Day\n", L " does not open on " TUESDAY ": Founders' Day" },
    { L "," TUESDAY ",,,\n", L " does not open on " TUESDAY },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsDayPlan) made = NULL;
      g_autofree char *of_call = g_strconcat ("its parts cannot be had first: ", rows[i][1], NULL);

      add_call (town, "ST-1315", L);
      add_days (town, rows[i][0]);
      made = plan (town);
      g_assert_cmpint (made->status, ==, HS_PLAN_IMPOSSIBLE);
      g_assert_cmpstr (why (made, L), ==, rows[i][1]);
      g_assert_cmpstr (why (made, "A-0001"), ==, of_call);
      g_assert_null (find_stop (made, L));
      g_assert_cmpuint (made->spans->len, ==, 0);
    }
}

/* The stop waits for the hours of the day, and its note says that they are others. */
static void
test_plan_at_other_hours (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) made = NULL;
  const HsPlannedStop *stop;

  add_call (town, "ST-1315", L);
  add_days (town, L "," TUESDAY ",14:00,15:00,stocktaking\n");
  made = plan (town);
  stop = find_stop (made, L);
  g_assert_nonnull (stop);
  ops_town_assert_clock (town, stop->start, "14:00");
  g_assert_cmpstr (stop->note, ==, "pick up 1 · other hours: stocktaking");
  g_assert_cmpuint (made->spans->len, ==, 1);
  g_assert_cmpint (made->status, ==, HS_PLAN_OPTIMAL);
}

static void
test_other_hours_without_words (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) made = NULL;

  add_call (town, "ST-1315", L);
  add_days (town, "," TUESDAY ",14:00,15:00,\n");
  made = plan (town);
  g_assert_cmpstr (find_stop (made, L)->note, ==, "pick up 1 · other hours on this day");
}

/* A part that two counters sell is bought at the dearer one while the cheaper one keeps a holiday. */
static void
test_choice_follows (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsDayPlan) on_a_tuesday = NULL;
  g_autoptr (HsDayPlan) on_a_holiday = NULL;

  ops_town_add (town, "prices", "supplier,part,cost,seen_on\n" K ",ST-1315,150.00,2026-03-02\n");
  add_call (town, "ST-1315", "");
  on_a_tuesday = plan (town);
  g_assert_nonnull (find_stop (on_a_tuesday, L));
  g_assert_null (find_stop (on_a_tuesday, K));
  add_days (town, L "," TUESDAY ",,,Founders' Day\n");
  on_a_holiday = plan (town);
  g_assert_null (find_stop (on_a_holiday, L));
  g_assert_nonnull (find_stop (on_a_holiday, K));
  g_assert_cmpint (on_a_holiday->status, ==, HS_PLAN_OPTIMAL);
}

static void
test_parts_run_follows (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsPartsRun) run = NULL;
  g_autoptr (GError) error = NULL;
  const HsRunCounter *counter;

  add_call (town, "ST-1315", L);
  add_days (town, L "," TUESDAY ",,,Founders' Day\n");
  run = hs_parts_run_make (town->book, ops_town_day (TUESDAY), NULL, HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (run->counters->len, ==, 1);
  counter = g_ptr_array_index (run->counters, 0);
  g_assert_cmpstr (counter->supplier, ==, L);
  g_assert_cmpint (counter->arrive, ==, HS_INSTANT_NONE);
  g_assert_cmpstr (why (run->plan, L), ==, L " does not open on " TUESDAY ": Founders' Day");
}

/* Squeezing in drives the same hours: two hours of work before the counter, and it is shut at 08:30, not at 12:30. */
static void
test_squeeze_follows (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GPtrArray) offers = NULL;
  g_autoptr (GError) error = NULL;
  guint missed = 0;

  add_call (town, "ST-1315", L);
  add_days (town, L "," TUESDAY ",08:00,08:30,stocktaking\n");
  offers = hs_day_squeeze (town->book, ops_town_day (TUESDAY), NULL, "H", 120 * 60, 8 * 60, 18 * 60, FALSE,
                           HS_INSTANT_NONE, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < offers->len; i++)
    {
      const HsOffer *offer = g_ptr_array_index (offers, i);

      for (guint k = 0; offer->after == NULL && k < offer->breaks->len; k++)
        missed += strstr (((HsBrokenPromise *) g_ptr_array_index (offer->breaks, k))->why, "shuts at 08:30") != NULL;
    }
  g_assert_cmpuint (missed, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/counter-hours/hours", test_hours);
  g_test_add_func ("/ops/counter-hours/not-known", test_hours_not_known);
  g_test_add_func ("/ops/counter-hours/plan-says-why", test_plan_says_why);
  g_test_add_func ("/ops/counter-hours/plan-at-other-hours", test_plan_at_other_hours);
  g_test_add_func ("/ops/counter-hours/without-words", test_other_hours_without_words);
  g_test_add_func ("/ops/counter-hours/choice", test_choice_follows);
  g_test_add_func ("/ops/counter-hours/parts-run", test_parts_run_follows);
  g_test_add_func ("/ops/counter-hours/squeeze", test_squeeze_follows);
  return g_test_run ();
}
