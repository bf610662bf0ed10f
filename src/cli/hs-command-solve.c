// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `solve`: plans a day from a file, without a book, or a public test problem in its own text format. */

#include "hs-solve-out.h"

#include <glib/gi18n.h>
#include <signal.h>

static volatile sig_atomic_t interrupted;

static void
interrupt (int number)
{
  (void) number;
  interrupted = 1;
}

gboolean
hs_solve_job_gives_up (gpointer data)
{
  const HsSolveJob *job = data;

  return interrupted || hs_solve_job_seconds (job) >= job->limit_seconds;
}

double
hs_solve_job_seconds (const HsSolveJob *job)
{
  return (double) (g_get_monotonic_time () - job->began) / G_USEC_PER_SEC;
}

const char *
hs_solve_status (HsPlanStatus status)
{
  static const char *const ids[] = {
    [HS_PLAN_OPTIMAL] = "optimal",
    [HS_PLAN_BEST_FOUND] = "best_found",
    [HS_PLAN_IMPOSSIBLE] = "impossible",
  };

  return ids[status];
}

const char *
hs_solve_status_words (HsPlanStatus status)
{
  static const char *const words[] = {
    [HS_PLAN_OPTIMAL] = N_ ("optimal"),
    [HS_PLAN_BEST_FOUND] = N_ ("best found"),
    [HS_PLAN_IMPOSSIBLE] = N_ ("not every promise can be kept"),
  };

  return _(words[status]);
}

typedef gboolean (*SolveFunc) (HsSolveJob *job, GError **error);

/* A format, and the objectives that it knows, the usual one first; NULL: none can be asked for. */
typedef struct
{
  const char *option;
  SolveFunc solve;
  const char *const *objectives;
} Format;

static const Format formats[] = {
  { "day", hs_solve_out_day, NULL },
  { "solomon", hs_solve_out_solomon, hs_solve_solomon_objectives },
  { "tsplib", hs_solve_out_tsplib, NULL },
  { "tsptw", hs_solve_out_tsptw, hs_solve_tsptw_objectives },
};

static gboolean
check_objective (const Format *format, const char **objective, GError **error)
{
  g_autofree char *known = NULL;

  if (*objective == NULL)
    {
      *objective = format->objectives != NULL ? format->objectives[0] : NULL;
      return TRUE;
    }
  if (format->objectives == NULL)
    return hs_cli_usage (error, _("--objective does not go with this format"));
  if (g_strv_contains (format->objectives, *objective))
    return TRUE;
  known = g_strjoinv (", ", (char **) format->objectives);
  return hs_cli_usage (error, _("--objective is one of: %s"), known);
}

static gboolean
run_format (HsCli *cli, const Format *format, const char *file, HsSolveJob *job, GError **error)
{
  gboolean done;

  job->cli = cli;
  if (!check_objective (format, &job->objective, error)
      || !g_file_get_contents (file, &job->text, &job->length, error))
    return FALSE;
  interrupted = 0;
  signal (SIGINT, interrupt);
  job->began = g_get_monotonic_time ();
  done = format->solve (job, error);
  if (!done)
    hs_cli_name_file (error, file);
  signal (SIGINT, SIG_DFL);
  g_free (job->text);
  return done;
}

gboolean
hs_command_solve (HsCli *cli, char **words, GError **error)
{
  char *files[G_N_ELEMENTS (formats)] = { NULL };
  g_autofree char *objective = NULL;
  double limit = 10;
  gint64 seed = 1;
  GOptionEntry entries[G_N_ELEMENTS (formats) + 4] = {
    { "objective", 0, 0, G_OPTION_ARG_STRING, &objective, NULL, NULL },
    { "limit", 0, 0, G_OPTION_ARG_DOUBLE, &limit, NULL, NULL },
    { "seed", 0, 0, G_OPTION_ARG_INT64, &seed, NULL, NULL },
  };
  g_auto (GStrv) rest = NULL;
  HsSolveJob job = { NULL };
  gboolean parsed;
  gboolean done = FALSE;
  guint which = 0;
  guint n_files = 0;

  for (guint i = 1; i < G_N_ELEMENTS (formats); i++)
    entries[2 + i] = (GOptionEntry){ formats[i].option, 0, 0, G_OPTION_ARG_FILENAME, &files[i], NULL, NULL };
  parsed = hs_cli_parse (words, entries, 0, 1, &rest, error);
  if (parsed && rest[0] != NULL)
    files[0] = g_strdup (rest[0]);
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    if (files[i] != NULL)
      {
        which = i;
        n_files++;
      }
  job.objective = objective;
  job.limit_seconds = limit;
  job.seed = (guint32) seed;
  if (parsed && n_files != 1)
    hs_cli_usage (error, _("name one file to solve"));
  else if (parsed && !(limit > 0 && limit <= 86400))
    hs_cli_usage (error, _("--limit is in seconds, above 0 and up to a day"));
  else if (parsed && (seed < 0 || seed > G_MAXUINT32))
    hs_cli_usage (error, _("--seed is a whole number from 0 to 4294967295"));
  else if (parsed)
    done = run_format (cli, &formats[which], files[which], &job, error);
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    g_free (files[i]);
  return done;
}
