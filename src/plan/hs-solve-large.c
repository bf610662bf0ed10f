// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Ruin and recreate on the orders of calls of all vans. Counters and breaks are put in anew each time an order is
 * driven. */

#include "hs-solve-large.h"

#include "hs-solve-screen.h"

#include <math.h>
#include <string.h>

#define MAX_CALLS HS_PROBLEM_MAX_CALLS
#define MAX_STRING 10
#define MEAN_REMOVED 8
#define BLINK_PERCENT 1

/* Places for each van that are tried in earnest where errands come between. */
#define SCREENED 2
#define LATE_WEIGHT (G_GINT64_CONSTANT (1) << 24)
#define BROKEN_WEIGHT (G_GINT64_CONSTANT (1) << 50)
#define FIRST_HEAT 0.02
#define LAST_HEAT 0.00002

typedef struct
{
  guint n;
  guint8 calls[MAX_CALLS];
  HsClose close;
} Round;

typedef struct
{
  Round rounds[HS_PROBLEM_MAX_VANS];
  guint n_left;
  guint8 left[MAX_CALLS];
  guint broken;
  gint64 late;
  gint64 weight;
} Plan;

typedef struct
{
  HsExact *exact;
  const HsSolveFrame *frame;
  const HsSolveTerms *terms;
  GRand *rand;
  guint8 *near;
  guint8 *may;
  guint *absent;
  gboolean *plain_call;
  gboolean begun;
  gboolean hurries;
  Plan now;
  Plan next;
  Plan best;
} Large;

/* What a round costs, with broken promises and lateness far above money. */
static gint64
close_weight (const HsClose *close)
{
  return close->units + close->late * LATE_WEIGHT + close->broken * BROKEN_WEIGHT;
}

static gint64
round_weight (const Round *round)
{
  return round->n == 0 ? 0 : close_weight (&round->close);
}

static void
plan_sum (const Large *large, Plan *plan)
{
  plan->weight = 0;
  plan->broken = 0;
  plan->late = 0;
  for (guint v = 0; v < large->frame->n_vans; v++)
    {
      const Round *round = &plan->rounds[v];

      plan->weight += round_weight (round);
      plan->broken += round->n == 0 ? 0 : round->close.broken;
      plan->late += round->n == 0 ? 0 : round->close.late;
    }
}

static gint64
plan_units (const Large *large, const Plan *plan)
{
  gint64 units = 0;

  for (guint v = 0; v < large->frame->n_vans; v++)
    units += plan->rounds[v].n == 0 ? 0 : plan->rounds[v].close.units;
  return units;
}

/* Each call's neighbors, nearest first by the time there and back. */
static void
fill_near (Large *large)
{
  const HsSolveFrame *frame = large->frame;
  guint n = frame->n_calls;

  large->near = g_new (guint8, (gsize) n * n + 1);
  for (guint i = 0; i < n; i++)
    {
      guint8 *row = &large->near[i * n];

      for (guint j = 0; j < n; j++)
        {
          gint64 way = (gint64) hs_solve_frame_reach (frame, i, j) + hs_solve_frame_reach (frame, j, i);
          guint at = j;

          for (; at > 0; at--)
            {
              guint8 other = row[at - 1];

              if ((gint64) hs_solve_frame_reach (frame, i, other) + hs_solve_frame_reach (frame, other, i) <= way)
                break;
              row[at] = other;
            }
          row[at] = (guint8) j;
        }
    }
}

/* Which call may come before which: not one that, started as early as can be, is done too late for the other. Broken
 * promises allow everything. */
static void
fill_may (Large *large)
{
  const HsSolveFrame *frame = large->frame;
  guint n = frame->n_calls;

  large->may = g_new (guint8, (gsize) n * n + 1);
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        const HsNode *first = &frame->nodes[i];
        const HsNode *then = &frame->nodes[j];

        large->may[i * n + j] = large->terms->missed > 0 || first->n_open == 0
                                || first->open[0].first + first->service + hs_solve_frame_reach (frame, i, j)
                                       <= then->open_last;
      }
}

