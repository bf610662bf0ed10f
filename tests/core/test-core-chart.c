// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The small map: there and back, lengths against the geodesic, what stays in its place, what is hit. */

#include "hs-chart.h"

#include "hs-geodesic.h"

#include <math.h>

#define METERS_PER_MILE 1609.344

static const HsChart charts[] = {
  { 40.71, -74.0, 20, 800, 600 }, { 0, 0, 5, 360, 640 },     { -33.9, 151.2, 100, 1280, 800 },
  { 64.1, -21.9, 2, 500, 500 }, { 10, 179.99, 50, 640, 480 }, { -16.5, -179.99, 30, 640, 480 },
};

static void
assert_near (double is, double wanted, double tolerance)
{
  if (!(fabs (is - wanted) <= tolerance))
    g_error ("%.10g is not %.10g within %g", is, wanted, tolerance);
}

static void
test_round_trip (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    for (double x = -100; x < 1300; x += 173)
      for (double y = -100; y < 900; y += 131)
        {
          double latitude, longitude, back_x, back_y;

          hs_chart_to_position (&charts[i], x, y, &latitude, &longitude);
          g_assert_true (longitude > -180 && longitude <= 180);
          hs_chart_to_pixels (&charts[i], latitude, longitude, &back_x, &back_y);
          assert_near (back_x, x, 1e-4);
          assert_near (back_y, y, 1e-4);
        }
}

/* North is up, east is right, the middle is the middle, also over the meridian of 180°. */
static void
test_directions (void)
{
  static const struct
  {
    double north, east;
    int right, down;
  } rows[] = { { 0, 0, 0, 0 }, { 0.05, 0, 0, -1 }, { -0.05, 0, 0, 1 }, { 0, 0.05, 1, 0 }, { 0, -0.05, -1, 0 },
               { 0.05, 0.05, 1, -1 } };

  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    for (guint j = 0; j < G_N_ELEMENTS (rows); j++)
      {
        double x, y;

        hs_chart_to_pixels (&charts[i], charts[i].latitude + rows[j].north, charts[i].longitude + rows[j].east, &x, &y);
        x -= charts[i].width / 2;
        y -= charts[i].height / 2;
        g_assert_cmpint ((x > 1e-6) - (x < -1e-6), ==, rows[j].right);
        g_assert_cmpint ((y > 1e-6) - (y < -1e-6), ==, rows[j].down);
      }
}

/* A thousand pixels of ground, measured on the ellipsoid. */
static void
test_lengths (void)
{
  static const double ways[][2] = { { 1000, 0 }, { 0, 1000 }, { 600, 800 } };

  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    for (guint j = 0; j < G_N_ELEMENTS (ways); j++)
      {
        double from[2], to[2], middle_x = charts[i].width / 2, middle_y = charts[i].height / 2;

        hs_chart_to_position (&charts[i], middle_x - ways[j][0] / 2, middle_y - ways[j][1] / 2, &from[0], &from[1]);
        hs_chart_to_position (&charts[i], middle_x + ways[j][0] / 2, middle_y + ways[j][1] / 2, &to[0], &to[1]);
        assert_near (hs_geodesic_meters (from[0], from[1], to[0], to[1]) / (1000 * charts[i].meters), 1, 1e-3);
      }
}

static gboolean
is_round (gint64 number)
{
  while (number % 10 == 0)
    number /= 10;
  return number == 1 || number == 2 || number == 5;
}

/* The bar is as long as it says, and no rounder one would fit. */
static void
test_scale (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    for (double most = 60; most < 300; most += 37)
      {
        double pixels, from[2], to[2], meters;
        gint64 millimiles = hs_chart_scale (&charts[i], most, &pixels);

        g_assert_true (is_round (millimiles));
        g_assert_true (pixels <= most && pixels > most / 2.6);
        hs_chart_to_position (&charts[i], charts[i].width / 2 - pixels / 2, charts[i].height / 2, &from[0], &from[1]);
        hs_chart_to_position (&charts[i], charts[i].width / 2 + pixels / 2, charts[i].height / 2, &to[0], &to[1]);
        meters = hs_geodesic_meters (from[0], from[1], to[0], to[1]);
        assert_near (meters / (millimiles / 1000.0 * METERS_PER_MILE), 1, 1e-4);
      }
}

