// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#include "solve-trial.h"

#include <string.h>

#define UNITS 3000
#define MAX_SEQUENCE 16
#define ANY_SPARE G_MAXINT32
#define BREAK 1000
#define FIRST_COUNTER 500

/* A van's day as it is being put together: calls by index, counters from FIRST_COUNTER on, BREAK. */
typedef struct
{
  const HsProblem *problem;
  guint van;
  gint64 spare;
  guint n;
  guint stops[MAX_SEQUENCE];
  guint8 words[MAX_SEQUENCE];
  GArray *leaves;
  GArray **outcomes;
} Maker;

int
trial_compare (const Trial *a, const Trial *b)
{
  const gint64 left[] = { a->missed, a->dropped, a->late, -a->spare, a->units, a->homes, -a->leaves };
  const gint64 right[] = { b->missed, b->dropped, b->late, -b->spare, b->units, b->homes, -b->leaves };

  for (guint i = 0; i < G_N_ELEMENTS (left); i++)
    if (left[i] != right[i])
      return left[i] < right[i] ? -1 : 1;
  return 0;
}

int
trial_compare_words (const Trial *a, const Trial *b)
{
  if (a->stops != b->stops)
    return a->stops < b->stops ? -1 : 1;
  for (guint i = 0; i < MIN (a->n_words, b->n_words); i++)
    if (a->words[i] != b->words[i])
      return a->words[i] < b->words[i] ? -1 : 1;
  return a->n_words < b->n_words ? -1 : a->n_words > b->n_words;
}

guint8
trial_word (const HsProblem *problem, const char *id)
{
  guint8 word = strcmp ("break", id) < 0;

  for (guint i = 0; i < problem->calls->len; i++)
    word += strcmp (hs_problem_get_call (problem, i)->id, id) < 0;
  for (guint c = 0; c < problem->counters->len; c++)
    word += strcmp (hs_problem_get_counter (problem, c)->id, id) < 0;
  return word;
}

guint *
trial_vans (const HsProblem *problem)
{
  guint n = problem->vans->len;
  guint *order = g_new (guint, n);

  for (guint v = 0; v < n; v++)
    {
      guint before = 0;

      for (guint w = 0; w < n; w++)
        before += strcmp (hs_problem_get_van (problem, w)->id, hs_problem_get_van (problem, v)->id) < 0;
      order[before] = v;
    }
  return order;
}

/* Whether @a can stand for @b in any plan: no worse, and where it is not better for sure, with words no later. Spare
 * beyond that of another van is worth nothing. */
static gboolean
can_stand_for (const Trial *a, const Trial *b)
{
  if (a->missed > b->missed || a->dropped > b->dropped || a->late > b->late || a->spare < b->spare
      || a->units > b->units || a->homes > b->homes || a->leaves < b->leaves)
    return FALSE;
  return a->missed < b->missed || a->late < b->late || a->units < b->units || a->homes < b->homes
         || a->leaves > b->leaves || trial_compare_words (a, b) <= 0;
}

static void
keep_outcome (GArray *outcomes, const Trial *trial)
{
  for (guint i = 0; i < outcomes->len; i++)
    if (can_stand_for (&g_array_index (outcomes, Trial, i), trial))
      return;
  for (guint i = outcomes->len; i > 0; i--)
    if (can_stand_for (trial, &g_array_index (outcomes, Trial, i - 1)))
      g_array_remove_index_fast (outcomes, i - 1);
  g_array_append_val (outcomes, *trial);
}

static guint
place_of (const Maker *maker, guint stop, guint before)
{
  if (stop == BREAK)
    return before;
  if (stop >= FIRST_COUNTER)
    return hs_problem_get_counter (maker->problem, stop - FIRST_COUNTER)->place;
  return hs_problem_get_call (maker->problem, stop)->place;
}

static gint32
leg_seconds (const HsProblem *problem, guint from, guint to)
{
  return g_array_index (problem->drive_seconds, gint32, from * problem->n_places + to);
}

static gint32
last_home (const HsProblem *problem)
{
  gint32 last = 24 * 3600;

  for (guint v = 0; v < problem->vans->len; v++)
    last = MAX (last, hs_problem_get_van (problem, v)->home_by_seconds);
  return last;
}

static gboolean
has_skill (const HsVan *van, const char *skill)
{
  for (guint k = 0; k < van->skills->len; k++)
    if (g_str_equal (g_ptr_array_index (van->skills, k), skill))
      return TRUE;
  return FALSE;
}

