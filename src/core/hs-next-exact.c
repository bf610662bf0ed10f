// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The best policy of a small cause model. A state is the causes that are left and the results that came out, and
 *
 *   F(w) = least of  repair c: R(c) × W + F(w without c),   check k: M(k) × W + Σ over r of F(w × P(r | ·))
 *
 * with w the unscaled beliefs and W their sum. F grows with w in proportion, so that results whose chances are in
 * proportion under all causes are one result. A repair of no minutes is done at once, and a check of no minutes too.
 * States are kept with their cost or, where the search of one was cut short by a better way elsewhere, with the least
 * that it can cost; the table has a fixed size, and what it has no room for is worked out again. */

#include "hs-next-exact.h"

#include "hs-next-bound.h"

#include <float.h>
#include <math.h>
#include <string.h>

#define CAUSES HS_NEXT_EXACT_CAUSES
#define CHECKS HS_NEXT_EXACT_CHECKS
#define RESULT_BITS 4
#define FIRST_TABLE 1024
/* Of the table: 64 megabytes. */
#define MOST_SLOTS (1u << 22)
/* A search of so many states is worth a bound that takes longer. */
#define THOROUGH 100000
/* How many slots from its own a state may be kept. */
#define WINDOW 8
/* What sums and differences of costs may lose: a bound that comes back a hair below the one asked for is still one. */
#define HAIR 1e-12
/* Minutes that are no difference. */
#define TIE 1e-9

G_STATIC_ASSERT (HS_CAUSE_MODEL_MAX_RESULTS < 1 << RESULT_BITS);

typedef struct
{
  guint32 left;   /* a bit for each cause that is left */
  guint32 open;   /* a bit for each check that is not done */
  guint64 key;    /* the causes left, and above them the results plus 1 of the checks done */
  double w[CAUSES];
  double place[CAUSES]; /* of each cause that is left, for the bound */
  double sum;
} State;

typedef struct
{
  guint64 key;    /* 0: free; a state that is kept has a cause left */
  double cost;    /* below 0: the least that it can cost, negated */
} Known;

/* A check, results in proportion put together. */
typedef struct
{
  double minutes;
  guint n_results;
  guint n_own;
  guint twin;                              /* the first check that is the same in all */
  guint8 group[HS_CAUSE_MODEL_MAX_RESULTS];  /* of each of its own results */
  double part[HS_CAUSE_MODEL_MAX_RESULTS];   /* that it has of its group */
  double chances[CAUSES][HS_CAUSE_MODEL_MAX_RESULTS];
  double moves[CAUSES][HS_CAUSE_MODEL_MAX_RESULTS];
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
  HsNextBoundCheck bound_checks[CHECKS];
  HsNextBound *bound;
  guint32 for_nothing; /* causes whose repair takes no minutes */
  State start;
  State here;
  double here_part;    /* of the weight of @here, where results were put together */
  Known *known;
  guint n_slots;       /* a power of two */
  guint n_kept;
  guint n_states;
  guint max_states;
  gboolean gave_up;
};

/* --- States ---------------------------------------------------------------------------------------------------- */

/* settle: @drop: causes to be taken out. */
static void
settle (const HsNextExact *self, State *state, guint32 drop)
{
  state->sum = 0;
  state->left = 0;
  for (guint i = 0; i < self->n_causes; i++)
    {
      if (drop & 1u << i)
        state->w[i] = 0;
      state->sum += state->w[i];
      if (state->w[i] > 0)
        state->left |= 1u << i;
    }
  state->key = (state->key & ~(guint64) G_MAXUINT16) | state->left;
}

static void
go_without (const HsNextExact *self, const State *state, guint cause, guint32 drop, State *ret_next)
{
  *ret_next = *state;
  settle (self, ret_next, drop | 1u << cause);
}

