// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The proof of each cause that is shipped: keyed alone into a job, before anything else is known, the reading that the
 * model calls its proof puts the cause first or second. Why one has no such reading stands in the model. */

#include "hs-cause-guide.h"
#include "hs-job-op.h"
#include "ops-next.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

/* What a meter shows then; answers are found by their digit. */
static const struct
{
  const char *check;
  const char *result;
  const char *read;
} readings[] = {
  { "battery_rest", "flat", "11.20" },
  { "battery_strength", "weak", "210" },
  { "battery_case_drain", "there", "0.90" },
  { "charging", "low", "12.40" },
  { "compression", "uneven or low", "60 of 150" },
  { "cooling_pressure_lost", "falls", "0.6" },
  { "drop_charging_feed", "large", "1.90" },
  { "drop_charging_ground", "large", "1.20" },
  { "drop_feed", "large", "2.10" },
  { "drop_ground", "large", "2.10" },
  { "drop_joint", "large", "1.80" },
  { "fuel_pressure", "low", "0.0" },
  { "fuel_water", "there", "20" },
  { "pad_left", "worn", "0.8" },
  { "relay_drop", "large", "1.60" },
  { "relay_feed", "no volts", "0.00" },
  { "relay_feed", "low or none", "0.00" },
  { "ripple", "large", "0.90" },
  { "rotor_runout", "runs out", "0.40" },
  { "sleeping_draw", "large", "0.900" },
  { "starter_draw", "high", "900" },
};

static void
read_proof (OpsNext *site, const char *check, const char *keyed)
{
  HsReadingEntry entry = { .check = check, .text = keyed, .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (GError) error = NULL;

  /* What the window asks for where a limit needs it. */
  entry.conditions = "battery_kind:flooded; fuel:gas; cylinders:4; waited:90; rated_cca:600";
  result = hs_reading_add (site->book, site->job_id, &entry, NOW, &error);
  g_assert_no_error (error);
}

static guint
check_of (const HsCauseModel *model, const char *id)
{
  for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
    if (g_str_equal (hs_cause_model_get_check_id (model, k), id))
      return k;
  g_assert_not_reached ();
}

/* (transfer full): what is keyed for the proof of a cause. */
static char *
dup_reading (const HsCauseGuide *guide, const HsCheck *known, const HsGuideCause *cause)
{
  const HsCauseModel *model = hs_cause_guide_get_model (guide);
  guint check = check_of (model, cause->proof_check);

  for (gsize i = 0; i < G_N_ELEMENTS (readings); i++)
    if (g_str_equal (readings[i].check, cause->proof_check) && g_str_equal (readings[i].result, cause->proof_result))
      return g_strdup (readings[i].read);
  g_assert_nonnull (known->answers);
  for (int digit = 1; known->answers[digit - 1] != NULL; digit++)
    {
      HsReading reading = { HS_READING_VALUE, digit, 0, 0 };
      guint result = hs_cause_guide_find_result (guide, check, known, &reading, HS_VERDICT_OUTSIDE);

      if (result != 0 && g_str_equal (hs_cause_model_get_result (model, check, result - 1), cause->proof_result))
        return g_strdup_printf ("%d", digit);
    }
  g_assert_not_reached ();
}

static guint
rank_of (const HsJobNext *next, const char *id)
{
  for (guint i = 0; i < next->causes->len; i++)
    if (g_str_equal (((const HsNextCause *) g_ptr_array_index (next->causes, i))->id, id))
      return i + 1;
  g_assert_not_reached ();
}

/* The first answer of the check that chooses between models for which this one is. */
static void
turn_key (OpsNext *site, const HsCauseGuide *guide)
{
  for (guint answer = 1; answer < 10; answer++)
    if (hs_cause_guide_is_for (guide, answer))
      {
        g_autofree char *digit = g_strdup_printf ("%u", answer);

        ops_next_read (site, hs_cause_guide_get_when (guide), digit, "before");
        return;
      }
}

static void
prove (OpsNext *site, const HsCauseGuide *guide, guint nth)
{
  const HsGuideCause *cause = hs_cause_guide_get_cause (guide, nth);
  const char *id = hs_cause_model_get_cause (hs_cause_guide_get_model (guide), nth)->id;
  const HsCheck *known = hs_checks_lookup (hs_book_get_checks (site->book), cause->proof_check);
  g_autofree char *keyed = dup_reading (guide, known, cause);
  g_autoptr (HsJobNext) next = NULL;

  if (cause->proof_not_alone != NULL)
    turn_key (site, guide);
  read_proof (site, cause->proof_check, keyed);
  next = ops_next_ask (site);
  g_test_message ("%s/%s by %s %s: %u", hs_cause_guide_get_id (guide), id, cause->proof_check, keyed,
                  rank_of (next, id));
  g_assert_null (next->nothing);
  g_assert_cmpuint (rank_of (next, id), <=, 2);
  g_assert_cmpuint (g_strv_length (ops_next_cause (next, id)->speaks_for), >=, 1);
  g_assert_nonnull (ops_next_cause (next, id)->reading_id);
}

/* Every cause has one, or a sentence that says why not. */
static void
test_proofs (void)
{
  g_autoptr (GPtrArray) guides = hs_cause_guides_load (NULL);
  g_auto (OpsNext) site = ops_next_start ("{\"models\": []}", NULL);
  guint n_none = 0;
  guint n_not_alone = 0;

  for (guint i = 0; i < guides->len; i++)
    {
      const HsCauseGuide *guide = g_ptr_array_index (guides, i);

      for (guint c = 0; c < hs_cause_model_get_n_causes (hs_cause_guide_get_model (guide)); c++)
        {
          const HsGuideCause *cause = hs_cause_guide_get_cause (guide, c);
          g_autofree char *number = g_strdup_printf ("B-%04u", i * 100 + c);

          g_assert_cmpint (cause->proof_check != NULL, ==, cause->proof_none == NULL);
          n_none += cause->proof_none != NULL;
          n_not_alone += cause->proof_not_alone != NULL;
          if (cause->proof_check == NULL)
            continue;
          g_free (site.job_id);
          site.job_id = ops_next_add (&site, number, hs_cause_guide_get_group (guide));
          prove (&site, guide, c);
        }
    }
  g_assert_cmpuint (n_none, ==, 6);
  g_assert_cmpuint (n_not_alone, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cause-proof/proofs", test_proofs);
  return g_test_run ();
}
