// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How good and how quick routes for many customers are, as one JSON object: every *.txt of the folder that
 * HS_SOLOMON_DIR names, HS_SOLOMON_SECONDS (10) of the machine's own time each, in one thread; with
 * HS_SOLOMON_OBJECTIVE=vehicles, fewest vans first. A judge that shares nothing with the planner drives every answer.
 * Without the folder it says so and exits 77.
 *
 * With fewest vans first, best-vehicles.txt (lines of a name and the fewest vans known) says how many are known to do.
 *
 * For distance, where the folder has a best.txt (lines of a name and the least distance known), the gap to it is told
 * in hundredths of a percent, also as a mean for each class, which is the name without its last two digits. The sets'
 * best distances are counted with every leg cut to one decimal, so that is how the plan is counted for the gap
 * ("cut_cost"). A plan in time with whole legs is in time with cut ones, too. */

#include "hs-vrptw-read.h"

#include "../plan/vrptw-judge.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#define CUT (G_GINT64_CONSTANT (1000000) / 10)

typedef struct
{
  double began;
  double limit;
} Clock;

typedef struct
{
  char *name;
  guint count;
  guint vehicles;
  guint best_vehicles;
  double gap_bp;
  double worst_bp;
  double seconds;
} Class;

typedef struct
{
  const char *folder;
  double limit;
  HsVrptwAim aim;
  GHashTable *best;
  GArray *classes;
} Bench;

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
read_best (const char *folder, const char *file)
{
  GHashTable *best = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autofree char *path = g_build_filename (folder, file, NULL);
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

static void
clear_class (gpointer data)
{
  g_free (((Class *) data)->name);
}

static Class *
class_of (GArray *classes, const char *name)
{
  g_autofree char *wanted = g_strndup (name, MAX (strlen (name), 2) - 2);
  Class fresh = { NULL };

  for (guint i = 0; i < classes->len; i++)
    if (g_str_equal (g_array_index (classes, Class, i).name, wanted))
      return &g_array_index (classes, Class, i);
  fresh.name = g_steal_pointer (&wanted);
  g_array_append_val (classes, fresh);
  return &g_array_index (classes, Class, classes->len - 1);
}

static gint64
cut_leg (const HsVrptw *problem, guint from, guint to)
{
  return hs_vrptw_leg (problem, from, to) / CUT * CUT;
}

/* The distance with every leg cut to one decimal. */
static gint64
cut_cost (const HsVrptw *problem, const HsVrptwPlan *plan)
{
  gint64 cost = 0;

  for (guint r = 0; r < plan->routes->len; r++)
    {
      const GArray *route = hs_vrptw_get_route (plan, r);
      guint at = 0;

      for (guint i = 0; i < route->len; i++)
        {
          cost += cut_leg (problem, at, g_array_index (route, guint, i));
          at = g_array_index (route, guint, i);
        }
      cost += cut_leg (problem, at, 0);
    }
  return cost;
}

/* What is known of the problem, if anything is: told, and counted for its class. */
static void
compare (Bench *bench, const char *name, const HsVrptwPlan *plan, double cut, double seconds)
{
  const char *known = g_hash_table_lookup (bench->best, name);
  Class *class_of_name;
  double gap;

  if (known == NULL)
    return;
  class_of_name = class_of (bench->classes, name);
  class_of_name->count++;
  class_of_name->vehicles += plan->routes->len;
  class_of_name->seconds += seconds;
  if (bench->aim == HS_VRPTW_VEHICLES)
    {
      class_of_name->best_vehicles += (guint) g_ascii_strtoull (known, NULL, 10);
      g_print (",\"best_vehicles\":%s", known);
      return;
    }
  gap = (cut / g_ascii_strtod (known, NULL) - 1) * 10000;
  class_of_name->gap_bp += gap;
  class_of_name->worst_bp = MAX (class_of_name->worst_bp, gap);
  g_print (",\"gap_bp\":%.1f", gap);
}

static void
print_result (Bench *bench, const char *name, const HsVrptw *problem, const HsVrptwPlan *plan, double seconds)
{
  double cut = cut_cost (problem, plan) / 1e6;

  g_print ("\"%s\":{\"cost\":%.6f,\"cut_cost\":%.1f,\"vehicles\":%u,\"unserved\":%u,\"ms\":%u", name, plan->cost / 1e6,
           cut, plan->routes->len, plan->unserved->len, (guint) (seconds * 1000));
  compare (bench, name, plan, cut, seconds);
  g_print ("}");
}

static gboolean
measure (Bench *bench, const char *file)
{
  g_autofree char *path = g_build_filename (bench->folder, file, NULL);
  g_autofree char *name = g_strndup (file, strlen (file) - strlen (".txt"));
  g_autofree char *text = NULL;
  gsize length;
  Clock timer = { seconds_worked (), bench->limit };
  HsVrptwHow how = { gives_up, used, &timer, 1, 0, bench->aim };
  g_autoptr (HsVrptw) problem = NULL;
  g_autoptr (HsVrptwPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  double seconds;

  if (!g_file_get_contents (path, &text, &length, &error) || !hs_vrptw_read (text, length, &problem, &error))
    {
      g_printerr ("%s: %s\n", path, error->message);
      return FALSE;
    }
  how.rounds = hs_vrptw_rounds (problem->n, bench->limit);
  if (!hs_vrptw_solve (problem, &how, &plan, &error))
    return FALSE;
  seconds = seconds_worked () - timer.began;
  judge_plan (problem, plan);
  print_result (bench, name, problem, plan, seconds);
  return TRUE;
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static GPtrArray *
list_files (const char *folder)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *file;

  while (dir != NULL && (file = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (file, ".txt") && !g_str_has_prefix (file, "best"))
      g_ptr_array_add (files, g_strdup (file));
  g_ptr_array_sort (files, compare_names);
  return files;
}

static void
print_classes (const Bench *bench)
{
  g_print ("\"classes\":{");
  for (guint i = 0; i < bench->classes->len; i++)
    {
      const Class *each = &g_array_index (bench->classes, Class, i);

      g_print ("%s\n\"%s\":{\"problems\":%u,", i == 0 ? "" : ",", each->name, each->count);
      if (bench->aim == HS_VRPTW_VEHICLES)
        g_print ("\"vehicles\":%u,\"best_vehicles\":%u,", each->vehicles, each->best_vehicles);
      else
        g_print ("\"mean_gap_bp\":%.1f,\"worst_gap_bp\":%.1f,\"mean_vehicles\":%.2f,", each->gap_bp / each->count,
                 each->worst_bp, (double) each->vehicles / each->count);
      g_print ("\"mean_ms\":%u}", (guint) (each->seconds * 1000 / each->count));
    }
  g_print ("}");
}

int
main (void)
{
  const char *seconds = g_getenv ("HS_SOLOMON_SECONDS");
  Bench bench = { g_getenv ("HS_SOLOMON_DIR"), seconds != NULL ? g_ascii_strtod (seconds, NULL) : 10 };
  g_autoptr (GPtrArray) files = NULL;
  g_autoptr (GHashTable) best = NULL;
  g_autoptr (GArray) classes = g_array_new (FALSE, FALSE, sizeof (Class));
  gboolean good = TRUE;

  if (bench.folder == NULL || !g_file_test (bench.folder, G_FILE_TEST_IS_DIR))
    {
      g_print ("skipped: HS_SOLOMON_DIR names no folder with Solomon's sets\n");
      return 77;
    }
  if (g_strcmp0 (g_getenv ("HS_SOLOMON_OBJECTIVE"), "vehicles") == 0)
    bench.aim = HS_VRPTW_VEHICLES;
  g_array_set_clear_func (classes, clear_class);
  files = list_files (bench.folder);
  best = read_best (bench.folder, bench.aim == HS_VRPTW_VEHICLES ? "best-vehicles.txt" : "best.txt");
  bench.best = best;
  bench.classes = classes;
  g_print ("{");
  for (guint i = 0; i < files->len && good; i++)
    {
      good = measure (&bench, g_ptr_array_index (files, i));
      g_print (",\n");
    }
  print_classes (&bench);
  g_print ("}\n");
  return good ? 0 : 1;
}
