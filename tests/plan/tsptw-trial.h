// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw.h"

G_BEGIN_DECLS

/* Random problems with one vehicle and windows, and a judge of answers that shares no code with the search. */

/**
 * TsptwShape: what a random problem is like.
 * @side: of the square in which stops lie, or the longest leg where legs are just numbers
 * @width: windows are from 0 to this wide
 * @some_impossible: windows begin anywhere; otherwise round the times of a random tour, so that there is one
 * @legs_anyhow: a leg may be longer than a detour
 * @missing: of a hundred legs so many are not there
 * @orders: so many are asked for
 */
typedef struct
{
  const char *name;
  guint stops;
  gint32 side;
  gint32 width;
  guint problems;
  gboolean some_impossible;
  gboolean asymmetric;
  gboolean legs_anyhow;
  guint missing;
  guint orders;
} TsptwShape;

HsTsptw *tsptw_trial_make (GRand *rand, const TsptwShape *shape);

/* The cost of an order; −1 if it breaks a rule or is not an order of all stops. */
gint64 tsptw_trial_drive (const HsTsptw *problem, HsTsptwObjective objective, const guint16 *order);

/* The least cost over all orders; −1 if none keeps the rules. */
gint64 tsptw_trial_try_all (const HsTsptw *problem, HsTsptwObjective objective);

G_END_DECLS
