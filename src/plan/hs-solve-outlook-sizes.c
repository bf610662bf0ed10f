// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How large the table of an outlook is: which steps of time, how many calls a stop remembers, which counters count. */

#include "hs-solve-outlook-private.h"

#include "hs-solve-drive.h"

#define LEAST_STEP 5
#define MAX_SUM (1 << 26)

static gboolean
may_serve (const HsOutlook *outlook, guint node)
{
  const HsNode *it = &outlook->frame->nodes[node];

  return it->n_open > 0 && (node >= outlook->frame->n_calls || (it->vans >> outlook->van & 1) != 0);
}

/* Sizes ------------------------------------------------------------------------------------------------------------ */

/* Between two calls at least, from being free to being free. */
static gint32
shortest_step (const HsOutlook *outlook)
{
  const HsSolveFrame *frame = outlook->frame;
  gint32 least = HS_SOLVE_FAR;

  for (guint i = 0; i < frame->n_nodes; i++)
    for (guint j = 0; j < frame->n_calls; j++)
      if (i != j && may_serve (outlook, i) && may_serve (outlook, j))
        least = MIN (least, hs_solve_frame_seconds (frame, i, j) + frame->nodes[j].service);
  return least;
}

static void
fill_times (HsOutlook *outlook, guint node)
{
  const HsSolveFrame *frame = outlook->frame;
  const HsNode *it = &frame->nodes[node];
  const HsVan *van = hs_problem_get_van (frame->problem, outlook->van);
  gint32 first = outlook->base + hs_solve_frame_reach (frame, hs_solve_frame_start (frame, outlook->van), node);
  gint32 last;
  HsOutlookSpot *spot = &outlook->spots[node];

  spot->first = spot->n_times = 0;
  if (!may_serve (outlook, node))
    return;
  first = MAX (first, it->open[0].first) + it->service;
  last = it->open_last + it->service;
  if (outlook->owes)
    last = MAX (last, van->break_span.to_seconds);
  last = MIN (last, outlook->home_by - hs_solve_frame_reach (frame, node, hs_solve_frame_end (frame, outlook->van)));
  if (first > last)
    return;
  spot->first = hs_outlook_floor_div (first, outlook->width);
  spot->n_times = hs_outlook_floor_div (last, outlook->width) - spot->first + 1;
}

static gboolean
is_near (const guint64 *near, guint n_words, guint node, guint call)
{
  return near == NULL || (near[(gsize) node * n_words + call / 64] >> call % 64 & 1) != 0;
}

/* The nearest of the calls that may be remembered. */
static void
fill_near (HsOutlook *outlook, const guint64 *near, guint n_words, guint node, guint most)
{
  const HsSolveFrame *frame = outlook->frame;
  HsOutlookSpot *spot = &outlook->spots[node];
  gint32 ways[HS_OUTLOOK_MAX_NEAR];

  spot->n_near = 0;
  for (guint i = 0; i < frame->n_calls; i++)
    {
      gint32 way = hs_solve_frame_reach (frame, i, node) + hs_solve_frame_reach (frame, node, i);
      guint at = spot->n_near;

      if (i == node || !may_serve (outlook, i) || !is_near (near, n_words, node, i))
        continue;
      for (; at > 0 && ways[at - 1] > way; at--)
        if (at < most)
          {
            ways[at] = ways[at - 1];
            spot->near[at] = spot->near[at - 1];
          }
      if (at == most)
        continue;
      ways[at] = way;
      spot->near[at] = i;
      spot->n_near = MIN (spot->n_near + 1, most);
    }
}

static gsize
count_cells (HsOutlook *outlook)
{
  gsize n = 0;

  outlook->n_leasts = 0;
  for (guint node = 0; node < outlook->frame->n_nodes; node++)
    {
      HsOutlookSpot *spot = &outlook->spots[node];

      fill_times (outlook, node);
      spot->at = n;
      n += ((gsize) outlook->n_rooms << spot->n_near) * (gsize) spot->n_times;
      spot->least_at = outlook->n_leasts;
      outlook->n_leasts += ((gsize) outlook->n_rooms << spot->n_near) * (gsize) hs_outlook_strides (spot);
    }
  return n;
}

/* The closest look that there is room for; 0 if there is none. */
static gsize
choose_sizes (HsOutlook *outlook, const guint64 *near, guint n_words, gsize max_cells)
{
  static const struct
  {
    guint near;
    gint32 width;
  } looks[] = { { 8, 15 }, { 8, 30 }, { 7, 30 }, { 7, 60 }, { 6, 60 }, { 5, 60 },
                { 4, 60 }, { 3, 60 }, { 2, 60 }, { 1, 60 }, { 0, 60 } };
  gint32 step = shortest_step (outlook);

  if (step < LEAST_STEP)
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      gsize n;

      outlook->width = MIN (looks[i].width, step);
      outlook->block = step / outlook->width;
      for (guint node = 0; node < outlook->frame->n_nodes; node++)
        fill_near (outlook, near, n_words, node, looks[i].near);
      n = count_cells (outlook);
      if (n <= max_cells)
        return n + 1;
    }
  return 0;
}

/* What counters can be of use; where that would be too much, all count as seen from the beginning. That may be done
 * only where none is worth a stop for anything but its parts: for a shorter way, or to have the break there. */
