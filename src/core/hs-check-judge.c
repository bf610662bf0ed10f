// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a reading means for this vehicle and this moment: verdict, one sentence, limit, source and what to do next.
 * The vehicle's own limits outrank the catalog. Says "cannot tell" where a condition is missing rather than guess. */

#include "hs-check-private.h"
#include "hs-decimal.h"

#define USUAL_USABLE_PERCENT 40
/* Places that a share has more than its limits when it is judged: 74.96 % is below 75.0 %. */
#define FINER_SHARE 6
/* Behind the source of a limit that the owner's file has changed or added. */
#define CHANGED " (from checks.ini)"
#define NO_SOURCE "nobody: nothing was judged"

void
hs_judgment_clear (HsJudgment *judgment)
{
  g_clear_pointer (&judgment->word, g_free);
  g_clear_pointer (&judgment->figure, g_free);
  g_clear_pointer (&judgment->why, g_free);
  g_clear_pointer (&judgment->limit, g_free);
  g_clear_pointer (&judgment->source, g_free);
  g_clear_pointer (&judgment->tag, g_free);
  g_clear_pointer (&judgment->next, g_free);
  g_clear_pointer (&judgment->then, g_strfreev);
}

static void
fill (HsJudgment *judgment, HsVerdict verdict, const char *word, const char *why, const char *next)
{
  judgment->verdict = verdict;
  judgment->word = g_strdup (word != NULL ? word : hs_verdict_word (verdict));
  judgment->why = g_strdup (why);
  judgment->next = g_strdup (next != NULL ? next : "");
}

static void
fill_source (HsJudgment *judgment, const char *limit, const char *source, const char *tag)
{
  judgment->limit = g_strdup (limit);
  judgment->source = g_strdup (source);
  judgment->tag = g_strdup (tag);
  judgment->whose = HS_LIMIT_CATALOG;
}

static void
fill_cannot_tell (HsJudgment *judgment, const char *why, const char *next)
{
  fill (judgment, HS_VERDICT_CANNOT_TELL, NULL, why, next);
  fill_source (judgment, "", NO_SOURCE, "");
}

/* The first limit in the file's order whose conditions all hold. */
static const HsLimit *
find_limit (const HsCheckRecord *record, const HsConditions *conditions)
{
  for (guint i = 0; i < record->limits->len; i++)
    {
      const HsLimit *limit = g_ptr_array_index (record->limits, i);

      if (hs_when_holds (limit->when, conditions))
        return limit;
    }
  return NULL;
}

static const HsLimitStep *
nth_step (const HsLimit *limit, guint nth)
{
  return &g_array_index (limit->steps, HsLimitStep, nth);
}

/* The table as printed steps (the row at or below the temperature), or the straight line between its rows. */
static gint64
table_value (const HsLimit *limit, int celsius, gboolean straight_line)
{
  guint row = limit->steps->len - 1;
  gint64 more = 0;

  while (row > 0 && nth_step (limit, row)->celsius > celsius)
    row--;
  if (straight_line && row + 1 < limit->steps->len && celsius > nth_step (limit, row)->celsius)
    hs_ratio_half_up (celsius - nth_step (limit, row)->celsius,
                      nth_step (limit, row + 1)->value - nth_step (limit, row)->value,
                      nth_step (limit, row + 1)->celsius - nth_step (limit, row)->celsius, &more);
  return nth_step (limit, row)->value + more;
}

static gint64
cut_value (const HsLimit *limit, guint nth, const HsConditions *conditions)
{
  const HsLimitCut *cut = &g_array_index (limit->cuts, HsLimitCut, nth);

  return cut->kind == HS_CUT_VALUE ? cut->value
                                   : table_value (limit, conditions->celsius, cut->kind == HS_CUT_LINE);
}

static const HsLimitBand *
nth_band (const HsLimit *limit, guint nth)
{
  return &g_array_index (limit->bands, HsLimitBand, nth);
}

/* Which stretch of the scale @value lies in; on a cut, the better of both sides. @finer: places that the value has
 * more than the cuts. */
static guint
band_of (const HsLimit *limit, gint64 value, guint finer, const HsConditions *conditions)
{
  gint64 power = hs_decimal_power (finer);
  guint band = 0;

  for (guint i = 0; i < limit->cuts->len; i++)
    {
      gint64 cut = cut_value (limit, i, conditions) * power;
      HsVerdict above = nth_band (limit, i + 1)->verdict;

      if (value > cut || (value == cut && hs_verdict_better (nth_band (limit, band)->verdict, above) == above))
        band = i + 1;
    }
  return band;
}

