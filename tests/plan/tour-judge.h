// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-tree.h"

/* A judge of rounds that uses nothing of the planner but its plain data: small problems of every kind, all their rounds
 * one after the other, and the cheapest one. */

typedef enum
{
  TOUR_ALIKE,
  TOUR_ONE_WAY,
  TOUR_ORDERED,
  TOUR_WAY_WITH_ORDERS,
} TourKind;

/* Legs cost 0 to @most; a way with orders ends at the last node, from where the leg home is free. */
HsTourProblem *tour_random (GRand *rand, guint n, TourKind kind, gint32 most);

/* Of the closed round, added up leg by leg. */
gint64 tour_add_up (const HsTourProblem *problem, const guint16 *order);

/* Stops the test unless @order has every node once, node 0 first, and keeps the orders. */
void tour_check_round (const HsTourProblem *problem, const guint16 *order);

typedef void (*TourEach) (const guint16 *order, gint64 cost, gpointer data);

/* Every round that keeps the orders, in the order of a dictionary; up to 9 nodes. */
void tour_each_round (const HsTourProblem *problem, TourEach each, gpointer data);

/* The first of these, which nobody has looked for a cheap one in. */
void tour_first_round (const HsTourProblem *problem, guint16 *ret_order);

/* Over all sets of nodes (R. Bellman, Journal of the ACM 9, 1962); up to 14 nodes. */
gint64 tour_cheapest (const HsTourProblem *problem);

/* Whether the round uses the leg, either way where the tree does not look at the direction. */
gboolean tour_uses_leg (const HsTourTree *tree, guint leg, const guint16 *order);

/* Whether the round has all legs that are forced in @state and none that is out. */
gboolean tour_keeps_state (const HsTourTree *tree, const guint8 *state, const guint16 *order);

/* The cheapest round that does; %G_MAXINT64 if there is none. Up to 9 nodes. */
gint64 tour_cheapest_with (const HsTourProblem *problem, const HsTourTree *tree, const guint8 *state);

/* An #HsPlanGiveUp: as often as @data, a guint, says, there is time left. */
gboolean tour_give_up_after (gpointer data);

/* Adds @test once for each kind from @first to @last, as "/@part/@kind"; it gets the kind by GPOINTER_TO_UINT. */
void tour_add_test (const char *part, TourKind first, TourKind last, GTestDataFunc test);
