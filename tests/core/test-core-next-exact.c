// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The search for the best policy, asked in any order and from any state; what it holds, and where it gives up. */

#include "core-test.h"

#include "hs-next-exact.h"
#include "policy-trial.h"

#define MANY 2000000
#define HAIR 1e-9

/* search_of: over all of @model but what @seen tells, with weights as they stand there. */
static HsNextExact *
search_of (const HsCauseModel *model, const HsSeen *seen, guint max_states)
{
  double weights[HS_CAUSE_MODEL_MAX_CAUSES];
  guint64 done = 0;
  PolicyTrial trial = { .model = model };

  policy_trial_beliefs (&trial, seen, weights);
  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    if (seen->results[i] != 0)
      done |= G_GUINT64_CONSTANT (1) << i;
  return hs_next_exact_new (model, weights, done, max_states);
}

static void
compare_all (HsNextExact *exact, PolicyTrial *trial, const HsSeen *seen)
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];

  policy_trial_beliefs (trial, seen, beliefs);
  for (guint i = 0; i < hs_cause_model_get_n_causes (trial->model); i++)
    if (beliefs[i] > 0)
      {
        double tried = policy_trial_repair (trial, seen, i);

        g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, i), tried, HAIR * (1 + tried));
      }
  for (guint i = 0; i < hs_cause_model_get_n_checks (trial->model); i++)
    if (seen->results[i] == 0)
      {
        double tried = policy_trial_check (trial, seen, i);

        g_assert_cmpfloat_with_epsilon (hs_next_exact_check (exact, i), tried, HAIR * (1 + tried));
      }
}

/* Asking for the best first cuts most ways short; what it kept of them must not be taken for their cost later. */
static void
test_best_first (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (61);

  for (guint round = 0; round < 120; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 2 + round % 5, round % 4, round % 2 == 0);
      HsSeen seen = { 0 };
      g_autoptr (HsNextExact) exact = search_of (model, &seen, MANY);
      gboolean is_check = FALSE;
      guint index = 0;
      PolicyTrial trial;
      double best;

      policy_trial_init (&trial, model);
      hs_next_exact_best (exact, &is_check, &index);
      best = is_check ? policy_trial_check (&trial, &seen, index) : policy_trial_repair (&trial, &seen, index);
      g_assert_cmpfloat_with_epsilon (best, policy_trial_value (&trial, &seen), HAIR * (1 + best));
      compare_all (exact, &trial, &seen);
      g_assert_false (hs_next_exact_gave_up (exact));
      policy_trial_clear (&trial);
    }
}

/* One dear repair beside cheap ones: it costs more than all of the best way, and still costs what it costs. */
static void
test_dear_repair (void)
{
  static const HsCause causes[] = { { "fuse", 9, 1 }, { "harness", 1, 500 }, { "relay", 2, 4 } };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 3, NULL);
  HsSeen seen = { 0 };
  g_autoptr (HsNextExact) exact = search_of (model, &seen, MANY);
  gboolean is_check = TRUE;
  guint index = 9;

  hs_next_exact_best (exact, &is_check, &index);
  g_assert_false (is_check);
  g_assert_cmpuint (index, ==, 0);
  /* 500 + 11/12 x (1 + 2/11 x 4), worked by hand; best: 1 + 3/12 x (4 + 1/3 x 500). */
  g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, 1), 500 + (11.0 + 8.0) / 12, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, 0), 1 + (12.0 + 500.0) / 12, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, 2), 4 + (10.0 + 500.0) / 12, HAIR);
}

/* From a state that it was led to, costs are those of a search that begins there, times the chance of getting there. */
static void
test_led (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (67);

  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 5, 4, FALSE);
      HsSeen none = { 0 }, seen = { .ruled_out = 1u << round % 5 };
      guint check = round % 4;
      g_autoptr (HsNextExact) exact = search_of (model, &none, MANY);
      g_autoptr (HsNextExact) other = NULL;
      double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
      PolicyTrial trial = { .model = model };
      double chance;
      guint left = (round + 1) % 5;

      seen.results[check] = 2;
      other = search_of (model, &seen, MANY);
      chance = policy_trial_beliefs (&trial, &seen, beliefs) / policy_trial_beliefs (&trial, &none, beliefs);
      for (guint again = 0; again < 2; again++)
        {
          hs_next_exact_go_without (exact, round % 5);
          hs_next_exact_go_after (exact, check, 1);
          g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, left),
                                          hs_next_exact_repair (other, left) * chance, 1e-7);
          g_assert_cmpfloat_with_epsilon (hs_next_exact_check (exact, (check + 1) % 4),
                                          hs_next_exact_check (other, (check + 1) % 4) * chance, 1e-7);
          hs_next_exact_go_back (exact);
        }
    }
}

