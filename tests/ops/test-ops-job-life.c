// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job's life on site: questions, findings, choices, the yes, and parts that are installed. */

#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-money-row.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

#define DAY HS_SECONDS_PER_DAY

typedef struct
{
  HsOpsTest *test;
  char *job_id;
} Life;

static Life
life_start (void)
{
  Life life = { .test = hs_ops_test_open () };

  hs_ops_test_fill (life.test);
  hs_ops_test_import_ok (life.test, "stock", "van,part,quantity\nA,BW-55,1\n", 1, 0, 0);
  hs_ops_test_import_ok (life.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0115,hums,TDM 5508,2026-03-10\n"
                         "A-0002,555-0117,no plate yet,,2026-03-10\n",
                         2, 0, 0);
  hs_ops_test_import_ok (life.test, "needs", "job,part\nA-0001,BW-55\n", 1, 0, 0);
  life.job_id = hs_job_find (life.test->book, "A-0001", NULL);
  return life;
}

static void
life_clear (Life *life)
{
  hs_ops_test_close (life->test);
  g_free (life->job_id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Life, life_clear)

static char *
find_something (Life *life, const char *what, const char *role)
{
  HsFindingEntry entry = { .what = what, .role = role, .sure = "proven" };
  GError *error = NULL;
  char *id = hs_finding_add (life->test->book, life->job_id, &entry, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  return id;
}

static void
test_asked (void)
{
  g_auto (Life) life = life_start ();
  HsBook *book = life.test->book;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_asked_add (book, life.job_id, "Turn the key?", "silent", HS_OPS_TEST_NOW, &error));
  g_assert_true (hs_asked_add (book, life.job_id, "Turn the key?", "one click", HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (life.test, "asked WHERE answer = 'one click'"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (life.test, "asked"), ==, 1);
  g_assert_false (hs_asked_add (book, life.job_id, "Turn the key?", " ", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
}

/* A link tells by which kind of proof it holds; without a word it is only said, which proves no cause. */
static void
test_proof (void)
{
  static const struct
  {
    HsBecauseEntry entry;
    const char *stands;
    const char *refused;
  } rows[] = {
    { { .proof = "rest 11.42 V" }, "said", NULL },
    { { .proof = "drip", .kind = "seen" }, "seen", NULL },
    { { .proof = "rest 11.42 V", .kind = "rumor" }, NULL, "rumor" },
    { { .proof = "rest 11.42 V", .kind = "reading" }, NULL, "Which reading shows it" },
    { { .proof = "rest 11.42 V", .kind = "photo" }, NULL, "Which photo shows it" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Life) life = life_start ();
      g_autofree char *lamp = find_something (&life, "lamp on", "complaint");
      g_autofree char *belt = hs_finding_add (life.test->book, life.job_id,
                                              &(HsFindingEntry) { .what = "belt wet", .role = "cause" },
                                              HS_OPS_TEST_NOW, NULL);
      g_autofree char *where = g_strdup_printf ("because WHERE proof_kind = '%s'", rows[i].stands);
      g_autoptr (GError) error = NULL;
      g_autofree char *link = hs_because_add (life.test->book, lamp, belt, &rows[i].entry, HS_OPS_TEST_NOW, &error);

      g_assert_cmpint (link != NULL, ==, rows[i].refused == NULL);
      if (rows[i].refused != NULL)
        g_assert_nonnull (strstr (error->message, rows[i].refused));
      g_assert_cmpint (hs_ops_test_count (life.test, where), ==, rows[i].refused == NULL);
    }
}

static void
test_hearsay (void)
{
  g_auto (Life) life = life_start ();
  HsBook *book = life.test->book;
  const HsBecauseEntry said = { .proof = "the owner says so" };
  const HsFindingEntry told = { .what = "plain water", .role = "customer_said", .sure = "proven" };
  g_autofree char *lamp = find_something (&life, "lamp on", "complaint");
  g_autofree char *belt = find_something (&life, "belt wet", "cause");
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_because_add (book, lamp, belt, &said, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (strstr (error->message, "“belt wet” is called proven"));
  g_clear_error (&error);
  g_assert_null (hs_finding_add (book, life.job_id, &told, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (strstr (error->message, "only said"));
}

/* An end that has to be told keeps when that was. */
static void
test_told (void)
{
  static const struct
  {
    const char *ended;
    HsInstant told_at;
    const char *stands;
  } rows[] = {
    { "cured", 0, "told_at IS NULL" },
    { "chosen", 7, "told_at IS NULL" },
    { "outside_told", 0, "told_at = entered_at" },
    { "not_known_told", 7, "told_at = 7" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Life) life = life_start ();
      const HsFindingEntry entry = { .what = "plain water", .role = "customer_said", .ended = rows[i].ended,
                                     .cause = "wrong_fluid", .said_by = "Rue", .told_at = rows[i].told_at };
      g_autofree char *id = hs_finding_add (life.test->book, life.job_id, &entry, HS_OPS_TEST_NOW, NULL);
      g_autofree char *where = g_strdup_printf ("finding WHERE cause = 'wrong_fluid' AND said_by = 'Rue' AND %s",
                                                rows[i].stands);

      g_assert_nonnull (id);
      g_assert_cmpint (hs_ops_test_count (life.test, where), ==, 1);
    }
}

static void
test_finding_refused (void)
{
  static const HsFindingEntry rows[] = {
    { .what = "", .role = "cause" },
    { .what = "worn", .role = "rumor" },
    { .what = "worn", .role = "cause", .sure = "maybe" },
    { .what = "worn", .role = "cause", .weight = "heavy" },
    { .what = "worn", .role = "cause", .ended = "somehow" },
  };
  g_auto (Life) life = life_start ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_finding_add (life.test->book, life.job_id, &rows[i], HS_OPS_TEST_NOW, &error));
      g_assert_nonnull (error);
    }
  g_assert_cmpint (hs_ops_test_count (life.test, "finding"), ==, 0);
}

/* An option costs what its lines come to; another price, or a bad line, and nothing of it is written. */
static void
test_advice_lines (void)
{
  static const HsAdviceLineEntry belt[] = {
    { .what = "Fit the belt", .price_cents = 10200 },
    { .kind = "part", .what = "Drive belt", .quantity_milli = 1000, .cost_cents = 2400, .price_cents = 4240,
      .tax_cents = 339 },
  };
  static const HsAdviceLineEntry wordless[] = { { .what = "", .price_cents = 100 } };
  static const HsAdviceLineEntry kindless[] = { { .kind = "bribe", .what = "x", .price_cents = 100 } };
  static const struct
  {
    gint64 price_cents;
    const HsAdviceLineEntry *lines;
    gsize n_lines;
    const char *said;
  } rows[] = {
    { 0, belt, 2, NULL },
    { 14779, belt, 2, NULL },
    { 15379, belt, 2, "priced at 153.79, but its lines come to 147.79 with tax" },
    { 0, wordless, 1, "words" },
    { 0, kindless, 1, "bribe" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Life) life = life_start ();
      const HsAdviceEntry entry = { .wording = "Belt only", .choice = "open", .price_cents = rows[i].price_cents,
                                    .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE, .lines = rows[i].lines,
                                    .n_lines = rows[i].n_lines };
      g_autoptr (GError) error = NULL;
      g_autofree char *id = hs_advice_add (life.test->book, life.job_id, &entry, HS_OPS_TEST_NOW, &error);

      g_assert_cmpint (id != NULL, ==, rows[i].said == NULL);
      if (rows[i].said != NULL)
        hs_ops_test_refused (&error, rows[i].said);
      g_assert_cmpint (hs_ops_test_count (life.test, "advice WHERE price_cents = 14779"), ==, id != NULL);
      g_assert_cmpint (hs_ops_test_count (life.test, "advice"), ==, id != NULL);
      g_assert_cmpint (hs_ops_test_count (life.test, "advice_line"), ==, id != NULL ? 2 : 0);
    }
}

static void
test_advice (void)
{
  static const struct
  {
    HsAdviceEntry entry;
    const char *said;
  } rows[] = {
    { { .wording = "Pump", .choice = "no", .by = "Teo", .means = "in_person", .at = HS_OPS_TEST_NOW,
        .chase_on = HS_DATE_NONE },
      "risk" },
    { { .wording = "Pump", .choice = "yes", .at = HS_OPS_TEST_NOW, .chase_on = HS_DATE_NONE }, "who decided" },
    { { .wording = "", .choice = "open", .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE }, "words" },
    { { .wording = "Pump", .choice = "perhaps", .at = HS_INSTANT_NONE, .chase_on = HS_DATE_NONE }, "perhaps" },
    { { .wording = "Pump", .choice = "yes", .by = "Teo", .means = "pigeon", .at = HS_OPS_TEST_NOW,
        .chase_on = HS_DATE_NONE },
      "pigeon" },
  };
  HsAdviceEntry good = { .wording = "Pump",        .choice = "later", .by = "Teo", .means = "phone", .risk = "May leak",
                         .price_cents = 52094,     .rank = 1,         .group = "cure", .at = HS_OPS_TEST_NOW,
                         .chase_on = HS_DATE_NONE };
  g_auto (Life) life = life_start ();
  g_autofree char *id = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_advice_add (life.test->book, life.job_id, &rows[i].entry, HS_OPS_TEST_NOW, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, rows[i].said));
    }
  id = hs_advice_add (life.test->book, life.job_id, &good, HS_OPS_TEST_NOW, NULL);
  g_assert_nonnull (id);
  g_assert_cmpint (hs_ops_test_count (life.test, "advice WHERE choice = 'later' AND price_cents = 52094"), ==, 1);
}

static void
test_go_ahead (void)
{
  g_auto (Life) life = life_start ();
  HsBook *book = life.test->book;
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_go_ahead_add (book, life.job_id, 20000, " ", "phone", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_clear_error (&error);
  g_assert_false (hs_go_ahead_add (book, life.job_id, -1, "Teo", "phone", HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  g_assert_false (hs_go_ahead_add (book, life.job_id, 20000, "Teo", "wink", HS_OPS_TEST_NOW, &error));
  g_clear_error (&error);
  g_assert_true (hs_go_ahead_add (book, life.job_id, 20000, "Teo", "text message", HS_OPS_TEST_NOW, &error));
  g_assert_true (hs_go_ahead_add (book, life.job_id, 22000, "Teo", "in_person", HS_OPS_TEST_NOW + 60, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (life.test, "go_ahead"), ==, 2);
}

static char *
install (Life *life, const HsInstallEntry *entry, HsInstant now)
{
  GError *error = NULL;
  char *id = hs_part_install (life->test->book, life->job_id, entry, now, &error);

  g_assert_no_error (error);
  return id;
}

static HsInstalledRow *
load_installed (Life *life, const char *id)
{
  HsInstalledRow *row = NULL;

  g_assert_true (hs_installed_row_load (hs_book_get_store (life->test->book), id, &row, NULL));
  return row;
}

/* Out of the van, from the catalog: cover, place and line come with it, the stock and the need go. */
static void
test_install_from_van (void)
{
  g_auto (Life) life = life_start ();
  g_autofree char *why = find_something (&life, "worn", "cause");
  HsInstallEntry entry = { .part_number = "BW-55", .from_van = TRUE, .cost_cents = 6200, .why_finding_id = why,
                           .battery_kind = "Flooded", .ah = 55, .cca = 480, .maker = "Brackwater" };
  g_autofree char *id = install (&life, &entry, HS_OPS_TEST_NOW);
  g_autoptr (HsInstalledRow) row = load_installed (&life, id);
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (row->what, ==, "battery 55 Ah flooded");
  g_assert_cmpstr (row->kind, ==, "battery");
  g_assert_cmpstr (row->battery_kind, ==, "flooded");
  g_assert_cmpstr (row->place, ==, "under the hood");
  g_assert_cmpstr (row->known_by, ==, "we_installed_it");
  g_assert_cmpstr (row->replaced_why, ==, "failed");
  g_assert_cmpint (row->warranty_months, ==, 24);
  g_assert_cmpint (row->warranty_from, ==, hs_date_from_ymd (2026, 3, 10));
  g_assert_cmpint (hs_ops_test_count (life.test, "stock WHERE quantity_milli = 0"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (life.test, "need WHERE state = 'installed'"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (life.test, "line WHERE kind = 'part' AND cost_cents = 6200 "
                                                 "AND price_cents = 10080"),
                   ==, 1);
  g_assert_null (hs_part_install (life.test->book, life.job_id, &entry, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (strstr (error->message, "The van has no"));
  g_assert_cmpint (hs_ops_test_count (life.test, "installed_part"), ==, 1);
}

/* The new battery takes the place of the old one; a swap keeps its clock. */
static void
test_swap (void)
{
  g_auto (Life) life = life_start ();
  g_autofree char *why = find_something (&life, "cell failed", "cause");
  HsInstallEntry entry = { .what = "battery 70 Ah AGM", .battery_kind = "AGM", .why_finding_id = why,
                           .warranty_months = 36 };
  g_autofree char *first = install (&life, &entry, HS_OPS_TEST_NOW - 100 * DAY);
  g_autofree char *second = NULL;
  g_autoptr (HsInstalledRow) old = NULL;
  g_autoptr (HsInstalledRow) swap = NULL;

  entry.warranty_swap = TRUE;
  entry.warranty_months = 12;
  second = install (&life, &entry, HS_OPS_TEST_NOW);
  old = load_installed (&life, first);
  swap = load_installed (&life, second);
  g_assert_cmpint (old->removed_on, ==, hs_date_from_ymd (2026, 3, 10));
  g_assert_cmpstr (old->removed_job_id, ==, life.job_id);
  g_assert_cmpstr (swap->stands_in_for_id, ==, first);
  g_assert_cmpint (swap->warranty_from, ==, old->installed_on);
  g_assert_cmpint (swap->warranty_months, ==, 36);
  g_assert_cmpint (swap->removed_on, ==, HS_DATE_NONE);
}

/* What belongs to a battery does not take its place. */
static void
test_battery_cable (void)
{
  g_auto (Life) life = life_start ();
  HsInstallEntry battery = { .what = "battery 70 Ah AGM", .why = "not_known" };
  HsInstallEntry cable = { .what = "battery cable", .why = "not_known" };
  g_autofree char *first = install (&life, &battery, HS_OPS_TEST_NOW - 100 * DAY);
  g_autofree char *second = install (&life, &cable, HS_OPS_TEST_NOW);
  g_autoptr (HsInstalledRow) old = load_installed (&life, first);
  g_autoptr (HsInstalledRow) row = load_installed (&life, second);

  g_assert_cmpstr (row->kind, ==, NULL);
  g_assert_cmpstr (old->kind, ==, "battery");
  g_assert_cmpint (old->removed_on, ==, HS_DATE_NONE);
}

static void
test_not_known (void)
{
  g_auto (Life) life = life_start ();
  HsInstallEntry entry = { .what = "relay", .why = "not_known" };
  g_autofree char *id = install (&life, &entry, HS_OPS_TEST_NOW);
  g_autoptr (HsInstalledRow) row = load_installed (&life, id);

  g_assert_cmpstr (row->replaced_why, ==, "not_known");
  g_assert_cmpint (row->told_at, ==, HS_OPS_TEST_NOW);
  g_assert_null (row->kind);
}

static void
test_install_refused (void)
{
  static const struct
  {
    HsInstallEntry entry;
    const char *said;
  } rows[] = {
    { { .what = "" }, "What was installed" },
    { { .part_number = "NO-1" }, "NO-1" },
    { { .what = "relay", .cost_cents = -1 }, "not less than nothing" },
    { { .what = "battery", .warranty_swap = TRUE }, "stands in for a part" },
    { { .what = "battery", .battery_kind = "steam" }, "steam" },
    { { .what = "relay", .from_van = TRUE }, "Name it by its number" },
    { { .part_number = "GP-20D", .from_van = TRUE }, "The van has no glow plug" },
    { { .what = "relay", .why = "failed" }, "failed" },
  };
  g_auto (Life) life = life_start ();
  gint64 seen = hs_ops_test_count (life.test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_part_install (life.test->book, life.job_id, &rows[i].entry, HS_OPS_TEST_NOW, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, rows[i].said));
      g_assert_cmpint (hs_ops_test_count (life.test, "change_log"), ==, seen);
    }
}

static void
test_install_needs_vehicle (void)
{
  g_auto (Life) life = life_start ();
  g_autofree char *id = hs_job_find (life.test->book, "A-0002", NULL);
  HsInstallEntry entry = { .what = "relay" };
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_part_install (life.test->book, id, &entry, HS_OPS_TEST_NOW, &error));
  g_assert_nonnull (strstr (error->message, "A-0002 has no vehicle yet"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/life/asked", test_asked);
  g_test_add_func ("/life/proof", test_proof);
  g_test_add_func ("/life/hearsay", test_hearsay);
  g_test_add_func ("/life/told", test_told);
  g_test_add_func ("/life/finding-refused", test_finding_refused);
  g_test_add_func ("/life/advice", test_advice);
  g_test_add_func ("/life/advice-lines", test_advice_lines);
  g_test_add_func ("/life/go-ahead", test_go_ahead);
  g_test_add_func ("/life/install-from-van", test_install_from_van);
  g_test_add_func ("/life/swap", test_swap);
  g_test_add_func ("/life/battery-cable", test_battery_cable);
  g_test_add_func ("/life/not-known", test_not_known);
  g_test_add_func ("/life/install-refused", test_install_refused);
  g_test_add_func ("/life/install-needs-vehicle", test_install_needs_vehicle);
  return g_test_run ();
}
