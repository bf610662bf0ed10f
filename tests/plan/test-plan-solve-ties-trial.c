// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Small days on which many plans are worth the same, against trying everything: which of them it is, stop for stop, in
 * whatever order the day is written down. */

#include "hs-solve.h"

#include "answer-check.h"
#include "plan-text-day.h"
#include "solve-trial.h"

#include <stdlib.h>
#include <string.h>

#define MAX_IDS 12

/* @alike, @breaks, @windows, @tied: of a hundred */
typedef struct
{
  const char *name;
  guint days;
  guint calls;
  guint counters;
  guint vans;
  guint alike;
  guint breaks;
  guint windows;
  guint tied;
} Kind;

static const Kind kinds[] = {
  { "one-van", 150, 5, 1, 1, 0, 50, 50, 0 },
  { "two-alike", 100, 5, 0, 2, 100, 0, 30, 0 },
  { "two-alike-tight", 80, 5, 0, 2, 100, 30, 90, 0 },
  { "two-unlike", 100, 5, 0, 2, 0, 30, 40, 20 },
  { "two-counters", 100, 4, 2, 2, 50, 30, 40, 0 },
  { "two-breaks", 100, 4, 0, 2, 50, 100, 40, 0 },
  { "two-tied", 80, 5, 0, 2, 50, 20, 40, 50 },
  { "two-six", 30, 6, 0, 2, 70, 0, 40, 10 },
  { "three-alike", 80, 4, 0, 3, 100, 0, 40, 0 },
  { "three-unlike", 80, 4, 0, 3, 30, 30, 40, 20 },
  { "three-counters", 60, 4, 1, 3, 50, 20, 30, 0 },
  { "three-five", 30, 5, 0, 3, 70, 20, 40, 20 },
};

static gboolean
is_lucky (GRand *rand, guint percent)
{
  return g_rand_int_range (rand, 0, 100) < (gint32) percent;
}

/* One leg is as long as the next, or nearly. */
static void
set_legs (HsProblem *problem, GRand *rand)
{
  gint32 longest = g_rand_int_range (rand, 1, 3);
  gint32 least = g_rand_int_range (rand, 0, 2);

  for (guint i = 0; i < problem->n_places; i++)
    for (guint j = 0; j < problem->n_places; j++)
      {
        gint32 steps = i == j ? 0 : g_rand_int_range (rand, MIN (least, longest), longest + 1);

        hs_problem_set_leg (problem, i, j, steps * 600, steps * 2000);
      }
}

static void
set_van (HsProblem *problem, GRand *rand, const Kind *kind, HsVan *van)
{
  van->start = (guint) g_rand_int_range (rand, 0, 2);
  van->end = van->start;
  van->leave_from_seconds = 8 * 3600 + g_rand_int_range (rand, 0, 2) * 1800;
  van->home_by_seconds = 17 * 3600;
  van->leave_to_seconds = is_lucky (rand, 70) ? van->home_by_seconds : van->leave_from_seconds + 1800;
  if (kind->counters > 0 && is_lucky (rand, 30))
    {
      guint part = hs_problem_part (problem, "x");

      g_array_append_val (van->carries, part);
    }
  if (!is_lucky (rand, kind->breaks))
    return;
  van->break_seconds = g_rand_int_range (rand, 1, 4) * 600;
  van->break_span.from_seconds = 8 * 3600 + g_rand_int_range (rand, 0, 6) * 1200;
  van->break_span.to_seconds = van->break_span.from_seconds + van->break_seconds + g_rand_int_range (rand, 0, 4) * 1200;
}

/* The first van's day again. */
static void
copy_van (const HsVan *first, HsVan *van)
{
  const HsVan kept = *van;

  *van = *first;
  van->id = kept.id;
  van->skills = kept.skills;
  van->carries = kept.carries;
  g_array_append_vals (van->carries, first->carries->data, first->carries->len);
}

static void
add_vans (HsProblem *problem, GRand *rand, const Kind *kind)
{
  for (guint v = 0; v < kind->vans; v++)
    {
      const char id[] = { "bcda"[v], '\0' };
      HsVan *van = hs_problem_add_van (problem, id);

      if (v > 0 && is_lucky (rand, kind->alike))
        copy_van (hs_problem_get_van (problem, 0), van);
      else
        set_van (problem, rand, kind, van);
    }
}

/* Ids of calls and counters on both sides of "break" and of one another, in no order. */
static void
pick_ids (GRand *rand, char ids[MAX_IDS][3])
{
  for (guint i = 0; i < MAX_IDS; i++)
    {
      guint j = (guint) g_rand_int_range (rand, 0, (gint32) i + 1);

      memcpy (ids[i], ids[j], 3);
      g_snprintf (ids[j], 3, "%c%u", "aBcDeF"[i % 6], i / 6);
    }
}

