// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One van's trips, each call worth a prize.
 *
 * What a way costs that is free at t is max (flat, slope + t × second), for all leave times at once, from the moment on
 * at which it can be free at all. Of two ways to one stop only those are kept that are not worse in all three. */

#include "hs-solve-trip.h"

#include "hs-solve-outlook.h"

#include <string.h>

#define WORDS ((HS_PROBLEM_MAX_CALLS + 63) / 64)
#define NO_LABEL G_MAXUINT32
#define CHUNK_BITS 12
#define CHUNK (1u << CHUNK_BITS)
#define SLOT_SECONDS_BITS 6
#define ASK_EVERY 512

/* 330 MB of labels. */
#define MAX_LABELS 3000000

/* 2 MB. */
#define MAX_OUTLOOK_CELLS 600000

/* So many cells are filled from one call in the time in which one way is compared with one other. */
#define CELLS_A_WORK 4

/* A search of more work than this is done with an outlook. */
#define QUICK_WORK 10000000

/* @flat, @slope: less the prizes so far
 * @memory: calls that must not come again
 * @next: the next one of the same slot of time */
typedef struct
{
  gint64 flat;
  gint64 slope;
  guint64 stock;
  guint64 memory[WORDS];
  gint32 ready;
  guint32 seen;
  guint32 parent;
  guint32 next;
  guint16 n_calls;
  guint8 last;
  gboolean dead : 1;
} Label;

/* A label of a stop, with what tells most of them apart; @memory is its first word. */
typedef struct
{
  gint64 flat;
  gint64 slope;
  guint64 memory;
  gint32 ready;
  guint32 seen;
  guint32 label;
} Entry;

struct _HsTrips
{
  const HsSolveFrame *frame;
  guint n_words;
  guint64 *near;
  guint64 work;
  guint64 max_work;
};

/* @plain: no more calls than one word holds, and nothing on board to be counted */
typedef struct
{
  HsTrips *trips;
  HsExact *exact;
  const HsSolveFrame *frame;
  const gint64 *prizes;
  guint van;
  HsTripsCare care;
  gboolean plain;
  gboolean failed;
  guint32 useful;
  gint32 home_by;
  GPtrArray *chunks;
  guint32 n_labels;
  GArray **entries;
  guint32 *slots;
  guint n_slots;
  const HsOutlook *outlook;
  gint64 enough;
  guint64 max_work;
} Run;

/* Remembering ------------------------------------------------------------------------------------------------------ */

static guint64 *
near_of (const HsTrips *trips, guint node)
{
  return &trips->near[(gsize) node * trips->n_words];
}

static void
remember (guint64 *set, guint call)
{
  set[call / 64] |= G_GUINT64_CONSTANT (1) << call % 64;
}

static gboolean
is_remembered (const guint64 *set, guint call)
{
  return (set[call / 64] >> call % 64 & 1) != 0;
}

static void
fill_near (HsTrips *trips, guint node, guint n_near)
{
  const HsSolveFrame *frame = trips->frame;
  guint64 *near = near_of (trips, node);

  if (node < frame->n_calls)
    remember (near, node);
  for (guint k = 0; k < n_near; k++)
    {
      gint64 least = G_MAXINT64;
      guint nearest = frame->n_calls;

      for (guint i = 0; i < frame->n_calls; i++)
        {
          gint64 way = (gint64) hs_solve_frame_reach (frame, i, node) + hs_solve_frame_reach (frame, node, i);

          if (!is_remembered (near, i) && way < least)
            {
              least = way;
              nearest = i;
            }
        }
      if (nearest < frame->n_calls)
        remember (near, nearest);
    }
}

HsTrips *
hs_solve_trips_new (const HsSolveFrame *frame, guint n_near, guint64 max_work)
{
  HsTrips *trips = g_new0 (HsTrips, 1);

  trips->frame = frame;
  trips->max_work = max_work;
  trips->n_words = (frame->n_calls + 63) / 64 + (frame->n_calls == 0);
  trips->near = g_new0 (guint64, (gsize) (frame->n_nodes + 1) * trips->n_words);
  for (guint node = 0; node < frame->n_nodes; node++)
    fill_near (trips, node, n_near);
  return trips;
}

