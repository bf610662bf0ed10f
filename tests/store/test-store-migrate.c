// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The steps of the schema: a book of every released version comes to what a new book is, with all its rows; a step that
 * fails or is killed leaves the version before. fixtures/book-N.sql is a book of version N as text and never edited. */

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book.h"
#include "hs-job-row.h"
#include "hs-migrate.h"
#include "hs-search.h"
#include "hs-store-private.h"

static char *
read_fixture (int version)
{
  g_autofree char *name = g_strdup_printf ("book-%d.sql", version);
  g_autofree char *path = g_build_filename (TEST_FIXTURES, name, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  return text;
}

static void
test_fixture (gconstpointer data)
{
  const int version = GPOINTER_TO_INT (data);
  g_autofree char *text = read_fixture (version);
  g_autofree char *rows_before = NULL;
  g_autofree char *rows_after = NULL;
  g_autofree char *upgraded = NULL;
  g_autofree char *fresh = NULL;
  g_autoptr (GError) error = NULL;
  sqlite3 *old = test_connect (":memory:", FALSE);
  sqlite3 *new = test_connect (":memory:", FALSE);

  test_run (old, text);
  g_assert_cmpint (test_int (old, "PRAGMA user_version"), ==, version);
  rows_before = g_strdup_printf ("%" G_GINT64_FORMAT, test_int (old, "SELECT count (*) FROM job"));
  g_assert_true (hs_migrate (old, NULL, hs_migrations, hs_n_migrations, &error));
  g_assert_true (hs_migrate (new, NULL, hs_migrations, hs_n_migrations, &error));
  upgraded = test_schema (old);
  fresh = test_schema (new);
  g_assert_cmpstr (upgraded, ==, fresh);
  rows_after = g_strdup_printf ("%" G_GINT64_FORMAT, test_int (old, "SELECT count (*) FROM job"));
  g_assert_cmpstr (rows_after, ==, rows_before);
  g_assert_cmpint (test_int (old, "SELECT count (*) FROM job WHERE stage = 'squared'"), ==, 1);
  g_assert_cmpint (test_int (old, "SELECT count (*) FROM pragma_foreign_key_check"), ==, 0);
  g_assert_cmpint (test_int (old, "PRAGMA user_version"), ==, HS_STORE_SCHEMA);
  sqlite3_close (old);
  sqlite3_close (new);
}

/* The newest fixture is the newest schema: whoever adds a step adds a fixture. */
static void
test_every_version_has_a_fixture (void)
{
  g_assert_cmpint (hs_n_migrations, ==, HS_STORE_SCHEMA);
  for (guint i = 0; i < hs_n_migrations; i++)
    {
      g_autofree char *text = read_fixture (hs_migrations[i].to);
      g_autofree char *stamp = g_strdup_printf ("PRAGMA user_version = %d;", (int) i + 1);

      g_assert_cmpint (hs_migrations[i].to, ==, (int) i + 1);
      g_assert_nonnull (strstr (text, stamp));
    }
}

/* Limits from before a limit said whose it is: all kept, as the owner's, and the maker's may stand beside them. */
static void
test_limits_become_the_owners (void)
{
  g_autofree char *text = read_fixture (1);
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (":memory:", FALSE);

  test_run (db, text);
  test_run (db, "INSERT INTO check_own (seq, id, vehicle_id, check_id, low, high, source) VALUES"
                " (7, 'a', 'v1', 'rest', 1230, NULL, 'manual'), (9, 'b', 'v2', 'draw', NULL, 30, 'sheet')");
  g_assert_true (hs_migrate (db, NULL, hs_migrations, hs_n_migrations, &error));
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM check_own WHERE whose = 'owner'"), ==, 2);
  g_assert_cmpint (test_int (db, "SELECT low FROM check_own WHERE seq = 7 AND id = 'a' AND high IS NULL"), ==, 1230);
  g_assert_cmpint (test_int (db, "SELECT high FROM check_own WHERE seq = 9 AND source = 'sheet'"), ==, 30);
  test_run (db, "INSERT INTO check_own (id, vehicle_id, check_id, whose, low, source) VALUES"
                " ('c', 'v1', 'rest', 'maker', 1250, 'manual')");
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM check_own WHERE vehicle_id = 'v1'"), ==, 2);
  sqlite3_close (db);
}

/* What stood as proven before proofs had a kind, and ends from before they said when they were told, stay and can be
 * worked on; they only don't become so anew. */
static void
test_old_proofs_stay (void)
{
  g_autofree char *text = read_fixture (4);
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (":memory:", FALSE);

  test_run (db, text);
  test_run (db, "UPDATE finding SET sure = 'proven', ended = 'outside_told' WHERE id = 'g-open'");
  g_assert_true (hs_migrate (db, NULL, hs_migrations, hs_n_migrations, &error));
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM because WHERE proof_kind <> 'said'"), ==, 0);
  test_run (db, "UPDATE finding SET what = 'battery worn out' WHERE id = 'g-open'");
  test_run (db, "UPDATE finding SET weight = 'plan_it' WHERE id = 'g-open'");
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM finding WHERE sure = 'proven' AND told_at IS NULL"), ==, 1);
  test_run (db, "DELETE FROM because WHERE id = 'b-open'");
  sqlite3_close (db);
}

/* A fixture opens as a book and is found in. */
static void
test_fixture_as_a_book (void)
{
  char *folder = test_folder_make ();
  g_autofree char *path = g_build_filename (folder, "old.hsbook", NULL);
  g_autofree char *text = read_fixture (1);
  g_autofree char *mark = g_strdup_printf ("PRAGMA application_id = %d", HS_STORE_APPLICATION_ID);
  g_autoptr (GPtrArray) hits = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (path, FALSE);
  HsStore *store;

  test_run (db, mark);
  test_run (db, text);
  sqlite3_close (db);
  store = test_book_open (folder, "old.hsbook", HS_STORE_WRITE);
  g_assert_true (hs_store_check (store, TRUE, &error));
  g_assert_true (hs_job_row_find (store, "A-0004", &job, &error));
  g_assert_cmpstr (job->stage, ==, "squared");
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_search_rebuild (store, &error));
  g_assert_true (hs_store_commit (store, &error));
  g_assert_true (hs_search (store, "8816 quay", 10, &hits, &error));
  g_assert_cmpint (hits->len, ==, 1);
  hs_store_close (store);
  test_folder_remove (folder);
}

