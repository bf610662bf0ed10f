// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Calculators for money, dates and stock. Amounts stay whole minor units and are rounded once. */

#include "hs-calc-private.h"

#include "hs-bring.h"
#include "hs-core-error.h"
#include "hs-deposit.h"
#include "hs-mileage.h"
#include "hs-money.h"
#include "hs-price.h"
#include "hs-stock.h"
#include "hs-tax.h"
#include "hs-warranty.h"

#include <math.h>

#define SUBJECT "Money"
#define MOST_MILES 9999999
#define MOST_MONEY 1e9
#define RATES_CURRENCY "USD"
#define LOG_SOURCE "26 CFR 1.274-5T(b)(6) and IRS Pub 463 ch. 5 on records"
#define TAX_SOURCE "Streamlined Sales and Use Tax Agreement §324 as enacted in Rhode Island, Kansas and North Dakota"

/* What a formula refused, with the key that it is about. */
static gboolean
refuse_key (GError **error, const char *key, const GError *reason)
{
  return hs_core_bad_value (error, "%s: %s.", key, reason->message);
}

/* A number that must not have a fraction. */
static gboolean
whole (const HsCalcInput *input, const char *id, gint64 *ret_value, GError **error)
{
  gint64 scaled = hs_calc_scaled (input, id);
  gint64 one = hs_decimal_power (HS_DECIMAL_MOST);

  if (scaled % one != 0)
    {
      hs_core_bad_value (error, "%s: only whole numbers.", id);
      return FALSE;
    }
  *ret_value = scaled / one;
  return TRUE;
}

/* A percent of %HS_PERCENT_WHOLE. */
static gboolean
percent (const HsCalcInput *input, const char *id, gint64 *ret_value, GError **error)
{
  gint64 scaled = hs_calc_scaled (input, id);
  gint64 cut = hs_decimal_power (HS_DECIMAL_MOST - HS_PERCENT_DECIMALS);

  if (scaled % cut != 0)
    {
      hs_core_bad_value (error, "%s: at most %d decimals.", id, HS_PERCENT_DECIMALS);
      return FALSE;
    }
  *ret_value = scaled / cut;
  return TRUE;
}

/* US cents, whatever the book's own money is. */
static void
put_cents (const HsCalcScene *scene, HsCalcResult *result, const char *id, const char *label, gint64 cents)
{
  if (g_str_equal (scene->currency, RATES_CURRENCY))
    hs_calc_put_money (result, id, label, cents);
  else
    hs_calc_put_integer (result, id, label, cents, "US cents");
}

/* NULL if the warranty holds together. */
static const char *
warranty_fault (const HsWarranty *warranty, gint64 now)
{
  if (warranty->miles > 0 && warranty->start_odometer < 0)
    return "odometer: what it showed at the start is needed to tell when the miles end.";
  if (warranty->months == 0 && warranty->miles == 0)
    return "months: without months and miles there is no warranty.";
  if (now >= 0 && now < warranty->start_odometer)
    return "at: it showed more at the start; check both.";
  if (warranty->months > 0 && hs_warranty_last_day (warranty) == HS_DATE_NONE)
    return "from: with these months it would end after the year 9999.";
  return NULL;
}

static gboolean
warranty_read (const HsCalcInput *input, HsWarranty *ret_warranty, gint64 *ret_now, GError **error)
{
  HsWarranty warranty = { .from = hs_calc_date (input, "from"), .start_odometer = -1 };
  const char *fault;
  gint64 months;
  gint64 now = -1;

  if (!whole (input, "months", &months, error)
      || (hs_calc_has (input, "odometer") && !whole (input, "odometer", &warranty.start_odometer, error))
      || !whole (input, "miles", &warranty.miles, error)
      || (hs_calc_has (input, "at") && !whole (input, "at", &now, error)))
    return FALSE;
  warranty.months = (int) months;
  fault = warranty_fault (&warranty, now);
  if (fault != NULL)
    {
      hs_core_bad_value (error, "%s", fault);
      return FALSE;
    }
  *ret_warranty = warranty;
  *ret_now = now;
  return TRUE;
}

