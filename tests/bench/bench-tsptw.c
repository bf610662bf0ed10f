// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How well public problems with one vehicle and time windows are solved, as one JSON object: how many there are, how
 * many are proven, how many reach the best known cost of `best.txt` ("file cost" a line) where that stands beside them,
 * and the mean and worst microseconds; then how many are proven, and how quickly, when to be home first is asked for
 * instead of driving least. Times are of the processor, so that a busy machine does not count. The folder is named
 * by HS_TSPTW_DIR; problems are in it or one folder below. Every answer is driven by a judge of its own, and one that
 * it refuses ends the run. */

#include "hs-decimal.h"
#include "hs-tsptw-read.h"

#include "../plan/tsptw-trial.h"

#include <time.h>

#define LIMIT_SECONDS 10

typedef struct
{
  guint proven;
  gint64 sum_us;
  gint64 worst_us;
} Times;

typedef struct
{
  guint problems;
  guint best;
  guint best_known;
  Times driving;
  Times home;
} Tally;

static gint64
cpu_microseconds (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (gint64) now.tv_sec * G_USEC_PER_SEC + now.tv_nsec / 1000;
}

static gboolean
is_late (gpointer data)
{
  const gint64 *end = data;

  return cpu_microseconds () >= *end;
}

/* FALSE if the answer is none. */
static gboolean
take_time (const HsTsptw *problem, HsTsptwObjective objective, Times *times, HsTsptwAnswer *answer)
{
  gint64 began = cpu_microseconds ();
  gint64 end = began + LIMIT_SECONDS * G_USEC_PER_SEC;
  HsTsptwHow how = { is_late, &end, 1, objective };
  gint64 took;

  if (!hs_tsptw_solve (problem, &how, answer, NULL))
    return FALSE;
  took = cpu_microseconds () - began;
  times->sum_us += took;
  times->worst_us = MAX (times->worst_us, took);
  times->proven += answer->status == HS_PLAN_OPTIMAL;
  return !answer->found || tsptw_trial_drive (problem, objective, answer->order) == answer->cost;
}

static gboolean
measure (const HsTsptw *problem, const char *best, Tally *tally)
{
  HsTsptwAnswer answer;
  gint64 known;

  if (!take_time (problem, HS_TSPTW_MAKESPAN, &tally->home, &answer)
      || !take_time (problem, HS_TSPTW_TRAVEL, &tally->driving, &answer))
    return FALSE;
  tally->problems++;
  if (best != NULL && hs_decimal_parse (best, problem->decimals, &known, NULL))
    {
      tally->best_known++;
      tally->best += answer.found && answer.cost <= known;
    }
  return TRUE;
}

static GHashTable *
read_best (const char *folder)
{
  GHashTable *best = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autofree char *path = g_build_filename (folder, "best.txt", NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  if (!g_file_get_contents (path, &text, NULL, NULL))
    return best;
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (lines[i], " ", 2);

      if (g_strv_length (words) == 2)
        g_hash_table_insert (best, g_strdup (words[0]), g_strdup (words[1]));
    }
  return best;
}

/* Files that are no problems are passed over. */
static gboolean
walk (const char *root, const char *below, GHashTable *best, Tally *tally)
{
  g_autofree char *folder = g_build_filename (root, below, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *inner = *below == '\0' ? g_strdup (name) : g_build_filename (below, name, NULL);
      g_autofree char *path = g_build_filename (root, inner, NULL);
      g_autofree char *text = NULL;
      g_autoptr (HsTsptw) problem = NULL;
      gsize length;

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        {
          if (*below == '\0' && !walk (root, inner, best, tally))
            return FALSE;
          continue;
        }
      if (!g_file_get_contents (path, &text, &length, NULL) || !hs_tsptw_read (text, length, &problem, NULL))
        continue;
      if (!measure (problem, g_hash_table_lookup (best, inner), tally))
        {
          g_printerr ("%s: the answer is wrong\n", path);
          return FALSE;
        }
    }
  return TRUE;
}

int
main (void)
{
  const char *root = g_getenv ("HS_TSPTW_DIR");
  g_autoptr (GHashTable) best = NULL;
  Tally tally = { 0 };

  if (root == NULL || !g_file_test (root, G_FILE_TEST_IS_DIR))
    {
      g_print ("skipped: HS_TSPTW_DIR names no folder with public problems\n");
      return 77;
    }
  best = read_best (root);
  if (!walk (root, "", best, &tally))
    return 1;
  g_print ("{\"problems\":%u,\"proven\":%u,\"best_known\":%u,\"best_reached\":%u,\"mean_us\":%" G_GINT64_FORMAT
           ",\"worst_us\":%" G_GINT64_FORMAT ",\"home_proven\":%u,\"home_mean_us\":%" G_GINT64_FORMAT
           ",\"home_worst_us\":%" G_GINT64_FORMAT "}\n",
           tally.problems, tally.driving.proven, tally.best_known, tally.best,
           tally.driving.sum_us / MAX (tally.problems, 1), tally.driving.worst_us, tally.home.proven,
           tally.home.sum_us / MAX (tally.problems, 1), tally.home.worst_us);
  return 0;
}
