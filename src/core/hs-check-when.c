// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Conditions under which a limit of the catalog applies: read from `when=`, asked when a reading is judged. What
 * nobody asked about matches only `unknown`, so that a limit never rests on a guess. */

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-decimal.h"

#define UNKNOWN "unknown"

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

/* `10..27`, `..9` or `10..`. */
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
  const HsCondition *condition = hs_condition_get (when->key);
  int index;

  if (g_str_equal (answer, UNKNOWN))
    {
      when->unknown = TRUE;
      return TRUE;
    }
  switch (condition->entry)
    {
    case HS_CONDITION_NUMBER:
      return range_parse (answer, condition->decimals, when, error);
    case HS_CONDITION_YES_NO:
      if (!g_str_equal (answer, "yes") && !g_str_equal (answer, "no"))
        return refuse (error, answer);
      when->mask |= 1u << (g_str_equal (answer, "yes") ? HS_YES : HS_NO);
      return TRUE;
    case HS_CONDITION_WORD:
    default:
      if (!hs_words_parse_index (condition->words, answer, &index, error))
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
  const HsCondition *condition;

  if (g_strv_length (sides) != 2)
    return refuse (error, text);
  condition = hs_condition_lookup (g_strstrip (sides[0]));
  if (condition == NULL || !g_str_equal (condition->id, sides[0]))
    return refuse (error, text);
  when.key = condition->key;
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


HsWhenState
hs_when_state (const HsWhen *when, const HsConditions *conditions)
{
  gint64 value;
  gboolean holds;

  if (!hs_conditions_read (conditions, when->key, &value))
    return when->unknown ? HS_WHEN_HOLDS_UNKNOWN : HS_WHEN_OPEN;
  if (hs_condition_get (when->key)->entry == HS_CONDITION_NUMBER)
    holds = value >= when->low && value <= when->high;
  else
    holds = (when->mask & (1u << value)) != 0;
  return holds ? HS_WHEN_HOLDS : HS_WHEN_FAILS;
}

gboolean
hs_when_holds (const GArray *when, const HsConditions *conditions)
{
  for (guint i = 0; i < when->len; i++)
    {
      HsWhenState state = hs_when_state (&g_array_index (when, HsWhen, i), conditions);

      if (state != HS_WHEN_HOLDS && state != HS_WHEN_HOLDS_UNKNOWN)
        return FALSE;
    }
  return TRUE;
}
