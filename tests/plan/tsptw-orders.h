// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "tsptw-trial.h"

G_BEGIN_DECLS

/* All tours of a small problem, found by trying every order, for tests that ask whether something holds for each. */

/**
 * TsptwTour: a tour that keeps every rule.
 * @stops: the depot, the stops in order, the depot again: @n + 1 nodes
 * @start: when each of @stops is served; the first is when the depot is left, the last when it is reached
 * @driven: up to each of @stops
 */
typedef struct
{
  guint n;
  guint16 stops[HS_TSPTW_MAX_NODES + 1];
  gint64 start[HS_TSPTW_MAX_NODES + 1];
  gint64 driven[HS_TSPTW_MAX_NODES + 1];
} TsptwTour;

typedef void (*TsptwVisit) (const TsptwTour *tour, gpointer data);

/* Calls @visit for each tour that leaves when the depot's window begins, or with @any_leave at each second of it;
 * returns how many there are. */
guint tsptw_orders_each (const HsTsptw *problem, gboolean any_leave, TsptwVisit visit, gpointer data);

/* What a tour costs as it is driven. */
gint64 tsptw_orders_cost (const TsptwTour *tour, HsTsptwObjective objective);

/* A problem from numbers: rows of legs, then a window for each node. */
HsTsptw *tsptw_orders_problem (guint n_nodes, const gint64 *legs, const gint64 (*windows)[2]);

/* A random problem whose legs are all at least 1. */
HsTsptw *tsptw_orders_random (GRand *rand, const TsptwShape *shape);

G_END_DECLS
