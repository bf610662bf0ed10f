// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plans a day of one or several vans, one question after the other. Can everything be kept with the spare that is
 * asked? Then which plan is the cheapest. If not: how much can be kept at all, how much spare can be had with that, and
 * which plan is then the cheapest. Each is asked first of quick searches that prove nothing, and then of the whole one,
 * which proves the answer. */

#include "hs-solve.h"

#include "hs-plan-error.h"
#include "hs-solve-drive.h"
#include "hs-solve-fleet.h"
#include "hs-solve-large.h"
#include "hs-solve-sort.h"
#include "hs-solve-ties.h"
#include "hs-solve-tune.h"
#include "hs-solve-why.h"
#include "hs-solve-write.h"

/* 560 MB of labels. */
#define MAX_LABELS 7000000
#define QUICK_LABELS 300000
#define NARROW 24

/* A search that was not even here when it stopped would hardly ever be through with 20 times the states. */
#define HOPEFUL_PERCENT 10

/* A first look for plans takes so much less than others. */
#define HASTE 8

/* Ways of trips compared to guess what calls are worth. */
#define GUESS_WORK 120000000

/* Ways of trips compared where the caller does not say. */
#define MAX_WORK G_GUINT64_CONSTANT (4000000000)

/* Rounds of improving for each call in play, and at most so many. */
#define ROUNDS_EACH 500
#define MAX_ROUNDS 20000

/* Searches where time is left once it is known what the day costs at the least, and how much longer each is. */
#define MORE_SEARCHES 2
#define MORE_TIMES 5

/* How good a plan is, in the order in which plans are compared. */
typedef struct
{
  guint missed;
  guint unserved;
  gint64 late;
  gint32 spare;
  gint64 units;
} Merit;

#define WORST { G_MAXUINT, G_MAXUINT, G_MAXINT64, G_MININT32, G_MAXINT64 }

/* @none_keeps_all: it is proven that not every promise can be kept, whatever the spare
 * @whole: the last search was gone through to its end
 * @sure: every "no" so far was proven
 * @most: the last plan that left out the fewest calls; where something is to be broken, searches begin
 *   with it
 * @out: (element-type HsTrouble): calls that nobody can serve whatever is planned
 * @told: of the last plan that was told */
typedef struct
{
  HsExact exact;
  const HsSolveHow *how;
  const HsSorted *sorted;
  HsSolveFrame *frame;
  HsSolveTerms terms;
  HsScore score;
  HsPath path;
  HsPath most;
  gint64 floor;
  gboolean searchable;
  gboolean proven;
  gboolean whole;
  gboolean sure;
  gboolean none_keeps_all;
  GPtrArray *out;
  Merit told;
} Solve;

/* Telling ---------------------------------------------------------------------------------------------------------- */

static Merit
rate (const Solve *solve, const HsSolution *solution)
{
  Merit merit = { solution->broken->len + solution->unserved->len, solution->unserved->len, 0,
                  MIN (solution->spare_seconds, solve->frame->problem->spare_seconds), solution->cost_units };

  for (guint i = 0; i < solution->broken->len; i++)
    merit.late += hs_solution_get_broken (solution, i)->late_seconds;
  return merit;
}

static gboolean
is_better (const Merit *a, const Merit *b)
{
  if (a->missed != b->missed)
    return a->missed < b->missed;
  if (a->unserved != b->unserved)
    return a->unserved < b->unserved;
  if (a->late != b->late)
    return a->late < b->late;
  return a->spare != b->spare ? a->spare > b->spare : a->units < b->units;
}

/* What the plan costs at the least; while the terms ask for no costs nothing is known of it. */
static void
set_bound (const Solve *solve, HsSolution *solution)
{
  gint64 bound = hs_cost_cents (solve->floor);

  solution->bound_cents = solve->terms.flat ? 0 : MIN (solution->cost_cents, bound);
}

static void
tell_path (const HsPath *path, gpointer data)
{
  Solve *solve = data;
  HsSolution *solution = hs_solution_new ();
  Merit merit;

  hs_solution_write (solution, solve->frame, path);
  for (guint i = 0; i < solve->out->len; i++)
    g_ptr_array_add (solution->unserved, hs_trouble_new (((HsTrouble *) g_ptr_array_index (solve->out, i))->call, 0));
  merit = rate (solve, solution);
  if (is_better (&merit, &solve->told))
    {
      solve->told = merit;
      solution->status = HS_PLAN_BEST_FOUND;
      solution->states = solve->exact.states;
      set_bound (solve, solution);
      hs_sorted_restore (solve->sorted, solution);
      solve->how->found (solution, solve->how->user_data);
    }
  hs_solution_free (solution);
}

