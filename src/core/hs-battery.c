// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a 12 V battery's volts and amps say: charge, strength, days until it no longer starts. For findings and for
 * the sentence to a caller. Gives no figure where the tables give none. */

#include "hs-battery.h"

#include "hs-decimal.h"
#include "hs-text.h"
#include "hs-words.h"

#include <math.h>

typedef struct
{
  gint64 millivolts;
  int per_mille;
} ChargeRow;

/* Battery-maker table at 80 °F (26.7 °C); its density column stands in US Army TM 5-3820-256-24-4 Table 2. */
static const ChargeRow flooded_rows[] = {
  { 11890, 0 }, { 12060, 250 }, { 12240, 500 }, { 12450, 750 }, { 12650, 1000 },
};

/* A vehicle maker's table of bands, read at their lower ends; below its first row it gives a band and no figure. */
static const ChargeRow agm_rows[] = { { 12000, 250 }, { 12300, 500 }, { 12600, 750 }, { 12800, 1000 } };

/* US Army TM 5-3805-262-20 p. 5-142: a coarse table beside the battery maker's. */
static const ChargeRow army_rows[] = {
  { 11700, 0 }, { 12000, 250 }, { 12200, 500 }, { 12400, 750 }, { 12600, 1000 },
};

/* Full AGM batteries rest anywhere between 12.8 and 13.2 V. */
#define AGM_FULL_UP_TO_MILLIVOLTS 13200
#define FLAT_PER_MILLE 250
#define HOURS_A_DAY 24

const char *
hs_battery_kind_id (HsBatteryKind kind)
{
  g_return_val_if_fail (kind < HS_N_BATTERY_KINDS, NULL);
  return hs_words_get (HS_WORDS_BATTERY_KIND, NULL)[kind].id;
}

const char *
hs_battery_kind_label (HsBatteryKind kind)
{
  g_return_val_if_fail (kind < HS_N_BATTERY_KINDS, NULL);
  return hs_words_get (HS_WORDS_BATTERY_KIND, NULL)[kind].label;
}

gboolean
hs_battery_kind_parse (const char *text, HsBatteryKind *ret_kind, GError **error)
{
  int index;

  if (!hs_words_parse_index (HS_WORDS_BATTERY_KIND, text, &index, error))
    return FALSE;
  *ret_kind = (HsBatteryKind) index;
  return TRUE;
}

/* Straight line between rows; the first and last row hold beyond them. */
static int
interpolate (const ChargeRow *rows, gsize n_rows, gint64 millivolts)
{
  gint64 share = 0;
  gsize i = 1;

  if (millivolts <= rows[0].millivolts)
    return rows[0].per_mille;
  if (millivolts >= rows[n_rows - 1].millivolts)
    return rows[n_rows - 1].per_mille;
  while (millivolts > rows[i].millivolts)
    i++;
  hs_ratio_half_up (millivolts - rows[i - 1].millivolts, rows[i].per_mille - rows[i - 1].per_mille,
                    rows[i].millivolts - rows[i - 1].millivolts, &share);
  return rows[i - 1].per_mille + (int) share;
}

HsBatteryCharge
hs_battery_charge (HsBatteryKind kind, gint64 millivolts)
{
  HsBatteryCharge charge = { 0 };

  switch (kind)
    {
    case HS_BATTERY_FLOODED:
    case HS_BATTERY_EFB:
      charge.known = TRUE;
      charge.per_mille = interpolate (flooded_rows, G_N_ELEMENTS (flooded_rows), millivolts);
      charge.as_flooded = kind == HS_BATTERY_EFB;
      charge.over_full = millivolts > flooded_rows[G_N_ELEMENTS (flooded_rows) - 1].millivolts;
      break;
    case HS_BATTERY_AGM:
      charge.known = millivolts >= agm_rows[0].millivolts;
      charge.at_most = !charge.known;
      charge.per_mille = interpolate (agm_rows, G_N_ELEMENTS (agm_rows), millivolts);
      charge.over_full = millivolts > AGM_FULL_UP_TO_MILLIVOLTS;
      break;
    case HS_BATTERY_LITHIUM:
    case HS_BATTERY_UNKNOWN:
    default:
      break;
    }
  return charge;
}