/* 16.09344 m a pixel: a mile is 100 pixels. */
static void
test_scale_by_hand (void)
{
  static const struct
  {
    double most;
    gint64 millimiles;
    double pixels;
  } rows[] = { { 100.01, 1000, 100 }, { 99, 500, 50 }, { 199, 1000, 100 }, { 201, 2000, 200 }, { 501, 5000, 500 },
               { 0.01, 1, 0.1 } };
  const HsChart chart = { 51, 0, METERS_PER_MILE / 100, 640, 480 };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double pixels;

      g_assert_cmpint (hs_chart_scale (&chart, rows[i].most, &pixels), ==, rows[i].millimiles);
      assert_near (pixels, rows[i].pixels, 1e-9);
    }
}

static void
test_grid (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    for (int meridians = 0; meridians < 2; meridians++)
      {
        gint64 step = hs_chart_grid (&charts[i], 90, meridians);
        double x, y, apart;

        hs_chart_to_pixels (&charts[i], charts[i].latitude - (meridians ? 0 : step / 1e5),
                            charts[i].longitude + (meridians ? step / 1e5 : 0), &x, &y);
        apart = meridians ? x - charts[i].width / 2 : y - charts[i].height / 2;
        g_assert_true (is_round (step));
        g_assert_true (apart >= 90 && apart < 90 * 2.6);
      }
}

static void
test_widest_grid (void)
{
  const HsChart chart = { 0, 0, HS_CHART_MOST_METERS, 100, 100 };

  g_assert_cmpint (hs_chart_grid (&chart, 1e9, TRUE), ==, 2000000);
}

static void
test_pan (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    {
      HsChart chart = charts[i];
      double latitude, longitude;

      hs_chart_to_position (&chart, chart.width / 2 - 40, chart.height / 2 + 25, &latitude, &longitude);
      hs_chart_pan (&chart, 40, -25);
      assert_near (chart.latitude, latitude, 1e-12);
      assert_near (chart.longitude, longitude, 1e-12);
    }
}

/* What lies under the pointer stays there. */
static void
test_zoom (void)
{
  static const double times[] = { 2, 0.5, 1.25, 8, 1 };

  for (guint i = 0; i < G_N_ELEMENTS (charts); i++)
    for (guint j = 0; j < G_N_ELEMENTS (times); j++)
      {
        HsChart chart = charts[i];
        double latitude, longitude, x, y;

        hs_chart_to_position (&chart, 100, 90, &latitude, &longitude);
        hs_chart_zoom (&chart, times[j], 100, 90);
        assert_near (chart.meters, charts[i].meters / times[j], 1e-9);
        hs_chart_to_pixels (&chart, latitude, longitude, &x, &y);
        assert_near (x, 100, 0.01);
        assert_near (y, 90, 0.01);
      }
}

static void
test_limits (void)
{
  HsChart chart = charts[0];
  double latitude, longitude;

  hs_chart_zoom (&chart, 1e9, 0, 0);
  assert_near (chart.meters, HS_CHART_LEAST_METERS, 0);
  hs_chart_zoom (&chart, 1e-9, 0, 0);
  assert_near (chart.meters, HS_CHART_MOST_METERS, 0);
  for (int i = 0; i < 100; i++)
    hs_chart_pan (&chart, 500, 5000);
  g_assert_true (chart.latitude <= 89.9 && isfinite (chart.longitude));
  hs_chart_to_position (&chart, 400, -1e9, &latitude, &longitude);
  assert_near (latitude, 89.9, 0);
  hs_chart_to_position (&chart, 400, 1e9, &latitude, &longitude);
  assert_near (latitude, -89.9, 0);
}

