// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Conditions under which a limit of the catalog applies: read from `when=`, asked when a reading is judged. What
 * nobody asked about matches only `unknown`, so that a limit never rests on a guess. */

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-decimal.h"
#include "hs-words.h"

#define UNKNOWN "unknown"
#define REST_DECIMALS 3

typedef enum
{
  ASKS_WORD,
  ASKS_YES_NO,
  ASKS_RANGE,
} Asks;

static const struct
{
  const char *name;
  Asks asks;
  HsWords words;
  guint decimals;
} keys[HS_N_WHEN_KEYS] = {
  [HS_WHEN_BATTERY_KIND] = { "battery_kind", ASKS_WORD, HS_WORDS_BATTERY_KIND, 0 },
  [HS_WHEN_FUEL] = { "fuel", ASKS_WORD, HS_WORDS_FUEL, 0 },
  [HS_WHEN_TEMPERATURE] = { "temperature", ASKS_RANGE, 0, 0 },
  [HS_WHEN_REST] = { "rest", ASKS_RANGE, 0, REST_DECIMALS },
  [HS_WHEN_JUST_CHARGED] = { "just_charged", ASKS_YES_NO, 0, 0 },
  [HS_WHEN_FULL_CHARGE] = { "full_charge", ASKS_YES_NO, 0, 0 },
  [HS_WHEN_SMART_CHARGING] = { "smart_charging", ASKS_YES_NO, 0, 0 },
  [HS_WHEN_LOADED] = { "loaded", ASKS_YES_NO, 0, 0 },
  [HS_WHEN_PLACE] = { "place", ASKS_WORD, HS_WORDS_DROP_PLACE, 0 },
};

static gboolean
refuse (GError **error, const char *text)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "“%s” is not a condition: write what is asked, a colon and the answer, like battery_kind:AGM, "
               "temperature:10..27 or loaded:no", text);
  return FALSE;
}

static gboolean
range_end_parse (const char *text, guint decimals, gint64 open_end, gint64 *ret_end, GError **error)
{
  if (*text != '\0')
    return hs_decimal_parse (text, decimals, ret_end, error);
  *ret_end = open_end;
  return TRUE;
}

static gboolean
range_parse (const char *text, guint decimals, HsWhen *when, GError **error)
{
  g_auto (GStrv) ends = g_strsplit (text, "..", 2);

  if (g_strv_length (ends) != 2)
    return refuse (error, text);
  return range_end_parse (ends[0], decimals, G_MININT64, &when->low, error)
         && range_end_parse (ends[1], decimals, G_MAXINT64, &when->high, error);
}

static gboolean
answer_parse (const char *answer, HsWhen *when, GError **error)
{
  int index;

  if (g_str_equal (answer, UNKNOWN) && when->key != HS_WHEN_BATTERY_KIND)
    {
      when->unknown = TRUE;
      return TRUE;
    }
  switch (keys[when->key].asks)
    {
    case ASKS_RANGE:
      return range_parse (answer, keys[when->key].decimals, when, error);
    case ASKS_YES_NO:
      if (!g_str_equal (answer, "yes") && !g_str_equal (answer, "no"))
        return refuse (error, answer);
      when->mask |= 1u << (g_str_equal (answer, "yes") ? HS_YES : HS_NO);
      return TRUE;
    case ASKS_WORD:
    default:
      if (!hs_words_parse_index (keys[when->key].words, answer, &index, error))
        return FALSE;
      when->mask |= 1u << index;
      return TRUE;
    }
}

static gboolean
when_parse_one (const char *text, HsWhen *ret_when, GError **error)
{
  g_auto (GStrv) sides = g_strsplit (text, ":", 2);
  g_auto (GStrv) answers = NULL;
  /* An empty range: a number that is known matches only once a range was read. */
  HsWhen when = { .low = 1, .high = 0 };
  gsize key = 0;

  if (g_strv_length (sides) != 2)
    return refuse (error, text);
  while (key < G_N_ELEMENTS (keys) && !g_str_equal (keys[key].name, g_strstrip (sides[0])))
    key++;
  if (key == G_N_ELEMENTS (keys))
    return refuse (error, text);
  when.key = (HsWhenKey) key;
  answers = g_strsplit (sides[1], ",", -1);
  for (guint i = 0; answers[i] != NULL; i++)
    if (!answer_parse (g_strstrip (answers[i]), &when, error))
      return FALSE;
  *ret_when = when;
  return TRUE;
}

GArray *
hs_when_parse (const char *text, GError **error)
{
  g_autoptr (GArray) whens = g_array_new (FALSE, FALSE, sizeof (HsWhen));
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      HsWhen when;

      if (*g_strstrip (parts[i]) == '\0')
        continue;
      if (!when_parse_one (parts[i], &when, error))
        return NULL;
      g_array_append_val (whens, when);
    }
  return g_steal_pointer (&whens);
}

static gboolean
number_holds (const HsWhen *when, gboolean known, gint64 number)
{
  return known ? number >= when->low && number <= when->high : when->unknown;
}

static gboolean
known_holds (const HsWhen *when, HsKnown known)
{
  return known == HS_NOT_KNOWN ? when->unknown : (when->mask & (1u << known)) != 0;
}

static gboolean
word_holds (const HsWhen *when, const char *word)
{
  int index = hs_words_index (keys[when->key].words, word);

  return index < 0 ? when->unknown : (when->mask & (1u << index)) != 0;
}

static gboolean
one_holds (const HsWhen *when, const HsConditions *conditions)
{

  switch (when->key)
    {
    case HS_WHEN_BATTERY_KIND:
      return (when->mask & (1u << conditions->battery_kind)) != 0;
    case HS_WHEN_FUEL:
      return word_holds (when, conditions->fuel);
    case HS_WHEN_PLACE:
      return word_holds (when, conditions->place);
    case HS_WHEN_TEMPERATURE:
      return number_holds (when, conditions->has_temperature, conditions->celsius);
    case HS_WHEN_REST:
      return number_holds (when, conditions->has_rest, conditions->rest_millivolts);
    case HS_WHEN_JUST_CHARGED:
      return known_holds (when, conditions->just_charged);
    case HS_WHEN_FULL_CHARGE:
      return known_holds (when, conditions->full_charge);
    case HS_WHEN_SMART_CHARGING:
      return known_holds (when, conditions->smart_charging);
    case HS_WHEN_LOADED:
      return known_holds (when, conditions->loaded);
    default:
      return FALSE;
    }
}

gboolean
hs_when_holds (const GArray *when, const HsConditions *conditions)
{
  for (guint i = 0; i < when->len; i++)
    if (!one_holds (&g_array_index (when, HsWhen, i), conditions))
      return FALSE;
  return TRUE;
}
