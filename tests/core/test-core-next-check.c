// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which check or repair comes next: worked examples from print, and models tried out whole. */

#include "core-test.h"

#include "hs-core-error.h"
#include "policy-trial.h"

#define HAIR 1e-9
#define MANY 2000000

/* Chances of a check with two results under up to nine causes: of the first one. */
typedef struct
{
  const char *id;
  double minutes;
  double first[9];
} TwoWay;

typedef struct
{
  const char *what;
  guint n_causes;
  double weights[9];
  double repairs[9];
  guint n_checks;
  TwoWay checks[7];
  double best;
  double repairs_alone;
  double rule;
  gboolean first_is_check;
  guint first;
} Worked;

static const Worked worked[] = {
  { "two boxes, 4 to 1 and 3 and 2 minutes: 3 + 0.2 x 2; the other order costs 4.4 (worked by hand)",
    2, { 0.8, 0.2 }, { 3, 2 }, 0, { { NULL, 0, { 0 } } }, 3.4, 3.4, 3.4, FALSE, 0 },
  { "a check that tells for sure: 10 + 60, against 60 + 0.4 x 60 (worked by hand)",
    2, { 0.6, 0.4 }, { 60, 60 }, 1, { { "look", 10, { 0, 1 } } }, 70, 84, 70, TRUE, 0 },
  { "a check that tells nothing is left alone: 20 + 0.5 x 30 (worked by hand)",
    2, { 0.5, 0.5 }, { 20, 30 }, 1, { { "look", 1, { 0.5, 0.5 } } }, 35, 35, 35, FALSE, 0 },
  { "one cause: repaired, not looked for",
    1, { 1 }, { 25 }, 1, { { "look", 3, { 1 } } }, 25, 25, 25, FALSE, 0 },
  { "weights on any scale, three alike: 15 + 15 x 2/3 + 15 x 1/3 = 30, the lowest first",
    3, { 7, 7, 7 }, { 15, 15, 15 }, 0, { { NULL, 0, { 0 } } }, 30, 30, 30, FALSE, 0 },
  { "no minutes goes first whatever its weight: 0 + 0.9 x 10",
    2, { 0.9, 0.1 }, { 10, 0 }, 0, { { NULL, 0, { 0 } } }, 9, 9, 9, FALSE, 1 },
  { "six causes in threes behind one check: 2 + m(m + 3)/(2(m + 1)) = 3 for m = 1 (Vomlelova 2003, IJIS 18:274-275)",
    6, { 1, 1, 1, 1, 1, 1 }, { 1, 1, 1, 1, 1, 1 }, 1, { { "half", 1, { 1, 1, 1, 0, 0, 0 } } }, 3, 3.5, 3, TRUE, 0 },
  { "which box of four, by yes and no questions: 0.4, 0.3, 0.2, 0.1 need 1.9 of them (Huffman 1952); repairs 1000 each",
    4, { 0.4, 0.3, 0.2, 0.1 }, { 1000, 1000, 1000, 1000 }, 7,
    { { "a", 1, { 1, 0, 0, 0 } }, { "b", 1, { 0, 1, 0, 0 } }, { "c", 1, { 0, 0, 1, 0 } }, { "d", 1, { 0, 0, 0, 1 } },
      { "ab", 1, { 1, 1, 0, 0 } }, { "ac", 1, { 1, 0, 1, 0 } }, { "ad", 1, { 1, 0, 0, 1 } } },
    1001.9, 2000, -1, TRUE, 0 },
};

static HsCauseModel *
build (const Worked *row)
{
  static const char *const ids[] = { "c1", "c2", "c3", "c4", "c5", "c6", "c7", "c8", "c9" };
  g_autoptr (HsCauseModel) model = NULL;
  HsCause causes[9];

  for (guint i = 0; i < row->n_causes; i++)
    causes[i] = (HsCause) { ids[i], row->weights[i], row->repairs[i] };
  model = hs_cause_model_new (causes, row->n_causes, NULL);
  for (guint k = 0; k < row->n_checks; k++)
    {
      double chances[18];

      for (guint i = 0; i < row->n_causes; i++)
        {
          chances[2 * i] = row->checks[k].first[i];
          chances[2 * i + 1] = 1 - row->checks[k].first[i];
        }
      g_assert_true (hs_cause_model_add_check (model, row->checks[k].id, row->checks[k].minutes,
                                               policy_trial_results (2), chances, NULL));
    }
  return g_steal_pointer (&model);
}

