// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-vrptw-fleet.h"

G_BEGIN_DECLS

/* One step of the search (private to this layer): customers near each other are taken out, as strings from the routes
 * they are in, and put back one by one where they add least. After J. Christiaens and G. Vanden Berghe, "Slack
 * Induction by String Removals for Vehicle Routing Problems", Transportation Science 54(2), 2020. */

/**
 * HsRuin:
 * @random: state of the random numbers
 * @near: (array): for each customer all of them, nearest first
 * @order, @key: room for those that are out, in the order in which they go back
 * @overlooks: whether a good place is overlooked now and then
 */
typedef struct
{
  const HsVrptw *problem;
  guint64 random;
  guint32 *near;
  guint32 *order;
  gint64 *key;
  gboolean overlooks;
} HsRuin;

HsRuin *hs_ruin_new (const HsVrptw *problem, guint32 seed);
void hs_ruin_free (HsRuin *ruin);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsRuin, hs_ruin_free)

/* hs_ruin_below: a random number 0 … @limit − 1. */
guint hs_ruin_below (HsRuin *ruin, guint limit);

/* hs_ruin_share: a random number above 0, up to 1. */
double hs_ruin_share (HsRuin *ruin);

/* Takes customers out of @fleet. */
void hs_ruin_take_out (HsRuin *ruin, HsFleet *fleet);

/* Puts those that are out back where they fit, into up to @n_routes routes; the others stay out. */
void hs_ruin_put_back (HsRuin *ruin, HsFleet *fleet, guint n_routes);

G_END_DECLS
