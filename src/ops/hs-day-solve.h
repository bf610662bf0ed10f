// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-past.h"
#include "hs-day-plan.h"

G_BEGIN_DECLS

/**
 * HsDayStanding: the plan that the owner accepted, as the book holds it.
 * @leave_at: when to leave
 * @rows: (element-type utf8): job or supplier ids in order
 * @locked: (element-type gboolean): one a row
 */
typedef struct
{
  char *id;
  HsInstant leave_at;
  GPtrArray *rows;
  GArray *locked;
} HsDayStanding;

void hs_day_standing_free (HsDayStanding *standing);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayStanding, hs_day_standing_free)

/**
 * HsDaySolved: a day from the book through the planner, with all that it was made from.
 * @standing: (nullable): what the owner accepted, also where it no longer fits
 * @accepted: @plan is that order, not a fresh one
 * @past: (nullable): what is behind on a day that has begun or should have; @build and @plan are then of what is ahead
 * @ring: (nullable) (element-type HsDayRing): who is reached in the last minutes of a promise; %NULL on other days
 */
typedef struct
{
  HsDayFacts *facts;
  HsDayBuild *build;
  HsPlan *plan;
  HsDayPast *past;
  GPtrArray *ring;
  HsDayStanding *standing;
  gboolean accepted;
  /*< private >*/
  const HsDayInstead *instead;
} HsDaySolved;

void hs_day_solved_free (HsDaySolved *solved);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDaySolved, hs_day_solved_free)

typedef enum
{
  HS_DAY_FRESH,
  HS_DAY_STANDING,
} HsDaySolveHow;

/**
 * hs_day_solve:
 * @how: anew, or the order that stands where it still fits
 * @van: a van's letter, or %NULL for the first
 * @extra_area: (nullable): one more area that the tables must know
 * @now: on the day itself nobody leaves before it, and what has begun is behind; %HS_INSTANT_NONE: as in the morning
 */
HsDaySolved *hs_day_solve (HsBook *book, HsDate day, const char *van, HsDaySolveHow how, const char *extra_area,
                           HsInstant now, GError **error);

/**
 * HsDayAsk: what hs_day_solve () was asked, apart from an area.
 */
typedef struct
{
  HsBook *book;
  HsDate day;
  const char *van;
  HsDaySolveHow how;
  HsInstant now;
} HsDayAsk;

/* hs_day_solve_instead: as hs_day_solve (), if a part were bought elsewhere. */
HsDaySolved *hs_day_solve_instead (const HsDayAsk *ask, const HsDayInstead *instead, GError **error);

/* hs_day_solved_describe: (transfer full): the solved day in instants and words. */
HsDayPlan *hs_day_solved_describe (const HsDaySolved *solved);

/* hs_day_solved_row_id: (transfer none): the job's or supplier's id of a stop. */
const char *hs_day_solved_row_id (const HsDaySolved *solved, guint stop);

/* hs_day_solved_is_locked: whether the owner locked that job or counter in its place. */
gboolean hs_day_solved_is_locked (const HsDaySolved *solved, const char *row_id);

/* hs_day_solved_broken: (transfer full): a broken promise of the planner, in the book's words. */
HsBrokenPromise *hs_day_solved_broken (const HsDaySolved *solved, int stop, gint64 late_seconds, const char *why);

/* hs_day_solved_reaches: whether the van stops, or has stopped, at a counter while it is open. */
gboolean hs_day_solved_reaches (const HsDaySolved *solved, const char *supplier_id);

G_END_DECLS
