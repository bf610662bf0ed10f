// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is believed, repairs alone in their best order, and the refined one-step rule: worked by hand from the rules. */

#include "core-test.h"

#include "hs-belief.h"

#include <math.h>

#define HAIR 1e-12

static const char *const two_results[] = { "yes", "no", NULL };

/* Up to five causes, and up to three checks with the chance of their first result. */
typedef struct
{
  guint n_causes;
  double weights[5];
  double repairs[5];
  guint n_checks;
  double minutes[3];
  double first[3][5];
} Row;

static HsCauseModel *
build (const Row *row)
{
  static const char *const causes[] = { "a", "b", "c", "d", "e" };
  static const char *const checks[] = { "x", "y", "z" };
  HsCauseModel *model;
  HsCause list[5];

  for (guint i = 0; i < row->n_causes; i++)
    list[i] = (HsCause) { causes[i], row->weights[i], row->repairs[i] };
  model = hs_cause_model_new (list, row->n_causes, NULL);
  for (guint k = 0; k < row->n_checks; k++)
    {
      double chances[10];

      for (guint i = 0; i < row->n_causes; i++)
        {
          chances[2 * i] = row->first[k][i];
          chances[2 * i + 1] = 1 - row->first[k][i];
        }
      g_assert_true (hs_cause_model_add_check (model, checks[k], row->minutes[k], two_results, chances, NULL));
    }
  return model;
}

static HsBelief
begin (const HsCauseModel *model)
{
  HsBelief belief = { 0 };
  HsSeen seen = { 0 };

  g_assert_true (hs_belief_begin (model, &seen, &belief));
  return belief;
}

/* Descending weight over minutes, no minutes first, equal ones by the lower index; the cost is the sum over repairs of
 * minutes times what is left (Heckerman, Breese and Rommelse 1995, page 53). */
static void
test_order (void)
{
  static const struct
  {
    const char *what;
    Row model;
    guint order[5];
    double cost;
  } rows[] = {
    { "by ratio: 0.5/10, 0.3/3, 0.2/1", { 3, { 5, 3, 2 }, { 10, 3, 1 }, 0, { 0 }, { { 0 } } },
      { 2, 1, 0 }, 1 + 0.8 * 3 + 0.5 * 10 },
    { "all ratios equal, in tenths that binary numbers don't have",
      { 4, { 0.1, 0.2, 0.3, 0.4 }, { 7, 14, 21, 28 }, 0, { 0 }, { { 0 } } },
      { 0, 1, 2, 3 }, 7 + 0.9 * 14 + 0.7 * 21 + 0.4 * 28 },
    { "all ratios equal, thirds", { 3, { 1 / 3.0, 1 / 7.0, 1 / 9.0 }, { 63, 27, 21 }, 0, { 0 }, { { 0 } } },
      { 0, 1, 2 }, 63 + (16.0 / 37) * 27 + (7.0 / 37) * 21 },
    { "one of no minutes first, however rare", { 3, { 90, 9, 1 }, { 1, 1, 0 }, 0, { 0 }, { { 0 } } },
      { 2, 0, 1 }, 0 + 0.99 + 0.09 },
    { "two of no minutes: the lower index", { 3, { 1, 2, 7 }, { 0, 0, 5 }, 0, { 0 }, { { 0 } } },
      { 0, 1, 2 }, 0.7 * 5 },
    { "one alone", { 1, { 0.004 }, { 12 }, 0, { 0 }, { { 0 } } }, { 0 }, 12 },
    { "five alike", { 5, { 1, 1, 1, 1, 1 }, { 10, 10, 10, 10, 10 }, 0, { 0 }, { { 0 } } }, { 0, 1, 2, 3, 4 }, 30 },
    { "weights as counts", { 2, { 4000000, 1000000 }, { 3, 2 }, 0, { 0 }, { { 0 } } }, { 0, 1 }, 3.4 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsCauseModel) model = build (&rows[i].model);
      HsBelief belief = begin (model);
      guint order[HS_CAUSE_MODEL_MAX_CAUSES];

      g_test_message ("%s", rows[i].what);
      g_assert_cmpuint (hs_belief_repairs_in_order (model, &belief, order), ==, rows[i].model.n_causes);
      for (guint j = 0; j < rows[i].model.n_causes; j++)
        g_assert_cmpuint (order[j], ==, rows[i].order[j]);
      g_assert_cmpfloat_with_epsilon (hs_belief_repairs_cost (model, &belief), rows[i].cost, 1e-9);
    }
}

