// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a job costs: the owner's money rules of the demo business (call-out 60.00 with 30 min, 24.00 a started quarter
 * of an hour, parts taxed at 8 %, card fee 2.7 % + 0.10, bands 10 ×2.0, 40 ×1.6, 100 ×1.4, rest ×1.25). */

#include "hs-price.h"

#include "core-test.h"

static const HsPriceBand bands[] = { { 1000, 2000 }, { 4000, 1600 }, { 10000, 1400 }, { 0, 1250 } };
static const HsLaborTerms terms = { 6000, 30, 15, 2400 };

static gint64
banded (gint64 cost)
{
  gint64 price;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_price_banded (bands, G_N_ELEMENTS (bands), cost, &price, &error));
  g_assert_no_error (error);
  return price;
}

static void
test_banded (void)
{
  static const gint64 rows[][2] = {
    /* 50.00 → 84.00, 51.00 → 85.40, 118.00 → 179.20; the last: 20 + 64 + 140 + 1.25 × 50. */
    { 5000, 8400 }, { 5100, 8540 }, { 11800, 17920 }, { 20000, 28650 },
    { 0, 0 }, { 1, 2 }, { 1000, 2000 }, { 1001, 2002 }, { 15000, 22400 }, { 15001, 22401 },
    { 1450, 2720 }, { 2400, 4240 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (banded (rows[i][0]), ==, rows[i][1]);
}

/* A dearer part never sells for less: over every cent from 0.01 to 500.00. */
static void
test_banded_rises (void)
{
  for (gint64 cost = 1; cost < 50000; cost++)
    g_assert_cmpint (banded (cost), <, banded (cost + 1));
}

static void
test_banded_refuses (void)
{
  static const struct
  {
    HsPriceBand bands[3];
    gsize n_bands;
    gint64 cost;
    const char *words;
  } rows[] = {
    { { { 0, 1000 } }, 0, 100, "no markup band" },
    { { { 0, 0 } }, 1, 100, "more than 0" },
    { { { 0, -5 } }, 1, 100, "more than 0" },
    { { { 100, 1000 } }, 1, 100, "must be “rest”" },
    { { { 0, 1000 }, { 0, 1000 } }, 2, 100, "only the last" },
    { { { -1, 1000 }, { 0, 1000 } }, 2, 100, "only the last" },
    { { { 0, 1000 } }, 1, -1, "less than nothing" },
    { { { 0, 2000 } }, 1, G_MAXINT64, "too large" },
    { { { 0, G_MAXINT64 } }, 1, 2, "too large" },
    { { { 1, G_MAXINT64 }, { 0, 1000 } }, 2, 2, "too large" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 price = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_price_banded (rows[i].bands, rows[i].n_bands, rows[i].cost, &price, &error), &error,
                        rows[i].words);
      g_assert_cmpint (price, ==, 4711);
    }
}

static void
test_bands_text (void)
{
  static const char text[] = "10.00 x2, 40.00 x1.6, 100.00 x1.4, rest x1.25";
  static const char *const same[] = {
    text, "10x2.0,40 x1.6,100 x 1.4,rest x1.25", "  10.00 x2.000 ,40.00x1.6, 100.00 x1.4 , rest x1.25 ",
    "10:2.0,40:1.6,100:1.4,rest:1.25", "10 : 2, 40:1.60, 100x1.4, rest:1.25",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (same); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) parsed = hs_price_bands_parse (same[i], 2, &error);
      g_autofree char *back = NULL;

      g_assert_no_error (error);
      g_assert_cmpuint (parsed->len, ==, G_N_ELEMENTS (bands));
      g_assert_cmpmem (parsed->data, parsed->len * sizeof (HsPriceBand), bands, sizeof bands);
      back = hs_price_bands_format ((const HsPriceBand *) parsed->data, parsed->len, 2);
      g_assert_cmpstr (back, ==, text);
    }
}

static void
test_bands_text_refuses (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "", "no markup band" },
    { "10.00", "is not a markup band" },
    { "10.00 2.0, rest x1", "is not a markup band" },
    { "10:2.0,40:1.6", "must be “rest”" },
    { "10:2:3, rest:1", "only digits" },
    { "10:, rest:1", "nothing is written" },
    { "10.00 x2.0,", "is not a markup band" },
    { "10.00 x2.0", "must be “rest”" },
    { "rest x1, rest x1", "only the last" },
    { "0 x2, rest x1", "wider than nothing" },
    { "-5 x2, rest x1", "wider than nothing" },
    { "10.001 x2, rest x1", "only 2 decimals" },
    { "10 x1.0005, rest x1", "only 3 decimals" },
    { "10 xtwo, rest x1", "only digits" },
    { "rest x0", "more than 0" },
    { "ten x2, rest x1", "only digits" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GArray) parsed = NULL;

      parsed = hs_price_bands_parse (rows[i].text, 2, &error);
      assert_bad_value (parsed != NULL, &error, rows[i].words);
    }
}

