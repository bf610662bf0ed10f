// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-next-check.h"

/* The names of @n results, 1 to 4 of them. */
static inline const char *const *
policy_trial_results (guint n)
{
  static const char *const names[] = { "r1", "r2", "r3", "r4", NULL };

  return names + G_N_ELEMENTS (names) - 1 - n;
}

/* The best policy of a cause model by trying everything: the recursion as it is printed, on beliefs that sum to 1, each
 * state once and nothing cut short. Shares no code with what it checks. */
typedef struct
{
  const HsCauseModel *model;
  guint64 without;    /* a bit for each check that can't be had */
  GHashTable *values; /* text of ruled-out causes and results → double */
} PolicyTrial;

static inline void
policy_trial_init (PolicyTrial *self, const HsCauseModel *model)
{
  self->model = model;
  self->without = 0;
  self->values = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
}

static inline void
policy_trial_clear (PolicyTrial *self)
{
  g_hash_table_unref (self->values);
}

/* policy_trial_beliefs: Returns: the chance of all that is in @seen, with @ret_beliefs summing to 1. */
static inline double
policy_trial_beliefs (const PolicyTrial *self, const HsSeen *seen, double *ret_beliefs)
{
  guint n = hs_cause_model_get_n_causes (self->model);
  double sum = 0;

  for (guint i = 0; i < n; i++)
    {
      ret_beliefs[i] = seen->ruled_out >> i & 1 ? 0 : hs_cause_model_get_cause (self->model, i)->weight;
      for (guint k = 0; k < hs_cause_model_get_n_checks (self->model); k++)
        {
          guint row = i * hs_cause_model_get_n_results (self->model, k);

          if (seen->results[k] > 0)
            ret_beliefs[i] *= hs_cause_model_get_chances (self->model, k)[row + seen->results[k] - 1];
        }
      sum += ret_beliefs[i];
    }
  for (guint i = 0; i < n && sum > 0; i++)
    ret_beliefs[i] /= sum;
  return sum;
}

static double policy_trial_value (PolicyTrial *self, const HsSeen *seen);

static inline double
policy_trial_repair (PolicyTrial *self, const HsSeen *seen, guint cause)
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  double minutes = hs_cause_model_get_cause (self->model, cause)->repair_minutes;
  HsSeen next = *seen;

  policy_trial_beliefs (self, seen, beliefs);
  next.ruled_out |= 1u << cause;
  if (policy_trial_beliefs (self, &next, (double[HS_CAUSE_MODEL_MAX_CAUSES]) { 0 }) <= 0)
    return minutes;
  return minutes + (1 - beliefs[cause]) * policy_trial_value (self, &next);
}

static inline double
policy_trial_check (PolicyTrial *self, const HsSeen *seen, guint check)
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  double minutes = hs_cause_model_get_check_minutes (self->model, check);
  double sum = policy_trial_beliefs (self, seen, beliefs);
  HsSeen next = *seen;

  for (guint r = 0; r < hs_cause_model_get_n_results (self->model, check); r++)
    {
      double chance;

      next.results[check] = r + 1;
      chance = policy_trial_beliefs (self, &next, beliefs) / sum;
      if (chance > 0)
        minutes += chance * policy_trial_value (self, &next);
    }
  return minutes;
}

static inline double
policy_trial_value (PolicyTrial *self, const HsSeen *seen)
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  double best = G_MAXDOUBLE;
  GString *key = g_string_new (NULL);
  double *known;

  policy_trial_beliefs (self, seen, beliefs);
  for (guint i = 0; i < hs_cause_model_get_n_causes (self->model); i++)
    g_string_append_c (key, beliefs[i] > 0 ? '+' : '-');
  for (guint k = 0; k < hs_cause_model_get_n_checks (self->model); k++)
    g_string_append_printf (key, ",%u", seen->results[k]);
  known = g_hash_table_lookup (self->values, key->str);
  if (known == NULL)
    {
      for (guint i = 0; i < hs_cause_model_get_n_causes (self->model); i++)
        if (beliefs[i] > 0)
          best = MIN (best, policy_trial_repair (self, seen, i));
      for (guint k = 0; k < hs_cause_model_get_n_checks (self->model); k++)
        if (seen->results[k] == 0 && (self->without >> k & 1) == 0)
          best = MIN (best, policy_trial_check (self, seen, k));
      known = g_memdup2 (&best, sizeof best);
      g_hash_table_insert (self->values, g_strdup (key->str), known);
    }
  g_string_free (key, TRUE);
  return *known;
}

/* policy_trial_model: (transfer full): a random model; about half its chances are 0 or 1 if @sharp. */
static inline HsCauseModel *
policy_trial_model (GRand *rand, guint n_causes, guint n_checks, gboolean sharp)
{
  HsCause causes[HS_CAUSE_MODEL_MAX_CAUSES];
  g_auto (GStrv) ids = g_new0 (char *, n_causes + 1);
  HsCauseModel *model;

  for (guint i = 0; i < n_causes; i++)
    {
      ids[i] = g_strdup_printf ("c%u", i);
      causes[i] = (HsCause) { ids[i], g_rand_double_range (rand, 0.01, 1), g_rand_int_range (rand, 0, 120) };
    }
  model = hs_cause_model_new (causes, n_causes, NULL);
  for (guint k = 0; k < n_checks; k++)
    {
      guint n_results = g_rand_int_range (rand, 2, 4);
      g_autofree double *chances = g_new0 (double, n_causes * n_results);
      g_autofree char *id = g_strdup_printf ("k%u", k);

      for (guint i = 0; i < n_causes; i++)
        {
          double *row = chances + i * n_results;
          double sum = 0;

          if (sharp && g_rand_boolean (rand))
            {
              row[g_rand_int_range (rand, 0, n_results)] = 1;
              continue;
            }
          for (guint r = 0; r < n_results; r++)
            sum += row[r] = g_rand_double_range (rand, 0.001, 1);
          for (guint r = 0; r < n_results; r++)
            row[r] /= sum;
        }
      hs_cause_model_add_check (model, id, g_rand_int_range (rand, 0, 30), policy_trial_results (n_results),
                                chances, NULL);
    }
  return model;
}
