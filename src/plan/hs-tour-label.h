// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-search.h"
#include "hs-tour-tree.h"

G_BEGIN_DECLS

/* Dynamic programming over (nodes done, last node), layer by layer (private to this layer): of two ways to the same
 * state only the cheaper one is kept, and none that the tree over the rest shows to be no better than the best round
 * known. Proves rounds with orders, and small ones without. */

/**
 * HsTourLabels:
 * @tree: (nullable): whose prices and legs are used
 * @most_bytes: how much may be kept; beyond that it ends early
 * @floor: no round costs less than this, whether it ended early or not
 * @states: how many states were kept
 */
typedef struct
{
  HsTourSearch *search;
  const HsTourTree *tree;
  gsize most_bytes;
  gint64 floor;
  guint64 states;
} HsTourLabels;

/* Returns whether all was looked at: then @search->best is the cheapest. */
gboolean hs_tour_labels_run (HsTourLabels *labels);

G_END_DECLS