static void
judge_warranty (const HsWarranty *warranty, HsDate on, gint64 now, HsCalcResult *result)
{
  HsWarrantyState state = hs_warranty_state (warranty, on, now);
  gboolean begun = on >= warranty->from;
  gboolean covered = begun && state == HS_WARRANTY_IN_COVER;

  hs_calc_put_boolean (result, "covered", "Covered", covered);
  hs_calc_verdict (result, covered ? HS_VERDICT_WITHIN : HS_VERDICT_OUTSIDE, covered ? "covered" : "not covered");
  if (!begun)
    hs_calc_say (result, "It has not begun on that day.");
  else if (state == HS_WARRANTY_ENDED_BY_DATE)
    hs_calc_say (result, "The last day is past.");
  else if (state == HS_WARRANTY_ENDED_BY_DISTANCE)
    hs_calc_say (result, "The odometer is past the last mile.");
  else if (warranty->miles > 0 && now < 0)
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, "by date only");
      hs_calc_say (result, "Covered as far as the date goes; the miles may have ended it.");
      hs_calc_advise (result, "Read the odometer.");
    }
  else
    hs_calc_say (result, warranty->miles > 0 ? "Day and odometer both lie inside; whichever ends first ends it."
                                              : "The day lies inside.");
}

static gboolean
warranty_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsWarranty warranty;
  gint64 now, last;

  if (!warranty_read (input, &warranty, &now, error))
    return FALSE;
  hs_calc_put_date (result, "until", "Last day", hs_warranty_last_day (&warranty));
  last = hs_warranty_last_odometer (&warranty);
  if (last >= 0)
    hs_calc_put_integer (result, "until_odometer", "Last mile", last, "mi");
  else
    hs_calc_put_none (result, "until_odometer", "Last mile");
  judge_warranty (&warranty, hs_calc_date (input, "on"), now, result);
  hs_calc_cite (result, "The months and miles that were agreed, by the calendar", HS_SURE_DERIVED);
  return TRUE;
}

static const HsCalcKey warranty_keys[] = {
  { .id = "from", .label = "First day", .kind = HS_CALC_DATE },
  { .id = "months", .label = "Months", .kind = HS_CALC_NUMBER, .least = 0, .most = 1200 },
  { .id = "odometer", .label = "Odometer at the start", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0,
    .most = MOST_MILES, .optional = TRUE },
  { .id = "miles", .label = "Miles covered", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0, .most = MOST_MILES,
    .optional = TRUE },
  { .id = "on", .label = "Day asked about", .kind = HS_CALC_DATE, .usual = "today" },
  { .id = "at", .label = "Odometer then", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0, .most = MOST_MILES,
    .optional = TRUE },
  HS_CALC_KEYS_END,
};

static gboolean
tax_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsTaxBasis basis = (HsTaxBasis) hs_calc_choice (input, "basis");
  HsTaxBasis other_basis = basis == HS_TAX_PER_LINE ? HS_TAX_PER_INVOICE : HS_TAX_PER_LINE;
  gsize n_lines;
  const gint64 *lines = hs_calc_scaled_list (input, "amounts", &n_lines);
  g_autoptr (GError) broken = NULL;
  gint64 rate, tax, other, net, total;

  if (!percent (input, "rate", &rate, error))
    return FALSE;
  if (!hs_tax_total (basis, rate, lines, n_lines, &tax, &broken)
      || !hs_tax_total (other_basis, rate, lines, n_lines, &other, &broken)
      || !hs_money_sum (lines, n_lines, &net, &broken)
      || !hs_money_sum ((gint64[]) { net, tax }, 2, &total, &broken))
    return refuse_key (error, "amounts", broken);
  hs_calc_put_money (result, "tax_cents", "Tax", tax);
  hs_calc_put_money (result, "net_cents", "Without tax", net);
  hs_calc_put_money (result, "total_cents", "With tax", total);
  hs_calc_cite (result, TAX_SOURCE, HS_SURE_OFFICIAL);
  if (tax != other)
    {
      g_autofree char *text = hs_money_format_grouped (other, scene->currency);

      hs_calc_say (result, "%s it would be %s; choose one way and keep to it.",
                   basis == HS_TAX_PER_LINE ? "On the whole invoice" : "Line by line", text);
    }
  return TRUE;
}

