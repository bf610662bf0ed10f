// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long finding takes in a large book, battery facts included: p50, p95 and the longest, in milliseconds of wall
 * time inside the process. Prints one JSON object.
 *
 *   bench-find [VEHICLES [JOBS [KEEP]]]     default 200000 1000000; KEEP: a file to keep the book in */

#include "bench-book.h"

#include "hs-book.h"
#include "hs-find.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <unistd.h>

#define N_QUERIES 2000

typedef char *(*MakeQuery) (guint vehicle);

static char *
four_digits (guint vehicle)
{
  g_autofree char *phone = hs_bench_phone (vehicle);
  return g_strdup (phone + 6);
}

static char *
plate_part (guint vehicle)
{
  g_autofree char *plate = hs_bench_plate (vehicle);
  return g_strdup (plate + 2);
}

static char *
vin_tail (guint vehicle)
{
  return g_strdup_printf ("%06u", vehicle);
}

static char *
one_letter (guint vehicle)
{
  return g_strdup_printf ("%c", 'a' + vehicle % 26);
}

static char *
name_and_digits (guint vehicle)
{
  g_autofree char *digits = four_digits (vehicle);
  return g_strdup_printf ("%s ropewalk", digits);
}

static int
compare_reals (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a;
  double y = *(const double *) b;
  return (x > y) - (x < y);
}

static gboolean
measure (HsBook *book, const char *name, MakeQuery make_query, guint n_vehicles, const char *comma, GError **error)
{
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < N_QUERIES; i++)
    {
      g_autofree char *query = make_query ((i * 104729u) % n_vehicles);
      gint64 start = g_get_monotonic_time ();
      g_autoptr (GPtrArray) hits = hs_find (book, query, 50, (HsInstant) 20454 * 86400, error);
      double elapsed = (double) (g_get_monotonic_time () - start) / 1000.0;
      if (hits == NULL)
        return FALSE;
      g_array_append_val (times, elapsed);
    }
  g_array_sort (times, compare_reals);
  printf ("  \"%s\": {\"p50_ms\": %.3f, \"p95_ms\": %.3f, \"most_ms\": %.3f}%s\n", name,
          g_array_index (times, double, N_QUERIES / 2), g_array_index (times, double, N_QUERIES * 95 / 100),
          g_array_index (times, double, N_QUERIES - 1), comma);
  return TRUE;
}

static gboolean
run (const char *path, guint n_vehicles, guint n_jobs, GError **error)
{
  HsBookUser user = { .program = "bench-find", .host = g_get_host_name (), .pid = (int) getpid (), .now = 0 };
  gboolean exists = g_file_test (path, G_FILE_TEST_EXISTS);
  g_autoptr (HsBook) book
      = exists ? hs_book_open (path, HS_BOOK_READ, &user, error) : hs_book_new (path, "UTC", &user, error);
  if (book == NULL)
    return FALSE;
  gint64 start = g_get_monotonic_time ();
  if (!exists && !hs_bench_book_fill (hs_book_get_store (book), n_vehicles, n_jobs, error))
    return FALSE;
  GStatBuf status;
  if (g_stat (path, &status) != 0)
    status.st_size = 0;
  printf ("{\n  \"vehicles\": %u, \"jobs\": %u, \"fill_seconds\": %.1f, \"file_mib\": %.0f,\n", n_vehicles, n_jobs,
          (double) (g_get_monotonic_time () - start) / 1e6, (double) status.st_size / 1048576.0);
  gboolean done = measure (book, "four_digits", four_digits, n_vehicles, ",", error)
                  && measure (book, "plate_part", plate_part, n_vehicles, ",", error)
                  && measure (book, "vin_tail", vin_tail, n_vehicles, ",", error)
                  && measure (book, "name_and_digits", name_and_digits, n_vehicles, ",", error)
                  && measure (book, "one_letter", one_letter, n_vehicles, "", error);
  printf ("}\n");
  return done;
}

int
main (int argc, char **argv)
{
  guint n_vehicles = argc > 1 ? (guint) g_ascii_strtoull (argv[1], NULL, 10) : 200000;
  guint n_jobs = argc > 2 ? (guint) g_ascii_strtoull (argv[2], NULL, 10) : 1000000;
  g_autofree char *folder = argc > 3 ? NULL : g_dir_make_tmp (NULL, NULL);
  g_autofree char *path = argc > 3 ? g_strdup (argv[3]) : g_build_filename (folder, "large.hsbook", NULL);
  g_autoptr (GError) error = NULL;
  gboolean done = run (path, n_vehicles, n_jobs, &error);
  if (!done)
    fprintf (stderr, "bench-find: %s\n", error->message);
  if (folder != NULL)
    {
      g_unlink (path);
      g_rmdir (folder);
    }
  return done ? 0 : 1;
}
