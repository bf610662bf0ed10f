// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The why-chain of a job, step by step: what each step writes, what it refuses and in which words, and that a refused
 * step leaves nothing behind. */

#include "hs-chain-op.h"
#include "hs-core-error.h"
#include "hs-finding-row.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
} Site;

static Site
site_start (void)
{
  Site site = { .test = hs_ops_test_open () };

  hs_ops_test_fill (site.test);
  hs_ops_test_import_ok (site.test, "jobs",
                         "number,customer_phone,words,plate,day\n"
                         "A-0001,555-0115,dead after a weekend,TDM 5508,2026-03-10\n"
                         "A-0002,555-0117,hums,,2026-03-10\n",
                         2, 0, 0);
  site.book = site.test->book;
  site.job_id = hs_job_find (site.book, "A-0001", NULL);
  return site;
}

static void
site_clear (Site *site)
{
  hs_ops_test_close (site->test);
  g_free (site->job_id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Site, site_clear)

static char *
read_check (Site *site, const char *check, const char *text, const char *phase)
{
  HsReadingEntry entry = { .check = check, .text = text, .phase = phase, .at = NOW };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job_id, &entry, NOW, &error);

  g_assert_no_error (error);
  return g_strdup (result->id);
}

static char *
find_something (Site *site, const char *what, const char *role, const char *sure)
{
  HsFindingEntry entry = { .what = what, .role = role, .sure = sure };
  g_autoptr (GError) error = NULL;
  char *id = hs_finding_add (site->book, site->job_id, &entry, NOW, &error);

  g_assert_no_error (error);
  return id;
}

static char *
extend (Site *site, const char *effect_id, const char *what, const char *role, const char *by, const char *proof)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_chain_extend (site->book, site->job_id, effect_id, &(HsFindingEntry){ .what = what, .role = role },
                              &(HsBecauseEntry){ .kind = by, .proof = proof }, NOW, &error);

  g_assert_no_error (error);
  return id;
}

static HsJobChain *
load (Site *site)
{
  g_autoptr (GError) error = NULL;
  HsJobChain *chain = hs_job_chain_load (site->book, site->job_id, &error);

  g_assert_no_error (error);
  return chain;
}

static HsFindingRow *
load_finding (Site *site, const char *id)
{
  HsFindingRow *row = NULL;

  g_assert_true (hs_finding_row_load (hs_book_get_store (site->book), id, &row, NULL));
  return row;
}

/* The error must say @words; it is cleared. */
static void
assert_says (GError **error, const char *words)
{
  g_assert_nonnull (*error);
  if (strstr ((*error)->message, words) == NULL)
    g_error ("“%s” does not say “%s”", (*error)->message, words);
  g_clear_error (error);
}

static void
test_empty (void)
{
  g_auto (Site) site = site_start ();
  g_autoptr (HsJobChain) chain = load (&site);
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (chain->words, ==, "dead after a weekend");
  g_assert_cmpuint (hs_chain_get_n_findings (chain->chain), ==, 0);
  g_assert_cmpuint (chain->rows->len, ==, 0);
  g_assert_cmpuint (chain->tips->len, ==, 0);
  g_assert_cmpuint (chain->sentences->len, ==, 0);
  g_assert_null (chain->open);
  g_assert_null (hs_job_chain_load (site.book, "nobody", &error));
  g_assert_nonnull (error);
  hs_job_chain_free (NULL);
}

