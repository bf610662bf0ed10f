// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The demo's twenty past jobs, one by one. Minutes, miles and words are the story's; the money was worked out by hand
 * from its rules (call-out 60.00 for 30 min, 24.00 per started quarter hour, banded markup, 8 % on parts). */

#include "hs-board.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-visit-row.h"
#include "ops-demo.h"

#include <string.h>

typedef struct
{
  const char *number;
  const char *plate;
  const char *kind;
  const char *words;
  const char *follows;
  const char *return_why;
  const char *cause;
  const char *arrived;
  int on_site_minutes;
  int drive_minutes;
  int millimiles;
  gint64 net_cents;
  gint64 tax_cents;
  gint64 paid_cents;
  guint n_findings;
  guint n_links;
  guint n_readings;
  guint n_installed;
  guint n_advice;
} PastJob;

static const PastJob past_jobs[] = {
  {
    .number = "A-0001",
    .plate = "TDM 4409",
    .kind = "repair",
    .words = "dead after a fortnight parked",
    .follows = NULL,
    .return_why = NULL,
    .cause = "battery 8 years old, sulfated",
    .arrived = "2023-02-21T09:10",
    .on_site_minutes = 35,
    .drive_minutes = 24,
    .millimiles = 10000,
    .net_cents = 20160,
    .tax_cents = 941,
    .paid_cents = 21101,
    .n_findings = 3,
    .n_links = 1,
    .n_readings = 5,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0002",
    .plate = "TDM 8816",
    .kind = "repair",
    .words = "slow to crank on cold mornings",
    .follows = NULL,
    .return_why = NULL,
    .cause = "battery below half of its rating",
    .arrived = "2023-10-05T09:30",
    .on_site_minutes = 40,
    .drive_minutes = 18,
    .millimiles = 6200,
    .net_cents = 18480,
    .tax_cents = 806,
    .paid_cents = 19286,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 5,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0003",
    .plate = "TDM 2218",
    .kind = "repair",
    .words = "stop-start never works, weak start",
    .follows = NULL,
    .return_why = NULL,
    .cause = "AGM battery worn; old one was wrong kind",
    .arrived = "2024-05-14T14:00",
    .on_site_minutes = 55,
    .drive_minutes = 22,
    .millimiles = 7500,
    .net_cents = 30540,
    .tax_cents = 1579,
    .paid_cents = 32119,
    .n_findings = 3,
    .n_links = 1,
    .n_readings = 4,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0004",
    .plate = "TDM 3316",
    .kind = "repair",
    .words = "clicks, no crank",
    .follows = NULL,
    .return_why = NULL,
    .cause = "starter contacts burnt; heat shield missing",
    .arrived = "2024-09-19T10:40",
    .on_site_minutes = 110,
    .drive_minutes = 16,
    .millimiles = 5800,
    .net_cents = 41040,
    .tax_cents = 1651,
    .paid_cents = 42691,
    .n_findings = 3,
    .n_links = 1,
    .n_readings = 5,
    .n_installed = 2,
    .n_advice = 0,
  },
  {
    .number = "A-0005",
    .plate = "TDM 5508",
    .kind = "repair",
    .words = "battery lamp on",
    .follows = NULL,
    .return_why = NULL,
    .cause = "alternator diode pack failed",
    .arrived = "2024-11-28T13:00",
    .on_site_minutes = 75,
    .drive_minutes = 20,
    .millimiles = 7000,
    .net_cents = 21280,
    .tax_cents = 646,
    .paid_cents = 21926,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 5,
    .n_installed = 1,
    .n_advice = 2,
  },
  {
    .number = "A-0006",
    .plate = "TDM 5508",
    .kind = "return_visit",
    .words = "battery lamp on again",
    .follows = "A-0005",
    .return_why = "cheaper_choice",
    .cause = "salvage alternator failed (49 days)",
    .arrived = "2025-01-16T09:30",
    .on_site_minutes = 70,
    .drive_minutes = 20,
    .millimiles = 7000,
    .net_cents = 32240,
    .tax_cents = 1523,
    .paid_cents = 33763,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 4,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0007",
    .plate = "TDM 9912",
    .kind = "repair",
    .words = "grinding from front left",
    .follows = NULL,
    .return_why = NULL,
    .cause = "pads worn out, caliper slide seized dry",
    .arrived = "2025-04-08T11:00",
    .on_site_minutes = 105,
    .drive_minutes = 26,
    .millimiles = 9100,
    .net_cents = 42640,
    .tax_cents = 1971,
    .paid_cents = 44611,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 4,
    .n_installed = 3,
    .n_advice = 0,
  },
  {
    .number = "A-0008",
    .plate = "TDM 6615",
    .kind = "repair",
    .words = "coolant smell, gauge climbs",
    .follows = NULL,
    .return_why = NULL,
    .cause = "hose chafed by missing clip",
    .arrived = "2025-06-30T08:30",
    .on_site_minutes = 80,
    .drive_minutes = 30,
    .millimiles = 11000,
    .net_cents = 23920,
    .tax_cents = 666,
    .paid_cents = 24586,
    .n_findings = 3,
    .n_links = 1,
    .n_readings = 2,
    .n_installed = 3,
    .n_advice = 1,
  },
  {
    .number = "A-0009",
    .plate = "TDM 2218",
    .kind = "return_visit",
    .words = "will not restart at the rank",
    .follows = "A-0003",
    .return_why = "part_failed",
    .cause = "battery cell failed under warranty",
    .arrived = "2025-09-02T15:40",
    .on_site_minutes = 45,
    .drive_minutes = 14,
    .millimiles = 4100,
    .net_cents = 0,
    .tax_cents = 0,
    .paid_cents = 0,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 3,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0010",
    .plate = "TDM 1216",
    .kind = "repair",
    .words = "no crank after rain",
    .follows = NULL,
    .return_why = NULL,
    .cause = "cowl drain blocked, water into relay box",
    .arrived = "2025-10-22T10:15",
    .on_site_minutes = 85,
    .drive_minutes = 18,
    .millimiles = 6200,
    .net_cents = 18240,
    .tax_cents = 211,
    .paid_cents = 18451,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 3,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0011",
    .plate = "TDM 2218",
    .kind = "upkeep",
    .words = "oil service",
    .follows = NULL,
    .return_why = NULL,
    .cause = "due by distance",
    .arrived = "2025-12-11T10:00",
    .on_site_minutes = 45,
    .drive_minutes = 14,
    .millimiles = 4100,
    .net_cents = 17740,
    .tax_cents = 747,
    .paid_cents = 18487,
    .n_findings = 3,
    .n_links = 1,
    .n_readings = 1,
    .n_installed = 3,
    .n_advice = 0,
  },
  {
    .number = "A-0012",
    .plate = "TDM 3319",
    .kind = "repair",
    .words = "hard to start from cold",
    .follows = NULL,
    .return_why = NULL,
    .cause = "glow plug 3 open circuit",
    .arrived = "2026-01-14T11:00",
    .on_site_minutes = 70,
    .drive_minutes = 16,
    .millimiles = 5800,
    .net_cents = 16080,
    .tax_cents = 230,
    .paid_cents = 16310,
    .n_findings = 3,
    .n_links = 1,
    .n_readings = 7,
    .n_installed = 1,
    .n_advice = 1,
  },
  {
    .number = "A-0013",
    .plate = "TDM 6613",
    .kind = "repair",
    .words = "battery lamp, slow crank",
    .follows = NULL,
    .return_why = NULL,
    .cause = "battery at 9 % of charge",
    .arrived = "2026-02-03T09:00",
    .on_site_minutes = 60,
    .drive_minutes = 28,
    .millimiles = 10400,
    .net_cents = 15040,
    .tax_cents = 339,
    .paid_cents = 15379,
    .n_findings = 7,
    .n_links = 5,
    .n_readings = 6,
    .n_installed = 1,
    .n_advice = 2,
  },
  {
    .number = "A-0014",
    .plate = "TDM 1204",
    .kind = "repair",
    .words = "dead on Thursday morning",
    .follows = NULL,
    .return_why = NULL,
    .cause = "rear-window heater relay welded shut",
    .arrived = "2026-02-05T08:50",
    .on_site_minutes = 65,
    .drive_minutes = 18,
    .millimiles = 6200,
    .net_cents = 22720,
    .tax_cents = 762,
    .paid_cents = 23482,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 6,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0015",
    .plate = "TDM 1204",
    .kind = "return_visit",
    .words = "dead again next day",
    .follows = "A-0014",
    .return_why = "our_work",
    .cause = "relay not pressed fully home (ours)",
    .arrived = "2026-02-06T08:15",
    .on_site_minutes = 20,
    .drive_minutes = 18,
    .millimiles = 6200,
    .net_cents = 0,
    .tax_cents = 0,
    .paid_cents = 0,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 3,
    .n_installed = 0,
    .n_advice = 0,
  },
  {
    .number = "A-0016",
    .plate = "TDM 1011",
    .kind = "repair",
    .words = "cuts out on hills",
    .follows = NULL,
    .return_why = NULL,
    .cause = "water in fuel filter; tank cap seal split",
    .arrived = "2026-02-11T13:00",
    .on_site_minutes = 75,
    .drive_minutes = 44,
    .millimiles = 22400,
    .net_cents = 19360,
    .tax_cents = 493,
    .paid_cents = 19853,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 2,
    .n_installed = 2,
    .n_advice = 0,
  },
  {
    .number = "A-0017",
    .plate = "TDM 3321",
    .kind = "repair",
    .words = "electric van will not wake",
    .follows = NULL,
    .return_why = NULL,
    .cause = "12 V battery worn at 5 years",
    .arrived = "2026-02-12T10:45",
    .on_site_minutes = 60,
    .drive_minutes = 16,
    .millimiles = 5800,
    .net_cents = 27880,
    .tax_cents = 1366,
    .paid_cents = 29246,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 3,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0018",
    .plate = "TDM 7717",
    .kind = "repair",
    .words = "dead after a double shift",
    .follows = NULL,
    .return_why = NULL,
    .cause = "not reproduced; a module that stays awake suspected",
    .arrived = "2026-02-17T15:30",
    .on_site_minutes = 70,
    .drive_minutes = 30,
    .millimiles = 10000,
    .net_cents = 13200,
    .tax_cents = 0,
    .paid_cents = 13200,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 4,
    .n_installed = 0,
    .n_advice = 0,
  },
  {
    .number = "A-0019",
    .plate = "TDM 9912",
    .kind = "repair",
    .words = "lamps dim at idle",
    .follows = NULL,
    .return_why = NULL,
    .cause = "alternator brushes at the end",
    .arrived = "2026-02-24T09:30",
    .on_site_minutes = 80,
    .drive_minutes = 26,
    .millimiles = 9100,
    .net_cents = 34640,
    .tax_cents = 1523,
    .paid_cents = 0,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 5,
    .n_installed = 1,
    .n_advice = 0,
  },
  {
    .number = "A-0020",
    .plate = "TDM 6613",
    .kind = "return_visit",
    .words = "belt squeals, lamp on again",
    .follows = "A-0013",
    .return_why = "declined_earlier",
    .cause = "water pump declined on A-0013",
    .arrived = "2026-02-26T08:45",
    .on_site_minutes = 165,
    .drive_minutes = 28,
    .millimiles = 10400,
    .net_cents = 50280,
    .tax_cents = 1814,
    .paid_cents = 52094,
    .n_findings = 2,
    .n_links = 1,
    .n_readings = 5,
    .n_installed = 3,
    .n_advice = 0,
  },
};

