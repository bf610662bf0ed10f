// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The last thing done in the book is taken back and done again, whatever job it was on. */

#include "hs-chain-op.h"
#include "hs-finding-row.h"
#include "hs-interview-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-undo-op.h"
#include "hs-undo.h"

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
} Site;

static Site
site_start (void)
{
  Site site = { .test = hs_ops_test_open () };

  hs_ops_test_fill (site.test);
  hs_ops_test_import_ok (site.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0115,hums,TDM 5508,2026-03-10\n", 1, 0, 0);
  site.book = site.test->book;
  site.job = hs_job_find (site.book, "A-0001", NULL);
  return site;
}

static void
site_clear (Site *site)
{
  hs_ops_test_close (site->test);
  g_free (site->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Site, site_clear)

static gboolean
choose_group (Site *site, GError **error)
{
  return hs_job_set_group (site->book, site->job, "will_not_start", NOW, error);
}

static gboolean
ask (Site *site, GError **error)
{
  return hs_asked_add (site->book, site->job, "Turn the key?", "nothing", NOW, error);
}

/* (transfer full): the finding. */
static char *
find_effect (Site *site, GError **error)
{
  const HsFindingEntry entry = { .what = "hums", .role = "complaint" };

  return hs_finding_add (site->book, site->job, &entry, NOW, error);
}

static char *
other_job (Site *site)
{
  hs_ops_test_import_ok (site->test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0002,555-0115,rattles,TDM 5508,2026-03-10\n", 1, 0,
                         0);
  return hs_job_find (site->book, "A-0002", NULL);
}

static void
assert_taken (HsTakenBack *taken, GError *error, const char *number, const char *what, gboolean done)
{
  g_autoptr (HsTakenBack) owned = taken;

  g_assert_no_error (error);
  g_assert_nonnull (owned);
  g_assert_cmpstr (owned->number, ==, number);
  g_assert_cmpstr (owned->what, ==, what);
  g_assert_cmpint (owned->done, ==, done);
}

static void
test_newest (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *other = other_job (&site);
  GError *error = NULL;
  gint64 none, first, second;

  g_assert_true (hs_undo_mark (site.book, &none, &error));
  g_assert_cmpint (none, ==, 0);
  g_assert_true (choose_group (&site, &error) && hs_undo_mark (site.book, &first, &error));
  g_assert_true (hs_job_set_group (site.book, other, "overheats", NOW, &error));
  g_assert_true (ask (&site, &error) && hs_undo_mark (site.book, &second, &error));
  g_assert_cmpint (none, <, first);
  g_assert_cmpint (first, <, second);
  /* Not what is older than the mark. */
  g_assert_null (hs_take_back (site.book, second, 0, NOW, &error));
  g_assert_no_error (error);
  assert_taken (hs_take_back (site.book, first, 0, NOW, &error), error, "A-0001", "answer: Turn the key?", TRUE);
  assert_taken (hs_take_back (site.book, first, 0, NOW, &error), error, "A-0002", "complaint group: Overheats", TRUE);
  g_assert_null (hs_take_back (site.book, first, 0, NOW, &error));
  assert_taken (hs_take_back (site.book, 0, 0, NOW, &error), error, "A-0001", "complaint group: Will not start", TRUE);
  g_assert_null (hs_take_back (site.book, 0, 0, NOW, &error));
  g_assert_no_error (error);
  hs_ops_test_one (site.test, "job WHERE number = 'A-0002' AND complaint_group IS NULL");
}

/* In the order in which they were done first; a new step on any job ends it. */
static void
test_newest_again (void)
{
  g_auto (Site) site = site_start ();
  g_autofree char *other = other_job (&site);
  GError *error = NULL;

  g_assert_null (hs_do_again (site.book, NOW, &error));
  g_assert_no_error (error);
  g_assert_true (choose_group (&site, &error) && hs_job_set_group (site.book, other, "overheats", NOW, &error));
  assert_taken (hs_take_back (site.book, 0, 0, NOW + 5, &error), error, "A-0002", "complaint group: Overheats", TRUE);
  assert_taken (hs_take_back (site.book, 0, 0, NOW + 6, &error), error, "A-0001", "complaint group: Will not start",
                TRUE);
  assert_taken (hs_do_again (site.book, NOW + 7, &error), error, "A-0001", "complaint group: Will not start", TRUE);
  assert_taken (hs_do_again (site.book, NOW + 7, &error), error, "A-0002", "complaint group: Overheats", TRUE);
  g_assert_null (hs_do_again (site.book, NOW + 7, &error));
  assert_taken (hs_take_back (site.book, 0, 0, NOW + 8, &error), error, "A-0002", "complaint group: Overheats", TRUE);
  g_assert_true (hs_asked_add (site.book, site.job, "Parked how long?", "a week", NOW + 9, &error));
  g_assert_null (hs_do_again (site.book, NOW + 10, &error));
  g_assert_no_error (error);
}

/* What was done yesterday is named first. */
static void
test_newest_old (void)
{
  g_auto (Site) site = site_start ();
  GError *error = NULL;
  gint64 mark;

  g_assert_true (choose_group (&site, &error) && hs_undo_mark (site.book, &mark, &error));
  assert_taken (hs_take_back (site.book, 0, 0, NOW + HS_TAKE_BACK_SECONDS + 1, &error), error, "A-0001",
                "complaint group: Will not start", FALSE);
  assert_taken (hs_take_back (site.book, 0, mark + 1, NOW + HS_TAKE_BACK_SECONDS + 1, &error), error, "A-0001",
                "complaint group: Will not start", FALSE);
  hs_ops_test_one (site.test, "job WHERE complaint_group = 'will_not_start'");
  assert_taken (hs_take_back (site.book, 0, mark, NOW + HS_TAKE_BACK_SECONDS + 1, &error), error, "A-0001",
                "complaint group: Will not start", TRUE);
  hs_ops_test_one (site.test, "job WHERE complaint_group IS NULL");
}

/* What another program changed since is not written over, and nothing older goes in its place. */
static void
test_newest_refused (void)
{
  g_auto (Site) site = site_start ();
  g_autoptr (GError) error = NULL;
  HsBookUser user = { "test", "there", 2, NOW };
  HsBook *other;
  g_autofree char *finding = NULL;

  g_assert_true (choose_group (&site, &error));
  finding = find_effect (&site, &error);
  g_assert_nonnull (finding);
  other = hs_book_open (site.test->path, HS_BOOK_WRITE, &user, &error);
  g_assert_no_error (error);
  /* As a program does that notes no steps. */
  {
    g_autoptr (HsFindingRow) row = NULL;
    HsStore *store = hs_book_get_store (other);

    g_assert_true (hs_store_begin (store, NOW, &error) && hs_finding_row_load (store, finding, &row, &error));
    hs_row_set (&row->what, "hums loudly");
    g_assert_true (hs_store_end (store, hs_finding_row_save (store, row, &error), &error));
  }
  hs_book_close (other);
  g_assert_null (hs_take_back (site.book, 0, 0, NOW, &error));
  hs_ops_test_refused (&error, "“finding: hums” can't be undone: the finding was changed since");
  hs_ops_test_one (site.test, "job WHERE complaint_group = 'will_not_start'");
  hs_ops_test_one (site.test, "finding WHERE what = 'hums loudly'");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/undo-newest/newest", test_newest);
  g_test_add_func ("/ops/undo-newest/again", test_newest_again);
  g_test_add_func ("/ops/undo-newest/old", test_newest_old);
  g_test_add_func ("/ops/undo-newest/refused", test_newest_refused);
  return g_test_run ();
}