/* From the complaint to the end, a cause at a time. */
static void
test_extend (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *reading = read_check (&site, "sleeping_draw", "0.31", "before");
  g_autoptr (GError) error = NULL;
  g_autofree char *flat = extend (&site, NULL, "battery flat", NULL, "seen", "no lamp glows");
  g_autofree char *draw = hs_chain_extend (site.book, site.job_id, flat,
                                           &(HsFindingEntry){ .what = "draw while parked", .place = "fuse box" },
                                           &(HsBecauseEntry){ .reading_id = reading }, NOW, &error);
  g_autofree char *radio = extend (&site, draw, "radio left on", "customer_said", "said", "it may have been on");
  g_autoptr (HsJobChain) chain = NULL;

  g_assert_no_error (error);
  chain = load (&site);
  g_assert_cmpuint (hs_chain_get_n_findings (chain->chain), ==, 4);
  g_assert_cmpuint (hs_chain_get_n_links (chain->chain), ==, 3);
  g_assert_cmpint (hs_chain_get_finding (chain->chain, 0)->role, ==, HS_CHAIN_COMPLAINT);
  g_assert_cmpstr (hs_chain_get_finding (chain->chain, 0)->what, ==, "dead after a weekend");
  g_assert_cmpint (hs_chain_find (chain->chain, flat)->sure, ==, HS_CHAIN_PROVEN);
  g_assert_cmpint (hs_chain_find (chain->chain, draw)->sure, ==, HS_CHAIN_PROVEN);
  g_assert_cmpstr (hs_chain_find (chain->chain, draw)->place, ==, "fuse box");
  g_assert_cmpint (hs_chain_find (chain->chain, radio)->sure, ==, HS_CHAIN_SUSPECTED);
  g_assert_cmpstr (hs_chain_find (chain->chain, radio)->said_by, ==, "Teo Calloway");
  g_assert_cmpint (hs_chain_get_link (chain->chain, 1)->by, ==, HS_CHAIN_BY_READING);
  g_assert_true (g_str_has_prefix (hs_chain_get_link (chain->chain, 1)->proof, "Sleeping draw 0.310 A"));
  g_assert_nonnull (strstr (chain->open, "“radio left on”"));
  g_assert_cmpuint (chain->rows->len, ==, 4);
  g_assert_cmpuint (chain->sentences->len, ==, 3);
}

/* A proof by eye proves what the mechanic says, not what the customer said. */
static void
test_extend_sure (void)
{
  static const struct
  {
    const char *role;
    const char *by;
    const char *sure;
    HsChainSure expected;
  } rows[] = {
    { NULL, "seen", NULL, HS_CHAIN_PROVEN },
    { NULL, "seen", "suspected", HS_CHAIN_SUSPECTED },
    { NULL, "seen", "not_known", HS_CHAIN_NOT_KNOWN },
    { NULL, "said", NULL, HS_CHAIN_SUSPECTED },
    { NULL, NULL, NULL, HS_CHAIN_SUSPECTED },
    { "cause", "reading", NULL, HS_CHAIN_PROVEN },
    { "customer_said", "said", NULL, HS_CHAIN_SUSPECTED },
    { "customer_said", "seen", NULL, HS_CHAIN_SUSPECTED },
    { "customer_said", "reading", NULL, HS_CHAIN_PROVEN },
    { "customer_said", "reading", "proven", HS_CHAIN_PROVEN },
    { "ruled_out", "seen", NULL, HS_CHAIN_PROVEN },
  };
  g_auto (Site) site = site_start ();
  g_autofree char *reading = read_check (&site, "battery_rest", "12.60", "before");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *what = g_strdup_printf ("cause %" G_GSIZE_FORMAT, i);
      HsFindingEntry cause = { .what = what, .role = rows[i].role, .sure = rows[i].sure };
      HsBecauseEntry link = { .kind = rows[i].by, .proof = "x", .reading_id = reading };
      g_autoptr (GError) error = NULL;
      g_autofree char *id = NULL;
      g_autoptr (HsJobChain) chain = NULL;

      if (g_strcmp0 (rows[i].by, "reading") != 0)
        link.reading_id = NULL;
      id = hs_chain_extend (site.book, site.job_id, NULL, &cause, &link, NOW, &error);
      g_assert_no_error (error);
      chain = load (&site);
      g_assert_cmpint (hs_chain_find (chain->chain, id)->sure, ==, rows[i].expected);
    }
}