void
hs_solve_trips_free (HsTrips *trips)
{
  if (trips == NULL)
    return;
  g_free (trips->near);
  g_free (trips);
}

gboolean
hs_solve_trips_remind (HsTrips *trips, const HsTrip *trip)
{
  gboolean twice = FALSE;

  for (guint to = 1; to < trip->n_calls; to++)
    for (guint from = to; from-- > 0;)
      {
        if (trip->calls[from] != trip->calls[to])
          continue;
        for (guint k = from + 1; k < to; k++)
          remember (near_of (trips, trip->calls[k]), trip->calls[to]);
        for (guint c = 0; c < trips->frame->n_counters; c++)
          remember (near_of (trips, trips->frame->n_calls + c), trip->calls[to]);
        twice = TRUE;
        break;
      }
  return twice;
}

/* Ways ------------------------------------------------------------------------------------------------------------- */

static Label *
get_label (const Run *run, guint32 index)
{
  Label *chunk = g_ptr_array_index (run->chunks, index >> CHUNK_BITS);

  return &chunk[index & (CHUNK - 1)];
}

static guint32
keep_label (Run *run, const Label *label)
{
  guint32 *slot = &run->slots[label->ready >> SLOT_SECONDS_BITS];
  Label *kept;

  if (run->n_labels == run->chunks->len << CHUNK_BITS)
    g_ptr_array_add (run->chunks, g_new (Label, CHUNK));
  kept = get_label (run, run->n_labels);
  *kept = *label;
  kept->next = *slot;
  *slot = run->n_labels;
  run->exact->states++;
  return run->n_labels++;
}

static gboolean
used_less (const Run *run, guint64 a, guint64 b)
{
  if (a == b)
    return TRUE;
  for (guint p = 0; p < run->frame->problem->parts->len; p++)
    {
      const HsPart *part = &run->frame->parts[p];

      if (part->counted[run->van]
          && (a >> part->shift[run->van] & part->mask[run->van]) > (b >> part->shift[run->van] & part->mask[run->van]))
        return FALSE;
    }
  return TRUE;
}

/* Whether @a is as cheap as @b at all times and may go as far, as much as entries tell. */
static inline gboolean
looks_as_good (const Run *run, const Entry *a, const Entry *b)
{
  return a->flat <= b->flat && (run->care == HS_TRIPS_HASTY || a->slope <= b->slope)
         && hs_solve_frame_serves (run->frame, run->van, a->seen, b->seen)
         && (run->care != HS_TRIPS_WHOLE || (a->memory & ~b->memory) == 0);
}

static gboolean
may_as_much (const Run *run, const Label *a, const Label *b)
{
  for (guint w = 1; w < run->trips->n_words; w++)
    if ((a->memory[w] & ~b->memory[w]) != 0)
      return FALSE;
  return used_less (run, a->stock, b->stock);
}

static inline gboolean
is_as_good (const Run *run, const Entry *a, const Entry *b, const Label *label_a, const Label *label_b)
{
  if (!looks_as_good (run, a, b))
    return FALSE;
  if (run->plain || run->care != HS_TRIPS_WHOLE)
    return TRUE;
  return may_as_much (run, label_a != NULL ? label_a : get_label (run, a->label),
                      label_b != NULL ? label_b : get_label (run, b->label));
}

/* The first of @entries that is ready later than @ready. */
static guint
find_later (const GArray *entries, gint32 ready)
{
  guint low = 0;
  guint high = entries->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (entries, Entry, middle).ready <= ready)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static gboolean
is_dominated (const Run *run, const GArray *entries, guint n, const Entry *entry, const Label *label)
{
  const Entry *all = (const Entry *) entries->data;

  for (guint i = 0; i < n; i++)
    if (is_as_good (run, &all[i], entry, NULL, label))
      return TRUE;
  return FALSE;
}