/* Unrounded, straight line between rows, clamped to the first and the last. */
static double
percent_of (const ChargeRow *rows, gsize n_rows, double volts)
{
  gsize last = n_rows - 1;
  double millivolts = CLAMP (volts * 1000, (double) rows[0].millivolts, (double) rows[last].millivolts);
  gsize i = 1;

  while (i < last && millivolts > (double) rows[i].millivolts)
    i++;
  return (rows[i - 1].per_mille
          + (rows[i].per_mille - rows[i - 1].per_mille) * (millivolts - (double) rows[i - 1].millivolts)
              / (double) (rows[i].millivolts - rows[i - 1].millivolts)) / 10;
}

gboolean
hs_battery_charge_percent (HsBatteryKind kind, double volts, double *ret_percent)
{
  if (!hs_battery_charge (kind, (gint64) floor (volts * 1000 + 1e-6)).known)
    return FALSE;
  *ret_percent = kind == HS_BATTERY_AGM ? percent_of (agm_rows, G_N_ELEMENTS (agm_rows), volts)
                                        : percent_of (flooded_rows, G_N_ELEMENTS (flooded_rows), volts);
  return TRUE;
}

double
hs_battery_army_percent (double volts)
{
  return percent_of (army_rows, G_N_ELEMENTS (army_rows), volts);
}

char *
hs_battery_charge_text (const HsBatteryCharge *charge)
{
  gint64 percent = 0;

  hs_ratio_half_up (charge->per_mille, 1, 10, &percent);
  if (charge->at_most)
    return g_strdup_printf ("at most %d %%", (int) percent);
  return charge->known ? g_strdup_printf ("%d %%", (int) percent) : NULL;
}

gboolean
hs_battery_days_to_no_start (gint64 capacity_milliamp_hours, gint64 usable_percent, gint64 draw_milliamps,
                             gint64 *ret_tenths_of_days)
{
  gint64 divisor;

  if (capacity_milliamp_hours <= 0 || usable_percent <= 0 || draw_milliamps <= 0)
    return FALSE;
  /* mAh × % / 100 is what may go, ÷ mA hours, ÷ 24 days, × 10 tenths. */
  if (__builtin_mul_overflow (draw_milliamps, (gint64) (HOURS_A_DAY * 100 / 10), &divisor))
    return FALSE;
  return hs_ratio_half_up (capacity_milliamp_hours, usable_percent, divisor, ret_tenths_of_days);
}

gint64
hs_battery_strength_per_mille (gint64 measured_cca, gint64 rated_cca)
{
  gint64 per_mille = -1;

  if (measured_cca >= 0 && rated_cca > 0)
    hs_ratio_half_up (measured_cca, 1000, rated_cca, &per_mille);
  return per_mille;
}

gboolean
hs_battery_may_be_frozen (const HsBatteryCharge *charge, int celsius)
{
  gboolean flat = charge->at_most || (charge->known && charge->per_mille <= FLAT_PER_MILLE);

  return flat && celsius <= HS_BATTERY_FREEZES_CELSIUS;
}

/* What is sold under the battery's name and is none. */
static const char *const beside_battery[] = {
  "acid",   "bolt",   "bolts",    "box",      "bracket",  "cable",    "cables", "case",     "charger",   "clamp",
  "clamps", "cover",  "fuse",     "ground",   "heater",   "hold",     "holder", "isolator", "lead",      "leads",
  "light",  "mat",    "monitor",  "negative", "positive", "post",     "posts",  "relay",    "sensor",    "strap",
  "straps", "switch", "terminal", "terminals", "tester",  "tray",     "vent",   NULL,
};

gboolean
hs_battery_is_named (const char *part)
{
  g_auto (GStrv) words = hs_text_words (part);

  for (guint i = 0; words[i] != NULL; i++)
    if (g_str_equal (words[i], "battery"))
      return words[i + 1] == NULL || !g_strv_contains (beside_battery, words[i + 1]);
  return FALSE;
}