static void
test_labor (void)
{
  static const gint64 rows[][2] = {
    /* 110 min → 204.00; 35 → 84.00; 30 and less is the call-out; each started quarter counts. */
    { 110, 20400 }, { 35, 8400 }, { 30, 6000 }, { 0, 6000 }, { 31, 8400 }, { 45, 8400 }, { 46, 10800 }, { 60, 10800 },
    { 165, 27600 }, { 70, 13200 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 cents;

      g_assert_true (hs_price_labor (&terms, rows[i][0], &cents, NULL));
      g_assert_cmpint (cents, ==, rows[i][1]);
    }
}

static void
test_labor_refuses (void)
{
  static const struct
  {
    HsLaborTerms terms;
    gint64 minutes;
    const char *words;
  } rows[] = {
    { { 6000, 30, 15, 2400 }, -1, "less than nothing" },
    { { 6000, -1, 15, 2400 }, 10, "less than nothing" },
    { { 6000, 30, 0, 2400 }, 10, "at least one minute" },
    { { 6000, 30, -15, 2400 }, 10, "at least one minute" },
    { { 6000, 0, 1, G_MAXINT64 }, 2, "more than can be money" },
    { { G_MAXINT64, 0, 1, 1 }, 1, "more than can be money" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 cents = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_price_labor (&rows[i].terms, rows[i].minutes, &cents, &error), &error, rows[i].words);
      g_assert_cmpint (cents, ==, 4711);
    }
}

static void
test_tax (void)
{
  static const struct
  {
    gint64 rate;
    gint64 lines[4];
    gsize n_lines;
    gint64 shares[4];
    gint64 total;
  } rows[] = {
    /* Three lines of 10.10 at 8.25 %: by line 0.83 each (2.49), by invoice 2.50; the first line takes the cent. */
    { 82500, { 1010, 1010, 1010 }, 3, { 84, 83, 83 }, 250 },
    /* Starter 179.20 and shield 27.20 at 8 %, labor untaxed: 16.512, 14.336 and 2.176, so the earlier gets the cent. */
    { 80000, { 0, 17920, 2720 }, 3, { 0, 1434, 217 }, 1651 },
    { 65000, { 7 }, 1, { 0 }, 0 },
    { 65000, { 100 }, 1, { 7 }, 7 },
    { 72500, { 1999 }, 1, { 145 }, 145 },
    { 88750, { 12995 }, 1, { 1153 }, 1153 },
    { 0, { 5000, 100 }, 2, { 0, 0 }, 0 },
    { 80000, { 0 }, 0, { 0 }, 0 },
    /* A credit mirrors the charge; both on one invoice cancel. */
    { 65000, { -100 }, 1, { -7 }, -7 },
    { 80000, { 2500, -2500 }, 2, { 200, -200 }, 0 },
    { 82500, { 1010, -1010, 0 }, 3, { 83, -83, 0 }, 0 },
    /* Largest remainder: 0.35, 0.35, 0.70 of a cent share one cent. */
    { 70000, { 5, 5, 10 }, 3, { 0, 0, 1 }, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 shares[4] = { 0 };
      gint64 total = 4711;
      gint64 sum = 0;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_price_tax (rows[i].rate, rows[i].lines, rows[i].n_lines, shares, &total, &error));
      g_assert_no_error (error);
      g_assert_cmpint (total, ==, rows[i].total);
      for (gsize j = 0; j < rows[i].n_lines; j++)
        {
          g_assert_cmpint (shares[j], ==, rows[i].shares[j]);
          sum += shares[j];
        }
      g_assert_cmpint (sum, ==, total);
      g_assert_true (hs_price_tax (rows[i].rate, rows[i].lines, rows[i].n_lines, shares, NULL, NULL));
    }
}

/* Whatever the lines, the shares add up to the invoice's tax and none is a cent or more from its own. */
static void
test_tax_adds_up (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260310);

  for (int round = 0; round < 2000; round++)
    {
      gint64 lines[12], shares[12], total, sum = 0;
      gsize n_lines = (gsize) g_rand_int_range (rand, 1, 13);
      gint64 rate = g_rand_int_range (rand, 0, 250001);

      for (gsize i = 0; i < n_lines; i++)
        lines[i] = g_rand_int_range (rand, -50000, 200000);
      g_assert_true (hs_price_tax (rate, lines, n_lines, shares, &total, NULL));
      for (gsize i = 0; i < n_lines; i++)
        {
          gint64 off = shares[i] * HS_PER_MILLION - lines[i] * rate;

          g_assert_cmpint (ABS (off), <, HS_PER_MILLION);
          sum += shares[i];
        }
      g_assert_cmpint (sum, ==, total);
    }
}

static void
test_tax_refuses (void)
{
  static const struct
  {
    gint64 rate;
    gint64 lines[2];
    const char *words;
  } rows[] = {
    { -1, { 100, 100 }, "less than nothing" },
    { 80000, { G_MAXINT64, G_MAXINT64 }, "too large" },
    { 80000, { G_MAXINT64, 0 }, "too large" },
    { 80000, { G_MAXINT64, -G_MAXINT64 }, "too large to be taxed" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 shares[2] = { 4711, 4711 };
      gint64 total = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_price_tax (rows[i].rate, rows[i].lines, 2, shares, &total, &error), &error, rows[i].words);
      g_assert_cmpint (shares[0], ==, 4711);
      g_assert_cmpint (shares[1], ==, 4711);
      g_assert_cmpint (total, ==, 4711);
    }
}