/* Equal first steps: repairs before checks, then the lower index. */
static void
test_ties (void)
{
  static const double sure[] = { 1, 0, 0, 1 };
  static const struct
  {
    const char *what;
    double weights[2];
    double repairs[2];
    guint n_checks;
    double minutes[2];
    gboolean is_check;
    guint index;
  } rows[] = {
    { "two alike", { 1, 1 }, { 10, 10 }, 0, { 0 }, FALSE, 0 },
    { "equal by weight over minutes: 1 in 4 of 10 and 3 in 4 of 30", { 1, 3 }, { 10, 30 }, 0, { 0 }, FALSE, 0 },
    { "the second is better", { 1, 3 }, { 10, 20 }, 0, { 0 }, FALSE, 1 },
    { "a check as good as a repair: 5 + 10 and 10 + 0.5 x 10", { 1, 1 }, { 10, 10 }, 1, { 5 }, FALSE, 0 },
    { "a check that is a hair dearer", { 1, 1 }, { 10, 10 }, 1, { 5.01 }, FALSE, 0 },
    { "a check that is a hair better", { 1, 1 }, { 10, 10 }, 1, { 4.99 }, TRUE, 0 },
    { "two checks alike", { 1, 1 }, { 10, 10 }, 2, { 3, 3 }, TRUE, 0 },
    { "the second check is cheaper", { 1, 1 }, { 10, 10 }, 2, { 3, 2 }, TRUE, 1 },
    { "two for nothing", { 1, 1 }, { 10, 10 }, 2, { 0, 0 }, TRUE, 0 },
    { "repairs for nothing leave nothing to ask", { 1, 1 }, { 0, 0 }, 1, { 0 }, FALSE, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCause causes[] = { { "a", rows[i].weights[0], rows[i].repairs[0] },
                                 { "b", rows[i].weights[1], rows[i].repairs[1] } };
      g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 2, NULL);
      g_autoptr (HsNextExact) exact = NULL;
      HsSeen seen = { 0 };
      gboolean is_check = !rows[i].is_check;
      guint index = 9;

      g_test_message ("%s", rows[i].what);
      for (guint k = 0; k < rows[i].n_checks; k++)
        g_assert_true (hs_cause_model_add_check (model, k == 0 ? "x" : "y", rows[i].minutes[k],
                                                 policy_trial_results (2), sure, NULL));
      exact = search_of (model, &seen, MANY);
      hs_next_exact_best (exact, &is_check, &index);
      g_assert_cmpint (is_check, ==, rows[i].is_check);
      g_assert_cmpuint (index, ==, rows[i].index);
    }
}

/* What it has room for, and that it says so when it has not. */
static void
test_room (void)
{
  static const struct
  {
    guint n_causes;
    guint n_checks;
    guint32 ruled_out;
    guint n_done;
    gboolean fits;
  } rows[] = {
    { 16, 12, 0, 0, TRUE },
    { 17, 12, 0, 0, FALSE },
    { 16, 13, 0, 0, FALSE },
    { 17, 12, 1u << 3, 0, TRUE },
    { 16, 13, 0, 1, TRUE },
    { 32, 64, 0xffff0000, 52, TRUE },
    { 32, 64, 0xffff0000, 51, FALSE },
    { 32, 64, 0xfffe0000, 52, FALSE },
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, rows[i].n_causes, rows[i].n_checks, FALSE);
      HsSeen seen = { .ruled_out = rows[i].ruled_out };
      g_autoptr (HsNextExact) exact = NULL;

      for (guint k = 0; k < rows[i].n_done; k++)
        seen.results[k] = 1;
      exact = search_of (model, &seen, 100);
      g_assert_cmpint (exact != NULL, ==, rows[i].fits);
      if (exact != NULL)
        hs_next_exact_check (exact, rows[i].n_checks - 1);
      g_assert_true (exact == NULL || hs_next_exact_get_n_states (exact) <= 100);
    }
}