/* The places of @round, @ret_first to @ret_last, at which @call may be put in. */
static void
find_places (const Large *large, const Round *round, guint call, guint *ret_first, guint *ret_last)
{
  guint n = large->frame->n_calls;
  guint first = 0;
  guint last = round->n;

  for (guint k = 0; k < round->n; k++)
    if (!large->may[call * n + round->calls[k]])
      first = k + 1;
  for (guint k = round->n; k > 0; k--)
    if (!large->may[round->calls[k - 1] * n + call])
      last = k - 1;
  *ret_first = first;
  *ret_last = last;
}

static gboolean
find_call (const Large *large, const Plan *plan, guint call, guint *ret_van, guint *ret_at)
{
  for (guint v = 0; v < large->frame->n_vans; v++)
    for (guint k = 0; k < plan->rounds[v].n; k++)
      if (plan->rounds[v].calls[k] == call)
        {
          *ret_van = v;
          *ret_at = k;
          return TRUE;
        }
  return FALSE;
}

static void
take_out (Plan *plan, guint van, guint at, guint length)
{
  Round *round = &plan->rounds[van];

  memcpy (&plan->left[plan->n_left], &round->calls[at], length);
  plan->n_left += length;
  memmove (&round->calls[at], &round->calls[at + length], round->n - at - length);
  round->n -= length;
}

static void
drive_round (const Large *large, Plan *plan, guint van)
{
  Round *round = &plan->rounds[van];

  /* Taking a call out can spoil an order only where legs are no metric; then all of it goes. */
  if (round->n > 0
      && !hs_solve_drive (large->frame, large->terms, van, round->calls, round->n, &round->close, NULL))
    take_out (plan, van, 0, round->n);
}

static void
ruin (Large *large)
{
  const HsSolveFrame *frame = large->frame;
  Plan *plan = &large->next;
  guint n = frame->n_calls;
  guint seed = (guint) g_rand_int_range (large->rand, 0, (gint32) n);
  guint wanted = (guint) g_rand_int_range (large->rand, 1, (gint32) MIN (2 * MEAN_REMOVED, n) + 1);
  guint32 touched = 0;
  guint removed = 0;

  for (guint k = 0; k < n && removed < wanted; k++)
    {
      guint van;
      guint at;
      guint length;
      guint from;

      if (!find_call (large, plan, large->near[seed * n + k], &van, &at) || (touched >> van & 1) != 0)
        continue;
      length = (guint) g_rand_int_range (large->rand, 1,
                                         (gint32) MIN (MIN (MAX_STRING, plan->rounds[van].n), wanted - removed) + 1);
      from = at >= length ? at - length + 1 : 0;
      from = (guint) g_rand_int_range (large->rand, (gint32) from,
                                       (gint32) MIN (at, plan->rounds[van].n - length) + 1);
      take_out (plan, van, from, length);
      removed += length;
      if (frame->n_vans > 1)
        touched |= 1u << van;
      drive_round (large, plan, van);
    }
}

static void
shuffle (Large *large, guint8 *calls, guint n)
{
  for (guint i = n; i > 1; i--)
    {
      guint j = (guint) g_rand_int_range (large->rand, 0, (gint32) i);
      guint8 swap = calls[i - 1];

      calls[i - 1] = calls[j];
      calls[j] = swap;
    }
}

static gint64
call_key (const Large *large, guint call, guint how)
{
  const HsNode *node = &large->frame->nodes[call];

  if (how == 1)
    return node->open_last;
  if (how == 2)
    return node->open_last - node->all[0].first;
  return -(gint64) hs_solve_frame_reach (large->frame, hs_solve_frame_start (large->frame, 0), call);
}

