// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One van and the calls it serves in a given order. */

#include "hs-solve-drive.h"

#include <string.h>

#define MAX_WAYS 64

/* Where only the costs are asked for, the cheapest few will do. */
#define FEW_WAYS 8
#define NO_WAY G_MAXUINT32

/* @trail: which counters and break were put in before each call, for the way back. */
typedef struct
{
  HsStep step;
  guint32 trail;
} Way;

/* What was done between two calls: stop @stop after @before. */
typedef struct
{
  guint32 before;
  guint8 stop;
} Trail;

typedef struct
{
  const HsSolveFrame *frame;
  const HsSolveTerms *terms;
  guint32 useful;
  Way ways[MAX_WAYS];
  guint n_ways;
  guint n_spread;
  guint most;
  GArray *trails;
} Drive;

static gint64
way_units (const Drive *drive, const HsStep *step)
{
  return step->units + MAX (step->drive, step->ready - step->leave_max) * drive->frame->second_units;
}

/* Room for one more way: the next place, or that of the dearest; %NULL if all are cheaper than @step. */
static Way *
find_room (Drive *drive, const HsStep *step)
{
  gint64 most = way_units (drive, step);
  Way *room = NULL;

  if (drive->n_ways < drive->most)
    return &drive->ways[drive->n_ways++];
  for (guint i = drive->n_spread; i < drive->n_ways; i++)
    if (way_units (drive, &drive->ways[i].step) > most)
      {
        room = &drive->ways[i];
        most = way_units (drive, &room->step);
      }
  return room;
}

static gboolean
is_no_worse (const Drive *drive, const HsStep *a, const HsStep *b)
{
  return a->last == b->last && hs_solve_frame_serves (drive->frame, a->van, a->seen, b->seen)
         && hs_step_dominates (a, b);
}

static void
add_way (Drive *drive, const HsStep *step, guint32 before, guint8 stop)
{
  guint kept = 0;
  Way *way;

  for (guint i = 0; i < drive->n_ways; i++)
    {
      const HsStep *other = &drive->ways[i].step;

      if (is_no_worse (drive, other, step))
        return;
    }
  for (guint i = 0; i < drive->n_ways; i++)
    {
      const HsStep *other = &drive->ways[i].step;

      if (i < drive->n_spread || !is_no_worse (drive, step, other))
        drive->ways[kept++] = drive->ways[i];
    }
  drive->n_ways = kept;
  way = find_room (drive, step);
  if (way == NULL)
    return;
  way->step = *step;
  way->trail = before;
  if (drive->trails != NULL)
    {
      Trail trail = { before, stop };

      way->trail = drive->trails->len;
      g_array_append_val (drive->trails, trail);
    }
}

/* Goes on from each way to the counters that may be of use, and to the break, as far as that leads. */
static void
spread_ways (Drive *drive)
{
  HsStep next[HS_STEP_MAX_NEXT];

  for (guint i = 0; i < drive->n_ways; i++)
    {
      Way way = drive->ways[i];
      guint n;

      drive->n_spread = i + 1;
      for (guint32 left = drive->useful & ~way.step.seen; left != 0; left &= left - 1)
        {
          guint c = (guint) __builtin_ctz (left);

          n = hs_step_counter (drive->frame, &way.step, c, next);
          for (guint k = 0; k < n; k++)
            add_way (drive, &next[k], way.trail, (guint8) (drive->frame->n_calls + c));
        }
      n = hs_step_break (drive->frame, &way.step, next);
      for (guint k = 0; k < n; k++)
        add_way (drive, &next[k], way.trail, HS_PATH_BREAK);
    }
}

static gboolean
serve_call (Drive *drive, guint call)
{
  Way old[MAX_WAYS];
  HsStep next[HS_STEP_MAX_NEXT];
  guint n_old = drive->n_ways;

  memcpy (old, drive->ways, n_old * sizeof (Way));
  drive->n_ways = drive->n_spread = 0;
  for (guint i = 0; i < n_old; i++)
    {
      guint n = hs_step_call (drive->frame, drive->terms, &old[i].step, call, next);

      for (guint k = 0; k < n; k++)
        add_way (drive, &next[k], old[i].trail, (guint8) call);
    }
  return drive->n_ways > 0;
}

/* The counters that sell what the calls need and the van does not have for all of them, and short cuts. */
static guint32
find_useful (const HsSolveFrame *frame, guint van, const guint8 *calls, guint n_calls)
{
  guint32 useful = frame->short_cuts;

  for (guint i = 0; i < n_calls; i++)
    for (guint k = 0; k < frame->nodes[calls[i]].n_needs; k++)
      {
        const HsPart *part = &frame->parts[frame->nodes[calls[i]].needs[k]];

        if (part->carried[van] > 0 && !part->counted[van])
          continue;
        for (guint s = 0; s < part->n_sellers; s++)
          useful |= 1u << part->sellers[s];
      }
  return useful;
}

static void
trace_drive (const Drive *drive, guint32 trail, HsDrive *ret_drive)
{
  guint8 back[HS_DRIVE_MAX_STOPS];
  guint n = 0;

  for (; trail != NO_WAY; trail = g_array_index (drive->trails, Trail, trail).before)
    back[n++] = g_array_index (drive->trails, Trail, trail).stop;
  ret_drive->n_stops = n;
  for (guint i = 0; i < n; i++)
    ret_drive->stops[i] = back[n - 1 - i];
}

