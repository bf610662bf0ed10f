// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `solve --solomon FILE`: many customers, vans that are all alike, loads and windows, in the text format of the public
 * sets. */

#include "hs-solve-out.h"

#include "hs-decimal.h"
#include "hs-vrptw-read.h"

#include <glib/gi18n.h>

const char *const hs_solve_solomon_objectives[] = { "distance", "vehicles", NULL };

static double
share_used (gpointer data)
{
  const HsSolveJob *job = data;

  return hs_solve_job_seconds (job) / job->limit_seconds;
}

static void
write_numbers (HsJsonOut *out, const char *name, const GArray *numbers)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; i < numbers->len; i++)
    hs_json_out_integer (out, NULL, g_array_index (numbers, guint, i));
  hs_json_out_end_array (out);
}

static void
print_json (const HsVrptwPlan *plan, double seconds)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "status", hs_solve_status (plan->status));
  hs_json_out_decimal (out, "cost", plan->cost, HS_VRPTW_DECIMALS);
  hs_json_out_decimal (out, "bound", plan->bound, HS_VRPTW_DECIMALS);
  hs_json_out_integer (out, "vehicles", plan->routes->len);
  hs_json_out_begin_array (out, "routes");
  for (guint i = 0; i < plan->routes->len; i++)
    write_numbers (out, NULL, hs_vrptw_get_route (plan, i));
  hs_json_out_end_array (out);
  write_numbers (out, "unserved", plan->unserved);
  hs_json_out_decimal (out, "seconds", (gint64) (seconds * 1e6), 6);
  hs_json_out_integer (out, "states", (gint64) plan->states);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_numbers (const char *head, const GArray *numbers)
{
  hs_cli_print ("%s", head);
  for (guint i = 0; i < numbers->len; i++)
    hs_cli_print (" %u", g_array_index (numbers, guint, i));
  hs_cli_print ("\n");
}

static void
print_text (const HsVrptwPlan *plan, double seconds)
{
  g_autofree char *cost = hs_decimal_format_short (plan->cost, HS_VRPTW_DECIMALS);
  g_autofree char *bound = hs_decimal_format_short (plan->bound, HS_VRPTW_DECIMALS);
  const char *status = plan->status == HS_PLAN_IMPOSSIBLE ? _("not every stop can be served")
                                                          : hs_solve_status_words (plan->status);

  hs_cli_print (ngettext ("%s: %s with %u van, at least %s; %.3f s\n", "%s: %s with %u vans, at least %s; %.3f s\n",
                          plan->routes->len),
                status, cost, plan->routes->len, bound, seconds);
  for (guint i = 0; i < plan->routes->len; i++)
    {
      g_autofree char *head = g_strdup_printf (_("Van %u:"), i + 1);

      print_numbers (head, hs_vrptw_get_route (plan, i));
    }
  if (plan->unserved->len > 0)
    print_numbers (_("Not served:"), plan->unserved);
}

gboolean
hs_solve_out_solomon (HsSolveJob *job, GError **error)
{
  HsVrptwHow how = { hs_solve_job_gives_up, share_used, job, job->seed, 0, HS_VRPTW_DISTANCE };
  g_autoptr (HsVrptw) problem = NULL;
  g_autoptr (HsVrptwPlan) plan = NULL;

  if (!hs_vrptw_read (job->text, job->length, &problem, error))
    return FALSE;
  how.rounds = hs_vrptw_rounds (problem->n, job->limit_seconds);
  if (g_strcmp0 (job->objective, "vehicles") == 0)
    how.aim = HS_VRPTW_VEHICLES;
  if (!hs_vrptw_solve (problem, &how, &plan, error))
    return FALSE;
  if (job->cli->json)
    print_json (plan, hs_solve_job_seconds (job));
  else
    print_text (plan, hs_solve_job_seconds (job));
  return TRUE;
}