static void
test_extend_refused (void)
{
  static const struct
  {
    HsFindingEntry cause;
    HsBecauseEntry link;
    const char *words;
  } rows[] = {
    { { .what = "draw" }, { .kind = "seen" }, "dead after a weekend ← draw needs a proof" },
    { { .what = "draw" }, { .kind = "seen", .proof = "  " }, "needs a proof" },
    { { .what = "draw" }, { .kind = "reading", .proof = "x" }, "Which reading shows it?" },
    { { .what = "draw" }, { .kind = "photo", .proof = "x" }, "Which photo shows it?" },
    { { .what = "draw" }, { .kind = "hearsay", .proof = "x" }, "“hearsay” is not a kind of proof" },
    { { .what = " " }, { .kind = "seen", .proof = "x" }, "A finding needs words" },
    { { .what = "draw", .role = "rumor" }, { .kind = "seen", .proof = "x" }, "rumor" },
    { { .what = "draw", .sure = "maybe" }, { .kind = "seen", .proof = "x" }, "maybe" },
    { { .what = "draw", .sure = "proven" }, { .kind = "said", .proof = "x" }, "“draw” was only said" },
    { { .what = "starter", .role = "ruled_out" }, { .kind = "said", .proof = "x" }, "Words alone rule nothing out" },
    { { .what = "starter", .role = "ruled_out", .ended = "cured" }, { .kind = "seen", .proof = "x" }, "is ruled out" },
    { { .what = "draw" }, { .reading_id = "nothing" }, "" },
  };
  g_auto (Site) site = site_start ();
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_null (hs_chain_extend (site.book, site.job_id, NULL, &rows[i].cause, &rows[i].link, NOW, &error));
      assert_says (&error, rows[i].words);
      g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 0);
      g_assert_cmpint (hs_ops_test_count (site.test, "because"), ==, 0);
    }
  g_assert_null (hs_chain_extend (site.book, site.job_id, "nobody", &(HsFindingEntry){ .what = "draw" },
                                  &(HsBecauseEntry){ .kind = "seen", .proof = "x" }, NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
  assert_says (&error, "no such finding");
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 0);
}

/* Links between findings that are there, and the ring in words. */
static void
test_because (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *dead = hs_complaint_ensure (site.book, site.job_id, NOW, NULL);
  g_autofree char *again = hs_complaint_ensure (site.book, site.job_id, NOW, NULL);
  g_autofree char *flat = find_something (&site, "battery flat", "cause", "suspected");
  g_autofree char *draw = find_something (&site, "draw", "cause", "suspected");
  const struct
  {
    const char *effect;
    const char *cause;
    const char *words;
  } rows[] = {
    { dead, flat, NULL },
    { flat, draw, NULL },
    { draw, flat, "draw ← battery flat ← draw leads back to itself" },
    { flat, flat, "battery flat ← battery flat leads back to itself" },
    { flat, draw, "“draw” stands as a cause of “battery flat” already" },
    { draw, "nobody", "Write the finding down first" },
    { "nobody", draw, "no such finding" },
  };
  HsBecauseEntry seen = { .kind = "seen", .proof = "x", .how = "while parked" };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobChain) chain = NULL;

  g_assert_cmpstr (dead, ==, again);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = hs_because_add (site.book, rows[i].effect, rows[i].cause, &seen, NOW, &error);

      g_assert_cmpint (id != NULL, ==, rows[i].words == NULL);
      if (rows[i].words != NULL)
        assert_says (&error, rows[i].words);
      g_assert_no_error (error);
    }
  chain = load (&site);
  g_assert_cmpuint (hs_chain_get_n_links (chain->chain), ==, 2);
  g_assert_cmpstr (hs_chain_get_link (chain->chain, 1)->how, ==, "while parked");
}