/* In which order calls are put back: at random, by when they are due, by how narrow their windows are, farthest
 * first. */
static void
sort_left (Large *large, Plan *plan)
{
  guint how = (guint) g_rand_int_range (large->rand, 0, 4);

  shuffle (large, plan->left, plan->n_left);
  for (guint i = 1; how > 0 && i < plan->n_left; i++)
    {
      guint8 call = plan->left[i];
      guint at = i;

      for (; at > 0 && call_key (large, plan->left[at - 1], how) > call_key (large, call, how); at--)
        plan->left[at] = plan->left[at - 1];
      plan->left[at] = call;
    }
}

typedef struct
{
  gint64 more;
  guint van;
  guint at;
  HsClose close;
} Place;

static void
take_place (Plan *plan, guint call, const Place *place)
{
  Round *round = &plan->rounds[place->van];

  memmove (&round->calls[place->at + 1], &round->calls[place->at], round->n - place->at);
  round->calls[place->at] = (guint8) call;
  round->n++;
  round->close = place->close;
}

/* The best of all places of @round. */
static void
try_all (Large *large, const Round *round, guint van, guint call, guint first, guint last, Place *best)
{
  HsInsert inserts[MAX_CALLS + 1];

  hs_solve_drive_insert (large->frame, large->terms, van, round->calls, round->n, call, first, last, inserts);
  for (guint at = first; at <= last; at++)
    {
      const HsClose *close = &inserts[at].close;

      if (!inserts[at].fits || close_weight (close) - round_weight (round) >= best->more
          || g_rand_int_range (large->rand, 0, 100) < BLINK_PERCENT)
        continue;
      *best = (Place){ close_weight (close) - round_weight (round), van, at, *close };
    }
}

/* Whether the screen says it all. */
static gboolean
is_plain (const Large *large, const Round *round, guint van, guint call)
{
  if (!large->plain_call[call] || hs_problem_get_van (large->frame->problem, van)->break_seconds > 0)
    return FALSE;
  for (guint k = 0; k < round->n; k++)
    if (!large->plain_call[round->calls[k]])
      return FALSE;
  return TRUE;
}

static void
try_place (const Large *large, const Round *round, guint van, guint call, guint at, Place *best)
{
  guint8 calls[MAX_CALLS + 1];
  HsClose close;

  memcpy (calls, round->calls, at);
  calls[at] = (guint8) call;
  memcpy (calls + at + 1, round->calls + at, round->n - at);
  if (hs_solve_drive (large->frame, large->terms, van, calls, round->n + 1, &close, NULL)
      && close_weight (&close) - round_weight (round) < best->more)
    *best = (Place){ close_weight (&close) - round_weight (round), van, at, close };
}

/* Those places of @round that look best; if @any, all until a call has a place at all. */
static void
try_screened (Large *large, const Round *round, guint van, guint call, guint first, guint last, gboolean any,
              Place *best)
{
  guint most = any ? G_MAXUINT : SCREENED;
  gint64 more[MAX_CALLS + 1];
  gboolean plain = is_plain (large, round, van, call);

  hs_solve_screen (large->frame, van, round->calls, round->n, call, first, last, more);
  for (guint at = first; at <= last; at++)
    if (g_rand_int_range (large->rand, 0, 100) < BLINK_PERCENT)
      more[at] = HS_SCREEN_NEVER;
  for (guint k = 0; k < (plain ? 1 : most) && !(any && best->more < G_MAXINT64); k++)
    {
      guint least = first;

      for (guint at = first; at <= last; at++)
        if (more[at] < more[least])
          least = at;
      if (more[least] == HS_SCREEN_NEVER || (plain && more[least] >= best->more))
        return;
      try_place (large, round, van, call, least, best);
      more[least] = HS_SCREEN_NEVER;
    }
}

