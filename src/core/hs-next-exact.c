// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The best policy of a small cause model. A state is the causes that are left and the results that came out, and
 *
 *   F(w) = least of  repair c: R(c) × W + F(w without c),   check k: M(k) × W + Σ over r of F(w × P(r | ·))
 *
 * with w the unscaled beliefs and W their sum. Each state is kept once, with its cost or, where the search of it was
 * cut short by a better way elsewhere, with the least that it can cost. The bound: what must be repaired in any case,
 * and for each pair of causes the price of repairing the wrong one first, which no check that is left can bring below
 * x × y / (x + y) × (Σ over results of √(P(r | a) × P(r | b)))² (by Cauchy's inequality, min ≥ product / sum). */

#include "hs-next-exact.h"

#include <math.h>
#include <string.h>

#define CAUSES HS_NEXT_EXACT_CAUSES
#define CHECKS HS_NEXT_EXACT_CHECKS
#define PAIRS (CAUSES * (CAUSES - 1) / 2)
#define RESULT_BITS 4
#define FIRST_TABLE 1024
/* What sums and differences of costs may lose: a bound that comes back a hair below the one asked for is still one. */
#define HAIR 1e-12
/* Minutes that are no difference. */
#define TIE 1e-9

typedef struct
{
  guint32 left;   /* a bit for each cause that is left */
  guint32 open;   /* a bit for each check that is not done */
  guint64 key;    /* the causes left, and above them the results plus 1 of the checks done */
  double w[CAUSES];
  double sum;
} State;

typedef struct
{
  guint64 key;    /* 0: free; a state that is kept has a cause left */
  double cost;
  gboolean is_least;
} Known;

typedef struct
{
  double minutes;
  guint n_results;
  const double *chances[CAUSES];
} Check;

/* A step from a state and what it costs at least. */
typedef struct
{
  double least;
  gboolean is_check;
  guint index;
} Step;

struct HsNextExact
{
  guint n_causes;
  guint n_checks;
  guint cause_of[HS_CAUSE_MODEL_MAX_CAUSES]; /* of the model → here, and back */
  guint check_of[HS_CAUSE_MODEL_MAX_CHECKS];
  guint own_causes[CAUSES];
  guint own_checks[CHECKS];
  double repair[CAUSES];
  Check checks[CHECKS];
  /* For each set of open checks, once asked for: how far they leave each pair of causes alike, 0 to 1. */
  double *alike[1 << CHECKS];
  State start;
  State here;
  Known *known;
  guint n_slots; /* a power of two, at least twice the states */
  guint n_states;
  guint max_states;
  gboolean gave_up;
};

/* --- States ---------------------------------------------------------------------------------------------------- */

static void
settle (const HsNextExact *self, State *state)
{
  state->sum = 0;
  state->left = 0;
  for (guint i = 0; i < self->n_causes; i++)
    {
      state->sum += state->w[i];
      if (state->w[i] > 0)
        state->left |= 1u << i;
    }
  state->key = (state->key & ~(guint64) G_MAXUINT16) | state->left;
}

static void
go_without (const HsNextExact *self, const State *state, guint cause, State *ret_next)
{
  *ret_next = *state;
  ret_next->w[cause] = 0;
  settle (self, ret_next);
}

static void
go_after (const HsNextExact *self, const State *state, guint check, guint result, State *ret_next)
{
  const Check *done = &self->checks[check];

  ret_next->open = state->open & ~(1u << check);
  ret_next->key = state->key | (guint64) (result + 1) << (CAUSES + RESULT_BITS * check);
  for (guint i = 0; i < self->n_causes; i++)
    ret_next->w[i] = state->w[i] * done->chances[i][result];
  settle (self, ret_next);
}

static gboolean
is_last (const State *state)
{
  return (state->left & (state->left - 1)) == 0;
}

/* --- What was found -------------------------------------------------------------------------------------------- */

static Known *
slot_of (const HsNextExact *self, guint64 key)
{
  guint64 hash = key * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);
  guint slot = (hash ^ hash >> 32) & (self->n_slots - 1);

  while (self->known[slot].key != 0 && self->known[slot].key != key)
    slot = (slot + 1) & (self->n_slots - 1);
  return &self->known[slot];
}