/* With too few states it gives up and stays so; with as many as it needed it does not. */
static void
test_gives_up (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  g_autoptr (HsCauseModel) model = policy_trial_model (rand, 7, 5, FALSE);
  HsSeen seen = { 0 };
  g_autoptr (HsNextExact) enough = search_of (model, &seen, MANY);
  g_autoptr (HsNextExact) same = NULL;
  g_autoptr (HsNextExact) fewer = NULL;
  double cost = hs_next_exact_check (enough, 0);
  guint n_states = hs_next_exact_get_n_states (enough);

  g_assert_cmpuint (n_states, >, 10);
  same = search_of (model, &seen, n_states);
  g_assert_cmpfloat (hs_next_exact_check (same, 0), ==, cost);
  g_assert_false (hs_next_exact_gave_up (same));
  fewer = search_of (model, &seen, n_states - 1);
  hs_next_exact_check (fewer, 0);
  g_assert_true (hs_next_exact_gave_up (fewer));
  hs_next_exact_repair (fewer, 0);
  g_assert_true (hs_next_exact_gave_up (fewer));
  g_assert_cmpuint (hs_next_exact_get_n_states (fewer), <=, n_states - 1);
}

/* The last cause is repaired, not looked for, and a check on the way to it costs its minutes. */
static void
test_last (void)
{
  static const HsCause causes[] = { { "a", 3, 10 }, { "b", 1, 7 } };
  static const double sure[] = { 1, 0, 0, 1 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 2, NULL);
  g_autoptr (HsNextExact) exact = NULL;
  HsSeen seen = { 0 };
  gboolean is_check = TRUE;
  guint index = 9;

  g_assert_true (hs_cause_model_add_check (model, "look", 0, policy_trial_results (2), sure, NULL));
  exact = search_of (model, &seen, MANY);
  hs_next_exact_go_without (exact, 0);
  hs_next_exact_best (exact, &is_check, &index);
  g_assert_false (is_check);
  g_assert_cmpuint (index, ==, 1);
  g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, 1), 0.25 * 7, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_exact_check (exact, 0), 0.25 * 7, HAIR);
}

/* A check of two results, cut up: which of them each result is a part of, and how much of it. */
typedef struct
{
  const char *what;
  guint n_results;
  guint of[8];
  double part[8];
} Cut;

static const Cut cuts[] = {
  { "as it is", 2, { 0, 1 }, { 1, 1 } },
  { "the other way round", 2, { 1, 0 }, { 1, 1 } },
  { "the first in halves", 3, { 0, 0, 1 }, { 0.5, 0.5, 1 } },
  { "in thirds and quarters, mixed", 7, { 0, 1, 0, 1, 1, 0, 1 },
    { 1 / 3., 0.25, 1 / 3., 0.25, 0.25, 1 / 3., 0.25 } },
  { "with one that never happens, first", 3, { 0, 0, 1 }, { 0, 1, 1 } },
  { "with some that never happen", 6, { 0, 1, 1, 0, 0, 1 }, { 0.2, 0, 1, 0, 0.8, 0 } },
  { "with next to nothing of it", 4, { 0, 0, 1, 1 }, { 1e-12, 1 - 1e-12, 0.5, 0.5 } },
};

/* cut_model: (transfer full): four causes and two checks, each cut by @cut; under the last cause the second never is
 * other than its first. */
static HsCauseModel *
cut_model (const Cut *cut)
{
  static const HsCause causes[] = { { "a", 4, 30 }, { "b", 3, 20 }, { "c", 2, 50 }, { "d", 1, 10 } };
  static const double first[2][4] = { { 0.9, 0.2, 0.5, 0.1 }, { 0.3, 0.8, 0.4, 1 } };
  static const char *const names[] = { "r1", "r2", "r3", "r4", "r5", "r6", "r7", "r8" };
  HsCauseModel *model = hs_cause_model_new (causes, 4, NULL);
  const char *results[9] = { NULL };

  for (guint r = 0; r < cut->n_results; r++)
    results[r] = names[r];
  for (guint k = 0; k < 2; k++)
    {
      double chances[32];

      for (guint i = 0; i < 4; i++)
        for (guint r = 0; r < cut->n_results; r++)
          chances[i * cut->n_results + r] = (cut->of[r] == 0 ? first[k][i] : 1 - first[k][i]) * cut->part[r];
      g_assert_true (hs_cause_model_add_check (model, k == 0 ? "x" : "y", 2 + k, results, chances, NULL));
    }
  return model;
}