/* All are inside the margin, and one touches it. */
static void
test_fit (void)
{
  static const double sets[][2][3] = {
    { { 40.70, 40.75, 40.72 }, { -74.05, -73.90, -74.0 } },
    { { 10, 10.5, 10.1 }, { 179.9, -179.8, 179.95 } },
    { { -33.0, -33.9, -33.5 }, { 151.2, 151.2, 151.2 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sets); i++)
    {
      HsChart chart = { 0, 0, 1, 640, 480 };
      double least = 1e9;

      hs_chart_fit (&chart, 3, sets[i][0], sets[i][1], 40);
      for (guint j = 0; j < 3; j++)
        {
          double x, y;

          hs_chart_to_pixels (&chart, sets[i][0][j], sets[i][1][j], &x, &y);
          least = MIN (least, MIN (MIN (x, chart.width - x), MIN (y, chart.height - y)));
        }
      assert_near (least, 40, 1e-6);
    }
}

static void
test_fit_few (void)
{
  static const double latitudes[] = { 40.7, 40.7 }, longitudes[] = { -74, -74 };
  HsChart chart = { 1, 2, 3, 400, 320 };

  hs_chart_fit (&chart, 0, NULL, NULL, 40);
  assert_near (chart.meters, 3, 0);
  for (guint n = 1; n <= 2; n++)
    {
      hs_chart_fit (&chart, n, latitudes, longitudes, 40);
      assert_near (chart.latitude, 40.7, 1e-12);
      assert_near (chart.longitude, -74, 1e-12);
      assert_near (chart.meters * chart.height, 3200, 1e-6);
    }
}

static void
test_hit (void)
{
  /* 100 pixels apart from west to east, the middle one in the middle; the last lies on the first. */
  static const struct
  {
    double x, y, reach;
    int hit;
  } rows[] = { { 400, 300, 20, 1 }, { 310, 300, 20, 0 }, { 485, 300, 20, 2 }, { 350, 300, 20, -1 },
               { 349, 300, 60, 0 }, { 351, 300, 60, 1 }, { 400, 319, 20, 1 }, { 400, 321, 20, -1 } };
  const HsChart chart = charts[0];
  double latitudes[4], longitudes[4];

  for (guint i = 0; i < 4; i++)
    hs_chart_to_position (&chart, 300 + 100 * (i % 3), 300, &latitudes[i], &longitudes[i]);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_chart_hit (&chart, 4, latitudes, longitudes, rows[i].x, rows[i].y, rows[i].reach), ==,
                     rows[i].hit);
  g_assert_cmpint (hs_chart_hit (&chart, 0, NULL, NULL, 400, 300, 20), ==, -1);
}

static void
test_say (void)
{
  static const struct
  {
    double degrees;
    gint64 step;
    const char *text;
  } rows[] = { { 40.72, 1000, "40.72°" }, { -74, 100000, "-74°" }, { -74.5, 50000, "-74.5°" },
               { 40.71234, 1, "40.71234°" }, { 20, 2000000, "20°" }, { 0.0002, 20, "0.0002°" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_chart_say (rows[i].degrees, rows[i].step);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chart/round-trip", test_round_trip);
  g_test_add_func ("/chart/directions", test_directions);
  g_test_add_func ("/chart/lengths", test_lengths);
  g_test_add_func ("/chart/scale", test_scale);
  g_test_add_func ("/chart/scale-by-hand", test_scale_by_hand);
  g_test_add_func ("/chart/grid", test_grid);
  g_test_add_func ("/chart/widest-grid", test_widest_grid);
  g_test_add_func ("/chart/pan", test_pan);
  g_test_add_func ("/chart/zoom", test_zoom);
  g_test_add_func ("/chart/limits", test_limits);
  g_test_add_func ("/chart/fit", test_fit);
  g_test_add_func ("/chart/fit-few", test_fit_few);
  g_test_add_func ("/chart/hit", test_hit);
  g_test_add_func ("/chart/say", test_say);
  return g_test_run ();
}
