// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Engine, coolant, brakes: gauge readings against maker manuals, coolant against the tables that were chosen, and brake
 * figures against the regulations. */

#include "core-test.h"
#include "hs-brake.h"
#include "hs-coolant.h"
#include "hs-decimal.h"
#include "hs-engine.h"

#define UNITS(value) ((gint64) (value) * 1000000000)

/* CMP-1: 150 148 152 110 psi are 72.4 %. CMP-2: 1035 kPa gives 724.5, the manual prints 725. */
static void
test_compression (void)
{
  const gint64 psi[] = { UNITS (150), UNITS (148), UNITS (152), UNITS (110) };
  const gint64 kpa[] = { UNITS (1035), UNITS (1000) };
  const gint64 two_low[] = { UNITS (150), UNITS (100), UNITS (95), UNITS (148) };
  const gint64 apart[] = { UNITS (100), UNITS (150), UNITS (95), UNITS (148) };
  const gint64 one_dead[] = { UNITS (150), 0 };
  HsCompression found;

  g_assert_true (hs_compression_compare (psi, G_N_ELEMENTS (psi), &found));
  g_assert_cmpfloat_with_epsilon (found.lowest_percent, 72.368421, 1e-6);
  g_assert_cmpuint (found.lowest, ==, 3);
  g_assert_cmpuint (found.highest, ==, 2);
  g_assert_false (found.neighbors_low);
  g_assert_cmpfloat_with_epsilon (found.least_75 / 1e9, 114, 1e-9);
  g_assert_true (hs_compression_compare (kpa, G_N_ELEMENTS (kpa), &found));
  g_assert_cmpfloat_with_epsilon (found.least_70 / 1e9, 724.5, 1e-9);
  g_assert_true (hs_compression_compare (two_low, G_N_ELEMENTS (two_low), &found));
  g_assert_true (found.neighbors_low);
  g_assert_true (hs_compression_compare (apart, G_N_ELEMENTS (apart), &found));
  g_assert_false (found.neighbors_low);
  g_assert_true (hs_compression_compare (one_dead, G_N_ELEMENTS (one_dead), &found));
  g_assert_cmpfloat (found.lowest_percent, ==, 0);
}

