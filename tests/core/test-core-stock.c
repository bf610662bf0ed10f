// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How many pieces to keep. The expected levels and shares were summed term by term with 60 digits. */

#include "core-test.h"

#include "hs-stock.h"

#include <math.h>

static const struct
{
  double demand;
  double service;
  gint64 keep;
} levels[] = {
  { 11.0 / 90 * 3, 0.95, 2 },     /* 11 batteries in 90 days, 3 days to restock: 1 gives 94.7 % */
  { 11.0 / 90 * 3, 0.947, 1 },
  { 11.0 / 90 * 3, 0.948, 2 },
  { 0, 0.999, 0 },
  { 0.05, 0.95, 0 },
  { 0.051, 0.95, 0 },
  { 0.052, 0.95, 1 },
  { 1, 0.9, 2 },
  { 1, 0.999999999, 11 },
  { 2, 0.95, 5 },
  { 3, 0, 0 },
  { 5, 0.95, 9 },
  { 10, 0.99, 18 },
  { 100, 0.95, 117 },
  { 800, 0.95, 847 },             /* e^-800 is too small to be a number */
  { 1000, 0.5, 1000 },
  { 5000, 0.999, 5220 },
  { 20000, 0.95, 20233 },
};

static void
test_keep (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (levels); i++)
    {
      g_test_message ("row %zu", i);
      g_assert_cmpint (hs_stock_keep (levels[i].demand, levels[i].service), ==, levels[i].keep);
    }
}

static void
test_service (void)
{
  static const struct
  {
    double demand;
    gint64 n;
    double service;
  } rows[] = {
    { 11.0 / 90 * 3, 0, 0.693040620086 }, { 11.0 / 90 * 3, 1, 0.947155514118 }, { 11.0 / 90 * 3, 2, 0.993743244691 },
    { 5, 5, 0.615960654833 },             { 800, 800, 0.509401657999 },         { 1000, 900, 0.000697767328 },
    { 0, 0, 1 },                          { 0, 7, 1 },                          { 1000, 1, 0 },
    { 5, 1000000000, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpfloat_with_epsilon (hs_stock_service (rows[i].demand, rows[i].n), rows[i].service, 1e-11);
}

/* The level is the smallest that lasts often enough, whatever the demand. */
static void
test_smallest (void)
{
  static const double demands[] = { 0.01, 0.3, 1, 2.5, 7, 30, 250, 744, 746, 3000, 1e6 };
  static const double services[] = { 0.1, 0.5, 0.9, 0.95, 0.99, 0.9999 };

  for (gsize i = 0; i < G_N_ELEMENTS (demands); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (services); j++)
      {
        gint64 keep = hs_stock_keep (demands[i], services[j]);

        g_assert_cmpfloat (hs_stock_service (demands[i], keep), >=, services[j] - 1e-12);
        if (keep > 0)
          g_assert_cmpfloat (hs_stock_service (demands[i], keep - 1), <, services[j] + 1e-12);
      }
}

/* Asked for the nearly impossible, it still ends: about demand + 9 standard deviations. */
static void
test_far (void)
{
  double nearly_all = nextafter (1, 0);

  g_assert_cmpint (hs_stock_keep (HS_STOCK_MOST_DEMAND, nearly_all), >, (gint64) HS_STOCK_MOST_DEMAND);
  g_assert_cmpint (hs_stock_keep (HS_STOCK_MOST_DEMAND, nearly_all), <, (gint64) HS_STOCK_MOST_DEMAND + 400000);
  g_assert_cmpint (hs_stock_keep (1, nearly_all), <=, 25);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stock/keep", test_keep);
  g_test_add_func ("/stock/service", test_service);
  g_test_add_func ("/stock/smallest", test_smallest);
  g_test_add_func ("/stock/far", test_far);
  return g_test_run ();
}
