// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An answer to "parked how long", read as days and held against the draw and the battery. For what the customer is
 * asked again. Never calls an answer wrong: it fits, it does not fit, or it cannot be told. */

#include "hs-parked.h"

#include "hs-decimal.h"
#include "hs-drain.h"

#include <math.h>
#include <string.h>

#define HOURS_A_DAY 24.0
/* No answer means more than this; longer numbers are plates and phone numbers. */
#define MOST_COUNT 9999
/* Beyond this the sum says no more than "years". */
#define MOST_DAYS 9999.0

/* What a unit is in days, and how far one count of it may be off. */
static const struct
{
  const char *word;
  double days;
  double give;
} units[] = {
  { "minute", 1 / HOURS_A_DAY / 60, 0.5 / HOURS_A_DAY / 60 },
  { "min", 1 / HOURS_A_DAY / 60, 0.5 / HOURS_A_DAY / 60 },
  { "hour", 1 / HOURS_A_DAY, 0.5 / HOURS_A_DAY },
  { "hr", 1 / HOURS_A_DAY, 0.5 / HOURS_A_DAY },
  { "h", 1 / HOURS_A_DAY, 0.5 / HOURS_A_DAY },
  { "day", 1, 0.5 },
  { "d", 1, 0.5 },
  { "night", 1, 0.5 },
  { "week", 7, 1 },
  { "wk", 7, 1 },
  { "fortnight", 14, 1 },
  { "month", 30, 5 },
  { "year", 365, 30 },
};

/* Words that are a time by themselves. */
static const struct
{
  const char *word;
  HsParked parked;
} times[] = {
  { "overnight", { 0.5, 0.2 } },
  { "weekend", { 2.5, 0.5 } },
  { "fortnight", { 14, 1 } },
};

static const char *const counts[]
    = { "", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve" };

/* drop_empty: (transfer full) @words: Returns: (transfer full) */
static char **
drop_empty (char **words)
{
  guint n = 0;

  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0')
      words[n++] = words[i];
    else
      g_free (words[i]);
  words[n] = NULL;
  return words;
}

/* One word of an answer, in lower case, without what stands around it; "16h" and "10-14" come apart. */
static char **
split (const char *text)
{
  g_autoptr (GString) spaced = g_string_new (NULL);
  char before = ' ';

  for (const char *at = text; *at != '\0'; at++)
    {
      char here = g_ascii_tolower (*at);
      gboolean point = here == '.' && g_ascii_isdigit (before) && g_ascii_isdigit (at[1]);
      gboolean digit = g_ascii_isdigit (here) || point;
      gboolean was_digit = g_ascii_isdigit (before) || before == '.';

      if (!digit && !g_ascii_isalpha (here) && here != '-')
        here = ' ';
      if (here == '-' || digit != was_digit)
        g_string_append_c (spaced, ' ');
      g_string_append_c (spaced, here);
      if (here == '-')
        g_string_append_c (spaced, ' ');
      before = here;
    }
  return drop_empty (g_strsplit (spaced->str, " ", -1));
}

static gboolean
count_read (const char *word, double *ret_count)
{
  gint64 thousandths;

  if (g_ascii_isdigit (*word) && hs_decimal_parse (word, 3, &thousandths, NULL))
    {
      *ret_count = (double) thousandths / 1000;
      return *ret_count <= MOST_COUNT;
    }
  for (guint i = 1; i < G_N_ELEMENTS (counts); i++)
    if (g_str_equal (word, counts[i]))
      {
        *ret_count = i;
        return TRUE;
      }
  if (g_str_equal (word, "a") || g_str_equal (word, "an"))
    *ret_count = 1;
  else if (g_str_equal (word, "couple"))
    *ret_count = 2;
  else if (g_str_equal (word, "half"))
    *ret_count = 0.5;
  else
    return FALSE;
  return TRUE;
}

static int
find_unit (const char *word)
{
  gsize length = strlen (word);

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      gsize own = strlen (units[i].word);

      if (strncmp (word, units[i].word, own) == 0
          && (length == own || (own > 1 && length == own + 1 && word[own] == 's')))
        return (int) i;
    }
  return -1;
}

/* Numbers wait here until their unit comes. */
typedef struct
{
  double low;
  double high;
  guint n_counts;
  gboolean range;
  gboolean more;
} Pending;

static void
take_count (Pending *pending, double count, const char *word)
{
  gboolean plain = pending->n_counts > 0 && !pending->range;

  /* "half a day", "a couple of days": "a" beside another count says nothing. */
  if (plain && (g_str_equal (word, "a") || g_str_equal (word, "an")))
    return;
  /* "two and a half weeks" */
  if (plain && pending->more && g_str_equal (word, "half"))
    {
      pending->low += count;
      pending->high += count;
      return;
    }
  if (!pending->range || pending->n_counts == 0)
    pending->low = count;
  pending->high = count;
  pending->range = pending->more = FALSE;
  pending->n_counts++;
}

