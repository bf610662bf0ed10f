// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A model of causes and checks: what is kept, and what is refused by name. */

#include "core-test.h"

#include "hs-cause-model.h"

#include <math.h>

static const HsCause two[] = { { "flat battery", 3, 20 }, { "loose clamp", 1, 5 } };

static const char *const yes_no[] = { "yes", "no", NULL };

#define SIXTEEN { "a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n", "o", "p", NULL }

static void
test_kept (void)
{
  static const double chances[] = { 0.9, 0.1, 0, 0.25, 0.25, 0.5 };
  static const char *const volts[] = { "low", "middling", "full", NULL };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (two, 2, NULL);

  g_assert_true (hs_cause_model_add_check (model, "rest volts", 2, volts, chances, NULL));
  g_assert_cmpuint (hs_cause_model_get_n_causes (model), ==, 2);
  g_assert_cmpstr (hs_cause_model_get_cause (model, 1)->id, ==, "loose clamp");
  g_assert_cmpfloat (hs_cause_model_get_cause (model, 0)->weight, ==, 3);
  g_assert_cmpfloat (hs_cause_model_get_cause (model, 1)->repair_minutes, ==, 5);
  g_assert_cmpuint (hs_cause_model_get_n_checks (model), ==, 1);
  g_assert_cmpstr (hs_cause_model_get_check_id (model, 0), ==, "rest volts");
  g_assert_cmpfloat (hs_cause_model_get_check_minutes (model, 0), ==, 2);
  g_assert_cmpuint (hs_cause_model_get_n_results (model, 0), ==, 3);
  g_assert_cmpstr (hs_cause_model_get_result (model, 0, 2), ==, "full");
  g_assert_cmpmem (hs_cause_model_get_chances (model, 0), sizeof chances, chances, sizeof chances);
}

static void
test_causes_refused (void)
{
  static const struct
  {
    HsCause causes[2];
    const char *names;
  } rows[] = {
    { { { "a", 1, 1 }, { "a", 1, 1 } }, "causes[1].id: “a” is there twice" },
    { { { "a", 1, 1 }, { "", 1, 1 } }, "causes[1].id" },
    { { { NULL, 1, 1 }, { "b", 1, 1 } }, "causes[0].id" },
    { { { "a", 0, 1 }, { "b", 1, 1 } }, "causes[0].prior" },
    { { { "a", 1, 1 }, { "b", -0.1, 1 } }, "causes[1].prior" },
    { { { "a", 1, 1 }, { "b", NAN, 1 } }, "causes[1].prior" },
    { { { "a", 1, 1 }, { "b", INFINITY, 1 } }, "causes[1].prior" },
    { { { "a", 1, -1 }, { "b", 1, 1 } }, "repairs.a" },
    { { { "a", 1, 1 }, { "b", 1, NAN } }, "repairs.b" },
    { { { "a", 1, 1 }, { "b", 1, 527041 } }, "repairs.b" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_cause_model_new (rows[i].causes, 2, &error) != NULL, &error, rows[i].names);
    }
}

static void
test_counts_refused (void)
{
  HsCause many[HS_CAUSE_MODEL_MAX_CAUSES + 1];
  g_auto (GStrv) ids = g_new0 (char *, G_N_ELEMENTS (many) + 1);
  g_autoptr (HsCauseModel) most = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (many); i++)
    {
      ids[i] = g_strdup_printf ("c%u", i);
      many[i] = (HsCause) { ids[i], 1, 1 };
    }
  assert_bad_value (hs_cause_model_new (many, 0, &error) != NULL, &error, "causes: ");
  assert_bad_value (hs_cause_model_new (many, G_N_ELEMENTS (many), &error) != NULL, &error, "not 33");
  most = hs_cause_model_new (many, HS_CAUSE_MODEL_MAX_CAUSES, NULL);
  g_assert_nonnull (most);
}

