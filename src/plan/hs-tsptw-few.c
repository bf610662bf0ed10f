// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* All paths of one size are sorted by the set of their stops. Those with one set then stand together, and what they
 * become with one more stop is compared on the spot: nothing has to be looked up. */

#include "hs-tsptw-few.h"

#define ASK_EVERY 1024
#define FIRST_SPACE 4096

/* Of a trace: which path it goes on from, and its last stop below that. */
#define NODE_BITS 5
#define MAX_TRACES (G_MAXUINT32 >> NODE_BITS)

G_STATIC_ASSERT (HS_TSPTW_FEW_STOPS < 1 << NODE_BITS);

/**
 * Path:
 * @set: of its stops, a bit for each node
 * @trace: where it stands among the traces
 */
typedef struct
{
  gint64 time;
  gint64 cost;
  guint32 set;
  guint32 trace;
  guint16 node;
} Path;

typedef struct
{
  Path *paths;
  guint32 count;
  guint32 space;
} Paths;

/**
 * Walk:
 * @leg: from node to node, or %HS_TSPTW_FAR
 * @least_in, @least_out: the cheapest leg to and from each node
 * @now: the paths of one size, by their sets
 * @next: those of the next size
 * @front: those with the set and last stop at hand, by their times; each drives less than the one before
 * @first: for each set where its paths begin
 */
typedef struct
{
  const HsTsptwWay *way;
  HsTsptwFew *few;
  guint n;
  guint32 all;
  gint64 *leg;
  gint64 least_in[HS_TSPTW_FEW_STOPS + 1];
  gint64 least_out[HS_TSPTW_FEW_STOPS + 1];
  Paths now;
  Paths next;
  Paths front;
  guint32 *first;
  guint32 *traces;
  guint32 n_traces;
  guint32 trace_space;
  gint64 cost;
  guint32 last;
} Walk;

static void
make_room (Paths *paths)
{
  if (paths->count < paths->space)
    return;
  paths->space = paths->space == 0 ? FIRST_SPACE : 2 * paths->space;
  paths->paths = g_renew (Path, paths->paths, paths->space);
}

static void
lay_leg (Walk *walk, guint from, guint to, gint64 drive)
{
  walk->leg[from * walk->n + to] = drive;
  walk->least_in[to] = MIN (walk->least_in[to], drive);
  walk->least_out[from] = MIN (walk->least_out[from], drive);
}

static void
lay_legs (Walk *walk)
{
  const HsTsptwWay *way = walk->way;
  guint n = walk->n;

  walk->leg = g_new (gint64, n * n);
  for (guint i = 0; i < n * n; i++)
    walk->leg[i] = HS_TSPTW_FAR;
  for (guint node = 0; node < n; node++)
    walk->least_in[node] = walk->least_out[node] = HS_TSPTW_FAR;
  for (guint from = 0; from < n; from++)
    {
      if (from > 0)
        lay_leg (walk, from, 0, way->home[from]);
      for (guint i = way->first_step[from]; i < way->first_step[from + 1]; i++)
        lay_leg (walk, from, way->steps[i].to, way->steps[i].drive);
    }
}

/* What is driven at least from @node, when all stops but those in @set are left. */
static gint64
measure_rest (const Walk *walk, guint32 set, guint node)
{
  gint64 in = walk->least_in[0];
  gint64 out = walk->least_out[node];

  for (guint other = 1; other < walk->n; other++)
    if (!(set >> other & 1))
      {
        in = MIN (in + walk->least_in[other], HS_TSPTW_FAR);
        out = MIN (out + walk->least_out[other], HS_TSPTW_FAR);
      }
  return MAX (MAX (in, out), walk->way->near_home[node]);
}

/* Whether all that must come before @node is in @set. */
static gboolean
may_follow (const Walk *walk, guint32 set, guint node)
{
  return !(set >> node & 1) && (walk->way->before[node * walk->way->words] & ~(guint64) set) == 0;
}

static gboolean
misses_none (const Walk *walk, guint node, gint64 time, guint32 set)
{
  const guint64 *missed = hs_tsptw_way_missed (walk->way, node, time);

  return missed == NULL || (*missed & ~(guint64) set) == 0;
}

/* Puts @path in its place, unless one there is no later and drives no more, and takes out what it beats. */
static void
put_in_front (Paths *front, const Path *path)
{
  guint32 at = front->count;
  guint32 end;

  while (at > 0 && front->paths[at - 1].time > path->time)
    at--;
  if (at > 0 && front->paths[at - 1].cost <= path->cost)
    return;
  at -= at > 0 && front->paths[at - 1].time == path->time;
  for (end = at; end < front->count && front->paths[end].cost >= path->cost; end++)
    ;
  make_room (front);
  memmove (&front->paths[at + 1], &front->paths[end], (front->count - end) * sizeof (Path));
  front->paths[at] = *path;
  front->count += at + 1 - end;
}