static const Row three = { 3, { 5, 3, 2 }, { 30, 20, 10 }, 2, { 4, 1 }, { { 0.9, 0.1, 0.5 }, { 1, 0, 0 } } };

/* Belief is prior times chances over what is left; the order in which things were seen means nothing. */
static void
test_begin (void)
{
  static const struct
  {
    guint32 ruled_out;
    guint8 results[2];
    double w[3];
    guint64 done;
  } rows[] = {
    { 0, { 0, 0 }, { 0.5, 0.3, 0.2 }, 0 },
    { 1, { 0, 0 }, { 0, 0.6, 0.4 }, 0 },
    { 6, { 0, 0 }, { 1, 0, 0 }, 0 },
    { 0, { 1, 0 }, { 0.45 / 0.58, 0.03 / 0.58, 0.1 / 0.58 }, 1 },
    { 0, { 2, 0 }, { 0.05 / 0.42, 0.27 / 0.42, 0.1 / 0.42 }, 1 },
    { 0, { 0, 1 }, { 1, 0, 0 }, 2 },
    { 0, { 2, 2 }, { 0, 0.27 / 0.37, 0.1 / 0.37 }, 3 },
    { 2, { 1, 2 }, { 0, 0, 1 }, 3 },
  };
  g_autoptr (HsCauseModel) model = build (&three);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsSeen seen = { .ruled_out = rows[i].ruled_out, .results = { rows[i].results[0], rows[i].results[1] } };
      HsBelief belief = { 0 };

      g_assert_true (hs_belief_begin (model, &seen, &belief));
      for (guint j = 0; j < 3; j++)
        g_assert_cmpfloat_with_epsilon (belief.w[j], rows[i].w[j], HAIR);
      g_assert_cmpfloat_with_epsilon (belief.sum, 1, HAIR);
      g_assert_cmpuint (belief.done, ==, rows[i].done);
      g_assert_cmpint (hs_belief_is_done (&belief, 0), ==, rows[i].results[0] != 0);
      g_assert_cmpint (hs_belief_is_done (&belief, 1), ==, rows[i].results[1] != 0);
    }
}

/* What no cause can give is told, and the belief that was there stays. */
static void
test_nothing_left (void)
{
  static const struct
  {
    guint32 ruled_out;
    guint8 results[2];
  } rows[] = { { 7, { 0, 0 } }, { 1, { 0, 1 } }, { 6, { 0, 2 } }, { 0xffffffff, { 1, 0 } } };
  g_autoptr (HsCauseModel) model = build (&three);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsSeen seen = { .ruled_out = rows[i].ruled_out, .results = { rows[i].results[0], rows[i].results[1] } };
      HsBelief belief = { .n_causes = 77 };

      g_assert_false (hs_belief_begin (model, &seen, &belief));
      g_assert_cmpuint (belief.n_causes, ==, 77);
    }
}

/* Unscaled: what is left after a result is its chance, and after a repair in vain what that cause had is gone. */
static void
test_steps (void)
{
  g_autoptr (HsCauseModel) model = build (&three);
  HsBelief belief = begin (model);
  HsBelief yes = hs_belief_after (model, &belief, 0, 0);
  HsBelief no = hs_belief_after (model, &belief, 0, 1);
  HsBelief failed = hs_belief_without (&belief, 0);

  g_assert_cmpfloat_with_epsilon (yes.sum, 0.58, HAIR);
  g_assert_cmpfloat_with_epsilon (no.sum, 0.42, HAIR);
  g_assert_cmpfloat_with_epsilon (failed.sum, 0.5, HAIR);
  g_assert_cmpfloat (failed.w[0], ==, 0);
  g_assert_true (hs_belief_is_done (&yes, 0));
  g_assert_false (hs_belief_is_done (&failed, 0));
}

/* The figures that the rule goes by: a check now, or a repair now, and repairs alone after it. Repairs by ratio:
 * 0.5/30 = 1/60, 0.3/20 = 3/200, 0.2/10 = 1/50, so c, a, b: 10 + 0.8 x 30 + 0.3 x 20 = 40. */
