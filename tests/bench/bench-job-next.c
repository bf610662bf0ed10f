// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is best checked next on a job, as one JSON object, into the file that is named: the processor time from the
 * readings in a book to the answer with its words, at the start of invented visits and after each of their readings;
 * the bound is 16 ms, the aim 5. The very first answer of an open book, which reads the models, stands by itself. */

#include "hs-demo.h"
#include "hs-job-next.h"
#include "hs-job-op.h"

#include "bench-result.h"

#include <glib/gstdio.h>
#include <time.h>

#define VISITS 20
#define MOST_READINGS 12

static double
processor_ms (void)
{
  return (double) clock () * 1000 / CLOCKS_PER_SEC;
}

static char *
draw_reading (GRand *rand, const HsCheck *check)
{
  if (check->entry == HS_CHECK_CHOICE)
    return g_strdup_printf ("%d", g_rand_int_range (rand, 1, (gint32) g_strv_length ((char **) check->answers) + 1));
  if (check->entry == HS_CHECK_CODES)
    return g_strdup (g_rand_boolean (rand) ? "none" : "P0335");
  return g_strdup_printf ("%d", g_rand_int_range (rand, (gint32) MAX (check->least, 0), (gint32) check->most + 1));
}

static void
read_best (GRand *rand, HsBook *book, const char *job_id, const char *check_id)
{
  const HsCheck *check = hs_checks_lookup (hs_book_get_checks (book), check_id);
  g_autofree char *keyed = draw_reading (rand, check);
  HsReadingEntry entry = { .check = check_id, .keyed = keyed, .phase = "before", .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) read = hs_reading_add (book, job_id, &entry, hs_demo_get_now (), NULL);

  if (read == NULL)
    g_error ("%s %s", check_id, keyed);
}

static void
visit (GRand *rand, HsBook *book, const char *group, GArray *times)
{
  HsCallSlip slip = { .phone = "555-0121", .words = "measured", .group = group, .day = HS_DATE_NONE, .window_from = -1,
                      .window_to = -1 };
  g_autofree char *job_id = hs_call_take (book, &slip, hs_demo_get_now (), NULL);

  for (guint i = 0; i < MOST_READINGS; i++)
    {
      double began = processor_ms ();
      g_autoptr (HsJobNext) next = hs_job_next_load (book, job_id, NULL, hs_demo_get_now (), NULL);
      double took = processor_ms () - began;

      g_array_append_val (times, took);
      if (hs_job_next_check (next) == NULL)
        return;
      read_best (rand, book, job_id, hs_job_next_check (next));
    }
}

static int
compare (const void *a, const void *b)
{
  double left = *(const double *) a;
  double right = *(const double *) b;

  return left < right ? -1 : left > right;
}

static double
first_answer (HsBook *book)
{
  HsCallSlip slip = { .phone = "555-0122", .words = "first", .group = "will_not_start", .day = HS_DATE_NONE,
                      .window_from = -1, .window_to = -1 };
  g_autofree char *job_id = hs_call_take (book, &slip, hs_demo_get_now (), NULL);
  double began = processor_ms ();
  g_autoptr (HsJobNext) next = hs_job_next_load (book, job_id, NULL, hs_demo_get_now (), NULL);

  return processor_ms () - began;
}

static void
report (GRand *rand, HsBook *book, const char *group, GString *text)
{
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < VISITS; i++)
    visit (rand, book, group, times);
  g_array_sort (times, compare);
  g_string_append_printf (
    text, ",\n  \"%s\": {\"answers\": %u, \"answer_ms\": {\"median\": %.2f, \"p95\": %.2f, \"worst\": %.2f}}", group,
    times->len, g_array_index (times, double, times->len / 2), g_array_index (times, double, times->len * 95 / 100),
    g_array_index (times, double, times->len - 1));
}

int
main (int argc, char **argv)
{
  static const char *const groups[] = { "will_not_start", "everything_dead", "drains", "charging_lamp", "overheats",
                                        "brakes", "cuts_out" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (797);
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp (NULL, NULL);
  g_autofree char *path = g_build_filename (folder, "bench.hsbook", NULL);
  HsBookUser user = { "bench", "here", 1, hs_demo_get_now () };
  HsBook *book = hs_demo_make (path, &user, &error);
  GString *text;

  if (book == NULL)
    g_error ("%s", error->message);
  text = bench_result_begin ();
  g_string_append_printf (text, ",\n  \"first_answer_ms\": %.2f", first_answer (book));
  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    report (rand, book, groups[i], text);
  bench_result_end (text, argc > 1 ? argv[1] : NULL);
  hs_book_close (book);
  g_remove (path);
  g_rmdir (folder);
  return 0;
}
