// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Goes through plans in the order of their ids, stop by stop, and takes the first that is worth what is known to be
 * the best. A step is left as soon as what is sure to come makes it worse than that, and where another that was no
 * worse has already been left. The known plan is among those that are gone through: each stop that it shares with the
 * answer is certain to lead to the end. */

#include "hs-solve-first.h"

#include "hs-solve-ahead.h"

#include <string.h>

/* All ways of leaving and of choosing windows for the same stops; more than these have never been seen. */
#define MAX_WAYS 64
/* Some 300 MiB in all. Where more has failed, what fails after that is only found out again. */
#define MAX_STATES 2000000
#define MAX_FAILED 2000000
#define ASK_EVERY 2048
#define LIST_TRY 32
#define MAX_ORDER (HS_PROBLEM_MAX_CALLS + HS_PROBLEM_MAX_COUNTERS + 2)

/* Where the stops so far have led. @homes, @leaves: of the vans that are home */
typedef struct
{
  guint64 calls;
  gint64 homes;
  gint64 leaves;
  guint stops;
  guint van;
  guint n_ways;
  HsStep ways[MAX_WAYS];
} Spot;

/* A step that can't lead to what is looked for. */
typedef struct
{
  HsStep step;
  gint64 homes;
  gint64 leaves;
  guint stops;
  guint32 next;
} Failed;

/* @order: all stops that there could be, by id
 * @later_leaves: the sum of the latest leaves of the vans after each
 * @over: it ended before all was known */
typedef struct
{
  HsAhead ahead;
  HsSolveTerms terms;
  HsExact *exact;
  HsScore target;
  guint n_order;
  guint8 order[MAX_ORDER];
  gint64 later_leaves[HS_PROBLEM_MAX_VANS];
  HsStates states;
  GArray *failed;
  const HsPath *known;
  HsPath path;
  guint *tries;
  guint asked;
  gboolean over;
} First;

/* Stops ------------------------------------------------------------------------------------------------------------ */

static const char *
stop_id (const HsSolveFrame *frame, guint8 stop)
{
  if (stop == HS_PATH_BREAK)
    return "break";
  if (stop >= frame->n_calls)
    return hs_problem_get_counter (frame->problem, frame->nodes[stop].index)->id;
  return hs_problem_get_call (frame->problem, frame->nodes[stop].index)->id;
}

int
hs_solve_first_compare_stops (const HsSolveFrame *frame, guint8 a, guint8 b)
{
  if (a == HS_PATH_CLOSE || b == HS_PATH_CLOSE)
    return (a == HS_PATH_CLOSE) - (b == HS_PATH_CLOSE);
  return strcmp (stop_id (frame, a), stop_id (frame, b));
}

static int
compare_stops (gconstpointer a, gconstpointer b, gpointer frame)
{
  return hs_solve_first_compare_stops (frame, *(const guint8 *) a, *(const guint8 *) b);
}

static guint
step_to (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsStep *step, guint8 stop, HsStep *ret_next)
{
  if (stop == HS_PATH_BREAK)
    return hs_step_break (frame, step, ret_next);
  if (stop >= frame->n_calls)
    return hs_step_counter (frame, step, stop - frame->n_calls, ret_next);
  return hs_step_call (frame, terms, step, stop, ret_next);
}

/* Ways ------------------------------------------------------------------------------------------------------------- */

static gboolean
can_stand_for (const HsStep *a, const HsStep *b)
{
  return a->seen == b->seen && a->stock == b->stock && hs_step_dominates (a, b);
}

/* Without any way yet; those are not cleared, which would take longer than all else. */
static void
spot_begin (Spot *spot, guint64 calls, gint64 homes, gint64 leaves, guint stops, guint van)
{
  spot->calls = calls;
  spot->homes = homes;
  spot->leaves = leaves;
  spot->stops = stops;
  spot->van = van;
  spot->n_ways = 0;
}

/* Keeps @step unless another is at least as good; FALSE if there is no room for it. */
static gboolean
add_way (Spot *spot, const HsStep *step)
{
  guint n_kept = 0;

  for (guint i = 0; i < spot->n_ways; i++)
    if (can_stand_for (&spot->ways[i], step))
      return TRUE;
  for (guint i = 0; i < spot->n_ways; i++)
    if (!can_stand_for (step, &spot->ways[i]))
      spot->ways[n_kept++] = spot->ways[i];
  spot->n_ways = n_kept;
  if (n_kept == MAX_WAYS)
    return FALSE;
  spot->ways[spot->n_ways++] = *step;
  return TRUE;
}

