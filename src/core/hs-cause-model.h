// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * What may have failed, what repairs it, and which checks tell the causes apart: the model behind "which check next"
 * (hs-next-check.h). Exactly one of the causes is present and stays until its repair is done. The result of a check
 * depends on the cause alone, and checks are independent of one another given the cause. A repair is perfect, and right
 * after it is seen, free and without error, whether the complaint is gone. (The assumptions of Heckerman, Breese and
 * Rommelse 1995, Communications of the ACM 38(3), pages 51–52.)
 */

#define HS_CAUSE_MODEL_MAX_CAUSES 32
#define HS_CAUSE_MODEL_MAX_CHECKS 64
#define HS_CAUSE_MODEL_MAX_RESULTS 15

typedef struct HsCauseModel HsCauseModel;

/**
 * HsCause:
 * @id: (transfer none): unlike every other cause's
 * @weight: how often it is this one, > 0, on any scale that all causes of the model share
 * @repair_minutes: to do its repair and try the complaint again, ≥ 0
 */
typedef struct
{
  const char *id;
  double weight;
  double repair_minutes;
} HsCause;

/**
 * hs_cause_model_new:
 * @causes: (array length=n_causes): 1 to %HS_CAUSE_MODEL_MAX_CAUSES; copied. One of weight 0 can't be present and is
 *   to be left out by the caller.
 *
 * Returns: (transfer full) (nullable): the model without checks, or %NULL with an error that names the cause and field
 */
HsCauseModel *hs_cause_model_new (const HsCause *causes, guint n_causes, GError **error);
void hs_cause_model_free (HsCauseModel *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCauseModel, hs_cause_model_free)

/**
 * hs_cause_model_add_check:
 * @id: unlike every other check's
 * @minutes: to do it, whatever comes out, ≥ 0
 * @results: (array zero-terminated=1): the names of what can come out, 2 to %HS_CAUSE_MODEL_MAX_RESULTS, each once
 * @chances: (array): how likely each result is under each cause, [cause × number of results + result]; each cause's row
 *   is of numbers from 0 to 1 whose sum is 1 within one millionth
 *
 * Adds one more check, at most %HS_CAUSE_MODEL_MAX_CHECKS.
 *
 * Returns: %TRUE, or %FALSE with an error that names the check, the cause and the field; then nothing was added
 */
gboolean hs_cause_model_add_check (HsCauseModel *self,
                                   const char *id,
                                   double minutes,
                                   const char *const *results,
                                   const double *chances,
                                   GError **error);

/**
 * hs_cause_model_reweigh:
 * @weights: (array): for each cause how often it is this one, > 0, on any scale that they share
 *
 * The same model with other weights: what the owner's own jobs say, or a trial.
 *
 * Returns: (transfer full) (nullable): a copy, or %NULL with an error that names the cause
 */
HsCauseModel *hs_cause_model_reweigh (const HsCauseModel *self, const double *weights, GError **error);

guint hs_cause_model_get_n_causes (const HsCauseModel *self);
guint hs_cause_model_get_n_checks (const HsCauseModel *self);
/* (transfer none): @cause below the number of causes. */
const HsCause *hs_cause_model_get_cause (const HsCauseModel *self, guint cause);
/* (transfer none): @check below the number of checks; so for all that follow. */
const char *hs_cause_model_get_check_id (const HsCauseModel *self, guint check);
double hs_cause_model_get_check_minutes (const HsCauseModel *self, guint check);
guint hs_cause_model_get_n_results (const HsCauseModel *self, guint check);
/* hs_cause_model_get_result: (transfer none): the name of @result of @check, which is below the number of them. */
const char *hs_cause_model_get_result (const HsCauseModel *self, guint check, guint result);
/* hs_cause_model_get_chances: (transfer none) (array): of @check under each cause, [cause × results + result]. */
const double *hs_cause_model_get_chances (const HsCauseModel *self, guint check);

G_END_DECLS
