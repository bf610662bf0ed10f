// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw.h"

G_BEGIN_DECLS

/* How far a search for windowed tours goes before it tries another way (private to this layer). Whatever the caps, what
 * is called proven is proven; low ones let a small problem go where otherwise only a large one does. */

/**
 * HsTsptwCaps:
 * @labels: of one exact search
 * @bound_labels: of one search for a bound
 * @first_labels: of the first exact search
 * @enough_labels: with more than so many in a search for a bound it is time to remember more
 * @beam: how many paths a narrow search keeps of each length
 * @first_kicks, @later_kicks: of the tour, with all objectives weighed: at first, and after each stage
 * @first_quick_kicks, @later_quick_kicks: the same where only what is driven counts
 * @leaves: whether to look for a proof leave time by leave time where the time away counts
 * @few_paths: kept of all sets of a few stops, where bounds leave too much open; 0: this is not tried
 */
typedef struct
{
  guint labels;
  guint bound_labels;
  guint first_labels;
  guint enough_labels;
  guint beam;
  guint first_kicks;
  guint later_kicks;
  guint first_quick_kicks;
  guint later_quick_kicks;
  gboolean leaves;
  guint few_paths;
} HsTsptwCaps;

/** hs_tsptw_caps_usual: with all it needs, two searches with so many labels stay well below a GiB. */
extern const HsTsptwCaps hs_tsptw_caps_usual;

/** hs_tsptw_solve_capped: hs_tsptw_solve () with @caps. */
gboolean hs_tsptw_solve_capped (const HsTsptw *problem, const HsTsptwHow *how, const HsTsptwCaps *caps,
                                HsTsptwAnswer *ret_answer, GError **error);

G_END_DECLS