static void
drop_dominated (const Run *run, GArray *entries, guint from, const Entry *entry, const Label *label)
{
  Entry *all = (Entry *) entries->data;
  guint kept = from;

  for (guint i = from; i < entries->len; i++)
    if (is_as_good (run, entry, &all[i], label, NULL))
      get_label (run, all[i].label)->dead = TRUE;
    else
      all[kept++] = all[i];
  g_array_set_size (entries, kept);
}

static void
add_label (Run *run, const Label *label)
{
  const HsSolveFrame *frame = run->frame;
  GArray *entries = run->entries[label->last];
  Entry entry = { label->flat, label->slope, label->memory[0], label->ready, label->seen, NO_LABEL };
  guint end = hs_solve_frame_end (frame, run->van);
  guint at;

  if (label->ready + hs_solve_frame_reach (frame, label->last, end) > run->home_by)
    return;
  if (run->outlook != NULL && label->last < frame->n_nodes
      && hs_solve_outlook_least (run->outlook, label->last, label->memory, label->seen, label->ready, label->flat,
                                 label->slope)
             >= run->enough)
    return;
  at = find_later (entries, label->ready);
  run->trips->work += entries->len;
  if (is_dominated (run, entries, at, &entry, label))
    return;
  drop_dominated (run, entries, at, &entry, label);
  if (run->n_labels >= MAX_LABELS || run->trips->work > run->max_work || label->n_calls > HS_PROBLEM_MAX_CALLS)
    {
      run->failed = TRUE;
      return;
    }
  entry.label = keep_label (run, label);
  g_array_insert_val (entries, at, entry);
}

/* Goes on from @from with a stop that starts in one of @starts, @units dearer; @label has what is new otherwise. */
static void
add_stop (Run *run, const Label *from, Label *label, gint32 leg, gint64 units, const HsStart *starts, guint n_starts,
          gint32 service)
{
  gint64 second = run->frame->second_units;

  for (guint k = 0; k < n_starts; k++)
    {
      gint64 slope = MAX (from->slope, from->flat - second * (starts[k].last - leg));

      if (from->ready + leg > starts[k].last)
        continue;
      label->ready = MAX (from->ready + leg, starts[k].first) + service;
      label->slope = slope + units;
      label->flat = MAX (from->flat + units + second * (leg + service), label->slope + second * label->ready);
      add_label (run, label);
      if (slope == from->slope)
        return;
    }
}

static void
add_call (Run *run, const Label *from, guint32 parent, guint call)
{
  const HsSolveFrame *frame = run->frame;
  const HsNode *node = &frame->nodes[call];
  const guint64 *near = near_of (run->trips, call);
  gint32 leg = hs_solve_frame_seconds (frame, from->last, call);
  gint64 units = hs_solve_frame_units (frame, from->last, call) - run->prizes[call];
  Label label = { .stock = from->stock, .seen = from->seen, .parent = parent, .last = (guint8) call };
  gint64 price;

  if ((node->vans >> run->van & 1) == 0 || from->ready + leg > node->open_last || is_remembered (from->memory, call))
    return;
  price = node->n_needs == 0 ? 0 : hs_solve_frame_buy (frame, run->van, call, from->seen, &label.stock);
  if (price == HS_SOLVE_NO_UNITS)
    return;
  for (guint w = 0; w < run->trips->n_words; w++)
    label.memory[w] = from->memory[w] & near[w];
  remember (label.memory, call);
  label.n_calls = from->n_calls + 1;
  add_stop (run, from, &label, leg, units + price, node->open, node->n_open, node->service);
}

static void
add_counter (Run *run, const Label *from, guint32 parent, guint counter)
{
  const HsSolveFrame *frame = run->frame;
  guint at = frame->n_calls + counter;
  const HsNode *node = &frame->nodes[at];
  Label label = *from;

  label.parent = parent;
  label.last = (guint8) at;
  label.seen |= 1u << counter;
  for (guint w = 0; w < run->trips->n_words; w++)
    label.memory[w] &= near_of (run->trips, at)[w];
  add_stop (run, from, &label, hs_solve_frame_seconds (frame, from->last, at),
            hs_solve_frame_units (frame, from->last, at), node->open, node->n_open, node->service);
}

