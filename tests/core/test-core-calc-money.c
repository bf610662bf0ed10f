// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators of money, dates and stock, as they are typed: worked tests by their ids, with 2026-11-25 as today.
 * Money is compared to the minor unit. */

#include "calc-test.h"

#include "hs-calc-private.h"

#define ROWS(rows) rows, G_N_ELEMENTS (rows)

/* The warranty rules of §6.5: months clamp to the month's end, whichever comes first ends it. */
static void
test_warranty (void)
{
  static const CalcShown rows[] = {
    { "a leap day", "warranty from=2024-02-29 months=12", "until", "2025-02-28" },
    { "end of a long month", "warranty from=2024-08-31 months=6", "until", "2025-02-28" },
    { "plain", "warranty from=2026-03-15 months=24", "until", "2028-03-15" },
    { "to a leap day", "warranty from=2023-08-31 months=6", "until", "2024-02-29" },
    { "no miles", "warranty from=2026-03-15 months=24", "until_odometer", "–" },
    { "miles", "warranty from=2026-03-15 months=24 odometer=81250 miles=24000", "until_odometer", "105250 mi" },
    { "miles alone", "warranty from=2026-03-15 months=0 odometer=81250 miles=24000", "until", "–" },
    { "last day", "warranty from=2026-03-15 months=24 on=2028-03-15", "covered", "yes" },
    { "a day later", "warranty from=2026-03-15 months=24 on=2028-03-16", "covered", "no" },
    { "last mile", "warranty from=2026-03-15 months=24 odometer=81250 miles=24000 on=2027-01-01 at=105250", "covered",
      "yes" },
    { "a mile later", "warranty from=2026-03-15 months=24 odometer=81250 miles=24000 on=2027-01-01 at=105251",
      "covered", "no" },
    { "miles left, day past", "warranty from=2026-03-15 months=24 odometer=81250 miles=24000 on=2028-03-16 at=90000",
      "covered", "no" },
    { "today", "warranty from=2025-11-25 months=12", "covered", "yes" },
    { "yesterday", "warranty from=2025-11-24 months=12", "covered", "no" },
    { "before it begins", "warranty from=2026-12-01 months=12 on=2026-11-30", "covered", "no" },
    { "its first day", "warranty from=2026-12-01 months=12 on=2026-12-01", "covered", "yes" },
  };
  static const CalcRow said[] = {
    { "date", "warranty from=2024-02-29 months=12", NULL, 0, 0, CALC_O, "The last day is past" },
    { "miles", "warranty from=2026-01-01 months=24 odometer=0 miles=10 at=11", NULL, 0, 0, CALC_O, "the last mile" },
    { "inside", "warranty from=2026-01-01 months=24 odometer=0 miles=10 at=10", NULL, 0, 0, CALC_W, "whichever ends" },
    { "by date", "warranty from=2026-01-01 months=24", NULL, 0, 0, CALC_W, "The day lies inside" },
    { "miles not read", "warranty from=2026-01-01 months=24 odometer=0 miles=10", NULL, 0, 0, CALC_C,
      "Read the odometer" },
    { "not begun", "warranty from=2026-12-01 months=24", NULL, 0, 0, CALC_O, "has not begun" },
  };
  static const CalcRefusal refused[] = {
    { "warranty from=2026-01-01 months=0", "months: without months and miles there is no warranty" },
    { "warranty from=2026-01-01 months=1.5", "months: only whole numbers" },
    { "warranty from=2026-01-01 months=-1", "months: -1 is out of range" },
    { "warranty from=2026-01-01 months=12 miles=1000", "odometer: what it showed at the start" },
    { "warranty from=2026-01-01 months=12 odometer=500 miles=1000 at=499", "at: it showed more at the start" },
    { "warranty from=2026-01-01 months=12 odometer=0.5 miles=1000", "odometer: only whole numbers" },
    { "warranty from=2026-01-01 months=12 odometer=5 miles=0.5", "miles: only whole numbers" },
    { "warranty from=2026-01-01 months=12 at=0.5", "at: only whole numbers" },
    { "warranty from=9999-06-01 months=12", "after the year 9999" },
    { "warranty months=12", "from is missing" },
    { "warranty from=2026-02-30 months=12", "from: " },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_rows (ROWS (said));
  assert_calc_refusals (ROWS (refused));
}

/* Streamlined Sales and Use Tax Agreement §324: by the item or by the invoice, half up once. */
static void
test_tax (void)
{
  static const CalcShown rows[] = {
    { "TAX-1", "tax rate=8.25 basis=line amounts=10.10,10.10,10.10", "tax_cents", "2.49" },
    { "TAX-1", "tax rate=8.25 basis=invoice amounts=10.10,10.10,10.10", "tax_cents", "2.50" },
    { "TAX-1", "tax rate=8.25 basis=invoice amounts=10.10,10.10,10.10", "net_cents", "30.30" },
    { "TAX-1", "tax rate=8.25 basis=line amounts=10.10,10.10,10.10", "total_cents", "32.79" },
    { "TAX-2", "tax rate=6.5 basis=invoice amounts=0.07", "tax_cents", "0.00" },
    { "TAX-2", "tax rate=6.5 basis=line amounts=0.07", "tax_cents", "0.00" },
    { "TAX-3", "tax rate=6.5 basis=invoice amounts=1.00", "tax_cents", "0.07" },
    { "TAX-4", "tax rate=7.25 basis=line amounts=19.99", "tax_cents", "1.45" },
    { "TAX-5", "tax rate=8.875 basis=invoice amounts=129.95", "tax_cents", "11.53" },
    { "a credit", "tax rate=6.5 basis=invoice amounts=3.00,-4.00", "tax_cents", "-0.07" },
    { "six decimals", "tax rate=4.999999 basis=invoice amounts=0.10", "tax_cents", "0.00" },
  };
  static const CalcRow said[] = {
    { "the other way", "tax rate=8.25 basis=line amounts=10.10,10.10,10.10", NULL, 0, 0, CALC_NO,
      "On the whole invoice it would be 2.50" },
    { "the other way", "tax rate=8.25 basis=invoice amounts=10.10,10.10,10.10", NULL, 0, 0, CALC_NO,
      "Line by line it would be 2.49" },
  };
  static const CalcRefusal refused[] = {
    { "tax rate=8.2500001 basis=line amounts=1", "rate: at most 6 decimals" },
    { "tax rate=-1 basis=line amounts=1", "rate: -1 is out of range" },
    { "tax rate=8.25 basis=item amounts=1", "none of line, invoice" },
    { "tax rate=8.25 basis=line amounts=1.005", "amounts: " },
    { "tax rate=8.25 basis=line amounts=10,,5", "amounts: " },
    { "tax rate=8,25 basis=line amounts=10", "rate: " },
    { "tax basis=line amounts=10", "rate is missing" },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_rows (ROWS (said));
  assert_calc_refusals (ROWS (refused));
}

static void
test_sell (void)
{
  static const CalcShown rows[] = {
    { "nothing", "sell cost=0", "price_cents", "0.00" },
    { "a cent", "sell cost=0.01", "price_cents", "0.02" },
    { "first band", "sell cost=10.00", "price_cents", "20.00" },
    { "20.016", "sell cost=10.01", "price_cents", "20.02" },
    { "second band", "sell cost=50.00", "price_cents", "84.00" },
    { "third", "sell cost=51.00", "price_cents", "85.40" },
    { "the starter", "sell cost=118.00", "price_cents", "179.20" },
    { "end of the third", "sell cost=150.00", "price_cents", "224.00" },
    { "the rest", "sell cost=1000.00", "price_cents", "1,286.50" },
    { "own bands", "sell cost=30.00 bands=20:3,rest:1.1", "price_cents", "71.00" },
    { "own bands", "sell cost=30.00 bands=rest:2", "price_cents", "60.00" },
    { "as the settings write them", "sell cost=30.00 bands=20~x3,~rest~x1.1", "price_cents", "71.00" },
    { "margin beside it", "sell cost=50.00 bands=rest:2", "margin_percent", "50.0 %" },
    { "markup beside it", "sell cost=50.00 bands=rest:2", "markup_percent", "100.0 %" },
    { "no cost, no markup", "sell cost=0", "markup_percent", "–" },
  };
  static const CalcRefusal refused[] = {
    { "sell cost=-1", "cost: -1 is out of range" },
    { "sell cost=1.005", "cost: " },
    { "sell cost=1 bands=10:2", "bands: the last markup band must be “rest”" },
    { "sell cost=1 bands=10:0,rest:1", "bands: a markup factor must be more than 0" },
    { "sell cost=1 bands=hello", "bands: “hello” is not a markup band" },
    { "sell", "cost is missing" },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_refusals (ROWS (refused));
}

/* Whatever costs a cent more sells for more. */
static void
test_sell_rises (void)
{
  gint64 before = -1;

  for (guint cents = 0; cents <= 16000; cents += cents < 5100 ? 17 : 331)
    {
      g_autofree char *line = g_strdup_printf ("sell cost=%u.%02u", cents / 100, cents % 100);
      g_autoptr (HsCalcResult) result = calc_run (line, NULL);
      gint64 price = hs_calc_result_lookup (result, "price_cents")->integer;

      g_assert_cmpint (price, >, before);
      before = price;
    }
}

static void
test_markup (void)
{
  static const CalcRow rows[] = {
    { "C 80, P 120", "markup cost=80 price=120", "markup_percent", 50, 1e-12, CALC_NO, NULL },
    { "C 80, P 120", "markup cost=80 price=120", "margin_percent", 100.0 / 3, 1e-12, CALC_NO, NULL },
    { "at a loss", "markup cost=100 price=50", "markup_percent", -50, 1e-12, CALC_NO, NULL },
    { "for nothing", "markup cost=100 price=0", "margin_percent", CALC_NONE, 0, CALC_NO, NULL },
    { "cost nothing", "markup cost=0 price=5", "markup_percent", CALC_NONE, 0, CALC_NO, NULL },
  };
  static const CalcShown shown[] = {
    { "80 at 40 %", "markup cost=80.00 margin=40", "price_cents", "133.33" },
    { "100 and 35 %", "markup cost=100.00 markup=35", "price_cents", "135.00" },
    { "as given", "markup cost=80 price=120", "price_cents", "120.00" },
  };
  static const CalcRefusal refused[] = {
    { "markup cost=80", "One of these is missing: price, markup, margin." },
    { "markup cost=80 price=1 margin=2", "Give only one of price, markup, margin." },
    { "markup cost=80 margin=100", "margin: 100 is out of range" },
    { "markup cost=80 markup=33.3333333", "markup: at most 6 decimals" },
  };

  assert_calc_rows (ROWS (rows));
  assert_calc_shown (ROWS (shown));
  assert_calc_refusals (ROWS (refused));
}

/* IRS standard mileage rates. */
static void
test_mileage (void)
{
  static const CalcShown rows[] = {
    { "MIL-1", "mileage date=2022-06-30 miles=100", "cents", "58.50" },
    { "MIL-1", "mileage date=2022-07-01 miles=100", "cents", "62.50" },
    { "MIL-2: floating point gives 27.11", "mileage date=2026-02-10 miles=37.4", "cents", "27.12" },
    { "MIL-3", "mileage date=2024-12-31 miles=10", "cents", "6.70" },
    { "MIL-3", "mileage date=2025-01-01 miles=10", "cents", "7.00" },
    { "its rate", "mileage date=2026-02-10 miles=37.4", "rate_cents", "72.5 US cents" },
    { "its rate", "mileage date=2022-12-31 miles=1", "since", "2022-07-01" },
    { "nine decimals", "mileage date=2026-02-10 miles=0.020689655", "cents", "0.01" },
    { "most", "mileage date=2026-02-10 miles=100000", "cents", "72,500.00" },
  };
  static const CalcRow said[] = {
    { "its year", "mileage date=2026-12-31 miles=1", "rate_cents", 72.5, 0, CALC_NO, "Notice 2026-10" },
    { "a year later", "mileage date=2027-01-01 miles=1", "rate_cents", 72.5, 0, CALC_NO, "check whether a newer rate" },
    { "A20: evidence, no must", "mileage date=2026-02-10 miles=1", "rate_cents", 72.5, 0, CALC_NO, "best evidence" },
    { "official", "mileage date=2015-05-05 miles=1", "rate_cents", 57.5, 0, CALC_NO, "IR-2014-114" },
  };
  static const CalcRefusal refused[] = {
    { "mileage date=2014-12-31 miles=1", "date: the first mileage rate is of 2015-01-01" },
    { "mileage date=2026-01-01 miles=-1", "miles: -1 is out of range" },
    { "mileage date=2026-01-01 miles=1e3", "exponent" },
    { "mileage date=01/02/2026 miles=1", "date: " },
  };
  static const CalcSure sure[] = {
    { "mileage date=2015-05-05 miles=1", HS_SURE_OFFICIAL },
    { "mileage date=2026-05-05 miles=1", HS_SURE_SECONDARY },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_rows (ROWS (said));
  assert_calc_refusals (ROWS (refused));
  assert_calc_sure (ROWS (sure));
}

static void
test_keep (void)
{
  static const CalcRow rows[] = {
    { "batteries", "keep used=11 days=90 restock=3 service=0.95", "keep", 2, 0, CALC_NO, "Poisson" },
    { "one gives 94.7 %", "keep used=11 days=90 restock=3 service=0.95", "one_less", 0.947155514118, 1e-11, CALC_NO,
      NULL },
    { "demand", "keep used=11 days=90 restock=3 service=0.95", "demand", 11.0 / 30, 1e-12, CALC_NO, NULL },
    { "one is enough for less", "keep used=11 days=90 restock=3 service=0.94", "keep", 1, 0, CALC_NO, NULL },
    { "never used", "keep used=0 days=90 restock=3 service=0.99", "keep", 0, 0, CALC_NO, NULL },
    { "never used", "keep used=0 days=90 restock=3 service=0.99", "one_less", CALC_NONE, 0, CALC_NO, NULL },
    { "many", "keep used=8000 days=10 restock=1 service=0.95", "keep", 847, 0, CALC_NO, NULL },
    { "at once", "keep used=11 days=90 restock=0 service=0.95", "keep", 0, 0, CALC_NO, NULL },
    { "nothing asked", "keep used=11 days=90 restock=3 service=0", "keep", 0, 0, CALC_NO, NULL },
  };
  static const CalcRefusal refused[] = {
    { "keep used=11 days=90 restock=3 service=1", "service: no stock lasts every time" },
    { "keep used=11 days=90 restock=3 service=95", "service: 95 is out of range. It takes 0 to 1." },
    { "keep used=11 days=0 restock=3 service=0.95", "days: 0 is out of range" },
    { "keep used=1000000 days=1 restock=3650 service=0.95", "used: that many" },
  };

  assert_calc_rows (ROWS (rows));
  assert_calc_refusals (ROWS (refused));
}

#define PART " cost=118.00 restock=15 minutes=6 trip_minutes=38 trip_miles=9"
#define STARTER "bring guess=0.35 weight=10 hits=3 cases=7" PART
#define SELDOM "bring guess=0.2 weight=10 hits=0 cases=5" PART

/* p = (0.35 × 10 + 3) / 17, R = 27.30, T = 64.58. */
static void
test_bring (void)
{
  static const CalcRow rows[] = {
    { "the starter", STARTER, "p", 6.5 / 17, 1e-12, CALC_NO, "second trip would cost more" },
    { "the starter", STARTER, "line", 27.30 / 91.88, 1e-12, CALC_NO, NULL },
    { "seldom needed", SELDOM, "p", 2.0 / 15, 1e-12, CALC_NO, "too seldom" },
    { "dearer minutes", STARTER " minute_cost=3.20", "line", 36.90 / (36.90 + 125.38), 1e-12, CALC_NO, NULL },
    { "dearer miles", STARTER " mile_cost=0.725", "line", 27.30 / (27.30 + 60.80 + 6.525), 1e-12, CALC_NO, NULL },
  };
  static const CalcShown shown[] = {
    { "the starter", STARTER, "bring", "yes" },
    { "the starter", STARTER, "gain_cents", "7.83" },
    { "seldom needed", SELDOM, "bring", "no" },
    { "seldom needed", SELDOM, "gain_cents", "-15.05" },
  };
  static const CalcRefusal refused[] = {
    { "bring guess=0.5 weight=1 hits=4 cases=3 cost=1 restock=1 minutes=1 trip_minutes=1 trip_miles=1", "hits: " },
    { "bring guess=0.5 weight=0 hits=0 cases=0 cost=1 restock=1 minutes=1 trip_minutes=1 trip_miles=1", "weight: " },
    { "bring guess=35 weight=1 hits=0 cases=1 cost=1 restock=1 minutes=1 trip_minutes=1 trip_miles=1",
      "guess: 35 is out of range. It takes 0 to 1." },
    { "bring guess=0.5 weight=1 hits=0.5 cases=1 cost=1 restock=1 minutes=1 trip_minutes=1 trip_miles=1",
      "hits: only whole numbers" },
    { "bring guess=0.5 weight=1 hits=0 cases=1 cost=0 restock=1 minutes=0 trip_minutes=0 trip_miles=0",
      "trip_minutes: " },
  };

  assert_calc_rows (ROWS (rows));
  assert_calc_shown (ROWS (shown));
  assert_calc_refusals (ROWS (refused));
}

/* New York ECL 27-1701: 5.00, 30 days. */
static void
test_deposit (void)
{
  static const CalcShown rows[] = {
    { "DEP-1", "deposit place=New~York sold=2026-11-01 returned=2026-12-01", "owed", "yes" },
    { "DEP-1", "deposit place=New~York sold=2026-11-01 returned=2026-12-02", "owed", "no" },
    { "DEP-1", "deposit place=New~York sold=2026-11-01 returned=2026-12-02", "days", "31" },
    { "DEP-1", "deposit place=new~york sold=2026-11-01", "last_day", "2026-12-01" },
    { "DEP-1", "deposit place=New~York sold=2026-11-01", "deposit_cents", "5.00" },
    { "not told", "deposit place=Minnesota sold=2026-11-01", "owed", "–" },
    { "how old the row is", "deposit place=Maine sold=2026-11-01", "checked", "2026-11-25" },
  };
  static const CalcRow said[] = {
    { "owed", "deposit place=New~York sold=2026-11-01", NULL, 0, 0, CALC_W, "ECL 27-1701" },
    { "not owed", "deposit place=Maine sold=2026-11-01", NULL, 0, 0, CALC_O, "The law gives 7 days" },
    { "not told", "deposit place=Minnesota sold=2026-11-01", NULL, 0, 0, CALC_C, "not in the table" },
  };
  static const CalcRefusal refused[] = {
    { "deposit place=Ruritania sold=2026-11-01", "It takes New York, Arizona" },
    { "deposit place=Maine sold=2026-11-26", "returned: that is before it was sold" },
    { "deposit sold=2026-11-26", "place is missing" },
  };

  assert_calc_shown (ROWS (rows));
  assert_calc_rows (ROWS (said));
  assert_calc_refusals (ROWS (refused));
}

static HsCalcResult *
run_in (const char *currency, const char *name, const char *const *words, gboolean tables, GError **error)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  g_autoptr (HsReference) reference = shipped_reference ();
  HsCalcScene scene = {
    .checks = checks, .reference = tables ? reference : NULL, .currency = currency, .today = day (CALC_TODAY),
  };

  return hs_calc_run (hs_calc_lookup (name), &scene, words, error);
}

/* ISO 4217: the yen has no minor unit, the Bahraini dinar three digits; US tables stay in US cents. */
static void
test_currency (void)
{
  const char *const yen[] = { "rate=10", "basis=invoice", "amounts=1005", NULL };
  const char *const dinar[] = { "cost=1.000", "bands=rest:1.2345", NULL };
  const char *const dinar_right[] = { "cost=1.001", "bands=rest:1.5", NULL };
  const char *const miles[] = { "date=2026-02-10", "miles=37.4", NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCalcResult) tax = run_in ("JPY", "tax", yen, TRUE, &error);
  g_autoptr (HsCalcResult) price = run_in ("BHD", "sell", dinar_right, TRUE, &error);
  g_autoptr (HsCalcResult) mileage = run_in ("EUR", "mileage", miles, TRUE, &error);

  g_assert_no_error (error);
  g_assert_cmpint (hs_calc_result_lookup (tax, "tax_cents")->integer, ==, 101);
  g_assert_cmpint (hs_calc_result_lookup (price, "price_cents")->integer, ==, 1502);
  g_assert_cmpstr (hs_calc_result_lookup (price, "price_cents")->shown, ==, "1.502");
  g_assert_cmpstr (hs_calc_result_lookup (mileage, "cents")->shown, ==, "2712 US cents");
  assert_bad_value (run_in ("BHD", "sell", dinar, TRUE, &error) != NULL, &error, "bands: ");
}

static void
test_without_tables (void)
{
  const char *const miles[] = { "date=2026-02-10", "miles=37.4", NULL };
  const char *const battery[] = { "place=Maine", "sold=2026-11-01", NULL };
  g_autoptr (GError) error = NULL;

  assert_bad_value (run_in ("USD", "mileage", miles, FALSE, &error) != NULL, &error, "there are no mileage rates");
  assert_bad_value (run_in ("USD", "deposit", battery, FALSE, &error) != NULL, &error, "there is no table of deposits");
}

static void
test_names (void)
{
  static const CalcNames rows[] = {
    { "warranty", "from months odometer miles on at", "until until_odometer covered" },
    { "tax", "rate basis amounts", "tax_cents net_cents total_cents" },
    { "sell", "cost bands", "price_cents markup_percent margin_percent" },
    { "markup", "cost price markup margin", "price_cents markup_percent margin_percent" },
    { "mileage", "date miles", "cents rate_cents since" },
    { "keep", "used days restock service", "keep demand lasts one_less" },
    { "bring", "guess weight hits cases cost restock minutes trip_minutes trip_miles minute_cost mile_cost",
      "p line bring gain_cents" },
    { "deposit", "place sold returned", "deposit_cents last_day days owed checked" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_calc_names (&rows[i]);
}

/* Money in is exact: each of these amounts comes out as it went in, though none is a binary fraction. */
static void
test_money_exact (void)
{
  static const char *const amounts[] = { "0.01", "0.29", "1.15", "4.35", "1.10", "8.41", "123456.78", "90071992.54" };

  for (guint i = 0; i < G_N_ELEMENTS (amounts); i++)
    {
      g_autofree char *line = g_strdup_printf ("tax rate=0 basis=line amounts=%s", amounts[i]);
      g_auto (GStrv) sides = g_strsplit (amounts[i], ".", 2);
      g_autoptr (HsCalcResult) result = calc_run (line, NULL);
      gint64 cents = g_ascii_strtoll (sides[0], NULL, 10) * 100 + g_ascii_strtoll (sides[1], NULL, 10);

      g_test_message ("%s", amounts[i]);
      g_assert_cmpint (hs_calc_result_lookup (result, "total_cents")->integer, ==, cents);
    }
}

/* How sure each is: what the owner set is practice, what follows from it derived. */
static void
test_sure (void)
{
  static const CalcSure rows[] = {
    { "warranty from=2026-01-01 months=12", HS_SURE_DERIVED },
    { "tax rate=8 basis=line amounts=1", HS_SURE_OFFICIAL },
    { "sell cost=1", HS_SURE_PRACTICE },
    { "markup cost=1 price=2", HS_SURE_DERIVED },
    { "keep used=1 days=1 restock=1 service=0.5", HS_SURE_DERIVED },
    { STARTER, HS_SURE_DERIVED },
    { "deposit place=New~York sold=2026-11-01", HS_SURE_OFFICIAL },
    { "deposit place=Maine sold=2026-11-01", HS_SURE_SECONDARY },
  };

  assert_calc_sure (ROWS (rows));
}

static void
test_examples (void)
{
  assert_calc_examples (hs_calc_money);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc-money/warranty", test_warranty);
  g_test_add_func ("/calc-money/tax", test_tax);
  g_test_add_func ("/calc-money/sell", test_sell);
  g_test_add_func ("/calc-money/sell-rises", test_sell_rises);
  g_test_add_func ("/calc-money/markup", test_markup);
  g_test_add_func ("/calc-money/mileage", test_mileage);
  g_test_add_func ("/calc-money/keep", test_keep);
  g_test_add_func ("/calc-money/bring", test_bring);
  g_test_add_func ("/calc-money/deposit", test_deposit);
  g_test_add_func ("/calc-money/currency", test_currency);
  g_test_add_func ("/calc-money/without-tables", test_without_tables);
  g_test_add_func ("/calc-money/names", test_names);
  g_test_add_func ("/calc-money/money-exact", test_money_exact);
  g_test_add_func ("/calc-money/sure", test_sure);
  g_test_add_func ("/calc-money/examples", test_examples);
  return g_test_run ();
}
