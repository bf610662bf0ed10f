// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is left of a policy costs at least so much: the pairs of causes, each solved for itself over all odds. With x
 * what it costs that b was repaired first where it is a, and y the other way round,
 *
 *   H(x, y) = least of  x,  y,
 *                       check k: share × M(k) × (weight of a and b) + Σ over r of H(x × P(r | a), y × P(r | b))
 *
 * H grows with (x, y) in proportion, so that one number a ratio is all of it: h = H(ratio, 1). Where there are too many
 * pairs and checks to solve all, H is at least
 *
 *   x × y / (x + y) × product over the checks of (Σ over r of √(P(r | a) × P(r | b)))²
 *
 * since the less of two numbers is at least their product over their sum, and by Cauchy's inequality. */

#include "hs-next-bound.h"

#include <math.h>
#include <string.h>

#define CAUSES HS_NEXT_BOUND_CAUSES
#define CHECKS HS_NEXT_BOUND_CHECKS
/* The ratios that are solved: STEPS of them to a power of e, up to the power RANGE and down to −RANGE. */
#define STEPS 2
#define RANGE 6
#define POINTS (2 * RANGE * STEPS + 1)
#define MIDDLE (RANGE * STEPS)
/* How many pairs times sets of checks are solved: eight causes and eight checks, in some milliseconds. */
#define MOST_SOLVED (28 << 8)

/* Between two points H = across × x + up × y; before the first and behind the last likewise. */
typedef struct
{
  double across;
  double up;
} Line;

typedef struct
{
  double h[POINTS];
  Line lines[POINTS + 1];
} Curve;

/* What a result does to the odds of a pair: up by @steps points and @part of the way to the next. */
typedef struct
{
  int steps;
  double part;
} Move;

struct HsNextBound
{
  guint n_causes;
  guint n_checks;
  guint n_pairs;
  const double *repairs;
  const HsNextBoundCheck *checks;
  gboolean is_thorough;
  double ratio[POINTS];
  Move *moves[CHECKS]; /* [pair × results + result] */
  /* For each share, 1 of that many, and set of checks, once asked for: a curve for each pair (1, 0), (2, 0),
   * (2, 1) … A share of 0 pays for no checks. */
  Curve **curves[CAUSES];
  /* Where they are not solved: for each set of checks, once asked for, how far it leaves each pair alike, 0 to 1. */
  double **alike;
};

double
hs_next_bound_place (double weight, double minutes)
{
  return log (weight / minutes) * STEPS;
}

double
hs_next_bound_move (double chance)
{
  return log (chance) * STEPS;
}

static Move
move_of (double under_a, double under_b)
{
  double way = log (under_a / under_b) * STEPS;
  int steps = (int) floor (way);

  return (Move) { steps, (exp ((way - steps) / STEPS) - 1) / (exp (1.0 / STEPS) - 1) };
}

static Move *
moves_of (const HsNextBound *self, const HsNextBoundCheck *check)
{
  Move *moves = g_new (Move, MAX (1, self->n_pairs * check->n_results));
  Move *move = moves;

  for (guint a = 1; a < self->n_causes; a++)
    for (guint b = 0; b < a; b++)
      for (guint r = 0; r < check->n_results; r++, move++)
        if (check->chances[a][r] > 0 && check->chances[b][r] > 0)
          *move = move_of (check->chances[a][r], check->chances[b][r]);
  return moves;
}

HsNextBound *
hs_next_bound_new (const double *repairs,
                   guint n_causes,
                   const HsNextBoundCheck *checks,
                   guint n_checks,
                   gboolean is_thorough)
{
  HsNextBound *self = g_new0 (HsNextBound, 1);

  self->n_causes = n_causes;
  self->n_checks = n_checks;
  self->n_pairs = n_causes * (n_causes - 1) / 2;
  self->repairs = repairs;
  self->checks = checks;
  self->is_thorough = is_thorough;
  for (guint i = 0; i < POINTS; i++)
    self->ratio[i] = exp (((double) i - MIDDLE) / STEPS);
  if (self->n_pairs << n_checks > MOST_SOLVED)
    {
      self->alike = g_new0 (double *, 1u << n_checks);
      return self;
    }
  for (guint i = 0; i < n_causes; i++)
    self->curves[i] = g_new0 (Curve *, 1u << n_checks);
  for (guint k = 0; k < n_checks; k++)
    self->moves[k] = moves_of (self, &checks[k]);
  return self;
}

