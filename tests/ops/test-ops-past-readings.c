// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every reading of the demo's past jobs as the story tells it: what the meter showed, where, in which
 * phase, when. */

#include "hs-board.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "ops-demo.h"

#include <string.h>

typedef struct
{
  const char *number;
  const char *check;
  const char *phase;
  const char *place;
  const char *shown; /* how its text begins, without the unit */
  const char *at;
} PastReading;

static const PastReading past_readings[] = {
  { "A-0001", "battery_rest", "before", NULL, "11.42", "2023-02-21T09:14" },
  { "A-0001", "battery_strength", "before", NULL, "167", "2023-02-21T09:17" },
  { "A-0001", "battery_rest", "after", NULL, "12.68", "2023-02-21T09:37" },
  { "A-0001", "charging", "after", NULL, "14.20", "2023-02-21T09:39" },
  { "A-0001", "starts_good", "after", NULL, "5 of 5", "2023-02-21T09:43" },
  { "A-0002", "battery_rest", "before", NULL, "12.05", "2023-10-05T09:35" },
  { "A-0002", "battery_strength", "before", NULL, "211", "2023-10-05T09:38" },
  { "A-0002", "battery_rest", "after", NULL, "12.64", "2023-10-05T10:01" },
  { "A-0002", "charging", "after", NULL, "14.31", "2023-10-05T10:03" },
  { "A-0002", "starts_good", "after", NULL, "5 of 5", "2023-10-05T10:06" },
  { "A-0003", "battery_rest", "before", NULL, "12.11", "2024-05-14T14:06" },
  { "A-0003", "battery_strength", "before", NULL, "395", "2024-05-14T14:09" },
  { "A-0003", "battery_rest", "after", NULL, "12.84", "2024-05-14T14:44" },
  { "A-0003", "starts_good", "after", NULL, "5 of 5", "2024-05-14T14:51" },
  { "A-0004", "drop_feed", "before", NULL, "0.31", "2024-09-19T10:52" },
  { "A-0004", "cranking", "before", NULL, "8.90", "2024-09-19T10:55" },
  { "A-0004", "cranking", "after", NULL, "10.60", "2024-09-19T12:18" },
  { "A-0004", "starter_draw", "after", NULL, "164", "2024-09-19T12:20" },
  { "A-0004", "starts_good", "after", NULL, "5 of 5", "2024-09-19T12:24" },
  { "A-0005", "charging", "before", NULL, "12.35", "2024-11-28T13:08" },
  { "A-0005", "ripple", "before", NULL, "1.10", "2024-11-28T13:12" },
  { "A-0005", "charging", "after", NULL, "14.12", "2024-11-28T14:04" },
  { "A-0005", "ripple", "after", NULL, "0.09", "2024-11-28T14:06" },
  { "A-0005", "starts_good", "after", NULL, "5 of 5", "2024-11-28T14:10" },
  { "A-0006", "charging", "before", NULL, "12.40", "2025-01-16T09:38" },
  { "A-0006", "charging", "after", NULL, "14.26", "2025-01-16T10:28" },
  { "A-0006", "ripple", "after", NULL, "0.05", "2025-01-16T10:30" },
  { "A-0006", "starts_good", "after", NULL, "5 of 5", "2025-01-16T10:35" },
  { "A-0007", "pad_left", "before", "front left", "1.1", "2025-04-08T11:20" },
  { "A-0007", "pad_left", "before", "front right", "4.0", "2025-04-08T11:24" },
  { "A-0007", "pad_left", "after", "front left", "11.5", "2025-04-08T12:28" },
  { "A-0007", "pad_left", "after", "front right", "11.5", "2025-04-08T12:29" },
  { "A-0008", "cooling_pressure_lost", "before", NULL, "1.0", "2025-06-30T08:48" },
  { "A-0008", "cooling_pressure_lost", "after", NULL, "0.0", "2025-06-30T09:40" },
  { "A-0009", "battery_rest", "before", NULL, "10.48", "2025-09-02T15:46" },
  { "A-0009", "battery_rest", "after", NULL, "12.86", "2025-09-02T16:15" },
  { "A-0009", "starts_good", "after", NULL, "5 of 5", "2025-09-02T16:20" },
  { "A-0010", "relay_feed", "before", NULL, "0.00", "2025-10-22T10:31" },
  { "A-0010", "relay_feed", "after", NULL, "12.61", "2025-10-22T11:22" },
  { "A-0010", "starts_good", "after", NULL, "12 of 12", "2025-10-22T11:33" },
  { "A-0011", "starts_good", "after", NULL, "5 of 5", "2025-12-11T10:42" },
  { "A-0012", "glow_plug", "before", "plug 3", "over range", "2026-01-14T11:15" },
  { "A-0012", "glow_plug", "before", "plug 1", "0.7", "2026-01-14T11:18" },
  { "A-0012", "glow_plug", "before", "plug 2", "0.6", "2026-01-14T11:20" },
  { "A-0012", "glow_plug", "before", "plug 4", "0.8", "2026-01-14T11:22" },
  { "A-0012", "battery_strength", "before", NULL, "453", "2026-01-14T11:30" },
  { "A-0012", "glow_plug", "after", "plug 3", "0.7", "2026-01-14T11:58" },
  { "A-0012", "starts_good", "after", NULL, "5 of 5", "2026-01-14T12:04" },
  { "A-0013", "charging", "before", NULL, "12.30", "2026-02-03T09:08" },
  { "A-0013", "battery_rest", "before", NULL, "11.95", "2026-02-03T09:06" },
  { "A-0013", "cooling_pressure_lost", "before", NULL, "0.3", "2026-02-03T09:24" },
  { "A-0013", "charging_output", "during", NULL, "88 of 90", "2026-02-03T09:41" },
  { "A-0013", "charging", "after", NULL, "14.08", "2026-02-03T09:50" },
  { "A-0013", "starts_good", "after", NULL, "5 of 5", "2026-02-03T09:55" },
  { "A-0014", "battery_rest", "before", NULL, "6.90", "2026-02-05T08:56" },
  { "A-0014", "sleeping_draw", "before", NULL, "0.440", "2026-02-05T09:12" },
  { "A-0014", "battery_rest", "after", NULL, "12.63", "2026-02-05T09:40" },
  { "A-0014", "sleeping_draw", "after", NULL, "0.022", "2026-02-05T09:46" },
  { "A-0014", "charging", "after", NULL, "14.25", "2026-02-05T09:49" },
  { "A-0014", "starts_good", "after", NULL, "5 of 5", "2026-02-05T09:52" },
  { "A-0015", "drop_feed", "before", "relay feed", "2.60", "2026-02-06T08:19" },
  { "A-0015", "drop_feed", "after", "relay feed", "0.02", "2026-02-06T08:28" },
  { "A-0015", "starts_good", "after", NULL, "5 of 5", "2026-02-06T08:33" },
  { "A-0016", "fuel_water", "before", NULL, "180", "2026-02-11T13:22" },
  { "A-0016", "fuel_water", "after", NULL, "0", "2026-02-11T14:08" },
  { "A-0017", "battery_rest", "before", NULL, "9.80", "2026-02-12T10:52" },
  { "A-0017", "battery_rest", "after", NULL, "12.81", "2026-02-12T11:30" },
  { "A-0017", "starts_good", "after", NULL, "5 of 5", "2026-02-12T11:38" },
  { "A-0018", "battery_rest", "before", NULL, "11.10", "2026-02-17T15:36" },
  { "A-0018", "battery_rest", "after", NULL, "12.58", "2026-02-17T16:24" },
  { "A-0018", "sleeping_draw", "after", NULL, "0.031", "2026-02-17T16:33" },
  { "A-0018", "starts_good", "after", NULL, "5 of 5", "2026-02-17T16:36" },
  { "A-0019", "charging", "before", NULL, "13.05", "2026-02-24T09:40" },
  { "A-0019", "charging_output", "before", NULL, "61 of 90", "2026-02-24T09:46" },
  { "A-0019", "charging", "after", NULL, "14.22", "2026-02-24T10:38" },
  { "A-0019", "charging_output", "after", NULL, "84 of 90", "2026-02-24T10:40" },
  { "A-0019", "starts_good", "after", NULL, "5 of 5", "2026-02-24T10:45" },
  { "A-0020", "charging", "before", NULL, "12.60", "2026-02-26T08:52" },
  { "A-0020", "cooling_pressure_lost", "before", NULL, "0.4", "2026-02-26T09:10" },
  { "A-0020", "charging", "after", NULL, "14.15", "2026-02-26T11:12" },
  { "A-0020", "cooling_pressure_lost", "after", NULL, "0.0", "2026-02-26T11:22" },
  { "A-0020", "starts_good", "after", NULL, "5 of 5", "2026-02-26T11:26" },
};

