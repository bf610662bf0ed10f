// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the rest of a policy costs at least: never more than what trying everything finds, and all of it where there is
 * nothing to ask. */

#include "core-test.h"

#include "hs-next-bound.h"
#include "policy-trial.h"

#define HAIR 1e-9

typedef struct
{
  guint n_causes;
  double repairs[HS_NEXT_BOUND_CAUSES];
  double w[HS_NEXT_BOUND_CAUSES];
  double places[HS_NEXT_BOUND_CAUSES];
  HsNextBoundCheck checks[HS_NEXT_BOUND_CHECKS];
} Case;

/* case_of: the beliefs of @seen, which sum to 1. */
static void
case_of (PolicyTrial *trial, const HsSeen *seen, Case *ret_case)
{
  const HsCauseModel *model = trial->model;

  ret_case->n_causes = hs_cause_model_get_n_causes (model);
  policy_trial_beliefs (trial, seen, ret_case->w);
  for (guint i = 0; i < ret_case->n_causes; i++)
    {
      ret_case->repairs[i] = hs_cause_model_get_cause (model, i)->repair_minutes;
      ret_case->places[i] = hs_next_bound_place (ret_case->w[i], ret_case->repairs[i]);
    }
  for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
    {
      HsNextBoundCheck *check = &ret_case->checks[k];

      check->minutes = hs_cause_model_get_check_minutes (model, k);
      check->n_results = hs_cause_model_get_n_results (model, k);
      for (guint i = 0; i < ret_case->n_causes; i++)
        check->chances[i] = hs_cause_model_get_chances (model, k) + i * check->n_results;
    }
}

/* mistakes: what @model costs beyond the repair of the cause that is there, at least. */
static double
mistakes (PolicyTrial *trial, const HsSeen *seen, guint open, gboolean is_thorough)
{
  g_autoptr (HsNextBound) bound = NULL;
  Case one;

  case_of (trial, seen, &one);
  bound = hs_next_bound_new (one.repairs, one.n_causes, one.checks, hs_cause_model_get_n_checks (trial->model),
                             is_thorough);
  return hs_next_bound_mistakes (bound, one.w, one.places, open, G_MAXDOUBLE);
}

static double
sure_minutes (PolicyTrial *trial, const HsSeen *seen)
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  double sum = 0;

  policy_trial_beliefs (trial, seen, beliefs);
  for (guint i = 0; i < hs_cause_model_get_n_causes (trial->model); i++)
    sum += beliefs[i] * hs_cause_model_get_cause (trial->model, i)->repair_minutes;
  return sum;
}

/* all_take_minutes: whether all repairs take minutes, as what asks for a bound has made sure. */
static gboolean
all_take_minutes (const HsCauseModel *model)
{
  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    if (hs_cause_model_get_cause (model, i)->repair_minutes <= 0)
      return FALSE;
  return TRUE;
}

/* Never above the best policy, with any checks done and any cause ruled out; more shares tried give no less. */
static void
test_below (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (101);
  double share = 0;
  guint n = 0;

  for (guint round = 0; round < 200; round++)
    {
      guint n_causes = 2 + round % 4, n_checks = round % 4;
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, n_causes, n_checks, round % 3 == 0);
      HsSeen seen = { .ruled_out = round % 5 == 0 ? 1 : 0 };
      guint open = (1u << n_checks) - 1;
      PolicyTrial trial;
      double value, sure, quick, thorough;

      if (!all_take_minutes (model))
        continue;
      policy_trial_init (&trial, model);
      value = policy_trial_value (&trial, &seen);
      sure = sure_minutes (&trial, &seen);
      quick = mistakes (&trial, &seen, open, FALSE);
      thorough = mistakes (&trial, &seen, open, TRUE);
      g_assert_cmpfloat (quick, >=, 0);
      g_assert_cmpfloat (thorough, >=, quick * (1 - HAIR));
      g_assert_cmpfloat (sure + thorough, <=, value * (1 + HAIR));
      if (value > sure * (1 + HAIR))
        {
          share += thorough / (value - sure);
          n++;
        }
      policy_trial_clear (&trial);
    }
  g_assert_cmpuint (n, >, 120);
  g_assert_cmpfloat (share / n, >, 0.8);
}