static void
test_worked (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (worked); i++)
    {
      g_autoptr (HsCauseModel) model = build (&worked[i]);
      HsSeen seen = { 0 };
      HsNext next;

      g_test_message ("%s", worked[i].what);
      g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
      g_assert_true (next.exact);
      g_assert_cmpfloat_with_epsilon (next.steps[0].minutes, worked[i].best, HAIR);
      g_assert_cmpfloat_with_epsilon (next.repairs_minutes, worked[i].repairs_alone, HAIR);
      g_assert_cmpint (next.steps[0].is_check, ==, worked[i].first_is_check);
      g_assert_cmpuint (next.steps[0].index, ==, worked[i].first);
      g_assert_cmpuint (next.n_steps, ==, worked[i].n_causes + worked[i].n_checks);
      if (worked[i].rule >= 0)
        g_assert_cmpfloat_with_epsilon (hs_next_rule_minutes (model, &seen, MANY), worked[i].rule, HAIR);
    }
}

/* Every first step of random models of up to six causes and six checks, against trying everything. */
static void
test_trial (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);

  for (guint round = 0; round < 240; round++)
    {
      guint n_causes = g_rand_int_range (rand, 1, 7);
      guint n_checks = g_rand_int_range (rand, 0, round % 12 == 0 ? 7 : 5);
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, n_causes, n_checks, round % 2 == 0);
      HsSeen seen = { 0 };
      PolicyTrial trial;
      HsNext next;
      double last = 0;

      policy_trial_init (&trial, model);
      g_assert_true (hs_next_check (model, &seen, HS_NEXT_TO_THE_END, &next, NULL));
      g_assert_true (next.exact);
      g_assert_cmpuint (next.n_steps, ==, n_causes + n_checks);
      for (guint i = 0; i < next.n_steps; i++)
        {
          const HsNextStep *step = &next.steps[i];
          double tried = step->is_check ? policy_trial_check (&trial, &seen, step->index)
                                        : policy_trial_repair (&trial, &seen, step->index);

          g_assert_cmpfloat_with_epsilon (step->minutes, tried, HAIR * (1 + tried));
          g_assert_cmpfloat (step->minutes, >=, last - 2 * HAIR);
          last = step->minutes;
        }
      g_assert_cmpfloat (next.steps[0].minutes, <=, next.repairs_minutes + HAIR);
      g_assert_cmpfloat (hs_next_rule_minutes (model, &seen, MANY), >=, next.steps[0].minutes - HAIR);
      policy_trial_clear (&trial);
    }
}

/* As a visit goes: after each result the figures are those of the model that is left. */
static void
test_going (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (43);

  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 5, 4, FALSE);
      HsSeen seen = { 0 };
      PolicyTrial trial;
      HsNext next;

      policy_trial_init (&trial, model);
      for (guint step = 0; step < 6; step++)
        {
          double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];

          g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
          g_assert_cmpfloat_with_epsilon (next.steps[0].minutes, policy_trial_value (&trial, &seen), 1e-7);
          policy_trial_beliefs (&trial, &seen, beliefs);
          for (guint i = 0; i < 5; i++)
            g_assert_cmpfloat_with_epsilon (next.beliefs[i], beliefs[i], HAIR);
          if (next.n_left == 1)
            break;
          if (next.steps[0].is_check)
            seen.results[next.steps[0].index]
              = 1 + g_rand_int_range (rand, 0, hs_cause_model_get_n_results (model, next.steps[0].index));
          else
            seen.ruled_out |= 1u << next.steps[0].index;
        }
      policy_trial_clear (&trial);
    }
}