static void
grow (HsNextExact *self)
{
  g_autofree Known *old = g_steal_pointer (&self->known);
  guint n_old = self->n_slots;

  self->n_slots = n_old * 2;
  self->known = g_new0 (Known, self->n_slots);
  for (guint i = 0; i < n_old; i++)
    if (old[i].key != 0)
      *slot_of (self, old[i].key) = old[i];
}

static void
keep (HsNextExact *self, guint64 key, double cost, gboolean is_least)
{
  Known *known = slot_of (self, key);

  if (known->key == 0 && self->n_states >= self->max_states)
    {
      self->gave_up = TRUE;
      return;
    }
  if (known->key == 0 && ++self->n_states * 2 > self->n_slots)
    {
      grow (self);
      known = slot_of (self, key);
    }
  *known = (Known) { .key = key, .cost = cost, .is_least = is_least };
}

/* --- Bounds ---------------------------------------------------------------------------------------------------- */

static double
likeness (const HsNextExact *self, guint open, guint a, guint b)
{
  double product = 1;

  for (guint i = 0; i < self->n_checks; i++)
    if (open & 1u << i)
      {
        double sum = 0;

        for (guint r = 0; r < self->checks[i].n_results; r++)
          sum += sqrt (self->checks[i].chances[a][r] * self->checks[i].chances[b][r]);
        product *= sum * sum;
      }
  return product;
}

/* alike: (transfer none) (array): of the pairs (1, 0), (2, 0), (2, 1), (3, 0) … */
static const double *
alike (HsNextExact *self, guint open)
{
  double *pair = self->alike[open];

  if (pair != NULL)
    return pair;
  pair = self->alike[open] = g_new (double, PAIRS);
  for (guint a = 1; a < self->n_causes; a++)
    for (guint b = 0; b < a; b++)
      *pair++ = likeness (self, open, a, b);
  return self->alike[open];
}

/* weigh_pairs: (out) (array) @ret_wrong: for each pair what repairing the wrong one first costs at least with no check
 * at all, over any chance of either; 0 where one of them is not left. */
static void
weigh_pairs (const HsNextExact *self, const State *state, double *ret_wrong)
{
  for (guint a = 1; a < self->n_causes; a++)
    for (guint b = 0; b < a; b++)
      {
        double x = self->repair[a] * state->w[b];
        double y = self->repair[b] * state->w[a];

        *ret_wrong++ = x > 0 && y > 0 ? x * y / (x + y) : 0;
      }
}

static double
sure_cost (const HsNextExact *self, const State *state)
{
  double cost = 0;

  for (guint i = 0; i < self->n_causes; i++)
    cost += self->repair[i] * state->w[i];
  return cost;
}

static double
mistakes (const HsNextExact *self, const double *wrong, const double *pairs)
{
  guint n_pairs = self->n_causes * (self->n_causes - 1) / 2;
  double sum = 0;

  for (guint i = 0; i < n_pairs; i++)
    sum += wrong[i] * pairs[i];
  return sum;
}

/* least_cost: no policy costs less. */
static double
least_cost (HsNextExact *self, const State *state)
{
  double wrong[PAIRS];
  double sure = sure_cost (self, state);

  if (state->left == 0 || is_last (state))
    return sure;
  weigh_pairs (self, state, wrong);
  return sure + mistakes (self, wrong, alike (self, state->open));
}

/* tells: whether what comes out of @check can change what is believed. */
static gboolean
tells (const HsNextExact *self, const State *state, guint check)
{
  const Check *one = &self->checks[check];
  guint first = g_bit_nth_lsf (state->left, -1);

  for (guint i = first + 1; i < self->n_causes; i++)
    if (state->left & 1u << i
        && memcmp (one->chances[i], one->chances[first], sizeof *one->chances[i] * one->n_results) != 0)
      return TRUE;
  return FALSE;
}

static void
add_step (Step *steps, guint *n_steps, Step step)
{
  guint at = (*n_steps)++;

  for (; at > 0 && step.least < steps[at - 1].least; at--)
    steps[at] = steps[at - 1];
  steps[at] = step;
}

