// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which part of a scale is drawn. */

#include "core-test.h"
#include "hs-check.h"

/* From 13.50 to 14.70 V within; 12.00 to 20.00 can be keyed. */
static GArray *
bands_of (gint64 low, gint64 high)
{
  const HsCheckBand bands[] = { { HS_VERDICT_OUTSIDE, G_MININT64, low },
                                { HS_VERDICT_WITHIN, low, high },
                                { HS_VERDICT_OUTSIDE, high, G_MAXINT64 } };
  GArray *array = g_array_new (FALSE, FALSE, sizeof (HsCheckBand));

  g_array_append_vals (array, bands, G_N_ELEMENTS (bands));
  return array;
}

/* Six tenths of the width on either side: 0.72 V. A reading a little off is drawn in with a tenth of that to spare, one
 * far off only as far as the scale is wide once more, 2.64 V. */
static void
test_linear (void)
{
  static const struct
  {
    gboolean known;
    double shown;
    double from;
    double to;
  } rows[] = {
    { FALSE, 0, 12.78, 15.42 }, { TRUE, 14, 12.78, 15.42 }, { TRUE, 12.5, 12.428, 15.42 },
    { TRUE, 16, 12.78, 16.072 }, { TRUE, 30, 12.78, 18.06 }, { TRUE, 0, 10.14, 15.42 },
  };
  const HsCheck check = { .decimals = 2, .least = 0, .most = 2000 };
  g_autoptr (GArray) bands = bands_of (1350, 1470);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double from, to;

      g_assert_true (hs_check_get_scale (&check, bands, rows[i].known ? &rows[i].shown : NULL, &from, &to));
      g_assert_cmpfloat_with_epsilon (from, rows[i].from, 1e-9);
      g_assert_cmpfloat_with_epsilon (to, rows[i].to, 1e-9);
    }
}

/* Decades: a fifth of the least limit and twenty times the largest, or half as much again as the reading. */
static void
test_decades (void)
{
  const HsCheck check = { .decimals = 3, .least = 0, .most = 99999, .log_scale = TRUE };
  const HsCheckBand draw[] = { { HS_VERDICT_WITHIN, G_MININT64, 50 }, { HS_VERDICT_OUTSIDE, 50, G_MAXINT64 } };
  g_autoptr (GArray) bands = g_array_new (FALSE, FALSE, sizeof (HsCheckBand));
  const double far = 3;
  double from, to;

  g_array_append_vals (bands, draw, G_N_ELEMENTS (draw));
  g_assert_true (hs_check_get_scale (&check, bands, NULL, &from, &to));
  g_assert_cmpfloat_with_epsilon (from, 0.01, 1e-9);
  g_assert_cmpfloat_with_epsilon (to, 1, 1e-9);
  g_assert_true (hs_check_get_scale (&check, bands, &far, &from, &to));
  g_assert_cmpfloat_with_epsilon (to, 4.5, 1e-9);
}

static void
test_no_limit (void)
{
  const HsCheck check = { .decimals = 2, .most = 2000 };
  const HsCheckBand open = { HS_VERDICT_WITHIN, G_MININT64, G_MAXINT64 };
  g_autoptr (GArray) bands = g_array_new (FALSE, FALSE, sizeof (HsCheckBand));
  double from, to;

  g_array_append_val (bands, open);
  g_assert_false (hs_check_get_scale (&check, bands, NULL, &from, &to));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-scale/linear", test_linear);
  g_test_add_func ("/check-scale/decades", test_decades);
  g_test_add_func ("/check-scale/no-limit", test_no_limit);
  return g_test_run ();
}