/* Exactly three quarters is not low, the smallest step less is. */
static void
test_compression_edge (void)
{
  static const struct
  {
    gint64 highest, value;
    gboolean low;
  } rows[] = {
    { 152, 114, FALSE }, { 152, 113, TRUE }, { 101, 76, FALSE }, { 101, 75, TRUE },  { 102, 77, FALSE },
    { 102, 76, TRUE },   { 103, 78, FALSE }, { 103, 77, TRUE },  { 100, 75, FALSE }, { 100, 74, TRUE },
    { UNITS (152), UNITS (114), FALSE }, { UNITS (152), UNITS (114) - 1, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const gint64 values[] = { rows[i].value, rows[i].value, rows[i].highest };
      HsCompression found;

      g_assert_true (hs_compression_compare (values, G_N_ELEMENTS (values), &found));
      g_assert_cmpint (found.neighbors_low, ==, rows[i].low);
    }
}

static void
test_compression_refused (void)
{
  const gint64 one[] = { UNITS (150) };
  const gint64 none[] = { 0, 0, 0 };
  const gint64 below[] = { UNITS (150), -1 };
  HsCompression found = { .lowest = 7 };

  g_assert_false (hs_compression_compare (one, 1, &found));
  g_assert_false (hs_compression_compare (one, 0, &found));
  g_assert_false (hs_compression_compare (none, G_N_ELEMENTS (none), &found));
  g_assert_false (hs_compression_compare (below, G_N_ELEMENTS (below), &found));
  g_assert_cmpuint (found.lowest, ==, 7);
}

static void
test_wet (void)
{
  static const struct
  {
    int dry, wet;
    HsWetTest meaning;
  } rows[] = {
    { 100, 140, HS_WET_RINGS },   { 100, 110, HS_WET_RINGS },  { 100, 109, HS_WET_UNCLEAR },
    { 100, 105, HS_WET_UNCLEAR }, { 100, 104, HS_WET_VALVES }, { 100, 100, HS_WET_VALVES },
    { 100, 90, HS_WET_VALVES },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_compression_wet (UNITS (rows[i].dry), UNITS (rows[i].wet)), ==, rows[i].meaning);
}

static void
test_cooling (void)
{
  g_assert_cmpfloat_with_epsilon (hs_cooling_lost (1.1, 0.8), 0.3, 1e-12);
  g_assert_cmpfloat (hs_cooling_lost (1.1, 1.1), ==, 0);
  g_assert_cmpfloat (hs_cooling_lost (1.1, 1.2), ==, 0);
}

/* Ethylene: Army rows in °F below 30 %, tractor maker above. Propylene: handbook, tractor maker at 60 %. */
static void
test_coolant (void)
{
  static const struct
  {
    const char *id;
    HsCoolantKind kind;
    double percent, celsius;
    const char *source;
  } rows[] = {
    { "water", HS_COOLANT_EG, 0, 0, "Army TM 9-6115-464-12" },
    { "half way to the first row", HS_COOLANT_EG, 9.375, -10.0 / 3, "Army TM 9-6115-464-12" },
    { "20 °F", HS_COOLANT_EG, 18.75, -20.0 / 3, "Army TM 9-6115-464-12" },
    { "10 °F", HS_COOLANT_EG, 25, -110.0 / 9, "Army TM 9-6115-464-12" },
    { "30 %", HS_COOLANT_EG, 30, -15, "Army TM 5-3895-382-24" },
    { "35 %", HS_COOLANT_EG, 35, -19.5, "Tractor maker" },
    { "40 %", HS_COOLANT_EG, 40, -24, "Tractor maker" },
    { "COOL-2", HS_COOLANT_EG, 45, -30.5, "Tractor maker" },
    { "50 %", HS_COOLANT_EG, 50, -37, "Tractor maker" },
    { "60 %", HS_COOLANT_EG, 60, -52, "Tractor maker" },
    { "10 %", HS_COOLANT_PG, 10, -2.2, "Handbook" },
    { "20 %", HS_COOLANT_PG, 20, -6.7, "Handbook" },
    { "30 %", HS_COOLANT_PG, 30, -12.8, "Handbook" },
    { "35 %", HS_COOLANT_PG, 35, -16.1, "Handbook" },
    { "40 %", HS_COOLANT_PG, 40, -20.6, "Handbook" },
    { "COOL-1", HS_COOLANT_PG, 43, -24.26, "Handbook" },
    { "45 %", HS_COOLANT_PG, 45, -26.7, "Handbook" },
    { "50 %", HS_COOLANT_PG, 50, -33.3, "Handbook" },
    { "55 %", HS_COOLANT_PG, 55, -41.15, "Tractor maker" },
    { "60 %", HS_COOLANT_PG, 60, -49, "Tractor maker" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsCoolantSource source;
      double celsius = 99;

      g_test_message ("%s", rows[i].id);
      g_assert_true (hs_coolant_freezes (rows[i].kind, rows[i].percent, &celsius, &source));
      g_assert_cmpfloat_with_epsilon (celsius, rows[i].celsius, 1e-9);
      g_assert_nonnull (strstr (source.text, rows[i].source));
      g_assert_true (*source.sure != '\0');
    }
}

/* More concentrate never freezes sooner below 60 %, and above there is no figure at all. */
static void
test_coolant_ends (void)
{
  for (int kind = HS_COOLANT_EG; kind <= HS_COOLANT_PG; kind++)
    {
      double before = 1;
      double celsius = 99;

      for (int tenths = 0; tenths <= 600; tenths++, before = celsius)
        {
          g_assert_true (hs_coolant_freezes ((HsCoolantKind) kind, tenths / 10.0, &celsius, NULL));
          g_assert_cmpfloat (celsius, <, before);
        }
      g_assert_false (hs_coolant_freezes ((HsCoolantKind) kind, 60.000001, &celsius, NULL));
      g_assert_false (hs_coolant_freezes ((HsCoolantKind) kind, 100, &celsius, NULL));
      g_assert_false (hs_coolant_freezes ((HsCoolantKind) kind, -0.1, &celsius, NULL));
      g_assert_cmpfloat (celsius, ==, before);
    }
}

static void
test_pads (void)
{
  const gint64 even[] = { UNITS (6), UNITS (6) };
  const gint64 uneven[] = { UNITS (7), UNITS (4), UNITS (9), UNITS (5) };
  HsBrakePads pads = hs_brake_pads (uneven, G_N_ELEMENTS (uneven));

  g_assert_cmpuint (pads.thinnest, ==, 1);
  g_assert_cmpint (pads.spread, ==, UNITS (5));
  pads = hs_brake_pads (even, G_N_ELEMENTS (even));
  g_assert_cmpuint (pads.thinnest, ==, 0);
  g_assert_cmpint (pads.spread, ==, 0);
  pads = hs_brake_pads (uneven, 1);
  g_assert_cmpint (pads.spread, ==, 0);
  g_assert_cmpfloat (HS_BRAKE_US_MM, ==, 25.4 / 32);
  g_assert_cmpfloat (HS_BRAKE_US_HEAVY_BONDED_MM, ==, 25.4 / 16);
}

/* 49 CFR 571.116; DOT 4 wet 155 °C is 311 °F in an interpretation of the regulation. */
static void
test_fluids (void)
{
  static const struct
  {
    const char *id;
    int dry, wet;
  } rows[] = {
    { "dot3", 205, 140 }, { "dot4", 230, 155 }, { "dot5", 260, 180 }, { "dot5.1", 260, 180 },
  };
  g_auto (GStrv) words = g_strsplit (HS_BRAKE_FLUIDS, "|", -1);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsBrakeFluid *fluid = hs_brake_fluid_get_nth (i);

      g_assert_cmpstr (fluid->id, ==, rows[i].id);
      g_assert_cmpstr (fluid->id, ==, words[i]);
      g_assert_cmpint (fluid->dry_celsius, ==, rows[i].dry);
      g_assert_cmpint (fluid->wet_celsius, ==, rows[i].wet);
      g_assert_cmpint (fluid->official, ==, g_str_equal (fluid->id, "dot4"));
    }
  g_assert_null (hs_brake_fluid_get_nth (G_N_ELEMENTS (rows)));
  g_assert_cmpfloat_with_epsilon (155 * 1.8 + 32, 311, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/engine/compression", test_compression);
  g_test_add_func ("/engine/compression-edge", test_compression_edge);
  g_test_add_func ("/engine/compression-refused", test_compression_refused);
  g_test_add_func ("/engine/wet", test_wet);
  g_test_add_func ("/engine/cooling", test_cooling);
  g_test_add_func ("/coolant/freezes", test_coolant);
  g_test_add_func ("/coolant/ends", test_coolant_ends);
  g_test_add_func ("/brake/pads", test_pads);
  g_test_add_func ("/brake/fluids", test_fluids);
  return g_test_run ();
}