static void
add_break (Run *run, const Label *from, guint32 parent)
{
  const HsVan *van = hs_problem_get_van (run->frame->problem, run->van);
  HsStart start = { van->break_span.from_seconds, van->break_span.to_seconds - van->break_seconds };
  Label label = *from;

  if (van->break_seconds == 0 || (from->seen & HS_SOLVE_HAD_BREAK) != 0 || from->last >= run->frame->n_nodes)
    return;
  label.parent = parent;
  label.seen |= HS_SOLVE_HAD_BREAK;
  add_stop (run, from, &label, 0, 0, &start, 1, van->break_seconds);
}

static void
add_begin (Run *run, gint32 from, gint32 to, guint32 seen)
{
  Label label = { .ready = from, .seen = seen, .parent = NO_LABEL };

  if (from > to)
    return;
  label.last = (guint8) hs_solve_frame_start (run->frame, run->van);
  label.slope = -(gint64) to * run->frame->second_units;
  add_label (run, &label);
}

static void
begin (Run *run)
{
  const HsVan *van = hs_problem_get_van (run->frame->problem, run->van);
  gint32 to = MIN (van->leave_to_seconds, van->home_by_seconds);

  add_begin (run, van->leave_from_seconds, to, 0);
  if (van->break_seconds > 0)
    add_begin (run, MAX (van->leave_from_seconds, van->break_span.from_seconds + van->break_seconds), to,
               HS_SOLVE_HAD_BREAK);
}

static void
expand (Run *run, guint32 index)
{
  const Label label = *get_label (run, index);

  if (label.dead)
    return;
  for (guint i = 0; i < run->frame->n_calls; i++)
    add_call (run, &label, index, i);
  for (guint32 left = run->useful & ~label.seen; left != 0; left &= left - 1)
    add_counter (run, &label, index, (guint) __builtin_ctz (left));
  add_break (run, &label, index);
}

static void
expand_all (Run *run)
{
  guint asked = 0;

  for (guint s = 0; s < run->n_slots; s++)
    while (run->slots[s] != NO_LABEL)
      {
        guint32 index = run->slots[s];

        run->slots[s] = get_label (run, index)->next;
        expand (run, index);
        if (++asked % ASK_EVERY == 0 && hs_exact_gives_up (run->exact))
          run->failed = TRUE;
        if (run->failed)
          return;
      }
}

/* Home ------------------------------------------------------------------------------------------------------------- */

/* What the trip costs over its prizes that ends with @label; FALSE if it can't be home in time. */
static gboolean
close_label (const Run *run, const Label *label, gint64 *ret_over)
{
  const HsSolveFrame *frame = run->frame;
  const HsVan *van = hs_problem_get_van (frame->problem, run->van);
  guint end = hs_solve_frame_end (frame, run->van);
  gint32 leg = hs_solve_frame_seconds (frame, label->last, end);
  gint32 home_by = run->home_by;

  if (van->break_seconds > 0 && (label->seen & HS_SOLVE_HAD_BREAK) == 0)
    home_by = MIN (home_by, van->break_span.to_seconds - van->break_seconds);
  if (label->ready + leg > home_by)
    return FALSE;
  *ret_over = hs_solve_frame_units (frame, label->last, end)
              + MAX (label->flat + leg * frame->second_units,
                     label->slope + (label->ready + leg) * frame->second_units);
  return TRUE;
}

static HsTrip
trace (const Run *run, guint32 index, gint64 over)
{
  HsTrip trip = { .van = run->van, .units = over, .over = over };
  guint at = get_label (run, index)->n_calls;

  trip.n_calls = at;
  for (; index != NO_LABEL; index = get_label (run, index)->parent)
    {
      const Label *label = get_label (run, index);

      if (label->last >= run->frame->n_calls || label->n_calls != at || at == 0)
        continue;
      trip.calls[--at] = label->last;
      trip.units += run->prizes[label->last];
    }
  return trip;
}