static void
test_other_job (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *other = hs_job_find (site.book, "A-0002", NULL);
  g_autofree char *hums = hs_complaint_ensure (site.book, other, NOW, NULL);
  g_autofree char *draw = find_something (&site, "draw", "cause", "suspected");
  g_autofree char *reading = read_check (&site, "battery_rest", "12.60", "before");
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_because_add (site.book, hums, draw, &(HsBecauseEntry){ .kind = "seen", .proof = "x" }, NOW,
                                 &error));
  assert_says (&error, "two findings of one job");
  g_assert_null (hs_chain_extend (site.book, other, hums, &(HsFindingEntry){ .what = "bearing" },
                                  &(HsBecauseEntry){ .reading_id = reading, .proof = "x" }, NOW, &error));
  assert_says (&error, "belong to one job");
  g_assert_cmpint (hs_ops_test_count (site.test, "because"), ==, 0);
}

static void
test_remove (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *flat = extend (&site, NULL, "battery flat", NULL, "seen", "x");
  g_autofree char *said = extend (&site, flat, "left on", "customer_said", "said", "x");
  g_autofree char *reading = read_check (&site, "sleeping_draw", "0.31", "before");
  g_autofree char *draw = hs_chain_extend (site.book, site.job_id, flat,
                                           &(HsFindingEntry){ .what = "draw", .role = "customer_said" },
                                           &(HsBecauseEntry){ .reading_id = reading }, NOW, NULL);
  g_autofree char *said_link = hs_ops_test_id (site.test, "SELECT id FROM because WHERE proof_kind = 'said'");
  g_autofree char *draw_link = hs_ops_test_id (site.test, "SELECT id FROM because WHERE proof_kind = 'reading'");
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_finding_remove (site.book, said, NOW, &error));
  assert_says (&error, "“left on” is linked. Take its links away first");
  g_assert_true (hs_because_remove (site.book, said_link, NOW, &error));
  g_assert_true (hs_finding_remove (site.book, said, NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "finding WHERE what = 'left on'"), ==, 0);
  g_assert_false (hs_because_remove (site.book, draw_link, NOW, &error));
  assert_says (&error, "“draw” is called proven by this link. Call it suspected first");
  g_assert_true (hs_finding_call (site.book, draw, "suspected", NOW, &error));
  g_assert_true (hs_because_remove (site.book, draw_link, NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "because"), ==, 1);
  g_assert_false (hs_because_remove (site.book, "nobody", NOW, &error));
  g_clear_error (&error);
  g_assert_false (hs_finding_remove (site.book, "nobody", NOW, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
}

static void
test_reword (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *flat = extend (&site, NULL, "battery flat", NULL, "seen", "x");
  g_autoptr (HsFindingRow) row = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_finding_reword (site.book, flat, "battery nearly empty", "trunk", NOW, &error));
  g_assert_no_error (error);
  row = load_finding (&site, flat);
  g_assert_cmpstr (row->what, ==, "battery nearly empty");
  g_assert_cmpstr (row->place, ==, "trunk");
  g_assert_cmpstr (row->sure, ==, "proven");
  g_assert_false (hs_finding_reword (site.book, flat, " ", NULL, NOW, &error));
  assert_says (&error, "A finding needs words");
}

