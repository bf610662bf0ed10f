// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Naming a cause, ruling one out, repairing it, one more complaint; and what own squared jobs teach. */

#include "hs-chain-op.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-undo.h"
#include "ops-next.h"

#define NOW HS_OPS_TEST_NOW
#define HAIR 1e-9

static char *
name_cause (OpsNext *site, const char *cause, gboolean is_it, const char *seen, GError **error)
{
  return hs_job_name_cause (site->book, site->job_id, NULL, cause, is_it, seen, NOW, error);
}

/* The proof is the reading that speaks most for it; the chain has it, and the others still stand beside it. */
static void
test_is (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;
  g_autofree char *finding = NULL;
  g_autoptr (HsJobChain) chain = NULL;
  g_autoptr (HsJobNext) next = NULL;
  const HsChainLink *link;

  ops_next_read (&site, "battery_rest", "11.95", "before");
  finding = name_cause (&site, "a", TRUE, NULL, &error);
  g_assert_no_error (error);
  chain = hs_job_chain_load (site.book, site.job_id, &error);
  g_assert_cmpuint (hs_chain_get_n_links (chain->chain), ==, 1);
  link = hs_chain_get_link (chain->chain, 0);
  g_assert_cmpint (link->by, ==, HS_CHAIN_BY_READING);
  g_assert_cmpstr (link->proof, ==, "Battery at rest 11.95 V, 9 %");
  g_assert_cmpstr (hs_chain_find (chain->chain, link->cause_id)->what, ==, "Battery");
  next = ops_next_ask (&site);
  g_assert_cmpint (ops_next_cause (next, "a")->standing, ==, HS_NEXT_PROVEN);
  g_assert_cmpint (ops_next_cause (next, "b")->standing, ==, HS_NEXT_UNLIKELY);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (next, "b")->weight, 1 / 14.5, HAIR);
  g_assert_cmpstr (((const HsNextLine *) g_ptr_array_index (next->lines, 0))->id, ==, "a");
  g_assert_cmpfloat (((const HsNextLine *) g_ptr_array_index (next->lines, 0))->expected_minutes, ==, 20);
}

/* Cured: it was that, until a reading after it says otherwise; nothing else is looked for. */
static void
test_cured (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;
  g_autofree char *finding = name_cause (&site, "a", TRUE, "it bulges", &error);
  g_autoptr (HsJobNext) next = NULL;

  g_assert_no_error (error);
  g_assert_true (hs_finding_settle (site.book, finding, "cured", NOW, &error));
  next = ops_next_ask (&site);
  g_assert_cmpint (ops_next_cause (next, "a")->standing, ==, HS_NEXT_REPAIRED);
  g_assert_cmpfloat (ops_next_cause (next, "a")->weight, ==, 0.75);
  g_assert_cmpint (ops_next_cause (next, "b")->standing, ==, HS_NEXT_UNLIKELY);
  g_assert_cmpuint (next->lines->len, ==, 0);
  g_assert_cmpstr (((const HsNextCause *) g_ptr_array_index (next->causes, 0))->id, ==, "a");
}

static void
test_not (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;
  g_autofree char *finding = NULL;
  g_autoptr (HsJobNext) next = NULL;

  ops_next_read (&site, "battery_rest", "12.60", "before");
  finding = name_cause (&site, "a", FALSE, NULL, &error);
  g_assert_no_error (error);
  next = ops_next_ask (&site);
  g_assert_cmpint (ops_next_cause (next, "a")->standing, ==, HS_NEXT_RULED_OUT);
  g_assert_cmpstr (ops_next_cause (next, "a")->speaks_against[0], ==, "Battery at rest 12.60 V: fine");
  g_assert_cmpfloat (ops_next_cause (next, "b")->weight, ==, 1);
  hs_ops_test_one (site.test, "finding WHERE role = 'ruled_out' AND cause = 'a'");
  hs_ops_test_one (site.test, "because WHERE proof_kind = 'reading'");
}

