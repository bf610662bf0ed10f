// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a job costs the customer: banded markup, labor in started steps, tax once an invoice, the card's fee. All
 * rates are handed in; nothing here knows the owner's. Refuses negative terms and sums that do not fit. */

#include "hs-price.h"

#include "hs-core-error.h"
#include "hs-decimal.h"
#include "hs-money.h"

#define REST "rest"

static gboolean
refuse (GError **error, const char *reason)
{
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, reason);
  return FALSE;
}

/* Reads one `40.00 x1.6`, `40:1.6` or `rest x1.25`. */
static gboolean
band_parse (const char *text, guint decimals, HsPriceBand *ret_band, GError **error)
{
  g_auto (GStrv) sides = g_strsplit_set (text, "x:", 2);
  HsPriceBand band = { 0 };

  if (g_strv_length (sides) != 2)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a markup band: write a width and a factor like 40.00 x1.6 or 40:1.6, at the end "
                   "rest x1.25", text);
      return FALSE;
    }
  g_strstrip (sides[0]);
  if (!g_str_equal (sides[0], REST) && !hs_decimal_parse (sides[0], decimals, &band.width_cents, error))
    return FALSE;
  if (!g_str_equal (sides[0], REST) && band.width_cents < 1)
    return refuse (error, "a markup band must be wider than nothing: check the widths");
  if (!hs_decimal_parse (sides[1], 3, &band.times_thousandths, error))
    return FALSE;
  *ret_band = band;
  return TRUE;
}

GArray *
hs_price_bands_parse (const char *text, guint decimals, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ",", -1);
  g_autoptr (GArray) bands = g_array_new (FALSE, FALSE, sizeof (HsPriceBand));

  for (guint i = 0; parts[i] != NULL; i++)
    {
      HsPriceBand band;

      if (!band_parse (g_strstrip (parts[i]), decimals, &band, error))
        return NULL;
      g_array_append_val (bands, band);
    }
  if (!hs_price_bands_check ((const HsPriceBand *) bands->data, bands->len, error))
    return NULL;
  return g_steal_pointer (&bands);
}

char *
hs_price_bands_format (const HsPriceBand *bands, gsize n_bands, guint decimals)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < n_bands; i++)
    {
      g_autofree char *width = hs_decimal_format (bands[i].width_cents, decimals);
      g_autofree char *times = hs_decimal_format_short (bands[i].times_thousandths, 3);

      g_string_append_printf (text, "%s%s x%s", i > 0 ? ", " : "", bands[i].width_cents > 0 ? width : REST, times);
    }
  return g_string_free (text, FALSE);
}

gboolean
hs_price_bands_check (const HsPriceBand *bands, gsize n_bands, GError **error)
{
  if (n_bands == 0)
    return refuse (error, "no markup band is set: write at least “rest x1”");
  for (gsize i = 0; i < n_bands; i++)
    {
      gboolean last = i + 1 == n_bands;

      if (bands[i].times_thousandths < 1)
        return refuse (error, "a markup factor must be more than 0");
      if (last && bands[i].width_cents != 0)
        return refuse (error, "the last markup band must be “rest”, or dear parts would have no price");
      if (!last && bands[i].width_cents < 1)
        return refuse (error, "only the last markup band may be “rest”, all others need a width");
    }
  return TRUE;
}

gboolean
hs_price_banded (const HsPriceBand *bands, gsize n_bands, gint64 cost_cents, gint64 *ret_price_cents, GError **error)
{
  gint64 left = cost_cents;
  gint64 thousandths = 0;

  if (!hs_price_bands_check (bands, n_bands, error))
    return FALSE;
  if (cost_cents < 0)
    return refuse (error, "a part cannot cost less than nothing: write a credit as a line of its own");
  for (gsize i = 0; i < n_bands && left > 0; i++)
    {
      gint64 here = bands[i].width_cents == 0 ? left : MIN (left, bands[i].width_cents);
      gint64 price;

      if (__builtin_mul_overflow (here, bands[i].times_thousandths, &price)
          || __builtin_add_overflow (thousandths, price, &thousandths))
        return refuse (error, "the price is too large: check the cost for a slipped digit");
      left -= here;
    }
  return hs_money_ratio (thousandths, 1, 1000, ret_price_cents, error);
}

gboolean
hs_price_labor (const HsLaborTerms *terms, gint64 minutes, gint64 *ret_cents, GError **error)
{
  gint64 over, steps, cents;

  if (minutes < 0 || terms->included_minutes < 0)
    return refuse (error, "minutes on site cannot be less than nothing: check arrival and leaving");
  if (terms->step_minutes < 1)
    return refuse (error, "labor needs a step of at least one minute: check the rates");
  over = MAX (minutes - terms->included_minutes, 0);
  steps = over / terms->step_minutes + (over % terms->step_minutes > 0);
  if (__builtin_mul_overflow (steps, terms->step_cents, &cents)
      || __builtin_add_overflow (cents, terms->call_out_cents, &cents))
    return refuse (error, "labor comes to more than can be money: check minutes and rates");
  *ret_cents = cents;
  return TRUE;
}