static void
test_card_fee (void)
{
  static const struct
  {
    gint64 amount, rate, fixed, fee;
    const char *words;
  } rows[] = {
    /* 2.7 % of 234.82 is 6.34014, of 211.01 5.69727; each and 0.10. */
    { 23482, 27000, 10, 644, NULL },
    { 21101, 27000, 10, 580, NULL },
    { 0, 27000, 10, 0, NULL },
    { 100, 0, 10, 10, NULL },
    { 100, 5000, 0, 1, NULL },
    { -1, 27000, 10, 0, "less than nothing" },
    { 100, -1, 10, 0, "less than nothing" },
    { 100, 27000, -1, 0, "less than nothing" },
    { G_MAXINT64, 27000, 10, 0, "too large" },
    { 100, 10000, G_MAXINT64, 0, "too large" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 fee = 4711;
      g_autoptr (GError) error = NULL;
      gboolean accepted = hs_price_card_fee (rows[i].amount, rows[i].rate, rows[i].fixed, &fee, &error);

      if (rows[i].words != NULL)
        {
          assert_bad_value (accepted, &error, rows[i].words);
          g_assert_cmpint (fee, ==, 4711);
          continue;
        }
      g_assert_no_error (error);
      g_assert_cmpint (fee, ==, rows[i].fee);
    }
}

static void
test_margin_and_markup (void)
{
  static const gint64 rows[][4] = {
    /* Cost 80, price 120: markup 50 %, margin 33.3 %. */
    { 8000, 12000, 333, 500 }, { 10000, 13500, 259, 350 }, { 100, 100, 0, 0 }, { 0, 100, 1000, 0 },
    { 100, 0, 0, -1000 }, { 200, 100, -1000, -500 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpint (hs_price_margin_per_mille (rows[i][0], rows[i][1]), ==, rows[i][2]);
      g_assert_cmpint (hs_price_markup_per_mille (rows[i][0], rows[i][1]), ==, rows[i][3]);
    }
}

/* Cost, percent × 10^6, price. 80 at a margin of 40 % is 133.33; 100 with 35 % on it is 135. */
static void
test_from_margin (void)
{
  static const gint64 rows[][3] = {
    { 8000, 40000000, 13333 }, { 8000, 0, 8000 },         { 8000, 50000000, 16000 }, { 100, 99000000, 10000 },
    { 100, -100000000, 50 },   { 10000, 33333333, 15000 }, { 0, 40000000, 0 },
  };
  g_autoptr (GError) error = NULL;
  gint64 price = 99;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (hs_price_from_margin (rows[i][0], rows[i][1], &price, &error));
      g_assert_cmpint (price, ==, rows[i][2]);
    }
  price = 99;
  assert_bad_value (hs_price_from_margin (8000, 100000000, &price, &error), &error, "less than 100 %");
  assert_bad_value (hs_price_from_margin (G_MAXINT64, 40000000, &price, &error), &error, "too large");
  g_assert_cmpint (price, ==, 99);
}

static void
test_from_markup (void)
{
  static const gint64 rows[][3] = {
    { 10000, 35000000, 13500 }, { 8000, 50000000, 12000 }, { 8000, 0, 8000 },
    { 1, 50000000, 2 },         { 10000, -50000000, 5000 }, { 3, 16666667, 4 },
  };
  g_autoptr (GError) error = NULL;
  gint64 price = 99;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_true (hs_price_from_markup (rows[i][0], rows[i][1], &price, &error));
      g_assert_cmpint (price, ==, rows[i][2]);
    }
  price = 99;
  assert_bad_value (hs_price_from_markup (G_MAXINT64, 0, &price, &error), &error, "too large");
  g_assert_cmpint (price, ==, 99);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/price/banded", test_banded);
  g_test_add_func ("/price/banded-rises", test_banded_rises);
  g_test_add_func ("/price/banded-refuses", test_banded_refuses);
  g_test_add_func ("/price/bands-text", test_bands_text);
  g_test_add_func ("/price/bands-text-refuses", test_bands_text_refuses);
  g_test_add_func ("/price/labor", test_labor);
  g_test_add_func ("/price/labor-refuses", test_labor_refuses);
  g_test_add_func ("/price/tax", test_tax);
  g_test_add_func ("/price/tax-adds-up", test_tax_adds_up);
  g_test_add_func ("/price/tax-refuses", test_tax_refuses);
  g_test_add_func ("/price/card-fee", test_card_fee);
  g_test_add_func ("/price/margin-and-markup", test_margin_and_markup);
  g_test_add_func ("/price/from-margin", test_from_margin);
  g_test_add_func ("/price/from-markup", test_from_markup);
  return g_test_run ();
}