/* follow: walks @policy with the beliefs of the trial. Returns: the expected minutes of what it does. */
static double
follow (PolicyTrial *trial, const HsPolicy *policy, const HsSeen *seen)
{
  double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
  double all = policy_trial_beliefs (trial, seen, beliefs);
  double minutes = policy->step.is_check
                     ? hs_cause_model_get_check_minutes (trial->model, policy->step.index)
                     : hs_cause_model_get_cause (trial->model, policy->step.index)->repair_minutes;

  for (guint i = 0; i < policy->n_next; i++)
    {
      HsSeen next = *seen;
      double chance;

      if (policy->step.is_check)
        next.results[policy->step.index] = i + 1;
      else
        next.ruled_out |= 1u << policy->step.index;
      chance = policy_trial_beliefs (trial, &next, beliefs) / all;
      g_assert_cmpfloat_with_epsilon (policy->chances[i], chance, HAIR);
      g_assert_cmpint (policy->next[i] != NULL, ==, chance > 0);
      if (chance > 0)
        minutes += chance * follow (trial, policy->next[i], &next);
    }
  g_assert_cmpfloat_with_epsilon (policy->step.minutes, minutes, HAIR * (1 + minutes));
  return minutes;
}

/* The tree costs what it says, and no more than the best; of a model that is too large, what the rule costs. */
static void
test_policy (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 4, 3, round % 2 == 0);
      g_autoptr (HsCauseModel) large = policy_trial_model (rand, 8, 2, round % 2 == 0);
      g_autoptr (HsPolicy) best = NULL, rule = NULL;
      HsSeen seen = { .ruled_out = round % 3 == 0 ? 2 : 0 };
      PolicyTrial trial;

      policy_trial_init (&trial, model);
      best = hs_next_policy (model, &seen, HS_NEXT_STATES, 10000);
      g_assert_cmpfloat_with_epsilon (follow (&trial, best, &seen), policy_trial_value (&trial, &seen), 1e-7);
      g_assert_null (hs_next_policy (model, &seen, HS_NEXT_STATES, 1));
      policy_trial_clear (&trial);
      policy_trial_init (&trial, large);
      rule = hs_next_policy (large, &seen, 5, 10000);
      g_assert_cmpfloat_with_epsilon (follow (&trial, rule, &seen), hs_next_rule_minutes (large, &seen, MANY), 1e-7);
      policy_trial_clear (&trial);
    }
}

/* A model that is too large for the states given is answered by the rule, and says so. */
static void
test_rule_answers (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (47);
  g_autoptr (HsCauseModel) model = policy_trial_model (rand, 9, 8, FALSE);
  HsSeen seen = { 0 };
  HsNext exact, rule;

  g_assert_true (hs_next_check (model, &seen, 30, &rule, NULL));
  g_assert_false (rule.exact);
  g_assert_cmpuint (rule.n_states, <=, 30);
  g_assert_cmpuint (rule.n_steps, ==, 17);
  g_assert_true (hs_next_check (model, &seen, MANY, &exact, NULL));
  g_assert_true (exact.exact);
  g_assert_cmpuint (exact.n_states, >, 30);
  g_assert_cmpfloat (exact.steps[0].minutes, <=, rule.steps[0].minutes + HAIR);
  g_assert_cmpfloat (hs_next_rule_minutes (model, &seen, MANY), >=, exact.steps[0].minutes - HAIR);
  g_assert_cmpfloat (hs_next_rule_minutes (model, &seen, 3), <, 0);
}

/* Where the search would hardly come to its end it is not begun, so that nobody waits for nothing; a model of a few
 * causes and checks less is searched with as many states. */
static void
test_hopeless (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (53);
  g_autoptr (HsCauseModel) large = policy_trial_model (rand, 9, 9, FALSE);
  g_autoptr (HsCauseModel) small = policy_trial_model (rand, 7, 3, FALSE);
  HsSeen seen = { 0 };
  HsNext next;

  g_assert_true (hs_next_check (large, &seen, HS_NEXT_STATES, &next, NULL));
  g_assert_false (next.exact);
  g_assert_cmpuint (next.n_states, ==, 0);
  g_assert_true (hs_next_check (small, &seen, HS_NEXT_STATES, &next, NULL));
  g_assert_true (next.exact);
  g_assert_cmpuint (next.n_states, >, 0);
}