static void
test_checks_refused (void)
{
  static const struct
  {
    const char *id;
    double minutes;
    const char *results[17];
    double chances[4];
    const char *names;
  } rows[] = {
    { "", 1, { "yes", "no" }, { 1, 0, 0, 1 }, "checks[1].id" },
    { NULL, 1, { "yes", "no" }, { 1, 0, 0, 1 }, "checks[1].id" },
    { "look", 1, { "yes", "no" }, { 1, 0, 0, 1 }, "checks[1].id: “look” is there twice" },
    { "smell", -1, { "yes", "no" }, { 1, 0, 0, 1 }, "checks[1].minutes" },
    { "smell", NAN, { "yes", "no" }, { 1, 0, 0, 1 }, "checks[1].minutes" },
    { "smell", 1, { "yes" }, { 1, 1, 0, 0 }, "checks[1].results" },
    { "smell", 1, { "yes", "yes" }, { 1, 0, 0, 1 }, "checks[1].results[1]: “yes” is there twice" },
    { "smell", 1, SIXTEEN, { 1, 0, 0, 1 }, "checks[1].results" },
    { "smell", 1, { "yes", "no" }, { 1.5, -0.5, 0, 1 }, "checks[1].p.flat battery[0]" },
    { "smell", 1, { "yes", "no" }, { 1, 0, NAN, 1 }, "checks[1].p.loose clamp[0]" },
    { "smell", 1, { "yes", "no" }, { 1, 0, 0.5, 0.4 }, "checks[1].p.loose clamp: " },
    { "smell", 1, { "yes", "no" }, { 0.5, 0.500002, 0, 1 }, "checks[1].p.flat battery: " },
  };
  static const double fine[] = { 1, 0, 0.3333333, 0.6666666 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (two, 2, NULL);

  g_assert_true (hs_cause_model_add_check (model, "look", 1, yes_no, fine, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_cause_model_add_check (model, rows[i].id, rows[i].minutes, rows[i].results, rows[i].chances,
                                                &error),
                        &error, rows[i].names);
      g_assert_cmpuint (hs_cause_model_get_n_checks (model), ==, 1);
    }
}

static void
test_too_many_checks (void)
{
  static const double fine[] = { 1, 0, 0, 1 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (two, 2, NULL);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < HS_CAUSE_MODEL_MAX_CHECKS; i++)
    {
      g_autofree char *id = g_strdup_printf ("k%u", i);

      g_assert_true (hs_cause_model_add_check (model, id, 1, yes_no, fine, NULL));
    }
  assert_bad_value (hs_cause_model_add_check (model, "one more", 1, yes_no, fine, &error), &error, "at most 64");
}

/* A row that misses 1 by a hair is kept divided by its sum: 0.3333333 + 0.6666666 is 0.9999999. */
static void
test_level (void)
{
  static const double chances[] = { 0.25, 0.75, 0.3333333, 0.6666666 };
  static const double level[] = { 0.25, 0.75, 0.33333333333333333, 0.66666666666666667 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (two, 2, NULL);

  g_assert_true (hs_cause_model_add_check (model, "look", 7, yes_no, chances, NULL));
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (hs_cause_model_get_chances (model, 0)[i], level[i], 1e-15);
}

/* Other weights, and all else as it was; the first model stays. */
static void
test_reweigh (void)
{
  static const double chances[] = { 0.9, 0.1, 0.25, 0.75 };
  static const double counts[] = { 2, 11 };
  static const double none[] = { 0, 11 };
  g_autoptr (HsCauseModel) model = hs_cause_model_new (two, 2, NULL);
  g_autoptr (HsCauseModel) copy = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_cause_model_add_check (model, "look", 7, yes_no, chances, NULL));
  copy = hs_cause_model_reweigh (model, counts, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat (hs_cause_model_get_cause (copy, 0)->weight, ==, 2);
  g_assert_cmpfloat (hs_cause_model_get_cause (copy, 1)->weight, ==, 11);
  g_assert_cmpfloat (hs_cause_model_get_cause (model, 1)->weight, ==, 1);
  g_assert_cmpstr (hs_cause_model_get_cause (copy, 1)->id, ==, "loose clamp");
  g_assert_cmpfloat (hs_cause_model_get_cause (copy, 0)->repair_minutes, ==, 20);
  g_assert_cmpuint (hs_cause_model_get_n_checks (copy), ==, 1);
  g_assert_cmpfloat (hs_cause_model_get_check_minutes (copy, 0), ==, 7);
  g_assert_cmpstr (hs_cause_model_get_result (copy, 0, 1), ==, "no");
  g_assert_cmpmem (hs_cause_model_get_chances (copy, 0), sizeof chances, chances, sizeof chances);
  assert_bad_value (hs_cause_model_reweigh (model, none, &error) != NULL, &error, "causes[0].prior");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cause-model/kept", test_kept);
  g_test_add_func ("/cause-model/causes-refused", test_causes_refused);
  g_test_add_func ("/cause-model/counts-refused", test_counts_refused);
  g_test_add_func ("/cause-model/checks-refused", test_checks_refused);
  g_test_add_func ("/cause-model/too-many-checks", test_too_many_checks);
  g_test_add_func ("/cause-model/level", test_level);
  g_test_add_func ("/cause-model/reweigh", test_reweigh);
  return g_test_run ();
}
