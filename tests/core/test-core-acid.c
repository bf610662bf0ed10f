// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Battery acid and ratings, against worked examples and printed rows; TM is a US Army technical manual. */

#include "core-test.h"

#include "hs-acid.h"
#include "hs-battery.h"
#include "hs-drain.h"
#include "hs-rating.h"

#include <math.h>

#define NEAR 1e-9

/* SG-1 is printed in TM 5-3820-256-24-4 fig. 7; SG-2 is the same rule the other way. */
static void
test_gravity (void)
{
  g_assert_cmpfloat_with_epsilon (hs_acid_gravity_at_80_fahrenheit (1.250, 20), 1.226, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_gravity_at_80_fahrenheit (1.250, 100), 1.258, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_gravity_at_80_fahrenheit (1.250, 80), 1.250, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_fahrenheit (-40), -40, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_fahrenheit (100), 212, NEAR);
}

/* SG-3: a battery maker's table, on only if asked for: 12.40 V read at 20 °F is 12.256 V, 51.9 %. */
static void
test_volts_by_temperature (void)
{
  double volts = hs_acid_volts_at_80_fahrenheit (12.40, 20);
  double percent = -1;

  g_assert_cmpfloat_with_epsilon (volts, 12.256, NEAR);
  g_assert_true (hs_battery_charge_percent (HS_BATTERY_FLOODED, volts, &percent));
  g_assert_cmpfloat_with_epsilon (percent, 51.9, 0.05);
  /* 0 °F and 160 °F are printed as −0.192 and +0.192 V. */
  g_assert_cmpfloat_with_epsilon (hs_acid_volts_at_80_fahrenheit (0, 0), -0.192, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_volts_at_80_fahrenheit (0, 160), 0.192, NEAR);
}

/* From memory, a cross-check to 0.08 V: the maker's table has 12.65 and 12.24 V for these gravities. */
static void
test_volts_of_gravity (void)
{
  g_assert_cmpfloat_with_epsilon (hs_acid_volts_of_gravity (1.265), 12.63, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_volts_of_gravity (1.190), 12.18, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_acid_volts_of_gravity (1.265), 12.65, 0.08);
  g_assert_cmpfloat_with_epsilon (hs_acid_volts_of_gravity (1.190), 12.24, 0.08);
}

/* TM 5-3820-256-24-4 Table 2, its rows and (FRZ-1, FRZ-2) straight lines between them. */
static void
test_freezing (void)
{
  static const double by_percent[][2] = {
    { 100, -59.5 }, { 75, -37.2 }, { 50, -26.1 }, { 25, -15.0 }, { 0, -9.4 }, { 40, -21.66 },
  };
  static const double by_gravity[][3] = {
    { 1.265, -59.5, 100 }, { 1.225, -37.2, 75 },     { 1.190, -26.1, 50 }, { 1.155, -15.0, 25 },
    { 1.120, -9.4, 0 },    { 1.170, -19.757143, 35.714286 }, { 1.300, -59.5, 100 }, { 1.000, -9.4, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (by_percent); i++)
    g_assert_cmpfloat_with_epsilon (hs_acid_freezes_at_percent (by_percent[i][0]), by_percent[i][1], NEAR);
  for (gsize i = 0; i < G_N_ELEMENTS (by_gravity); i++)
    {
      g_assert_cmpfloat_with_epsilon (hs_acid_freezes_at_gravity (by_gravity[i][0]), by_gravity[i][1], 1e-6);
      g_assert_cmpfloat_with_epsilon (hs_acid_percent_of_gravity (by_gravity[i][0]), by_gravity[i][2], 1e-6);
    }
}

/* CELL-4, and the rule that one bad cell is found wherever it stands. */
static void
test_spread (void)
{
  static const gint64 cells[] = { 1265, 1260, 1262, 1235, 1264, 1263 };
  static const gint64 alone[] = { 1200 };
  gint64 least = 0;

  g_assert_cmpint (hs_acid_spread (cells, G_N_ELEMENTS (cells), &least), ==, 30);
  g_assert_cmpint (least, ==, 1235);
  g_assert_cmpint (hs_acid_spread (alone, 1, NULL), ==, 0);
}

/* TM 9-6140-200-14: 0.0025 a day at 100 °F, 0.001 at 80, 0.0003 at 50; SD-1 is ten days at 100 °F. */
static void
test_standing (void)
{
  double lost = -1;

  g_assert_true (hs_acid_lost_a_day (100, &lost));
  g_assert_cmpfloat_with_epsilon (1.265 - 10 * lost, 1.240, NEAR);
  g_assert_true (hs_acid_lost_a_day (80, &lost));
  g_assert_cmpfloat_with_epsilon (lost, 0.001, NEAR);
  g_assert_true (hs_acid_lost_a_day (50, &lost));
  g_assert_cmpfloat_with_epsilon (lost, 0.0003, NEAR);
  g_assert_true (hs_acid_lost_a_day (90, &lost));
  g_assert_cmpfloat_with_epsilon (lost, 0.00175, NEAR);
  g_assert_false (hs_acid_lost_a_day (49, &lost));
  g_assert_false (hs_acid_lost_a_day (101, &lost));
  g_assert_cmpfloat_with_epsilon (lost, 0.00175, NEAR);
}

/* TM 5-1185: 100 % at 80 °F, 65 % at 30 °F, 40 % at 0 °F. */
static void
test_cranking_power (void)
{
  static const double rows[][2] = { { 80, 100 }, { 30, 65 }, { 0, 40 }, { 55, 82.5 }, { 15, 52.5 }, { 120, 100 } };
  double percent = -1;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (hs_acid_cranking_percent (rows[i][0], &percent));
      g_assert_cmpfloat_with_epsilon (percent, rows[i][1], NEAR);
    }
  g_assert_false (hs_acid_cranking_percent (-1, &percent));
  g_assert_cmpfloat_with_epsilon (percent, 100, NEAR);
}

