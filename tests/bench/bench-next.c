// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which check next, on the shipped cause models, as one JSON object, into the file that is named: expected minutes
 * beside the same checks done in their listed order and beside repairs alone, and the processor time of an answer, at
 * the start of a visit and after each result of invented ones; the aim is 16 ms. */

#include "hs-cause-guide.h"
#include "hs-next-check.h"

#include "bench-result.h"

#include <time.h>

#define VISITS 30
#define MANY 4000000

static double
processor_ms (void)
{
  return (double) clock () * 1000 / CLOCKS_PER_SEC;
}

/* The result of @check that a car with @cause shows. */
static guint
draw_result (GRand *rand, const HsCauseModel *model, guint check, guint cause)
{
  guint n_results = hs_cause_model_get_n_results (model, check);
  const double *row = hs_cause_model_get_chances (model, check) + cause * n_results;
  double at = g_rand_double (rand);

  for (guint result = 0; result + 1 < n_results; result++)
    {
      at -= row[result];
      if (at < 0)
        return result;
    }
  return n_results - 1;
}

static guint
draw_cause (GRand *rand, const HsCauseModel *model, const HsNext *next)
{
  double at = g_rand_double (rand);
  guint n_causes = hs_cause_model_get_n_causes (model);

  for (guint cause = 0; cause + 1 < n_causes; cause++)
    {
      at -= next->beliefs[cause];
      if (at < 0)
        return cause;
    }
  return n_causes - 1;
}

/* A visit to its end; the time of each answer goes into @times. */
static void
visit (GRand *rand, const HsCauseModel *model, GArray *times)
{
  HsSeen seen = { 0 };
  gboolean gone = FALSE;
  guint cause = 0;

  for (guint step = 0; !gone; step++)
    {
      double began = processor_ms ();
      double took;
      HsNext next;

      if (!hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL))
        return;
      took = processor_ms () - began;
      g_array_append_val (times, took);
      if (step == 0)
        cause = draw_cause (rand, model, &next);
      if (next.steps[0].is_check)
        seen.results[next.steps[0].index] = draw_result (rand, model, next.steps[0].index, cause) + 1;
      else
        seen.ruled_out |= 1u << next.steps[0].index;
      gone = !next.steps[0].is_check && next.steps[0].index == cause;
    }
}

static int
compare (const void *a, const void *b)
{
  double left = *(const double *) a;
  double right = *(const double *) b;

  return left < right ? -1 : left > right;
}

static void
report (GRand *rand, const HsCauseGuide *guide, GString *text)
{
  const HsCauseModel *model = hs_cause_guide_get_model (guide);
  guint n_checks = hs_cause_model_get_n_checks (model);
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));
  guint list[HS_CAUSE_MODEL_MAX_CHECKS];
  HsSeen seen = { 0 };
  HsNext next;

  for (guint i = 0; i < n_checks; i++)
    list[i] = i;
  if (!hs_next_check (model, &seen, HS_NEXT_STATES, &next, NULL))
    g_error ("%s: nothing fits", hs_cause_guide_get_id (guide));
  for (guint i = 0; i < VISITS; i++)
    visit (rand, model, times);
  g_array_sort (times, compare);
  g_string_append_printf (
           text,
           ",\n  \"%s\": {\"causes\": %u, \"checks\": %u, \"exact\": %s, \"minutes\": %.1f, \"rule_minutes\": %.1f, "
           "\"list_minutes\": %.1f, \"repairs_only_minutes\": %.1f, "
           "\"answer_ms\": {\"median\": %.2f, \"worst\": %.2f}}",
           hs_cause_guide_get_id (guide), hs_cause_model_get_n_causes (model), n_checks, next.exact ? "true" : "false",
           hs_next_minutes (model, &seen, HS_NEXT_STATES, MANY), hs_next_rule_minutes (model, &seen, MANY),
           hs_next_list_minutes (model, &seen, list, n_checks, MANY), next.repairs_minutes,
           g_array_index (times, double, times->len / 2), g_array_index (times, double, times->len - 1));
}

int
main (int argc, char **argv)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (79);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) guides = hs_cause_guides_load (&error);
  GString *text;

  if (guides == NULL)
    g_error ("%s", error->message);
  text = bench_result_begin ();
  for (guint i = 0; i < guides->len; i++)
    report (rand, g_ptr_array_index (guides, i), text);
  bench_result_end (text, argc > 1 ? argv[1] : NULL);
  return 0;
}
