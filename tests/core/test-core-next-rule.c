// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What following the one-step rule costs: the same with what is kept of states as without, in whatever order a state is
 * reached, and where a model is too large for anything to be kept. */

#include "core-test.h"

#include "hs-next-rule.h"
#include "policy-trial.h"

#define HAIR 1e-9
#define MANY 2000000

/* The recursion as it reads, nothing kept. */
static double
follow (const HsCauseModel *model, const HsBelief *belief)
{
  HsNextStep step;
  HsBelief next;
  double cost;

  if (belief->sum <= 0)
    return 0;
  step = hs_belief_rule_step (model, belief);
  if (!step.is_check)
    {
      next = hs_belief_without (belief, step.index);
      return hs_cause_model_get_cause (model, step.index)->repair_minutes * belief->sum + follow (model, &next);
    }
  cost = hs_cause_model_get_check_minutes (model, step.index) * belief->sum;
  for (guint r = 0; r < hs_cause_model_get_n_results (model, step.index); r++)
    {
      next = hs_belief_after (model, belief, step.index, r);
      cost += follow (model, &next);
    }
  return cost;
}

/* One rule for many questions of one model: first steps in any order, each after the others. */
static void
test_kept (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1013);
  HsSeen seen = { 0 };

  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 7, 5, FALSE);
      g_autoptr (HsNextRule) rule = hs_next_rule_new (model);
      HsBelief belief;

      g_assert_true (hs_belief_begin (model, &seen, &belief));
      for (guint k = 0; k < 5; k++)
        for (guint r = 0; r < hs_cause_model_get_n_results (model, k); r++)
          {
            HsBelief next = hs_belief_after (model, &belief, k, r);
            guint budget = MANY;

            g_assert_cmpfloat_with_epsilon (
              hs_next_rule_cost (rule, &next, hs_next_path_after (0, k, r), &budget), follow (model, &next), HAIR);
            g_assert_cmpuint (budget, >, 0);
          }
      for (guint c = 0; c < 7; c++)
        {
          HsBelief next = hs_belief_without (&belief, c);
          guint budget = MANY;

          g_assert_cmpfloat_with_epsilon (hs_next_rule_cost (rule, &next, hs_next_path_without (0, c), &budget),
                                          follow (model, &next), HAIR);
        }
      g_assert_cmpfloat_with_epsilon (hs_next_rule_minutes (model, &seen, MANY), follow (model, &belief), HAIR);
    }
}

/* A path says what came out and what was repaired, not in which order; no two are alike. */
static void
test_paths (void)
{
  g_autoptr (GHashTable) paths = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  g_assert_cmpuint (hs_next_path_after (hs_next_path_without (0, 3), 2, 1), ==,
                    hs_next_path_without (hs_next_path_after (0, 2, 1), 3));
  for (guint c = 0; c < 16; c++)
    for (guint k = 0; k < 12; k++)
      for (guint r = 0; r < HS_CAUSE_MODEL_MAX_RESULTS; r++)
        {
          guint64 path = hs_next_path_after (hs_next_path_without (0, c), k, r);

          g_assert_true (g_hash_table_add (paths, g_memdup2 (&path, sizeof path)));
        }
}

/* Thirteen checks have no room in a path. A budget that is too small says so and spoils nothing for the next. */
static void
test_edges (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1019);
  g_autoptr (HsCauseModel) wide = policy_trial_model (rand, 3, 13, FALSE);
  g_autoptr (HsCauseModel) model = policy_trial_model (rand, 7, 5, FALSE);
  g_autoptr (HsNextRule) rule = hs_next_rule_new (model);
  HsSeen seen = { 0 };
  HsBelief belief;
  guint budget = 3;

  g_assert_true (hs_belief_begin (wide, &seen, &belief));
  g_assert_cmpfloat_with_epsilon (hs_next_rule_minutes (wide, &seen, MANY), follow (wide, &belief), HAIR);
  g_assert_true (hs_belief_begin (model, &seen, &belief));
  hs_next_rule_cost (rule, &belief, 0, &budget);
  g_assert_cmpuint (budget, ==, 0);
  budget = MANY;
  g_assert_cmpfloat_with_epsilon (hs_next_rule_cost (rule, &belief, 0, &budget), follow (model, &belief), HAIR);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-rule/kept", test_kept);
  g_test_add_func ("/next-rule/paths", test_paths);
  g_test_add_func ("/next-rule/edges", test_edges);
  return g_test_run ();
}
