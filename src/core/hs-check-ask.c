// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a check has to ask about: which conditions its limits rest on, and which of them could still change what a
 * reading means. For asking only those. Refuses an order of asking that names what no limit rests on. */

#include "hs-check-private.h"
#include "hs-core-error.h"

static gboolean
rests_on (const HsCheckRecord *record, HsConditionKey key)
{
  if (key == HS_CONDITION_RATED_CCA && record->by == HS_CHECK_BY_RATED_CCA)
    return TRUE;
  for (guint i = 0; i < record->limits->len; i++)
    {
      const HsLimit *limit = g_ptr_array_index (record->limits, i);

      for (guint j = 0; j < limit->when->len; j++)
        if (g_array_index (limit->when, HsWhen, j).key == key)
          return TRUE;
    }
  return FALSE;
}

static gboolean
refuse (const HsCheckRecord *record, const char *id, GError **error)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "[check %s] “asks”: “%s” is not a condition that one of its limits rests on", record->shown.id, id);
  return FALSE;
}

static void
add_key (GArray *keys, HsConditionKey key)
{
  for (guint i = 0; i < keys->len; i++)
    if (g_array_index (keys, HsConditionKey, i) == key)
      return;
  g_array_append_val (keys, key);
}

static gboolean
add_named (const HsCheckRecord *record, const char *asks, GArray *keys, GError **error)
{
  g_auto (GStrv) ids = g_strsplit (asks, ";", -1);

  for (guint i = 0; ids[i] != NULL; i++)
    {
      const HsCondition *condition = hs_condition_lookup (g_strstrip (ids[i]));

      if (*ids[i] == '\0')
        continue;
      if (condition == NULL || !rests_on (record, condition->key))
        return refuse (record, ids[i], error);
      add_key (keys, condition->key);
    }
  return TRUE;
}

gboolean
hs_check_fill_asks (HsCheckRecord *record, const char *asks, GError **error)
{
  g_autoptr (GArray) keys = g_array_new (FALSE, FALSE, sizeof (HsConditionKey));

  if (asks != NULL && !add_named (record, asks, keys, error))
    return FALSE;
  for (int i = 0; i < HS_N_CONDITIONS; i++)
    if (rests_on (record, (HsConditionKey) i))
      add_key (keys, (HsConditionKey) i);
  record->shown.n_asks = keys->len;
  record->shown.asks = (const HsConditionKey *) (gpointer) g_array_free (g_steal_pointer (&keys), FALSE);
  return TRUE;
}

/* Whether the limit would say something else than @verdict about the reading, at any temperature of its table. */
static gboolean
says_otherwise (const HsCheckRecord *record, const HsLimit *limit, const HsConditions *conditions,
                const HsReading *reading, HsVerdict verdict)
{
  HsConditions at = *conditions;
  const HsLimitBand *band;

  for (guint i = 0; i < limit->steps->len && !conditions->has_temperature; i++)
    {
      at.celsius = (int) g_array_index (limit->steps, HsLimitStep, i).celsius;
      band = hs_limit_band (limit, record, &at, reading);
      if (band == NULL || band->verdict != verdict)
        return TRUE;
    }
  if (limit->steps->len > 0 && !conditions->has_temperature)
    return FALSE;
  band = hs_limit_band (limit, record, conditions, reading);
  return band == NULL || band->verdict != verdict;
}

/* Adds what the limit still wants to know. Returns TRUE if it applies for certain, so that none behind it can. */
static gboolean
add_open (const HsLimit *limit, const HsConditions *conditions, gboolean counts, gboolean *wanted)
{
  gboolean certain = TRUE;

  for (guint i = 0; i < limit->when->len; i++)
    if (hs_when_state (&g_array_index (limit->when, HsWhen, i), conditions) == HS_WHEN_FAILS)
      return FALSE;
  for (guint i = 0; i < limit->when->len; i++)
    {
      const HsWhen *when = &g_array_index (limit->when, HsWhen, i);

      if (hs_when_state (when, conditions) == HS_WHEN_HOLDS)
        continue;
      certain = FALSE;
      wanted[when->key] = wanted[when->key] || counts;
    }
  return certain;
}

static void
find_wanted (const HsCheckRecord *record, HsChecks *checks, const HsConditions *conditions, const HsOwnLimits *own,
             const HsReading *reading, gboolean *wanted)
{
  HsVerdict verdict = HS_VERDICT_CANNOT_TELL;
  gboolean has_own = hs_own_limits_say_something (own);
  gint64 rating;

  if (reading != NULL)
    verdict = hs_check_verdict (checks, &record->shown, conditions, own, reading);
  wanted[HS_CONDITION_RATED_CCA] = !has_own && record->by == HS_CHECK_BY_RATED_CCA
                                   && !hs_conditions_read (conditions, HS_CONDITION_RATED_CCA, &rating);
  for (guint i = 0; i < record->limits->len; i++)
    {
      const HsLimit *limit = g_ptr_array_index (record->limits, i);
      /* Against the vehicle's own limits the catalog only says whether the test is valid. */
      gboolean counts = reading == NULL || says_otherwise (record, limit, conditions, reading, verdict);

      counts = counts && (!has_own || limit->invalid);
      if (add_open (limit, conditions, counts, wanted))
        return;
    }
}

GPtrArray *
hs_check_dup_wanted (HsChecks *checks, const HsCheck *check, const HsConditions *conditions, const HsOwnLimits *own,
                     const HsReading *reading)
{
  const HsCheckRecord *record = hs_check_record (checks, check);
  GPtrArray *list = g_ptr_array_new ();
  gboolean wanted[HS_N_CONDITIONS] = { FALSE };

  g_return_val_if_fail (record != NULL, list);
  if (reading != NULL && reading->kind != HS_READING_VALUE)
    return list;
  find_wanted (record, checks, conditions, own, reading, wanted);
  for (guint i = 0; i < check->n_asks; i++)
    if (wanted[check->asks[i]])
      g_ptr_array_add (list, (gpointer) hs_condition_get (check->asks[i]));
  return list;
}