static void
go_after (const HsNextExact *self, const State *state, guint check, guint result, guint32 drop, State *ret_next)
{
  const Check *done = &self->checks[check];

  ret_next->open = state->open & ~(1u << check);
  ret_next->key = state->key | (guint64) (result + 1) << (CAUSES + RESULT_BITS * check);
  for (guint i = 0; i < self->n_causes; i++)
    {
      ret_next->w[i] = state->w[i] * done->chances[i][result];
      ret_next->place[i] = state->place[i] + done->moves[i][result];
    }
  settle (self, ret_next, drop);
}

static gboolean
is_last (const State *state)
{
  return (state->left & (state->left - 1)) == 0;
}

/* --- What was found -------------------------------------------------------------------------------------------- */

/* look_up: Returns: (nullable): what is known of @key. */
static const Known *
look_up (const HsNextExact *self, guint64 key)
{
  guint64 hash = key * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);
  guint slot = hash ^ hash >> 32;

  for (guint i = 0; i < WINDOW; i++)
    {
      const Known *known = &self->known[(slot + i) & (self->n_slots - 1)];

      if (known->key == key)
        return known;
    }
  return NULL;
}

/* n_done: of the checks in @key; what is kept of a state with fewer of them saves more. */
static guint
n_done (guint64 key)
{
  guint n = 0;

  for (key >>= CAUSES; key != 0; key >>= RESULT_BITS)
    n += (key & 15) != 0;
  return n;
}

/* slot_for: where @key is kept or may be: free, or of a state that is the least loss. */
static Known *
slot_for (const HsNextExact *self, guint64 key)
{
  guint64 hash = key * G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);
  guint slot = hash ^ hash >> 32;
  Known *worst = NULL;

  for (guint i = 0; i < WINDOW; i++)
    {
      Known *known = &self->known[(slot + i) & (self->n_slots - 1)];

      if (known->key == key || known->key == 0)
        return known;
      if (worst == NULL || n_done (known->key) > n_done (worst->key))
        worst = known;
    }
  return worst;
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
      *slot_for (self, old[i].key) = old[i];
}

static void
keep (HsNextExact *self, guint64 key, double cost, gboolean is_least)
{
  Known *known = slot_for (self, key);

  if (known->key == 0)
    self->n_kept++;
  *known = (Known) { .key = key, .cost = is_least ? -cost : cost };
  if (self->n_kept * 2 > self->n_slots && self->n_slots < MOST_SLOTS)
    grow (self);
}

/* --- Bounds ---------------------------------------------------------------------------------------------------- */

static double
sure_cost (const HsNextExact *self, const State *state)
{
  double cost = 0;

  for (guint i = 0; i < self->n_causes; i++)
    cost += self->repair[i] * state->w[i];
  return cost;
}

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