/* Results that tell the same are one: the same costs, about as many states, after one of them its part of the cost. */
static void
test_proportion (void)
{
  HsSeen seen = { 0 };
  g_autoptr (HsCauseModel) whole = cut_model (&cuts[0]);
  g_autoptr (HsNextExact) plain = search_of (whole, &seen, MANY);
  double x = hs_next_exact_check (plain, 0), y = hs_next_exact_check (plain, 1);
  guint n_states = hs_next_exact_get_n_states (plain);

  for (gsize i = 0; i < G_N_ELEMENTS (cuts); i++)
    {
      g_autoptr (HsCauseModel) model = cut_model (&cuts[i]);
      g_autoptr (HsNextExact) exact = search_of (model, &seen, MANY);

      g_test_message ("%s", cuts[i].what);
      g_assert_cmpfloat_with_epsilon (hs_next_exact_check (exact, 0), x, HAIR);
      g_assert_cmpfloat_with_epsilon (hs_next_exact_check (exact, 1), y, HAIR);
      g_assert_cmpuint (hs_next_exact_get_n_states (exact), <=, n_states + 2);
      for (guint r = 0; r < cuts[i].n_results; r++)
        if (cuts[i].part[r] > 0)
          {
            double part = cuts[i].part[r];

            hs_next_exact_go_back (exact);
            hs_next_exact_go_after (exact, 0, r);
            hs_next_exact_go_back (plain);
            hs_next_exact_go_after (plain, 0, cuts[i].of[r]);
            g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, 2), part * hs_next_exact_repair (plain, 2),
                                            HAIR);
            g_assert_cmpfloat_with_epsilon (hs_next_exact_check (exact, 1), part * hs_next_exact_check (plain, 1),
                                            HAIR);
            hs_next_exact_go_after (exact, 1, r);
            hs_next_exact_go_after (plain, 1, cuts[i].of[r]);
            g_assert_cmpfloat_with_epsilon (hs_next_exact_repair (exact, 0),
                                            part * part * hs_next_exact_repair (plain, 0), HAIR);
            hs_next_exact_go_back (plain);
          }
    }
}

/* Checks that are the same in all are still two; which of them comes first does not matter, and is not tried twice. */
static void
test_twins (void)
{
  static const HsCause causes[] = { { "a", 5, 40 }, { "b", 4, 35 }, { "c", 3, 60 } };
  static const double noisy[] = { 0.7, 0.3, 0.4, 0.6, 0.2, 0.8 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 3, NULL);
  HsSeen seen = { 0 };
  g_autoptr (HsNextExact) exact = NULL;
  gboolean is_check = FALSE;
  guint index = 9;
  PolicyTrial trial;

  for (guint k = 0; k < 3; k++)
    g_assert_true (hs_cause_model_add_check (model, (const char *[]){ "x", "y", "z" }[k], k == 1 ? 3 : 2,
                                             policy_trial_results (2), noisy, NULL));
  exact = search_of (model, &seen, MANY);
  policy_trial_init (&trial, model);
  compare_all (exact, &trial, &seen);
  g_assert_cmpfloat (hs_next_exact_check (exact, 0), ==, hs_next_exact_check (exact, 2));
  hs_next_exact_best (exact, &is_check, &index);
  g_assert_true (is_check);
  g_assert_cmpuint (index, ==, 0);
  policy_trial_clear (&trial);
}

/* Repairs and checks that take no minutes, against trying everything, from the start and after some of them. */
static void
test_for_nothing (void)
{
  static const HsCause causes[] = { { "a", 5, 40 }, { "b", 1, 0 }, { "c", 3, 60 }, { "d", 2, 0 }, { "e", 2, 15 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (113);

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 5, NULL);
      HsSeen seen = { .ruled_out = round % 4 == 0 ? 2 : round % 4 == 1 ? 10 : 0 };
      g_autoptr (HsNextExact) exact = NULL;
      PolicyTrial trial;

      for (guint k = 0; k < 3; k++)
        {
          double chances[10];

          for (guint i = 0; i < 5; i++)
            {
              chances[2 * i] = g_rand_int_range (rand, 0, 5) / 4.0;
              chances[2 * i + 1] = 1 - chances[2 * i];
            }
          g_assert_true (hs_cause_model_add_check (model, (const char *[]){ "x", "y", "z" }[k],
                                                   g_rand_int_range (rand, 0, 3), policy_trial_results (2), chances,
                                                   NULL));
        }
      policy_trial_init (&trial, model);
      exact = search_of (model, &seen, MANY);
      compare_all (exact, &trial, &seen);
      policy_trial_clear (&trial);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-exact/best-first", test_best_first);
  g_test_add_func ("/next-exact/dear-repair", test_dear_repair);
  g_test_add_func ("/next-exact/led", test_led);
  g_test_add_func ("/next-exact/ties", test_ties);
  g_test_add_func ("/next-exact/room", test_room);
  g_test_add_func ("/next-exact/gives-up", test_gives_up);
  g_test_add_func ("/next-exact/last", test_last);
  g_test_add_func ("/next-exact/proportion", test_proportion);
  g_test_add_func ("/next-exact/twins", test_twins);
  g_test_add_func ("/next-exact/for-nothing", test_for_nothing);
  return g_test_run ();
}
