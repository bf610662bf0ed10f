// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-plan.h"

G_BEGIN_DECLS

/**
 * HsDayOtherKind: what is done otherwise.
 * @HS_DAY_OTHER_FIRST: that call before all others, with the counters that it needs before it
 * @HS_DAY_OTHER_WITHOUT: the parts bought elsewhere than at that counter
 */
typedef enum
{
  HS_DAY_OTHER_FIRST,
  HS_DAY_OTHER_WITHOUT,
} HsDayOtherKind;

/**
 * HsDayOther: another way to drive the day, at its best, against the plan.
 * @id: the job's number or the supplier's name
 * @adds_seconds: longer away; below zero: shorter
 * @adds_cents: dearer, the parts of the day included where they are bought elsewhere
 * @breaks: (element-type HsBrokenPromise): what the plan keeps and this does not
 */
typedef struct
{
  HsDayOtherKind kind;
  char *id;
  gint64 adds_seconds;
  gint64 adds_millimiles;
  gint64 adds_cents;
  GPtrArray *breaks;
} HsDayOther;

void hs_day_other_free (HsDayOther *other);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayOther, hs_day_other_free)

/**
 * hs_day_others:
 * @van: a van's letter, or %NULL for the first
 * @now: as in hs_day_plan_make ()
 *
 * Answers "why not this one first?" for each call that is not first, and "what is this stop good for?" for each
 * counter, against the plan as hs_day_plan_standing () gives it. Reads only.
 *
 * Returns: (transfer full) (element-type HsDayOther): calls in the order of the plan, then counters.
 */
GPtrArray *hs_day_others (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error);

G_END_DECLS
