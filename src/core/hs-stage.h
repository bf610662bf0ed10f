// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsStage:
 *
 * Where a job stands, in the order of a day.
 */
typedef enum
{
  HS_STAGE_CALLED_IN,
  HS_STAGE_PENCILED,
  HS_STAGE_PROMISED,
  HS_STAGE_ROLLING,
  HS_STAGE_ON_SITE,
  HS_STAGE_WAITING_PART,
  HS_STAGE_WAITING_YES,
  HS_STAGE_PROVEN,
  HS_STAGE_SQUARED,
  HS_STAGE_CALLED_OFF,
  HS_STAGE_TURNED_AWAY,
} HsStage;

#define HS_N_STAGES (HS_STAGE_TURNED_AWAY + 1)

/* hs_stage_id: (transfer none): as in the book: `called_in` … `turned_away`. */
const char *hs_stage_id (HsStage stage);

/* hs_stage_label: (transfer none): as it is shown: "Just called" … "Passed on". */
const char *hs_stage_label (HsStage stage);

/* hs_stage_shape: (transfer none): name of its silhouette, `stage-called_in` … `stage-turned_away`. */
const char *hs_stage_shape (HsStage stage);

gboolean hs_stage_parse (const char *text, HsStage *ret_stage, GError **error);

/* hs_stage_is_open: something is still to be done: not squared, called off or turned away. */
gboolean hs_stage_is_open (HsStage stage);

/**
 * hs_stage_next:
 * @ret_next: (out): the usual next stage; untouched if there is none
 *
 * Returns: %FALSE at the end of the road (squared, called off, turned away)
 */
gboolean hs_stage_next (HsStage stage, HsStage *ret_next);

/**
 * HsStageFacts:
 * @has_after_reading: a reading of phase "after" is on the job
 * @has_unproven_reason: a reason why it could not be tested is written down
 * @open_safety: (nullable): the items of the visit's safety list that are not answered although it was begun, as they
 *   are named in a sentence
 * @parts_without_reason: parts installed with neither why the old one failed nor "not known, customer told"
 * @complaint_stays: (nullable): how the complaint was tried again and is still there: "4 of 5"
 * @open_ends: (nullable): the sentence that names the ends of the why-chain that are not settled
 * @open_choices: recommendations without an answer
 * @charges_cents: all lines with tax, without the fee for a job that was called off
 * @ceiling_cents: the latest go-ahead, a later and lower one counts; 0 if there is none
 * @overrun_cents: how far the owner lets them pass it; nothing without a go-ahead
 * @has_leaving_reason: a reason for calling off or passing on is written down
 * @currency: (nullable): ISO 4217, for messages
 *
 * What the rules ask about a job.
 */
typedef struct
{
  const char *open_safety;
  gboolean has_after_reading;
  gboolean has_unproven_reason;
  guint parts_without_reason;
  const char *complaint_stays;
  const char *open_ends;
  guint open_choices;
  gint64 charges_cents;
  gint64 ceiling_cents;
  gint64 overrun_cents;
  gboolean has_leaving_reason;
  const char *currency;
} HsStageFacts;

/**
 * HsStageWhyNot:
 * @HS_STAGE_MAY_MOVE: nothing stands against it
 * @HS_STAGE_SAME: it is there already
 * @HS_STAGE_SHUT_FOR_GOOD: squared does not go back
 * @HS_STAGE_NO_SUCH_MOVE: not from this stage
 * @HS_STAGE_OPEN_SAFETY: the safety list of the visit has items that nobody answered
 * @HS_STAGE_NO_PROOF: neither an after-reading nor a reason
 * @HS_STAGE_COMPLAINT_STAYS: the complaint was tried again, is still there, and nobody said why it is left so
 * @HS_STAGE_PART_WITHOUT_REASON: a part was replaced and nobody said why the old one failed
 * @HS_STAGE_OPEN_END: the why-chain has an end that is not settled
 * @HS_STAGE_OPEN_CHOICE: the customer has not answered a recommendation
 * @HS_STAGE_OVER_CEILING: the charges pass the go-ahead
 * @HS_STAGE_NO_LEAVING_REASON: called off or passed on without a reason
 *
 * Why a move is refused; the window puts the cursor where it can be mended.
 */
typedef enum
{
  HS_STAGE_MAY_MOVE,
  HS_STAGE_SAME,
  HS_STAGE_SHUT_FOR_GOOD,
  HS_STAGE_NO_SUCH_MOVE,
  HS_STAGE_OPEN_SAFETY,
  HS_STAGE_NO_PROOF,
  HS_STAGE_COMPLAINT_STAYS,
  HS_STAGE_PART_WITHOUT_REASON,
  HS_STAGE_OPEN_END,
  HS_STAGE_OPEN_CHOICE,
  HS_STAGE_OVER_CEILING,
  HS_STAGE_NO_LEAVING_REASON,
} HsStageWhyNot;

/**
 * hs_stage_may_move:
 *
 * The table of moves alone, without the facts of a job: forward up to "At the vehicle" in any stride, from there to
 * waiting and to proven, from proven to squared; off the road (called off, turned away) from every stage before
 * proven; back to any earlier stage, also from off the road; from squared nowhere.
 *
 * Returns: %TRUE if such a move exists
 */
gboolean hs_stage_may_move (HsStage from, HsStage to);

/**
 * hs_stage_why_not:
 *
 * Returns: the first thing that stands against the move
 */
HsStageWhyNot hs_stage_why_not (HsStage from, HsStage to, const HsStageFacts *facts);

/* hs_stage_short_cents: by how much the charges pass the go-ahead; 0 if they do not. */
gint64 hs_stage_short_cents (const HsStageFacts *facts);

/**
 * hs_stage_check_move:
 * @error: return location, %HS_CORE_ERROR_REFUSED with what is missing and what to do
 *
 * hs_stage_why_not() as a sentence.
 *
 * Returns: %TRUE if the job may go there
 */
gboolean hs_stage_check_move (HsStage from, HsStage to, const HsStageFacts *facts, GError **error);

G_END_DECLS