static void
close_node (const Run *run, guint node, gint64 below, gint64 *least, GArray *ret_trips)
{
  gint64 best = G_MAXINT64;
  guint32 best_label = NO_LABEL;

  for (guint i = 0; i < run->entries[node]->len; i++)
    {
      guint32 index = g_array_index (run->entries[node], Entry, i).label;
      gint64 over;

      if (!close_label (run, get_label (run, index), &over) || over >= best)
        continue;
      best = over;
      best_label = index;
    }
  *least = MIN (*least, best);
  if (best < below)
    {
      HsTrip trip = trace (run, best_label, best);

      g_array_append_val (ret_trips, trip);
    }
}

static void
run_begin (Run *run)
{
  const HsSolveFrame *frame = run->frame;

  run->plain = run->trips->n_words == 1;
  for (guint p = 0; p < frame->problem->parts->len; p++)
    run->plain = run->plain && !frame->parts[p].counted[run->van];
  run->useful = hs_solve_drive_useful (frame, run->van);
  run->home_by = hs_problem_get_van (frame->problem, run->van)->home_by_seconds;
  run->chunks = g_ptr_array_new_with_free_func (g_free);
  run->entries = g_new (GArray *, frame->dim);
  for (guint i = 0; i < frame->dim; i++)
    run->entries[i] = g_array_new (FALSE, FALSE, sizeof (Entry));
  run->n_slots = (guint) (run->home_by >> SLOT_SECONDS_BITS) + 1;
  run->slots = g_new (guint32, run->n_slots);
  memset (run->slots, 0xff, run->n_slots * sizeof (guint32));
}

static void
run_clear (Run *run)
{
  for (guint i = 0; i < run->frame->dim; i++)
    g_array_unref (run->entries[i]);
  g_free (run->entries);
  g_free (run->slots);
  g_ptr_array_unref (run->chunks);
}

/* One search; FALSE if it did not come through. */
static gboolean
run_once (Run *run, gint64 below, gint64 *ret_least, GArray *ret_trips)
{
  gint64 least = 0;

  run_begin (run);
  begin (run);
  expand_all (run);
  for (guint node = 0; node < run->frame->n_nodes && !run->failed; node++)
    close_node (run, node, below, &least, ret_trips);
  run_clear (run);
  if (!run->failed)
    *ret_least = least;
  return !run->failed;
}

/* With an outlook: only what is better than what a rough search finds has to be gone after. */
static gboolean
run_closely (const Run *like, gint64 below, gint64 *ret_least, GArray *ret_trips)
{
  HsTrips *trips = like->trips;
  Run rough = *like;
  Run whole = *like;
  g_autoptr (HsOutlook) outlook = NULL;
  gint64 least;

  rough.care = HS_TRIPS_ROUGH;
  if (!run_once (&rough, below, &least, ret_trips))
    return FALSE;
  outlook = hs_solve_outlook_new (like->frame, like->van, trips->near, trips->n_words, MAX_OUTLOOK_CELLS);
  if (outlook != NULL)
    {
      trips->work += hs_solve_outlook_cells (outlook) * like->frame->n_calls / CELLS_A_WORK;
      if (!hs_solve_outlook_fill (outlook, like->exact, like->prizes))
        return FALSE;
    }
  whole.outlook = outlook;
  whole.enough = least;
  if (!run_once (&whole, MIN (below, least), ret_least, ret_trips))
    return FALSE;
  *ret_least = MIN (*ret_least, least);
  return TRUE;
}

gboolean
hs_solve_trips_run (HsTrips *trips, HsExact *exact, guint van, const gint64 *prizes, gint64 below,
                    HsTripsCare care, gint64 *ret_least, GArray *ret_trips)
{
  Run run = { trips, exact, trips->frame, prizes, van, care, .max_work = trips->max_work };
  Run quick = run;

  if (care != HS_TRIPS_WHOLE)
    return run_once (&run, below, ret_least, ret_trips);
  quick.max_work = MIN (trips->max_work, trips->work + QUICK_WORK);
  if (run_once (&quick, below, ret_least, ret_trips))
    return TRUE;
  if (exact->cut || quick.max_work == trips->max_work)
    return FALSE;
  return run_closely (&run, below, ret_least, ret_trips);
}
