// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One call on the way to its vehicle: the ground on which arriving, identifying and leaving are tried. */

#include "ops-site.h"

#include "hs-job-life.h"

OpsSite
ops_site_start (gboolean high_voltage)
{
  OpsSite site = { .test = hs_ops_test_open () };

  hs_ops_test_fill (site.test);
  hs_ops_test_import_ok (site.test, "vehicles",
                         high_voltage ? "plate,owner_phone,year,high_voltage\nTDM 5508,555-0115,2008,yes\n"
                                      : "plate,owner_phone,year\nTDM 5508,555-0115,2008\n",
                         0, 1, 0);
  hs_ops_test_import_ok (site.test, "jobs",
                         "number,customer_phone,words,plate,stage,day\n"
                         "A-0001,555-0115,lamp on,TDM 5508,promised,2026-03-10\n",
                         1, 0, 0);
  site.book = site.test->book;
  site.job_id = hs_job_find (site.book, "A-0001", NULL);
  g_assert_nonnull (site.job_id);
  return site;
}

void
ops_site_clear (OpsSite *site)
{
  hs_ops_test_close (site->test);
  g_free (site->job_id);
}

void
ops_site_arrive (OpsSite *site, const char *at)
{
  g_autoptr (GError) error = NULL;
  HsInstant arrived = hs_ops_test_at (at);

  hs_job_move_stage (site->book, site->job_id, HS_STAGE_ROLLING, NULL, arrived - 600, &error);
  g_assert_no_error (error);
  hs_job_move_stage (site->book, site->job_id, HS_STAGE_ON_SITE, NULL, arrived, &error);
  g_assert_no_error (error);
}

void
ops_site_square (OpsSite *site, HsInstant at)
{
  g_autoptr (GError) error = NULL;

  hs_job_move_stage (site->book, site->job_id, HS_STAGE_PROVEN, "drove off", at, &error);
  g_assert_no_error (error);
  hs_job_price (site->book, site->job_id, NULL, at, &error);
  g_assert_no_error (error);
  hs_go_ahead_add (site->book, site->job_id, 10000000, "Teo", "in_person", at, &error);
  g_assert_no_error (error);
  hs_job_square (site->book, site->job_id, at, &error);
  g_assert_no_error (error);
}