/* Rows that miss 1 by a hair, as thirds written down do, save no minutes: the check tells nothing and costs nothing. */
static void
test_missing_hair (void)
{
  static const HsCause causes[] = { { "a", 1, 100 }, { "b", 1, 100 } };
  static const double chances[] = { 0.4999995, 0.4999997, 0.4999995, 0.4999997 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 2, NULL);
  guint list[] = { 0 };
  HsSeen seen = { 0 };
  HsNext next;

  g_assert_true (hs_cause_model_add_check (model, "look", 0, policy_trial_results (2), chances, NULL));
  g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
  g_assert_false (next.steps[0].is_check);
  for (guint i = 0; i < next.n_steps; i++)
    g_assert_cmpfloat_with_epsilon (next.steps[i].minutes, 150, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, list, 1, MANY), 150, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_chance (model, &next, 0, 0) + hs_next_chance (model, &next, 0, 1), 1, HAIR);
}

/* Of checks that are worth the same, one that tells nothing any more stands last, and the tree begins as the list. */
static void
test_idle_last (void)
{
  static const Worked row = {
    "idle", 2, { 0.6, 0.4 }, { 60, 60 }, 2, { { "idle", 0, { 0.5, 0.5 } }, { "sure", 10, { 0, 1 } } }, 0, 0, 0, FALSE, 0
  };
  g_autoptr (HsCauseModel) model = build (&row);
  g_autoptr (HsPolicy) policy = NULL;
  HsSeen seen = { 0 };
  HsNext next;

  g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
  policy = hs_next_policy (model, &seen, HS_NEXT_STATES, 100);
  g_assert_cmpuint (next.n_steps, ==, 4);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (next.steps[i].is_check);
      g_assert_cmpuint (next.steps[i].index, ==, 1 - i);
      g_assert_cmpfloat_with_epsilon (next.steps[i].minutes, 70, HAIR);
    }
  g_assert_true (policy->step.is_check);
  g_assert_cmpuint (policy->step.index, ==, 1);
}

/* Minutes and chances that are often equal, none or all: the tree begins with what stands first, costs what the trial
 * says, and never does a check that tells nothing. */
static void
test_even_models (void)
{
  static const HsCause causes[] = { { "a", 1, 5 }, { "b", 1, 5 }, { "c", 2, 0 }, { "d", 1, 10 } };
  g_autoptr (GRand) rand = g_rand_new_with_seed (97);

  for (guint round = 0; round < 300; round++)
    {
      g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 4, NULL);
      g_autoptr (HsPolicy) policy = NULL;
      HsSeen seen = { .ruled_out = round % 5 == 0 ? 4 : 0 };
      PolicyTrial trial;
      HsNext next;

      for (guint k = 0; k < 4; k++)
        {
          const char *id = (const char *[]){ "w", "x", "y", "z" }[k];
          double chances[8];

          for (guint i = 0; i < 4; i++)
            {
              chances[2 * i] = k % 2 == 0 ? g_rand_int_range (rand, 0, 2) : 0.5;
              chances[2 * i + 1] = 1 - chances[2 * i];
            }
          hs_cause_model_add_check (model, id, g_rand_int_range (rand, 0, 2), policy_trial_results (2), chances, NULL);
        }
      policy_trial_init (&trial, model);
      g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
      policy = hs_next_policy (model, &seen, HS_NEXT_STATES, 10000);
      g_assert_cmpint (policy->step.is_check, ==, next.steps[0].is_check);
      g_assert_cmpuint (policy->step.index, ==, next.steps[0].index);
      g_assert_false (next.steps[0].is_check && next.steps[0].index % 2 == 1);
      g_assert_cmpfloat_with_epsilon (follow (&trial, policy, &seen), policy_trial_value (&trial, &seen), HAIR);
      policy_trial_clear (&trial);
    }
}