/* Places of the reading's number. */
static guint
reading_decimals (const HsCheckRecord *record, const HsReading *reading)
{
  return record->shown.decimals + reading->finer;
}

/* Where the value lies on the scale of the limits, a share with @finer places more than they have; FALSE if what it is
 * a share of is not known. */
static gboolean
scaled_value (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading, guint finer,
              gint64 *ret_value)
{
  gint64 power = hs_decimal_power (reading_decimals (record, reading));
  gint64 whole = 1000 * hs_decimal_power (finer);

  switch (record->by)
    {
    case HS_CHECK_BY_RATED_CCA:
      return conditions->rated_cca > 0 && conditions->rated_cca <= G_MAXINT32
             && hs_ratio_half_up (reading->value, whole, conditions->rated_cca * power, ret_value);
    case HS_CHECK_BY_SHARE:
      return hs_ratio_half_up (reading->value, whole, reading->of, ret_value);
    case HS_CHECK_BY_LOSS:
      *ret_value = reading->of - reading->value;
      return TRUE;
    case HS_CHECK_BY_VALUE:
    default:
      *ret_value = reading->value;
      return TRUE;
    }
}

static char *
figure_charge (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading)
{
  HsBatteryCharge charge;
  gint64 millivolts;

  if (!hs_ratio_half_up (reading->value, 1000, hs_decimal_power (reading_decimals (record, reading)), &millivolts))
    return NULL;
  charge = hs_battery_charge (conditions->battery_kind, millivolts);
  return hs_battery_charge_text (&charge);
}

static char *
figure_days (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading)
{
  gint64 usable = conditions->usable_percent > 0 ? conditions->usable_percent : USUAL_USABLE_PERCENT;
  gint64 milliamps, tenths;
  g_autofree char *days = NULL;

  if (!hs_ratio_half_up (reading->value, 1000, hs_decimal_power (reading_decimals (record, reading)), &milliamps)
      || !hs_battery_days_to_no_start (conditions->capacity_milliamp_hours, usable, milliamps, &tenths))
    return NULL;
  days = hs_decimal_format (tenths, 1);
  return g_strdup_printf ("%s days to no-start", days);
}

/* "44 % of rated CCA (560 A)", "67.8 % of 90 A": a share says of what. */
static char *
figure_percent (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading)
{
  gint64 per_mille;
  g_autofree char *percent = NULL;
  g_autofree char *whole = NULL;

  if (!scaled_value (record, conditions, reading, 0, &per_mille))
    return NULL;
  percent = hs_decimal_format_short (per_mille, HS_CHECK_PERCENT_DECIMALS);
  if (record->by == HS_CHECK_BY_RATED_CCA)
    return g_strdup_printf ("%s %% of rated CCA (%" G_GINT64_FORMAT " A)", percent, conditions->rated_cca);
  if (record->by != HS_CHECK_BY_SHARE)
    return g_strdup_printf ("%s %%", percent);
  whole = hs_decimal_format_short (reading->of, reading_decimals (record, reading));
  return g_strdup_printf ("%s %% of %s %s", percent, whole, record->shown.unit);
}

static char *
figure_for (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading, HsVerdict verdict)
{
  g_autofree char *lost = NULL;

  switch (record->figure)
    {
    case HS_CHECK_FIGURE_CHARGE:
      /* Volts that cannot be judged say nothing about the charge either. */
      return verdict == HS_VERDICT_CANNOT_TELL ? NULL : figure_charge (record, conditions, reading);
    case HS_CHECK_FIGURE_DAYS:
      return figure_days (record, conditions, reading);
    case HS_CHECK_FIGURE_PERCENT:
      return figure_percent (record, conditions, reading);
    case HS_CHECK_FIGURE_LOSS:
      lost = hs_decimal_format (reading->of - reading->value, reading_decimals (record, reading));
      return g_strdup_printf ("%s %s lost", lost, record->shown.unit);
    case HS_CHECK_FIGURE_NONE:
    default:
      return NULL;
    }
}

/* The answers of a choice that are within. */
static char *
answers_text (const HsCheckRecord *record, const HsLimit *limit)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < limit->bands->len; i++)
    if (nth_band (limit, i)->verdict == HS_VERDICT_WITHIN)
      g_string_append_printf (text, "%s%s", text->len == 0 ? "" : " or ", record->shown.answers[i]);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* The stretch that is within, in words, however many bands it has; empty if no stretch is. */
