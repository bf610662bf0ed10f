// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Distance a day and upkeep by predicted odometer: the taxi of the demo (81,400 on 2025-09-02, 94,400 on 2025-12-11,
 * oil every 10,000 miles), and readings that say nothing. */

#include "hs-odometer.h"

#include "core-test.h"

static HsOdometer
reading (const char *date, gint64 value)
{
  return (HsOdometer) { day (date), value };
}

static void
test_taxi (void)
{
  HsOdometer readings[] = { reading ("2025-12-11", 94400), reading ("2025-09-02", 81400) };
  HsOdometerPace pace;
  g_autofree char *due = NULL;

  g_assert_true (hs_odometer_pace (readings, G_N_ELEMENTS (readings), &pace, NULL));
  g_assert_cmpint (pace.distance, ==, 13000);
  g_assert_cmpint (pace.days, ==, 100);
  g_assert_cmpint (hs_odometer_pace_tenths (&pace), ==, 1300);
  g_assert_cmpint (hs_odometer_predict (&pace, day ("2026-03-10")), ==, 105970);
  g_assert_cmpint (hs_odometer_predict (&pace, day ("2026-03-10")) - 104400, ==, 1570);
  due = hs_date_format (hs_odometer_due_on (&pace, 104400));
  g_assert_cmpstr (due, ==, "2026-02-25");
}