static gboolean
may_serve (const Maker *maker, guint index)
{
  const HsCall *call = hs_problem_get_call (maker->problem, index);

  for (guint k = 0; k < call->skills->len; k++)
    if (!has_skill (hs_problem_get_van (maker->problem, maker->van), g_ptr_array_index (call->skills, k)))
      return FALSE;
  return call->van == HS_PROBLEM_ANY_VAN || (guint) call->van == maker->van;
}

/* When @stop may start, span by span, and how long it takes. */
static guint
spans_of (const Maker *maker, guint stop, HsDaySpan *ret_spans, gint32 *ret_service)
{
  const HsVan *van = hs_problem_get_van (maker->problem, maker->van);
  const GArray *spans;
  gint32 inside = 0;

  if (stop == BREAK)
    {
      *ret_service = van->break_seconds;
      ret_spans[0] = (HsDaySpan){ van->break_span.from_seconds, van->break_span.to_seconds - van->break_seconds };
      return 1;
    }
  if (stop >= FIRST_COUNTER)
    {
      const HsCounter *counter = hs_problem_get_counter (maker->problem, stop - FIRST_COUNTER);

      *ret_service = inside = counter->service_seconds;
      spans = counter->hours;
    }
  else
    {
      const HsCall *call = hs_problem_get_call (maker->problem, stop);

      *ret_service = call->service_seconds;
      spans = call->windows;
      if (spans->len == 0)
        {
          ret_spans[0] = (HsDaySpan){ 0, last_home (maker->problem) };
          return 1;
        }
    }
  for (guint i = 0; i < spans->len; i++)
    {
      ret_spans[i] = g_array_index (spans, HsDaySpan, i);
      ret_spans[i].to_seconds -= inside;
    }
  return spans->len;
}

/* What all parts of the sequence cost, or −1: units on board go to whoever would pay most or can't buy. */
static gint64
buy_all (const Maker *maker)
{
  const HsProblem *problem = maker->problem;
  const HsVan *van = hs_problem_get_van (problem, maker->van);
  gint64 sum = 0;

  for (guint part = 0; part < problem->parts->len; part++)
    {
      gint64 prices[MAX_SEQUENCE * 4];
      guint n = 0;
      guint on_board = 0;
      gint64 cheapest = G_MAXINT32;

      for (guint k = 0; k < van->carries->len; k++)
        on_board += g_array_index (van->carries, guint, k) == part;
      for (guint k = 0; k < maker->n; k++)
        {
          guint stop = maker->stops[k];

          if (stop == BREAK)
            continue;
          if (stop >= FIRST_COUNTER)
            {
              gint64 cents = hs_counter_cents (hs_problem_get_counter (problem, stop - FIRST_COUNTER), part);

              if (cents != HS_PROBLEM_NOT_SOLD)
                cheapest = MIN (cheapest, cents);
              continue;
            }
          for (guint m = 0; m < hs_problem_get_call (problem, stop)->needs->len; m++)
            if (g_array_index (hs_problem_get_call (problem, stop)->needs, guint, m) == part)
              prices[n++] = cheapest;
        }
      for (; n > 0 && on_board > 0; on_board--)
        {
          guint dearest = 0;

          for (guint k = 1; k < n; k++)
            if (prices[k] > prices[dearest])
              dearest = k;
          prices[dearest] = prices[--n];
        }
      for (guint k = 0; k < n; k++)
        {
          if (prices[k] == G_MAXINT32)
            return -1;
          sum += prices[k];
        }
    }
  return sum;
}

/* Leave times that can matter: those at which some stop is reached just when a span of it begins or ends, or has just
 * the spare left that is to be kept. */
