// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The visits of a job as they are shown, and what becomes of the labor clock when the machine's clock is put back. */

#include "hs-safety-op.h"
#include "hs-visit-view.h"
#include "hs-job-op.h"
#include "ops-site.h"

static HsInstant
at (const char *clock)
{
  g_autofree char *text = g_strconcat ("2026-03-10T", clock, NULL);

  return hs_ops_test_at (text);
}

static const HsVisitView *
nth (GPtrArray *views, guint n)
{
  g_assert_cmpuint (n, <, views->len);
  return g_ptr_array_index (views, n);
}

static void
move (OpsSite *site, HsStage to, const char *clock)
{
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (site->book, site->job_id, to, to == HS_STAGE_PROVEN ? "drove off" : NULL, at (clock), &error);
  g_assert_no_error (error);
}

static GPtrArray *
load (OpsSite *site, const char *clock)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *views = hs_visit_view_list (site->book, site->job_id, at (clock), &error);

  g_assert_no_error (error);
  return views;
}

/* 08:40 to 09:10 with ten minutes off, then 11:30 on, standing since 11:50. */
static void
test_two_visits (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GPtrArray) none = load (&site, "08:00");
  g_autoptr (GPtrArray) views = NULL;

  g_assert_cmpuint (none->len, ==, 0);
  move (&site, HS_STAGE_ROLLING, "08:31");
  move (&site, HS_STAGE_ON_SITE, "08:40");
  g_assert_true (hs_safety_finish (site.book, site.job_id, HS_SAFETY_MOVED, "off the road", at ("08:41"), NULL));
  g_assert_true (hs_visit_pause (site.book, site.job_id, at ("08:50"), NULL));
  g_assert_true (hs_visit_resume (site.book, site.job_id, at ("09:00"), NULL));
  move (&site, HS_STAGE_WAITING_PART, "09:10");
  move (&site, HS_STAGE_ROLLING, "11:00");
  move (&site, HS_STAGE_ON_SITE, "11:30");
  g_assert_true (hs_visit_pause (site.book, site.job_id, at ("11:50"), NULL));
  views = load (&site, "12:20");
  g_assert_cmpuint (views->len, ==, 2);
  g_assert_cmpint (nth (views, 0)->rolling_at, ==, at ("08:31"));
  g_assert_cmpint (nth (views, 0)->arrived_at, ==, at ("08:40"));
  g_assert_cmpint (nth (views, 0)->left_at, ==, at ("09:10"));
  g_assert_cmpint (nth (views, 0)->seconds, ==, 20 * 60);
  g_assert_cmpint (nth (views, 0)->paused_seconds, ==, 10 * 60);
  g_assert_cmpint (nth (views, 0)->paused_at, ==, HS_INSTANT_NONE);
  g_assert_cmpuint (nth (views, 0)->n_pauses, ==, 2);
  g_assert_cmpstr (nth (views, 0)->safe_note, ==, "moved: off the road");
  g_assert_false (hs_visit_view_is_open (nth (views, 0)));
  g_assert_cmpint (nth (views, 1)->arrived_at, ==, at ("11:30"));
  g_assert_cmpint (nth (views, 1)->left_at, ==, HS_INSTANT_NONE);
  g_assert_cmpint (nth (views, 1)->paused_at, ==, at ("11:50"));
  g_assert_cmpint (nth (views, 1)->seconds, ==, 20 * 60);
  g_assert_cmpint (nth (views, 1)->paused_seconds, ==, 30 * 60);
  g_assert_null (nth (views, 1)->safe_note);
  g_assert_true (hs_visit_view_is_open (nth (views, 1)));
  g_assert_false (hs_visit_view_runs (nth (views, 1)));
}

static void
test_states (void)
{
  static const struct
  {
    HsStage stage;
    gboolean open;
    gboolean runs;
  } rows[] = {
    { HS_STAGE_ROLLING, FALSE, FALSE },   { HS_STAGE_ON_SITE, TRUE, TRUE },       { HS_STAGE_WAITING_YES, TRUE, FALSE },
    { HS_STAGE_ON_SITE, TRUE, TRUE },     { HS_STAGE_WAITING_PART, TRUE, FALSE }, { HS_STAGE_PROVEN, TRUE, TRUE },
  };
  static const char *const clocks[] = { "08:30", "08:40", "08:50", "09:00", "09:10", "09:20" };
  g_auto (OpsSite) site = ops_site_start (FALSE);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) views = NULL;

      move (&site, rows[i].stage, clocks[i]);
      views = load (&site, clocks[i]);
      g_assert_cmpint (hs_visit_view_is_open (nth (views, 0)), ==, rows[i].open);
      g_assert_cmpint (hs_visit_view_runs (nth (views, 0)), ==, rows[i].runs);
    }
}

/* Put back by an hour on the way, in a pause and on leaving: nothing is refused and no minute is charged twice. */
static void
test_clock_put_back (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GPtrArray) views = NULL;
  gint64 seconds = -1;

  move (&site, HS_STAGE_ROLLING, "08:31");
  move (&site, HS_STAGE_ON_SITE, "07:40");
  g_assert_true (hs_visit_seconds (site.book, site.job_id, at ("07:45"), &seconds, NULL));
  g_assert_cmpint (seconds, ==, 0);
  g_assert_true (hs_visit_seconds (site.book, site.job_id, at ("08:41"), &seconds, NULL));
  g_assert_cmpint (seconds, ==, 10 * 60);
  g_assert_true (hs_visit_pause (site.book, site.job_id, at ("08:51"), NULL));
  g_assert_true (hs_visit_resume (site.book, site.job_id, at ("08:00"), NULL));
  move (&site, HS_STAGE_PROVEN, "08:20");
  move (&site, HS_STAGE_ON_SITE, "08:21");
  move (&site, HS_STAGE_ROLLING, "08:25");
  views = load (&site, "08:30");
  g_assert_cmpint (nth (views, 0)->arrived_at, ==, at ("08:31"));
  g_assert_cmpint (nth (views, 0)->left_at, ==, at ("08:31"));
  g_assert_cmpint (nth (views, 0)->seconds, ==, 0);
  hs_ops_test_one (site.test, "pause WHERE to_at = from_at");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/visit-view/two-visits", test_two_visits);
  g_test_add_func ("/visit-view/states", test_states);
  g_test_add_func ("/visit-view/clock-put-back", test_clock_put_back);
  return g_test_run ();
}
