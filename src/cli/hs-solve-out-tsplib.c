// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `solve --tsplib FILE`: a round, or a way from the first node to the last, in the format of TSPLIB. Nodes are printed
 * with the numbers of the file, from 1. */

#include "hs-solve-out.h"

#include "hs-tsplib.h"

#include <glib/gi18n.h>

static void
print_json (const HsTour *tour, double seconds)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();

  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "status", hs_solve_status (tour->status));
  hs_json_out_integer (out, "cost", tour->cost);
  hs_json_out_integer (out, "bound", tour->bound);
  hs_json_out_begin_array (out, "tour");
  for (guint i = 0; i < tour->n; i++)
    hs_json_out_integer (out, NULL, tour->order[i] + 1);
  hs_json_out_end_array (out);
  hs_json_out_decimal (out, "seconds", (gint64) (seconds * 1e6), 6);
  hs_json_out_integer (out, "states", (gint64) tour->states);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_text (const HsTour *tour, double seconds)
{
  g_autofree char *cost = g_strdup_printf ("%" G_GINT64_FORMAT, tour->cost);
  g_autofree char *bound = g_strdup_printf ("%" G_GINT64_FORMAT, tour->bound);

  hs_cli_print (_("%s: %s, at least %s; %.3f s\n"), hs_solve_status_words (tour->status), cost, bound, seconds);
  for (guint i = 0; i < tour->n; i++)
    hs_cli_print ("%u%c", tour->order[i] + 1, i + 1 == tour->n ? '\n' : ' ');
}

gboolean
hs_solve_out_tsplib (HsSolveJob *job, GError **error)
{
  HsTourHow how = { hs_solve_job_gives_up, job, job->seed };
  g_autoptr (HsTsplib) file = hs_tsplib_parse (job->text, job->length, error);
  g_autoptr (HsTour) tour = NULL;

  if (file == NULL || !hs_tour_solve (file->problem, &how, &tour, error))
    return FALSE;
  if (job->cli->json)
    print_json (tour, hs_solve_job_seconds (job));
  else
    print_text (tour, hs_solve_job_seconds (job));
  return TRUE;
}
