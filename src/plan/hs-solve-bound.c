// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the rest of a day costs at the very least. */

#include "hs-solve-bound.h"

#include "hs-assign.h"
#include "hs-solve-outlook.h"

/* So many cells the table may have: 40 MB. */
#define MAX_CELLS 2500000
#define MAX_TABLE_NODES 18

/* 96 MB. */
#define MAX_OUTLOOK_CELLS 12000000

struct _HsSolveBound
{
  const HsSolveFrame *frame;
  HsRest *table;
  HsRest *fresh;
  guint n;
  gint64 *row_units[2];
  gint64 *column_units[2];
  gint64 *legs[2];
  HsOutlook *outlook;
  gint64 *prizes;
};

static const HsRest no_rest = { HS_SOLVE_NO_UNITS, HS_SOLVE_NO_UNITS };

static void
rest_take (HsRest *best, const HsRest *rest, gint64 units, gint64 mile_units)
{
  best->units = MIN (best->units, rest->units + units);
  best->mile_units = MIN (best->mile_units, rest->mile_units + mile_units);
}

gint64
hs_solve_bound_parts (const HsSolveFrame *frame, guint van, guint i, guint32 seen)
{
  gint64 units = 0;

  for (guint k = 0; k < frame->nodes[i].n_needs; k++)
    {
      const HsPart *part = &frame->parts[frame->nodes[i].needs[k]];
      guint s = 0;

      if (part->carried[van] > 0)
        continue;
      while (s < part->n_sellers && (seen >> part->sellers[s] & 1) == 0)
        s++;
      if (s == part->n_sellers)
        return HS_SOLVE_NO_UNITS;
      units += part->units[s];
    }
  return units;
}

static gsize
cell_of (const HsSolveBound *bound, guint van, gsize mask, guint node)
{
  return (((gsize) van << bound->n) + mask) * bound->n + node;
}

static gint64
leg_units (const HsSolveFrame *frame, guint from, guint to)
{
  return (gint64) hs_solve_frame_seconds (frame, from, to) * frame->second_units
         + hs_solve_frame_units (frame, from, to);
}

/* Goes on from node @from of @van to every node that @mask leaves. */
static HsRest
table_next (const HsSolveBound *bound, guint van, gsize mask, guint from, const gint64 *parts)
{
  const HsSolveFrame *frame = bound->frame;
  HsRest best = no_rest;

  for (gsize left = ~mask & (((gsize) 1 << bound->n) - 1); left != 0; left &= left - 1)
    {
      guint to = (guint) __builtin_ctzll (left);
      const HsNode *node = &frame->nodes[to];
      const HsRest *rest = &bound->table[cell_of (bound, van, mask | ((gsize) 1 << to), to)];
      gint64 bought = to < frame->n_calls ? parts[to] : 0;

      if (bought == HS_SOLVE_NO_UNITS || rest->units >= HS_SOLVE_NO_UNITS || (node->vans >> van & 1) == 0)
        continue;
      rest_take (&best, rest, leg_units (frame, from, to) + node->service * frame->second_units + bought,
                 hs_solve_frame_units (frame, from, to) + bought);
    }
  return best;
}

static void
table_close (const HsSolveBound *bound, guint van, gsize calls, guint from, HsRest *best)
{
  const HsSolveFrame *frame = bound->frame;
  const HsRest *rest = &bound->fresh[((gsize) (van + 1) << frame->n_calls) + calls];
  guint end = hs_solve_frame_end (frame, van);

  if (rest->units < HS_SOLVE_NO_UNITS)
    rest_take (best, rest, leg_units (frame, from, end), hs_solve_frame_units (frame, from, end));
}

static void
fill_mask (HsSolveBound *bound, guint van, gsize mask)
{
  const HsSolveFrame *frame = bound->frame;
  gsize calls = mask & (((gsize) 1 << frame->n_calls) - 1);
  guint32 seen = (guint32) (mask >> frame->n_calls);
  gint64 parts[MAX_TABLE_NODES];

  for (guint i = 0; i < frame->n_calls; i++)
    parts[i] = hs_solve_bound_parts (frame, van, i, seen);
  for (gsize at = mask; at != 0; at &= at - 1)
    {
      guint node = (guint) __builtin_ctzll (at);
      HsRest best = table_next (bound, van, mask, node, parts);

      table_close (bound, van, calls, node, &best);
      bound->table[cell_of (bound, van, mask, node)] = best;
    }
  if (seen == 0)
    {
      HsRest best = table_next (bound, van, mask, hs_solve_frame_start (frame, van), parts);
      const HsRest *unused = &bound->fresh[((gsize) (van + 1) << frame->n_calls) + calls];

      rest_take (&best, unused, 0, 0);
      bound->fresh[((gsize) van << frame->n_calls) + calls] = best;
    }
}