static void
list_leaves (Maker *maker)
{
  const HsVan *van = hs_problem_get_van (maker->problem, maker->van);
  gint32 sum = 0;
  guint at = van->start;
  gint32 edges[4];

  g_array_set_size (maker->leaves, 0);
  g_array_append_val (maker->leaves, van->leave_from_seconds);
  g_array_append_val (maker->leaves, van->leave_to_seconds);
  for (guint k = 0; k < maker->n; k++)
    {
      guint to = place_of (maker, maker->stops[k], at);
      HsDaySpan spans[HS_DAY_MAX_SPANS];
      gint32 service;
      guint n = spans_of (maker, maker->stops[k], spans, &service);

      if (maker->stops[k] != BREAK)
        sum += leg_seconds (maker->problem, at, to);
      for (guint i = 0; i < n; i++)
        for (guint end = 0; end < 3; end++)
          {
            gint32 leave = (end == 0 ? spans[i].from_seconds : spans[i].to_seconds) - sum;

            if (end == 2)
              leave -= (gint32) maker->spare;

            if (leave >= van->leave_from_seconds && leave <= van->leave_to_seconds)
              g_array_append_val (maker->leaves, leave);
          }
      sum += service;
      at = to;
    }
  sum += leg_seconds (maker->problem, at, van->end);
  edges[0] = van->home_by_seconds - sum;
  edges[1] = van->break_span.from_seconds + van->break_seconds;
  edges[2] = van->break_span.to_seconds - van->break_seconds - sum;
  edges[3] = van->home_by_seconds;
  for (guint i = 0; i < G_N_ELEMENTS (edges); i++)
    if (edges[i] >= van->leave_from_seconds && edges[i] <= van->leave_to_seconds)
      g_array_append_val (maker->leaves, edges[i]);
}

/* Drives on from stop @k, choosing a span for each. */
static void
drive_on (Maker *maker, guint k, guint at, gint32 time, gint32 leave, Trial trial, gboolean had_break, guint set)
{
  const HsVan *van = hs_problem_get_van (maker->problem, maker->van);
  HsDaySpan spans[HS_DAY_MAX_SPANS];
  gint32 service;
  guint to;
  guint n;
  gint32 last = G_MININT32;

  if (k == maker->n)
    {
      gint32 home = time + leg_seconds (maker->problem, at, van->end);
      gboolean before = leave >= van->break_span.from_seconds + van->break_seconds;
      gboolean after = home <= van->break_span.to_seconds - van->break_seconds;

      if (home > van->home_by_seconds || (van->break_seconds > 0 && !had_break && !before && !after))
        return;
      trial.units += (gint64) (home - leave) * maker->problem->minute_cents * (UNITS / 60);
      trial.homes = home;
      trial.leaves = leave;
      keep_outcome (maker->outcomes[set], &trial);
      return;
    }
  to = place_of (maker, maker->stops[k], at);
  if (maker->stops[k] != BREAK)
    time += leg_seconds (maker->problem, at, to);
  n = spans_of (maker, maker->stops[k], spans, &service);
  for (guint i = 0; i < n; i++)
    {
      Trial next = trial;
      gint32 start = MAX (time, spans[i].from_seconds);

      last = MAX (last, spans[i].to_seconds);
      if (start > spans[i].to_seconds)
        continue;
      if (maker->stops[k] < FIRST_COUNTER)
        next.spare = MIN (next.spare, spans[i].to_seconds - start);
      drive_on (maker, k + 1, to, start + service, leave, next, had_break || maker->stops[k] == BREAK, set);
    }
  if (time > last && maker->stops[k] < FIRST_COUNTER)
    {
      trial.missed++;
      trial.late += time - last;
      trial.spare = MIN (trial.spare, last - time);
      drive_on (maker, k + 1, to, time + service, leave, trial, had_break, set);
    }
}

static void
try_sequence (Maker *maker, guint set)
{
  const HsVan *van = hs_problem_get_van (maker->problem, maker->van);
  gint64 bought = buy_all (maker);
  Trial trial = { 0, 0, 0, maker->problem->spare_seconds, bought * UNITS, 0, 0, maker->n, maker->n };
  guint at = van->start;

  if (bought < 0)
    return;
  memcpy (trial.words, maker->words, maker->n);
  for (guint k = 0; k <= maker->n; k++)
    {
      guint to = k < maker->n ? place_of (maker, maker->stops[k], at) : van->end;

      if (k == maker->n || maker->stops[k] != BREAK)
        trial.units += g_array_index (maker->problem->drive_millimiles, gint64, at * maker->problem->n_places + to)
                       * maker->problem->mile_cents * (UNITS / 1000);
      at = to;
    }
  list_leaves (maker);
  for (guint i = 0; i < maker->leaves->len; i++)
    {
      gint32 leave = g_array_index (maker->leaves, gint32, i);

      drive_on (maker, 0, van->start, leave, leave, trial, FALSE, set);
    }
}