/* The best way home; FALSE if there is none. A van that has not moved counts neither as home nor as left. */
static gboolean
close_best (const HsSolveFrame *frame, const HsSolveTerms *terms, const Spot *spot, HsClose *ret_close)
{
  gboolean found = FALSE;
  HsClose close;

  for (guint i = 0; i < spot->n_ways; i++)
    {
      if (!hs_step_close (frame, terms, &spot->ways[i], &close))
        continue;
      if (spot->ways[i].last >= frame->n_nodes)
        close.leave = close.home = 0;
      if (found && hs_step_compare_closes (&close, ret_close) >= 0)
        continue;
      *ret_close = close;
      found = TRUE;
    }
  return found;
}

/* The next van of @spot, whose van was home at @close; without one the first of the day. */
static guint
begin_next (const HsSolveFrame *frame, const HsSolveTerms *terms, const Spot *spot, const HsClose *close, Spot *next,
            HsStep *ret_steps)
{
  guint n;

  if (spot == NULL)
    spot_begin (next, 0, 0, 0, 0, 0);
  else
    spot_begin (next, spot->calls, spot->homes + close->home, spot->leaves + close->leave, spot->stops, spot->van + 1);
  n = hs_step_begin (frame, terms, next->van, ret_steps);
  for (guint k = 0; k < n && spot != NULL; k++)
    {
      ret_steps[k].units = close->units;
      ret_steps[k].broken = (guint16) close->broken;
      ret_steps[k].late = close->late;
    }
  return n;
}

/* Rating ----------------------------------------------------------------------------------------------------------- */

/* Goes on to @stop in every way; FALSE if there is none. */
static gboolean
drive_to (const HsSolveFrame *frame, const HsSolveTerms *terms, Spot *spot, guint8 stop)
{
  const Spot before = *spot;

  spot->n_ways = 0;
  spot->stops++;
  for (guint i = 0; i < before.n_ways; i++)
    {
      HsStep next[HS_STEP_MAX_NEXT];
      guint n = step_to (frame, terms, &before.ways[i], stop, next);

      for (guint k = 0; k < n; k++)
        add_way (spot, &next[k]);
    }
  return spot->n_ways > 0;
}

gboolean
hs_solve_first_rate (const HsSolveFrame *frame, const HsSolveTerms *terms, HsPath *path, HsScore *ret_score)
{
  HsPath rated = *path;
  HsClose close = { 0 };
  Spot spot = { 0 };
  guint at = 0;
  guint n_calls = 0;

  for (guint v = 0; v < frame->n_vans; v++, at++)
    {
      HsStep steps[2];
      Spot before = spot;
      guint n = begin_next (frame, terms, v > 0 ? &before : NULL, &close, &spot, steps);

      for (guint k = 0; k < n; k++)
        add_way (&spot, &steps[k]);
      for (; at < path->n_stops && path->stops[at] != HS_PATH_CLOSE; at++)
        {
          n_calls += path->stops[at] < frame->n_calls;
          if (!drive_to (frame, terms, &spot, path->stops[at]))
            return FALSE;
        }
      if (!close_best (frame, terms, &spot, &close))
        return FALSE;
      rated.leave[v] = close.leave;
      rated.home[v] = close.home;
    }
  *path = rated;
  *ret_score = (HsScore){
    .missed = close.broken + frame->n_calls - n_calls,
    .dropped = frame->n_calls - n_calls,
    .late = close.late,
    .units = close.units,
    .homes = spot.homes + close.home,
    .leaves = spot.leaves + close.leave,
    .stops = spot.stops,
  };
  return TRUE;
}

/* Searching -------------------------------------------------------------------------------------------------------- */

/* Going through long lists takes tries too. */
static void
use_up (First *first, guint n_tries)
{
  *first->tries -= MIN (*first->tries, n_tries);
  if (*first->tries == 0)
    first->over = TRUE;
}

/* Whether @step at @spot is no better than one that led nowhere. */
static gboolean
has_failed (First *first, const HsState *state, const Spot *spot, const HsStep *step)
{
  guint n_seen = 0;

  for (guint32 at = state->first; at != HS_STATES_NONE;)
    {
      const Failed *failed = &g_array_index (first->failed, Failed, at);

      at = failed->next;
      if (++n_seen % LIST_TRY == 0)
        use_up (first, 1);
      if (!first->terms.flat && hs_step_beats (first->ahead.frame, &failed->step, step))
        return TRUE;
      if (!hs_step_dominates (&failed->step, step))
        continue;
      if (failed->step.units < step->units || failed->homes < spot->homes)
        return TRUE;
      if (failed->homes == spot->homes && failed->leaves >= spot->leaves && failed->stops <= spot->stops)
        return TRUE;
    }
  return FALSE;
}