/* What was seen shows it in its own words, and is one step that can be taken back. */
static void
test_seen_and_undone (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;
  g_autofree char *finding = name_cause (&site, "b", FALSE, "belt is new", &error);
  g_autoptr (HsJobNext) next = NULL;

  g_assert_no_error (error);
  hs_ops_test_one (site.test, "because WHERE proof_kind = 'seen' AND proof = 'belt is new'");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, &error));
  next = ops_next_ask (&site);
  g_assert_cmpint (ops_next_cause (next, "b")->standing, ==, HS_NEXT_POSSIBLE);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *cause;
    gboolean is_it;
    const char *said;
  } rows[] = {
    { "a", TRUE, "No reading speaks for “Battery” yet: say what you saw, or take a reading first." },
    { "b", FALSE, "No reading speaks against “Belt” yet: say what you saw, or take a reading first." },
    { "starter", TRUE, "There is no cause “starter” here. There are: a, b." },
  };
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_auto (OpsNext) upkeep = ops_next_start (NULL, "upkeep");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_null (name_cause (&site, rows[i].cause, rows[i].is_it, "  ", &error));
      g_assert_cmpstr (error->message, ==, rows[i].said);
      g_clear_error (&error);
    }
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 0);
  g_assert_null (name_cause (&upkeep, "a", TRUE, "x", &error));
  g_assert_cmpstr (error->message, ==,
                   "There is no cause model for this complaint; the list is as good as any order.");
}

/* --- More than one complaint ----------------------------------------------------------------------------------- */

/* A second complaint has its own models, and its causes hang on it in the chain. */
static void
test_also (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobNext) own = NULL;
  g_autoptr (HsJobNext) other = NULL;
  g_autofree char *finding = NULL;

  g_assert_true (hs_job_add_symptom (site.book, site.job_id, "charging_lamp", NOW, &error));
  own = ops_next_ask (&site);
  g_assert_cmpstr (own->group, ==, "drains");
  g_assert_cmpstr (own->groups[1], ==, "charging_lamp");
  other = hs_job_next_load (site.book, site.job_id, "charging_lamp", NOW, &error);
  g_assert_cmpstr (other->models[0], ==, "charging_lamp");
  finding = hs_job_name_cause (site.book, site.job_id, "charging_lamp", "belt", TRUE, "glazed", NOW, &error);
  g_assert_no_error (error);
  hs_ops_test_one (site.test, "because b JOIN finding f ON f.id = b.effect_id WHERE f.what = 'Battery lamp on'");
  g_assert_false (hs_job_add_symptom (site.book, site.job_id, "charging_lamp", NOW, &error));
  hs_ops_test_refused (&error, "“Battery lamp on” is a complaint of this job already.");
  g_assert_false (hs_job_add_symptom (site.book, site.job_id, "wobbles", NOW, &error));
  g_assert_true (g_str_has_prefix (error->message, "There is no complaint group “wobbles”."));
}

/* It is one step: what it made of the caller's own words goes back with it. */
static void
test_also_undone (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_add_symptom (site.book, site.job_id, "charging_lamp", NOW, &error));
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 2);
  hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 0);
}

/* Without a group of its own the first one is the job's; any group can be looked through. */
static void
test_also_first (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobNext) through = hs_job_next_load (site.book, site.job_id, "brakes", NOW, &error);
  g_autoptr (HsJobNext) next = NULL;

  g_assert_no_error (error);
  g_assert_cmpstr (through->models[0], ==, "brakes");
  g_assert_null (hs_job_next_load (site.book, site.job_id, "wobbles", NOW, &error));
  g_clear_error (&error);
  g_assert_true (hs_job_add_symptom (site.book, site.job_id, "drains", NOW, &error));
  next = ops_next_ask (&site);
  g_assert_cmpstr (next->group, ==, "drains");
  g_assert_null (next->groups[1]);
  hs_ops_test_one (site.test, "job WHERE complaint_group = 'drains'");
}

/* --- Own jobs -------------------------------------------------------------------------------------------------- */

/* Two squared jobs on which it was the belt: 15 and 5 + 2 of 22. An open one says nothing yet, nor does one of another
 * complaint. */