static void
test_pace (void)
{
  static const struct
  {
    const char *dates[4];
    gint64 values[4];
    gsize n_readings;
    gint64 distance, days;
    const char *words;
  } rows[] = {
    { { "2026-01-01", "2026-01-31" }, { 1000, 1300 }, 2, 300, 30, NULL },
    { { "2026-01-01", "2026-01-30" }, { 1000, 1300 }, 2, 0, 0, "not enough to say" },
    { { "2026-01-01" }, { 1000 }, 1, 0, 0, "at least 30 days apart" },
    { { NULL }, { 0 }, 0, 0, 0, "not enough to say" },
    { { "2026-01-01", "2026-01-01" }, { 1000, 1000 }, 2, 0, 0, "not enough to say" },
    /* The newest one that is far enough back counts, whatever the order. */
    { { "2026-03-01", "2025-01-01", "2026-01-20", "2026-02-20" }, { 5000, 100, 4000, 4900 }, 4, 1000, 40, NULL },
    /* On one day the higher reading counts. */
    { { "2026-03-01", "2026-03-01", "2026-01-01" }, { 5000, 5010, 4000 }, 3, 1010, 59, NULL },
    { { "2026-03-01", "2026-03-01", "2026-01-01" }, { 5010, 5000, 4000 }, 3, 1010, 59, NULL },
    { { "2026-01-01", "2026-02-28" }, { 1000, 1000 }, 2, 0, 58, NULL },
    { { "2026-01-01", "2026-02-28" }, { 1001, 1000 }, 2, 0, 0, "the odometer fell" },
    { { "2026-02-28", "2026-01-01" }, { 1000, 1001 }, 2, 0, 0, "the odometer fell" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsOdometer readings[4];
      HsOdometerPace pace = { .days = 4711 };
      g_autoptr (GError) error = NULL;
      gboolean accepted;

      for (gsize j = 0; j < rows[i].n_readings; j++)
        readings[j] = reading (rows[i].dates[j], rows[i].values[j]);
      accepted = hs_odometer_pace (readings, rows[i].n_readings, &pace, &error);
      if (rows[i].words != NULL)
        {
          assert_refused (accepted, &error, HS_CORE_ERROR_REFUSED, rows[i].words);
          g_assert_cmpint (pace.days, ==, 4711);
          continue;
        }
      g_assert_true (accepted);
      g_assert_cmpint (pace.distance, ==, rows[i].distance);
      g_assert_cmpint (pace.days, ==, rows[i].days);
    }
}

static void
test_due_and_predicted (void)
{
  static const struct
  {
    gint64 distance, days, due_value;
    const char *due;
    gint64 next_day;
  } rows[] = {
    /* From 1,000 on 2026-01-01: three in two days reaches 1,010 in 6.67 days, floored. */
    { 60, 40, 1010, "2026-01-07", 1001 },
    { 60, 40, 1000, "2026-01-01", 1001 },
    { 60, 40, 900, "2026-01-01", 1001 },
    { 60, 40, 1001, "2026-01-01", 1001 },
    { 0, 40, 1010, "", 1000 },
    { 0, 40, 1000, "2026-01-01", 1000 },
    { 1, 40, G_MAXINT64, "", 1000 },
    { 1, 40, 1000000000, "", 1000 },
    { 40, 40, 1365, "2027-01-01", 1001 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsOdometerPace pace = { reading ("2026-01-01", 1000), rows[i].distance, rows[i].days };
      g_autofree char *due = hs_date_format (hs_odometer_due_on (&pace, rows[i].due_value));

      g_assert_cmpstr (due, ==, rows[i].due);
      g_assert_cmpint (hs_odometer_predict (&pace, day ("2026-01-02")), ==, rows[i].next_day);
      g_assert_cmpint (hs_odometer_predict (&pace, day ("2025-01-01")), ==, 1000);
    }
}

static void
test_predict_far (void)
{
  HsOdometerPace pace = { reading ("2026-01-01", 1000), G_MAXINT64, 30 };

  g_assert_cmpint (hs_odometer_predict (&pace, day ("2026-02-01")), ==, G_MAXINT64);
}

static void
test_pace_tenths (void)
{
  static const gint64 rows[][3] = { { 13000, 100, 1300 }, { 1, 40, 0 }, { 2, 40, 1 }, { 100, 30, 33 }, { 0, 30, 0 } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsOdometerPace pace = { reading ("2026-01-01", 1000), rows[i][0], rows[i][1] };

      g_assert_cmpint (hs_odometer_pace_tenths (&pace), ==, rows[i][2]);
    }
}

static void
test_step (void)
{
  static const struct
  {
    const char *from;
    gint64 earlier;
    const char *to;
    gint64 later;
    HsOdometerStep step;
  } rows[] = {
    { "2025-09-02", 81400, "2025-12-11", 94400, HS_ODOMETER_STEP_FINE },
    { "2025-09-02", 81400, "2025-09-02", 81400, HS_ODOMETER_STEP_FINE },
    { "2025-09-02", 81400, "2025-12-11", 81399, HS_ODOMETER_STEP_FELL },
    { "2025-09-02", 81400, "2025-09-02", 82400, HS_ODOMETER_STEP_FINE },       /* a thousand on one day */
    { "2025-09-02", 81400, "2025-09-02", 82401, HS_ODOMETER_STEP_JUMPED },
    { "2025-09-02", 81400, "2025-09-04", 83400, HS_ODOMETER_STEP_FINE },
    { "2025-09-02", 81400, "2025-09-04", 83401, HS_ODOMETER_STEP_JUMPED },
    { "2025-09-02", 81400, "2025-12-11", 814000, HS_ODOMETER_STEP_JUMPED },    /* a digit too many */
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsOdometer earlier = { day (rows[i].from), rows[i].earlier };
      HsOdometer later = { day (rows[i].to), rows[i].later };

      g_assert_cmpint (hs_odometer_step (&earlier, &later), ==, rows[i].step);
    }
}

/* A hundred a year from the second year on; of an unknown age ten. */
static void
test_low (void)
{
  static const struct
  {
    gint64 value;
    int years;
    gboolean low;
  } rows[] = {
    { 0, 0, FALSE }, { 1, 1, FALSE },   { 1, 2, TRUE },        { 199, 2, TRUE }, { 200, 2, FALSE },
    { 9, -1, TRUE }, { 10, -1, FALSE }, { 3999, 40, TRUE }, { 4000, 40, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_odometer_is_low (rows[i].value, rows[i].years), ==, rows[i].low);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/odometer/taxi", test_taxi);
  g_test_add_func ("/odometer/pace", test_pace);
  g_test_add_func ("/odometer/due-and-predicted", test_due_and_predicted);
  g_test_add_func ("/odometer/predict-far", test_predict_far);
  g_test_add_func ("/odometer/pace-tenths", test_pace_tenths);
  g_test_add_func ("/odometer/step", test_step);
  g_test_add_func ("/odometer/low", test_low);
  return g_test_run ();
}