static void
test_figures (void)
{
  g_autoptr (HsCauseModel) model = build (&three);
  HsBelief belief = begin (model);

  g_assert_cmpfloat_with_epsilon (hs_belief_repairs_cost (model, &belief), 40, HAIR);
  /* Tells a from the rest: 1 + 0.5 x 30, and of b and c the second first: 0.5 x 10 + 0.3 x 20. */
  g_assert_cmpfloat_with_epsilon (hs_belief_ask_now (model, &belief, 1), 1 + 15 + 5 + 6, HAIR);
  /* Yes leaves 0.45, 0.03, 0.1: a (0.015), c (0.01), b: 0.58 x 30 + 0.13 x 10 + 0.03 x 20 = 19.3.
   * No leaves 0.05, 0.27, 0.1: b (0.0135), c (0.01), a: 0.42 x 20 + 0.15 x 10 + 0.05 x 30 = 11.4. */
  g_assert_cmpfloat_with_epsilon (hs_belief_ask_now (model, &belief, 0), 4 + 19.3 + 11.4, HAIR);
  /* Then b before c or after it: by ratio c first: 0.5 x 10 + 0.3 x 20. */
  g_assert_cmpfloat_with_epsilon (hs_belief_repair_now (model, &belief, 0), 30 + 5 + 6, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_belief_repair_now (model, &belief, 1), 20 + 7 + 15, HAIR);
  g_assert_cmpfloat_with_epsilon (hs_belief_repair_now (model, &belief, 2), 40, HAIR);
}

/* A check must be strictly better than repairs alone, and no worse than asking it after the first repair has failed
 * (Jensen and others 2001); of several the least, of equal ones the lower index. */
static void
test_rule (void)
{
  static const struct
  {
    const char *what;
    Row model;
    gboolean is_check;
    guint index;
    double minutes;
  } rows[] = {
    { "tells for sure: 10 + 60 < 60 + 0.4 x 60", { 2, { 6, 4 }, { 60, 60 }, 1, { 10 }, { { 1, 0 } } }, TRUE, 0, 70 },
    { "as good as repairs: not strictly better", { 2, { 6, 4 }, { 60, 60 }, 1, { 24 }, { { 1, 0 } } }, FALSE, 0, 84 },
    { "tells nothing, for nothing", { 2, { 6, 4 }, { 60, 60 }, 1, { 0 }, { { 0.5, 0.5 } } }, FALSE, 0, 84 },
    { "two that tell the same: the lower index",
      { 2, { 6, 4 }, { 60, 60 }, 2, { 10, 10 }, { { 1, 0 }, { 0, 1 } } }, TRUE, 0, 70 },
    { "of two the cheaper", { 2, { 6, 4 }, { 60, 60 }, 2, { 10, 9 }, { { 1, 0 }, { 0, 1 } } }, TRUE, 1, 69 },
    { "61 when asked now, 64 without, but 10 + 0.6 x (15 + 60) = 55 when asked after the cheap repair failed",
      { 3, { 4, 3, 3 }, { 10, 60, 60 }, 1, { 15 }, { { 0.5, 1, 0 } } }, FALSE, 0, 10 + 0.6 * 60 + 0.3 * 60 },
    { "one cause left has no question", { 1, { 1 }, { 25 }, 1, { 0 }, { { 1 } } }, FALSE, 0, 25 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsCauseModel) model = build (&rows[i].model);
      HsBelief belief = begin (model);
      HsNextStep step = hs_belief_rule_step (model, &belief);

      g_test_message ("%s", rows[i].what);
      g_assert_cmpint (step.is_check, ==, rows[i].is_check);
      g_assert_cmpuint (step.index, ==, rows[i].index);
      g_assert_cmpfloat_with_epsilon (step.minutes, rows[i].minutes, 1e-9);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/belief/order", test_order);
  g_test_add_func ("/belief/begin", test_begin);
  g_test_add_func ("/belief/nothing-left", test_nothing_left);
  g_test_add_func ("/belief/steps", test_steps);
  g_test_add_func ("/belief/figures", test_figures);
  g_test_add_func ("/belief/rule", test_rule);
  return g_test_run ();
}
