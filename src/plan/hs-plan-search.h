// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan-label.h"
#include "hs-plan.h"

G_BEGIN_DECLS

/* The search over sets of stops, layer by layer, and what the least rest of a day is worth (private to this layer). */

/* What all searches of one solve share. */
typedef struct
{
  HsPlanGiveUp give_up;
  gpointer user_data;
  gboolean cut;
  gboolean bit;
  guint64 states;
} HsSearch;

/* Least seconds, least miles in units and least of both together, from a stop to the end, by set. */
typedef struct
{
  guint n;
  gint64 *seconds;
  gint64 *units;
  gint64 *both;
  gint64 in_seconds[HS_DAY_MAX_STOPS + 1];
  gint64 in_units[HS_DAY_MAX_STOPS + 1];
} HsBound;

HsBound *hs_bound_new (const HsFrame *frame);
void hs_bound_free (HsBound *bound);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsBound, hs_bound_free)

gint64 hs_bound_seconds (const HsBound *bound, const HsFrame *frame, guint64 done, guint last);
gint64 hs_bound_units (const HsBound *bound, const HsFrame *frame, guint64 done, guint last);
gint64 hs_bound_both (const HsBound *bound, const HsFrame *frame, guint64 done, guint last);

/* Whether to stop; remembers in search->cut. */
gboolean hs_search_gives_up (HsSearch *search);

/* Looks for an order under @terms that is better than @best (HS_FINISH_WORST: any); improves @best and @order. The
 * answer is exact unless search->cut or search->bit (the budget bit) is set. Returns whether one was found. */
gboolean hs_search_run (HsSearch *search, const HsFrame *frame, const HsBound *bound, const HsTerms *terms,
                        HsFinish *best, guint *order);

G_END_DECLS