/* Each line's tax rounded down, and what was cut off in millionths; the shares' sum is at most the tax of the sum. */
static gboolean
floor_shares (gint64 rate_per_million, const gint64 *line_cents, gsize n_lines, gint64 *shares, gint64 *rests)
{
  for (gsize i = 0; i < n_lines; i++)
    {
      gint64 millionths;

      if (__builtin_mul_overflow (line_cents[i], rate_per_million, &millionths))
        return FALSE;
      shares[i] = millionths / HS_PER_MILLION;
      rests[i] = millionths % HS_PER_MILLION;
      if (rests[i] < 0)
        {
          shares[i]--;
          rests[i] += HS_PER_MILLION;
        }
    }
  return TRUE;
}

/* Gives @left cents to the lines that lost most by rounding down, one each. */
static void
hand_out (gint64 *shares, gint64 *rests, gsize n_lines, gint64 left)
{
  for (; left > 0; left--)
    {
      gsize neediest = 0;

      for (gsize i = 1; i < n_lines; i++)
        if (rests[i] > rests[neediest])
          neediest = i;
      shares[neediest]++;
      rests[neediest] = -1;
    }
}

gboolean
hs_price_tax (gint64 rate_per_million, const gint64 *line_cents, gsize n_lines, gint64 *ret_line_tax_cents,
              gint64 *ret_total_cents, GError **error)
{
  g_autofree gint64 *shares = g_new (gint64, n_lines + 1);
  g_autofree gint64 *rests = g_new (gint64, n_lines + 1);
  gint64 net, total, handed;

  if (rate_per_million < 0)
    return refuse (error, "a tax rate cannot be less than nothing: check the tax settings");
  if (!hs_money_sum (line_cents, n_lines, &net, error)
      || !hs_money_ratio (net, rate_per_million, HS_PER_MILLION, &total, error))
    return FALSE;
  if (!floor_shares (rate_per_million, line_cents, n_lines, shares, rests))
    return refuse (error, "a line is too large to be taxed: check it for a slipped digit");
  if (!hs_money_sum (shares, n_lines, &handed, error))
    return FALSE;
  hand_out (shares, rests, n_lines, total - handed);
  for (gsize i = 0; i < n_lines; i++)
    ret_line_tax_cents[i] = shares[i];
  if (ret_total_cents != NULL)
    *ret_total_cents = total;
  return TRUE;
}

gboolean
hs_price_card_fee (gint64 amount_cents, gint64 rate_per_million, gint64 fixed_cents, gint64 *ret_fee_cents,
                   GError **error)
{
  gint64 fee;

  if (amount_cents < 0 || rate_per_million < 0 || fixed_cents < 0)
    return refuse (error, "a card payment and its fee cannot be less than nothing");
  if (amount_cents == 0)
    {
      *ret_fee_cents = 0;
      return TRUE;
    }
  if (!hs_money_ratio (amount_cents, rate_per_million, HS_PER_MILLION, &fee, error))
    return FALSE;
  return hs_money_sum ((gint64[]) { fee, fixed_cents }, 2, ret_fee_cents, error);
}

static gint64
gain_per_mille (gint64 gain, gint64 of)
{
  gint64 result = 0;

  if (of > 0)
    hs_ratio_half_up (gain, 1000, of, &result);
  return result;
}

gint64
hs_price_margin_per_mille (gint64 cost_cents, gint64 price_cents)
{
  return gain_per_mille (price_cents - cost_cents, price_cents);
}

gint64
hs_price_markup_per_mille (gint64 cost_cents, gint64 price_cents)
{
  return gain_per_mille (price_cents - cost_cents, cost_cents);
}

gboolean
hs_price_from_margin (gint64 cost_cents, gint64 margin, gint64 *ret_price_cents, GError **error)
{
  if (margin >= HS_PERCENT_WHOLE)
    return refuse (error, "a margin is a share of the price and less than 100 %");
  return hs_money_ratio (cost_cents, HS_PERCENT_WHOLE, HS_PERCENT_WHOLE - margin, ret_price_cents, error);
}

gboolean
hs_price_from_markup (gint64 cost_cents, gint64 markup, gint64 *ret_price_cents, GError **error)
{
  return hs_money_ratio (cost_cents, HS_PERCENT_WHOLE + markup, HS_PERCENT_WHOLE, ret_price_cents, error);
}
