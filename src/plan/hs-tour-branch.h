// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-search.h"
#include "hs-tour-tree.h"

G_BEGIN_DECLS

/* Proves a round without orders the cheapest, or finds a cheaper one, by deciding leg after leg over the bound of
 * hs-tour-tree.h (private to this layer). */

/**
 * HsTourBranch:
 * @open: when it ended early: no round costs less than this
 * @nodes: how many branches were looked at
 * @most_nodes: it ends early at so many
 * @assigned: prices have begun with an assignment
 */
typedef struct
{
  HsTourSearch *search;
  HsTourTree *tree;
  gint64 open;
  guint64 nodes;
  guint64 most_nodes;
  gboolean assigned;
} HsTourBranch;

/* The best bound that prices alone give; from there legs that cannot matter are left out. May be asked again when there
 * is a better round. Returns the bound. */
gint64 hs_tour_branch_root (HsTourBranch *branch);

/* After the root. Returns whether all was looked at: then @search->best is the cheapest. */
gboolean hs_tour_branch_run (HsTourBranch *branch);

/* Draws what follows at once from the decided legs: each node has its number of legs, and no ring closes early. FALSE
 * if that can't be. */
gboolean hs_tour_branch_settle (HsTourTree *tree);

G_END_DECLS
