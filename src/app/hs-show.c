// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The app's spelling of times, money and words. Use it for everything that a page shows, so that the same fact looks
 * the same on every page. */

#include "hs-show.h"

#include <glib/gi18n.h>

#include "hs-decimal.h"
#include "hs-money.h"
#include "hs-travel-say.h"
#include "hs-verdict.h"

static char *
show_day_by (HsDate day, const char *format)
{
  g_autoptr (GDateTime) date = NULL;
  int year, month, day_of_month;

  if (day == HS_DATE_NONE)
    return g_strdup ("");
  hs_date_to_ymd (day, &year, &month, &day_of_month);
  date = g_date_time_new_utc (year, month, day_of_month, 0, 0, 0);
  return date != NULL ? g_date_time_format (date, format) : g_strdup ("");
}

char *
hs_show_clock (HsLedger *ledger, HsInstant instant)
{
  int seconds;

  if (instant == HS_INSTANT_NONE)
    return g_strdup ("");
  hs_instant_to_local (hs_ledger_get_zone (ledger), instant, NULL, &seconds);
  return hs_clock_format (seconds / 60);
}

char *
hs_show_window (HsLedger *ledger, HsInstant from, HsInstant to)
{
  g_autofree char *start = hs_show_clock (ledger, from);
  g_autofree char *end = hs_show_clock (ledger, to);

  if (*start == '\0' && *end == '\0')
    return g_strdup ("");
  /* Translators: a window that has only one end. */
  if (*end == '\0')
    return g_strdup_printf (_("after %s"), start);
  /* Translators: a window that has only one end. */
  if (*start == '\0')
    return g_strdup_printf (_("by %s"), end);
  return g_strdup_printf ("%s–%s", start, end);
}

char *
hs_show_day (HsDate day)
{
  /* Translators: month and day, by the letters of g_date_time_format(). */
  /* xgettext:no-c-format */
  return show_day_by (day, _("%b %-d"));
}

char *
hs_show_weekday (HsDate day)
{
  /* xgettext:no-c-format */
  return show_day_by (day, _("%a, %b %-d"));
}

char *
hs_show_full_day (HsDate day)
{
  /* Translators: a full date, by the letters of g_date_time_format(). */
  /* xgettext:no-c-format */
  return show_day_by (day, _("%A, %B %-d, %Y"));
}

char *
hs_show_day_of (HsLedger *ledger, HsInstant instant)
{
  HsDate day;

  if (instant == HS_INSTANT_NONE)
    return g_strdup ("");
  hs_instant_to_local (hs_ledger_get_zone (ledger), instant, &day, NULL);
  return day == hs_ledger_get_today (ledger) ? g_strdup (_("today")) : hs_show_day (day);
}

char *
hs_show_money (HsLedger *ledger, gint64 cents)
{
  return hs_money_format_grouped (cents, hs_ledger_get_currency (ledger));
}

char *
hs_show_miles (gint64 millimiles)
{
  return hs_decimal_format ((millimiles + 50) / 100, 1);
}

char *
hs_show_minutes (gint64 seconds)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT, (seconds + 30) / 60);
}

char *
hs_show_drive_source (const HsTravelLeg *leg)
{
  const HsTongue tongue = { gettext, ngettext };

  return hs_travel_leg_say (leg, &tongue);
}

char *
hs_show_span (gint64 seconds)
{
  int minutes = (int) ((seconds + 30) / 60);

  if (minutes < 60)
    /* Translators: a span of time in minutes. */
    return g_strdup_printf (_("%d min"), minutes);
  if (minutes % 60 == 0)
    /* Translators: a span of time in hours. */
    return g_strdup_printf (_("%d h"), minutes / 60);
  /* Translators: a span of time in hours and minutes. */
  return g_strdup_printf (_("%d h %d min"), minutes / 60, minutes % 60);
}

