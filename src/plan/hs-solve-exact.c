// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The search over (calls done, counters seen, where the van is).
 *
 * Buckets, in the order in which they are worked off: by calls done, then van, then counters seen and break had. Each
 * continuation lands in a later bucket, so that a bucket is complete when its turn comes. */

#include "hs-solve-exact.h"

#include "hs-solve-ahead.h"

#include <stdlib.h>
#include <string.h>

#define NO_LABEL G_MAXUINT32
#define CHUNK_BITS 14
#define CHUNK (1u << CHUNK_BITS)
#define ASK_EVERY 2048

/* @step with how it came about. @homes and @leaves are of the vans that are home; @stops of all so far. */
typedef struct
{
  HsStep step;
  guint64 calls;
  gint64 homes;
  gint64 leaves;
  guint32 parent;
  guint32 next;
  guint16 stops;
  guint8 stop;
} Label;

typedef struct
{
  HsExact *exact;
  const HsSolveFrame *frame;
  const HsSolveTerms *terms;
  HsAhead ahead;
  guint width;
  guint64 all;
  GPtrArray *chunks;
  guint32 n_labels;
  guint32 free_label;
  HsStates *buckets;
  guint n_rooms;
  HsScore *best;
  guint32 best_label;
  HsClose best_close;
  gint64 floor;
  guint asked;
} Run;

int
hs_score_compare (const HsScore *a, const HsScore *b)
{
  if (a->missed != b->missed)
    return a->missed < b->missed ? -1 : 1;
  if (a->dropped != b->dropped)
    return a->dropped < b->dropped ? -1 : 1;
  if (a->late != b->late)
    return a->late < b->late ? -1 : 1;
  if (a->units != b->units)
    return a->units < b->units ? -1 : 1;
  if (a->homes != b->homes)
    return a->homes < b->homes ? -1 : 1;
  if (a->leaves != b->leaves)
    return a->leaves > b->leaves ? -1 : 1;
  return a->stops < b->stops ? -1 : a->stops > b->stops;
}

gboolean
hs_exact_gives_up (HsExact *exact)
{
  if (!exact->cut && exact->give_up != NULL && exact->give_up (exact->user_data))
    exact->cut = TRUE;
  return exact->cut;
}

static Label *
get_label (const Run *run, guint32 index)
{
  Label *chunk = g_ptr_array_index (run->chunks, index >> CHUNK_BITS);

  return &chunk[index & (CHUNK - 1)];
}

static guint32
new_label (Run *run)
{
  guint32 index = run->free_label;

  if (index != NO_LABEL)
    {
      run->free_label = get_label (run, index)->next;
      return index;
    }
  if (run->n_labels == run->chunks->len << CHUNK_BITS)
    g_ptr_array_add (run->chunks, g_new (Label, CHUNK));
  return run->n_labels++;
}

static guint
bucket_of (const Run *run, guint64 calls, guint van, guint32 seen)
{
  guint done = (guint) __builtin_popcountll (calls);
  guint rooms = (guint) __builtin_popcount (seen);

  return (done * run->frame->n_vans + van) * run->n_rooms + rooms;
}

/* The state that @key names, made where it is new. */
static HsState *
find_state (Run *run, HsStates *bucket, const HsState *key)
{
  gboolean is_new;
  HsState *state = hs_states_find (bucket, key, &is_new);

  if (is_new && run->ahead.bound != NULL)
    state->rest = hs_ahead_rest (&run->ahead, key);
  run->exact->states += is_new;
  return state;
}

/* Whether going on from @label can't lead to anything better; else what it costs at least. */
static gboolean
is_hopeless (Run *run, const Label *label, const HsState *state, gint64 *ret_floor)
{
  HsScore least = { label->step.broken, 0, label->step.late, 0, 0, 0 };
  gint32 home;

  if (run->ahead.bound != NULL && run->terms->dropped == 0 && state->rest.units >= HS_SOLVE_NO_UNITS)
    return TRUE;
  if (!hs_ahead_look (&run->ahead, &label->step, label->calls, &least.missed, &least.late, &home))
    return TRUE;
  if (least.missed > run->terms->missed || (run->terms->dropped == 0 && least.late > run->terms->late))
    return TRUE;
  *ret_floor = run->terms->flat ? 0 : hs_ahead_floor (&run->ahead, &label->step, &state->rest, home);
  if (run->terms->flat)
    {
      if (least.missed != run->best->missed)
        return least.missed > run->best->missed;
      return run->best->dropped == 0 && least.late >= run->best->late;
    }
  return *ret_floor > run->best->units;
}

/* Of two that cost the same so far the one is kept whose vans were home earlier, left later and stopped less, for the
 * sake of ties. */
static gboolean
dominates (const Run *run, const Label *a, const Label *b)
{
  if (!run->terms->flat && hs_step_beats (run->frame, &a->step, &b->step))
    return TRUE;
  if (!hs_step_dominates (&a->step, &b->step))
    return FALSE;
  if (a->step.units != b->step.units)
    return TRUE;
  if (a->homes != b->homes)
    return a->homes < b->homes;
  return a->leaves != b->leaves ? a->leaves > b->leaves : a->stops <= b->stops;
}

