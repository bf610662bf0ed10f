// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Batteries: printed tables, hand-worked interpolations between them, and the sums of the demo. */

#include "hs-battery.h"

#include "core-test.h"

static void
test_charge (void)
{
  static const struct
  {
    HsBatteryKind kind;
    gint64 millivolts;
    int per_mille;
    const char *text;
  } rows[] = {
    /* The rows of the battery-maker table (80 °F) themselves. */
    { HS_BATTERY_FLOODED, 11890, 0, "0 %" },
    { HS_BATTERY_FLOODED, 12060, 250, "25 %" },
    { HS_BATTERY_FLOODED, 12240, 500, "50 %" },
    { HS_BATTERY_FLOODED, 12450, 750, "75 %" },
    { HS_BATTERY_FLOODED, 12650, 1000, "100 %" },
    /* Straight lines worked out by hand: 12.35 = 50 + 25 × 0.11/0.21 = 63.1, 12.10 = 25 + 25 × 0.04/0.18 = 30.6. */
    { HS_BATTERY_FLOODED, 12350, 631, "63 %" },
    { HS_BATTERY_FLOODED, 12100, 306, "31 %" },
    { HS_BATTERY_FLOODED, 12050, 235, "24 %" },
    { HS_BATTERY_FLOODED, 12300, 571, "57 %" },
    { HS_BATTERY_FLOODED, 12420, 714, "71 %" },
    { HS_BATTERY_FLOODED, 11950, 88, "9 %" },
    { HS_BATTERY_FLOODED, 0, 0, "0 %" },
    { HS_BATTERY_FLOODED, -12000, 0, "0 %" },
    { HS_BATTERY_FLOODED, 12800, 1000, "100 %" },
    { HS_BATTERY_EFB, 12420, 714, "71 %" },
    /* A vehicle maker's AGM bands: 12.0 = 25, 12.3 = 50, 12.6 = 75, 12.8 = 100; below 12.0 no number. */
    { HS_BATTERY_AGM, 12000, 250, "25 %" },
    { HS_BATTERY_AGM, 12300, 500, "50 %" },
    { HS_BATTERY_AGM, 12450, 625, "63 %" },
    { HS_BATTERY_AGM, 12600, 750, "75 %" },
    { HS_BATTERY_AGM, 12700, 875, "88 %" },
    { HS_BATTERY_AGM, 12800, 1000, "100 %" },
    { HS_BATTERY_AGM, 13000, 1000, "100 %" },
    { HS_BATTERY_AGM, 11999, 250, "at most 25 %" },
    { HS_BATTERY_AGM, 10480, 250, "at most 25 %" },
    { HS_BATTERY_LITHIUM, 13000, 0, NULL },
    { HS_BATTERY_UNKNOWN, 12420, 0, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsBatteryCharge charge = hs_battery_charge (rows[i].kind, rows[i].millivolts);
      g_autofree char *text = hs_battery_charge_text (&charge);

      g_assert_cmpint (charge.per_mille, ==, rows[i].per_mille);
      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

static void
test_charge_flags (void)
{
  static const struct
  {
    HsBatteryKind kind;
    gint64 millivolts;
    gboolean known, at_most, as_flooded, over_full;
  } rows[] = {
    { HS_BATTERY_FLOODED, 12650, TRUE, FALSE, FALSE, FALSE },
    { HS_BATTERY_FLOODED, 12651, TRUE, FALSE, FALSE, TRUE },
    { HS_BATTERY_FLOODED, 12800, TRUE, FALSE, FALSE, TRUE },
    { HS_BATTERY_EFB, 12420, TRUE, FALSE, TRUE, FALSE },
    { HS_BATTERY_AGM, 12800, TRUE, FALSE, FALSE, FALSE },
    { HS_BATTERY_AGM, 13200, TRUE, FALSE, FALSE, FALSE },
    { HS_BATTERY_AGM, 13201, TRUE, FALSE, FALSE, TRUE },
    { HS_BATTERY_AGM, 11999, FALSE, TRUE, FALSE, FALSE },
    { HS_BATTERY_LITHIUM, 13000, FALSE, FALSE, FALSE, FALSE },
    { HS_BATTERY_UNKNOWN, 13000, FALSE, FALSE, FALSE, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsBatteryCharge charge = hs_battery_charge (rows[i].kind, rows[i].millivolts);

      g_assert_cmpint (charge.known, ==, rows[i].known);
      g_assert_cmpint (charge.at_most, ==, rows[i].at_most);
      g_assert_cmpint (charge.as_flooded, ==, rows[i].as_flooded);
      g_assert_cmpint (charge.over_full, ==, rows[i].over_full);
    }
}

/* More volts never mean less charge. */
static void
test_charge_rises (void)
{
  static const HsBatteryKind kinds[] = { HS_BATTERY_FLOODED, HS_BATTERY_EFB, HS_BATTERY_AGM };

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    for (gint64 millivolts = 11000; millivolts < 13500; millivolts++)
      g_assert_cmpint (hs_battery_charge (kinds[i], millivolts).per_mille, <=,
                       hs_battery_charge (kinds[i], millivolts + 1).per_mille);
}

static void
test_days (void)
{
  static const struct
  {
    gint64 capacity, percent, draw, tenths;
  } rows[] = {
    /* 60 Ah × 0.4 at 0.31 A: 3.2 days; at 0.024 A: 41.7. */
    { 60000, 40, 310, 32 },
    { 60000, 40, 24, 417 },
    /* A maker's bulletin: RC 120 is 72 Ah; 28.8 Ah at 50 mA are 576 h, at 250 mA 4.8 days. */
    { 72000, 40, 50, 240 },
    { 72000, 40, 250, 48 },
    { 60000, 100, 10000, 3 },
    { 60000, 40, 1000000, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 tenths = 4711;

      g_assert_true (hs_battery_days_to_no_start (rows[i].capacity, rows[i].percent, rows[i].draw, &tenths));
      g_assert_cmpint (tenths, ==, rows[i].tenths);
    }
}

static void
test_days_refuses (void)
{
  static const gint64 rows[][3] = {
    { 60000, 40, 0 }, { 60000, 40, -1 }, { 0, 40, 310 }, { -1, 40, 310 }, { 60000, 0, 310 }, { 60000, -40, 310 },
    { 60000, 40, G_MAXINT64 }, { G_MAXINT64, 40, 310 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 tenths = 4711;

      g_assert_false (hs_battery_days_to_no_start (rows[i][0], rows[i][1], rows[i][2], &tenths));
      g_assert_cmpint (tenths, ==, 4711);
    }
}

static void
test_strength (void)
{
  static const gint64 rows[][3] = {
    /* 430 A of 540 A are 79.6 %. */
    { 430, 540, 796 }, { 540, 540, 1000 }, { 0, 540, 0 }, { 600, 540, 1111 }, { 430, 0, -1 }, { 430, -1, -1 },
    { -1, 540, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_battery_strength_per_mille (rows[i][0], rows[i][1]), ==, rows[i][2]);
}

/* US Army TM 5-4210-230-14&P-1: a discharged battery freezes at -7 °C (20 °F). */
static void
test_may_be_frozen (void)
{
  static const struct
  {
    HsBatteryKind kind;
    gint64 millivolts;
    int celsius;
    gboolean frozen;
  } rows[] = {
    { HS_BATTERY_FLOODED, 11890, -12, TRUE },
    { HS_BATTERY_FLOODED, 11890, -7, TRUE },
    { HS_BATTERY_FLOODED, 11890, -6, FALSE },
    { HS_BATTERY_FLOODED, 12060, -7, TRUE },
    { HS_BATTERY_FLOODED, 12100, -7, FALSE },
    { HS_BATTERY_FLOODED, 12650, -30, FALSE },
    { HS_BATTERY_AGM, 11500, -7, TRUE },
    { HS_BATTERY_AGM, 11500, 0, FALSE },
    { HS_BATTERY_UNKNOWN, 11500, -30, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsBatteryCharge charge = hs_battery_charge (rows[i].kind, rows[i].millivolts);

      g_assert_cmpint (hs_battery_may_be_frozen (&charge, rows[i].celsius), ==, rows[i].frozen);
    }
}

static void
test_kinds (void)
{
  static const struct
  {
    HsBatteryKind kind;
    const char *id;
    const char *label;
  } rows[] = {
    { HS_BATTERY_FLOODED, "flooded", "flooded" },
    { HS_BATTERY_EFB, "EFB", "EFB" },
    { HS_BATTERY_AGM, "AGM", "AGM" },
    { HS_BATTERY_LITHIUM, "lithium", "lithium" },
    { HS_BATTERY_UNKNOWN, "unknown", "kind not known" },
  };
  HsBatteryKind kind = HS_BATTERY_AGM;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (G_N_ELEMENTS (rows), ==, HS_N_BATTERY_KINDS);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpstr (hs_battery_kind_id (rows[i].kind), ==, rows[i].id);
      g_assert_cmpstr (hs_battery_kind_label (rows[i].kind), ==, rows[i].label);
      g_assert_true (hs_battery_kind_parse (rows[i].id, &kind, NULL));
      g_assert_cmpint (kind, ==, rows[i].kind);
    }
  assert_bad_value (hs_battery_kind_parse ("wet", &kind, &error), &error,
                    "write flooded, EFB, AGM, lithium or unknown");
  g_assert_cmpint (kind, ==, HS_BATTERY_UNKNOWN);
}

static void
test_is_named (void)
{
  static const struct
  {
    const char *part;
    gboolean battery;
  } rows[] = {
    { "battery", TRUE },
    { "Battery, 60 Ah flooded", TRUE },
    { "AGM battery", TRUE },
    { "starter battery Brackwater 55", TRUE },
    { "battery with new terminals", TRUE },
    { "battery cable", FALSE },
    { "positive battery terminal", FALSE },
    { "Battery ground strap", FALSE },
    { "battery hold-down", FALSE },
    { "starter", FALSE },
    { "batterylike thing", FALSE },
    { "", FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (hs_battery_is_named (rows[i].part) != rows[i].battery)
      g_error ("“%s” is taken for the wrong thing", rows[i].part);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/battery/charge", test_charge);
  g_test_add_func ("/battery/charge-flags", test_charge_flags);
  g_test_add_func ("/battery/charge-rises", test_charge_rises);
  g_test_add_func ("/battery/days", test_days);
  g_test_add_func ("/battery/days-refuses", test_days_refuses);
  g_test_add_func ("/battery/strength", test_strength);
  g_test_add_func ("/battery/may-be-frozen", test_may_be_frozen);
  g_test_add_func ("/battery/kinds", test_kinds);
  g_test_add_func ("/battery/is-named", test_is_named);
  return g_test_run ();
}
