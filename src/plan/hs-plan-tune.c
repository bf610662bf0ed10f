// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Local improvement of a whole order: a first bound for the exact search, and the last word above its size. It proves
 * nothing. */

#include "hs-plan-tune.h"

#include <string.h>

#define MAX_RUN 3
#define MAX_STEPS 500000

typedef struct
{
  HsSearch *search;
  const HsFrame *frame;
  const HsTerms *terms;
  HsFinish *best;
  guint *order;
  guint64 steps;
} HsTune;

/* The last place at which each stop can stand so that the locked stops that wait for it keep theirs. */
static void
latest_places (const HsFrame *frame, guint *ret_latest)
{
  gboolean changed = TRUE;

  for (guint i = 0; i < frame->n; i++)
    ret_latest[i] = frame->stops[i].number > 0 ? frame->stops[i].number : frame->n;
  while (changed)
    {
      changed = FALSE;
      for (guint i = 0; i < frame->n; i++)
        for (guint64 left = frame->stops[i].after; left != 0; left &= left - 1)
          {
            guint earlier = (guint) __builtin_ctzll (left);

            if (ret_latest[i] > 0 && ret_latest[earlier] > ret_latest[i] - 1)
              {
                ret_latest[earlier] = ret_latest[i] - 1;
                changed = TRUE;
              }
          }
    }
}

static gboolean
is_more_urgent (const HsFrame *frame, const guint *latest, guint i, int than)
{
  if (than < 0)
    return TRUE;
  if (frame->n_locked > 0 && latest[i] != latest[than])
    return latest[i] < latest[than];
  return frame->stops[i].last < frame->stops[than].last;
}

/* With locks this is scheduling of stops of equal length by due place, which finds an order wherever there is one. */
gboolean
hs_tune_begin (const HsFrame *frame, guint *ret_order)
{
  guint latest[HS_DAY_MAX_STOPS];
  guint64 done = 0;

  latest_places (frame, latest);
  for (guint k = 0; k < frame->n; k++)
    {
      int next = -1;

      for (guint i = 0; i < frame->n; i++)
        if ((done & HS_FRAME_BIT (i)) == 0 && hs_frame_may_follow (frame, done, i)
            && is_more_urgent (frame, latest, i, next))
          next = (int) i;
      if (next < 0)
        return FALSE;
      ret_order[k] = (guint) next;
      done |= HS_FRAME_BIT (next);
    }
  return TRUE;
}

static gboolean
parts_come_first (const HsFrame *frame, const guint *order)
{
  guint64 done = 0;

  for (guint k = 0; k < frame->n; k++)
    {
      if (!hs_frame_may_follow (frame, done, order[k]))
        return FALSE;
      done |= HS_FRAME_BIT (order[k]);
    }
  return TRUE;
}

static gboolean
tune_try (HsTune *tune, const guint *trial)
{
  HsFinish finish;

  tune->steps += tune->frame->n;
  if (!parts_come_first (tune->frame, trial) || !hs_label_drive (tune->frame, tune->terms, trial, &finish)
      || hs_finish_compare (&finish, tune->best) >= 0)
    return FALSE;
  *tune->best = finish;
  memcpy (tune->order, trial, tune->frame->n * sizeof (guint));
  return TRUE;
}

/* Takes @length stops from @from on and puts them before the stop that then stands at @to. */
static void
move_run (const guint *order, guint n, guint from, guint length, guint to, guint *ret_trial)
{
  guint rest[HS_DAY_MAX_STOPS];
  guint n_rest = 0;

  for (guint k = 0; k < n; k++)
    if (k < from || k >= from + length)
      rest[n_rest++] = order[k];
  memcpy (ret_trial, rest, to * sizeof (guint));
  memcpy (ret_trial + to, order + from, length * sizeof (guint));
  memcpy (ret_trial + to + length, rest + to, (n_rest - to) * sizeof (guint));
}

static gboolean
tune_is_over (HsTune *tune)
{
  return tune->steps > MAX_STEPS || hs_search_gives_up (tune->search);
}

static gboolean
tune_moves (HsTune *tune)
{
  guint trial[HS_DAY_MAX_STOPS];
  guint n = tune->frame->n;
  gboolean better = FALSE;

  for (guint length = 1; length <= MIN (MAX_RUN, n); length++)
    for (guint from = 0; from + length <= n; from++)
      {
        if (tune_is_over (tune))
          return FALSE;
        for (guint to = 0; to + length <= n; to++)
          {
            if (to == from)
              continue;
            move_run (tune->order, n, from, length, to, trial);
            better |= tune_try (tune, trial);
          }
      }
  return better;
}

static gboolean
tune_swaps (HsTune *tune)
{
  guint trial[HS_DAY_MAX_STOPS];
  guint n = tune->frame->n;
  gboolean better = FALSE;

  for (guint a = 0; a < n; a++)
    {
      if (tune_is_over (tune))
        return FALSE;
      for (guint b = a + 1; b < n; b++)
        {
          memcpy (trial, tune->order, n * sizeof (guint));
          trial[a] = tune->order[b];
          trial[b] = tune->order[a];
          better |= tune_try (tune, trial);
        }
    }
  return better;
}

void
hs_tune_order (HsSearch *search, const HsFrame *frame, const HsTerms *terms, HsFinish *best, guint *order)
{
  HsTune tune = { search, frame, terms, best, order, 0 };

  while (tune_moves (&tune) || tune_swaps (&tune))
    continue;
}