void
hs_next_bound_free (HsNextBound *self)
{
  if (self == NULL)
    return;
  for (guint open = 0; open < 1u << self->n_checks; open++)
    {
      for (guint i = 0; self->alike == NULL && i < self->n_causes; i++)
        g_free (self->curves[i][open]);
      if (self->alike != NULL)
        g_free (self->alike[open]);
    }
  for (guint i = 0; i < self->n_causes; i++)
    g_free (self->curves[i]);
  g_free (self->alike);
  for (guint k = 0; k < self->n_checks; k++)
    g_free (self->moves[k]);
  g_free (self);
}

/* add_result: adds to @cost what comes after one result of a check. */
static void
add_result (const HsNextBound *self, const Curve *after, const Move *move, double under_a, double under_b, double *cost)
{
  const double *h = after->h;
  int low = CLAMP (-move->steps, 0, POINTS);
  int high = CLAMP (POINTS - 1 - move->steps, low, POINTS);

  for (int i = 0; i < low; i++)
    cost[i] += under_a * self->ratio[i] / self->ratio[0] * h[0];
  for (int i = low; i < high; i++)
    {
      const double *at = h + i + move->steps;

      cost[i] += under_b * (at[0] + move->part * (at[1] - at[0]));
    }
  for (int i = high; i < POINTS; i++)
    cost[i] += under_b * h[POINTS - 1];
}

static const Curve *curves (HsNextBound *self, guint share, guint open);

static void
solve_pair (HsNextBound *self, guint share, guint open, guint a, guint b, guint pair, Curve *ret_curve)
{
  double cost[POINTS];

  for (guint i = 0; i < POINTS; i++)
    ret_curve->h[i] = MIN (self->ratio[i], 1);
  for (guint k = 0; k < self->n_checks; k++)
    if (open & 1u << k)
      {
        const HsNextBoundCheck *check = &self->checks[k];
        const Curve *after = curves (self, share, open & ~(1u << k)) + pair;
        const Move *moves = self->moves[k] + pair * check->n_results;
        double minutes = share == 0 ? 0 : check->minutes / share;

        for (guint i = 0; i < POINTS; i++)
          cost[i] = minutes * (self->ratio[i] / self->repairs[b] + 1 / self->repairs[a]);
        for (guint r = 0; r < check->n_results; r++)
          if (check->chances[a][r] > 0 && check->chances[b][r] > 0)
            add_result (self, after, &moves[r], check->chances[a][r], check->chances[b][r], cost);
        for (guint i = 0; i < POINTS; i++)
          ret_curve->h[i] = MIN (ret_curve->h[i], cost[i]);
      }
}

static void
draw_lines (const HsNextBound *self, Curve *curve)
{
  const double *h = curve->h;

  curve->lines[0] = (Line) { h[0] / self->ratio[0], 0 };
  for (guint i = 0; i + 1 < POINTS; i++)
    {
      double across = (h[i + 1] - h[i]) / (self->ratio[i + 1] - self->ratio[i]);

      curve->lines[i + 1] = (Line) { across, h[i] - across * self->ratio[i] };
    }
  curve->lines[POINTS] = (Line) { 0, h[POINTS - 1] };
}

/* curves: (transfer none) (array): of all pairs. */
static const Curve *
curves (HsNextBound *self, guint share, guint open)
{
  Curve *all = self->curves[share][open];
  guint pair = 0;

  if (all != NULL)
    return all;
  all = self->curves[share][open] = g_new (Curve, MAX (1, self->n_pairs));
  for (guint a = 1; a < self->n_causes; a++)
    for (guint b = 0; b < a; b++, pair++)
      if (self->repairs[a] > 0 && self->repairs[b] > 0)
        {
          solve_pair (self, share, open, a, b, pair, &all[pair]);
          draw_lines (self, &all[pair]);
        }
  return all;
}