static void
push_stop (Maker *maker, guint stop, const char *id)
{
  g_assert_cmpuint (maker->n, <, MAX_SEQUENCE);
  maker->stops[maker->n] = stop;
  maker->words[maker->n++] = trial_word (maker->problem, id);
}

static void
try_all (Maker *maker, guint set, guint seen, gboolean had_break)
{
  const HsProblem *problem = maker->problem;

  if (set != 0)
    try_sequence (maker, set);
  for (guint i = 0; i < problem->calls->len; i++)
    if ((set >> i & 1) == 0 && may_serve (maker, i))
      {
        push_stop (maker, i, hs_problem_get_call (problem, i)->id);
        try_all (maker, set | 1u << i, seen, had_break);
        maker->n--;
      }
  for (guint c = 0; c < problem->counters->len; c++)
    if ((seen >> c & 1) == 0)
      {
        push_stop (maker, FIRST_COUNTER + c, hs_problem_get_counter (problem, c)->id);
        try_all (maker, set, seen | 1u << c, had_break);
        maker->n--;
      }
  if (!had_break && maker->n > 0 && hs_problem_get_van (problem, maker->van)->break_seconds > 0)
    {
      push_stop (maker, BREAK, "break");
      try_all (maker, set, seen, TRUE);
      maker->n--;
    }
}

static void
add_words (Trial *sum, const Trial *one)
{
  g_assert_cmpuint (sum->n_words + one->n_words, <, TRIAL_MAX_WORDS);
  sum->stops += one->stops;
  memcpy (sum->words + sum->n_words, one->words, one->n_words);
  sum->n_words += one->n_words;
  sum->words[sum->n_words++] = TRIAL_HOME;
}

/* Gives the calls of @left to the van at @place in the order of ids and those after it in every way. */
static void
share_out (GArray ***outcomes, const HsProblem *problem, const guint *order, guint place, guint left, Trial sum,
           Trial *best)
{
  guint van = place < problem->vans->len ? order[place] : 0;

  if (place == problem->vans->len)
    {
      int better;

      sum.dropped = (guint) __builtin_popcount (left);
      sum.missed += sum.dropped;
      better = trial_compare (&sum, best);
      if (better < 0 || (better == 0 && trial_compare_words (&sum, best) < 0))
        *best = sum;
      return;
    }
  for (guint set = left;; set = (set - 1) & left)
    {
      for (guint i = 0; i < outcomes[van][set]->len; i++)
        {
          const Trial *one = &g_array_index (outcomes[van][set], Trial, i);
          Trial next = sum;

          next.missed += one->missed;
          next.late += one->late;
          next.spare = MIN (next.spare, one->spare);
          next.units += one->units;
          next.homes += one->homes;
          next.leaves += one->leaves;
          add_words (&next, one);
          share_out (outcomes, problem, order, place + 1, left & ~set, next, best);
        }
      if (set == 0)
        return;
    }
}

static Trial
best_with (const HsProblem *problem, gint64 spare)
{
  guint sets = 1u << problem->calls->len;
  Trial none = { 0, 0, 0, problem->spare_seconds, 0, 0, 0 };
  Trial best = { G_MAXUINT, G_MAXUINT, G_MAXINT64, G_MININT32, G_MAXINT64, 0, 0 };
  g_autofree guint *order = trial_vans (problem);
  GArray ***outcomes = g_new (GArray **, problem->vans->len);

  for (guint v = 0; v < problem->vans->len; v++)
    {
      g_autoptr (GArray) leaves = g_array_new (FALSE, FALSE, sizeof (gint32));
      Maker maker = { problem, v, spare, .leaves = leaves };

      outcomes[v] = maker.outcomes = g_new (GArray *, sets);
      for (guint set = 0; set < sets; set++)
        outcomes[v][set] = g_array_new (FALSE, FALSE, sizeof (Trial));
      g_array_append_val (outcomes[v][0], none);
      try_all (&maker, 0, 0, FALSE);
    }
  share_out (outcomes, problem, order, 0, sets - 1, none, &best);
  for (guint v = 0; v < problem->vans->len; v++)
    {
      for (guint set = 0; set < sets; set++)
        g_array_unref (outcomes[v][set]);
      g_free (outcomes[v]);
    }
  g_free (outcomes);
  return best;
}

/* How much spare can be had shows first; which leave times matter for the costs depends on it. */
Trial
trial_best (const HsProblem *problem)
{
  Trial first = best_with (problem, problem->spare_seconds);

  return best_with (problem, first.spare);
}