/* Puts @call where it costs least, in a hurry at the end of a round; now and then a place is overlooked. */
static gboolean
put_back (Large *large, Plan *plan, guint call)
{
  const HsSolveFrame *frame = large->frame;
  gboolean screened = large->terms->missed == 0 && !large->terms->flat;
  Place best = { .more = G_MAXINT64 };

  for (guint way = screened ? 0 : 1; way < 2 && best.more == G_MAXINT64; way++)
    for (guint v = 0; v < frame->n_vans; v++)
      {
        const Round *round = &plan->rounds[v];
        guint first;
        guint last;

        if ((frame->nodes[call].vans >> v & 1) == 0)
          continue;
        find_places (large, round, call, &first, &last);
        if (first > last)
          continue;
        if (large->hurries)
          first = last;
        if (screened && (way == 0 || frame->short_cuts == 0))
          try_screened (large, round, v, call, first, last, way == 1, &best);
        else if (!screened || !is_plain (large, round, v, call))
          try_all (large, round, v, call, first, last, &best);
      }
  if (best.more == G_MAXINT64)
    return FALSE;
  take_place (plan, call, &best);
  return TRUE;
}

static void
recreate (Large *large)
{
  Plan *plan = &large->next;
  guint8 waiting[MAX_CALLS];
  guint n = plan->n_left;

  sort_left (large, plan);
  memcpy (waiting, plan->left, n);
  plan->n_left = 0;
  for (guint i = 0; i < n; i++)
    {
      gboolean is_over = hs_exact_gives_up (large->exact);

      large->hurries = is_over;
      if ((large->begun && is_over) || !put_back (large, plan, waiting[i]))
        plan->left[plan->n_left++] = waiting[i];
    }
  plan_sum (large, plan);
}

static guint
absence (const Large *large, const Plan *plan)
{
  guint sum = 0;

  for (guint i = 0; i < plan->n_left; i++)
    sum += large->absent[plan->left[i]];
  return sum;
}

/* Fewer calls left out are always welcome; as many, if those left out are seldom so; and then what costs less, or at
 * random not much more. */
static gboolean
is_welcome (const Large *large, double heat)
{
  if (large->next.n_left != large->now.n_left)
    return large->next.n_left < large->now.n_left;
  if (large->now.n_left > 0)
    return absence (large, &large->next) <= absence (large, &large->now);
  return (double) large->next.weight
         < (double) large->now.weight - heat * log (MAX (g_rand_double (large->rand), 1e-12));
}

/* As scores are compared, up to the money. */
static gboolean
is_better (const Plan *a, const Plan *b)
{
  if (a->n_left + a->broken != b->n_left + b->broken)
    return a->n_left + a->broken < b->n_left + b->broken;
  if (a->n_left != b->n_left)
    return a->n_left < b->n_left;
  return a->late != b->late ? a->late < b->late : a->weight < b->weight;
}

static void
write_path (const Large *large, HsPath *path, HsScore *score)
{
  HsOrders orders;

  for (guint v = 0; v < large->frame->n_vans; v++)
    {
      orders.n[v] = large->best.rounds[v].n;
      memcpy (orders.calls[v], large->best.rounds[v].calls, orders.n[v]);
    }
  if (!hs_solve_orders_write (large->frame, large->terms, &orders, path, score))
    *score = (HsScore) HS_SCORE_WORST;
  score->missed += large->best.n_left;
  score->dropped += large->best.n_left;
}

/* Whether what was found last counts under the terms and is better than what is known. */
static gboolean
is_news (const Large *large, const HsScore *score, const HsScore *best)
{
  return score->missed <= large->terms->missed && score->dropped <= large->terms->dropped
         && score->late <= large->terms->late && hs_score_compare (score, best) < 0;
}

static void
tell_found (const Large *large, const HsScore *best)
{
  HsPath path;
  HsScore score;

  if (large->exact->found == NULL)
    return;
  write_path (large, &path, &score);
  if (is_news (large, &score, best))
    large->exact->found (&path, large->exact->found_data);
}