/* Searching -------------------------------------------------------------------------------------------------------- */

/* A few of the most promising ways. */
static gboolean
glance (Solve *solve, const HsSolveBound *bound)
{
  return solve->searchable
         && hs_exact_run (&solve->exact, solve->frame, bound, &solve->terms, NARROW, &solve->score, &solve->path, NULL);
}

static guint
count_served (const Solve *solve, const HsPath *path)
{
  guint n = 0;

  for (guint k = 0; k < path->n_stops; k++)
    n += path->stops[k] < solve->frame->n_calls;
  return n;
}

/* A search that is cut at once leaves out all: what was found before it is worth more. */
static gboolean
improve (Solve *solve, guint rounds, guint32 seed)
{
  const HsPath *start = solve->terms.missed > 0 ? &solve->most : NULL;
  HsPath most;
  gboolean found = hs_solve_large_from (&solve->exact, solve->frame, &solve->terms, rounds, seed, start, &most,
                                        &solve->score, &solve->path);

  if (count_served (solve, &most) >= count_served (solve, &solve->most))
    solve->most = most;
  return found;
}

static guint
count_rounds (const Solve *solve)
{
  return MIN (MAX_ROUNDS, ROUNDS_EACH * solve->frame->n_calls);
}

static gsize
max_labels (const Solve *solve)
{
  return solve->how->max_labels > 0 ? solve->how->max_labels : MAX_LABELS;
}

/* Nothing costs less than what is known. */
static gboolean
is_at_floor (const Solve *solve)
{
  return !solve->terms.flat && solve->floor > 0 && solve->floor >= solve->score.units;
}

/* Goes through everything that @most labels let it; afterwards @proven says whether nothing better exists, and @whole
 * whether that holds down to when the vans are home and leave. */
static gboolean
prove (Solve *solve, const HsSolveBound *bound, gsize most)
{
  gint64 floor = 0;
  gboolean found = FALSE;

  solve->whole = FALSE;
  if (solve->searchable && !solve->exact.cut)
    {
      solve->exact.max_labels = most;
      found = hs_exact_run (&solve->exact, solve->frame, bound, &solve->terms, 0, &solve->score, &solve->path, &floor);
      solve->whole = !solve->exact.cut && !solve->exact.full;
      solve->floor = MAX (solve->floor, floor);
    }
  solve->proven = solve->whole || is_at_floor (solve);
  return found;
}

static gboolean
is_known (const Solve *solve)
{
  return solve->score.units < HS_SOLVE_NO_UNITS;
}

/* What is known of the costs of days that were not gone through whole; nothing where promises are broken. */
static gboolean
bound_fleet (Solve *solve)
{
  gint64 prizes[HS_PROBLEM_MAX_CALLS];
  guint64 max_work = solve->how->max_work > 0 ? solve->how->max_work : MAX_WORK;
  gboolean found;

  if (solve->proven || solve->exact.cut || solve->terms.flat || solve->terms.missed > 0
      || !is_known (solve))
    return FALSE;
  found = hs_solve_fleet (&solve->exact, solve->frame, &solve->terms, max_work, &solve->score, &solve->path,
                          &solve->floor, prizes);
  solve->proven = is_at_floor (solve);
  return found;
}

/* One van, all promises kept: guesses what each call is worth and goes through everything with that, which lets few
 * ways live. */
static gboolean
prove_closely (Solve *solve, HsSolveBound *bound)
{
  gint64 prizes[HS_PROBLEM_MAX_CALLS];
  gboolean found;

  if (solve->frame->n_vans > 1 || !solve->searchable || solve->terms.flat || solve->terms.missed > 0)
    return FALSE;
  found = improve (solve, count_rounds (solve) / HASTE, solve->how->seed);
  if (!is_known (solve) || solve->exact.cut)
    return found;
  found |= hs_solve_fleet (&solve->exact, solve->frame, &solve->terms, GUESS_WORK, &solve->score, &solve->path,
                          &solve->floor, prizes);
  solve->proven = is_at_floor (solve);
  if (!hs_solve_tune (&solve->exact, solve->frame, solve->score.units, &solve->floor, prizes)
      || !hs_solve_bound_look (bound, &solve->exact, prizes))
    return found;
  return prove (solve, bound, max_labels (solve)) || found;
}

