// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-places.h"
#include "hs-tour-search.h"
#include "hs-tour-tree.h"

G_BEGIN_DECLS

/* Dynamic programming over (nodes done, last node), layer by layer (private to this layer): of two ways to the same
 * state only the cheaper one is kept, and none that the tree over the rest shows to be no better than the best round
 * known. Proves rounds with orders, and small ones without. */

/**
 * HsTourLabels:
 * @tree: (nullable): whose prices and legs are used
 * @places: (nullable): a second bound
 * @width: how many states of each layer are gone on with; 0: all. A few find good rounds quickly
 * @most_bytes: how much may be kept; beyond that it ends early
 * @full: the last run ended early because of @most_bytes
 * @floor: no round costs less than this, whether it ended early or not
 * @states: how many states were kept
 */
typedef struct
{
  HsTourSearch *search;
  const HsTourTree *tree;
  const HsTourPlaces *places;
  guint width;
  gsize most_bytes;
  gboolean full;
  gint64 floor;
  guint64 states;
} HsTourLabels;

#define HS_TOUR_FAR (G_GINT64_CONSTANT (1) << 58)

/* Moves the prices to where they bound best what is left of the best round after its first @done nodes; of legs, only
 * those with @weights (n × n) below %HS_TOUR_FAR count. */
void hs_tour_labels_retune (HsTourSearch *search, const gint64 *weights, guint done, gint64 *going, gint64 *coming);

/* Returns whether it is proven: then @search->best is the cheapest. */
gboolean hs_tour_labels_run (HsTourLabels *labels);

G_END_DECLS