static void
add_label (Run *run, const Label *label)
{
  const HsState key = hs_state_of (label->calls, &label->step);
  HsState *state = find_state (
      run, &run->buckets[bucket_of (run, label->calls, label->step.van, label->step.seen)], &key);
  guint32 *link = &state->first;
  guint32 index;
  gint64 floor = 0;

  for (guint32 at = state->first; at != NO_LABEL; at = get_label (run, at)->next)
    if (dominates (run, get_label (run, at), label))
      return;
  if (is_hopeless (run, label, state, &floor)
      || hs_ahead_outlook (&run->ahead, &label->step, label->calls) > run->best->units)
    return;
  while (*link != NO_LABEL)
    {
      Label *other = get_label (run, *link);
      guint32 gone = *link;

      if (!dominates (run, label, other))
        {
          link = &other->next;
          continue;
        }
      *link = other->next;
      other->next = run->free_label;
      run->free_label = gone;
    }
  index = new_label (run);
  *get_label (run, index) = *label;
  get_label (run, index)->next = state->first;
  state->first = index;
}

/* Follows the best finish back to its beginning. */
static void
trace_path (const Run *run, HsPath *path)
{
  guint n = 0;
  guint8 back[HS_EXACT_MAX_STOPS];

  memset (path, 0, sizeof *path);
  path->leave[get_label (run, run->best_label)->step.van] = run->best_close.leave;
  path->home[get_label (run, run->best_label)->step.van] = run->best_close.home;
  for (guint32 at = run->best_label; at != NO_LABEL; at = get_label (run, at)->parent)
    {
      const Label *label = get_label (run, at);

      if (label->stop == HS_PATH_CLOSE && label->parent != NO_LABEL)
        {
          const Label *before = get_label (run, label->parent);

          path->home[before->step.van] = (gint32) (label->homes - before->homes);
          path->leave[before->step.van] = (gint32) (label->leaves - before->leaves);
        }
      if (label->stop != HS_PATH_CLOSE || label->parent != NO_LABEL)
        back[n++] = label->stop;
    }
  while (n > 0)
    path->stops[path->n_stops++] = back[--n];
}

static void
tell_found (const Run *run)
{
  HsPath path;

  if (run->exact->found == NULL)
    return;
  trace_path (run, &path);
  run->exact->found (&path, run->exact->found_data);
}

static void
take_finish (Run *run, const Label *label, guint32 index, const HsClose *close)
{
  HsScore score = {
    .missed = label->step.broken + (guint) __builtin_popcountll (run->all & ~label->calls),
    .dropped = (guint) __builtin_popcountll (run->all & ~label->calls),
    .late = label->step.late,
    .units = close->units,
    .homes = label->homes + close->home,
    .leaves = label->leaves + close->leave,
    .stops = label->stops,
  };

  if (score.missed > run->terms->missed || score.dropped > run->terms->dropped || score.late > run->terms->late
      || hs_score_compare (&score, run->best) >= 0)
    return;
  *run->best = score;
  run->best_label = index;
  run->best_close = *close;
  tell_found (run);
}

static void
begin_van (Run *run, guint van, gint64 units, const Label *before, guint32 parent)
{
  HsStep steps[2];
  guint n = hs_step_begin (run->frame, run->terms, van, steps);

  for (guint k = 0; k < n; k++)
    {
      Label label = { .step = steps[k], .parent = parent, .next = NO_LABEL, .stop = HS_PATH_CLOSE };

      label.step.units = units;
      if (before != NULL)
        {
          label.calls = before->calls;
          label.homes = before->homes;
          label.leaves = before->leaves;
          label.stops = before->stops;
          label.step.broken = before->step.broken;
          label.step.late = before->step.late;
        }
      add_label (run, &label);
    }
}

/* A van that did not move counts neither as home nor as left. */
static void
expand_close (Run *run, guint32 index)
{
  Label label = *get_label (run, index);
  gboolean moved = label.step.last < run->frame->n_nodes;
  guint left = (guint) __builtin_popcountll (run->all & ~label.calls);
  HsClose close;

  if (!moved && (label.step.seen & HS_SOLVE_HAD_BREAK) != 0)
    return;
  if (!hs_step_close (run->frame, run->terms, &label.step, &close))
    return;
  if (!moved)
    close.leave = close.home = 0;
  if (left <= run->terms->dropped)
    take_finish (run, &label, index, &close);
  if (left == 0 || label.step.van + 1u >= run->frame->n_vans)
    return;
  label.homes += close.home;
  label.leaves += close.leave;
  begin_van (run, label.step.van + 1, close.units, &label, index);
}

