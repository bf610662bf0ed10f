// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Dynamic programming over sets of stops, one layer for each number of stops done. Of the labels that share set and
 * last stop only those that no other beats are kept. Up to HS_PLAN_EXACT_STOPS stops nothing else is ever dropped;
 * above, a layer that grows beyond its budget keeps its most promising labels and search->bit is set. */

#include "hs-plan-search.h"

#include <stdlib.h>

#define POLL_EVERY 1024

typedef struct
{
  guint64 done;
  int last;
  int head;
} HsCell;

typedef struct
{
  HsSearch *search;
  const HsFrame *frame;
  const HsBound *bound;
  const HsTerms *terms;
  HsFinish *best;
  int best_label;
  GArray *labels;
  GArray *cells;
  guint used;
  guint layer;
  guint ticks;
} HsRun;

gboolean
hs_search_gives_up (HsSearch *search)
{
  if (!search->cut && search->give_up != NULL && search->give_up (search->user_data))
    search->cut = TRUE;
  return search->cut;
}

/* Labels a layer may keep. */
static guint
layer_budget (const HsFrame *frame, const HsTerms *terms)
{
  if (frame->n <= HS_PLAN_EXACT_STOPS)
    return G_MAXUINT;
  if (frame->n <= 16)
    return 100000;
  if (frame->n <= 24)
    return terms->flat ? 2000 : 10000;
  return terms->flat ? 200 : 1000;
}

static guint
cell_hash (guint64 done, int last)
{
  guint64 mix = (done + (guint64) last + 1) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  mix ^= mix >> 29;
  mix *= G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9) + 2 * (guint64) last;
  return (guint) (mix >> 32);
}

static HsCell *
cell_find (GArray *cells, guint64 done, int last)
{
  guint mask = cells->len - 1;
  guint at = cell_hash (done, last) & mask;

  for (;;)
    {
      HsCell *cell = &g_array_index (cells, HsCell, at);

      if (cell->last < 0 || (cell->done == done && cell->last == last))
        return cell;
      at = (at + 1) & mask;
    }
}

static GArray *
cells_new (guint size)
{
  GArray *cells = g_array_sized_new (FALSE, FALSE, sizeof (HsCell), size);

  g_array_set_size (cells, size);
  for (guint i = 0; i < size; i++)
    g_array_index (cells, HsCell, i) = (HsCell){ 0, -1, -1 };
  return cells;
}

static HsCell *
run_cell (HsRun *run, guint64 done, int last)
{
  HsCell *cell = cell_find (run->cells, done, last);

  if (cell->last >= 0)
    return cell;
  if (2 * ++run->used > run->cells->len)
    {
      GArray *grown = cells_new (2 * run->cells->len);

      for (guint i = 0; i < run->cells->len; i++)
        {
          const HsCell *old = &g_array_index (run->cells, HsCell, i);

          if (old->last >= 0)
            *cell_find (grown, old->done, old->last) = *old;
        }
      g_array_unref (run->cells);
      run->cells = grown;
      cell = cell_find (grown, done, last);
    }
  cell->done = done;
  cell->last = last;
  return cell;
}

static gint64
least_units (const HsRun *run, const HsLabel *label)
{
  gint64 away = MAX (label->drive, label->ready - label->leave_max);

  return label->units + away * run->frame->second_units
         + hs_bound_both (run->bound, run->frame, label->done, (guint) label->last);
}

/* Whether nothing that follows from @label can be as good as the best finish known. */
static gboolean
run_is_hopeless (const HsRun *run, const HsLabel *label)
{
  HsFinish least = { label->broken, label->late, 0, 0, 0, G_MAXINT64 };
  gint64 home;

  if (!hs_frame_doom (run->frame, label->done, (guint) label->last, label->ready, &least.broken, &least.late))
    return TRUE;
  if (least.broken > run->terms->broken || least.late > run->terms->late)
    return TRUE;
  home = label->ready + hs_bound_seconds (run->bound, run->frame, label->done, (guint) label->last);
  least.home_late = MAX (0, home - run->frame->home_by);
  if (least.home_late > run->terms->home_late)
    return TRUE;
  if (!run->terms->flat)
    least.units = least_units (run, label);
  least.home = home;
  return hs_finish_compare (&least, run->best) > 0;
}

/* Puts a label where its set and last stop are, unless one there beats it; those that it beats go. */
static void
run_keep (HsRun *run, const HsLabel *label)
{
  HsCell *cell = run_cell (run, label->done, label->last);
  int *link = &cell->head;
  HsLabel kept = *label;

  for (int i = cell->head; i >= 0; i = g_array_index (run->labels, HsLabel, i).next)
    if (hs_label_dominates (&g_array_index (run->labels, HsLabel, i), label))
      return;
  while (*link >= 0)
    {
      HsLabel *other = &g_array_index (run->labels, HsLabel, *link);

      if (hs_label_dominates (label, other))
        {
          *link = other->next;
          other->last = -1;
        }
      else
        {
          link = &other->next;
        }
    }
  kept.next = cell->head;
  cell->head = (int) run->labels->len;
  g_array_append_val (run->labels, kept);
}