static void
add_calls (HsProblem *problem, GRand *rand, const Kind *kind, char ids[MAX_IDS][3])
{
  for (guint i = 0; i < kind->calls; i++)
    {
      HsCall *call = hs_problem_add_call (problem, ids[i], (guint) g_rand_int_range (rand, 0,
                                                                                     (gint32) problem->n_places),
                                          g_rand_int_range (rand, 1, 4) * 600);

      if (is_lucky (rand, kind->windows))
        {
          gint32 from = 8 * 3600 + g_rand_int_range (rand, 0, 10) * 1200;
          HsDaySpan span = { from, from + g_rand_int_range (rand, 0, 4) * 1200 };

          g_array_append_val (call->windows, span);
        }
      if (kind->counters > 0 && is_lucky (rand, 40))
        {
          guint part = hs_problem_part (problem, "x");

          g_array_append_val (call->needs, part);
        }
      if (is_lucky (rand, kind->tied))
        call->van = g_rand_int_range (rand, 0, (gint32) kind->vans);
    }
}

static void
add_counters (HsProblem *problem, GRand *rand, const Kind *kind, char ids[MAX_IDS][3])
{
  const HsDaySpan hours = { 8 * 3600, 17 * 3600 };

  for (guint c = 0; c < kind->counters; c++)
    {
      HsCounter *counter = hs_problem_add_counter (problem, ids[kind->calls + c],
                                                   (guint) g_rand_int_range (rand, 0, (gint32) problem->n_places),
                                                   g_rand_int_range (rand, 0, 2) * 600);

      g_array_append_val (counter->hours, hours);
      hs_counter_sell (counter, hs_problem_part (problem, "x"), is_lucky (rand, 80) ? 500 : 600);
    }
}

static HsProblem *
even_day (GRand *rand, const Kind *kind)
{
  HsProblem *problem = hs_problem_new ((guint) g_rand_int_range (rand, 2, 5));
  char ids[MAX_IDS][3] = { "" };

  problem->minute_cents = is_lucky (rand, 80) ? 160 : 0;
  problem->mile_cents = is_lucky (rand, 80) ? 42 : 0;
  problem->spare_seconds = is_lucky (rand, 30) ? 1200 : 0;
  set_legs (problem, rand);
  add_vans (problem, rand, kind);
  pick_ids (rand, ids);
  add_calls (problem, rand, kind, ids);
  add_counters (problem, rand, kind, ids);
  return problem;
}

static const char *
id_of (const HsProblem *problem, const HsRouteStop *stop)
{
  if (stop->kind == HS_ROUTE_BREAK)
    return "break";
  return stop->kind == HS_ROUTE_CALL ? hs_problem_get_call (problem, stop->index)->id
                                     : hs_problem_get_counter (problem, stop->index)->id;
}

/* The plan in the words of the trial. */
static Trial
words_of (const HsProblem *problem, const HsSolution *solution)
{
  g_autofree guint *order = trial_vans (problem);
  Trial trial = { 0 };

  for (guint v = 0; v < problem->vans->len; v++)
    {
      for (guint r = 0; r < solution->routes->len; r++)
        {
          const HsRoute *route = hs_solution_get_route (solution, r);

          for (guint k = 0; k < route->stops->len && route->van == order[v]; k++, trial.stops++)
            trial.words[trial.n_words++] = trial_word (
                problem, id_of (problem, &g_array_index (route->stops, HsRouteStop, k)));
        }
      trial.words[trial.n_words++] = TRIAL_HOME;
    }
  return trial;
}

static char *
say_words (const Trial *trial)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < trial->n_words; k++)
    if (trial->words[k] == TRIAL_HOME)
      g_string_append (text, " /");
    else
      g_string_append_printf (text, " %u", trial->words[k]);
  return g_string_free (text, FALSE);
}

static void
assert_first (const HsProblem *problem, const HsSolution *solution, guint32 seed)
{
  const Trial best = trial_best (problem);
  const Trial found = words_of (problem, solution);
  g_autofree char *best_words = say_words (&best);
  g_autofree char *found_words = say_words (&found);
  gint64 homes = 0;
  gint64 leaves = 0;

  g_assert_true (solution->proven);
  g_assert_cmpint (solution->cost_units, ==, best.units);
  for (guint r = 0; r < solution->routes->len; r++)
    {
      homes += hs_solution_get_route (solution, r)->home_seconds;
      leaves += hs_solution_get_route (solution, r)->leave_seconds;
    }
  g_assert_cmpint (homes, ==, best.homes);
  g_assert_cmpint (leaves, ==, best.leaves);
  if (!g_str_equal (found_words, best_words))
    {
      g_autofree char *routes = text_routes (problem, solution);

      g_test_message ("day %u: %s", seed, routes);
    }
  g_assert_cmpstr (found_words, ==, best_words);
}

static void
test_kind (gconstpointer data)
{
  const Kind *kind = data;
  const char *wish = g_getenv ("HS_TRIAL_DAYS");
  guint days = wish != NULL ? (guint) atoi (wish) : kind->days;

  for (guint32 seed = 0; seed < days; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (HsProblem) problem = even_day (rand, kind);
      g_autoptr (HsSolution) solution = text_solve (problem, FALSE);
      g_autoptr (HsSolution) again = NULL;
      g_autofree char *routes = text_routes (problem, solution);
      g_autofree char *others = NULL;

      assert_first (problem, solution, seed);
      text_shuffle (rand, problem);
      again = text_solve (problem, FALSE);
      others = text_routes (problem, again);
      g_assert_cmpstr (others, ==, routes);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-ties-trial/%s", kinds[i].name);

      g_test_add_data_func (path, &kinds[i], test_kind);
    }
  return g_test_run ();
}
