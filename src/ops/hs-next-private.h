// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What is behind hs_job_next_load(): a job's evidence (hs-next-evidence.c), held against one model after the other
 * (hs-next-case.c), in words (hs-next-words.c). */

#include "hs-cause-guide.h"
#include "hs-finding-row.h"
#include "hs-interview.h"
#include "hs-job-next.h"
#include "hs-job-row.h"
#include "hs-next-check.h"
#include "hs-reading-private.h"
#include "hs-visit-row.h"

G_BEGIN_DECLS

/**
 * HsNextScene:
 * @readings, @asked, @findings, @parts: rows of the job; @parts: those that it installed
 * @proven: (element-type HsProvenCause): of all own squared jobs; the book's
 * @judged: rows of readings → HsReadingResult, as far as anybody asked; @ground: what they are judged by
 * @power_at: place among @readings of the latest that shows power, -1 if none does
 */
typedef struct
{
  HsBook *book;
  const HsTongue *in; /* the book's */
  HsChecks *checks;
  HsJobRow *job;
  GPtrArray *readings;
  GPtrArray *asked;
  GPtrArray *findings;
  GPtrArray *parts;
  GPtrArray *proven;
  HsInterview *interview; /* the book's */
  GHashTable *judged;
  HsReadingGround ground;
  int power_at;
} HsNextScene;

gboolean hs_next_scene_load (HsBook *book, const char *job_id, HsNextScene *ret_scene, GError **error);
void hs_next_scene_clear (HsNextScene *scene);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HsNextScene, hs_next_scene_clear)

/* hs_next_judge: (transfer none): @row as it is judged. */
gboolean hs_next_judge (HsNextScene *scene, const HsReadingRow *row, const HsReadingResult **ret_judged,
                        GError **error);

/**
 * HsNextMark: what a job says of one check.
 * @result: of the model, plus 1; 0: nothing that it knows
 * @row: (nullable): the reading, @judged: (nullable): its verdict
 * @off: not to be offered: read already, or it could not be measured
 * @again: it could not, for want of power, and there is power now
 * @said: the result that an answer speaks for, plus 1; counts until the check is read. @asked: (nullable): that answer
 */
typedef struct
{
  guint result;
  const HsReadingRow *row;
  const HsReadingResult *judged;
  gboolean off;
  gboolean again;
  guint said;
  const HsAskedRow *asked;
} HsNextMark;

/* hs_next_mark: what the job says of @check of a guide. @late: with what was read after a repair that did not cure it,
 * where nothing was read before. */
gboolean hs_next_mark (HsNextScene *scene, const HsCauseGuide *guide, guint check, gboolean late, HsNextMark *ret_mark,
                       GError **error);

/* hs_next_is_current: whether the reading at that place is of the check and phase, and none is later where it was
 * taken. */
gboolean hs_next_is_current (const HsNextScene *scene, guint at, const char *check_id, const char *phase);

/* hs_next_answer: the answer, from 1, that was read to a check with answers; 0 if there is none. */
guint hs_next_answer (HsNextScene *scene, const char *check_id);

/* hs_next_is_barred: whether the check could not be measured, and cannot be now. */
gboolean hs_next_is_barred (const HsNextScene *scene, const char *check_id);

/* hs_next_is_said_for: whether somebody said what makes @guide fit. */
gboolean hs_next_is_said_for (HsNextScene *scene, const HsCauseGuide *guide);

/* hs_next_offers: (transfer full) (element-type HsNextOffer): what waits for power or comes once there is some. */
GPtrArray *hs_next_offers (HsNextScene *scene);

/* hs_next_finding: (transfer none) (nullable): the latest finding of the job that names a cause. */
const HsFindingRow *hs_next_finding (HsNextScene *scene, const char *cause_id);

/**
 * HsNextCase: a job held against one model.
 * @of: of each check of @model the check of the guide
 * @marks: of each check of the guide
 * @model: the guide's causes with the weights of this job, and those checks that are done or can be
 * @own: of each cause how many own jobs it was; @n_own: of how many
 * @settled: of each cause 0, or its standing plus 1 where a finding settles it
 * @cured, @failed: a bit for each cause of which a reading after its repair is good, or is not
 * @gone: a bit for each cause that was repaired, where all that was read after it is good; 0: it is not gone, or nobody
 *   knows
 * @after: (nullable) (element-type HsReadingResult): of each cause, the readings after its repair that say so
 * @beliefs: of each cause, what is proven beside the others; their sum is 1
 * @chance: how well the model goes with the job, beside the other models of its group once they are weighed
 * @fits: whether any cause can have given what was seen
 */