static const HsCalcKey tax_keys[] = {
  { .id = "rate", .label = "Rate", .kind = HS_CALC_NUMBER, .unit = "%", .decimals = 3, .least = 0, .most = 100 },
  { .id = "basis", .label = "Rounded by", .kind = HS_CALC_CHOICE, .choices = "line|invoice" },
  { .id = "amounts", .label = "Taxed lines", .kind = HS_CALC_AMOUNTS, .least = -MOST_MONEY, .most = MOST_MONEY },
  HS_CALC_KEYS_END,
};

/* Markup is a share of the cost, margin a share of the price: told side by side, since they are mixed up. */
static void
put_shares (HsCalcResult *result, gint64 cost, gint64 price)
{
  double gain = (double) (price - cost);

  hs_calc_put_number (result, "markup_percent", "Markup, of the cost", cost > 0 ? 100 * gain / (double) cost : NAN, "%",
                      1);
  hs_calc_put_number (result, "margin_percent", "Margin, of the price", price > 0 ? 100 * gain / (double) price : NAN,
                      "%", 1);
}

static gboolean
sell_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  guint decimals = (guint) MAX (0, hs_currency_decimals (scene->currency));
  gint64 cost = hs_calc_scaled (input, "cost");
  g_autoptr (GError) broken = NULL;
  g_autoptr (GArray) bands = hs_price_bands_parse (hs_calc_text (input, "bands"), decimals, &broken);
  gint64 price;

  if (bands == NULL)
    return refuse_key (error, "bands", broken);
  if (!hs_price_banded ((const HsPriceBand *) (gpointer) bands->data, bands->len, cost, &price, &broken))
    return refuse_key (error, "cost", broken);
  hs_calc_put_money (result, "price_cents", "Price", price);
  put_shares (result, cost, price);
  hs_calc_cite (result, "The bands given, each on its own part of the cost", HS_SURE_PRACTICE);
  return TRUE;
}

static const HsCalcKey sell_keys[] = {
  { .id = "cost", .label = "Cost", .kind = HS_CALC_MONEY, .decimals = 2, .least = 0, .most = MOST_MONEY },
  { .id = "bands", .label = "Bands", .kind = HS_CALC_TEXT, .usual = "10:2.0,40:1.6,100:1.4,rest:1.25" },
  HS_CALC_KEYS_END,
};

static gboolean
markup_price (const HsCalcInput *input, gint64 cost, gint64 *ret_price, GError **error)
{
  gboolean by_margin = hs_calc_has (input, "margin");
  const char *key = by_margin ? "margin" : "markup";
  g_autoptr (GError) broken = NULL;
  gint64 share;

  if (hs_calc_has (input, "price"))
    {
      *ret_price = hs_calc_scaled (input, "price");
      return TRUE;
    }
  if (!percent (input, key, &share, error))
    return FALSE;
  if ((by_margin ? hs_price_from_margin : hs_price_from_markup) (cost, share, ret_price, &broken))
    return TRUE;
  return refuse_key (error, key, broken);
}

static gboolean
markup_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  gint64 cost = hs_calc_scaled (input, "cost");
  gint64 price;

  if (!markup_price (input, cost, &price, error))
    return FALSE;
  hs_calc_put_money (result, "price_cents", "Price", price);
  put_shares (result, cost, price);
  hs_calc_cite (result, "Markup = gain / cost, margin = gain / price", HS_SURE_DERIVED);
  return TRUE;
}

static const HsCalcKey markup_keys[] = {
  { .id = "cost", .label = "Cost", .kind = HS_CALC_MONEY, .decimals = 2, .least = 0, .most = MOST_MONEY },
  { .id = "price", .label = "Price", .kind = HS_CALC_MONEY, .decimals = 2, .least = 0, .most = MOST_MONEY,
    .either = 1 },
  { .id = "markup", .label = "Markup", .kind = HS_CALC_NUMBER, .unit = "%", .least = 0, .most = 10000, .either = 1 },
  { .id = "margin", .label = "Margin", .kind = HS_CALC_NUMBER, .unit = "%", .least = 0, .most = 99.999999,
    .either = 1 },
  HS_CALC_KEYS_END,
};

