// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The causes of one complaint, their repairs and the checks that tell them apart, as numbers that were looked at once
 * when they came in. Refuses what is not a chance, not a time, or there twice; knows nothing of what was seen. */

#include "hs-cause-model.h"

#include "hs-core-error.h"

#include <math.h>
#include <string.h>

/* A row of chances typed with six decimals sums to 1 within this. */
#define ROW_HAIR 1e-6
/* A year: a repair or check of longer is a slipped digit. */
#define MOST_MINUTES (366 * 24 * 60)

typedef struct
{
  char *id;
  double minutes;
  char **results;
  guint n_results;
  double *chances;
} Check;

struct HsCauseModel
{
  HsCause causes[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n_causes;
  Check checks[HS_CAUSE_MODEL_MAX_CHECKS];
  guint n_checks;
};

static gboolean
is_minutes (double minutes)
{
  return isfinite (minutes) && minutes >= 0 && minutes <= MOST_MINUTES;
}

static gboolean
cause_is_fit (const HsCause *causes, guint cause, GError **error)
{
  const HsCause *one = &causes[cause];

  if (one->id == NULL || *one->id == '\0')
    return hs_core_bad_value (error, "causes[%u].id: a cause needs a name", cause);
  for (guint i = 0; i < cause; i++)
    if (g_str_equal (causes[i].id, one->id))
      return hs_core_bad_value (error, "causes[%u].id: “%s” is there twice", cause, one->id);
  if (!isfinite (one->weight) || one->weight <= 0)
    return hs_core_bad_value (error, "causes[%u].prior: “%s” needs a weight above 0", cause, one->id);
  if (!is_minutes (one->repair_minutes))
    return hs_core_bad_value (error, "repairs.%s: the minutes must be a number from 0 to %d", one->id, MOST_MINUTES);
  return TRUE;
}

HsCauseModel *
hs_cause_model_new (const HsCause *causes, guint n_causes, GError **error)
{
  HsCauseModel *self;

  if (n_causes < 1 || n_causes > HS_CAUSE_MODEL_MAX_CAUSES)
    {
      hs_core_bad_value (error, "causes: there must be 1 to %d that can be present, not %u",
                         HS_CAUSE_MODEL_MAX_CAUSES, n_causes);
      return NULL;
    }
  for (guint i = 0; i < n_causes; i++)
    if (!cause_is_fit (causes, i, error))
      return NULL;
  self = g_new0 (HsCauseModel, 1);
  self->n_causes = n_causes;
  for (guint i = 0; i < n_causes; i++)
    {
      self->causes[i] = causes[i];
      self->causes[i].id = g_strdup (causes[i].id);
    }
  return self;
}

void
hs_cause_model_free (HsCauseModel *self)
{
  if (self == NULL)
    return;
  for (guint i = 0; i < self->n_causes; i++)
    g_free ((char *) self->causes[i].id);
  for (guint i = 0; i < self->n_checks; i++)
    {
      g_free (self->checks[i].id);
      g_strfreev (self->checks[i].results);
      g_free (self->checks[i].chances);
    }
  g_free (self);
}

static gboolean
row_is_fit (const HsCauseModel *self, guint cause, guint n_results, const double *row, GError **error)
{
  double sum = 0;

  for (guint result = 0; result < n_results; result++)
    {
      if (!(row[result] >= 0 && row[result] <= 1))
        return hs_core_bad_value (error, "checks[%u].p.%s[%u]: a chance is a number from 0 to 1",
                                  self->n_checks, self->causes[cause].id, result);
      sum += row[result];
    }
  if (fabs (sum - 1) > ROW_HAIR)
    return hs_core_bad_value (error, "checks[%u].p.%s: the chances of one cause must sum to 1", self->n_checks,
                              self->causes[cause].id);
  return TRUE;
}

static gboolean
results_are_fit (guint check, const char *const *results, GError **error)
{
  guint n_results = g_strv_length ((char **) results);

  if (n_results < 2 || n_results > HS_CAUSE_MODEL_MAX_RESULTS)
    return hs_core_bad_value (error, "checks[%u].results: a check has 2 to %d, not %u", check,
                              HS_CAUSE_MODEL_MAX_RESULTS, n_results);
  for (guint i = 0; i < n_results; i++)
    for (guint j = 0; j < i; j++)
      if (g_str_equal (results[i], results[j]))
        return hs_core_bad_value (error, "checks[%u].results[%u]: “%s” is there twice", check, i, results[i]);
  return TRUE;
}

static gboolean
check_is_fit (const HsCauseModel *self, const char *id, double minutes, GError **error)
{
  if (self->n_checks == HS_CAUSE_MODEL_MAX_CHECKS)
    return hs_core_bad_value (error, "checks: there can be at most %d", HS_CAUSE_MODEL_MAX_CHECKS);
  if (id == NULL || *id == '\0')
    return hs_core_bad_value (error, "checks[%u].id: a check needs a name", self->n_checks);
  for (guint i = 0; i < self->n_checks; i++)
    if (g_str_equal (self->checks[i].id, id))
      return hs_core_bad_value (error, "checks[%u].id: “%s” is there twice", self->n_checks, id);
  if (!is_minutes (minutes))
    return hs_core_bad_value (error, "checks[%u].minutes: must be a number from 0 to %d", self->n_checks,
                              MOST_MINUTES);
  return TRUE;
}

/* level_rows: makes each row sum to 1, so that what it misses by is nobody's chance and saves nobody's minutes. */
static void
level_rows (double *chances, guint n_rows, guint n_results)
{
  for (guint row = 0; row < n_rows; row++)
    {
      double sum = 0;

      for (guint result = 0; result < n_results; result++)
        sum += chances[row * n_results + result];
      for (guint result = 0; result < n_results; result++)
        chances[row * n_results + result] /= sum;
    }
}

gboolean
hs_cause_model_add_check (HsCauseModel *self,
                          const char *id,
                          double minutes,
                          const char *const *results,
                          const double *chances,
                          GError **error)
{
  guint n_results;
  Check *check;

  if (!check_is_fit (self, id, minutes, error) || !results_are_fit (self->n_checks, results, error))
    return FALSE;
  n_results = g_strv_length ((char **) results);
  for (guint cause = 0; cause < self->n_causes; cause++)
    if (!row_is_fit (self, cause, n_results, chances + cause * n_results, error))
      return FALSE;
  check = &self->checks[self->n_checks++];
  check->id = g_strdup (id);
  check->minutes = minutes;
  check->results = g_strdupv ((char **) results);
  check->n_results = n_results;
  check->chances = g_memdup2 (chances, sizeof *chances * n_results * self->n_causes);
  level_rows (check->chances, self->n_causes, n_results);
  return TRUE;
}

HsCauseModel *
hs_cause_model_reweigh (const HsCauseModel *self, const double *weights, GError **error)
{
  HsCause causes[HS_CAUSE_MODEL_MAX_CAUSES];
  HsCauseModel *copy;

  for (guint i = 0; i < self->n_causes; i++)
    causes[i] = (HsCause) { self->causes[i].id, weights[i], self->causes[i].repair_minutes };
  copy = hs_cause_model_new (causes, self->n_causes, error);
  for (guint i = 0; copy != NULL && i < self->n_checks; i++)
    hs_cause_model_add_check (copy, self->checks[i].id, self->checks[i].minutes,
                              (const char *const *) self->checks[i].results, self->checks[i].chances, NULL);
  return copy;
}

guint
hs_cause_model_get_n_causes (const HsCauseModel *self)
{
  return self->n_causes;
}

guint
hs_cause_model_get_n_checks (const HsCauseModel *self)
{
  return self->n_checks;
}

const HsCause *
hs_cause_model_get_cause (const HsCauseModel *self, guint cause)
{
  return &self->causes[cause];
}

const char *
hs_cause_model_get_check_id (const HsCauseModel *self, guint check)
{
  return self->checks[check].id;
}

double
hs_cause_model_get_check_minutes (const HsCauseModel *self, guint check)
{
  return self->checks[check].minutes;
}

guint
hs_cause_model_get_n_results (const HsCauseModel *self, guint check)
{
  return self->checks[check].n_results;
}

const char *
hs_cause_model_get_result (const HsCauseModel *self, guint check, guint result)
{
  return self->checks[check].results[result];
}

const double *
hs_cause_model_get_chances (const HsCauseModel *self, guint check)
{
  return self->checks[check].chances;
}