static HsJobView *
load (const PastJob *past)
{
  g_autofree char *id = ops_demo_job (past->number);
  g_autoptr (GError) error = NULL;
  HsJobView *view = hs_job_view_load (ops_demo_book (), id, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  return view;
}

static void
test_facts (gconstpointer data)
{
  const PastJob *past = data;
  g_autoptr (HsJobView) view = load (past);

  g_assert_cmpstr (view->tag->number, ==, past->number);
  g_assert_cmpint (view->tag->stage, ==, HS_STAGE_SQUARED);
  g_assert_cmpstr (view->tag->plate, ==, past->plate);
  g_assert_cmpstr (view->tag->words, ==, past->words);
  g_assert_cmpstr (view->kind, ==, past->kind);
  g_assert_cmpstr (view->follows_number, ==, past->follows);
  g_assert_cmpstr (view->return_why, ==, past->return_why);
}

static void
test_money (gconstpointer data)
{
  const PastJob *past = data;
  g_autoptr (HsJobView) view = load (past);

  g_assert_cmpint (view->net_cents, ==, past->net_cents);
  g_assert_cmpint (view->tax_cents, ==, past->tax_cents);
  g_assert_cmpint (view->paid_cents, ==, past->paid_cents);
}

static void
test_record (gconstpointer data)
{
  const PastJob *past = data;
  g_autoptr (HsJobView) view = load (past);
  gboolean told = FALSE;

  g_assert_cmpuint (view->findings->len, ==, past->n_findings);
  g_assert_cmpuint (view->because->len, ==, past->n_links);
  g_assert_cmpuint (view->readings->len, ==, past->n_readings);
  g_assert_cmpuint (view->installed->len, ==, past->n_installed);
  g_assert_cmpuint (view->advice->len, ==, past->n_advice);
  /* Work on the house needs no yes to a sum. */
  g_assert_cmpuint (view->go_aheads->len, ==, past->net_cents > 0 ? 1 : 0);
  for (guint i = 0; i < view->findings->len; i++)
    told |= strstr (g_ptr_array_index (view->findings, i), past->cause) != NULL;
  g_assert_true (told);
}

static void
test_visit (gconstpointer data)
{
  const PastJob *past = data;
  g_autofree char *id = ops_demo_job (past->number);
  g_autoptr (GPtrArray) visits = NULL;
  g_autoptr (GError) error = NULL;
  GTimeZone *zone = hs_book_get_zone (ops_demo_book ());
  HsInstant arrived;
  const HsVisitRow *visit;

  g_assert_true (hs_instant_parse (past->arrived, zone, &arrived, &error));
  g_assert_true (hs_visit_row_list_of (hs_book_get_store (ops_demo_book ()), id, &visits, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (visits->len, ==, 1);
  visit = g_ptr_array_index (visits, 0);
  g_assert_cmpint (visit->arrived_at, ==, arrived);
  g_assert_cmpint (visit->left_at - visit->arrived_at, ==, past->on_site_minutes * 60);
  g_assert_cmpint (visit->drive_seconds, ==, past->drive_minutes * 60);
  g_assert_cmpint (visit->drive_millimiles, ==, past->millimiles);
  g_assert_cmpint (visit->rolling_at, <, visit->arrived_at);
}

/* Returns by why: one of four reasons each, against sixteen first-time jobs. */
static void
test_comebacks (void)
{
  static const char *const whys[] = { "cheaper_choice", "part_failed", "our_work", "declined_earlier" };
  guint first = 0;

  for (gsize i = 0; i < G_N_ELEMENTS (past_jobs); i++)
    first += past_jobs[i].follows == NULL;
  g_assert_cmpuint (first, ==, 16);
  for (gsize k = 0; k < G_N_ELEMENTS (whys); k++)
    {
      guint n = 0;

      for (gsize i = 0; i < G_N_ELEMENTS (past_jobs); i++)
        {
          g_autoptr (HsJobView) view = load (&past_jobs[i]);

          n += g_strcmp0 (view->return_why, whys[k]) == 0;
        }
      g_assert_cmpuint (n, ==, 1);
    }
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    GTestDataFunc func;
  } rows[] = { { "facts", test_facts }, { "money", test_money }, { "record", test_record }, { "visit", test_visit } };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (past_jobs); i++)
    for (gsize k = 0; k < G_N_ELEMENTS (rows); k++)
      {
        g_autofree char *path = g_strdup_printf ("/past/%s/%s", past_jobs[i].number, rows[k].name);

        g_test_add_data_func (path, &past_jobs[i], rows[k].func);
      }
  g_test_add_func ("/past/comebacks", test_comebacks);
  return ops_demo_run ();
}
