// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The distance on the ellipsoid against published lines and figures of GeographicLib, near and far, and its rules. */

#include "hs-geodesic.h"

#include <math.h>

#define MERIDIAN 20003931.4586

static void
assert_meters (const double *ends, double expected, double tolerance)
{
  double there = hs_geodesic_meters (ends[0], ends[1], ends[2], ends[3]);
  double back = hs_geodesic_meters (ends[2], ends[3], ends[0], ends[1]);

  if (!(fabs (there - expected) <= tolerance) || !(fabs (back - expected) <= tolerance))
    g_error ("%.10g,%.10g to %.10g,%.10g: %.4f and back %.4f, not %.4f", ends[0], ends[1], ends[2], ends[3], there,
             back, expected);
}

/* Figures of GeodSolve, GeographicLib 2.1.2 (C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87, 2013,
 * good to 15 nm); Flinders Peak to Buninyong is the example of Vincenty 1975 as Geoscience Australia prints it, and the
 * quarter meridian is known from every textbook. */
static void
test_published (void)
{
  static const struct
  {
    double ends[4];
    double meters;
  } rows[] = {
    { { 40.6, -73.8, 51.6, -0.5 }, 5551759.400 },
    { { 48.8566, 2.3522, 51.5074, -0.1278 }, 343923.120 },
    { { 40.7128, -74.0060, 34.0522, -118.2437 }, 3944422.231 },
    { { 52.52, 13.405, 48.1351, 11.582 }, 504689.411 },
    { { -37.95103341666667, 144.42486788888889, -37.65282113888889, 143.92649552777777 }, 54972.271 },
    { { 0, 0, 0, 1 }, 111319.4908 },
    { { 0, 0, 90, 0 }, 10001965.7293 },
    { { 40, -75, 40.02, -75 }, 2220.6965 },
    { { 0, 0, 0, 179.39 }, 19969603.4534 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_meters (rows[i].ends, rows[i].meters, 0.001);
}

/* Where the plain iteration fails. The first two are the hard lines of GeographicLib's and Karney's examples. */
static void
test_antipodal (void)
{
  static const struct
  {
    double ends[4];
    double meters;
  } rows[] = {
    { { 0, 0, 0.5, 179.5 }, 19936288.5790 },
    { { 0, 0, 0.5, 179.7 }, 19944127.4208 },
    { { -30, 0, 29.9, 179.8 }, 19989832.8276 },
    { { 0, 0, 0, 179.9 }, 20003008.4215 },
    { { 0, 0, 0, 179.4 }, 19970715.5166 },
    { { 5, 0, -5.01, 179.99 }, 20002816.5516 },
    { { 12, 34, -12, -146.0001 }, 20003931.4577 },
    { { 12, 34, -12, -146 }, MERIDIAN },
    { { 45, 10, -45, -170 }, MERIDIAN },
    { { 0, 0, 0, 180 }, MERIDIAN },
    { { 90, 0, -90, 0 }, MERIDIAN },
    { { 90, 77, -90, -12 }, MERIDIAN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_meters (rows[i].ends, rows[i].meters, 0.01);
}

/* ZIP-1, ZIP-2: centroids of the postal areas 90210 and 10001 as the US Census Bureau's 2021 gazetteer prints them. A
 * sphere of 6,371,008.8 m puts 3,948.39 km between them; the ellipsoid (GeodSolve) 0.2 % more. */
static void
test_postal_areas (void)
{
  static const double ends[] = { 34.100517, -118.41463, 40.75065, -73.997293 };

  assert_meters (ends, 3957101.4654, 0.001);
  assert_meters (ends, 3948390, 3948390 * 0.003);
}

/* The same place is no way off, whatever its longitude is called; nothing depends on where longitude is counted from,
 * and north mirrors south. */
static void
test_same_line (void)
{
  static const double same[][4] = {
    { 12, 34, 12, 34 }, { 12, -180, 12, 180 }, { 90, 5, 90, -100 }, { 0, 360, 0, 0 }, { -90, 0, -90, 179 },
  };
  static const double turned[][4] = {
    { 40.6, -73.8 + 360, 51.6, -0.5 },   { 40.6, 106.2, 51.6, 179.5 }, { 40.6, 106.2, 51.6, -180.5 },
    { -40.6, -73.8, -51.6, -0.5 },       { 40.6, 73.8, 51.6, 0.5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (same); i++)
    assert_meters (same[i], 0.0, 1e-6);
  for (guint i = 0; i < G_N_ELEMENTS (turned); i++)
    assert_meters (turned[i], 5551759.400, 0.001);
}

/* No way round is shorter than the line, and no line is longer than half the meridian. */
static void
test_shortest (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);

  for (guint i = 0; i < 400; i++)
    {
      double a[2] = { g_rand_double_range (rand, -90, 90), g_rand_double_range (rand, -180, 180) };
      double b[2] = { g_rand_double_range (rand, -90, 90), g_rand_double_range (rand, -180, 180) };
      double c[2] = { -a[0] + g_rand_double_range (rand, -0.01, 0.01), a[1] + 179.9 };
      double ab = hs_geodesic_meters (a[0], a[1], b[0], b[1]);
      double ac, bc;

      if (fabs (c[0]) > 90)
        continue;
      ac = hs_geodesic_meters (a[0], a[1], c[0], c[1]);
      bc = hs_geodesic_meters (b[0], b[1], c[0], c[1]);
      g_assert_true (ab + bc >= ac - 0.01 && ab + ac >= bc - 0.01 && ac + bc >= ab - 0.01);
      g_assert_cmpfloat (MAX (ab, MAX (ac, bc)), <=, MERIDIAN + 0.01);
      g_assert_cmpfloat (ac, >, 19900000);
    }
}

static void
test_not_a_place (void)
{
  static const double rows[][4] = {
    { 90.1, 0, 0, 0 }, { 0, 0, -90.1, 0 }, { NAN, 0, 0, 0 }, { 0, NAN, 0, 0 }, { 0, 0, 0, INFINITY }, { 0, 0, NAN, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_true (isnan (hs_geodesic_meters (rows[i][0], rows[i][1], rows[i][2], rows[i][3])));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/geodesic/published", test_published);
  g_test_add_func ("/core/geodesic/antipodal", test_antipodal);
  g_test_add_func ("/core/geodesic/postal-areas", test_postal_areas);
  g_test_add_func ("/core/geodesic/same-line", test_same_line);
  g_test_add_func ("/core/geodesic/shortest", test_shortest);
  g_test_add_func ("/core/geodesic/not-a-place", test_not_a_place);
  return g_test_run ();
}