static void
run_rounds (Large *large, guint rounds, const HsScore *best)
{
  double heat = FIRST_HEAT * (double) plan_units (large, &large->now);
  double cooling = pow (LAST_HEAT / FIRST_HEAT, 1.0 / rounds);

  for (guint r = 0; r < rounds && !hs_exact_gives_up (large->exact); r++, heat *= cooling)
    {
      large->next = large->now;
      ruin (large);
      recreate (large);
      if (large->exact->cut)
        break;
      for (guint i = 0; i < large->next.n_left; i++)
        large->absent[large->next.left[i]]++;
      if (is_welcome (large, heat))
        large->now = large->next;
      if (!is_better (&large->now, &large->best))
        continue;
      large->best = large->now;
      tell_found (large, best);
    }
}

static void
take_start (Large *large, const HsPath *start)
{
  const HsSolveFrame *frame = large->frame;
  g_autofree gboolean *served = g_new0 (gboolean, frame->n_calls + 1);
  Plan *plan = &large->next;
  HsOrders orders = { { 0 }, { { 0 } } };

  if (start != NULL)
    hs_solve_orders_read (frame, start, &orders);
  for (guint v = 0; v < frame->n_vans; v++)
    {
      plan->rounds[v].n = orders.n[v];
      memcpy (plan->rounds[v].calls, orders.calls[v], orders.n[v]);
      for (guint k = 0; k < orders.n[v]; k++)
        served[orders.calls[v][k]] = TRUE;
      drive_round (large, plan, v);
    }
  for (guint i = 0; i < frame->n_calls; i++)
    if (!served[i])
      plan->left[plan->n_left++] = (guint8) i;
}

static void
fill_large (Large *large, guint32 seed)
{
  const HsSolveFrame *frame = large->frame;

  large->rand = g_rand_new_with_seed (seed);
  large->absent = g_new0 (guint, frame->n_calls + 1);
  large->plain_call = g_new (gboolean, frame->n_calls + 1);
  for (guint i = 0; i < frame->n_calls; i++)
    large->plain_call[i] = frame->nodes[i].n_needs == 0 && frame->nodes[i].n_open <= 1;
  fill_near (large);
  fill_may (large);
}

static void
clear_large (Large *large)
{
  g_rand_free (large->rand);
  g_free (large->absent);
  g_free (large->plain_call);
  g_free (large->near);
  g_free (large->may);
}

gboolean
hs_solve_large_from (HsExact *exact, const HsSolveFrame *frame, const HsSolveTerms *terms, guint rounds, guint32 seed,
                     const HsPath *start, HsPath *ret_most, HsScore *best, HsPath *path)
{
  g_autofree Large *large = g_new0 (Large, 1);
  HsPath found;
  HsScore score;

  large->exact = exact;
  large->frame = frame;
  large->terms = terms;
  fill_large (large, seed);
  take_start (large, start);
  /* The first plan is made whatever the hour, in a hurry where it is late, unless another is known or one that leaves
   * out calls is of no use. */
  large->begun = best->missed < G_MAXUINT16 || terms->dropped < frame->n_calls;
  recreate (large);
  large->now = large->best = large->next;
  large->begun = TRUE;
  tell_found (large, best);
  if (frame->n_calls > 0 && rounds > 0)
    run_rounds (large, rounds, best);
  write_path (large, &found, &score);
  clear_large (large);
  if (ret_most != NULL)
    *ret_most = found;
  if (!is_news (large, &score, best))
    return FALSE;
  *best = score;
  *path = found;
  return TRUE;
}

gboolean
hs_solve_large (HsExact *exact, const HsSolveFrame *frame, const HsSolveTerms *terms, guint rounds, guint32 seed,
                HsScore *best, HsPath *path)
{
  return hs_solve_large_from (exact, frame, terms, rounds, seed, NULL, NULL, best, path);
}