/* Two checks, the good one second: doing the list in its order costs the first for nothing. */
static void
test_list (void)
{
  static const Worked row = {
    "list", 2, { 0.5, 0.5 }, { 60, 60 }, 2, { { "idle", 4, { 0.5, 0.5 } }, { "sure", 10, { 1, 0 } } }, 0, 0, 0, FALSE, 0
  };
  g_autoptr (HsCauseModel) model = build (&row);
  guint both[] = { 0, 1 };
  HsSeen seen = { 0 };

  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, both, 2, MANY), 74, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, both + 1, 1, MANY), 70, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, both, 1, MANY), 94, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, both, 0, MANY), 90, HAIR);
  seen.results[0] = 1;
  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, both, 2, MANY), 70, HAIR);
  seen.results[1] = 2;
  g_assert_cmpfloat_with_epsilon (hs_next_list_minutes (model, &seen, both, 2, MANY), 60, HAIR);
}

/* A list that branches further than it may is not added up: 1 + 2 + 4 states here. */
static void
test_list_budget (void)
{
  static const Worked row = {
    "noisy", 2, { 0.5, 0.5 }, { 60, 60 }, 2, { { "a", 4, { 0.6, 0.4 } }, { "b", 5, { 0.7, 0.2 } } }, 0, 0, 0, FALSE, 0
  };
  g_autoptr (HsCauseModel) model = build (&row);
  guint both[] = { 0, 1 };
  HsSeen seen = { 0 };

  g_assert_cmpfloat (hs_next_list_minutes (model, &seen, both, 2, 7), <, 0);
  g_assert_cmpfloat (hs_next_list_minutes (model, &seen, both, 2, 8), >, 9);
}

/* Asking at every step costs what the best costs where each answer is exact; where it is not, the answer is followed
 * until it is: never less than the best, and with no search at all just what the rule costs. */
static void
test_asked (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (59);

  for (guint round = 0; round < 30; round++)
    {
      g_autoptr (HsCauseModel) small = policy_trial_model (rand, 5, 3, round % 2 == 0);
      g_autoptr (HsCauseModel) large = policy_trial_model (rand, 8, 3, round % 2 == 0);
      HsSeen seen = { .ruled_out = round % 3 };
      PolicyTrial trial;
      double best, asked;

      policy_trial_init (&trial, small);
      best = policy_trial_value (&trial, &seen);
      g_assert_cmpfloat_with_epsilon (hs_next_minutes (small, &seen, HS_NEXT_TO_THE_END, 1000), best, 1e-7);
      policy_trial_clear (&trial);
      policy_trial_init (&trial, large);
      best = policy_trial_value (&trial, &seen);
      asked = hs_next_minutes (large, &seen, 60, MANY);
      g_assert_cmpfloat (asked, >=, best - 1e-7);
      g_assert_cmpfloat_with_epsilon (hs_next_minutes (large, &seen, MANY, MANY), best, 1e-7);
      g_assert_cmpfloat (hs_next_minutes (large, &seen, 1, 1), <, 0);
      policy_trial_clear (&trial);
    }
}

/* How likely a result is from what is believed, against the sums of the trial. */
static void
test_chance (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (83);

  for (guint round = 0; round < 30; round++)
    {
      g_autoptr (HsCauseModel) model = policy_trial_model (rand, 6, 3, round % 2 == 0);
      PolicyTrial trial = { .model = model };
      double beliefs[HS_CAUSE_MODEL_MAX_CAUSES];
      HsSeen seen = { .ruled_out = 1u << round % 6 };
      double all = policy_trial_beliefs (&trial, &seen, beliefs);
      HsNext next;

      g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
      for (guint result = 0; result < hs_cause_model_get_n_results (model, 1); result++)
        {
          HsSeen after = seen;

          after.results[1] = result + 1;
          g_assert_cmpfloat_with_epsilon (hs_next_chance (model, &next, 1, result),
                                          policy_trial_beliefs (&trial, &after, beliefs) / all, HAIR);
        }
    }
}