static gboolean
mileage_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  const HsMileageRate *rate;
  g_autoptr (GError) broken = NULL;
  gboolean stale;
  gint64 cents;

  if (scene->reference == NULL)
    return hs_core_bad_value (error, "date: there are no mileage rates.");
  rate = hs_mileage_rate_on (scene->reference, hs_calc_date (input, "date"), &stale, &broken);
  if (rate == NULL)
    return refuse_key (error, "date", broken);
  if (!hs_mileage_cents (rate->centicents, hs_calc_scaled (input, "miles"), HS_DECIMAL_MOST, &cents, &broken))
    return refuse_key (error, "miles", broken);
  put_cents (scene, result, "cents", "May be put down", cents);
  hs_calc_put_number (result, "rate_cents", "Rate a mile", (double) rate->centicents / 100, "US cents", 1);
  hs_calc_put_date (result, "since", "Rate of", rate->from);
  hs_calc_cite (result, rate->source, rate->sure);
  hs_calc_advise (result, "Date, miles, destination and purpose written down at the time are the best evidence.");
  hs_calc_cite (result, LOG_SOURCE, HS_SURE_OFFICIAL);
  if (stale)
    hs_calc_advise (result, "This is the last rate in the table: check whether a newer rate holds.");
  return TRUE;
}

static const HsCalcKey mileage_keys[] = {
  { .id = "date", .label = "Day of the drive", .kind = HS_CALC_DATE },
  { .id = "miles", .label = "Business miles", .kind = HS_CALC_NUMBER, .unit = "mi", .decimals = 1, .least = 0,
    .most = 100000 },
  HS_CALC_KEYS_END,
};

static gboolean
keep_run (const HsCalcScene *scene G_GNUC_UNUSED, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  double demand = hs_calc_number (input, "used") / hs_calc_number (input, "days") * hs_calc_number (input, "restock");
  double service = hs_calc_number (input, "service");
  gint64 keep;

  if (service >= 1)
    return hs_core_bad_value (error, "service: no stock lasts every time. It takes less than 1, such as 0.95.");
  if (demand > HS_STOCK_MOST_DEMAND)
    return hs_core_bad_value (error, "used: that many until new ones come is no stock of a van; check the days.");
  keep = hs_stock_keep (demand, service);
  hs_calc_put_integer (result, "keep", "Keep", keep, NULL);
  hs_calc_put_number (result, "demand", "Used until new ones come", demand, NULL, 2);
  hs_calc_put_number (result, "lasts", "Lasts, share of the times", hs_stock_service (demand, keep), NULL, 3);
  if (keep > 0)
    hs_calc_put_number (result, "one_less", "One less lasts", hs_stock_service (demand, keep - 1), NULL, 3);
  else
    hs_calc_put_none (result, "one_less", "One less lasts");
  hs_calc_cite (result, "Poisson distribution of parts that fail one by one", HS_SURE_DERIVED);
  return TRUE;
}

static const HsCalcKey keep_keys[] = {
  { .id = "used", .label = "Used", .kind = HS_CALC_NUMBER, .least = 0, .most = 1000000 },
  { .id = "days", .label = "In how many days", .kind = HS_CALC_NUMBER, .least = 1, .most = 36500 },
  { .id = "restock", .label = "Days until new ones come", .kind = HS_CALC_NUMBER, .least = 0, .most = 3650 },
  { .id = "service", .label = "Share of the times it should last", .kind = HS_CALC_NUMBER, .decimals = 2, .least = 0,
    .most = 1 },
  HS_CALC_KEYS_END,
};

static gboolean
bring_read (const HsCalcScene *scene, const HsCalcInput *input, HsBringQuestion *ret_question, GError **error)
{
  gint64 minor = hs_decimal_power ((guint) MAX (0, hs_currency_decimals (scene->currency)));
  gint64 hits, cases;

  if (!whole (input, "hits", &hits, error) || !whole (input, "cases", &cases, error))
    return FALSE;
  *ret_question = (HsBringQuestion) {
    .guess = hs_calc_number (input, "guess"),
    .weight = hs_calc_number (input, "weight"),
    .hits = (double) hits,
    .cases = (double) cases,
    .cost_cents = (double) hs_calc_scaled (input, "cost"),
    .restock_percent = hs_calc_number (input, "restock"),
    .return_minutes = hs_calc_number (input, "minutes"),
    .trip_minutes = hs_calc_number (input, "trip_minutes"),
    .trip_miles = hs_calc_number (input, "trip_miles"),
    .minute_cents = hs_calc_number (input, "minute_cost") * (double) minor,
    .mile_cents = hs_calc_number (input, "mile_cost") * (double) minor,
  };
  return TRUE;
}