static void
fill_table (HsSolveBound *bound)
{
  const HsSolveFrame *frame = bound->frame;
  gsize sets = (gsize) 1 << frame->n_calls;

  bound->table = g_new (HsRest, ((gsize) frame->n_vans << bound->n) * bound->n + 1);
  bound->fresh = g_new (HsRest, (frame->n_vans + 1) * sets);
  for (gsize calls = 0; calls < sets; calls++)
    bound->fresh[frame->n_vans * sets + calls] = calls == sets - 1 ? (HsRest){ 0, 0 } : no_rest;
  for (guint van = frame->n_vans; van-- > 0;)
    for (gsize mask = (gsize) 1 << bound->n; mask-- > 0;)
      fill_mask (bound, van, mask);
}

/* Calls, then a row for each van's start and a column for each van's end. A leg costs the shortest way there, whatever
 * lies between, and what is done and bought at its end. */
static void
fill_legs (HsSolveBound *bound, guint which)
{
  const HsSolveFrame *frame = bound->frame;
  guint n = bound->n;
  guint dim = frame->dim;
  g_autofree gint64 *way = g_new (gint64, dim * dim);

  for (guint i = 0; i < dim; i++)
    for (guint j = 0; j < dim; j++)
      way[i * dim + j] = which == 0 ? leg_units (frame, i, j) : hs_solve_frame_units (frame, i, j);
  for (guint k = 0; k < frame->n_nodes; k++)
    for (guint i = 0; i < dim; i++)
      for (guint j = 0; j < dim; j++)
        if (i != j)
          way[i * dim + j] = MIN (way[i * dim + j], way[i * dim + k] + way[k * dim + j]);
  bound->legs[which] = g_new (gint64, dim * n);
  for (guint i = 0; i < dim; i++)
    for (guint j = 0; j < n; j++)
      {
        guint to = j < frame->n_calls ? j : hs_solve_frame_end (frame, j - frame->n_calls);

        bound->legs[which][i * n + j] = way[i * dim + to];
      }
}

static gint64
cheapest_parts (const HsSolveFrame *frame, guint i)
{
  gint64 best = HS_SOLVE_NO_UNITS;

  for (guint v = 0; v < frame->n_vans; v++)
    if ((frame->nodes[i].vans >> v & 1) != 0)
      best = MIN (best, hs_solve_bound_parts (frame, v, i, ~0u));
  return best;
}

/* The frame's node that row @row of the assignment stands for. */
static guint
row_node (const HsSolveBound *bound, guint row)
{
  const HsSolveFrame *frame = bound->frame;

  return row < frame->n_calls ? row : hs_solve_frame_start (frame, row - frame->n_calls);
}

static gint64
assignment_cost (const HsSolveBound *bound, guint which, guint row, guint column)
{
  const HsSolveFrame *frame = bound->frame;

  if (row == column)
    return row < frame->n_calls ? HS_SOLVE_NO_UNITS >> 16 : 0;
  return bound->legs[which][row_node (bound, row) * bound->n + column];
}

/* Afterwards cost (i, j) ≥ row_units[i] + column_units[j] everywhere. */
static void
solve_assignment (HsSolveBound *bound, guint which)
{
  guint n = bound->n;
  g_autofree gint64 *costs = g_new (gint64, n * n);

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      costs[i * n + j] = assignment_cost (bound, which, i, j);
  bound->row_units[which] = g_new (gint64, n);
  bound->column_units[which] = g_new (gint64, n);
  hs_assign (costs, n, NULL, NULL, bound->row_units[which], bound->column_units[which]);
}

static void
fill_duals (HsSolveBound *bound)
{
  const HsSolveFrame *frame = bound->frame;

  bound->n = frame->n_calls + frame->n_vans;
  for (guint which = 0; which < 2; which++)
    {
      fill_legs (bound, which);
      for (guint j = 0; j < frame->n_calls; j++)
        {
          gint64 more = MIN (cheapest_parts (frame, j), HS_SOLVE_NO_UNITS >> 16);

          if (which == 0)
            more += frame->nodes[j].service * frame->second_units;
          for (guint i = 0; i < frame->dim; i++)
            bound->legs[which][i * bound->n + j] += more;
        }
      solve_assignment (bound, which);
    }
}

HsSolveBound *
hs_solve_bound_new_quick (const HsSolveFrame *frame)
{
  HsSolveBound *bound = g_new0 (HsSolveBound, 1);

  bound->frame = frame;
  fill_duals (bound);
  return bound;
}

HsSolveBound *
hs_solve_bound_new (const HsSolveFrame *frame)
{
  HsSolveBound *bound = g_new0 (HsSolveBound, 1);

  bound->frame = frame;
  bound->n = frame->n_nodes;
  if (bound->n <= MAX_TABLE_NODES && ((gsize) frame->n_vans << bound->n) * bound->n <= MAX_CELLS)
    fill_table (bound);
  else
    fill_duals (bound);
  return bound;
}

