// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `solve --tsptw FILE`: a public test problem with one vehicle and time windows. */

#include "hs-solve-out.h"

#include "hs-decimal.h"
#include "hs-tsptw-read.h"

#include <glib/gi18n.h>

const char *const hs_solve_tsptw_objectives[] = { "travel", "makespan", "duration", NULL };

static HsTsptwObjective
find_objective (const char *id)
{
  for (guint i = 0; hs_solve_tsptw_objectives[i] != NULL; i++)
    if (g_str_equal (hs_solve_tsptw_objectives[i], id))
      return (HsTsptwObjective) i;
  g_assert_not_reached ();
}

static void
print_json (const HsTsptw *problem, const HsTsptwAnswer *answer, double seconds)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "status", hs_solve_status (answer->status));
  if (answer->found)
    hs_json_out_decimal (out, "cost", answer->cost, problem->decimals);
  else
    hs_json_out_null (out, "cost");
  if (answer->status == HS_PLAN_IMPOSSIBLE)
    hs_json_out_null (out, "bound");
  else
    hs_json_out_decimal (out, "bound", answer->bound, problem->decimals);
  hs_json_out_begin_array (out, "tour");
  if (answer->found)
    hs_json_out_integer (out, NULL, 0);
  for (guint i = 0; answer->found && i + 1 < problem->n_nodes; i++)
    hs_json_out_integer (out, NULL, answer->order[i]);
  hs_json_out_end_array (out);
  hs_json_out_decimal (out, "seconds", (gint64) (seconds * 1e6), 6);
  hs_json_out_integer (out, "states", (gint64) answer->states);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_text (const HsTsptw *problem, const HsTsptwAnswer *answer, double seconds)
{
  g_autofree char *cost = hs_decimal_format_short (answer->cost, problem->decimals);
  g_autofree char *bound = hs_decimal_format_short (answer->bound, problem->decimals);

  if (answer->found)
    hs_cli_print (_("%s: %s, at least %s; %.3f s\n"), hs_solve_status_words (answer->status), cost, bound, seconds);
  else if (answer->status == HS_PLAN_IMPOSSIBLE)
    hs_cli_print (_("no order keeps every window; %.3f s\n"), seconds);
  else
    hs_cli_print (_("no tour found, at least %s; %.3f s\n"), bound, seconds);
  if (!answer->found)
    return;
  hs_cli_print ("0");
  for (guint i = 0; i + 1 < problem->n_nodes; i++)
    hs_cli_print (" %u", (guint) answer->order[i]);
  hs_cli_print ("\n");
}

gboolean
hs_solve_out_tsptw (HsSolveJob *job, GError **error)
{
  HsTsptwHow how = { hs_solve_job_gives_up, job, job->seed, find_objective (job->objective) };
  g_autoptr (HsTsptw) problem = NULL;
  HsTsptwAnswer answer;

  if (!hs_tsptw_read (job->text, job->length, &problem, error) || !hs_tsptw_solve (problem, &how, &answer, error))
    return FALSE;
  if (job->cli->json)
    print_json (problem, &answer, hs_solve_job_seconds (job));
  else
    print_text (problem, &answer, hs_solve_job_seconds (job));
  return TRUE;
}