static gboolean
bring_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  HsBringQuestion question;
  HsBringAnswer answer;
  g_autoptr (GError) broken = NULL;

  if (!bring_read (scene, input, &question, error))
    return FALSE;
  if (!hs_bring_weigh (&question, &answer, &broken))
    return hs_core_bad_value (error, "%s.", broken->message);
  hs_calc_put_number (result, "p", "Likely to be needed", answer.p, NULL, 3);
  hs_calc_put_number (result, "line", "Worth it above", answer.line, NULL, 3);
  hs_calc_put_boolean (result, "bring", "Bring it", answer.bring);
  hs_calc_put_money (result, "gain_cents", "Saves on average", answer.gain_cents);
  hs_calc_cite (result, "Expected cost of either way", HS_SURE_DERIVED);
  hs_calc_say (result, answer.bring ? "A second trip would cost more than bringing it for nothing, as often as it is "
                                      "needed." : "It is needed too seldom for what bringing it for nothing costs.");
  return TRUE;
}

static const HsCalcKey bring_keys[] = {
  { .id = "guess", .label = "Guess that it is needed", .kind = HS_CALC_NUMBER, .decimals = 2, .least = 0, .most = 1 },
  { .id = "weight", .label = "Guess counts as cases", .kind = HS_CALC_NUMBER, .least = 0, .most = 1000000 },
  { .id = "hits", .label = "Needed", .kind = HS_CALC_NUMBER, .least = 0, .most = 1000000 },
  { .id = "cases", .label = "Of jobs like this", .kind = HS_CALC_NUMBER, .least = 0, .most = 1000000 },
  { .id = "cost", .label = "Cost of the part", .kind = HS_CALC_MONEY, .decimals = 2, .least = 0, .most = MOST_MONEY },
  { .id = "restock", .label = "Restock charge", .kind = HS_CALC_NUMBER, .unit = "%", .least = 0, .most = 100 },
  { .id = "minutes", .label = "Taking it back", .kind = HS_CALC_NUMBER, .unit = "min", .least = 0, .most = 10080 },
  { .id = "trip_minutes", .label = "Second trip", .kind = HS_CALC_NUMBER, .unit = "min", .least = 0, .most = 10080 },
  { .id = "trip_miles", .label = "Second trip", .kind = HS_CALC_NUMBER, .unit = "mi", .least = 0, .most = 10000 },
  { .id = "minute_cost", .label = "Cost of a minute", .kind = HS_CALC_NUMBER, .decimals = 2, .least = 0, .most = 10000,
    .usual = "1.60" },
  { .id = "mile_cost", .label = "Cost of a mile", .kind = HS_CALC_NUMBER, .decimals = 2, .least = 0, .most = 10000,
    .usual = "0.42" },
  HS_CALC_KEYS_END,
};

static gboolean
refuse_place (const HsCalcScene *scene, const char *place, GError **error)
{
  g_autoptr (GString) all = g_string_new (NULL);
  const HsDepositRule *rule;

  if (scene->reference == NULL)
    return hs_core_bad_value (error, "place: there is no table of deposits.");
  for (guint i = 0; (rule = hs_reference_get_nth_deposit (scene->reference, i)) != NULL; i++)
    g_string_append_printf (all, "%s%s", i > 0 ? ", " : "", rule->place);
  return hs_core_bad_value (error, "place: “%s” is not in the table of deposits. It takes %s.", place, all->str);
}