static void
test_own_jobs (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "drains");
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobNext) before = NULL;
  g_autoptr (HsJobNext) one = NULL;
  g_autoptr (HsJobNext) two = NULL;
  g_autofree char *first = ops_next_add (&site, "A-0002", "drains");
  g_autofree char *second = ops_next_add (&site, "A-0003", "drains");
  g_autofree char *open = ops_next_add (&site, "A-0004", "drains");
  g_autofree char *other = ops_next_add (&site, "A-0005", "charging_lamp");
  g_autofree char *named = hs_job_name_cause (site.book, open, NULL, "b", TRUE, "seen", NOW, &error);

  ops_next_square (&site, other, "belt");
  before = ops_next_ask (&site);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (before, "b")->weight, 0.25, HAIR);
  g_assert_null (ops_next_cause (before, "b")->own);
  ops_next_square (&site, first, "b");
  one = ops_next_ask (&site);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (one, "b")->weight, 6.0 / 21, HAIR);
  g_assert_cmpstr (ops_next_cause (one, "b")->own, ==, "own jobs: 1 of 1");
  ops_next_square (&site, second, "b");
  two = ops_next_ask (&site);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (two, "b")->weight, 7.0 / 22, HAIR);
  g_assert_cmpstr (ops_next_cause (two, "b")->own, ==, "own jobs: 2 of 2");
  g_assert_cmpstr (ops_next_cause (two, "a")->own, ==, "own jobs: 0 of 2");
  g_assert_cmpstr (ops_next_cause (two, "a")->source, ==, "counted");
}

/* How many jobs the priors stand for is the file's: with 2, one own job counts as much as a third of them all. */
static void
test_counts_as (void)
{
  g_auto (GStrv) parts = g_strsplit (ops_next_models, "@", 2);
  g_autofree char *models = g_strjoinv (" \"counts_as\": 2,", parts);
  g_auto (OpsNext) site = ops_next_start (models, "drains");
  g_autofree char *first = ops_next_add (&site, "A-0002", "drains");
  g_autoptr (HsJobNext) next = NULL;

  ops_next_square (&site, first, "b");
  next = ops_next_ask (&site);
  g_assert_cmpfloat_with_epsilon (ops_next_cause (next, "b")->weight, 1.5 / 3, HAIR);
}

/* Of several models for a complaint a job teaches the one that fitted it. */
static void
test_own_of_several (void)
{
  g_auto (OpsNext) site = ops_next_start (NULL, "will_not_start");
  g_autofree char *other = ops_next_add (&site, "A-0002", "will_not_start");
  g_autofree char *mine = g_steal_pointer (&site.job_id);
  g_autoptr (HsJobNext) silent = NULL;
  g_autoptr (HsJobNext) clicks = NULL;

  site.job_id = g_steal_pointer (&other);
  ops_next_read (&site, "key_turn", "1", "before");
  ops_next_square (&site, site.job_id, "clamp");
  g_free (site.job_id);
  site.job_id = g_steal_pointer (&mine);
  ops_next_read (&site, "key_turn", "1", "before");
  silent = ops_next_ask (&site);
  g_assert_cmpstr (ops_next_cause (silent, "clamp")->own, ==, "own jobs: 1 of 1");
  ops_next_read (&site, "key_turn", "2", "before");
  clicks = ops_next_ask (&site);
  g_assert_null (ops_next_cause (clicks, "clamp")->own);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/next-write/is", test_is);
  g_test_add_func ("/next-write/cured", test_cured);
  g_test_add_func ("/next-write/not", test_not);
  g_test_add_func ("/next-write/seen-and-undone", test_seen_and_undone);
  g_test_add_func ("/next-write/refused", test_refused);
  g_test_add_func ("/next-write/also", test_also);
  g_test_add_func ("/next-write/also-undone", test_also_undone);
  g_test_add_func ("/next-write/also-first", test_also_first);
  g_test_add_func ("/next-write/own-jobs", test_own_jobs);
  g_test_add_func ("/next-write/counts-as", test_counts_as);
  g_test_add_func ("/next-write/own-of-several", test_own_of_several);
  return g_test_run ();
}