/* Ends, and when the customer was told. */
static void
test_settle (void)
{
  static const struct
  {
    const char *ended;
    const char *kept;
    gboolean told;
  } rows[] = {
    { "cured", "cured", FALSE },
    { "not known, told", "not_known_told", TRUE },
    { "chosen", "chosen", FALSE },
    { "outside_told", "outside_told", TRUE },
    { NULL, NULL, FALSE },
    { "", NULL, FALSE },
  };
  g_auto (Site) site = site_start ();
  g_autofree char *flat = extend (&site, NULL, "battery flat", NULL, "seen", "x");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsFindingRow) row = NULL;
      g_autoptr (HsJobChain) chain = NULL;

      g_assert_true (hs_finding_settle (site.book, flat, rows[i].ended, NOW + 60, &error));
      g_assert_no_error (error);
      row = load_finding (&site, flat);
      g_assert_cmpstr (row->ended, ==, rows[i].kept);
      g_assert_cmpint (row->told_at, ==, rows[i].told ? NOW + 60 : HS_INSTANT_NONE);
      chain = load (&site);
      g_assert_cmpint (chain->open == NULL, ==, rows[i].kept != NULL);
    }
  g_assert_false (hs_finding_settle (site.book, flat, "somehow", NOW, &error));
  assert_says (&error, "somehow");
  g_assert_false (hs_finding_settle (site.book, "nobody", "cured", NOW, &error));
  assert_says (&error, "no such finding");
}

static void
test_settle_refused (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *flat = extend (&site, NULL, "battery flat", NULL, "seen", "x");
  g_autofree char *draw = extend (&site, flat, "draw", NULL, "seen", "x");
  g_autofree char *starter = extend (&site, flat, "starter", "ruled_out", "seen", "x");
  g_autofree char *dead = hs_complaint_ensure (site.book, site.job_id, NOW, NULL);
  const struct
  {
    const char *id;
    const char *ended;
    const char *words;
  } rows[] = {
    { dead, "cured", "“dead after a weekend” has causes" },
    { flat, "not_known_told", "What is behind “battery flat” is written down" },
    { starter, "cured", "“starter” is ruled out" },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_finding_settle (site.book, rows[i].id, rows[i].ended, NOW, &error));
      assert_says (&error, rows[i].words);
    }
  g_assert_true (hs_finding_settle (site.book, draw, "not_known_told", NOW, &error));
  g_assert_null (hs_chain_extend (site.book, site.job_id, draw, &(HsFindingEntry){ .what = "strap" },
                                  &(HsBecauseEntry){ .kind = "seen", .proof = "x" }, NOW, &error));
  assert_says (&error, "“draw” stands as not known. Open that end first");
}

static void
test_call (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *flat = extend (&site, NULL, "battery flat", NULL, "said", "x");
  g_autofree char *said = extend (&site, flat, "left on", "customer_said", "seen", "x");
  g_autofree char *draw = extend (&site, flat, "draw", NULL, "seen", "x");
  const struct
  {
    const char *id;
    const char *sure;
    const char *words;
  } rows[] = {
    { flat, "proven", "“battery flat” was only said. It is proven once a reading or a photo shows it" },
    { flat, "not_known", NULL },
    { said, "proven", "“left on” was only said" },
    { draw, "suspected", NULL },
    { draw, "proven", NULL },
    { draw, "surely", "surely" },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpint (hs_finding_call (site.book, rows[i].id, rows[i].sure, NOW, &error), ==, rows[i].words == NULL);
      if (rows[i].words != NULL)
        assert_says (&error, rows[i].words);
      g_assert_no_error (error);
    }
}

/* Two broken parts, one end cured: tested good waits for the other end. */
static void
test_stage (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *battery = extend (&site, NULL, "battery worn", NULL, "seen", "x");
  g_autofree char *alternator = extend (&site, NULL, "alternator weak", NULL, "seen", "x");
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW, &error));
  after = read_check (&site, "charging", "14.20", "after");
  g_assert_false (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, NULL, NOW, &error));
  assert_says (&error, "still open at “battery worn” and “alternator weak”");
  g_assert_true (hs_finding_settle (site.book, battery, "cured", NOW, &error));
  g_assert_false (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, "customer drove off", NOW, &error));
  g_assert_error (error, HS_CORE_ERROR, HS_CORE_ERROR_REFUSED);
  assert_says (&error, "still open at “alternator weak”");
  g_assert_true (hs_finding_settle (site.book, alternator, "chosen", NOW, &error));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, NULL, NOW, &error));
  g_assert_no_error (error);
  /* An end that opens again keeps it from being squared up. */
  g_assert_true (hs_finding_settle (site.book, alternator, NULL, NOW, &error));
  g_assert_false (hs_job_square (site.book, site.job_id, NOW, &error));
  assert_says (&error, "still open at “alternator weak”");
}