/* What the paths from @first to @end, all with one set, become with @node. */
static void
fill_front (Walk *walk, guint32 first, guint32 end, guint node)
{
  const HsTsptwWay *way = walk->way;
  guint32 set = walk->now.paths[first].set | 1u << node;
  gint64 rest = measure_rest (walk, set, node);

  walk->front.count = 0;
  for (guint32 i = first; i < end; i++)
    {
      const Path *path = &walk->now.paths[i];
      gint64 leg = walk->leg[path->node * walk->n + node];
      Path next = { 0, path->cost + leg, set, path->trace, (guint16) node };

      if (leg >= HS_TSPTW_FAR || next.cost + rest > walk->few->budget)
        continue;
      next.time = MAX (way->from[node], path->time + leg);
      if (next.time <= way->to[node] && next.time + way->near_home[node] <= way->end
          && misses_none (walk, node, next.time, set))
        put_in_front (&walk->front, &next);
    }
}

static guint32
add_trace (Walk *walk, guint32 parent, guint node)
{
  if (walk->n_traces == walk->trace_space)
    {
      walk->trace_space = walk->trace_space == 0 ? FIRST_SPACE : 2 * walk->trace_space;
      walk->traces = g_renew (guint32, walk->traces, walk->trace_space);
    }
  walk->traces[walk->n_traces] = parent << NODE_BITS | node;
  return walk->n_traces++;
}

static void
keep_front (Walk *walk)
{
  for (guint32 i = 0; i < walk->front.count; i++)
    {
      Path *path = &walk->front.paths[i];

      make_room (&walk->next);
      path->trace = add_trace (walk, path->trace, path->node);
      walk->next.paths[walk->next.count++] = *path;
    }
}

static void
go_on (Walk *walk, guint32 first, guint32 end)
{
  guint32 set = walk->now.paths[first].set;

  for (guint node = 1; node < walk->n; node++)
    if (may_follow (walk, set, node))
      {
        fill_front (walk, first, end, node);
        keep_front (walk);
      }
}

/* Sorts the next paths by their sets, and they are the ones at hand. */
static void
turn_to_next (Walk *walk)
{
  guint32 sets = walk->all + 2;
  guint32 sum = 0;

  memset (walk->first, 0, sets * sizeof (guint32));
  for (guint32 i = 0; i < walk->next.count; i++)
    walk->first[walk->next.paths[i].set]++;
  for (guint32 set = 0; set < sets; set++)
    {
      guint32 count = walk->first[set];

      walk->first[set] = sum;
      sum += count;
    }
  walk->now.count = 0;
  while (walk->now.space < walk->next.count)
    {
      walk->now.count = walk->now.space;
      make_room (&walk->now);
    }
  for (guint32 i = 0; i < walk->next.count; i++)
    walk->now.paths[walk->first[walk->next.paths[i].set]++] = walk->next.paths[i];
  walk->now.count = walk->next.count;
  walk->next.count = 0;
}

static gboolean
has_to_stop (const Walk *walk)
{
  const HsTsptwFew *few = walk->few;

  return walk->n_traces > MIN (few->max_paths, MAX_TRACES - HS_TSPTW_FEW_STOPS)
         || (few->give_up != NULL && few->give_up (few->user_data));
}

/* All paths at hand with one more stop; FALSE when told to stop. */
static gboolean
go_one_on (Walk *walk)
{
  guint steps = 0;
  guint32 end;

  for (guint32 first = 0; first < walk->now.count; first = end)
    {
      for (end = first + 1; end < walk->now.count && walk->now.paths[end].set == walk->now.paths[first].set; end++)
        ;
      go_on (walk, first, end);
      if (++steps % ASK_EVERY == 0 && has_to_stop (walk))
        return FALSE;
    }
  return !has_to_stop (walk);
}

/* The cheapest of the whole paths at hand with its way home. */
static void
go_home (Walk *walk)
{
  for (guint32 i = 0; i < walk->now.count; i++)
    {
      const Path *path = &walk->now.paths[i];
      gint64 leg = walk->way->home[path->node];

      if (leg >= HS_TSPTW_FAR || path->time + leg > walk->way->end || path->cost + leg > walk->few->budget
          || (walk->few->found && path->cost + leg >= walk->cost))
        continue;
      walk->few->found = TRUE;
      walk->cost = path->cost + leg;
      walk->last = path->trace;
    }
}

static void
trace_back (const Walk *walk)
{
  guint32 trace = walk->last;

  for (guint at = walk->n - 1; at > 0; at--)
    {
      walk->few->order[at - 1] = walk->traces[trace] & ((1u << NODE_BITS) - 1);
      trace = walk->traces[trace] >> NODE_BITS;
    }
}

gboolean
hs_tsptw_few_run (const HsTsptwWay *way, HsTsptwFew *few)
{
  Walk walk = { .way = way, .few = few, .n = way->n, .all = (1u << way->n) - 2 };
  Path start = { way->start, 0, 0, 0, 0 };
  gboolean complete = TRUE;

  few->found = FALSE;
  lay_legs (&walk);
  walk.first = g_new (guint32, walk.all + 2);
  start.trace = add_trace (&walk, 0, 0);
  make_room (&walk.next);
  walk.next.paths[walk.next.count++] = start;
  turn_to_next (&walk);
  for (guint i = 1; i < walk.n && complete && walk.now.count > 0; i++)
    {
      complete = go_one_on (&walk);
      turn_to_next (&walk);
    }
  if (complete)
    go_home (&walk);
  if (few->found)
    trace_back (&walk);
  few->states = walk.n_traces;
  g_free (walk.leg);
  g_free (walk.now.paths);
  g_free (walk.next.paths);
  g_free (walk.front.paths);
  g_free (walk.first);
  g_free (walk.traces);
  return complete;
}