static void
run_extend (HsRun *run, int index)
{
  HsLabel label = g_array_index (run->labels, HsLabel, index);
  HsLabel next[HS_LABEL_MAX_NEXT];

  for (guint64 left = run->frame->all & ~label.done; left != 0; left &= left - 1)
    {
      guint i = (guint) __builtin_ctzll (left);
      guint n;

      if (!hs_frame_may_follow (run->frame, label.done, i))
        continue;
      n = hs_label_extend (run->frame, run->terms, &label, i, next);
      for (guint k = 0; k < n; k++)
        {
          next[k].parent = index;
          if (!run_is_hopeless (run, &next[k]))
            run_keep (run, &next[k]);
        }
    }
}

static gint64
label_score (const HsRun *run, const HsLabel *label)
{
  guint broken = label->broken;
  gint64 late = label->late;

  if (!run->terms->flat)
    return least_units (run, label);
  hs_frame_doom (run->frame, label->done, (guint) label->last, label->ready, &broken, &late);
  return (gint64) broken * 100000 + late
         + label->ready + hs_bound_seconds (run->bound, run->frame, label->done, (guint) label->last);
}

typedef struct
{
  gint64 score;
  int index;
} HsLabelRank;

static int
compare_ranks (const void *a, const void *b)
{
  const HsLabelRank *left = a;
  const HsLabelRank *right = b;

  if (left->score != right->score)
    return left->score < right->score ? -1 : 1;
  return left->index - right->index;
}

/* Ends a layer: drops what was beaten, then what is over budget; returns how many labels stay from @first on. */
static guint
run_close_layer (HsRun *run, guint first)
{
  guint kept = first;
  guint budget = layer_budget (run->frame, run->terms);
  g_autofree HsLabelRank *ranks = NULL;
  g_autofree HsLabel *chosen = NULL;

  for (guint i = first; i < run->labels->len; i++)
    if (g_array_index (run->labels, HsLabel, i).last >= 0)
      g_array_index (run->labels, HsLabel, kept++) = g_array_index (run->labels, HsLabel, i);
  g_array_set_size (run->labels, kept);
  if (kept - first <= budget)
    return kept - first;
  run->search->bit = TRUE;
  ranks = g_new (HsLabelRank, kept - first);
  chosen = g_new (HsLabel, budget);
  for (guint i = first; i < kept; i++)
    ranks[i - first] = (HsLabelRank){ label_score (run, &g_array_index (run->labels, HsLabel, i)), (int) i };
  qsort (ranks, kept - first, sizeof *ranks, compare_ranks);
  for (guint i = 0; i < budget; i++)
    chosen[i] = g_array_index (run->labels, HsLabel, ranks[i].index);
  for (guint i = 0; i < budget; i++)
    g_array_index (run->labels, HsLabel, first + i) = chosen[i];
  g_array_set_size (run->labels, first + budget);
  return budget;
}

static void
run_finish (HsRun *run, guint first)
{
  for (guint i = first; i < run->labels->len; i++)
    {
      HsFinish finish;

      if (!hs_label_finish (run->frame, run->terms, &g_array_index (run->labels, HsLabel, i), &finish))
        continue;
      if (hs_finish_compare (&finish, run->best) >= 0)
        continue;
      *run->best = finish;
      run->best_label = (int) i;
    }
}

static void
run_layers (HsRun *run)
{
  guint first = 0;

  for (guint layer = 0; layer < run->frame->n; layer++)
    {
      guint end = run->labels->len;

      for (guint i = 0; i < run->cells->len; i++)
        g_array_index (run->cells, HsCell, i) = (HsCell){ 0, -1, -1 };
      run->used = 0;
      for (guint i = first; i < end; i++)
        {
          if (run->ticks++ % POLL_EVERY == 0 && hs_search_gives_up (run->search))
            return;
          run_extend (run, (int) i);
        }
      first = end;
      run->search->states += run_close_layer (run, first);
    }
  run_finish (run, first);
}

static void
trace_back (const HsRun *run, guint *order)
{
  int at = run->best_label;

  for (guint k = run->frame->n; k > 0; k--)
    {
      const HsLabel *label = &g_array_index (run->labels, HsLabel, at);

      order[k - 1] = (guint) label->last;
      at = label->parent;
    }
}

gboolean
hs_search_run (HsSearch *search, const HsFrame *frame, const HsBound *bound, const HsTerms *terms, HsFinish *best,
               guint *order)
{
  HsRun run = { search, frame, bound, terms, best, -1 };
  HsLabel begin[HS_LABEL_MAX_BEGIN];

  if (hs_search_gives_up (search))
    return FALSE;
  run.labels = g_array_new (FALSE, FALSE, sizeof (HsLabel));
  run.cells = cells_new (64);
  g_array_append_vals (run.labels, begin, hs_label_begin (frame, terms, begin));
  run_layers (&run);
  if (run.best_label >= 0)
    trace_back (&run, order);
  g_array_unref (run.labels);
  g_array_unref (run.cells);
  return run.best_label >= 0;
}
