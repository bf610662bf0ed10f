// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is sure to come after a step. */

#include "hs-solve-ahead.h"

#include <string.h>

static guint
hash_state (const HsState *key)
{
  guint64 mix = key->calls * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  mix ^= (mix >> 29) + key->stock * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  mix += ((guint64) key->seen << 16 | (guint64) key->van << 8 | key->last) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return (guint) ((mix ^ mix >> 32) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15) >> 32);
}

static gboolean
same_state (const HsState *a, const HsState *b)
{
  return a->calls == b->calls && a->stock == b->stock && a->seen == b->seen && a->van == b->van && a->last == b->last;
}

static void
grow (HsStates *states)
{
  guint n = states->n_slots == 0 ? 64 : states->n_slots * 2;

  g_free (states->slots);
  states->slots = g_new (guint32, n);
  memset (states->slots, 0xff, n * sizeof (guint32));
  states->n_slots = n;
  if (states->states == NULL)
    states->states = g_array_new (FALSE, FALSE, sizeof (HsState));
  for (guint i = 0; i < states->states->len; i++)
    {
      guint slot = hash_state (&g_array_index (states->states, HsState, i)) & (n - 1);

      while (states->slots[slot] != HS_STATES_NONE)
        slot = (slot + 1) & (n - 1);
      states->slots[slot] = i;
    }
}

HsState *
hs_states_find (HsStates *states, const HsState *key, gboolean *ret_new)
{
  guint slot;

  *ret_new = FALSE;
  if (states->states == NULL || states->states->len * 2 >= states->n_slots)
    grow (states);
  slot = hash_state (key) & (states->n_slots - 1);
  for (; states->slots[slot] != HS_STATES_NONE; slot = (slot + 1) & (states->n_slots - 1))
    {
      HsState *state = &g_array_index (states->states, HsState, states->slots[slot]);

      if (same_state (state, key))
        return state;
    }
  *ret_new = TRUE;
  states->slots[slot] = states->states->len;
  g_array_append_val (states->states, *key);
  return &g_array_index (states->states, HsState, states->states->len - 1);
}

void
hs_states_clear (HsStates *states)
{
  if (states->states != NULL)
    g_array_unref (states->states);
  g_free (states->slots);
  *states = (HsStates){ NULL, NULL, 0 };
}

void
hs_ahead_init (HsAhead *ahead, const HsSolveFrame *frame, const HsSolveBound *bound, const HsSolveTerms *terms)
{
  *ahead = (HsAhead){ frame, bound, terms, (G_GUINT64_CONSTANT (1) << frame->n_calls) - 1, { 0 } };
  for (guint van = frame->n_vans - 1; van-- > 0;)
    {
      ahead->later[van] = ahead->later[van + 1];
      for (guint i = 0; i < frame->n_calls; i++)
        {
          gint32 ready = hs_problem_get_van (frame->problem, van + 1)->leave_from_seconds
                         + hs_solve_frame_reach (frame, hs_solve_frame_start (frame, van + 1), i);

          if ((frame->nodes[i].vans >> (van + 1) & 1) != 0
              && (ahead->terms->missed > 0 || ready <= frame->nodes[i].open_last))
            ahead->later[van] |= G_GUINT64_CONSTANT (1) << i;
        }
    }
}

HsRest
hs_ahead_rest (const HsAhead *ahead, const HsState *state)
{
  return hs_solve_bound_rest (ahead->bound, state->calls, state->seen & ~HS_SOLVE_HAD_BREAK, state->van, state->last);
}

gboolean
hs_ahead_look (const HsAhead *ahead, const HsStep *step, guint64 calls, guint *missed, gint64 *late,
               gint32 *ret_home)
{
  const HsSolveFrame *frame = ahead->frame;
  const gint32 *reach = &frame->reach[step->last * frame->dim];
  guint end = hs_solve_frame_end (frame, step->van);
  gint32 home;

  home = step->ready + (step->last >= frame->n_nodes ? 0 : reach[end]);
  for (guint64 left = ahead->all & ~calls & ~ahead->later[step->van]; left != 0; left &= left - 1)
    {
      guint i = (guint) __builtin_ctzll (left);
      const HsNode *node = &frame->nodes[i];
      gint32 start = step->ready + reach[i];

      if (start <= node->open_last)
        {
          guint k = 0;

          while (start > node->open[k].last)
            k++;
          start = MAX (start, node->open[k].first);
        }
      else if (ahead->terms->missed == 0)
        {
          return FALSE;
        }
      else
        {
          *missed += 1;
          *late += MAX (0, start - node->last);
        }
      if (ahead->terms->dropped == 0)
        home = MAX (home, start + node->service + hs_solve_frame_reach (frame, i, end));
    }
  *ret_home = home;
  return home <= hs_problem_get_van (frame->problem, step->van)->home_by_seconds;
}

gint64
hs_ahead_floor (const HsAhead *ahead, const HsStep *step, const HsRest *rest, gint32 home)
{
  gint64 su = ahead->frame->second_units;
  gint64 base = MAX (step->ready - step->leave_max, step->drive);
  gint64 away = MAX (home - step->leave_max, step->drive);

  if (ahead->bound == NULL || ahead->terms->dropped > 0)
    return step->units + (step->last >= ahead->frame->n_nodes ? 0 : base * su);
  if (step->last >= ahead->frame->n_nodes)
    return step->units + rest->units;
  return MAX (step->units + base * su + rest->units, step->units + away * su + rest->mile_units);
}

gint64
hs_ahead_outlook (const HsAhead *ahead, const HsStep *step, guint64 calls)
{
  if (ahead->bound == NULL || ahead->terms->flat || ahead->terms->missed > 0)
    return 0;
  return hs_solve_bound_outlook (ahead->bound, calls, step->seen, step->last, step->ready,
                                 hs_step_flat (ahead->frame, step), hs_step_slope (ahead->frame, step));
}