/* What squared freezes. */
static void
test_squared (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *battery = extend (&site, NULL, "battery worn", NULL, "seen", "bulges");
  g_autofree char *link = hs_ops_test_id (site.test, "SELECT id FROM because");
  g_autofree char *after = NULL;
  g_autofree char *frozen = NULL;
  g_autoptr (GError) error = NULL;
  gboolean done[4];

  g_assert_true (hs_finding_settle (site.book, battery, "cured", NOW, &error));
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW, &error));
  after = read_check (&site, "battery_rest", "12.60", "after");
  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_PROVEN, NULL, NOW + 60, &error));
  g_assert_true (hs_go_ahead_add (site.book, site.job_id, 100000, "Teo", "in_person", NOW + 60, &error));
  g_assert_true (hs_job_price (site.book, site.job_id, NULL, NOW + 60, &error));
  g_assert_true (hs_job_square (site.book, site.job_id, NOW + 120, &error));
  g_assert_no_error (error);
  done[0] = hs_finding_settle (site.book, battery, NULL, NOW, NULL);
  done[1] = hs_finding_call (site.book, battery, "suspected", NOW, NULL);
  done[2] = hs_finding_reword (site.book, battery, "x", NULL, NOW, NULL);
  done[3] = hs_because_remove (site.book, link, NOW, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (done); i++)
    g_assert_false (done[i]);
  g_assert_null (hs_chain_extend (site.book, site.job_id, battery, &(HsFindingEntry){ .what = "age" },
                                  &(HsBecauseEntry){ .kind = "seen", .proof = "x" }, NOW, &error));
  assert_says (&error, "squared up");
  frozen = hs_ops_test_id (site.test, "SELECT frozen FROM invoice");
  g_assert_nonnull (strstr (frozen, "\"why_it_failed\":[\"The reason for “dead after a weekend”: battery worn (seen: "
                                    "bulges); this was put right on this visit.\"]"));
}

/* Links of books from before say in another place what kind of proof they have; and one with nobody behind it. */
static void
test_older (void)
{
  static const struct
  {
    const char *how;
    HsChainProof by;
    const char *kept_how;
  } rows[] = {
    { "'read'", HS_CHAIN_BY_READING, NULL },  { "'photo'", HS_CHAIN_BY_PHOTO, NULL },
    { "'seen'", HS_CHAIN_BY_EYE, NULL },      { "'said'", HS_CHAIN_BY_WORD, NULL },
    { "'it rubs'", HS_CHAIN_BY_WORD, "it rubs" }, { "NULL", HS_CHAIN_BY_WORD, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Site) site = site_start ();
      g_autofree char *sql = g_strdup_printf (
        "INSERT INTO finding (id, job_id, what, role, sure) SELECT 'a', id, 'lamp', 'complaint', 'proven' FROM job "
        "WHERE number = 'A-0001'; "
        "INSERT INTO finding (id, job_id, what, role, sure) SELECT 'b', job_id, 'belt', 'cause', 'suspected' FROM "
        "finding; INSERT INTO because (id, job_id, effect_id, cause_id, how, proof) SELECT 'l', job_id, 'a', 'b', %s, "
        "'wet' FROM finding WHERE id = 'a'",
        rows[i].how);
      g_autoptr (HsJobChain) chain = NULL;

      hs_ops_test_run (site.test, sql);
      chain = load (&site);
      g_assert_cmpint (hs_chain_get_link (chain->chain, 0)->by, ==, rows[i].by);
      g_assert_cmpstr (hs_chain_get_link (chain->chain, 0)->how, ==, rows[i].kept_how);
    }
}