/* Whether the calls left fill up all stops that the plan may have, and the break is still owed. */
static gboolean
must_rest_at_home (const First *first, const Spot *spot, const HsStep *step)
{
  guint left = (guint) __builtin_popcountll (first->ahead.all & ~spot->calls);

  return hs_problem_get_van (first->ahead.frame->problem, step->van)->break_seconds > 0
         && (step->seen & HS_SOLVE_HAD_BREAK) == 0 && spot->stops + left >= first->target.stops + first->target.dropped;
}

/* Whether what is sure to come after @step makes it worse than the target. */
static gboolean
is_worse (const First *first, const HsState *state, const Spot *spot, const HsStep *step)
{
  const HsScore *target = &first->target;
  const HsVan *van = hs_problem_get_van (first->ahead.frame->problem, step->van);
  guint left = (guint) __builtin_popcountll (first->ahead.all & ~spot->calls);
  gboolean moved = step->last < first->ahead.frame->n_nodes;
  guint missed = step->broken;
  gint64 late = step->late;
  gint32 home;

  if (spot->stops + left > target->stops + target->dropped
      || spot->leaves + step->leave_max + first->later_leaves[step->van] < target->leaves)
    return TRUE;
  if (first->ahead.bound != NULL && target->dropped == 0 && state->rest.units >= HS_SOLVE_NO_UNITS)
    return TRUE;
  if (!hs_ahead_look (&first->ahead, step, spot->calls, &missed, &late, &home) || missed > target->missed
      || (target->dropped == 0 && late > target->late))
    return TRUE;
  if (hs_ahead_floor (&first->ahead, step, &state->rest, home) > target->units
      || hs_ahead_outlook (&first->ahead, step, spot->calls) > target->units)
    return TRUE;
  if (!moved)
    return FALSE;
  return spot->homes + home > target->homes
         || (must_rest_at_home (first, spot, step) && home > van->break_span.to_seconds - van->break_seconds);
}

/* Adds to @spot what of @steps may lead to the target. */
static void
add_steps (First *first, Spot *spot, const HsStep *steps, guint n_steps)
{
  for (guint k = 0; k < n_steps && !first->over; k++)
    {
      const HsState key = hs_state_of (spot->calls, &steps[k]);
      gboolean is_new;
      HsState *state = hs_states_find (&first->states, &key, &is_new);

      if (is_new && first->ahead.bound != NULL)
        state->rest = hs_ahead_rest (&first->ahead, &key);
      use_up (first, 1);
      first->over |= first->states.states->len > MAX_STATES;
      if (first->exact != NULL && first->asked++ % ASK_EVERY == 0 && hs_exact_gives_up (first->exact))
        first->over = TRUE;
      if (!first->over && !has_failed (first, state, spot, &steps[k]) && !is_worse (first, state, spot, &steps[k])
          && !add_way (spot, &steps[k]))
        first->over = TRUE;
    }
}

static void
note_failed (First *first, const Spot *spot)
{
  for (guint i = 0; i < spot->n_ways && first->failed->len < MAX_FAILED; i++)
    {
      const HsState key = hs_state_of (spot->calls, &spot->ways[i]);
      gboolean is_new;
      HsState *state = hs_states_find (&first->states, &key, &is_new);
      const Failed failed = { spot->ways[i], spot->homes, spot->leaves, spot->stops, state->first };

      state->first = first->failed->len;
      g_array_append_val (first->failed, failed);
    }
}

static gboolean descend (First *first, const Spot *spot, gboolean is_known);

/* Brings the van of @spot home and sends the next, unless that is all. */
static gboolean
go_home (First *first, const Spot *spot, gboolean is_known)
{
  const HsSolveFrame *frame = first->ahead.frame;
  guint left = (guint) __builtin_popcountll (first->ahead.all & ~spot->calls);
  HsStep steps[2];
  HsClose close;
  Spot next;
  guint n;

  if (!close_best (frame, &first->terms, spot, &close))
    return FALSE;
  first->path.leave[spot->van] = close.leave;
  first->path.home[spot->van] = close.home;
  if (left <= first->target.dropped)
    {
      const HsScore score = { close.broken + left, left, close.late, close.units, spot->homes + close.home,
                              spot->leaves + close.leave, spot->stops };

      return hs_score_compare (&score, &first->target) <= 0;
    }
  if (spot->van + 1 == frame->n_vans)
    return FALSE;
  n = begin_next (frame, &first->terms, spot, &close, &next, steps);
  add_steps (first, &next, steps, n);
  first->path.stops[first->path.n_stops++] = HS_PATH_CLOSE;
  if (next.n_ways > 0 && descend (first, &next, is_known))
    return TRUE;
  first->path.n_stops--;
  return FALSE;
}