static void
add_all (Run *run, const Label *from, guint32 parent, const HsStep *next, guint n, guint64 calls, guint stop)
{
  for (guint k = 0; k < n; k++)
    {
      Label label = { next[k], calls, from->homes, from->leaves, parent, NO_LABEL, from->stops + 1, (guint8) stop };

      add_label (run, &label);
    }
}

static void
expand (Run *run, guint32 index)
{
  Label label = *get_label (run, index);
  HsStep next[HS_STEP_MAX_NEXT];
  guint n;

  for (guint64 left = run->all & ~label.calls; left != 0; left &= left - 1)
    {
      guint i = (guint) __builtin_ctzll (left);

      n = hs_step_call (run->frame, run->terms, &label.step, i, next);
      add_all (run, &label, index, next, n, label.calls | G_GUINT64_CONSTANT (1) << i, i);
    }
  for (guint c = 0; c < run->frame->n_counters; c++)
    {
      n = hs_step_counter (run->frame, &label.step, c, next);
      add_all (run, &label, index, next, n, label.calls, run->frame->n_calls + c);
    }
  n = hs_step_break (run->frame, &label.step, next);
  add_all (run, &label, index, next, n, label.calls, HS_PATH_BREAK);
  expand_close (run, index);
}

typedef struct
{
  gint64 floor;
  guint32 label;
} Promise;

static int
compare_promises (gconstpointer a, gconstpointer b)
{
  const Promise *left = a;
  const Promise *right = b;

  if (left->floor != right->floor)
    return left->floor < right->floor ? -1 : 1;
  return left->label < right->label ? -1 : left->label > right->label;
}

/* The labels of @bucket that still promise something, the most promising first. */
static GArray *
list_promises (Run *run, const HsStates *bucket)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (Promise));

  for (guint s = 0; s < bucket->states->len; s++)
    {
      const HsState *state = &g_array_index (bucket->states, HsState, s);

      for (guint32 at = state->first; at != NO_LABEL; at = get_label (run, at)->next)
        {
          Promise promise = { 0, at };

          if (is_hopeless (run, get_label (run, at), state, &promise.floor))
            continue;
          if (run->terms->flat)
            promise.floor = ((gint64) get_label (run, at)->step.broken << 40) + get_label (run, at)->step.late * 64
                            + get_label (run, at)->step.ready;
          g_array_append_val (list, promise);
        }
    }
  if (run->width > 0)
    g_array_sort (list, compare_promises);
  return list;
}

static gboolean
is_over (Run *run)
{
  HsExact *exact = run->exact;

  if (run->n_labels > exact->max_labels)
    exact->full = TRUE;
  if (++run->asked % ASK_EVERY == 0)
    hs_exact_gives_up (exact);
  return exact->cut || exact->full;
}

static void
work_off (Run *run, HsStates *bucket)
{
  g_autoptr (GArray) list = NULL;

  if (bucket->states == NULL)
    return;
  list = list_promises (run, bucket);
  for (guint k = 0; k < list->len; k++)
    {
      const Promise *promise = &g_array_index (list, Promise, k);

      if ((run->width > 0 && k >= run->width) || is_over (run))
        run->floor = MIN (run->floor, promise->floor);
      else
        expand (run, promise->label);
    }
  hs_states_clear (bucket);
}

static void
run_clear (Run *run)
{
  guint n = (run->frame->n_calls + 1) * run->frame->n_vans * run->n_rooms;

  for (guint i = 0; i < n; i++)
    hs_states_clear (&run->buckets[i]);
  g_free (run->buckets);
  g_ptr_array_unref (run->chunks);
}

gboolean
hs_exact_run (HsExact *exact, const HsSolveFrame *frame, const HsSolveBound *bound, const HsSolveTerms *terms,
              guint width, HsScore *best, HsPath *path, gint64 *ret_floor)
{
  Run run = { .exact = exact, .frame = frame, .terms = terms, .width = width };
  guint n_buckets;

  g_return_val_if_fail (frame->n_calls <= HS_EXACT_MAX_CALLS, FALSE);
  exact->full = FALSE;
  run.chunks = g_ptr_array_new_with_free_func (g_free);
  run.free_label = run.best_label = NO_LABEL;
  run.n_rooms = frame->n_counters + 2;
  run.best = best;
  run.floor = HS_SOLVE_NO_UNITS;
  n_buckets = (frame->n_calls + 1) * frame->n_vans * run.n_rooms;
  run.buckets = g_new0 (HsStates, n_buckets);
  hs_ahead_init (&run.ahead, frame, bound, terms);
  run.all = run.ahead.all;
  begin_van (&run, 0, 0, NULL, NO_LABEL);
  for (guint i = 0; i < n_buckets; i++)
    {
      if (!exact->full)
        exact->reached_percent = 100 * i / n_buckets;
      work_off (&run, &run.buckets[i]);
    }
  if (run.best_label != NO_LABEL)
    trace_path (&run, path);
  if (ret_floor != NULL)
    *ret_floor = MIN (run.floor, best->units);
  run_clear (&run);
  return run.best_label != NO_LABEL;
}