typedef struct
{
  const HsCauseGuide *guide;
  HsCauseModel *model;
  guint of[HS_CAUSE_MODEL_MAX_CHECKS];
  HsNextMark marks[HS_CAUSE_MODEL_MAX_CHECKS];
  double weights[HS_CAUSE_MODEL_MAX_CAUSES];
  guint own[HS_CAUSE_MODEL_MAX_CAUSES];
  guint n_own;
  guint settled[HS_CAUSE_MODEL_MAX_CAUSES];
  const HsFindingRow *findings[HS_CAUSE_MODEL_MAX_CAUSES];
  guint32 cured;
  guint32 failed;
  guint32 gone;
  GPtrArray *after[HS_CAUSE_MODEL_MAX_CAUSES];
  HsSeen seen;
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  double chance;
  gboolean fits;
  HsNext next;
} HsNextCase;

HsNextCase *hs_next_case_new (HsNextScene *scene, const HsCauseGuide *guide, guint max_states, GError **error);
void hs_next_case_free (HsNextCase *self);

/* hs_next_case_chance: how likely what is known of @check of the guide was under @cause; 1 where nothing is known. */
double hs_next_case_chance (const HsNextCase *self, guint check, guint cause);

/* hs_next_cases_weigh: (element-type HsNextCase): puts how much each is believed beside the others of its group, so
 * that they sum to 1; 0 for those that do not fit. What a model has no check for counts as the other models say of a
 * car that is none of theirs: nobody gains by not asking. */
void hs_next_cases_weigh (GPtrArray *cases);

/* hs_next_case_list_minutes: of the rest of the fixed list, below 0 if it branches too far. */
double hs_next_case_list_minutes (const HsNextCase *self);

/* hs_next_case_check: the check of @model that is the check @id; -1 if it is not to be done. */
int hs_next_case_check (const HsNextCase *self, const char *id);

/* hs-next-after.c */

/* hs_next_take_after: what was read after the repair of the causes that are settled as proven or repaired. One that it
 * did not cure is settled as repaired: it was not that, or not that alone. */
gboolean hs_next_take_after (HsNextCase *self, HsNextScene *scene, GError **error);

/* hs-next-words.c */

/* hs_next_speaks_for: whether what is known of @check of the guide is at least twice as likely under @cause as under
 * the others. */
gboolean hs_next_speaks_for (const HsNextCase *self, guint check, guint cause);

HsNextStanding hs_next_standing_of (double weight);

/* hs_next_evidence: what speaks for and against @cause: what is at least twice as likely, or half as likely, under it
 * than under the others. */
void hs_next_evidence (const HsNextCase *self, const HsNextScene *scene, guint cause, HsNextCause *ret_cause);

/* hs_next_dup_tells: what each result of @check of the model would make likeliest. */
char **hs_next_dup_tells (const HsNextCase *self, guint check, const HsTongue *in);

/* hs_next_dup_source: who says what @check of the guide tells, each once. */
char *hs_next_dup_source (const HsCauseGuide *guide, guint check);

/* hs-next-battery.c */

/* The cause that a new battery is the repair of, in most models. */
#define HS_NEXT_WORN_CAUSE "battery_worn"

/* hs_next_has_battery: whether the job installed one. */
gboolean hs_next_has_battery (const HsNextScene *scene);

/* hs_next_battery: recharge or replace, and what a draw makes of that, in words; %NULL while no reading finds fault. */
gboolean hs_next_battery (HsNextScene *scene, GPtrArray *guides, HsDate today, char **ret_words, GError **error);

/* hs-next-proof.c */

/* hs_next_proof: (element-type HsNextCase): what still proves what was repaired, or that it is tested good, in words;
 * %NULL while there is something to look for or to repair. */
gboolean hs_next_proof (HsNextScene *scene, GPtrArray *cases, HsInstant now, char **ret_words, GError **error);

/* hs-next-own.c */

/* hs_next_own_count: how often own squared jobs proved each cause of @guide, and in how many jobs any of them. @proven:
 * (element-type HsProvenCause): all of theirs. */
gboolean hs_next_own_count (HsBook *book, GPtrArray *proven, const HsCauseGuide *guide, guint *ret_counts,
                            guint *ret_jobs, GError **error);

G_END_DECLS
