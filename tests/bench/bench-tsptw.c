// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How well public problems with one vehicle and time windows are solved, as one JSON object with an object for each
 * set: how many there are, how many are proven, how many reach the best known cost of `best.txt` ("file cost" a line)
 * where that stands beside them, and the mean and worst microseconds; then how many are proven, and how quickly, when
 * to be home first is asked for instead of driving least. Last come the names of those that were left open, and those
 * that missed the best known cost or went below it, with both costs. Times are of the processor, so that a busy machine
 * does not count. The folder is named by HS_TSPTW_DIR; a set is a folder in it, or what is in it itself (then it is
 * called "all"). Every answer is driven by a judge of its own, and one that it refuses ends the run. */

#include "hs-decimal.h"
#include "hs-tsptw-read.h"

#include "../plan/tsptw-trial.h"

#include <string.h>
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
  GString *open;
  GString *home_open;
  GString *off_best;
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

static void
add_name (GString *list, const char *name)
{
  g_string_append_printf (list, "%s\"%s\"", list->len == 0 ? "" : ",", name);
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

static void
compare (const HsTsptw *problem, const char *name, const HsTsptwAnswer *answer, const char *best, Tally *tally)
{
  g_autofree char *cost = hs_decimal_format (answer->cost, problem->decimals);
  gint64 known;

  if (best == NULL || !hs_decimal_parse (best, problem->decimals, &known, NULL))
    return;
  tally->best_known++;
  tally->best += answer->found && answer->cost <= known;
  if (!answer->found || answer->cost != known)
    g_string_append_printf (tally->off_best, "%s\"%s\":{\"cost\":%s,\"best\":%s}", tally->off_best->len == 0 ? "" : ",",
                            name, answer->found ? cost : "null", best);
}

static gboolean
measure (const HsTsptw *problem, const char *name, const char *best, Tally *tally)
{
  HsTsptwAnswer answer;

  if (!take_time (problem, HS_TSPTW_MAKESPAN, &tally->home, &answer))
    return FALSE;
  if (answer.status != HS_PLAN_OPTIMAL)
    add_name (tally->home_open, name);
  if (!take_time (problem, HS_TSPTW_TRAVEL, &tally->driving, &answer))
    return FALSE;
  if (answer.status != HS_PLAN_OPTIMAL)
    add_name (tally->open, name);
  tally->problems++;
  compare (problem, name, &answer, best, tally);
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

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static GPtrArray *
list (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  return names;
}

static void
tell (const char *set, const Tally *tally, gboolean *ret_first)
{
  guint problems = tally->problems;

  g_print ("%s\n\"%s\":{\"problems\":%u,\"proven\":%u,\"best_known\":%u,\"best_reached\":%u,",
           *ret_first ? "" : ",", set, problems, tally->driving.proven, tally->best_known, tally->best);
  g_print ("\"mean_us\":%" G_GINT64_FORMAT ",\"worst_us\":%" G_GINT64_FORMAT ",\n",
           tally->driving.sum_us / problems, tally->driving.worst_us);
  g_print (" \"home_proven\":%u,\"home_mean_us\":%" G_GINT64_FORMAT ",\"home_worst_us\":%" G_GINT64_FORMAT ",\n",
           tally->home.proven, tally->home.sum_us / problems, tally->home.worst_us);
  g_print (" \"open\":[%s],\n \"home_open\":[%s],\n \"off_best\":{%s}}",
           tally->open->str, tally->home_open->str, tally->off_best->str);
  *ret_first = FALSE;
}

/* Files that are no problems are passed over; FALSE after a wrong answer. */
static gboolean
measure_set (const char *root, const char *set, GHashTable *best, gboolean *ret_first)
{
  g_autofree char *folder = g_build_filename (root, set, NULL);
  g_autoptr (GPtrArray) names = list (folder);
  Tally tally = { .open = g_string_new (NULL), .home_open = g_string_new (NULL), .off_best = g_string_new (NULL) };
  gboolean fine = TRUE;

  for (guint i = 0; i < names->len && fine; i++)
    {
      const char *name = g_ptr_array_index (names, i);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *inner = *set == '\0' ? g_strdup (name) : g_build_filename (set, name, NULL);
      g_autofree char *text = NULL;
      g_autoptr (HsTsptw) problem = NULL;
      gsize length;

      if (!g_file_get_contents (path, &text, &length, NULL) || !hs_tsptw_read (text, length, &problem, NULL))
        continue;
      fine = measure (problem, name, g_hash_table_lookup (best, inner), &tally);
      if (!fine)
        g_printerr ("%s: the answer is wrong\n", path);
    }
  if (fine && tally.problems > 0)
    tell (*set == '\0' ? "all" : set, &tally, ret_first);
  g_string_free (tally.open, TRUE);
  g_string_free (tally.home_open, TRUE);
  g_string_free (tally.off_best, TRUE);
  return fine;
}

int
main (void)
{
  const char *root = g_getenv ("HS_TSPTW_DIR");
  g_autoptr (GHashTable) best = NULL;
  g_autoptr (GPtrArray) names = NULL;
  gboolean first = TRUE;
  gboolean fine;

  if (root == NULL || !g_file_test (root, G_FILE_TEST_IS_DIR))
    {
      g_print ("skipped: HS_TSPTW_DIR names no folder with public problems\n");
      return 77;
    }
  best = read_best (root);
  names = list (root);
  g_print ("{");
  fine = measure_set (root, "", best, &first);
  for (guint i = 0; i < names->len && fine; i++)
    {
      g_autofree char *path = g_build_filename (root, g_ptr_array_index (names, i), NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        fine = measure_set (root, g_ptr_array_index (names, i), best, &first);
    }
  g_print ("}\n");
  return fine ? 0 : 1;
}
