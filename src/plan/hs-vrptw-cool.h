// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw-ruin.h"

G_BEGIN_DECLS

/* The search (private to this layer): rounds of ruin, each kept or taken back by simulated annealing. */

/**
 * HsCool:
 * @best_out, @best_cost: of the best plan so far: fewest left out, then shortest
 * @best: (array): its routes, one stop after the other, a 0 after each route
 * @best_len: length of @best
 * @best_vans: how many routes it has
 * @round: rounds done
 */
typedef struct
{
  const HsVrptw *problem;
  const HsVrptwHow *how;
  HsRuin *ruin;
  HsFleet *fleet;
  guint64 *missed;
  guint64 rounds;
  guint64 round;
  double progress;
  gboolean gave_up;
  guint best_out;
  gint64 best_cost;
  guint32 *best;
  guint best_len;
  guint best_vans;
} HsCool;

/* A search for @problem, each of whose customers must be servable alone. */
HsCool *hs_cool_new (const HsVrptw *problem, const HsVrptwHow *how);
void hs_cool_free (HsCool *cool);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCool, hs_cool_free)

/* Searches until the rounds are done or it is told to give up. @least_vans: no plan needs fewer. */
void hs_cool_run (HsCool *cool, guint least_vans);

G_END_DECLS