/* PAR-1, PAR-2, PAR-3, PEU-1 … PEU-4, RC-1 … RC-3 and both of story 20. */
static void
test_drain (void)
{
  double reserve = hs_drain_amp_hours_of_reserve (120);

  g_assert_cmpfloat_with_epsilon (hs_drain_days (reserve, HS_DRAIN_USUAL_SHARE, 0.050), 24, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_days (reserve, HS_DRAIN_USUAL_SHARE, 0.250), 4.8, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_days (60, 0.4, 0.31), 3.2, 0.05);
  g_assert_cmpfloat_with_epsilon (hs_drain_days (60, 0.4, 0.024), 41.7, 0.05);
  g_assert_cmpfloat_with_epsilon (hs_drain_amps (60, 0.4, hs_drain_days (60, 0.4, 0.31)), 0.31, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_maker_milliamps (100), 25, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_maker_milliamps (90), 22.5, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_maker_milliamps (160), 40, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_hours (60, 1.2, 10), 4.72, 0.005);
  g_assert_cmpfloat_with_epsilon (hs_drain_hours (60, 1.2, 3), 20, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_hours (60, 1.2, 25) * 60, 94.2, 0.05);
  g_assert_cmpfloat_with_epsilon (hs_drain_hours (100, 1.2, 5), 20, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_amp_hours_at_25 (120), 50, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_amp_hours_at_25 (90), 37.5, NEAR);
  g_assert_cmpfloat_with_epsilon (reserve, 72, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_amp_hours_of_reserve_other (120), 76, NEAR);
  /* Both rules give the same at 160 minutes. */
  g_assert_cmpfloat_with_epsilon (hs_drain_amp_hours_of_reserve_other (160), hs_drain_amp_hours_of_reserve (160),
                                  NEAR);
  g_assert_cmpfloat_with_epsilon (hs_drain_amp_hours_by_peukert (120, 1.2), 73.4, 0.05);
  /* What it gives lasts those minutes at 25 A. */
  g_assert_cmpfloat_with_epsilon (hs_drain_hours (hs_drain_amp_hours_by_peukert (90, 1.3), 1.3, 25), 1.5, NEAR);
}

/* LOAD-1; LOAD-2 and its neighbors are printed in a carmaker's table of 2000; 3 × Ah up to 500 A by TM
 * 5-3805-263-14&P-2. */
static void
test_load_amps (void)
{
  static const double printed[][2] = { { 600, 300 }, { 770, 380 }, { 750, 370 }, { 625, 310 } };

  g_assert_cmpfloat_with_epsilon (hs_rating_load_amps (650), 325, NEAR);
  for (gsize i = 0; i < G_N_ELEMENTS (printed); i++)
    g_assert_cmpfloat_with_epsilon (hs_rating_load_amps_by_tens (printed[i][0]), printed[i][1], NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_load_amps_by_hours (60), 180, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_load_amps_by_hours (200), 500, NEAR);
}

