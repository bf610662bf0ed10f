// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-plan.h"

G_BEGIN_DECLS

/**
 * hs_day_plan_going:
 * @van: a van's letter, or %NULL for the first
 * @now: what the clock shows
 *
 * The plan that stands, as the day really goes: what is done stands with its real times, and the rest is driven from
 * where the van is and when it can go on. A promise that can't be kept any more stands in `broken` with whom to ring;
 * the first of them breaks first. On another day than that of @now, before leaving, and where no accepted order fits,
 * it is hs_day_plan_standing (). Reads only.
 *
 * Where it is taken from: a visit's stamps. Under way, the drive takes as long as tabled but is not over before @now;
 * on site, the work takes as long as guessed but is not over before @now; between two stops she leaves @now. A counter
 * before a stop that has begun is done.
 */
HsDayPlan *hs_day_plan_going (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error);

G_END_DECLS