static void
fill_rooms (HsOutlook *outlook, gboolean all_seen)
{
  const HsSolveFrame *frame = outlook->frame;
  guint32 useful = all_seen ? 0 : hs_solve_drive_useful (frame, outlook->van);

  outlook->all_seen = all_seen;
  outlook->n_counters = 0;
  for (; useful != 0; useful &= useful - 1)
    outlook->counters[outlook->n_counters++] = (guint) __builtin_ctz (useful);
  outlook->owes = hs_problem_get_van (frame->problem, outlook->van)->break_seconds > 0;
  outlook->n_rooms = 1u << (outlook->n_counters + (outlook->owes ? 1 : 0));
}

/* Costs ------------------------------------------------------------------------------------------------------------ */

static guint32
seen_of (const HsOutlook *outlook, guint room)
{
  guint32 seen = outlook->all_seen ? G_MAXUINT32 : 0;

  for (guint k = 0; k < outlook->n_counters; k++)
    if ((room >> k & 1) != 0)
      seen |= 1u << outlook->counters[k];
  return seen;
}

/* So that no sum is too much for a cell: a day has only so many stops. */
void
hs_outlook_choose_quantum (HsOutlook *outlook)
{
  const HsSolveFrame *frame = outlook->frame;
  gint64 stops = (outlook->home_by - outlook->base) / (outlook->width * outlook->block) + 2 + outlook->n_counters;
  gint64 most = 0;
  gint64 sum;

  for (guint i = 0; i < frame->dim * frame->dim; i++)
    most = MAX (most, frame->units[i]);
  sum = most;
  for (guint i = 0; i < frame->n_calls; i++)
    {
      gint64 bought = 0;

      for (guint k = 0; k < frame->nodes[i].n_needs; k++)
        {
          const HsPart *part = &frame->parts[frame->nodes[i].needs[k]];

          bought += part->n_sellers > 0 ? part->units[part->n_sellers - 1] : 0;
        }
      sum = MAX (sum, most + bought + ABS (outlook->prizes[i]));
    }
  sum = sum * stops + (gint64) (outlook->home_by - outlook->base) * frame->second_units;
  outlook->quantum = 1 + sum / MAX_SUM;
}

/* What the parts of each call cost after what was seen. */
static void
fill_parts (HsOutlook *outlook)
{
  const HsSolveFrame *frame = outlook->frame;

  outlook->parts = g_new (gint64, (gsize) outlook->n_rooms * frame->n_calls + 1);
  for (guint room = 0; room < outlook->n_rooms; room++)
    for (guint i = 0; i < frame->n_calls; i++)
      outlook->parts[room * frame->n_calls + i]
          = hs_solve_bound_parts (frame, outlook->van, i, seen_of (outlook, room));
}

static void
fill_map (HsOutlook *outlook, guint from, guint to)
{
  const HsOutlookSpot *here = &outlook->spots[from];
  const HsOutlookSpot *there = &outlook->spots[to];
  guint8 *map = hs_outlook_map (outlook, from, to);
  guint8 bits[HS_OUTLOOK_MAX_NEAR] = { 0 };

  map[0] = 0;
  for (guint k = 0; k < there->n_near; k++)
    {
      map[0] |= (guint8) ((there->near[k] == from) << k);
      for (guint m = 0; m < here->n_near; m++)
        bits[m] |= (guint8) ((here->near[m] == there->near[k]) << k);
    }
  for (guint set = 1; set < 1u << here->n_near; set++)
    map[set] = map[set & (set - 1)] | bits[__builtin_ctz (set)];
}

HsOutlook *
hs_solve_outlook_new (const HsSolveFrame *frame, guint van, const guint64 *near, guint n_words, gsize max_cells)
{
  g_autoptr (HsOutlook) outlook = g_new0 (HsOutlook, 1);

  outlook->frame = frame;
  outlook->van = van;
  outlook->base = hs_problem_get_van (frame->problem, van)->leave_from_seconds;
  outlook->home_by = hs_problem_get_van (frame->problem, van)->home_by_seconds;
  outlook->spots = g_new0 (HsOutlookSpot, frame->n_nodes + 1);
  outlook->prizes = g_new0 (gint64, frame->n_calls + 1);
  fill_rooms (outlook, FALSE);
  outlook->n_cells = choose_sizes (outlook, near, n_words, max_cells);
  if (outlook->n_cells == 0 && frame->short_cuts == 0 && !outlook->owes)
    {
      fill_rooms (outlook, TRUE);
      outlook->n_cells = choose_sizes (outlook, near, n_words, max_cells);
    }
  if (outlook->n_cells == 0)
    return NULL;
  fill_parts (outlook);
  outlook->maps = g_new (guint8, ((gsize) frame->n_nodes * frame->n_nodes << HS_OUTLOOK_MAX_NEAR) + 1);
  for (guint i = 0; i < frame->n_nodes; i++)
    for (guint j = 0; j < frame->n_nodes; j++)
      fill_map (outlook, i, j);
  outlook->cells = g_new (gint32, outlook->n_cells);
  outlook->leasts = g_new (gint32, outlook->n_leasts + 1);
  return g_steal_pointer (&outlook);
}

void
hs_solve_outlook_free (HsOutlook *outlook)
{
  if (outlook == NULL)
    return;
  g_free (outlook->spots);
  g_free (outlook->prizes);
  g_free (outlook->parts);
  g_free (outlook->maps);
  g_free (outlook->cells);
  g_free (outlook->leasts);
  g_free (outlook);
}

gint32
hs_solve_outlook_width (const HsOutlook *outlook)
{
  return outlook->width;
}

gsize
hs_solve_outlook_cells (const HsOutlook *outlook)
{
  return outlook->n_cells;
}