static HsJobView *
load (const char *number)
{
  g_autofree char *id = ops_demo_job (number);
  g_autoptr (GError) error = NULL;
  HsJobView *view = hs_job_view_load (ops_demo_book (), id, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  return view;
}

static gboolean
is_it (const HsReadingResult *result, const PastReading *past, HsInstant at)
{
  return g_str_equal (result->check, past->check) && g_str_equal (result->phase, past->phase)
         && g_strcmp0 (result->place, past->place) == 0 && result->at == at;
}

static void
test_reading (gconstpointer data)
{
  const PastReading *past = data;
  g_autoptr (HsJobView) view = load (past->number);
  g_autoptr (GError) error = NULL;
  HsInstant at;
  guint found = 0;

  g_assert_true (hs_instant_parse (past->at, hs_book_get_zone (ops_demo_book ()), &at, &error));
  for (guint i = 0; i < view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (view->readings, i);

      if (!is_it (result, past, at))
        continue;
      found++;
      g_assert_true (g_str_has_prefix (result->value_text, past->shown));
      g_assert_nonnull (result->verdict);
      g_assert_nonnull (result->source);
    }
  g_assert_cmpuint (found, ==, 1);
}

/* A verdict is never a bare word: each limit has a source, and what is outside says what to do. */
static void
test_outside_says_what_next (void)
{
  guint outside = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (past_readings); i++)
    {
      g_autoptr (HsJobView) view = load (past_readings[i].number);

      for (guint k = 0; k < view->readings->len; k++)
        {
          const HsReadingResult *result = g_ptr_array_index (view->readings, k);

          if (!g_str_equal (result->verdict, "outside"))
            continue;
          outside++;
          g_assert_nonnull (result->why);
          g_assert_nonnull (result->next);
        }
    }
  g_assert_cmpuint (outside, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (past_readings); i++)
    {
      g_autofree char *path
          = g_strdup_printf ("/past-readings/%s/%" G_GSIZE_FORMAT, past_readings[i].number, i);

      g_test_add_data_func (path, &past_readings[i], test_reading);
    }
  g_test_add_func ("/past-readings/outside-says-what-next", test_outside_says_what_next);
  return ops_demo_run ();
}