/* The best plan under the terms, with what is known already in @score and @path. The whole search comes first as long
 * as it is quick; else the better the plan that it has to beat, the sooner it is through. Where it would not come
 * through at all, looking for better plans once more is the better use of the time. */
static gboolean
search (Solve *solve, HsSolveBound *bound)
{
  gboolean found = glance (solve, bound);
  gboolean hopeful;

  found |= prove (solve, bound, QUICK_LABELS);
  if (solve->proven)
    return found;
  hopeful = solve->searchable && solve->exact.reached_percent >= HOPEFUL_PERCENT;
  found |= prove_closely (solve, bound);
  if (solve->proven)
    return found;
  found |= improve (solve, count_rounds (solve), solve->how->seed);
  found |= bound_fleet (solve);
  if (solve->proven)
    return prove (solve, bound, QUICK_LABELS) || found;
  if (hopeful)
    found |= prove (solve, bound, max_labels (solve));
  else
    found |= improve (solve, count_rounds (solve), solve->how->seed + 1);
  for (guint32 k = 2; k < 2 + MORE_SEARCHES && !solve->proven && !solve->terms.flat && is_known (solve); k++)
    found |= improve (solve, MORE_TIMES * count_rounds (solve), solve->how->seed + k);
  if (!solve->proven && is_at_floor (solve))
    found |= prove (solve, bound, QUICK_LABELS);
  return found;
}

/* The cheapest plan under the terms; of those that are worth the same the first by ids. */
static gboolean
solve_cost (Solve *solve)
{
  g_autoptr (HsSolveBound) bound = hs_solve_bound_new (solve->frame);
  gboolean found;

  solve->terms.flat = FALSE;
  solve->floor = solve->terms.dropped == 0 ? hs_solve_bound_root (bound) : 0;
  found = search (solve, bound);
  if (is_known (solve))
    hs_solve_ties_settle (&solve->exact, solve->frame, bound, &solve->terms, solve->whole, &solve->path);
  return found;
}

/* Whether anything can be had under the terms; a "no" that is not proven is not sure. */
static gboolean
can_have (Solve *solve)
{
  HsScore kept = solve->score;

  solve->score = (HsScore) HS_SCORE_WORST;
  solve->terms.flat = TRUE;
  if (glance (solve, NULL) || prove (solve, NULL, QUICK_LABELS))
    return TRUE;
  if (!solve->proven && improve (solve, count_rounds (solve) / 8, solve->how->seed))
    return TRUE;
  solve->sure = solve->sure && solve->proven;
  solve->score = kept;
  return FALSE;
}

/* How much can be kept at all. There is always a plan that leaves out what can't be served. */
static void
solve_keeping (Solve *solve)
{
  hs_solve_frame_trim (solve->frame, 0);
  solve->terms = (HsSolveTerms) HS_SOLVE_TERMS_STRICT;
  if (!can_have (solve))
    {
      solve->none_keeps_all = solve->proven;
      solve->terms = (HsSolveTerms) HS_SOLVE_TERMS_OPEN;
      solve->score = (HsScore) HS_SCORE_WORST;
      improve (solve, 0, solve->how->seed);
      search (solve, NULL);
      solve->sure = solve->sure && solve->proven;
    }
  solve->terms.missed = solve->score.missed;
  solve->terms.dropped = solve->score.dropped;
  solve->terms.late = solve->score.late;
}

static gint32
spare_of (const Solve *solve)
{
  HsSolution *solution = hs_solution_new ();
  gint32 spare;

  hs_solution_write (solution, solve->frame, &solve->path);
  spare = solution->spare_seconds;
  hs_solution_free (solution);
  return spare;
}

/* Sets windows and terms so that every call has @spare; below zero it is how late one may be. */
static void
ask_spare (Solve *solve, gint32 spare)
{
  hs_solve_frame_trim (solve->frame, spare);
  solve->terms.late_each = MAX (0, -spare);
}