/* "a few days" */
static void
take_few (Pending *pending)
{
  pending->low = 2;
  pending->high = 4;
  pending->range = pending->more = FALSE;
  pending->n_counts++;
}

static gboolean
is_range (const char *word)
{
  return g_str_equal (word, "to") || g_str_equal (word, "or") || g_str_equal (word, "-");
}

/* "a day or two": what stands behind the unit, up to @words. */
static void
take_behind (Pending *pending, char **words)
{
  double count;

  if (words[0] == NULL || !is_range (words[0]) || words[1] == NULL || !count_read (words[1], &count)
      || (words[2] != NULL && find_unit (words[2]) >= 0))
    return;
  pending->high = count;
}

static HsParked
parked_of (const Pending *pending, int unit)
{
  double days = units[unit].days * (pending->low + pending->high) / 2;
  double give = units[unit].days * fabs (pending->high - pending->low) / 2;

  return (HsParked){ days, give + units[unit].give };
}

static gboolean
time_read (const char *word, HsParked *ret_parked)
{
  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    if (g_str_equal (word, times[i].word))
      {
        *ret_parked = times[i].parked;
        return TRUE;
      }
  return FALSE;
}

gboolean
hs_parked_parse (const char *text, HsParked *ret_parked)
{
  g_auto (GStrv) words = split (text == NULL ? "" : text);
  Pending pending = { 0 };

  for (guint i = 0; words[i] != NULL; i++)
    {
      int unit = find_unit (words[i]);
      double count;

      if (unit >= 0 && pending.n_counts > 0)
        {
          take_behind (&pending, words + i + 1);
          *ret_parked = parked_of (&pending, unit);
          return TRUE;
        }
      if (time_read (words[i], ret_parked))
        return TRUE;
      if (count_read (words[i], &count))
        take_count (&pending, count, words[i]);
      else if (g_str_equal (words[i], "few"))
        take_few (&pending);
      else if (pending.n_counts > 0 && is_range (words[i]))
        pending.range = TRUE;
      else if (g_str_equal (words[i], "and"))
        pending.more = TRUE;
    }
  /* Keyed on the number pad. */
  if (g_strv_length (words) != 1 || pending.n_counts != 1 || strpbrk (text, "0123456789") == NULL)
    return FALSE;
  *ret_parked = (HsParked){ pending.low, 0.5 };
  return TRUE;
}

const char *
hs_parked_verdict_label (HsParkedVerdict verdict)
{
  static const char *const labels[] = { "fits", "does not fit", "can't tell" };

  return labels[verdict];
}

/* "3.2", "41.7", "more than 9999" */
static char *
say_days (double days)
{
  if (!(days <= MOST_DAYS))
    return g_strdup ("more than 9999");
  return hs_decimal_format ((gint64) llround (days * 10), 1);
}

/* "0.31": milliamps count. */
static char *
say_amps (double amps)
{
  return hs_decimal_format_short ((gint64) llround (amps * 1000), 3);
}

static char *
say_missing (const HsParkedCase *given)
{
  if (!(given->amps > 0))
    return g_strdup ("can't tell: no sleeping draw was measured");
  if (!(given->amp_hours > 0 && given->share > 0))
    return g_strdup ("can't tell: the battery's amp-hours are not known");
  return g_strdup ("can't tell: the answer names no time");
}

static char *
say_sum (const HsParkedCase *given, HsParkedVerdict verdict, double days)
{
  double used = given->parked->days * HOURS_A_DAY * given->amps;
  g_autofree char *amps = say_amps (given->amps);
  g_autofree char *parked = say_days (given->parked->days);
  g_autofree char *taken = say_days (used);
  g_autofree char *usable = say_days (given->amp_hours * given->share);
  g_autofree char *needed = say_days (days);

  if (verdict == HS_PARKED_FITS)
    return g_strdup_printf ("fits: %s days at %s A take %s Ah of the %s Ah that start it; they are gone after %s days",
                            parked, amps, taken, usable, needed);
  return g_strdup_printf ("does not fit: would take %s days; %s days at %s A take %s Ah of the %s Ah that start it, "
                          "unless the battery is worn or was not full", needed, parked, amps, taken, usable);
}

HsParkedResult *
hs_parked_judge (const HsParkedCase *given)
{
  HsParkedResult *result = g_new0 (HsParkedResult, 1);

  result->verdict = HS_PARKED_CANNOT_TELL;
  if (given->amps > 0 && given->amp_hours > 0 && given->share > 0)
    result->days = hs_drain_days (given->amp_hours, given->share, given->amps);
  if (given->parked == NULL || !(result->days > 0))
    {
      result->words = say_missing (given);
      return result;
    }
  result->verdict = given->parked->days + given->parked->give >= result->days ? HS_PARKED_FITS
                                                                             : HS_PARKED_DOES_NOT_FIT;
  result->words = say_sum (given, result->verdict, result->days);
  return result;
}

void
hs_parked_result_free (HsParkedResult *result)
{
  if (result == NULL)
    return;
  g_free (result->words);
  g_free (result);
}
