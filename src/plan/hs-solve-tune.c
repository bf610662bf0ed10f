// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Prizes for the calls of one van, by a walk of shrinking strides. */

#include "hs-solve-tune.h"

#include "hs-solve-outlook.h"

#include <string.h>

/* 3 MB: a rough look is enough, for there are many. */
#define MAX_CELLS 800000

#define MAX_TURNS 60
#define PATIENCE 3
#define LEAST_STRIDE 0.1

/* @best: no plan costs less, by the prizes in @best_prizes, with the visits in @best_visits */
typedef struct
{
  HsExact *exact;
  const HsSolveFrame *frame;
  HsOutlook *outlook;
  gint64 *prizes;
  guint *visits;
  gint64 *best_prizes;
  guint *best_visits;
  gint64 best;
} Tune;

/* What any plan costs at least by the prizes as they stand. FALSE if there is no trip, or no time. */
static gboolean
ask (Tune *tune, gint64 *ret_sum)
{
  guint n = tune->frame->n_calls;
  gint64 sum;

  if (!hs_solve_outlook_fill (tune->outlook, tune->exact, tune->prizes))
    return FALSE;
  sum = hs_solve_outlook_root (tune->outlook, tune->visits);
  if (sum == HS_SOLVE_NO_UNITS)
    return FALSE;
  for (guint i = 0; i < n; i++)
    sum += tune->prizes[i];
  if (sum > tune->best)
    {
      tune->best = sum;
      memcpy (tune->best_prizes, tune->prizes, n * sizeof (gint64));
      memcpy (tune->best_visits, tune->visits, n * sizeof (guint));
    }
  *ret_sum = sum;
  return TRUE;
}

static void
go_back (Tune *tune)
{
  memcpy (tune->prizes, tune->best_prizes, tune->frame->n_calls * sizeof (gint64));
  memcpy (tune->visits, tune->best_visits, tune->frame->n_calls * sizeof (guint));
}

/* More for the calls left out, less for those served more than once. FALSE if each is served once. */
static gboolean
stride (Tune *tune, double length)
{
  guint n = tune->frame->n_calls;
  double squares = 0;

  for (guint i = 0; i < n; i++)
    squares += (1.0 - tune->visits[i]) * (1.0 - tune->visits[i]);
  for (guint i = 0; i < n && squares > 0; i++)
    tune->prizes[i] += (gint64) (length / squares * (1.0 - tune->visits[i]));
  return squares > 0;
}

/* Walks on from the best of what is known while that leads up. */
static gboolean
walk (Tune *tune, gint64 best_units)
{
  double length = 1;
  gint64 sum = tune->best;
  guint waited = 0;

  go_back (tune);
  for (guint turn = 0; turn < MAX_TURNS && length > LEAST_STRIDE && tune->best < best_units; turn++)
    {
      gint64 before = tune->best;

      if (!stride (tune, length * (double) (best_units - sum)))
        break;
      if (!ask (tune, &sum))
        return FALSE;
      waited = tune->best > before ? 0 : waited + 1;
      if (waited < PATIENCE)
        continue;
      length /= 2;
      waited = 0;
      sum = tune->best;
      go_back (tune);
    }
  return TRUE;
}

gboolean
hs_solve_tune (HsExact *exact, const HsSolveFrame *frame, gint64 best_units, gint64 *floor, gint64 *prizes)
{
  guint n = frame->n_calls;
  g_autoptr (HsOutlook) outlook = hs_solve_outlook_new (frame, 0, NULL, 0, MAX_CELLS);
  g_autofree gint64 *now = g_new (gint64, n + 1);
  g_autofree gint64 *best_prizes = g_new (gint64, n + 1);
  g_autofree guint *visits = g_new (guint, n + 1);
  g_autofree guint *best_visits = g_new (guint, n + 1);
  Tune tune = { exact, frame, outlook, now, visits, best_prizes, best_visits, G_MININT64 };
  gint64 sum;

  if (outlook == NULL)
    return FALSE;
  memcpy (now, prizes, n * sizeof (gint64));
  if (!ask (&tune, &sum))
    return FALSE;
  for (guint i = 0; i < n; i++)
    now[i] = best_units / n;
  if (!ask (&tune, &sum) || !walk (&tune, best_units))
    return FALSE;
  memcpy (prizes, best_prizes, n * sizeof (gint64));
  *floor = MAX (*floor, MIN (tune.best, best_units));
  return TRUE;
}
