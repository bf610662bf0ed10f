// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Copper cable against a printed wire table (ohm per 1000 ft, secondary text), the definitions behind it, and IEC 60228
 * class 5 as four cable pages print it. */

#include "core-test.h"
#include "hs-cable.h"

/* Printed tables round diameter and area to four or five figures, and ohms per 1000 ft to three or four. */
static void
test_awg (void)
{
  static const struct
  {
    const char *size;
    double diameter_mm;
    double mm2;
    double ohm_per_1000_ft;
  } rows[] = {
    { "20", 0.8118, 0.5176, 10.15 }, { "18", 1.0237, 0.8230, 6.385 }, /* WIRE-1 */
    { "16", 1.2908, 1.3087, 4.016 }, { "14", 1.6277, 2.0809, 2.525 }, { "12", 2.0525, 3.3088, 1.588 },
    { "10", 2.5882, 5.2612, 0.9989 }, { "8", 3.2636, 8.3656, 0.6282 }, { "6", 4.1154, 13.302, 0.3951 },
    { "4", 5.1894, 21.151, 0.2485 }, { "2", 6.5437, 33.631, 0.1563 }, { "1", 7.3481, 42.408, 0.124 },
    { "1/0", 8.2515, 53.475, 0.0983 }, { "2/0", 9.2658, 67.431, 0.078 }, { "4/0", 11.684, 107.22, 0.049 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      int awg = 99;
      double printed = rows[i].ohm_per_1000_ft / 304.8 * 1000;

      g_test_message ("AWG %s", rows[i].size);
      g_assert_true (hs_cable_awg_parse (rows[i].size, &awg, &error));
      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (hs_cable_awg_diameter_mm (awg), rows[i].diameter_mm, rows[i].diameter_mm * 1e-4);
      g_assert_cmpfloat_with_epsilon (hs_cable_awg_mm2 (awg), rows[i].mm2, rows[i].mm2 * 1e-4);
      g_assert_cmpfloat_with_epsilon (hs_cable_milliohms_per_meter (hs_cable_awg_mm2 (awg)), printed, printed * 5e-3);
    }
}

/* The definition fixes two sizes: AWG 36 is 0.005 in, 4/0 is 0.46 in. */
static void
test_awg_ends (void)
{
  g_assert_cmpfloat_with_epsilon (hs_cable_awg_diameter_mm (36), 0.127, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_cable_awg_diameter_mm (HS_CABLE_AWG_THICKEST), 11.684, 1e-9);
}

/* 39 steps make 92 times the diameter, so each step is the 39th root of 92: 1.12293 (printed with the definition). */
static void
test_awg_steps (void)
{
  for (int awg = HS_CABLE_AWG_THICKEST; awg < HS_CABLE_AWG_THINNEST; awg++)
    {
      double step = hs_cable_awg_diameter_mm (awg) / hs_cable_awg_diameter_mm (awg + 1);
      double area = hs_cable_awg_mm2 (awg) / hs_cable_awg_mm2 (awg + 1);

      g_assert_cmpfloat_with_epsilon (step, 1.12293, 5e-6);
      g_assert_cmpfloat_with_epsilon (area, 1.12293 * 1.12293, 2e-5);
      g_assert_cmpfloat (hs_cable_milliohms_per_meter (hs_cable_awg_mm2 (awg)), <,
                         hs_cable_milliohms_per_meter (hs_cable_awg_mm2 (awg + 1)));
    }
}

/* The standard's most is a little above solid copper of the nominal area, and tinned strands a little above that. */
static void
test_class5_above_copper (void)
{
  static const double sizes[] = { 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      gint64 micro = (gint64) (sizes[i] * 1000000);
      double copper = hs_cable_milliohms_per_meter (sizes[i]);
      double plain = hs_cable_class5_milliohms_per_meter (micro, FALSE);
      double tinned = hs_cable_class5_milliohms_per_meter (micro, TRUE);

      g_assert_cmpfloat (plain, >, copper);
      g_assert_cmpfloat (plain, <, copper * 1.18);
      if (sizes[i] <= 35)
        g_assert_cmpfloat (tinned, >, plain);
    }
}

static void
test_awg_parse (void)
{
  static const struct
  {
    const char *text;
    int awg;
  } rows[] = {
    { "30", 30 }, { "20", 20 }, { "1", 1 }, { "1/0", 0 }, { "0", 0 }, { "2/0", -1 },
    { "00", -1 }, { "3/0", -2 }, { "000", -2 }, { "4/0", -3 }, { "0000", -3 },
  };
  static const char *const refused[] = {
    "", "31", "-1", "5/0", "0/0", "1/1", "10/0", "00000", "2.5", "AWG 18", "18 ", "1e1", "٣",
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int awg = 99;

      g_assert_true (hs_cable_awg_parse (rows[i].text, &awg, NULL));
      g_assert_cmpint (awg, ==, rows[i].awg);
    }
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      int awg = 99;

      assert_bad_value (hs_cable_awg_parse (refused[i], &awg, &error), &error, "1/0, 2/0, 3/0 or 4/0");
      g_assert_cmpint (awg, ==, 99);
    }
}