/* least_cost: no policy costs less. */
static double
least_cost (HsNextExact *self, const State *state, double enough)
{
  double sure = sure_cost (self, state);

  if (state->left == 0 || is_last (state))
    return sure;
  if (state->open == 0)
    return repairs_cost (self, state);
  return sure + hs_next_bound_mistakes (self->bound, state->w, state->place, state->open, enough - sure);
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

/* may_ask: whether @check is worth a thought: it tells something, and no other that is the same comes before it. */
static gboolean
may_ask (const HsNextExact *self, const State *state, guint check)
{
  if (!(state->open & 1u << check) || !tells (self, state, check))
    return FALSE;
  for (guint i = self->checks[check].twin; i < check; i++)
    if (state->open & 1u << i && self->checks[i].twin == self->checks[check].twin)
      return FALSE;
  return TRUE;
}

static void
add_step (Step *steps, guint *n_steps, Step step)
{
  guint at = (*n_steps)++;

  for (; at > 0 && step.least < steps[at - 1].least; at--)
    steps[at] = steps[at - 1];
  steps[at] = step;
}

static double
least_of_check (HsNextExact *self, const State *state, guint check, double enough)
{
  double cost = self->checks[check].minutes * state->sum;
  State next;

  for (guint result = 0; result < self->checks[check].n_results && cost < enough; result++)
    {
      go_after (self, state, check, result, self->for_nothing, &next);
      cost += least_cost (self, &next, enough - cost);
    }
  return cost;
}

static double
least_of_repair (HsNextExact *self, const State *state, guint cause, double enough)
{
  double cost = self->repair[cause] * state->sum;
  State next;

  if (cost >= enough)
    return cost;
  go_without (self, state, cause, self->for_nothing, &next);
  return cost + least_cost (self, &next, enough - cost);
}

/* list_steps: (out) (array) @ret_steps: the steps worth a thought, the least costly first. */
static guint
list_steps (HsNextExact *self, const State *state, double enough, Step *ret_steps)
{
  guint n_steps = 0;

  for (guint i = 0; i < self->n_checks; i++)
    if (may_ask (self, state, i))
      {
        double least;

        if (self->checks[i].minutes <= 0)
          {
            ret_steps[0] = (Step) { .least = 0, .is_check = TRUE, .index = i };
            return 1;
          }
        least = least_of_check (self, state, i, enough);
        if (least < enough)
          add_step (ret_steps, &n_steps, (Step) { .least = least, .is_check = TRUE, .index = i });
      }
  for (guint i = 0; i < self->n_causes; i++)
    if (state->left & 1u << i)
      {
        double least = least_of_repair (self, state, i, enough);

        if (least < enough)
          add_step (ret_steps, &n_steps, (Step) { .least = least, .index = i });
      }
  return n_steps;
}

/* --- The search ------------------------------------------------------------------------------------------------ */

static double search (HsNextExact *self, const State *state, double enough);

/* asks_nothing: whether no check that is left tells anything. */
static gboolean
asks_nothing (const HsNextExact *self, const State *state)
{
  for (guint i = 0; i < self->n_checks; i++)
    if (state->open & 1u << i && tells (self, state, i))
      return FALSE;
  return TRUE;
}

/* cost_of: what @state costs, or a number of at least @enough that it costs at least. */
static double
cost_of (HsNextExact *self, const State *state, double enough)
{
  const Known *known;
  double least, cost;

  if (state->left == 0 || is_last (state))
    return sure_cost (self, state);
  if (asks_nothing (self, state))
    return repairs_cost (self, state);
  known = look_up (self, state->key);
  if (known != NULL && (known->cost >= 0 || -known->cost >= enough))
    return fabs (known->cost);
  cost = repairs_cost (self, state);
  least = least_cost (self, state, MIN (cost, enough));
  if (least >= cost * (1 - HAIR))
    return cost;
  if (least >= enough * (1 - HAIR))
    return least;
  if (self->gave_up || self->n_states >= self->max_states)
    {
      self->gave_up = TRUE;
      return enough;
    }
  self->n_states++;
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
  go_without (self, state, cause, self->for_nothing, &next);
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
      go_after (self, state, check, result, self->for_nothing, &next);
      least[result] = least_cost (self, &next, INFINITY);
      cost += least[result];
    }
  for (guint result = 0; result < n_results && cost < enough; result++)
    {
      go_after (self, state, check, result, self->for_nothing, &next);
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

  for (guint i = 0; i < n_steps && steps[i].least < best * (1 - HAIR); i++)
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
        if (self->repair[self->n_causes] <= 0)
          self->for_nothing |= 1u << self->n_causes;
        self->start.w[self->n_causes] = weights[i];
        self->start.place[self->n_causes] = hs_next_bound_place (weights[i], self->repair[self->n_causes]);
        self->cause_of[i] = self->n_causes++;
      }
  return TRUE;
}

