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
 * HsRollOutlook: what rolling to a call now would bring.
 * @breaks: (element-type HsRollBreak): promises that it makes later than they are without it
 * @shut: (element-type HsShutPart): parts that wait for a shut counter: for the call itself, or on the way to it
 * @plan: (nullable): the day as it would be then
 */
typedef struct
{
  GPtrArray *breaks;
  GPtrArray *shut;
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

/* hs_roll_outlook_is_clear: nothing has to be said before the van rolls. */
gboolean hs_roll_outlook_is_clear (const HsRollOutlook *outlook);

G_END_DECLS