/* alike: (transfer none) (array): of all pairs. */
static const double *
alike (HsNextBound *self, guint open)
{
  double *pair = self->alike[open];

  if (pair != NULL)
    return pair;
  pair = self->alike[open] = g_new (double, self->n_pairs);
  for (guint a = 1; a < self->n_causes; a++)
    for (guint b = 0; b < a; b++, pair++)
      {
        *pair = 1;
        for (guint k = 0; k < self->n_checks; k++)
          if (open & 1u << k)
            {
              double sum = 0;

              for (guint r = 0; r < self->checks[k].n_results; r++)
                sum += sqrt (self->checks[k].chances[a][r] * self->checks[k].chances[b][r]);
              *pair *= sum * sum;
            }
      }
  return self->alike[open];
}

/* A pair of causes that may be there. */
typedef struct
{
  guint pair;
  guint line;
  guint sooner; /* the ranks of the two by weight */
  guint later;
  double x;
  double y;
} Pair;

static guint
list_pairs (const HsNextBound *self,
            const double *w,
            const double *places,
            const guint *order,
            guint n,
            Pair *ret_pairs)
{
  guint n_pairs = 0;

  for (guint i = 1; i < n; i++)
    for (guint j = 0; j < i; j++)
      {
        guint a = MAX (order[i], order[j]), b = MIN (order[i], order[j]);
        double at = places[a] - places[b] + (MIDDLE + 1);

        ret_pairs[n_pairs++] = (Pair) { .pair = a * (a - 1) / 2 + b,
                                        .line = at <= 0 ? 0 : at >= POINTS ? POINTS : (guint) at,
                                        .sooner = j, .later = i,
                                        .x = w[a] * self->repairs[b],
                                        .y = w[b] * self->repairs[a] };
      }
  return n_pairs;
}

/* add_up: what the pairs cost if the first @n_few by weight share the checks among them, and so do the others. */
static double
add_up (HsNextBound *self, const Pair *pairs, guint n_pairs, guint open, guint n_few, guint n)
{
  const Curve *first = curves (self, self->is_thorough ? n_few - 1 : self->n_causes - 1, open);
  const Curve *second = n - n_few >= 2 ? curves (self, n - n_few - 1, open) : first;
  const Curve *idle = n_few < n ? curves (self, 0, open) : first;
  double sum = 0;

  for (guint i = 0; i < n_pairs; i++)
    {
      const Curve *of = pairs[i].later < n_few ? first : pairs[i].sooner >= n_few ? second : idle;
      const Line *line = &of[pairs[i].pair].lines[pairs[i].line];

      sum += line->across * pairs[i].x + line->up * pairs[i].y;
    }
  return sum;
}

static double
add_up_alike (HsNextBound *self, const Pair *pairs, guint n_pairs, guint open)
{
  const double *like = alike (self, open);
  double sum = 0;

  for (guint i = 0; i < n_pairs; i++)
    sum += pairs[i].x * pairs[i].y / (pairs[i].x + pairs[i].y) * like[pairs[i].pair];
  return sum;
}

double
hs_next_bound_mistakes (HsNextBound *self, const double *w, const double *places, guint open, double enough)
{
  guint order[CAUSES];
  guint n = 0;
  double best = 0;
  Pair pairs[CAUSES * (CAUSES - 1) / 2];
  guint n_pairs;

  for (guint i = 0; i < self->n_causes; i++)
    if (w[i] > 0)
      {
        guint at = n++;

        for (; at > 0 && w[i] > w[order[at - 1]]; at--)
          order[at] = order[at - 1];
        order[at] = i;
      }
  if (n < 2)
    return 0;
  n_pairs = list_pairs (self, w, places, order, n, pairs);
  if (self->alike != NULL)
    return add_up_alike (self, pairs, n_pairs, open);
  best = add_up (self, pairs, n_pairs, open, n, n);
  for (guint n_few = n - 1; self->is_thorough && n_few >= 1 && best < enough; n_few--)
    best = MAX (best, add_up (self, pairs, n_pairs, open, n_few, n));
  return best;
}
