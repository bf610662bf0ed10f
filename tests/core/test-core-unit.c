// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Units against their definitions: the pound 0.45359237 kg, standard gravity 9.80665 m/s², the inch 0.0254 m, the US
 * gallon 231 cubic inches. */

#include "core-test.h"
#include "hs-unit.h"

#define POUND_FORCE (0.45359237 * 9.80665)

static double
convert (double value, const char *from, const char *to)
{
  g_autoptr (GError) error = NULL;
  double result = -999;

  g_assert_true (hs_unit_convert (value, hs_unit_lookup (from), hs_unit_lookup (to), &result, &error));
  g_assert_no_error (error);
  return result;
}

static void
test_converted (void)
{
  static const struct
  {
    const char *from;
    double value;
    const char *to;
    double result;
  } rows[] = {
    { "lbfft", 1, "nm", POUND_FORCE * 0.3048 },
    { "lbfft", 80, "nm", 108.465435865 },        /* TRQ-1: 108.47 */
    { "nm", 100, "lbfft", 73.756214928 },        /* TRQ-1: 73.76 */
    { "lbfin", 1, "nm", POUND_FORCE * 0.0254 },
    { "lbfft", 1, "lbfin", 12 },
    { "kgfm", 1, "nm", 9.80665 },
    { "psi", 1, "kpa", POUND_FORCE / (0.0254 * 0.0254) / 1000 },
    { "bar", 1, "kpa", 100 },
    { "psi", 100, "kpa", 689.4757293168 },
    { "bar", 2.4, "psi", 34.809057055 },
    { "inch", 1, "mm", 25.4 },
    { "mile", 1, "km", 1.609344 },
    { "km", 1.609344, "mile", 1 },
    { "gal", 1, "liter", 231 * 0.254 * 0.254 * 0.254 },
    { "gal", 1, "qt", 4 },
    { "fahrenheit", 32, "celsius", 0 },
    { "fahrenheit", 212, "celsius", 100 },
    { "fahrenheit", -40, "celsius", -40 },
    { "celsius", 26.666666666666668, "fahrenheit", 80 },
    { "celsius", 155, "fahrenheit", 311 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s to %s", rows[i].from, rows[i].to);
      g_assert_cmpfloat_with_epsilon (convert (rows[i].value, rows[i].from, rows[i].to), rows[i].result, 1e-8);
    }
}

/* There and back is what it was; another quantity is refused. */
static void
test_all_pairs (void)
{
  const HsUnit *from, *to;

  for (guint i = 0; (from = hs_unit_get_nth (i)) != NULL; i++)
    for (guint j = 0; (to = hs_unit_get_nth (j)) != NULL; j++)
      {
        g_autoptr (GError) error = NULL;
        double there = -999, back = -999;

        if (g_str_equal (from->quantity, to->quantity))
          {
            g_assert_true (hs_unit_convert (12.34, from, to, &there, &error));
            g_assert_true (hs_unit_convert (there, to, from, &back, &error));
            g_assert_cmpfloat_with_epsilon (back, 12.34, 1e-9);
            continue;
          }
        assert_bad_value (hs_unit_convert (12.34, from, to, &there, &error), &error, "cannot be the other");
        g_assert_cmpfloat (there, ==, -999);
      }
}

static void
test_words (void)
{
  g_auto (GStrv) words = g_strsplit (HS_UNITS, "|", -1);

  for (guint i = 0; words[i] != NULL; i++)
    g_assert_true (hs_unit_lookup (words[i]) == hs_unit_get_nth (i));
  g_assert_null (hs_unit_get_nth (g_strv_length (words)));
  g_assert_null (hs_unit_lookup ("furlong"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/unit/converted", test_converted);
  g_test_add_func ("/unit/all-pairs", test_all_pairs);
  g_test_add_func ("/unit/words", test_words);
  return g_test_run ();
}