/* What stands behind an end on the invoice: parts for it, or the choice. */
static void
test_notes (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *battery = extend (&site, NULL, "battery worn", NULL, "seen", "bulges");
  g_autofree char *seal = extend (&site, NULL, "seal weeps", NULL, "seen", "wet");
  HsInstallEntry part = { .what = "battery 55 Ah", .battery_kind = "flooded", .why_finding_id = battery };
  HsAdviceEntry advice = { .group = "cure", .rank = 1, .wording = "Belt only", .choice = "yes", .by = "Teo Calloway",
                           .means = "in_person", .at = NOW, .chase_on = HS_DATE_NONE };
  g_autofree char *part_id = hs_part_install (site.book, site.job_id, &part, NOW, NULL);
  g_autofree char *advice_id = hs_advice_add (site.book, site.job_id, &advice, NOW, NULL);
  g_autoptr (HsJobChain) chain = NULL;

  advice.rank = 2;
  advice.wording = "Pump and belt";
  advice.choice = "no";
  advice.risk = "may leak";
  g_free (hs_advice_add (site.book, site.job_id, &advice, NOW, NULL));
  g_assert_true (hs_finding_settle (site.book, battery, "cured", NOW, NULL));
  g_assert_true (hs_finding_settle (site.book, seal, "chosen", NOW, NULL));
  chain = load (&site);
  g_assert_cmpstr (hs_chain_find (chain->chain, battery)->end_note, ==, "battery 55 Ah installed");
  g_assert_cmpstr (hs_chain_find (chain->chain, seal)->end_note, ==, "Belt only, Teo Calloway");
  g_assert_nonnull (part_id);
  g_assert_nonnull (advice_id);
}

static void
test_find_proof (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *after = read_check (&site, "battery_rest", "12.60", "after");
  g_autoptr (GError) error = NULL;
  g_autofree char *only = hs_reading_find_proof (site.book, site.job_id, "battery_rest", NULL, &error);
  g_autofree char *first = read_check (&site, "battery_rest", "11.20", "before");
  g_autofree char *second = read_check (&site, "battery_rest", "11.30", "before");
  g_autofree char *last = read_check (&site, "battery_rest", "12.70", "after");
  g_autofree char *found = hs_reading_find_proof (site.book, site.job_id, "battery_rest", NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (only, ==, after);
  g_assert_cmpstr (found, ==, second);
  g_assert_null (hs_reading_find_proof (site.book, site.job_id, "battery_rest", "trunk", &error));
  assert_says (&error, "There is no reading of “battery_rest” on this job");
  g_assert_null (hs_reading_find_proof (site.book, site.job_id, "charging", NULL, &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
  g_clear_error (&error);
  g_assert_null (hs_reading_find_proof (site.book, site.job_id, "smell", NULL, &error));
  g_assert_nonnull (error);
  g_assert_nonnull (first);
  g_assert_nonnull (last);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-op/empty", test_empty);
  g_test_add_func ("/chain-op/extend", test_extend);
  g_test_add_func ("/chain-op/extend-sure", test_extend_sure);
  g_test_add_func ("/chain-op/extend-refused", test_extend_refused);
  g_test_add_func ("/chain-op/because", test_because);
  g_test_add_func ("/chain-op/other-job", test_other_job);
  g_test_add_func ("/chain-op/remove", test_remove);
  g_test_add_func ("/chain-op/reword", test_reword);
  g_test_add_func ("/chain-op/settle", test_settle);
  g_test_add_func ("/chain-op/settle-refused", test_settle_refused);
  g_test_add_func ("/chain-op/call", test_call);
  g_test_add_func ("/chain-op/stage", test_stage);
  g_test_add_func ("/chain-op/squared", test_squared);
  g_test_add_func ("/chain-op/older", test_older);
  g_test_add_func ("/chain-op/notes", test_notes);
  g_test_add_func ("/chain-op/find-proof", test_find_proof);
  return g_test_run ();
}
