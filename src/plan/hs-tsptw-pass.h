// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tsptw-tails.h"

G_BEGIN_DECLS

/* One search through a way (private to this layer): paths from the depot, each described by the stops that it
 * remembers, its last stop, its time and its cost. Of two that agree in stops remembered and last stop the one that is
 * no worse in all else is kept.
 *
 * A path that remembers all its stops never comes back to one, and only whole tours reach the depot again: the search
 * is exact. One that remembers only near stops may come back to a stop that it has forgotten, and may leave stops out;
 * it then bounds the cost of every tour from below, since tours are among its paths. */

/**
 * HsTsptwLabel: a path.
 * @parent: without its last stop; 0: none
 * @count: of stops
 * @dead: another one beats it
 */
typedef struct
{
  gint64 time;
  gint64 cost;
  guint32 parent;
  guint32 chain;
  guint32 queue;
  guint16 node;
  guint16 count : 15;
  guint16 dead : 1;
} HsTsptwLabel;

/** HsTsptwSlot: the paths that remember the same at the same node: @tag is part of a hash, @label the first of them. */
typedef struct
{
  guint32 tag;
  guint32 label;
} HsTsptwSlot;

/**
 * HsTsptwAsk: what a search is asked.
 * @memory: a set for each node: what a path that is there may remember; %NULL: everything
 * @scale: cost units for each unit of driving; 0: driving is free
 * @prize: cost units that each visit of a node gives back
 * @tails: (nullable): what the rest of a path costs at least; then paths that can't end within @budget are cut off
 * @budget: a whole path that costs more is of no interest
 * @max_away: (for durations) a tour that takes longer is of no interest
 * @measure_away: paths know when they had to leave, and the least time away counts, not the cost
 * @max_labels: the search ends when it has kept so many
 */
typedef struct
{
  const guint64 *memory;
  gint64 scale;
  const gint64 *prize;
  const HsTsptwTails *tails;
  gint64 budget;
  gint64 max_away;
  gboolean measure_away;
  gsize max_labels;
  HsPlanGiveUp give_up;
  gpointer user_data;
} HsTsptwAsk;

/**
 * HsTsptwPass: what came out. A tour was found where @last is not 0.
 * @labels, @sets: the paths kept, from index 1, and what each remembers
 * @cost: of the best whole path, in units; with @measure_away its time away
 * @home_time: when it is home, in the time of the way
 * @last: its last label
 * @complete: the search went to its end; otherwise it was told to give up (@cut) or was full
 * @used: a set for each node: the legs that were taken
 */
typedef struct
{
  const HsTsptwWay *way;
  HsTsptwAsk ask;
  HsTsptwLabel *labels;
  guint64 *sets;
  gint64 *leaves;
  gint64 *driven;
  guint32 n_labels;
  guint32 space;
  HsTsptwSlot *slots;
  guint32 n_slots;
  guint32 n_keys;
  guint32 *buckets;
  guint n_buckets;
  gint64 bucket_width;
  guint64 *used;
  gint64 cost;
  gint64 home_time;
  guint32 last;
  gboolean complete;
  gboolean cut;
} HsTsptwPass;

/**
 * hs_tsptw_pass_run:
 *
 * Sets @way's step costs from @ask. Where it is already proven that there is no tour, nothing is searched, and the
 * search is complete without having found one.
 */
HsTsptwPass *hs_tsptw_pass_run (HsTsptwWay *way, const HsTsptwAsk *ask);

void hs_tsptw_pass_free (HsTsptwPass *pass);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsptwPass, hs_tsptw_pass_free)

/**
 * hs_tsptw_pass_trace:
 * @order: room for @max stops
 *
 * Returns: how many stops the best whole path has, in the order in which the vehicle comes there; at most @max are
 * written
 */
guint hs_tsptw_pass_trace (const HsTsptwPass *pass, guint16 *order, guint max);

/** hs_tsptw_pass_make_tails: (transfer full): the paths of a search as what the other way's paths can end with. */
HsTsptwTails *hs_tsptw_pass_make_tails (const HsTsptwPass *pass);

G_END_DECLS