/* Two causes are one pair: all but what the straight lines between the solved odds lose. */
static void
test_two_causes (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (103);

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 2, 3, FALSE);
      HsSeen seen = { 0 };
      PolicyTrial trial;
      double value, least;

      if (!all_take_minutes (model))
        continue;
      policy_trial_init (&trial, model);
      value = policy_trial_value (&trial, &seen);
      least = sure_minutes (&trial, &seen) + mistakes (&trial, &seen, 7, FALSE);
      g_assert_cmpfloat (least, <=, value * (1 + HAIR));
      g_assert_cmpfloat (least, >=, value * 0.97);
      policy_trial_clear (&trial);
    }
}

/* Without checks the pairs are all there is: repairs by weight over minutes, by hand. */
static void
test_no_checks (void)
{
  static const HsCause causes[] = { { "a", 2, 30 }, { "b", 5, 20 }, { "c", 3, 60 } };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 3, NULL);
  HsSeen none = { 0 }, ruled = { .ruled_out = 1 }, last = { .ruled_out = 3 };
  PolicyTrial trial = { .model = model };

  /* b, a, c: a and c pay 20, c pays 30: 0.5 x 20 + 0.3 x 30. */
  g_assert_cmpfloat_with_epsilon (mistakes (&trial, &none, 0, FALSE), 19, HAIR);
  g_assert_cmpfloat_with_epsilon (mistakes (&trial, &none, 0, TRUE), 19, HAIR);
  /* b, c: 3/8 of 20. */
  g_assert_cmpfloat_with_epsilon (mistakes (&trial, &ruled, 0, FALSE), 7.5, HAIR);
  g_assert_cmpfloat (mistakes (&trial, &last, 0, TRUE), ==, 0);
}

/* A check that tells for sure and costs nothing leaves no mistakes; one that tells nothing saves none. */
static void
test_sure_and_idle (void)
{
  static const HsCause causes[] = { { "a", 1, 30 }, { "b", 1, 30 } };
  static const double chances[] = { 1, 0, 0, 1 }, same[] = { 0.5, 0.5, 0.5, 0.5 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 2, NULL);
  HsSeen seen = { 0 };
  PolicyTrial trial = { .model = model };

  g_assert_true (hs_cause_model_add_check (model, "sure", 0, policy_trial_results (2), chances, NULL));
  g_assert_true (hs_cause_model_add_check (model, "idle", 0, policy_trial_results (2), same, NULL));
  g_assert_true (hs_cause_model_add_check (model, "dear", 4, policy_trial_results (2), chances, NULL));
  g_assert_cmpfloat_with_epsilon (mistakes (&trial, &seen, 1, FALSE), 0, HAIR);
  g_assert_cmpfloat_with_epsilon (mistakes (&trial, &seen, 2, FALSE), 15, HAIR);
  g_assert_cmpfloat_with_epsilon (mistakes (&trial, &seen, 4, FALSE), 4, HAIR);
}

/* With more pairs and checks than are solved it is still below the best, and without checks left half of the least of
 * two at least. */
static void
test_many (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (107);

  for (guint round = 0; round < 20; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 14, 8, round % 2 == 0);
      HsSeen seen = { .ruled_out = 0x3fe0 };
      guint open = 1u << round % 8;
      PolicyTrial trial;
      double value, least;

      if (!all_take_minutes (model))
        continue;
      policy_trial_init (&trial, model);
      least = sure_minutes (&trial, &seen) + mistakes (&trial, &seen, open, TRUE);
      for (guint k = 0; k < 8; k++)
        if (k != round % 8)
          trial.without |= 1u << k;
      value = policy_trial_value (&trial, &seen);
      g_assert_cmpfloat (least, <=, value * (1 + HAIR));
      g_assert_cmpfloat (mistakes (&trial, &seen, 0, TRUE), >, 0);
      policy_trial_clear (&trial);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-bound/below", test_below);
  g_test_add_func ("/next-bound/two-causes", test_two_causes);
  g_test_add_func ("/next-bound/no-checks", test_no_checks);
  g_test_add_func ("/next-bound/sure-and-idle", test_sure_and_idle);
  g_test_add_func ("/next-bound/many", test_many);
  return g_test_run ();
}
