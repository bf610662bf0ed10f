// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cause-model.h"
#include "hs-check.h"

G_BEGIN_DECLS

/**
 * HsCauseGuide:
 *
 * A cause model with the words that belong to it: names, who says so, what the repair is, and which reading of which
 * check is which result. `data/causes/MODEL.md` tells the form; every word may be missing, unless
 * hs_cause_guide_check() has looked it over. Never changes once made.
 */
typedef struct HsCauseGuide HsCauseGuide;

/**
 * HsGuideCause:
 * @name: (nullable): as it is shown; its id if there is none
 * @source: (nullable): who says how often
 * @repair: (nullable): what is done about it
 * @repair_cents: what the parts cost, commonly
 * @proof_check, @proof_result: (nullable): the check of the model, and its result, that shows the cause best
 * @proof_not_alone: (nullable): why that needs the check that chooses between models as well, in a sentence
 * @proof_none: (nullable): why no check of the model shows it, in a sentence
 */
typedef struct
{
  const char *name;
  const char *source;
  const char *repair;
  gint64 repair_cents;
  const char *proof_check;
  const char *proof_result;
  const char *proof_not_alone;
  const char *proof_none;
} HsGuideCause;

/**
 * hs_cause_guide_parse:
 * @text: (array length=length): the model, UTF-8
 * @error: names the field by its path, e.g. "checks[0].from.verdicts.within: “fine” is none of the results"
 *
 * Reads a model with or without words. Fails with %HS_OPS_ERROR_REFUSED or %HS_CORE_ERROR_BAD_VALUE.
 *
 * Returns: (transfer full): the guide
 */
HsCauseGuide *hs_cause_guide_parse (const char *text, gsize length, GError **error);
void hs_cause_guide_free (HsCauseGuide *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCauseGuide, hs_cause_guide_free)

/* hs_cause_guide_get_model: (transfer none): the numbers; indexes of causes, checks and results are those of it. */
const HsCauseModel *hs_cause_guide_get_model (const HsCauseGuide *self);
/* (transfer none) (nullable): its own id, the complaint group that it is for, its name, and what to know about it. */
const char *hs_cause_guide_get_id (const HsCauseGuide *self);
const char *hs_cause_guide_get_group (const HsCauseGuide *self);
const char *hs_cause_guide_get_name (const HsCauseGuide *self);
const char *hs_cause_guide_get_note (const HsCauseGuide *self);
/* hs_cause_guide_get_cause: (transfer none) */
const HsGuideCause *hs_cause_guide_get_cause (const HsCauseGuide *self, guint cause);
/* hs_cause_guide_get_source: (transfer none) (nullable): who says what @check tells of @cause. */
const char *hs_cause_guide_get_source (const HsCauseGuide *self, guint check, guint cause);

/**
 * hs_cause_guide_get_elsewhere:
 *
 * Returns: (transfer none) (nullable): how likely each result of @check is where it is none of the causes of this
 *   model, as when another model of its group is the one; %NULL if nobody says
 */
const double *hs_cause_guide_get_elsewhere (const HsCauseGuide *self, guint check);

/**
 * hs_cause_guide_get_when:
 *
 * Of several guides for one group, each is for some answers to one check, as for a car that will not start how it
 * sounds when the key is turned.
 *
 * Returns: (transfer none) (nullable): that check's id; %NULL if the guide is for its group whatever was found
 */
const char *hs_cause_guide_get_when (const HsCauseGuide *self);
/* hs_cause_guide_is_for: whether it is for @answer, from 1, to the check of hs_cause_guide_get_when(). */
gboolean hs_cause_guide_is_for (const HsCauseGuide *self, guint answer);

/* hs_cause_guide_is_for_said: whether it is for @answer, in words, to @question of the interview. */
gboolean hs_cause_guide_is_for_said (const HsCauseGuide *self, const char *question, const char *answer);
/* hs_cause_guide_get_when_minutes: of that check; hs_cause_guide_get_share: how often of the models of its group it is
 * this one, on a scale that they share. */
double hs_cause_guide_get_when_minutes (const HsCauseGuide *self);
double hs_cause_guide_get_share (const HsCauseGuide *self);

/* hs_cause_guide_get_counts_as: how many of the owner's own jobs all its priors together stand for, > 0. */
double hs_cause_guide_get_counts_as (const HsCauseGuide *self);

/**
 * hs_cause_guide_find_said:
 * @question: id of a question of the interview
 * @answer: what somebody answered, in the words of the list
 *
 * Returns: the result of @check that the answer speaks for, plus 1; 0 if it speaks for none
 */
guint hs_cause_guide_find_said (const HsCauseGuide *self, guint check, const char *question, const char *answer);

/**
 * hs_cause_guide_find_result:
 * @check: of the model
 * @known: the same check in the catalog
 * @reading: what was read
 * @verdict: how it was judged
 *
 * Returns: which result of the model that is, plus 1 as in #HsSeen; 0 if it says nothing: not measured, not judged, or
 *   an answer that the model has no result for
 */
guint hs_cause_guide_find_result (const HsCauseGuide *self,
                                  guint check,
                                  const HsCheck *known,
                                  const HsReading *reading,
                                  HsVerdict verdict);

/**
 * hs_cause_guide_check:
 * @checks: the catalog in use
 *
 * Whether all that a mechanic is shown is there: id, group and name; a name, a source and a repair for each cause; and
 * for each check a source, a place in the catalog, and a result for whatever may be read.
 *
 * Returns: %TRUE, or %FALSE with %HS_OPS_ERROR_REFUSED naming the field
 */
gboolean hs_cause_guide_check (const HsCauseGuide *self, HsChecks *checks, GError **error);

/**
 * hs_cause_guides_parse:
 * @text: (array length=length): one model with its words, or `{"models": […]}`
 * @checks: the catalog that they are held against, as by hs_cause_guide_check()
 * @error: names the field by its path, e.g. "models[1].checks[0].from: is missing"
 *
 * Returns: (transfer full) (element-type HsCauseGuide): all of them, or %NULL if one is not understood
 */
GPtrArray *hs_cause_guides_parse (const char *text, gsize length, HsChecks *checks, GError **error);

/**
 * hs_cause_guides_load:
 *
 * Returns: (transfer full) (element-type HsCauseGuide): those that are compiled in, in the order of the groups
 */
GPtrArray *hs_cause_guides_load (GError **error);

G_END_DECLS
