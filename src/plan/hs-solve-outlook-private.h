// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-outlook.h"

G_BEGIN_DECLS

/* The table of an outlook, and where in it what is found (for its own files alone). */

#define HS_OUTLOOK_MAX_NEAR 8
#define HS_OUTLOOK_INFINITE (1 << 30)
#define HS_OUTLOOK_FINITE (1 << 29)

/* So many steps have their least kept. */
#define HS_OUTLOOK_STRIDE 16

/* @near: the calls that are remembered; @first: step of time at which it can be left at the earliest
 * @at: of its rows in the table: for each of what was seen, for each set of near calls, times
 * @least_at: the same of the least of each stride */
typedef struct
{
  guint n_near;
  guint near[HS_OUTLOOK_MAX_NEAR];
  gint32 first;
  gint32 n_times;
  gsize at;
  gsize least_at;
} HsOutlookSpot;

/* @rooms: what can have been seen: counters that may be of use, and above them whether the break was had
 * @quantum: units that one in the table stands for
 * @maps: for each pair of nodes what is remembered at the second, by what was at the first */
struct _HsOutlook
{
  const HsSolveFrame *frame;
  gint64 *prizes;
  guint van;
  gint32 base;
  gint32 home_by;
  gint32 width;
  gint32 block;
  gint64 quantum;
  guint n_counters;
  guint counters[HS_PROBLEM_MAX_COUNTERS];
  gboolean all_seen;
  gboolean owes;
  guint n_rooms;
  HsOutlookSpot *spots;
  gint64 *parts;
  guint8 *maps;
  gsize n_cells;
  gint32 *cells;
  gsize n_leasts;
  gint32 *leasts;
};

static inline gint32
hs_outlook_floor_div (gint32 a, gint32 b)
{
  return a >= 0 ? a / b : -((b - 1 - a) / b);
}

static inline gint32
hs_outlook_strides (const HsOutlookSpot *spot)
{
  return (spot->n_times + HS_OUTLOOK_STRIDE - 1) / HS_OUTLOOK_STRIDE;
}

static inline gint32
hs_outlook_to_cells (const HsOutlook *outlook, gint64 units)
{
  return (gint32) (units >= 0 ? units / outlook->quantum : -((outlook->quantum - 1 - units) / outlook->quantum));
}

static inline gsize
hs_outlook_row_index (const HsOutlookSpot *spot, guint room, guint set)
{
  return ((gsize) room << spot->n_near) + set;
}

static inline gint32 *
hs_outlook_row (const HsOutlook *outlook, guint node, guint room, guint set)
{
  const HsOutlookSpot *spot = &outlook->spots[node];

  return &outlook->cells[spot->at + hs_outlook_row_index (spot, room, set) * (gsize) spot->n_times];
}

static inline guint8 *
hs_outlook_map (const HsOutlook *outlook, guint from, guint to)
{
  return &outlook->maps[((gsize) from * outlook->frame->n_nodes + to) << HS_OUTLOOK_MAX_NEAR];
}

static inline guint
hs_outlook_room (const HsOutlook *outlook, guint32 seen)
{
  guint room = outlook->owes && (seen & HS_SOLVE_HAD_BREAK) != 0 ? 1u << outlook->n_counters : 0;

  for (guint k = 0; k < outlook->n_counters; k++)
    room |= (seen >> outlook->counters[k] & 1) << k;
  return room;
}

/* For the prizes as they stand: so that no sum is too much for a cell. */
void hs_outlook_choose_quantum (HsOutlook *outlook);

G_END_DECLS
