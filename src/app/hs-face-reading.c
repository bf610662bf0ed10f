// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A reading as its line shows it, and a check's limits as the gauge draws them: which part of the scale is worth
 * showing, and what is written on it. */

#include <string.h>

#include "hs-decimal.h"
#include "hs-face.h"
#include "hs-show.h"

char *
hs_face_dup_bare_value (const HsReadingResult *result)
{
  g_autofree char *tail = g_strconcat (" ", result->unit != NULL ? result->unit : "", NULL);

  if (result->value_text != NULL && result->has_value && g_str_has_suffix (result->value_text, tail))
    return g_strndup (result->value_text, strlen (result->value_text) - strlen (tail));
  return g_strdup (result->value_text);
}

/* That it is best done next; where it was taken; why it could not be; or how it is taken. */
static const char *
hint_of (const HsReadingResult *result, const HsCheck *check, const char *best)
{
  if (best != NULL)
    return best;
  if (result->place != NULL)
    return result->place;
  if (result->why_not != NULL)
    return result->why_not;
  return check != NULL ? hs_show_data (check->hint) : NULL;
}

void
hs_face_reading (HsReadingLine *line, guint number, const HsReadingResult *result, const HsCheck *check,
                 gboolean chosen, const char *best)
{
  g_autofree char *value = hs_face_dup_bare_value (result);
  HsReadingFace face = {
    .number = number,
    .name = hs_show_data (result->name),
    .hint = hint_of (result, check, best),
    .value = hs_show_data (value),
    .words = result->answer != NULL,
    .unit = result->value_text == NULL || result->has_value ? result->unit : NULL,
    .verdict = result->value_text != NULL ? hs_show_verdict (result->word) : NULL,
    .shape = hs_show_verdict_shape (result->verdict, result->word),
    .chosen = chosen,
  };

  hs_reading_line_set_face (line, &face);
}

/* What the book knows about the battery of this vehicle, as far as limits ask for it. */
static HsConditions
conditions_of (const HsJobShot *shot)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  const HsBatteryFact *battery = shot != NULL ? shot->battery : NULL;

  if (battery == NULL)
    return conditions;
  if (battery->kind != NULL)
    hs_battery_kind_parse (battery->kind, &conditions.battery_kind, NULL);
  conditions.rated_cca = (gint64) battery->cca;
  conditions.capacity_milliamp_hours = (gint64) (battery->ah * 1000);
  return conditions;
}

static double
unscaled (const HsCheck *check, gint64 value)
{
  return (double) value / (double) hs_decimal_power (check->decimals);
}

static HsGaugeBand
band_of (HsVerdict verdict)
{
  switch (verdict)
    {
    case HS_VERDICT_WITHIN:
      return HS_GAUGE_BAND_WITHIN;
    case HS_VERDICT_WATCH:
      return HS_GAUGE_BAND_WATCH;
    case HS_VERDICT_OUTSIDE:
      return HS_GAUGE_BAND_OUTSIDE;
    case HS_VERDICT_CANNOT_TELL:
    case HS_VERDICT_DEPENDS:
    default:
      return HS_GAUGE_BAND_NOT_JUDGED;
    }
}

static void
add_tick (HsGauge *gauge, const HsCheck *check, gint64 value)
{
  g_autofree char *text = hs_decimal_format_short (value, check->decimals);

  hs_gauge_add_tick (gauge, unscaled (check, value), text);
}

static void
add_bands (HsGauge *gauge, const HsCheck *check, GArray *bands, double from, double to)
{
  for (guint i = 0; i < bands->len; i++)
    {
      const HsCheckBand *band = &g_array_index (bands, HsCheckBand, i);
      double end = band->high == G_MAXINT64 ? to : unscaled (check, band->high);

      if (end <= from)
        continue;
      hs_gauge_add_band (gauge, band_of (band->verdict), MIN (end, to),
                         hs_show_verdict (hs_verdict_word (band->verdict)));
      if (band->high != G_MAXINT64 && end < to)
        add_tick (gauge, check, band->high);
    }
}

static void
add_makers (HsGauge *gauge, HsLedger *ledger, const HsCheck *check, const HsConditions *conditions)
{
  g_autoptr (GArray) makers = hs_check_dup_makers (hs_ledger_get_checks (ledger), check, conditions);

  for (guint i = 0; i < makers->len; i++)
    hs_gauge_add_maker (gauge, unscaled (check, g_array_index (makers, gint64, i)));
}

/* The same check in another phase, for the hollow needle. */
static void
set_before (HsGauge *gauge, const HsJobShot *shot, const HsReadingResult *shown)
{
  for (guint i = 0; shown != NULL && g_strcmp0 (shown->phase, "after") == 0 && i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *before = g_ptr_array_index (shot->sheets[0], i);

      if (g_strcmp0 (before->check, shown->check) == 0 && before->has_value)
        hs_gauge_set_before (gauge, TRUE, before->value);
    }
}

void
hs_face_gauge (HsGauge *gauge, HsLedger *ledger, const HsJobShot *shot, const HsCheck *check,
               const HsReadingResult *shown, const char *told)
{
  HsConditions conditions = conditions_of (shot);
  const HsOwnLimit *own = shot != NULL && check != NULL ? hs_own_limit_find (shot->limits, check->id) : NULL;
  g_autoptr (GArray) bands = NULL;
  double from = 0, to = 1;
  gboolean known = shown != NULL && shown->has_value;
  g_autofree char *say = NULL;

  if (told != NULL)
    hs_conditions_put_what_can (told, &conditions);
  if (check != NULL && check->entry == HS_CHECK_NUMBER)
    bands = hs_check_dup_bands (hs_ledger_get_checks (ledger), check, &conditions, own != NULL ? &own->limits : NULL);
  if (bands == NULL || bands->len == 0
      || !hs_check_get_scale (check, bands, known ? &shown->value : NULL, &from, &to))
    {
      gtk_widget_set_visible (GTK_WIDGET (gauge), FALSE);
      return;
    }
  gtk_widget_set_visible (GTK_WIDGET (gauge), TRUE);
  hs_gauge_set_scale (gauge, from, to, check->log_scale && from > 0);
  add_bands (gauge, check, bands, from, to);
  add_makers (gauge, ledger, check, &conditions);
  say = known ? g_strdup_printf ("%s, %s", shown->value_text, shown->word != NULL ? shown->word : "") : NULL;
  hs_gauge_set_needle (gauge, known, known ? shown->value : from, say);
  set_before (gauge, shot, shown);
}