void
hs_solve_bound_free (HsSolveBound *bound)
{
  if (bound == NULL)
    return;
  hs_solve_outlook_free (bound->outlook);
  g_free (bound->prizes);
  g_free (bound->table);
  g_free (bound->fresh);
  for (guint which = 0; which < 2; which++)
    {
      g_free (bound->row_units[which]);
      g_free (bound->column_units[which]);
      g_free (bound->legs[which]);
    }
  g_free (bound);
}

/* What leaving node @last costs at least over the duals of where it may lead; a van that stays is home for nothing. */
static gint64
leave_least (const HsSolveBound *bound, guint which, guint64 left, guint van, guint last)
{
  const HsSolveFrame *frame = bound->frame;
  const gint64 *legs = &bound->legs[which][last * bound->n];
  gint64 home = last >= frame->n_nodes ? 0 : legs[frame->n_calls + van];
  gint64 least = home - bound->column_units[which][frame->n_calls + van];

  for (; left != 0; left &= left - 1)
    {
      guint j = (guint) __builtin_ctzll (left);

      least = MIN (least, legs[j] - bound->column_units[which][j]);
    }
  return least;
}

static gint64
duals_rest (const HsSolveBound *bound, guint which, guint64 left, guint van, guint last)
{
  const HsSolveFrame *frame = bound->frame;
  const gint64 *u = bound->row_units[which];
  const gint64 *v = bound->column_units[which];
  gint64 units = leave_least (bound, which, left, van, last);

  for (guint64 rest = left; rest != 0; rest &= rest - 1)
    {
      guint j = (guint) __builtin_ctzll (rest);

      units += u[j] + v[j];
    }
  for (guint w = van; w < frame->n_vans; w++)
    units += v[frame->n_calls + w] + (w > van ? u[frame->n_calls + w] : 0);
  return MAX (units, 0);
}

HsRest
hs_solve_bound_rest (const HsSolveBound *bound, guint64 calls, guint32 seen, guint van, guint last)
{
  const HsSolveFrame *frame = bound->frame;
  guint64 all = frame->n_calls == 64 ? ~G_GUINT64_CONSTANT (0) : (G_GUINT64_CONSTANT (1) << frame->n_calls) - 1;

  if (bound->table != NULL && last >= frame->n_nodes)
    return bound->fresh[((gsize) van << frame->n_calls) + calls];
  if (bound->table != NULL)
    return bound->table[cell_of (bound, van, calls | (gsize) seen << frame->n_calls, last)];
  if (last >= frame->n_nodes && (all & ~calls) == 0)
    return (HsRest){ 0, 0 };
  return (HsRest){
    .units = duals_rest (bound, 0, all & ~calls, van, last),
    .mile_units = duals_rest (bound, 1, all & ~calls, van, last),
  };
}

gint64
hs_solve_bound_root (const HsSolveBound *bound)
{
  gint64 units = 0;

  if (bound->table != NULL)
    return bound->fresh[0].units;
  for (guint i = 0; i < bound->n; i++)
    units += bound->row_units[0][i] + bound->column_units[0][i];
  return MAX (units, 0);
}

gboolean
hs_solve_bound_look (HsSolveBound *bound, HsExact *exact, const gint64 *prizes)
{
  const HsSolveFrame *frame = bound->frame;
  g_autoptr (HsOutlook) outlook = NULL;

  if (frame->n_vans > 1 || frame->n_calls > 64)
    return FALSE;
  outlook = hs_solve_outlook_new (frame, 0, NULL, 0, MAX_OUTLOOK_CELLS);
  if (outlook == NULL || !hs_solve_outlook_fill (outlook, exact, prizes))
    return FALSE;
  g_free (bound->prizes);
  bound->prizes = g_memdup2 (prizes, frame->n_calls * sizeof (gint64));
  hs_solve_outlook_free (bound->outlook);
  bound->outlook = g_steal_pointer (&outlook);
  return TRUE;
}

gint64
hs_solve_bound_outlook (const HsSolveBound *bound, guint64 calls, guint32 seen, guint last, gint32 ready, gint64 flat,
                        gint64 slope)
{
  const HsSolveFrame *frame = bound->frame;
  gint64 units;

  if (bound->outlook == NULL || last >= frame->n_nodes)
    return 0;
  units = hs_solve_outlook_least (bound->outlook, last, &calls, seen, ready, flat, slope);
  for (guint i = 0; i < frame->n_calls && units < HS_SOLVE_NO_UNITS; i++)
    units += (calls >> i & 1) == 0 ? bound->prizes[i] : 0;
  return units;
}
