// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-problem.h"

G_BEGIN_DECLS

/* One van's route in a solution of hs_solve (), as a day of its own: to put its stops into another order, or to drive
 * it with other minutes. */

/**
 * HsDayRoute:
 * @stops: (element-type HsRouteStop): of @route that are stops of @day, in its order
 * @first: how many stops of the route come before them: that with which a van begins that is under way
 * @day: the stops, with the rules of the van; parts-first is not in it
 */
typedef struct
{
  const HsDayProblem *problem;
  HsSolution *solution;
  HsRoute *route;
  guint first;
  GArray *stops;
  HsDay *day;
} HsDayRoute;

/* hs_day_route_init: @rules: the van's; if it is under way the route begins with where it is. */
void hs_day_route_init (HsDayRoute *self, const HsDayProblem *problem, HsSolution *solution, HsRoute *route,
                        const HsDay *rules);
void hs_day_route_clear (HsDayRoute *self);

const HsRouteStop *hs_day_route_get_stop (const HsDayRoute *self, guint index);

/* hs_day_route_built_stop: the stop of the built day behind a stop. */
guint hs_day_route_built_stop (const HsDayRoute *self, guint index);

/* hs_day_route_take: puts @plan of the day, which has all of its stops, into route and solution. */
void hs_day_route_take (HsDayRoute *self, const HsPlan *plan);

/* hs_day_route_break_late: how late the break that @rules owe is on @route; 0 where it is in time or not owed. The
 * search never has it late, but at the hours of its drives it may come to be. */
gint32 hs_day_route_break_late (const HsDay *rules, const HsRoute *route);

/**
 * hs_day_route_time:
 * @left: (array): as of hs_day_drives_set (); when each place is left comes to it
 *
 * Drives the route in its order, each drive at its hour, left for when it is best. Only where the hours matter.
 */
gboolean hs_day_route_time (HsDayRoute *self, guint8 *left, GError **error);

G_END_DECLS
