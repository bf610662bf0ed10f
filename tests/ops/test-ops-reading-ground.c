// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What readings are judged by, the vehicle, its batteries and its own limits, is read out of the book once for all
 * readings of a job: the statements that a job takes do not grow with its readings. */

#include "hs-board.h"
#include "hs-chain-offer.h"
#include "hs-chain-op.h"
#include "hs-customer-shot.h"
#include "hs-job-next.h"
#include "hs-job-op.h"
#include "ops-site.h"

#include <sqlite3.h>

#define NOW HS_OPS_TEST_NOW

static guint n_run;

static int
count_cb (unsigned int what, void *context, void *statement, void *text)
{
  n_run++;
  return 0;
}

static int
watch (sqlite3 *db, char **message, const void *routines)
{
  return sqlite3_trace_v2 (db, SQLITE_TRACE_STMT, count_cb, NULL);
}

static void
load_chain (OpsSite *site)
{
  g_autoptr (HsJobChain) chain = hs_job_chain_load (site->book, site->job_id, NULL);

  g_assert_nonnull (chain);
}

static void
load_offers (OpsSite *site)
{
  g_autoptr (HsChainOffers) offers = hs_chain_offers_load (site->book, site->job_id, NULL);

  g_assert_nonnull (offers);
}

static void
load_sheet (OpsSite *site)
{
  g_autoptr (GPtrArray) sheet = hs_job_sheet (site->book, site->job_id, "after", NOW, NULL);

  g_assert_nonnull (sheet);
}

static void
load_view (OpsSite *site)
{
  g_autoptr (HsJobView) view = hs_job_view_load (site->book, site->job_id, NOW, NULL);

  g_assert_nonnull (view);
}

static void
load_next (OpsSite *site)
{
  g_autoptr (HsJobNext) next = hs_job_next_load (site->book, site->job_id, NULL, NOW, NULL);

  g_assert_nonnull (next);
}

static void
load_customer (OpsSite *site)
{
  g_autoptr (HsCustomerShot) shot = hs_customer_shot_load (site->book, site->job_id, NOW, NULL);

  g_assert_nonnull (shot);
}

/* Of a check that is outside after the repair, so that nobody is done with the first. */
static void
measure (OpsSite *site, const char *check, const char *text)
{
  static const char *const phases[] = { "before", "after" };

  for (gsize i = 0; i < G_N_ELEMENTS (phases); i++)
    {
      const HsReadingEntry entry = { .check = check, .text = text, .phase = phases[i], .at = NOW };
      g_autoptr (GError) error = NULL;
      g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job_id, &entry, NOW, &error);

      g_assert_no_error (error);
    }
}

static void
test_once (void)
{
  static void (*const loads[]) (OpsSite *site)
    = { load_chain, load_offers, load_sheet, load_view, load_next, load_customer };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  guint counts[G_N_ELEMENTS (loads)];

  g_assert_true (hs_job_set_group (site.book, site.job_id, "charging_lamp", NOW, NULL));
  ops_site_arrive (&site, "2026-03-10T08:30");
  measure (&site, "charging", "12.10");
  for (gsize i = 0; i < G_N_ELEMENTS (loads); i++)
    {
      loads[i] (&site);
      n_run = 0;
      loads[i] (&site);
      counts[i] = n_run;
      g_assert_cmpuint (counts[i], >, 0);
    }
  measure (&site, "drop_charging_feed", "2.10");
  measure (&site, "drop_charging_ground", "1.40");
  measure (&site, "ripple", "0.90");
  for (gsize i = 0; i < G_N_ELEMENTS (loads); i++)
    {
      g_test_message ("load %d: %u statements for one check", (int) i, counts[i]);
      n_run = 0;
      loads[i] (&site);
      g_assert_cmpuint (n_run, ==, counts[i]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sqlite3_auto_extension ((void (*) (void)) watch);
  g_test_add_func ("/reading-ground/once", test_once);
  return g_test_run ();
}