static void
judge_deposit (const HsDepositRule *rule, HsDate sold, HsDate returned, HsCalcResult *result)
{
  HsDate last = hs_deposit_last_day (rule, sold);
  gboolean owed = last != HS_DATE_NONE && returned <= last;

  if (last == HS_DATE_NONE)
    {
      hs_calc_put_none (result, "owed", "Owed by law");
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "How long an old battery can be brought is not in the table.");
      return;
    }
  hs_calc_put_boolean (result, "owed", "Owed by law", owed);
  hs_calc_verdict (result, owed ? HS_VERDICT_WITHIN : HS_VERDICT_OUTSIDE, owed ? "owed" : "not owed");
  hs_calc_say (result, "The law gives %d days; a counter may give longer.", rule->days);
}

static gboolean
deposit_run (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result, GError **error)
{
  const char *place = hs_calc_text (input, "place");
  HsDate sold = hs_calc_date (input, "sold");
  HsDate returned = hs_calc_date (input, "returned");
  const HsDepositRule *rule = NULL;

  if (scene->reference != NULL)
    rule = hs_reference_lookup_deposit (scene->reference, place);
  if (rule == NULL)
    return refuse_place (scene, place, error);
  if (returned < sold)
    return hs_core_bad_value (error, "returned: that is before it was sold.");
  put_cents (scene, result, "deposit_cents", "Deposit by law", rule->deposit_cents);
  hs_calc_put_date (result, "last_day", "Last day", hs_deposit_last_day (rule, sold));
  hs_calc_put_integer (result, "days", "Days since", (gint64) returned - sold, NULL);
  judge_deposit (rule, sold, returned, result);
  hs_calc_put_date (result, "checked", "Held against its source on", rule->checked);
  hs_calc_cite (result, rule->source, rule->sure);
  return TRUE;
}

static const HsCalcKey deposit_keys[] = {
  { .id = "place", .label = "State", .kind = HS_CALC_TEXT },
  { .id = "sold", .label = "Battery sold on", .kind = HS_CALC_DATE },
  { .id = "returned", .label = "Old one brought on", .kind = HS_CALC_DATE, .usual = "today" },
  HS_CALC_KEYS_END,
};

const HsCalc hs_calc_money[] = {
  { .name = "warranty", .title = "Warranty", .subject = SUBJECT,
    .help = "Tells the last day and the last mile of a warranty and whether it still covers.",
    .example = "from=2026-03-15 months=24 odometer=81250 miles=24000 on=2027-03-15 at=99000", .keys = warranty_keys,
    .run = warranty_run },
  { .name = "tax", .title = "Sales tax", .subject = SUBJECT,
    .help = "Works out the tax of some lines, rounded once by the line or by the invoice.",
    .example = "rate=8.25 basis=invoice amounts=10.10,10.10,10.10", .keys = tax_keys, .run = tax_run },
  { .name = "sell", .title = "Price of a part", .subject = SUBJECT,
    .help = "Works out the price from the cost by banded markup, which never falls when the cost rises.",
    .example = "cost=118.00", .keys = sell_keys, .run = sell_run },
  { .name = "markup", .title = "Markup and margin", .subject = SUBJECT,
    .help = "Tells markup and margin of a price, or the price that one of them makes.",
    .example = "cost=80.00 price=120.00", .keys = markup_keys, .run = markup_run },
  { .name = "mileage", .title = "Business miles", .subject = SUBJECT,
    .help = "Works out what business miles may be put down for on their day.",
    .example = "date=2026-02-10 miles=37.4", .keys = mileage_keys, .run = mileage_run },
  { .name = "keep", .title = "How many to keep", .subject = SUBJECT,
    .help = "Works out how many of a part to keep so that they last until new ones come.",
    .example = "used=11 days=90 restock=3 service=0.95", .keys = keep_keys, .run = keep_run },
  { .name = "bring", .title = "Bring or leave", .subject = SUBJECT,
    .help = "Weighs bringing a part for nothing against a second trip.",
    .example = "guess=0.35 weight=10 hits=3 cases=7 cost=118.00 restock=15 minutes=6 trip_minutes=38 trip_miles=9",
    .keys = bring_keys, .run = bring_run },
  { .name = "deposit", .title = "Battery deposit", .subject = SUBJECT,
    .help = "Tells a state's battery deposit and whether it is still owed for an old battery.",
    .example = "place=Maine sold=2026-11-01 returned=2026-11-08", .keys = deposit_keys, .run = deposit_run },
  HS_CALC_SHELF_END,
};
