// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The minutes of a first step with the rule after it: worked by hand, and held against everything tried out. */

#include "core-test.h"

#include "hs-next-ahead.h"
#include "policy-trial.h"

#define HAIR 1e-9
#define MANY 2000000

/* Two causes of 0.75 and 0.25, 20 and 30 minutes, and a check of 2 minutes that is good with 0.9 and 0.1. */
static HsCauseModel *
two_causes (void)
{
  static const HsCause causes[] = { { "a", 3, 20 }, { "b", 1, 30 } };
  static const double chances[] = { 0.9, 0.1, 0.1, 0.9 };
  HsCauseModel *model = hs_cause_model_new (causes, 2, NULL);

  g_assert_true (hs_cause_model_add_check (model, "belt", 2, policy_trial_results (2), chances, NULL));
  return model;
}

/* The check first: 2 + 0.7 × 20 + 0.025 × 30 + 0.3 × 30 + 0.075 × 20 = 27.25. The repair of a first: 20 + 0.25 × 30;
 * of b: 30 + 0.75 × 20. With the check done and bad: b first, 30 + 0.25 × 20. */
static void
test_by_hand (void)
{
  g_autoptr (HsCauseModel) model = two_causes ();
  const HsNextStep belt = { TRUE, 0, 0 };
  const HsNextStep a = { FALSE, 0, 0 };
  const HsNextStep b = { FALSE, 1, 0 };
  HsSeen seen = { 0 };

  g_assert_cmpfloat_with_epsilon (hs_next_step_minutes (model, &seen, &belt, MANY), 27.25, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_step_minutes (model, &seen, &a, MANY), 27.5, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_step_minutes (model, &seen, &b, MANY), 45, HAIR);
  seen.results[0] = 2;
  g_assert_cmpfloat_with_epsilon (hs_next_step_minutes (model, &seen, &b, MANY), 35, HAIR);
  seen.ruled_out = 1;
  g_assert_cmpfloat_with_epsilon (hs_next_step_minutes (model, &seen, &b, MANY), 30, HAIR);
  seen.ruled_out = 3;
  g_assert_cmpfloat (hs_next_step_minutes (model, &seen, &b, MANY), <, 0);
  seen = (HsSeen){ 0 };
  g_assert_cmpfloat (hs_next_step_minutes (model, &seen, &belt, 1), <, 0);
}

/* A model of @n_causes and @n_checks, drawn. */
static HsCauseModel *
draw_model (GRand *rand, guint n_causes, guint n_checks)
{
  HsCause causes[8];
  char ids[8][4];
  HsCauseModel *model;

  for (guint i = 0; i < n_causes; i++)
    {
      g_snprintf (ids[i], sizeof ids[i], "c%u", i);
      causes[i] = (HsCause){ ids[i], g_rand_double_range (rand, 0.5, 5), g_rand_int_range (rand, 5, 90) };
    }
  model = hs_cause_model_new (causes, n_causes, NULL);
  for (guint k = 0; k < n_checks; k++)
    {
      g_autofree char *id = g_strdup_printf ("k%u", k);
      double chances[16];

      for (guint i = 0; i < n_causes; i++)
        {
          chances[2 * i] = g_rand_double (rand);
          chances[2 * i + 1] = 1 - chances[2 * i];
        }
      g_assert_true (hs_cause_model_add_check (model, id, g_rand_int_range (rand, 1, 15), policy_trial_results (2),
                                               chances, NULL));
    }
  return model;
}

/* With the rule's answer: no step is cheaper than the best policy, the best of them no dearer than the rule itself, and
 * the steps stand in order. */
static void
test_between (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (531);
  HsSeen seen = { 0 };

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HsCauseModel) model = draw_model (rand, 7, 4);
      HsNext exact;
      HsNext next;

      g_assert_true (hs_next_check (model, &seen, MANY, &exact, NULL));
      g_assert_true (exact.exact);
      g_assert_true (hs_next_check (model, &seen, 1, &next, NULL));
      g_assert_false (next.exact);
      hs_next_look_ahead (model, &seen, 99, MANY, &next);
      g_assert_cmpfloat (next.steps[0].minutes, >=, exact.steps[0].minutes - HAIR);
      g_assert_cmpfloat (next.steps[0].minutes, <=, hs_next_rule_minutes (model, &seen, MANY) + HAIR);
      for (guint i = 1; i < next.n_steps; i++)
        g_assert_cmpfloat (next.steps[i].minutes, >=, next.steps[i - 1].minutes - HAIR);
      for (guint i = 0; i < next.n_steps; i++)
        g_assert_cmpfloat_with_epsilon (next.steps[i].minutes,
                                        hs_next_step_minutes (model, &seen, &next.steps[i], MANY), HAIR);
    }
}

/* An exact answer is left alone; and so are estimates for which there is no room. */
static void
test_left_alone (void)
{
  g_autoptr (HsCauseModel) model = two_causes ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (HsCauseModel) large = draw_model (rand, 8, 6);
  HsSeen seen = { 0 };
  HsNext next;
  HsNext after;

  g_assert_true (hs_next_check (model, &seen, MANY, &next, NULL));
  after = next;
  hs_next_look_ahead (model, &seen, 99, MANY, &after);
  for (guint i = 0; i < next.n_steps; i++)
    g_assert_cmpfloat (after.steps[i].minutes, ==, next.steps[i].minutes);
  g_assert_true (hs_next_check (large, &seen, 1, &next, NULL));
  g_assert_false (next.exact);
  after = next;
  hs_next_look_ahead (large, &seen, 99, 1, &after);
  for (guint i = 0; i < next.n_steps; i++)
    g_assert_cmpfloat (after.steps[i].minutes, ==, next.steps[i].minutes);
  /* Only as many as were asked for. */
  hs_next_look_ahead (large, &seen, 0, MANY, &after);
  g_assert_cmpfloat (after.steps[0].minutes, ==, next.steps[0].minutes);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-ahead/by-hand", test_by_hand);
  g_test_add_func ("/next-ahead/between", test_between);
  g_test_add_func ("/next-ahead/left-alone", test_left_alone);
  return g_test_run ();
}