/* CONV-1: DIN 360 is about 600 to 10 %; the maker's sheet has 580, and 340 and 790 for 200 and 500. */
static void
test_ratings (void)
{
  HsRatingSpan sae = hs_rating_sae_of_din (360);

  g_assert_cmpfloat_with_epsilon (sae.low, 580, NEAR);
  g_assert_cmpfloat_with_epsilon (sae.high, 612, NEAR);
  g_assert_cmpfloat (sae.low, >=, 540);
  g_assert_cmpfloat (sae.high, <=, 660);
  g_assert_cmpfloat_with_epsilon (hs_rating_sae_of_din (500).low, 790, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_sae_of_din (200).high, 340, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_en_of_sae (500).low, 460, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_sae_of_en (460).high, 500, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_sae_of_ca (1000).low, 770, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_ca_of_sae (1000).high, 1300, NEAR);
}

/* CHG-5: 14.40 V at 25 °C is 14.85 at 0, 14.22 at 35, 15.03 at −10. */
static void
test_charging_volts (void)
{
  g_assert_cmpfloat_with_epsilon (hs_rating_charging_volts (14.40, 0), 14.85, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_charging_volts (14.40, 35), 14.22, NEAR);
  g_assert_cmpfloat_with_epsilon (hs_rating_charging_volts (14.40, -10), 15.03, NEAR);
}

/* GRP-1: in a tray of 232 × 177 × 226 mm a 35 fits, a 24 and a 65 do not; of a 48 lists disagree. */
static void
test_tray (void)
{
  static const struct
  {
    const char *group;
    HsTrayFit fit;
  } rows[] = {
    { "35", HS_TRAY_FITS }, { "35R", HS_TRAY_FITS }, { "24", HS_TRAY_TOO_LARGE }, { "65", HS_TRAY_TOO_LARGE },
    { "48", HS_TRAY_MEASURE }, { "94r", HS_TRAY_MEASURE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_rating_tray_fit (hs_rating_group (rows[i].group), 232, 177, 226), ==, rows[i].fit);
  g_assert_null (hs_rating_group ("99"));
  g_assert_null (hs_rating_group ("35X"));
  g_assert_null (hs_rating_group (""));
  g_assert_cmpint (hs_rating_tray_fit (hs_rating_group ("35"), 230, 175, 225), ==, HS_TRAY_FITS);
  g_assert_cmpint (hs_rating_tray_fit (hs_rating_group ("35"), 230, 174.9, 225), ==, HS_TRAY_TOO_LARGE);
}

/* OCV-1 … OCV-5 by a battery maker's table and a vehicle maker's AGM table. */
static void
test_charge_percent (void)
{
  static const struct
  {
    HsBatteryKind kind;
    double volts;
    double percent;
  } rows[] = {
    { HS_BATTERY_FLOODED, 12.35, 63.095238 }, { HS_BATTERY_FLOODED, 12.10, 30.555556 },
    { HS_BATTERY_FLOODED, 12.80, 100 },       { HS_BATTERY_AGM, 12.45, 62.5 },
    { HS_BATTERY_AGM, 12.70, 87.5 },          { HS_BATTERY_AGM, 12.00, 25 },
    { HS_BATTERY_EFB, 12.45, 75 },            { HS_BATTERY_FLOODED, 11.0, 0 },
  };
  double percent = -1;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (hs_battery_charge_percent (rows[i].kind, rows[i].volts, &percent));
      g_assert_cmpfloat_with_epsilon (percent, rows[i].percent, 1e-6);
    }
  percent = -1;
  g_assert_false (hs_battery_charge_percent (HS_BATTERY_AGM, 11.999, &percent));
  g_assert_false (hs_battery_charge_percent (HS_BATTERY_LITHIUM, 13.1, &percent));
  g_assert_false (hs_battery_charge_percent (HS_BATTERY_UNKNOWN, 12.5, &percent));
  g_assert_cmpfloat (percent, ==, -1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/acid/gravity", test_gravity);
  g_test_add_func ("/acid/volts-by-temperature", test_volts_by_temperature);
  g_test_add_func ("/acid/volts-of-gravity", test_volts_of_gravity);
  g_test_add_func ("/acid/freezing", test_freezing);
  g_test_add_func ("/acid/spread", test_spread);
  g_test_add_func ("/acid/standing", test_standing);
  g_test_add_func ("/acid/cranking-power", test_cranking_power);
  g_test_add_func ("/drain/drain", test_drain);
  g_test_add_func ("/rating/load-amps", test_load_amps);
  g_test_add_func ("/rating/ratings", test_ratings);
  g_test_add_func ("/rating/charging-volts", test_charging_volts);
  g_test_add_func ("/rating/tray", test_tray);
  g_test_add_func ("/battery/charge-percent", test_charge_percent);
  return g_test_run ();
}