/* in_proportion: whether result @own of @chances tells the same as @group of @check, or never happens. */
static gboolean
in_proportion (const HsNextExact *self, const Check *check, guint group, const double *chances, guint own)
{
  double x_first = 0, y_first = 0;

  for (guint i = 0; i < self->n_causes; i++)
    {
      double x = check->chances[i][group];
      double y = chances[self->own_causes[i] * check->n_own + own];

      if (x + y > 0 && x_first + y_first <= 0)
        {
          x_first = x;
          y_first = y;
        }
      if (fabs (x * y_first - y * x_first) > 4 * DBL_EPSILON * x * y_first)
        return FALSE;
    }
  return TRUE;
}

/* take_results: puts together those in proportion. */
static void
take_results (HsNextExact *self, Check *check, const double *chances, guint n_own)
{
  check->n_own = n_own;
  for (guint r = 0; r < n_own; r++)
    {
      guint group = 0;

      while (group < check->n_results && !in_proportion (self, check, group, chances, r))
        group++;
      check->n_results = MAX (check->n_results, group + 1);
      check->group[r] = group;
      for (guint i = 0; i < self->n_causes; i++)
        check->chances[i][group] += chances[self->own_causes[i] * n_own + r];
    }
  for (guint r = 0; r < n_own; r++)
    for (guint i = 0; i < self->n_causes; i++)
      if (check->chances[i][check->group[r]] > 0)
        check->part[r] = chances[self->own_causes[i] * n_own + r] / check->chances[i][check->group[r]];
  for (guint i = 0; i < self->n_causes; i++)
    for (guint r = 0; r < check->n_results; r++)
      check->moves[i][r] = hs_next_bound_move (check->chances[i][r]);
}

static guint
twin_of (const HsNextExact *self, guint check)
{
  const Check *one = &self->checks[check];

  for (guint i = 0; i < check; i++)
    if (self->checks[i].minutes == one->minutes && self->checks[i].n_results == one->n_results
        && memcmp (self->checks[i].chances, one->chances, sizeof one->chances) == 0)
      return i;
  return check;
}

static gboolean
take_checks (HsNextExact *self, const HsCauseModel *model, guint64 done)
{
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if ((done & G_GUINT64_CONSTANT (1) << i) == 0)
      {
        Check *check = &self->checks[self->n_checks];
        HsNextBoundCheck *bound = &self->bound_checks[self->n_checks];

        if (self->n_checks == CHECKS)
          return FALSE;
        check->minutes = hs_cause_model_get_check_minutes (model, i);
        take_results (self, check, hs_cause_model_get_chances (model, i), hs_cause_model_get_n_results (model, i));
        check->twin = twin_of (self, self->n_checks);
        bound->minutes = check->minutes;
        bound->n_results = check->n_results;
        for (guint j = 0; j < self->n_causes; j++)
          bound->chances[j] = check->chances[j];
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
  self->bound = hs_next_bound_new (self->repair, self->n_causes, self->bound_checks, self->n_checks,
                                   max_states >= THOROUGH || self->n_causes * self->n_checks <= 36);
  settle (self, &self->start, 0);
  self->here = self->start;
  self->here_part = 1;
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
  hs_next_bound_free (self->bound);
  g_free (self->known);
  g_free (self);
}

void
hs_next_exact_go_back (HsNextExact *self)
{
  self->here = self->start;
  self->here_part = 1;
}

void
hs_next_exact_go_without (HsNextExact *self, guint cause)
{
  State from = self->here;

  go_without (self, &from, self->cause_of[cause], 0, &self->here);
}

void
hs_next_exact_go_after (HsNextExact *self, guint check, guint result)
{
  const Check *done = &self->checks[self->check_of[check]];
  State from = self->here;

  go_after (self, &from, self->check_of[check], done->group[result], 0, &self->here);
  self->here_part *= done->part[result];
}

double
hs_next_exact_repair (HsNextExact *self, guint cause)
{
  return self->here_part * cost_of_repair (self, &self->here, self->cause_of[cause], INFINITY);
}

double
hs_next_exact_check (HsNextExact *self, guint check)
{
  return self->here_part * cost_of_check (self, &self->here, self->check_of[check], INFINITY);
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
