// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A narrow search that is led by what the rest of a path costs at least. */

#include "hs-tsptw-beam.h"

/**
 * Path:
 * @rank: its cost and the least for the rest
 * @parent: index among all kept paths
 */
typedef struct
{
  gint64 time;
  gint64 cost;
  gint64 rank;
  guint32 parent;
  guint16 node;
  guint64 set[HS_SET_MAX_WORDS];
} Path;

typedef struct
{
  HsTsptwWay *way;
  const HsTsptwAsk *ask;
  GArray *kept;
  GArray *next;
} Beam;

static int
compare_paths (const void *a, const void *b)
{
  const Path *left = a;
  const Path *right = b;

  if (left->rank != right->rank)
    return left->rank < right->rank ? -1 : 1;
  if (left->time != right->time)
    return left->time < right->time ? -1 : 1;
  if (left->node != right->node)
    return (int) left->node - (int) right->node;
  return left->parent < right->parent ? -1 : left->parent > right->parent;
}

static gboolean
is_open (const HsTsptwWay *way, const Path *path)
{
  const guint64 *missed = hs_tsptw_way_missed (way, path->node, path->time);

  return missed == NULL || hs_set_is_within (missed, path->set, way->words);
}

static void
try_step (Beam *beam, const Path *from, guint32 parent, const HsTsptwStep *step)
{
  const HsTsptwAsk *ask = beam->ask;
  Path path = *from;
  guint32 tail;
  gint64 rest;

  if (hs_set_has (path.set, step->to)
      || !hs_set_is_within (beam->way->before + step->to * beam->way->words, path.set, beam->way->words))
    return;
  path.time = MAX (beam->way->from[step->to], from->time + step->drive);
  path.cost += step->drive * ask->scale - ask->prize[step->to];
  path.node = step->to;
  path.parent = parent;
  hs_set_add (path.set, step->to);
  rest = ask->budget - path.cost;
  if (!is_open (beam->way, &path) || !hs_tsptw_tails_reach (ask->tails, path.node, path.time, rest, &tail)
      || !hs_tsptw_tails_find (ask->tails, path.node, path.time, path.set, rest, &tail))
    return;
  path.rank = path.cost + ask->tails->tails[tail].cost + ask->prize[path.node];
  g_array_append_val (beam->next, path);
}

static void
expand (Beam *beam, guint32 parent)
{
  const HsTsptwWay *way = beam->way;
  Path from = g_array_index (beam->kept, Path, parent);

  for (guint i = way->first_step[from.node]; i < way->first_step[from.node + 1]; i++)
    if (from.time <= way->steps[i].limit)
      try_step (beam, &from, parent, &way->steps[i]);
}

/* Whether one of the paths from @first on has the same stops and last stop and is no worse. */
static gboolean
is_beaten (const Beam *beam, guint32 first, const Path *path)
{
  for (guint32 i = first; i < beam->kept->len; i++)
    {
      const Path *kept = &g_array_index (beam->kept, Path, i);

      if (kept->node == path->node && kept->time <= path->time && kept->cost <= path->cost
          && hs_set_equals (kept->set, path->set, beam->way->words))
        return TRUE;
    }
  return FALSE;
}

/* Goes on from the paths from @first to @end; the index of the first path one stop longer. */
static guint32
go_on (Beam *beam, guint32 first, guint32 end, guint width)
{
  g_array_set_size (beam->next, 0);
  for (guint32 i = first; i < end; i++)
    expand (beam, i);
  g_array_sort (beam->next, compare_paths);
  for (guint32 i = 0; i < beam->next->len && beam->kept->len - end < width; i++)
    {
      const Path *path = &g_array_index (beam->next, Path, i);

      if (!is_beaten (beam, end, path))
        g_array_append_vals (beam->kept, path, 1);
    }
  return end;
}

/* The cheapest of the whole paths from @first on, with the way home. */
static gboolean
find_best (const Beam *beam, guint32 first, guint32 *ret_best)
{
  const HsTsptwWay *way = beam->way;
  gint64 least = beam->ask->budget;
  gboolean found = FALSE;

  for (guint32 i = first; i < beam->kept->len; i++)
    {
      const Path *path = &g_array_index (beam->kept, Path, i);
      gint64 home = way->home[path->node];

      if (home >= HS_TSPTW_FAR || path->time + home > way->end || path->cost + home * beam->ask->scale > least)
        continue;
      least = path->cost + home * beam->ask->scale;
      *ret_best = i;
      found = TRUE;
    }
  return found;
}

static gboolean
gives_up (const HsTsptwAsk *ask)
{
  return ask->give_up != NULL && ask->give_up (ask->user_data);
}

gboolean
hs_tsptw_beam_run (HsTsptwWay *way, const HsTsptwAsk *ask, guint width, guint16 *order)
{
  g_autoptr (GArray) kept = g_array_new (FALSE, FALSE, sizeof (Path));
  g_autoptr (GArray) next = g_array_new (FALSE, FALSE, sizeof (Path));
  Beam beam = { way, ask, kept, next };
  Path start = { .time = way->start };
  guint32 first = 0;
  guint32 best = 0;

  g_array_append_val (kept, start);
  for (guint count = 1; count < way->n; count++)
    {
      first = go_on (&beam, first, kept->len, width);
      if (first == kept->len || gives_up (ask))
        return FALSE;
    }
  if (!find_best (&beam, first, &best))
    return FALSE;
  for (guint at = way->n - 1; at > 0; at--)
    {
      order[at - 1] = g_array_index (kept, Path, best).node;
      best = g_array_index (kept, Path, best).parent;
    }
  return TRUE;
}
