// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How good and how quick routes for many customers are, as one JSON object: every *.txt of the folder that
 * HS_SOLOMON_DIR names, HS_SOLOMON_SECONDS (10) of the machine's own time each. Where the folder has a best.txt (lines
 * of a name and the least distance known), the gap to it is told in hundredths of a percent. A judge that shares
 * nothing with the planner drives every answer. Without the folder it says so and exits 77. */

#include "hs-vrptw-read.h"

#include "../plan/vrptw-judge.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

typedef struct
{
  double began;
  double limit;
} Clock;

static double
seconds_worked (void)
{
  return (double) clock () / CLOCKS_PER_SEC;
}

static double
used (gpointer data)
{
  const Clock *clock_of = data;

  return (seconds_worked () - clock_of->began) / clock_of->limit;
}

static gboolean
gives_up (gpointer data)
{
  return used (data) >= 1;
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
      g_auto (GStrv) words = g_strsplit (g_strstrip (lines[i]), " ", 2);

      if (words[0] != NULL && words[1] != NULL)
        g_hash_table_replace (best, g_strdup (words[0]), g_strdup (g_strstrip (words[1])));
    }
  return best;
}

static gboolean
measure (const char *folder, const char *file, double limit, GHashTable *best, const char *separator)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *name = g_strndup (file, strlen (file) - strlen (".txt"));
  g_autofree char *text = NULL;
  const char *known = g_hash_table_lookup (best, name);
  gsize length;
  Clock timer = { seconds_worked (), limit };
  HsVrptwHow how = { gives_up, used, &timer, 1, 0, HS_VRPTW_DISTANCE };
  g_autoptr (HsVrptw) problem = NULL;
  g_autoptr (HsVrptwPlan) plan = NULL;
  g_autoptr (GError) error = NULL;

  if (!g_file_get_contents (path, &text, &length, &error) || !hs_vrptw_read (text, length, &problem, &error))
    {
      g_printerr ("%s: %s\n", path, error->message);
      return FALSE;
    }
  how.rounds = hs_vrptw_rounds (problem->n, limit);
  if (!hs_vrptw_solve (problem, &how, &plan, &error))
    return FALSE;
  judge_plan (problem, plan);
  g_print ("%s\"%s\":{\"cost\":%.6f,\"vehicles\":%u,\"unserved\":%u,\"ms\":%u", separator, name,
           plan->cost / 1e6, plan->routes->len, plan->unserved->len,
           (guint) ((seconds_worked () - timer.began) * 1000));
  if (known != NULL)
    g_print (",\"gap_bp\":%.1f", (plan->cost / 1e6 / g_ascii_strtod (known, NULL) - 1) * 10000);
  g_print ("}");
  return TRUE;
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

int
main (void)
{
  const char *folder = g_getenv ("HS_SOLOMON_DIR");
  const char *seconds = g_getenv ("HS_SOLOMON_SECONDS");
  double limit = seconds != NULL ? g_ascii_strtod (seconds, NULL) : 10;
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) best = NULL;
  GDir *dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  const char *file;
  gboolean good = TRUE;

  if (dir == NULL)
    {
      g_print ("skipped: HS_SOLOMON_DIR names no folder with Solomon's sets\n");
      return 77;
    }
  while ((file = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (file, ".txt") && strcmp (file, "best.txt") != 0)
      g_ptr_array_add (files, g_strdup (file));
  g_dir_close (dir);
  g_ptr_array_sort (files, compare_names);
  best = read_best (folder);
  for (guint i = 0; i < files->len && good; i++)
    good = measure (folder, g_ptr_array_index (files, i), limit, best, i == 0 ? "{" : ",\n");
  g_print ("%s}\n", files->len == 0 ? "{" : "");
  return good ? 0 : 1;
}