static char *
limit_text (const HsCheckRecord *record, const HsLimit *limit, const HsConditions *conditions)
{
  const char *unit = hs_check_is_in_unit (record->by) ? record->shown.unit : "%";

  if (limit->limit != NULL)
    return g_strdup (limit->limit);
  if (record->shown.entry == HS_CHECK_CHOICE)
    return answers_text (record, limit);
  for (guint first = 0; first < limit->bands->len; first++)
    {
      guint last = first;
      gint64 low, high;

      if (nth_band (limit, first)->verdict != HS_VERDICT_WITHIN)
        continue;
      while (last + 1 < limit->bands->len && nth_band (limit, last + 1)->verdict == HS_VERDICT_WITHIN)
        last++;
      low = first > 0 ? cut_value (limit, first - 1, conditions) : 0;
      high = last < limit->cuts->len ? cut_value (limit, last, conditions) : 0;
      return hs_range_text (unit, hs_check_scale_decimals (record), first > 0 ? &low : NULL,
                            last < limit->cuts->len ? &high : NULL);
    }
  return g_strdup ("");
}

const HsLimitBand *
hs_limit_band (const HsLimit *limit, const HsCheckRecord *record, const HsConditions *conditions,
               const HsReading *reading)
{
  guint finer = hs_check_is_in_unit (record->by) ? reading->finer : FINER_SHARE;
  gint64 value;

  if (!scaled_value (record, conditions, reading, finer, &value))
    return NULL;
  if (record->shown.entry == HS_CHECK_CHOICE)
    return nth_band (limit, (guint) (value / hs_decimal_power (finer)) - 1);
  return nth_band (limit, band_of (limit, value, finer, conditions));
}

/* The band that a reading lies in; NULL if no limit holds or the value it is a share of is not known. */
static const HsLimitBand *
find_band (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading,
           const HsLimit **ret_limit)
{
  *ret_limit = find_limit (record, conditions);
  return *ret_limit == NULL ? NULL : hs_limit_band (*ret_limit, record, conditions, reading);
}

static HsVerdict
catalog_verdict (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading)
{
  const HsLimit *limit;
  const HsLimitBand *band = find_band (record, conditions, reading, &limit);

  return band == NULL ? HS_VERDICT_CANNOT_TELL : band->verdict;
}

static void
judge_by_catalog (const HsCheckRecord *record, const HsConditions *conditions, const HsReading *reading,
                  HsJudgment *judgment)
{
  const HsLimit *limit;
  const HsLimitBand *band = find_band (record, conditions, reading, &limit);
  g_autofree char *text = NULL;
  g_autofree char *source = NULL;

  if (limit == NULL && !hs_check_has_number (&record->shown))
    {
      fill_cannot_tell (judgment, "It is written down; there is nothing to judge it by.", NULL);
      return;
    }
  if (limit == NULL)
    {
      fill_cannot_tell (judgment, "The list of checks has no limit for these conditions.",
                        "Give the vehicle a limit of its own, with where it comes from.");
      return;
    }
  if (band == NULL)
    {
      fill_cannot_tell (judgment, "It is judged against the battery's rating, and that is not known.",
                        "Read the CCA on the battery's label and write it down with the vehicle.");
      return;
    }
  text = limit_text (record, limit, conditions);
  fill (judgment, band->verdict, band->word, band->why, band->next);
  source = limit->changed ? g_strconcat (limit->source, CHANGED, NULL) : NULL;
  fill_source (judgment, text, source != NULL ? source : limit->source, limit->tag);
  judgment->then = g_strdupv (band->then);
  judgment->do_not_drive = band->do_not_drive;
}

/* A test that is not valid now says nothing by the vehicle's own limits either. */
static gboolean
own_limits_count (const HsCheckRecord *record, const HsConditions *conditions, const HsOwnLimits *own)
{
  const HsLimit *limit;

  if (!hs_own_limits_say_something (own) || !hs_check_has_number (&record->shown))
    return FALSE;
  limit = find_limit (record, conditions);
  return limit == NULL || !limit->invalid;
}

static void
judge_by_own (const HsCheck *check, const HsOwnLimits *own, const HsReading *reading, HsJudgment *judgment)
{
  g_autofree char *text = hs_own_limits_text (check, own);
  int side = hs_own_limits_side (own, reading);
  const char *next = side < 0 ? "Find out why it is low." : side > 0 ? "Find out why it is high." : NULL;

  fill (judgment, side == 0 ? HS_VERDICT_WITHIN : HS_VERDICT_OUTSIDE, NULL, hs_own_limits_why (own, side), next);
  fill_source (judgment, text, own->source, hs_limit_whose_word (own->whose));
  judgment->whose = own->whose;
}