static gboolean
go_on (First *first, const Spot *spot, guint8 stop, gboolean is_known)
{
  guint64 call = stop < first->ahead.frame->n_calls ? G_GUINT64_CONSTANT (1) << stop : 0;
  Spot next;

  spot_begin (&next, spot->calls | call, spot->homes, spot->leaves, spot->stops + 1, spot->van);
  for (guint i = 0; i < spot->n_ways; i++)
    {
      HsStep steps[HS_STEP_MAX_NEXT];
      guint n = step_to (first->ahead.frame, &first->terms, &spot->ways[i], stop, steps);

      add_steps (first, &next, steps, n);
    }
  first->path.stops[first->path.n_stops++] = stop;
  if (next.n_ways > 0 && descend (first, &next, is_known))
    return TRUE;
  first->path.n_stops--;
  return FALSE;
}

/* Completes the stops so far to the first plan that is worth the target; FALSE if there is none, or it is over.
 * @is_known: the known plan begins with them */
static gboolean
descend (First *first, const Spot *spot, gboolean is_known)
{
  guint at = first->path.n_stops;
  guint8 known = at < first->known->n_stops ? first->known->stops[at] : HS_PATH_CLOSE;

  for (guint i = 0; i < first->n_order && !first->over; i++)
    {
      guint8 stop = first->order[i];
      gboolean next_is_known = is_known && stop == known;

      if (stop < first->ahead.frame->n_calls && (spot->calls >> stop & 1) != 0)
        continue;
      if (stop == HS_PATH_CLOSE ? go_home (first, spot, next_is_known) : go_on (first, spot, stop, next_is_known))
        return TRUE;
      if (next_is_known)
        return FALSE;
    }
  if (!first->over)
    note_failed (first, spot);
  return FALSE;
}

static void
fill_order (First *first)
{
  const HsSolveFrame *frame = first->ahead.frame;

  for (guint i = 0; i < frame->n_nodes; i++)
    first->order[first->n_order++] = (guint8) i;
  first->order[first->n_order++] = HS_PATH_BREAK;
  first->order[first->n_order++] = HS_PATH_CLOSE;
  g_qsort_with_data (first->order, (gint) first->n_order, sizeof *first->order, compare_stops, (gpointer) frame);
}

static void
fill_later_leaves (First *first)
{
  const HsSolveFrame *frame = first->ahead.frame;

  for (guint v = frame->n_vans - 1; v-- > 0;)
    {
      const HsVan *next = hs_problem_get_van (frame->problem, v + 1);

      first->later_leaves[v] = first->later_leaves[v + 1] + MAX (0, MIN (next->leave_to_seconds,
                                                                          next->home_by_seconds));
    }
}

/* No more may be missed or be late than the target has. */
static void
fill_terms (First *first, const HsSolveTerms *terms)
{
  first->terms = *terms;
  first->terms.missed = first->target.missed;
  first->terms.dropped = first->target.dropped;
  first->terms.late = first->target.late;
}

gboolean
hs_solve_first_find (HsExact *exact, const HsSolveFrame *frame, const HsSolveBound *bound, const HsSolveTerms *terms,
                     guint *tries, HsPath *path)
{
  g_autofree First *first = g_new0 (First, 1);
  g_autoptr (GArray) failed = g_array_new (FALSE, FALSE, sizeof (Failed));
  HsStep steps[2];
  Spot begin;
  guint n;
  gboolean found;

  g_return_val_if_fail (frame->n_calls <= HS_EXACT_MAX_CALLS, FALSE);
  if (!hs_solve_first_rate (frame, terms, path, &first->target))
    return FALSE;
  fill_terms (first, terms);
  hs_ahead_init (&first->ahead, frame, bound, &first->terms);
  first->exact = exact;
  first->failed = failed;
  first->known = path;
  first->tries = tries;
  fill_order (first);
  fill_later_leaves (first);
  n = begin_next (frame, &first->terms, NULL, NULL, &begin, steps);
  add_steps (first, &begin, steps, n);
  found = descend (first, &begin, TRUE);
  hs_states_clear (&first->states);
  if (found)
    *path = first->path;
  return found;
}