char *
hs_show_age (gint64 seconds)
{
  g_autofree char *span = NULL;

  if (seconds < 60)
    return g_strdup (_("just now"));
  if (seconds >= 2 * HS_SECONDS_PER_DAY)
    return g_strdup_printf (ngettext ("%d day ago", "%d days ago", (gulong) (seconds / HS_SECONDS_PER_DAY)),
                            (int) (seconds / HS_SECONDS_PER_DAY));
  span = hs_show_span (seconds / 60 * 60);
  /* Translators: how long ago; %s is a span such as "6 min". */
  return g_strdup_printf (_("%s ago"), span);
}

char *
hs_show_months (int months)
{
  return months >= 0 ? g_strdup_printf (ngettext ("%d month", "%d months", (gulong) months), months) : g_strdup ("");
}

const char *
hs_show_word (HsWords words, const char *id)
{
  return id != NULL ? hs_words_label (words, id) : "";
}

const char *
hs_show_data (const char *words)
{
  return words != NULL && *words != '\0' ? _(words) : words;
}

char *
hs_show_sentences (const char *words)
{
  g_auto (GStrv) parts = g_strsplit (words != NULL ? words : "", ". ", -1);
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      /* Only the last keeps its own full stop in the split. */
      g_autofree char *sentence = parts[i + 1] != NULL ? g_strconcat (parts[i], ".", NULL) : g_strdup (parts[i]);

      g_string_append_printf (all, "%s%s", i > 0 ? " " : "", hs_show_data (sentence));
    }
  return g_string_free (g_steal_pointer (&all), FALSE);
}

const char *
hs_show_verdict (const char *word)
{
  static const char *const plain[] = { NC_ ("verdict", "within"), NC_ ("verdict", "watch"), NC_ ("verdict", "outside"),
                                       NC_ ("verdict", "depends"), NC_ ("verdict", "cannot tell") };

  for (guint i = 0; word != NULL && i < G_N_ELEMENTS (plain); i++)
    if (g_str_equal (word, plain[i]))
      return g_dpgettext2 (NULL, "verdict", word);
  return hs_show_data (word);
}

char *
hs_show_quoted (const char *words)
{
  if (words == NULL || *words == '\0')
    return g_strdup ("");
  return g_strdup_printf ("“%s”", words);
}

char *
hs_show_joined (const char *first, ...)
{
  GString *joined = g_string_new (first);
  va_list arguments;
  const char *next;

  va_start (arguments, first);
  while ((next = va_arg (arguments, const char *)) != NULL)
    {
      if (*next == '\0')
        continue;
      if (joined->len > 0)
        g_string_append (joined, " · ");
      g_string_append (joined, next);
    }
  va_end (arguments);
  return g_string_free (joined, FALSE);
}

HsVerdictShape
hs_show_verdict_shape (const char *verdict, const char *word)
{
  HsVerdict parsed;

  if (g_strcmp0 (word, HS_DO_NOT_DRIVE_WORD) == 0)
    return HS_VERDICT_SHAPE_DOUBLE;
  if (verdict == NULL || !hs_verdict_parse (verdict, &parsed, NULL))
    return HS_VERDICT_SHAPE_PLAIN;
  switch (parsed)
    {
    case HS_VERDICT_WATCH:
      return HS_VERDICT_SHAPE_THIN;
    case HS_VERDICT_OUTSIDE:
      return HS_VERDICT_SHAPE_HEAVY;
    case HS_VERDICT_CANNOT_TELL:
      return HS_VERDICT_SHAPE_DASHED;
    case HS_VERDICT_DEPENDS:
      return HS_VERDICT_SHAPE_DOTTED;
    case HS_VERDICT_WITHIN:
    default:
      return HS_VERDICT_SHAPE_PLAIN;
    }
}

char *
hs_show_battery (const HsBatteryFact *fact)
{
  g_autofree char *ah = NULL, *months = NULL;

  g_return_val_if_fail (fact != NULL, NULL);

  ah = fact->ah > 0 ? g_strdup_printf (_("%g Ah"), fact->ah) : g_strdup ("");
  months = hs_show_months (fact->age_months);
  return hs_show_joined (ah, hs_show_word (HS_WORDS_BATTERY_KIND, fact->kind), months, NULL);
}