void
hs_check_judge (HsChecks *checks, const HsCheck *check, const HsConditions *conditions, const HsOwnLimits *own,
                const HsReading *reading, HsJudgment *ret_judgment)
{
  const HsCheckRecord *record = hs_check_record (checks, check);

  *ret_judgment = (HsJudgment) { 0 };
  g_return_if_fail (record != NULL);
  if (reading->kind == HS_READING_NOT_MEASURED)
    {
      fill_cannot_tell (ret_judgment, "It could not be measured.", "Say why, or measure it once it can be.");
      return;
    }
  if (reading->kind == HS_READING_OVER_RANGE)
    {
      fill (ret_judgment, record->over_range, "over range",
            record->over_range_why != NULL ? record->over_range_why : "The meter shows more than it can measure.",
            record->over_range_next != NULL ? record->over_range_next : "Check the range, the leads and the contact.");
      fill_source (ret_judgment, "", "the meter", "");
      return;
    }
  if (own_limits_count (record, conditions, own))
    judge_by_own (check, own, reading, ret_judgment);
  else
    judge_by_catalog (record, conditions, reading, ret_judgment);
  ret_judgment->figure = figure_for (record, conditions, reading, ret_judgment->verdict);
}

HsVerdict
hs_check_verdict (HsChecks *checks, const HsCheck *check, const HsConditions *conditions, const HsOwnLimits *own,
                  const HsReading *reading)
{
  const HsCheckRecord *record = hs_check_record (checks, check);

  g_return_val_if_fail (record != NULL, HS_VERDICT_CANNOT_TELL);
  if (reading->kind == HS_READING_NOT_MEASURED)
    return HS_VERDICT_CANNOT_TELL;
  if (reading->kind == HS_READING_OVER_RANGE)
    return record->over_range;
  if (own_limits_count (record, conditions, own))
    return hs_own_limits_side (own, reading) == 0 ? HS_VERDICT_WITHIN : HS_VERDICT_OUTSIDE;
  return catalog_verdict (record, conditions, reading);
}

/* A cut in the unit of the check; FALSE where the scale is a share of something unknown. */
static gboolean
cut_in_unit (const HsCheckRecord *record, const HsConditions *conditions, gint64 cut, gint64 *ret_value)
{
  switch (record->by)
    {
    case HS_CHECK_BY_RATED_CCA:
      return conditions->rated_cca > 0 && conditions->rated_cca <= G_MAXINT32
             && hs_ratio_half_up (cut, conditions->rated_cca * hs_decimal_power (record->shown.decimals), 1000,
                                  ret_value);
    case HS_CHECK_BY_SHARE:
    case HS_CHECK_BY_LOSS:
      return FALSE;
    case HS_CHECK_BY_VALUE:
    default:
      *ret_value = cut;
      return TRUE;
    }
}

static void
append_band (GArray *bands, HsVerdict verdict, gint64 low, gint64 high)
{
  HsCheckBand band = { verdict, low, high };

  g_array_append_val (bands, band);
}

static void
append_own (GArray *bands, const HsOwnLimits *own)
{
  gint64 low = own->has_low ? own->low : G_MININT64;
  gint64 high = own->has_high ? own->high : G_MAXINT64;

  if (own->has_low)
    append_band (bands, HS_VERDICT_OUTSIDE, G_MININT64, low);
  append_band (bands, HS_VERDICT_WITHIN, low, high);
  if (own->has_high)
    append_band (bands, HS_VERDICT_OUTSIDE, high, G_MAXINT64);
}

GArray *
hs_check_dup_bands (HsChecks *checks, const HsCheck *check, const HsConditions *conditions, const HsOwnLimits *own)
{
  const HsCheckRecord *record = hs_check_record (checks, check);
  const HsLimit *limit = find_limit (record, conditions);
  GArray *bands = g_array_new (FALSE, FALSE, sizeof (HsCheckBand));
  gint64 low = G_MININT64;

  if (!hs_check_has_number (check))
    return bands;
  if (own_limits_count (record, conditions, own))
    {
      append_own (bands, own);
      return bands;
    }
  for (guint i = 0; limit != NULL && i < limit->bands->len; i++)
    {
      gint64 high = G_MAXINT64;

      if (i < limit->cuts->len && !cut_in_unit (record, conditions, cut_value (limit, i, conditions), &high))
        {
          g_array_set_size (bands, 0);
          return bands;
        }
      append_band (bands, nth_band (limit, i)->verdict, low, high);
      low = high;
    }
  return bands;
}

GArray *
hs_check_dup_makers (HsChecks *checks, const HsCheck *check, const HsConditions *conditions)
{
  const HsCheckRecord *record = hs_check_record (checks, check);
  const HsLimit *limit = find_limit (record, conditions);

  if (limit == NULL)
    return g_array_new (FALSE, FALSE, sizeof (gint64));
  return g_array_copy (limit->makers);
}
