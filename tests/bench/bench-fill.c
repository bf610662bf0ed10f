// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Makes a book for other benchmarks: `bench-fill FILE VEHICLES JOBS`. */

#include "bench-book.h"

#include "hs-book.h"

#include <stdio.h>
#include <unistd.h>

int
main (int argc, char **argv)
{
  if (argc != 4)
    {
      fprintf (stderr, "bench-fill FILE VEHICLES JOBS\n");
      return 2;
    }
  HsBookUser user = { .program = "bench-fill", .host = g_get_host_name (), .pid = (int) getpid (), .now = 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBook) book = hs_book_new (argv[1], "UTC", &user, &error);
  guint n_vehicles = (guint) g_ascii_strtoull (argv[2], NULL, 10);
  guint n_jobs = (guint) g_ascii_strtoull (argv[3], NULL, 10);
  if (book == NULL || !hs_bench_book_fill (hs_book_get_store (book), n_vehicles, n_jobs, &error))
    {
      fprintf (stderr, "bench-fill: %s\n", error->message);
      return 1;
    }
  return 0;
}
