// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-trip.h"

G_BEGIN_DECLS

/**
 * HsCombine: which trips together serve each call once.
 * @trips: (element-type HsTrip): @van is the kind of van, @over what it costs over the prizes of its calls
 * @members: how many vans there are of each kind
 * @prizes: of each call
 * @below: only what costs less is of use
 */
typedef struct
{
  HsExact *exact;
  guint n_calls;
  guint n_kinds;
  const GArray *trips;
  const guint *members;
  const gint64 *prizes;
  gint64 below;
} HsCombine;

/**
 * hs_solve_combine:
 * @ret_chosen: (out): indexes in @trips, at most one a van
 *
 * Looks for the cheapest choice; ends early where it takes too long. Trips that serve a call twice are passed over.
 *
 * Returns: how many were chosen, 0 if nothing is cheaper
 */
guint hs_solve_combine (const HsCombine *combine, guint *ret_chosen);

G_END_DECLS
