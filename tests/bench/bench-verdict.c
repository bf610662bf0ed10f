// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How many verdicts a second one core gives, as one JSON object: every number check of the shipped catalog, values
 * spread over its whole range, conditions known and not known; the aim is 1,000,000. `whole` also makes the sentence,
 * limit, source and figure that are shown. */

#include "hs-check.h"

#define VERDICTS 2000000
#define VALUES 64
#define ROUNDS 5

static HsChecks *
load_checks (void)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  HsChecks *checks = NULL;

  if (g_file_get_contents (HS_TEST_CHECKS_INI, &text, NULL, &error))
    checks = hs_checks_new_from_data (text, -1, &error);
  if (checks == NULL)
    g_error ("%s", error->message);
  return checks;
}

static void
fill_conditions (HsConditions *all)
{
  for (guint i = 0; i < 4; i++)
    {
      all[i] = HS_CONDITIONS_INIT;
      all[i].battery_kind = i % 2 == 0 ? HS_BATTERY_FLOODED : HS_BATTERY_AGM;
      all[i].fuel = i < 2 ? "gas" : NULL;
      all[i].rated_cca = i < 3 ? 540 : 0;
      all[i].capacity_milliamp_hours = 60000;
      all[i].has_temperature = i > 0;
      all[i].celsius = 25 - (int) i * 15;
    }
}

/* @whole: the whole judgment, or the verdict alone. Returns the verdicts a second. */
static double
measure (HsChecks *checks, const HsConditions *conditions, gboolean whole, guint *counts)
{
  gint64 begin = g_get_monotonic_time ();
  guint done = 0;

  while (done < VERDICTS)
    for (guint i = 0; done < VERDICTS; i++)
      {
        const HsCheck *check = hs_checks_get_nth (checks, i);
        HsReading reading = { .kind = HS_READING_VALUE };

        if (check == NULL)
          break;
        for (guint step = 0; check->entry == HS_CHECK_NUMBER && step < VALUES; step++, done++)
          {
            HsJudgment judgment = { 0 };
            HsVerdict verdict;

            reading.value = check->least + (check->most - check->least) * step / VALUES;
            if (whole)
              hs_check_judge (checks, check, &conditions[step % 4], NULL, &reading, &judgment);
            verdict = whole ? judgment.verdict
                            : hs_check_verdict (checks, check, &conditions[step % 4], NULL, &reading);
            hs_judgment_clear (&judgment);
            counts[verdict]++;
          }
      }
  return (double) done * G_USEC_PER_SEC / (double) (g_get_monotonic_time () - begin);
}

static double
best_of (HsChecks *checks, const HsConditions *conditions, gboolean whole, guint *counts)
{
  double best = 0;

  for (guint i = 0; i < ROUNDS; i++)
    {
      double rate = measure (checks, conditions, whole, counts);

      best = MAX (best, rate);
    }
  return best;
}

int
main (void)
{
  g_autoptr (HsChecks) checks = load_checks ();
  HsConditions conditions[4];
  guint verdict_counts[HS_N_VERDICTS] = { 0 };
  guint whole_counts[HS_N_VERDICTS] = { 0 };
  double verdicts, wholes;

  fill_conditions (conditions);
  verdicts = best_of (checks, conditions, FALSE, verdict_counts);
  wholes = best_of (checks, conditions, TRUE, whole_counts);
  g_print ("{\"verdicts_per_second\":%.0f,\"whole_judgments_per_second\":%.0f", verdicts, wholes);
  for (guint i = 0; i < HS_N_VERDICTS; i++)
    {
      g_assert_cmpuint (verdict_counts[i], ==, whole_counts[i]);
      g_print (",\"%s\":%u", hs_verdict_id ((HsVerdict) i), verdict_counts[i] / ROUNDS);
    }
  g_print ("}\n");
  return 0;
}
