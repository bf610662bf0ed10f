// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How good and how quick rounds are, as one JSON object: every *.tsp, *.atsp and *.sop of the folder that HS_TSPLIB_DIR
 * names, HS_TSPLIB_SECONDS (10) of the machine's own time each. Where the folder has a best.txt (lines of a file's name
 * and the least cost known), what is missed is told in hundredths of a percent. Every answer is added up here again.
 * Without the folder it says so and exits 77. */

#include "hs-tsplib.h"

#include "../plan/tour-trial.h"

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

static gboolean
gives_up (gpointer data)
{
  const Clock *timer = data;

  return seconds_worked () - timer->began >= timer->limit;
}

/* The least cost that best.txt knows for @file; 0 if none. */
static gint64
known_cost (const char *best, const char *file)
{
  g_auto (GStrv) lines = g_strsplit (best != NULL ? best : "", "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit_set (g_strstrip (lines[i]), " \t", 2);

      if (g_strv_length (words) == 2 && g_str_equal (words[0], file))
        return g_ascii_strtoll (words[1], NULL, 10);
    }
  return 0;
}

static gboolean
measure (const char *folder, const char *file, double limit, gint64 known, const char *separator)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autofree char *text = NULL;
  gsize length;
  Clock timer = { seconds_worked (), limit };
  HsTourHow how = { gives_up, &timer, 1 };
  g_autoptr (HsTsplib) content = NULL;
  g_autoptr (HsTour) tour = NULL;
  g_autoptr (GError) error = NULL;

  if (g_file_get_contents (path, &text, &length, &error))
    content = hs_tsplib_parse (text, length, &error);
  if (content == NULL || !hs_tour_solve (content->problem, &how, &tour, &error))
    {
      g_printerr ("%s: %s\n", path, error->message);
      return FALSE;
    }
  g_assert_true (tour_trial_keeps_orders (content->problem, tour->order));
  g_assert_cmpint (tour->cost, ==, tour_trial_add_up (content->problem, tour->order));
  g_print ("%s\"%s\":{\"status\":\"%s\",\"cost\":%" G_GINT64_FORMAT ",\"bound\":%" G_GINT64_FORMAT ",\"ms\":%u",
           separator, file, tour->status == HS_PLAN_OPTIMAL ? "optimal" : "best_found", tour->cost, tour->bound,
           (guint) ((seconds_worked () - timer.began) * 1000));
  if (known > 0)
    g_print (",\"gap_bp\":%.1f", ((double) tour->cost / (double) known - 1) * 10000);
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
  const char *folder = g_getenv ("HS_TSPLIB_DIR");
  const char *seconds = g_getenv ("HS_TSPLIB_SECONDS");
  double limit = seconds != NULL ? g_ascii_strtod (seconds, NULL) : 10;
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (g_free);
  GDir *dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  g_autofree char *best_path = NULL;
  g_autofree char *best = NULL;
  const char *file;
  gboolean good = TRUE;

  if (dir == NULL)
    {
      g_print ("skipped: HS_TSPLIB_DIR names no folder with files of TSPLIB\n");
      return 77;
    }
  while ((file = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (file, ".tsp") || g_str_has_suffix (file, ".atsp") || g_str_has_suffix (file, ".sop"))
      g_ptr_array_add (files, g_strdup (file));
  g_dir_close (dir);
  g_ptr_array_sort (files, compare_names);
  best_path = g_build_filename (folder, "best.txt", NULL);
  g_file_get_contents (best_path, &best, NULL, NULL);
  for (guint i = 0; i < files->len && good; i++)
    {
      file = g_ptr_array_index (files, i);
      good = measure (folder, file, limit, known_cost (best, file), i == 0 ? "{" : ",\n");
    }
  g_print ("%s}\n", files->len == 0 ? "{" : "");
  return good ? 0 : 1;
}