/* How much spare can be had: the most, by halving; what can be spared is monotone. */
static void
solve_spare (Solve *solve)
{
  gint32 asked = solve->frame->problem->spare_seconds;
  gint32 low = MIN (spare_of (solve), asked);
  gint32 high = asked;

  ask_spare (solve, low);
  if (low == asked)
    return;
  if (solve->terms.late > 0)
    high = MIN (high, 0);
  else if (solve->terms.missed > 0)
    high++;
  while (high - low > 1 && !solve->exact.cut)
    {
      gint32 middle = low + (high - low) / 2;

      ask_spare (solve, middle);
      if (can_have (solve))
        low = MAX (middle, MIN (spare_of (solve), high - 1));
      else
        high = middle;
    }
  ask_spare (solve, low);
}

/* The score of the path that is known, with its money, under the terms as they stand. */
static void
rate_path (Solve *solve)
{
  HsSolution *solution = hs_solution_new ();

  hs_solution_write (solution, solve->frame, &solve->path);
  solve->score.units = solution->cost_units + 1;
  solve->score.homes = G_MAXINT64;
  hs_solution_free (solution);
}

static void
solve_frame (Solve *solve, HsSolution *solution)
{
  gboolean impossible = FALSE;

  solve->sure = TRUE;
  solve->none_keeps_all = FALSE;
  solve->terms = (HsSolveTerms) HS_SOLVE_TERMS_STRICT;
  solve->score = (HsScore) HS_SCORE_WORST;
  solve->most.n_stops = 0;
  hs_solve_frame_trim (solve->frame, solve->frame->problem->spare_seconds);
  if (!solve_cost (solve))
    {
      solve->sure = solve->proven;
      solve_keeping (solve);
      impossible = solve->none_keeps_all;
      solve_spare (solve);
      rate_path (solve);
      solve_cost (solve);
    }
  hs_solution_write (solution, solve->frame, &solve->path);
  solution->proven = solve->proven && solve->sure;
  solution->bound_cents = solution->cost_cents;
  if (!solution->proven)
    set_bound (solve, solution);
  if (impossible)
    solution->status = HS_PLAN_IMPOSSIBLE;
  else
    solution->status = solution->proven ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
}

static void
explain (Solve *solve, HsSolution *solution)
{
  solve->exact.give_up = solve->how->give_up;
  solve->exact.cut = FALSE;
  hs_solve_why_explain (&solve->exact, solve->sorted->problem, solution);
}

/* The day in the order of ids. */
static HsSolution *
solve_sorted (Solve *solve, const HsProblem *problem)
{
  g_autoptr (HsSolveFrame) frame = NULL;
  g_autoptr (GPtrArray) out = g_ptr_array_new ();
  g_autofree guint *calls = g_new (guint, problem->calls->len + 1);
  HsSolution *solution = hs_solution_new ();
  guint n_calls = hs_solve_why_in_play (problem, solution->unserved, calls);

  g_ptr_array_extend (out, solution->unserved, NULL, NULL);
  solve->out = out;
  solve->frame = frame = hs_solve_frame_new (problem, calls, n_calls);
  solve->searchable = n_calls <= HS_EXACT_MAX_CALLS;
  solution->proven = TRUE;
  if (n_calls > 0)
    solve_frame (solve, solution);
  if (n_calls < problem->calls->len)
    solution->status = HS_PLAN_IMPOSSIBLE;
  solution->states = solve->exact.states;
  solve->exact.found = NULL;
  return solution;
}

gboolean
hs_solve (const HsProblem *problem, const HsSolveHow *how, HsSolution **ret_solution, GError **error)
{
  Solve solve = { .exact = { how->give_up, how->user_data, MAX_LABELS, FALSE, 0 }, .how = how, .told = WORST };
  g_autoptr (HsSorted) sorted = NULL;
  HsSolution *solution;

  if (!hs_problem_check (problem, error))
    return FALSE;
  solve.sorted = sorted = hs_sorted_new (problem);
  if (how->found != NULL)
    {
      solve.exact.found = tell_path;
      solve.exact.found_data = &solve;
    }
  if (how->explain && how->searched_enough != NULL)
    solve.exact.give_up = how->searched_enough;
  solution = solve_sorted (&solve, sorted->problem);
  if (how->found != NULL)
    {
      hs_sorted_restore (sorted, solution);
      how->found (solution, how->user_data);
      hs_sorted_apply (sorted, solution);
    }
  if (how->explain)
    explain (&solve, solution);
  hs_sorted_restore (sorted, solution);
  *ret_solution = solution;
  return TRUE;
}
