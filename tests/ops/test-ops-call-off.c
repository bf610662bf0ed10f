// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Canceled, nobody there, gone on arrival: each with its fee and its reason, taken back as one step. */

#include "hs-call-off.h"
#include "hs-job-life.h"
#include "hs-ops-error.h"
#include "hs-settings-op.h"
#include "hs-undo.h"
#include "ops-site.h"

#define NOW HS_OPS_TEST_NOW

static void
test_ways (void)
{
  static const struct
  {
    const char *how;
    gint64 fee_cents;
    const char *job;
    const char *line;
  } rows[] = {
    { "canceled", 0, "job WHERE stage = 'called_off' AND called_off_how = 'canceled' AND called_off_why = 'sold it'",
      NULL },
    { "cancelled", HS_FEE_AS_SET, "job WHERE called_off_how = 'canceled'",
      "line WHERE kind = 'call_out' AND what = 'Called off: canceled' AND price_cents = 1500 AND tax_cents = 0" },
    { "no_show", HS_FEE_AS_SET, "job WHERE called_off_how = 'no_show'",
      "line WHERE what = 'Called off: no-show' AND price_cents = 4000" },
    { "gone on arrival", HS_FEE_AS_SET, "job WHERE called_off_how = 'gone_on_arrival'",
      "line WHERE what = 'Called off: gone on arrival' AND price_cents = 6000" },
    { "gone_on_arrival", 2500, "job WHERE called_off_how = 'gone_on_arrival'", "line WHERE price_cents = 2500" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (OpsSite) site = ops_site_start (FALSE);
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_settings_set (site.book, "canceled_fee_cents", "1500", NOW, NULL));
      g_assert_true (hs_settings_set (site.book, "no_show_fee_cents", "4000", NOW, NULL));
      g_assert_true (hs_settings_set (site.book, "gone_on_arrival_fee_cents", "6000", NOW, NULL));
      hs_job_call_off (site.book, site.job_id, rows[i].how, rows[i].fee_cents, "sold it", NOW, &error);
      g_assert_no_error (error);
      hs_ops_test_one (site.test, rows[i].job);
      if (rows[i].line != NULL)
        hs_ops_test_one (site.test, rows[i].line);
      g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, rows[i].line != NULL);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *how;
    gint64 fee_cents;
    const char *reason;
    const char *said;
  } rows[] = {
    { NULL, 0, "sold it", "canceled, no-show or gone on arrival?" },
    { "forgotten", 0, "sold it", "forgotten" },
    { "canceled", -2, "sold it", "not less than nothing" },
    { "canceled", 0, NULL, "Why was it called off?" },
    { "canceled", 0, "  ", "Why was it called off?" },
  };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_job_call_off (site.book, site.job_id, rows[i].how, rows[i].fee_cents, rows[i].reason, NOW,
                                       &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  ops_site_arrive (&site, "2026-03-10T08:40");
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "drove off", NOW + 9000, NULL));
  g_assert_false (hs_job_call_off (site.book, site.job_id, "canceled", 500, "sold it", NOW + 9100, &error));
  hs_ops_test_refused (&error, "A job cannot go from");
  hs_ops_test_one (site.test, "job WHERE stage = 'proven' AND called_off_how IS NULL");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 0);
}

/* One step; the job stands where it stood and owes nothing. */
static void
test_undo (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (HsUndoStep) step = NULL;

  ops_site_arrive (&site, "2026-03-10T08:40");
  g_assert_true (hs_job_call_off (site.book, site.job_id, "gone_on_arrival", 6000, "nobody there", NOW + 9000, NULL));
  hs_ops_test_one (site.test, "visit WHERE left_at IS NOT NULL");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW + 9100, &step, NULL));
  g_assert_cmpstr (step->what, ==, "called off: gone on arrival");
  hs_ops_test_one (site.test, "job WHERE stage = 'on_site' AND called_off_how IS NULL AND called_off_why IS NULL");
  hs_ops_test_one (site.test, "visit WHERE left_at IS NULL");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 0);
}

/* Called off another way after it was back on the road, the first fee goes. */
static void
test_again (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);

  g_assert_true (hs_job_call_off (site.book, site.job_id, "canceled", 1500, "no time", NOW, NULL));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROMISED, NULL, NOW + 60, NULL));
  g_assert_true (hs_job_call_off (site.book, site.job_id, "no_show", 4000, "nobody there", NOW + 9000, NULL));
  hs_ops_test_one (site.test, "job WHERE called_off_how = 'no_show' AND called_off_why = 'nobody there'");
  hs_ops_test_one (site.test, "line WHERE price_cents = 4000");
  g_assert_cmpint (hs_ops_test_count (site.test, "line"), ==, 1);
}

static void
test_fee (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;
  gint64 cents = -1;

  g_assert_true (hs_call_off_fee (site.book, "no_show", &cents, NULL));
  g_assert_cmpint (cents, ==, 0);
  g_assert_true (hs_settings_set (site.book, "no_show_fee_cents", "4000", NOW, NULL));
  g_assert_true (hs_call_off_fee (site.book, "no_show", &cents, NULL));
  g_assert_cmpint (cents, ==, 4000);
  g_assert_false (hs_call_off_fee (site.book, "forgotten", &cents, &error));
  hs_ops_test_refused (&error, "forgotten");
  g_assert_false (hs_settings_set (site.book, "no_show_fee_cents", "-1", NOW, &error));
  g_clear_error (&error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/call-off/ways", test_ways);
  g_test_add_func ("/call-off/refused", test_refused);
  g_test_add_func ("/call-off/undo", test_undo);
  g_test_add_func ("/call-off/again", test_again);
  g_test_add_func ("/call-off/fee", test_fee);
  return g_test_run ();
}