static void
test_nothing_fits (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCauseModel) model = build (&worked[1]);
  HsSeen seen = { .ruled_out = 1, .results = { 2 } };
  HsNext next = { .n_steps = 77 };

  g_assert_false (hs_next_check (model, &seen, HS_NEXT_STATES, &next, &error));
  g_assert_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE);
  g_assert_cmpuint (next.n_steps, ==, 77);
  g_assert_cmpfloat (hs_next_rule_minutes (model, &seen, MANY), <, 0);
  g_assert_cmpfloat (hs_next_list_minutes (model, &seen, NULL, 0, MANY), <, 0);
  g_assert_cmpfloat (hs_next_minutes (model, &seen, MANY, MANY), <, 0);
  g_assert_null (hs_next_policy (model, &seen, HS_NEXT_STATES, 100));
}

/* What is believed is the weights while nothing is seen, and the rest of them once a cause is ruled out. */
static void
test_beliefs (void)
{
  static const HsCause causes[] = { { "a", 2, 10 }, { "b", 6, 10 }, { "c", 12, 10 } };
  static const struct
  {
    guint32 ruled_out;
    double beliefs[3];
    guint n_left;
    guint order[3];
  } rows[] = {
    { 0, { 0.1, 0.3, 0.6 }, 3, { 2, 1, 0 } },
    { 4, { 0.25, 0.75, 0 }, 2, { 1, 0 } },
    { 5, { 0, 1, 0 }, 1, { 1 } },
  };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 3, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsSeen seen = { .ruled_out = rows[i].ruled_out };
      HsNext next;

      g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
      g_assert_cmpuint (next.n_left, ==, rows[i].n_left);
      for (guint j = 0; j < 3; j++)
        g_assert_cmpfloat_with_epsilon (next.beliefs[j], rows[i].beliefs[j], HAIR);
      for (guint j = 0; j < rows[i].n_left; j++)
        g_assert_cmpuint (next.repairs_order[j], ==, rows[i].order[j]);
    }
}

/* Sixty-four results, each all but impossible, must not fade to nothing. */
static void
test_long_visit (void)
{
  static const HsCause causes[] = { { "a", 1, 10 }, { "b", 1, 10 } };
  static const double chances[] = { 1e-6, 1 - 1e-6, 2e-6, 1 - 2e-6 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (causes, 2, NULL);
  HsSeen seen = { 0 };
  HsNext next;

  for (guint i = 0; i < HS_CAUSE_MODEL_MAX_CHECKS; i++)
    {
      g_autofree char *id = g_strdup_printf ("k%u", i);

      g_assert_true (hs_cause_model_add_check (model, id, 1, policy_trial_results (2), chances, NULL));
      seen.results[i] = 1;
    }
  g_assert_true (hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL));
  g_assert_cmpfloat_with_epsilon (next.beliefs[1], 1, 1e-12);
  g_assert_cmpuint (next.n_left, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-check/worked", test_worked);
  g_test_add_func ("/next-check/trial", test_trial);
  g_test_add_func ("/next-check/going", test_going);
  g_test_add_func ("/next-check/beliefs", test_beliefs);
  g_test_add_func ("/next-check/policy", test_policy);
  g_test_add_func ("/next-check/rule-answers", test_rule_answers);
  g_test_add_func ("/next-check/hopeless", test_hopeless);
  g_test_add_func ("/next-check/missing-hair", test_missing_hair);
  g_test_add_func ("/next-check/idle-last", test_idle_last);
  g_test_add_func ("/next-check/even-models", test_even_models);
  g_test_add_func ("/next-check/list", test_list);
  g_test_add_func ("/next-check/list-budget", test_list_budget);
  g_test_add_func ("/next-check/asked", test_asked);
  g_test_add_func ("/next-check/chance", test_chance);
  g_test_add_func ("/next-check/nothing-fits", test_nothing_fits);
  g_test_add_func ("/next-check/long-visit", test_long_visit);
  return g_test_run ();
}