/* IEC 60228 class 5, most mohm/m at 20 °C, plain and tinned. */
static void
test_class5 (void)
{
  static const struct
  {
    gint64 micro_mm2;
    double plain;
    double tinned;
  } rows[] = {
    { 500000, 39.0, 40.1 },    { 750000, 26.0, 26.7 },    { 1000000, 19.5, 20.0 },   { 1500000, 13.3, 13.7 },
    { 2500000, 7.98, 8.21 },   { 4000000, 4.95, 5.09 },   { 6000000, 3.30, 3.39 },   { 10000000, 1.91, 1.95 },
    { 16000000, 1.21, 1.24 },  { 25000000, 0.780, 0.795 }, { 35000000, 0.554, 0.565 }, { 50000000, 0.386, 0 },
    { 70000000, 0.272, 0 },    { 95000000, 0.206, 0 },    { 120000000, 0.161, 0 },   { 3000000, 0, 0 },
    { 2500001, 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpfloat (hs_cable_class5_milliohms_per_meter (rows[i].micro_mm2, FALSE), ==, rows[i].plain);
      g_assert_cmpfloat (hs_cable_class5_milliohms_per_meter (rows[i].micro_mm2, TRUE), ==, rows[i].tinned);
    }
}

/* 1 mm² of copper: 1/58 ohm per meter. Warm: + 0.393 % a degree. */
static void
test_resistance (void)
{
  g_assert_cmpfloat_with_epsilon (hs_cable_milliohms_per_meter (1), 17.2414, 5e-5);
  g_assert_cmpfloat_with_epsilon (hs_cable_milliohms_per_meter (58), 0.297265, 5e-7);
  g_assert_cmpfloat_with_epsilon (hs_cable_warm (100, 20), 100, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_cable_warm (100, 60), 115.72, 1e-9);
  g_assert_cmpfloat_with_epsilon (hs_cable_warm (100, -20), 84.28, 1e-9);
}

/* WIRE-2 to WIRE-4, to the figures printed. */
static void
test_drop (void)
{
  double awg16 = hs_cable_milliohms_per_meter (hs_cable_awg_mm2 (16));
  double awg2 = hs_cable_milliohms_per_meter (hs_cable_awg_mm2 (2));

  g_assert_cmpfloat_with_epsilon (hs_cable_drop_volts (awg16, 6, 5), 0.395, 5e-4);
  g_assert_cmpfloat_with_epsilon (hs_cable_drop_volts (hs_cable_warm (awg16, 60), 6, 5), 0.457, 5e-4);
  g_assert_cmpfloat_with_epsilon (hs_cable_drop_volts (awg2, 2, 180), 0.185, 5e-4);
  g_assert_cmpfloat_with_epsilon (hs_cable_drop_volts (7.98, 6, 10), 0.479, 5e-4);
  g_assert_cmpfloat (hs_cable_drop_volts (7.98, 6, 0), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cable/awg", test_awg);
  g_test_add_func ("/cable/awg-ends", test_awg_ends);
  g_test_add_func ("/cable/awg-steps", test_awg_steps);
  g_test_add_func ("/cable/class5-above-copper", test_class5_above_copper);
  g_test_add_func ("/cable/awg-parse", test_awg_parse);
  g_test_add_func ("/cable/class5", test_class5);
  g_test_add_func ("/cable/resistance", test_resistance);
  g_test_add_func ("/cable/drop", test_drop);
  return g_test_run ();
}