static void
drive_begin (Drive *drive, guint van)
{
  HsStep begin[2];

  drive->n_spread = 0;
  drive->n_ways = hs_step_begin (drive->frame, drive->terms, van, begin);
  for (guint i = 0; i < drive->n_ways; i++)
    drive->ways[i] = (Way){ begin[i], NO_WAY };
}

static gboolean
drive_calls (Drive *drive, const guint8 *calls, guint n_calls)
{
  for (guint k = 0; k < n_calls; k++)
    {
      spread_ways (drive);
      if (!serve_call (drive, calls[k]))
        return FALSE;
    }
  return TRUE;
}

/* Brings the van home the best way; -1 if there is none. */
static int
drive_home (Drive *drive, HsClose *ret_close)
{
  HsClose close;
  int best = -1;

  drive->useful = drive->frame->short_cuts;
  spread_ways (drive);
  for (guint i = 0; i < drive->n_ways; i++)
    if (hs_step_close (drive->frame, drive->terms, &drive->ways[i].step, &close)
        && (best < 0 || hs_step_compare_closes (&close, ret_close) < 0))
      {
        best = (int) i;
        *ret_close = close;
      }
  return best;
}

gboolean
hs_solve_drive (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, const guint8 *calls, guint n_calls,
                HsClose *ret_close, HsDrive *ret_drive)
{
  Drive drive = { frame, terms };
  g_autoptr (GArray) trails = ret_drive != NULL ? g_array_new (FALSE, FALSE, sizeof (Trail)) : NULL;
  int best;

  drive.useful = ret_drive != NULL ? hs_solve_drive_useful (frame, van) : find_useful (frame, van, calls, n_calls);
  drive.most = ret_drive != NULL ? MAX_WAYS : FEW_WAYS;
  drive.trails = trails;
  drive_begin (&drive, van);
  if (!drive_calls (&drive, calls, n_calls))
    return FALSE;
  best = drive_home (&drive, ret_close);
  if (best >= 0 && ret_drive != NULL)
    {
      ret_drive->close = *ret_close;
      trace_drive (&drive, drive.ways[best].trail, ret_drive);
    }
  return best >= 0;
}

/* What comes before a place is driven once for all places behind it. */
void
hs_solve_drive_insert (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, const guint8 *calls,
                       guint n_calls, guint call, guint first, guint last, HsInsert *ret_inserts)
{
  const guint8 put = (guint8) call;
  Drive before = { frame, terms };
  Drive drive;

  before.useful = find_useful (frame, van, calls, n_calls) | find_useful (frame, van, &put, 1);
  before.most = FEW_WAYS;
  drive_begin (&before, van);
  for (guint at = 0; at <= last; at++)
    {
      ret_inserts[at].fits = FALSE;
      if (at >= first)
        {
          drive = before;
          ret_inserts[at].fits = drive_calls (&drive, &put, 1) && drive_calls (&drive, calls + at, n_calls - at)
                                 && drive_home (&drive, &ret_inserts[at].close) >= 0;
        }
      if (at < last && !drive_calls (&before, calls + at, 1))
        {
          for (guint k = at + 1; k <= last; k++)
            ret_inserts[k].fits = FALSE;
          return;
        }
    }
}

guint32
hs_solve_drive_useful (const HsSolveFrame *frame, guint van)
{
  guint8 calls[HS_PROBLEM_MAX_CALLS];
  guint n_calls = 0;

  if (hs_problem_get_van (frame->problem, van)->break_seconds > 0)
    return (1u << frame->n_counters) - 1;
  for (guint i = 0; i < frame->n_calls; i++)
    if ((frame->nodes[i].vans >> van & 1) != 0)
      calls[n_calls++] = (guint8) i;
  return find_useful (frame, van, calls, n_calls);
}

void
hs_solve_orders_read (const HsSolveFrame *frame, const HsPath *path, HsOrders *ret_orders)
{
  guint van = 0;

  memset (ret_orders->n, 0, sizeof ret_orders->n);
  for (guint i = 0; i < path->n_stops; i++)
    if (path->stops[i] == HS_PATH_CLOSE)
      van++;
    else if (path->stops[i] < frame->n_calls)
      ret_orders->calls[van][ret_orders->n[van]++] = path->stops[i];
}

gboolean
hs_solve_orders_write (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsOrders *orders, HsPath *path,
                       HsScore *score)
{
  *score = (HsScore){ 0 };
  memset (path, 0, sizeof *path);
  for (guint v = 0; v < frame->n_vans; v++)
    {
      HsClose close;
      HsDrive drive = { 0 };

      if (v > 0)
        path->stops[path->n_stops++] = HS_PATH_CLOSE;
      if (orders->n[v] == 0)
        continue;
      if (!hs_solve_drive (frame, terms, v, orders->calls[v], orders->n[v], &close, &drive))
        return FALSE;
      memcpy (&path->stops[path->n_stops], drive.stops, drive.n_stops);
      path->n_stops += drive.n_stops;
      path->leave[v] = close.leave;
      path->home[v] = close.home;
      score->missed += close.broken;
      score->late += close.late;
      score->units += close.units;
      score->homes += close.home;
      score->leaves += close.leave;
      score->stops += drive.n_stops;
    }
  return TRUE;
}
