// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-board.h"

G_BEGIN_DECLS

/**
 * HsWay:
 * @view: the job that is driven to
 * @stop: (nullable): the call in the plan that stands; %NULL where it is no stop of today
 * @before: (element-type HsPlannedStop): the counters on the way that come first
 * @ring: (nullable): whom to ring and why, if the arrival comes too near to the end of the promise or behind it
 * @plan: (nullable): what @stop, @before and @ring belong to; %NULL if the day cannot be planned
 *
 * What she has to know at the wheel.
 */
typedef struct
{
  HsJobView *view;
  const HsPlannedStop *stop;
  GPtrArray *before;
  char *ring;
  HsDayPlan *plan;
} HsWay;

void hs_way_free (HsWay *way);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsWay, hs_way_free)

/* hs_way_load: (transfer full): to a job; a day that cannot be planned has no times. Reads only. */
HsWay *hs_way_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