/* list_steps: (out) (array) @ret_steps: the steps worth a thought, the least costly first. */
static guint
list_steps (HsNextExact *self, const State *state, double enough, Step *ret_steps)
{
  double wrong[PAIRS];
  double sure = sure_cost (self, state);
  double all;
  guint n_steps = 0;
  const double *pairs = alike (self, state->open);

  weigh_pairs (self, state, wrong);
  all = mistakes (self, wrong, pairs);
  for (guint i = 0; i < self->n_checks; i++)
    if (state->open & 1u << i && tells (self, state, i))
      {
        double least = sure + all + self->checks[i].minutes * state->sum;

        if (least < enough)
          add_step (ret_steps, &n_steps, (Step) { .least = least, .is_check = TRUE, .index = i });
      }
  for (guint i = 0; i < self->n_causes; i++)
    if (state->left & 1u << i)
      {
        double least = sure + all + self->repair[i] * (state->sum - state->w[i]);

        for (guint j = 0; j < self->n_causes; j++)
          if (j != i)
            {
              guint pair = MAX (i, j) * (MAX (i, j) - 1) / 2 + MIN (i, j);

              least -= wrong[pair] * pairs[pair];
            }
        if (least < enough)
          add_step (ret_steps, &n_steps, (Step) { .least = least, .index = i });
      }
  return n_steps;
}

/* --- The search ------------------------------------------------------------------------------------------------ */

/* repairs_cost: of the repairs alone in their best order, by weight over minutes. */
static double
repairs_cost (const HsNextExact *self, const State *state)
{
  guint order[CAUSES];
  guint n = 0;
  double sum = state->sum;
  double cost = 0;

  for (guint cause = 0; cause < self->n_causes; cause++)
    if (state->left & 1u << cause)
      {
        guint at = n++;

        for (; at > 0
               && state->w[cause] * self->repair[order[at - 1]] > state->w[order[at - 1]] * self->repair[cause];
             at--)
          order[at] = order[at - 1];
        order[at] = cause;
      }
  for (guint i = 0; i < n; i++)
    {
      cost += self->repair[order[i]] * sum;
      sum -= state->w[order[i]];
    }
  return cost;
}

static double search (HsNextExact *self, const State *state, double enough);

/* cost_of: what @state costs, or a number of at least @enough that it costs at least. */
static double
cost_of (HsNextExact *self, const State *state, double enough)
{
  const Known *known;
  double cost;

  if (state->left == 0 || is_last (state))
    return sure_cost (self, state);
  known = slot_of (self, state->key);
  if (known->key != 0 && (!known->is_least || known->cost >= enough))
    return known->cost;
  if (self->gave_up || (known->key == 0 && self->n_states >= self->max_states))
    {
      self->gave_up = TRUE;
      return enough;
    }
  cost = search (self, state, enough);
  if (!self->gave_up)
    keep (self, state->key, cost, cost >= enough * (1 - HAIR));
  return cost;
}

static double
cost_of_repair (HsNextExact *self, const State *state, guint cause, double enough)
{
  double cost = self->repair[cause] * state->sum;
  State next;

  if (cost >= enough)
    return cost;
  go_without (self, state, cause, &next);
  return cost + cost_of (self, &next, enough - cost);
}

static double
cost_of_check (HsNextExact *self, const State *state, guint check, double enough)
{
  guint n_results = self->checks[check].n_results;
  double cost = self->checks[check].minutes * state->sum;
  double least[HS_CAUSE_MODEL_MAX_RESULTS];
  State next;

  /* What was not looked into yet counts as its least. */
  for (guint result = 0; result < n_results; result++)
    {
      go_after (self, state, check, result, &next);
      least[result] = least_cost (self, &next);
      cost += least[result];
    }
  for (guint result = 0; result < n_results && cost < enough; result++)
    {
      go_after (self, state, check, result, &next);
      cost += cost_of (self, &next, enough - cost + least[result]) - least[result];
    }
  return cost;
}

static double
search (HsNextExact *self, const State *state, double enough)
{
  Step steps[CAUSES + CHECKS];
  double best = MIN (repairs_cost (self, state), enough);
  guint n_steps = list_steps (self, state, best, steps);

  for (guint i = 0; i < n_steps && steps[i].least < best; i++)
    best = MIN (best, steps[i].is_check ? cost_of_check (self, state, steps[i].index, best)
                                        : cost_of_repair (self, state, steps[i].index, best));
  return best;
}