/* Steps that are not ours, to see how steps are run. */

static const char *const first_sql[] = { "CREATE TABLE a (x); INSERT INTO a VALUES (1)", "CREATE TABLE b (x)", NULL };
static const char *const second_sql[] = { "ALTER TABLE a ADD COLUMN y; UPDATE a SET y = 2", NULL };
static const char *const bad_sql[] = { "CREATE TABLE c (x)", "INSERT INTO nowhere VALUES (1)", NULL };
static const char *const slow_sql[] = {
  "CREATE TABLE c (x)",
  "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) INSERT INTO c SELECT i FROM n LIMIT 100000000",
  NULL,
};
static const HsMigration steps[] = { { 1, first_sql }, { 2, second_sql } };
static const HsMigration bad_steps[] = { { 1, first_sql }, { 2, second_sql }, { 3, bad_sql } };
static const HsMigration slow_steps[] = { { 1, first_sql }, { 2, second_sql }, { 3, slow_sql } };

static void
test_steps (void)
{
  char *folder = test_folder_make ();
  g_autofree char *path = g_build_filename (folder, "steps", NULL);
  g_autofree char *copy = g_strconcat (path, ".before-2", NULL);
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (path, FALSE);
  sqlite3 *kept;

  g_assert_true (hs_migrate (db, path, steps, 1, &error));
  g_assert_cmpint (test_int (db, "PRAGMA user_version"), ==, 1);
  g_assert_false (g_file_test (copy, G_FILE_TEST_EXISTS));
  g_assert_true (hs_migrate (db, path, steps, 1, &error));
  g_assert_true (hs_migrate (db, path, steps, 2, &error));
  g_assert_cmpint (test_int (db, "PRAGMA user_version"), ==, 2);
  g_assert_cmpint (test_int (db, "SELECT y FROM a"), ==, 2);
  kept = test_connect (copy, FALSE);
  g_assert_cmpint (test_int (kept, "PRAGMA user_version"), ==, 1);
  g_assert_cmpint (test_int (kept, "SELECT count (*) FROM pragma_table_info ('a')"), ==, 1);
  sqlite3_close (kept);
  sqlite3_close (db);
  test_folder_remove (folder);
}

