// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-tongue.h"

G_BEGIN_DECLS

/*
 * What to check next on a job, and what may be behind its complaint: the readings, the answers and the findings of the
 * job held against the cause models of its complaint group (data/causes/MODEL.md), with what own jobs say. Reads only.
 */

/* The reason for "could not measure" that is taken back once there is power. */
#define HS_WHY_NOT_POWER "no power yet"

/**
 * HsNextStanding:
 * @HS_NEXT_MOST_LIKELY: half of what is believed, or more
 * @HS_NEXT_POSSIBLE: a tenth or more
 * @HS_NEXT_UNLIKELY: less
 * @HS_NEXT_RULED_OUT: a finding rules it out, or what was read can't come from it
 * @HS_NEXT_PROVEN: a finding of the job says so, with its proof
 * @HS_NEXT_REPAIRED: proven and cured; if the complaint is still there, it was not that alone
 *
 * How a cause stands, in one of a few words; MODEL.md has the same bands.
 */
typedef enum
{
  HS_NEXT_MOST_LIKELY,
  HS_NEXT_POSSIBLE,
  HS_NEXT_UNLIKELY,
  HS_NEXT_RULED_OUT,
  HS_NEXT_PROVEN,
  HS_NEXT_REPAIRED,
} HsNextStanding;

/* hs_next_standing_id: (transfer none): `most_likely`, `possible` …; hs_next_standing_word: as it is shown. */
const char *hs_next_standing_id (HsNextStanding standing);
const char *hs_next_standing_word (HsNextStanding standing);

/**
 * HsNextCause:
 * @source: who says how often; @own: (nullable): "own jobs: 3 of 7"
 * @repair: what is done about it; @repair_minutes, @repair_cents: what that takes
 * @weight: how much of what is believed, 0 to 1; never shown without its word
 * @speaks_for, @speaks_against: (array zero-terminated=1): what was read, said or found, in words
 * @reading_id: (nullable): the reading that speaks most for it; @against_id: (nullable): most against it
 */
typedef struct
{
  char *id;
  char *name;
  char *source;
  char *own;
  char *repair;
  double repair_minutes;
  gint64 repair_cents;
  double weight;
  HsNextStanding standing;
  char **speaks_for;
  char **speaks_against;
  char *reading_id;
  char *against_id;
} HsNextCause;

/**
 * HsNextLine:
 * @is_check: a check, @id is its; else the repair of a cause, @id is the cause's
 * @expected_minutes: until the complaint is gone if this is done first and the best afterwards
 * @minutes: that it takes
 * @tells: (array zero-terminated=1): what it is for: of a check "flat: Battery is flat", one for each result
 * @source: who says so; @how, @caution: (nullable): of a check
 * @again: it could not be measured without power, and there is power again
 */
typedef struct
{
  gboolean is_check;
  char *id;
  char *name;
  double expected_minutes;
  double minutes;
  char **tells;
  char *source;
  char *how;
  char *caution;
  gboolean again;
} HsNextLine;

/**
 * HsNextOffer:
 * @why: why it is offered, in a sentence
 *
 * A check that the models do not ask for, but the moment does: what waits for power, and what comes once there is some.
 */
typedef struct
{
  char *check;
  char *name;
  char *why;
} HsNextOffer;

/**
 * HsJobNext:
 * @group: (nullable): the complaint group that it is for
 * @groups: (array zero-terminated=1): all complaint groups of the job that have a model, the job's own first
 * @models: (array zero-terminated=1): ids of the models that fit; more than one until the check is done that chooses
 * @name: (nullable): of the one that fits, or of the group; @note: (nullable): what to know about it
 * @read: (array zero-terminated=1): checks that were read on the job before it was repaired, or that could not be
 * @nothing: (nullable): why there is nothing to say, in a sentence
 * @trouble: (nullable): why the owner's own models are not used
 * @battery: (nullable): recharge or replace, with minutes and price, where a reading finds fault with the battery
 * @exact: whether the minutes are those of the best policy; else the rule's own estimate
 * @list_minutes: expected when the rest of the fixed list is done in its order and repairs then; below 0: not known
 * @repairs_minutes: expected without any check
 * @causes: (element-type HsNextCause): the likeliest first, then what is settled
 * @lines: (element-type HsNextLine): what can be done next, the least minutes first
 * @offers: (element-type HsNextOffer)
 */
typedef struct
{
  char *group;
  char **groups;
  char **models;
  char **read;
  char *name;
  char *note;
  char *nothing;
  char *trouble;
  char *battery;
  gboolean exact;
  double list_minutes;
  double repairs_minutes;
  GPtrArray *causes;
  GPtrArray *lines;
  GPtrArray *offers;
} HsJobNext;

void hs_job_next_free (HsJobNext *next);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsJobNext, hs_job_next_free)

/**
 * hs_job_next_load:
 * @group: (nullable): a complaint group to look through, one of the job's or any other; %NULL: the job's own
 *
 * Answers within some milliseconds: models that are too large to be searched to the end then are answered by the rule.
 *
 * Returns: (transfer full): also where no model fits, with @nothing
 */
HsJobNext *hs_job_next_load (HsBook *book, const char *job_id, const char *group, HsInstant now, GError **error);

/* hs_job_next_check: (transfer none) (nullable): id of the check that is best done next; %NULL if that is a repair. */
const char *hs_job_next_check (const HsJobNext *next);

/**
 * hs_job_next_beside:
 * @then: (nullable) (array zero-terminated=1): checks that a reading of the job suggests by itself
 * @in: what says it
 *
 * A verdict knows one reading, this knows them all: where both say what to do next they must not stand beside one
 * another without a word.
 *
 * Returns: (transfer full) (nullable): how they go together, in a sentence; %NULL where the reading suggests nothing
 *   that is still to be read, or nothing is best next
 */
char *hs_job_next_beside (const HsJobNext *next, HsChecks *checks, const char *const *then, const HsTongue *in);

/**
 * hs_job_next_add_lines:
 * @sheet: (element-type HsReadingResult): of the readings before the repair
 *
 * Puts an empty line behind the sheet for each check that is offered and is not on it yet.
 */
void hs_job_next_add_lines (HsBook *book, const HsJobNext *next, GPtrArray *sheet);

/**
 * hs_job_name_cause:
 * @group: (nullable): as for hs_job_next_load()
 * @cause: id of a cause of the models that fit
 * @is_it: it is this one; else it is ruled out
 * @seen: (nullable): what was seen and shows it; %NULL: the reading that speaks most for, or against, it
 *
 * Writes into the chain that the cause led to the complaint, or that it did not, with the proof. What is named so is
 * learned from once the job is squared. Refused without a proof.
 *
 * Returns: (transfer full): the id of the finding
 */
char *hs_job_name_cause (HsBook *book, const char *job_id, const char *group, const char *cause, gboolean is_it,
                         const char *seen, HsInstant now, GError **error);

/**
 * hs_job_add_symptom:
 * @group: another complaint group of the catalog
 *
 * Writes down one more complaint of the job, in the words of the group's name; it has a model, and an end in the chain,
 * of its own. For a job without a complaint group it becomes that.
 */
gboolean hs_job_add_symptom (HsBook *book, const char *job_id, const char *group, HsInstant now, GError **error);

G_END_DECLS