/* --- From outside ---------------------------------------------------------------------------------------------- */

/* take_causes: Returns: whether there is room. */
static gboolean
take_causes (HsNextExact *self, const HsCauseModel *model, const double *weights)
{
  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    if (weights[i] > 0)
      {
        if (self->n_causes == CAUSES)
          return FALSE;
        self->own_causes[self->n_causes] = i;
        self->repair[self->n_causes] = hs_cause_model_get_cause (model, i)->repair_minutes;
        self->start.w[self->n_causes] = weights[i];
        self->cause_of[i] = self->n_causes++;
      }
  return TRUE;
}

static gboolean
take_checks (HsNextExact *self, const HsCauseModel *model, guint64 done)
{
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if ((done & G_GUINT64_CONSTANT (1) << i) == 0)
      {
        Check *check = &self->checks[self->n_checks];

        if (self->n_checks == CHECKS)
          return FALSE;
        check->minutes = hs_cause_model_get_check_minutes (model, i);
        check->n_results = hs_cause_model_get_n_results (model, i);
        for (guint j = 0; j < self->n_causes; j++)
          check->chances[j] = hs_cause_model_get_chances (model, i) + self->own_causes[j] * check->n_results;
        self->start.open |= 1u << self->n_checks;
        self->own_checks[self->n_checks] = i;
        self->check_of[i] = self->n_checks++;
      }
  return TRUE;
}

HsNextExact *
hs_next_exact_new (const HsCauseModel *model, const double *weights, guint64 done, guint max_states)
{
  g_autoptr (HsNextExact) self = g_new0 (HsNextExact, 1);

  if (!take_causes (self, model, weights) || !take_checks (self, model, done))
    return NULL;
  settle (self, &self->start);
  self->here = self->start;
  self->max_states = max_states;
  self->n_slots = FIRST_TABLE;
  self->known = g_new0 (Known, self->n_slots);
  return g_steal_pointer (&self);
}

void
hs_next_exact_free (HsNextExact *self)
{
  if (self == NULL)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (self->alike); i++)
    g_free (self->alike[i]);
  g_free (self->known);
  g_free (self);
}

void
hs_next_exact_go_back (HsNextExact *self)
{
  self->here = self->start;
}

void
hs_next_exact_go_without (HsNextExact *self, guint cause)
{
  State from = self->here;

  go_without (self, &from, self->cause_of[cause], &self->here);
}

void
hs_next_exact_go_after (HsNextExact *self, guint check, guint result)
{
  State from = self->here;

  go_after (self, &from, self->check_of[check], result, &self->here);
}

double
hs_next_exact_repair (HsNextExact *self, guint cause)
{
  return cost_of_repair (self, &self->here, self->cause_of[cause], INFINITY);
}

double
hs_next_exact_check (HsNextExact *self, guint check)
{
  return cost_of_check (self, &self->here, self->check_of[check], INFINITY);
}

void
hs_next_exact_best (HsNextExact *self, gboolean *ret_is_check, guint *ret_index)
{
  const State *here = &self->here;
  double hair = TIE * here->sum;
  double best = INFINITY;

  for (guint i = 0; i < self->n_causes; i++)
    if (here->left & 1u << i)
      {
        double cost = cost_of_repair (self, here, i, best);

        if (cost < best - hair || isinf (best))
          {
            best = cost;
            *ret_is_check = FALSE;
            *ret_index = self->own_causes[i];
          }
      }
  for (guint i = 0; i < self->n_checks && !is_last (here); i++)
    if (here->open & 1u << i && tells (self, here, i))
      {
        double cost = cost_of_check (self, here, i, best);

        if (cost < best - hair)
          {
            best = cost;
            *ret_is_check = TRUE;
            *ret_index = self->own_checks[i];
          }
      }
}

gboolean
hs_next_exact_gave_up (const HsNextExact *self)
{
  return self->gave_up;
}

guint
hs_next_exact_get_n_states (const HsNextExact *self)
{
  return self->n_states;
}