static void
test_bad_step (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  sqlite3 *db = test_connect (":memory:", FALSE);

  g_assert_true (hs_migrate (db, NULL, bad_steps, 1, &error));
  before = test_schema (db);
  assert_refused (hs_migrate (db, NULL, bad_steps, 3, &error), error, HS_STORE_ERROR_FAILED, "nowhere");
  after = test_schema (db);
  g_assert_cmpstr (after, ==, before);
  g_assert_cmpint (test_int (db, "PRAGMA user_version"), ==, 1);
  g_assert_true (sqlite3_get_autocommit (db));
  sqlite3_close (db);
}

static void
test_killed_step (void)
{
  char *folder = test_folder_make ();
  g_autofree char *path = g_build_filename (folder, "steps", NULL);
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (path, FALSE);

  g_assert_true (hs_migrate (db, path, slow_steps, 2, &error));
  test_run (db, "PRAGMA journal_mode = WAL");
  sqlite3_close (db);
  for (guint round = 0; round < 5; round++)
    {
      pid_t pid = fork ();

      if (pid == 0)
        {
          db = test_connect (path, FALSE);
          hs_migrate (db, path, slow_steps, 3, NULL);
          _exit (0);
        }
      g_usleep (20000 + round * 15000);
      g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
      g_assert_cmpint (waitpid (pid, NULL, 0), ==, pid);
      db = test_connect (path, FALSE);
      g_assert_cmpint (test_int (db, "PRAGMA user_version"), ==, 2);
      g_assert_cmpint (test_int (db, "SELECT count (*) FROM sqlite_schema WHERE name = 'c'"), ==, 0);
      g_assert_cmpint (test_int (db, "SELECT integrity_check = 'ok' FROM pragma_integrity_check"), ==, 1);
      sqlite3_close (db);
    }
  test_folder_remove (folder);
}

/* A copy that is there is a whole one: losing power while it is written leaves none behind that passes for good. */
static void
test_killed_copy (void)
{
  char *folder = test_folder_make ();
  g_autofree char *path = g_build_filename (folder, "steps", NULL);
  g_autofree char *copy = g_strconcat (path, ".before-3", NULL);
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (path, FALSE);

  g_assert_true (hs_migrate (db, path, bad_steps, 2, &error));
  test_run (db, "CREATE TABLE d (x);"
                "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n LIMIT 20000)"
                " INSERT INTO d SELECT hex (zeroblob (500)) FROM n");
  sqlite3_close (db);
  for (guint round = 0; round < 10 && !g_file_test (copy, G_FILE_TEST_EXISTS); round++)
    {
      pid_t pid = fork ();

      if (pid == 0)
        {
          db = test_connect (path, FALSE);
          hs_migrate (db, path, bad_steps, 3, NULL);
          _exit (0);
        }
      g_usleep (2000 + round * 4000);
      g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
      g_assert_cmpint (waitpid (pid, NULL, 0), ==, pid);
    }
  db = test_connect (path, FALSE);
  assert_refused (hs_migrate (db, path, bad_steps, 3, &error), error, HS_STORE_ERROR_FAILED, "nowhere");
  sqlite3_close (db);
  db = test_connect (copy, FALSE);
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM d"), ==, 20000);
  g_assert_cmpint (test_int (db, "SELECT integrity_check = 'ok' FROM pragma_integrity_check"), ==, 1);
  sqlite3_close (db);
  test_folder_remove (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < hs_n_migrations; i++)
    {
      g_autofree char *path = g_strdup_printf ("/store/migrate/fixture-%d", hs_migrations[i].to);

      g_test_add_data_func (path, GINT_TO_POINTER (hs_migrations[i].to), test_fixture);
    }
  g_test_add_func ("/store/migrate/every-version-has-a-fixture", test_every_version_has_a_fixture);
  g_test_add_func ("/store/migrate/limits-become-the-owners", test_limits_become_the_owners);
  g_test_add_func ("/store/migrate/old-proofs-stay", test_old_proofs_stay);
  g_test_add_func ("/store/migrate/fixture-as-a-book", test_fixture_as_a_book);
  g_test_add_func ("/store/migrate/steps", test_steps);
  g_test_add_func ("/store/migrate/bad-step", test_bad_step);
  g_test_add_func ("/store/migrate/killed-step", test_killed_step);
  g_test_add_func ("/store/migrate/killed-copy", test_killed_copy);
  return g_test_run ();
}
