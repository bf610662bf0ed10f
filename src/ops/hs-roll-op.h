// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-plan.h"

G_BEGIN_DECLS

/**
 * HsRollBreak: a promise to somebody else that can't be kept any more once the van rolls.
 * @number: of the call
 * @who, @phone: (nullable): whom it was made to
 * @by: when the promise ends
 * @late_seconds: how late its work begins then
 */
typedef struct
{
  char *number;
  char *who;
  char *phone;
  HsInstant by;
  gint64 late_seconds;
} HsRollBreak;

/**
 * HsRollLeft: a job of the same van that the owner is still at while the van is about to roll to another.
 * @who: whose it is
 * @seconds: what its labor clock shows
 * @done: it is tested good; its visit is over once the van rolls, and nobody has to be asked
 */
typedef struct
{
  char *job_id;
  char *number;
  char *who;
  gint64 seconds;
  gboolean done;
} HsRollLeft;

void hs_roll_left_free (HsRollLeft *left);

/**
 * hs_roll_left_list:
 *
 * Returns: (transfer full) (element-type HsRollLeft): jobs of the van of @job_id whose labor clock would run on
 */
GPtrArray *hs_roll_left_list (HsBook *book, const char *job_id, HsInstant now, GError **error);

/**
 * hs_roll:
 * @reason: (nullable): as in hs_job_move_stage()
 * @leave: the owner was told of what is left at the vehicle, and leaves it open with its labor clock stopped
 *
 * Moves the job to rolling, with the clocks of what is left in the same step. Without @leave a job that is still at the
 * vehicle refuses it, %HS_OPS_ERROR_LEAVES_OPEN.
 */
gboolean hs_roll (HsBook *book, const char *job_id, const char *reason, gboolean leave, HsInstant now, GError **error);

/* hs_arrive: the same to on site: who came without rolling, or found his way back, may still be at another vehicle. */
gboolean hs_arrive (HsBook *book, const char *job_id, const char *reason, gboolean leave, HsInstant now,
                    GError **error);

/**
 * HsRollOutlook: what rolling to a call now would bring.
 * @breaks: (element-type HsRollBreak): promises that it makes later than they are without it
 * @shut: (element-type HsShutPart): parts that wait for a shut counter: for the call itself, or on the way to it
 * @left: (element-type HsRollLeft): jobs of the van that are still at the vehicle, their labor clocks running
 * @wait_seconds: how long the van stands there before the work may begin: before the promise, or before somebody is
 *   there; nothing has to be asked for it
 * @begins: when it may
 * @before_promise: it waits for what was promised, not for the customer to be there
 * @plan: (nullable): the day as it would be then
 */
typedef struct
{
  GPtrArray *breaks;
  GPtrArray *shut;
  GPtrArray *left;
  gint64 wait_seconds;
  HsInstant begins;
  gboolean before_promise;
  HsDayPlan *plan;
} HsRollOutlook;

void hs_roll_outlook_free (HsRollOutlook *outlook);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsRollOutlook, hs_roll_outlook_free)

/**
 * hs_roll_outlook_load:
 *
 * Rolls to the call, looks at the day and takes it all back: nothing is written. A move that would be refused, or a day
 * that can't be planned, has nothing to say here.
 */
HsRollOutlook *hs_roll_outlook_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

/* hs_arrive_outlook_load: what beginning at the vehicle would leave; nothing else has to be said of it. */
HsRollOutlook *hs_arrive_outlook_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

/* hs_roll_outlook_is_clear: nothing has to be said before the van rolls. */
gboolean hs_roll_outlook_is_clear (const HsRollOutlook *outlook);

G_END_DECLS
