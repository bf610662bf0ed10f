// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw.h"

G_BEGIN_DECLS

/* Routes in play (private to this layer): each a row of steps, home at both ends, with the earliest time its van is
 * free and the latest at which it may come, so that whether a customer fits between two steps is one comparison. All
 * changes since hs_fleet_mark () can be taken back. */

/* A customer that is in no route. */
#define HS_FLEET_OUT G_MAXUINT32
#define HS_FLEET_NOWHERE G_MAXINT64

/* What one stop of a route is worth knowing: when the van is free there at the earliest, when it must be there at the
 * latest, and how far it is to the next. */
typedef struct
{
  gint64 free_at;
  gint64 latest;
  gint64 leg;
  guint32 stop;
} HsFleetStep;

/* @len customers between steps 0 and len + 1. */
typedef struct
{
  HsFleetStep *steps;
  guint len;
  gint64 load;
  guint64 saved_in;
} HsFleetRoute;

typedef struct
{
  const HsVrptw *problem;
  guint n_routes;
  HsFleetRoute *routes;
  HsFleetRoute *saved;
  HsFleetStep *memory;
  guint32 *route_of;
  guint32 *place_of;
  guint32 *out;
  guint n_out;
  gint64 cost;
  guint64 mark;
  guint *touched;
  guint n_touched;
  gint64 marked_cost;
  guint32 *marked_out;
  guint n_marked_out;
} HsFleet;

/* Where a customer would go and what that adds to the distance; route %HS_FLEET_OUT: nowhere. */
typedef struct
{
  guint route;
  guint place;
  gint64 cost;
} HsFleetSlot;

/* A fleet of up to @n_routes routes, all empty, every customer out. */
HsFleet *hs_fleet_new (const HsVrptw *problem, guint n_routes);
void hs_fleet_free (HsFleet *fleet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsFleet, hs_fleet_free)

/* From here on, changes can be taken back with hs_fleet_take_back (). */
void hs_fleet_mark (HsFleet *fleet);
void hs_fleet_take_back (HsFleet *fleet);

/* Takes @count customers from @route, the first at place @place (1 … len), and puts them among those that are out. */
void hs_fleet_remove (HsFleet *fleet, guint route, guint place, guint count);

/* Puts @stop, which must be out, at @place (1 … len + 1) of @route, where it must fit. */
void hs_fleet_insert (HsFleet *fleet, guint stop, guint route, guint place);

/* Gives routes @a and @b each other's place in the fleet; not to be taken back. */
void hs_fleet_swap (HsFleet *fleet, guint a, guint b);

/* Whether @stop alone can be served. */
gboolean hs_fleet_can_serve (const HsVrptw *problem, guint stop);

/* How many routes are not empty. */
guint hs_fleet_count (const HsFleet *fleet);

G_END_DECLS
