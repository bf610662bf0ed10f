// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-facts.h"
#include "hs-day-plan.h"

G_BEGIN_DECLS

/**
 * HsDayStopRef: what a stop of the built day stands for; one of both is set, both belong to the facts.
 */
typedef struct
{
  const HsDayCall *call;
  const HsDayCounter *counter;
} HsDayStopRef;

/**
 * HsDayBuild:
 * @facts: (transfer none): what it was built from
 * @day: for the planner; times are seconds that really pass since the first instant of the local day
 * @refs: (element-type HsDayStopRef): one a stop of @day
 * @places: (element-type utf8): codes of areas and of positions of calls, one a place of @day
 * @travel: the tables of @day, with what is a guess
 * @begun: the tables to begin with, before it is known when each place is left
 * @hours: the tables of each time of day; %NULL where they are all the same
 * @left_out: (element-type HsBrokenPromise): calls and counters that cannot be planned, and why
 * @nowhere: (element-type HsBrokenPromise): calls that are planned although nobody has their part
 */
typedef struct
{
  const HsDayFacts *facts;
  HsDay *day;
  GArray *refs;
  GPtrArray *places;
  HsTravel *travel;
  HsTravel *begun;
  HsTravel *hours[HS_TRAVEL_N_BANDS];
  GPtrArray *left_out;
  GPtrArray *nowhere;
} HsDayBuild;

/**
 * hs_day_build:
 * @extra_area: (nullable): one more area that the tables must know, for a call to be squeezed in
 *
 * Fails with %HS_OPS_ERROR_REFUSED when the base area is not set or not known, or when @extra_area is not known or
 * cannot be driven to; anything else that is missing stands in @left_out.
 */
HsDayBuild *hs_day_build (const HsDayFacts *facts, const char *extra_area, GError **error);
void hs_day_build_free (HsDayBuild *build);

/**
 * hs_day_build_view:
 * @day: (transfer full): another day on the places of @build
 *
 * Returns: (transfer full): @build with that day and drives of its own, to try hours on it; the facts stay shared
 */
HsDayBuild *hs_day_build_view (const HsDayBuild *build, HsDay *day);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayBuild, hs_day_build_free)

/**
 * hs_day_build_keep:
 * @stops: (element-type guint): what stays, in the order that it gets
 * @done: how many stops are behind; place numbers that are locked count on from there
 *
 * Leaves all other stops out; nobody waits for them any more.
 */
void hs_day_build_keep (HsDayBuild *build, const GArray *stops, guint done);

/* hs_day_ref_place: (transfer none): where a stop is, as its code among the places. */
const char *hs_day_ref_place (const HsDayStopRef *ref);

/* hs_day_build_place: index of a code among the places, or -1. */
int hs_day_build_place (const HsDayBuild *build, const char *code);

/* hs_day_build_seconds: seconds that really pass from the first instant of the day to a clock time of it. */
gint32 hs_day_build_seconds (const HsDayFacts *facts, int minutes);

HsBrokenPromise *hs_broken_promise_new (const char *id, gint64 late_seconds, const char *why);
void hs_broken_promise_free (HsBrokenPromise *broken);

G_END_DECLS
