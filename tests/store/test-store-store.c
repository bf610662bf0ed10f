// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Opening, closing and writing the book: what is not a book stays as it is, two programs share one, a full disk and a
 * kill lose nothing that was saved. */

#include <errno.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book.h"
#include "hs-customer-row.h"
#include "hs-job-row.h"
#include "hs-setting-row.h"
#include "hs-store-private.h"

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->path = g_build_filename (place->folder, "test.hsbook", NULL);
}

static void
tear_down (Place *place, gconstpointer data)
{
  test_folder_remove (place->folder);
  g_free (place->path);
}

static HsStore *
open_as (const char *path, HsStoreMode mode, int pid, GError **error)
{
  const HsStoreUser user = { .program = "test", .host = "tannery", .pid = pid, .now = TEST_NOW, .who = "A",
                             .busy_milliseconds = 50 };

  return hs_store_open (path, mode, &user, error);
}

static void
put (HsStore *store, const char *key, const char *value)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, key, value, &error));
  g_assert_true (hs_store_commit (store, &error));
  g_assert_no_error (error);
}

static char *
get (HsStore *store, const char *key)
{
  g_autoptr (GError) error = NULL;
  char *value = NULL;

  g_assert_true (hs_setting_row_get (store, key, &value, &error));
  g_assert_no_error (error);
  return value;
}

static void
assert_value (HsStore *store, const char *key, const char *expected)
{
  g_autofree char *value = get (store, key);

  g_assert_cmpstr (value, ==, expected);
}

static void
write_bytes (const char *path, const void *bytes, gsize length)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (path, bytes, (gssize) length, &error));
}

static void
assert_only_the_book (Place *place)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_assert_cmpstr (name, ==, "test.hsbook");
      n++;
    }
  g_assert_cmpint (n, ==, 1);
}

static void
test_create (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  g_auto (GStrv) paths = hs_store_file_paths (store);
  g_autofree char *wal = g_strconcat (place->path, "-wal", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (hs_store_get_path (store), ==, place->path);
  g_assert_false (hs_store_is_read_only (store));
  g_assert_cmpint (hs_store_get_schema (store), ==, HS_STORE_SCHEMA);
  g_assert_cmpstr (paths[0], ==, place->path);
  g_assert_cmpstr (paths[1], ==, wal);
  g_assert_null (paths[2]);
  put (store, "zone", "America/New_York");
  assert_value (store, "zone", "America/New_York");
  assert_value (store, "nothing", NULL);
  g_assert_true (hs_store_check (store, FALSE, &error));
  g_assert_true (hs_store_check (store, TRUE, &error));
  g_assert_no_error (error);
}

static void
test_close_leaves_one_file (Place *place, gconstpointer data)
{
  HsStore *store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  sqlite3 *db;

  put (store, "zone", "UTC");
  hs_store_close (store);
  hs_store_close (NULL);
  assert_only_the_book (place);
  db = test_connect (place->path, TRUE);
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM session"), ==, 0);
  g_assert_cmpint (test_int (db, "PRAGMA user_version"), ==, HS_STORE_SCHEMA);
  g_assert_cmpint (test_int (db, "PRAGMA application_id"), ==, HS_STORE_APPLICATION_ID);
  sqlite3_close (db);
  store = test_book_open (place->folder, "test.hsbook", HS_STORE_READ);
  assert_value (store, "zone", "UTC");
  hs_store_close (store);
  assert_only_the_book (place);
}

/* Files that are no book: refused with what to do, and not changed by a byte. */
static void
make_foreign (const char *path)
{
  sqlite3 *db = test_connect (path, TRUE);

  test_run (db, "CREATE TABLE job (id TEXT); PRAGMA user_version = 1");
  sqlite3_close (db);
}

static void
make_newer (const char *path)
{
  sqlite3 *db = test_connect (path, TRUE);

  test_run (db, "PRAGMA user_version = 99; PRAGMA wal_checkpoint (TRUNCATE)");
  sqlite3_close (db);
}

static void
make_half_schema (const char *path)
{
  sqlite3 *db = test_connect (path, TRUE);

  test_run (db, "PRAGMA foreign_keys = OFF; DROP TABLE change_log; PRAGMA wal_checkpoint (TRUNCATE)");
  sqlite3_close (db);
}

static void
make_empty (const char *path)
{
  write_bytes (path, "", 0);
}

static void
make_text (const char *path)
{
  write_bytes (path, "a list of calls, typed long ago\n", 32);
}

static void
make_picture (const char *path)
{
  static const guint8 bytes[300] = { 0xff, 0xd8, 0xff, 0xe0, 0, 16, 'J', 'F', 'I', 'F' };

  write_bytes (path, bytes, sizeof bytes);
}

static void
shorten (const char *path, gsize to)
{
  g_assert_cmpint (truncate (path, (off_t) to), ==, 0);
}

static void
make_half (const char *path)
{
  shorten (path, 8192);
}

static void
make_one_page_short (const char *path)
{
  GStatBuf status;

  g_assert_cmpint (g_stat (path, &status), ==, 0);
  shorten (path, (gsize) status.st_size - 4096);
}

static void
make_stump (const char *path)
{
  shorten (path, 60);
}

static void
spoil (const char *path, gsize from, gsize n)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &bytes, &length, &error));
  memset (bytes + from, 0x5a, n);
  write_bytes (path, bytes, length);
}

static void
make_garbage_schema (const char *path)
{
  spoil (path, 100, 3000);
}

static void
make_no_mark (const char *path)
{
  spoil (path, 68, 4);
}

static const struct
{
  const char *name;
  void (*make) (const char *path);
  HsStoreError code;
  const char *says;
} faults[] = {
  { "empty", make_empty, HS_STORE_ERROR_NOT_A_BOOK, "empty" },
  { "text", make_text, HS_STORE_ERROR_NOT_A_BOOK, "not a book" },
  { "picture", make_picture, HS_STORE_ERROR_NOT_A_BOOK, "not a book" },
  { "stump", make_stump, HS_STORE_ERROR_NOT_A_BOOK, "not a book" },
  { "half", make_half, HS_STORE_ERROR_NOT_A_BOOK, "cut short" },
  { "one-page-short", make_one_page_short, HS_STORE_ERROR_NOT_A_BOOK, "cut short" },
  { "garbage-schema", make_garbage_schema, HS_STORE_ERROR_NOT_A_BOOK, "-wal and -shm" },
  { "half-schema", make_half_schema, HS_STORE_ERROR_NOT_A_BOOK, "not a whole book" },
  { "no-mark", make_no_mark, HS_STORE_ERROR_NOT_A_BOOK, "another program" },
  { "newer", make_newer, HS_STORE_ERROR_NEWER, "newer version" },
};

static void
test_faults (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    for (HsStoreMode mode = HS_STORE_READ; mode <= HS_STORE_CREATE; mode++)
      {
        g_autoptr (GError) error = NULL;
        g_autofree char *before = NULL;
        g_autofree char *after = NULL;
        HsStore *store;

        hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
        faults[i].make (place->path);
        before = test_hash (place->path);
        store = open_as (place->path, mode, 1, &error);
        g_assert_null (store);
        g_test_message ("%s: %s", faults[i].name, error->message);
        if (mode == HS_STORE_CREATE)
          assert_refused (store != NULL, error, HS_STORE_ERROR_REFUSED, "already");
        else
          assert_refused (store != NULL, error, faults[i].code, faults[i].says);
        after = test_hash (place->path);
        g_assert_cmpstr (after, ==, before);
        assert_only_the_book (place);
        g_assert_cmpint (g_unlink (place->path), ==, 0);
      }
}

static void
test_foreign (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  make_foreign (place->path);
  before = test_hash (place->path);
  assert_refused (open_as (place->path, HS_STORE_WRITE, 1, &error) != NULL, error, HS_STORE_ERROR_NOT_A_BOOK,
                  "another program");
  after = test_hash (place->path);
  g_assert_cmpstr (after, ==, before);
}

static void
test_missing (Place *place, gconstpointer data)
{
  g_autofree char *deep = g_build_filename (place->folder, "no", "such.hsbook", NULL);
  g_autoptr (GError) error = NULL;

  assert_refused (open_as (place->path, HS_STORE_WRITE, 1, &error) != NULL, error, HS_STORE_ERROR_NOT_FOUND,
                  "no such book");
  g_clear_error (&error);
  g_assert_false (g_file_test (place->path, G_FILE_TEST_EXISTS));
  assert_refused (open_as (deep, HS_STORE_CREATE, 1, &error) != NULL, error, HS_STORE_ERROR_NOT_FOUND,
                  "no such folder");
  g_clear_error (&error);
  assert_refused (open_as (place->folder, HS_STORE_READ, 1, &error) != NULL, error, HS_STORE_ERROR_NOT_A_BOOK,
                  "not a file");
}

/* A newer program still has its change in the log: the header of the file looks old. */
static void
test_newer_in_the_log (Place *place, gconstpointer data)
{
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;
  sqlite3 *db;

  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  db = test_connect (place->path, TRUE);
  test_run (db, "PRAGMA user_version = 99");
  before = test_hash (place->path);
  assert_refused (open_as (place->path, HS_STORE_WRITE, 1, &error) != NULL, error, HS_STORE_ERROR_NEWER, "newer");
  after = test_hash (place->path);
  g_assert_cmpstr (after, ==, before);
  sqlite3_close (db);
}

/* As nobody, since root may write everywhere. Returns what the child says. */
static int
as_nobody (void (*work) (const char *path), const char *path)
{
  int status = 0;
  pid_t pid = fork ();

  if (pid == 0)
    {
      if (geteuid () == 0 && setuid (65534) != 0)
        _exit (99);
      g_random_set_seed ((guint32) getpid ());
      work (path);
      _exit (0);
    }
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  return WIFEXITED (status) ? WEXITSTATUS (status) : -1;
}

static void
no_work (const char *path)
{
}

/* In a namespace of its own root may be the only user there is. */
static gboolean
is_alone (Place *place)
{
  if (as_nobody (no_work, place->path) != 99)
    return FALSE;
  g_test_skip ("there is nobody else to be here");
  return TRUE;
}

static void
read_only_work (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsStore) store = open_as (path, HS_STORE_WRITE, 1, &error);
  g_autofree char *zone = NULL;

  if (store == NULL || !hs_store_is_read_only (store))
    _exit (1);
  if (!hs_setting_row_get (store, "zone", &zone, NULL) || g_strcmp0 (zone, "UTC") != 0)
    _exit (2);
  if (hs_store_begin (store, TEST_NOW, &error) || !g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY))
    _exit (3);
}

static void
read_only_with_log_work (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsStore) store = open_as (path, HS_STORE_READ, 1, &error);

  if (store != NULL || !g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY))
    _exit (1);
}

static void
create_in_read_only_work (const char *path)
{
  g_autofree char *other = g_strconcat (path, "-2", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsStore) store = open_as (other, HS_STORE_CREATE, 1, &error);

  if (store != NULL || !g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY))
    _exit (1);
}

static void
test_read_only_folder (Place *place, gconstpointer data)
{
  HsStore *store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);

  put (store, "zone", "UTC");
  hs_store_close (store);
  if (is_alone (place))
    return;
  g_assert_cmpint (g_chmod (place->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0555), ==, 0);
  g_assert_cmpint (as_nobody (read_only_work, place->path), ==, 0);
  g_assert_cmpint (as_nobody (create_in_read_only_work, place->path), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0755), ==, 0);
  g_assert_cmpint (g_chmod (place->path, 0644), ==, 0);
  assert_only_the_book (place);
}

static void
test_read_only_folder_with_a_log (Place *place, gconstpointer data)
{
  HsStore *store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);

  put (store, "zone", "UTC");
  if (is_alone (place))
    {
      hs_store_close (store);
      return;
    }
  g_assert_cmpint (g_chmod (place->folder, 0555), ==, 0);
  g_assert_cmpint (as_nobody (read_only_with_log_work, place->path), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0755), ==, 0);
  hs_store_close (store);
}

static void
test_read_mode (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  HsStore *store = NULL;

  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  store = test_book_open (place->folder, "test.hsbook", HS_STORE_READ);
  g_assert_true (hs_store_is_read_only (store));
  assert_refused (hs_store_begin (store, TEST_NOW, &error), error, HS_STORE_ERROR_READ_ONLY, "for reading only");
  g_clear_error (&error);
  assert_refused (hs_setting_row_put (store, "a", "b", &error), error, HS_STORE_ERROR_FAILED, "transaction");
  hs_store_close (store);
  assert_only_the_book (place);
}

/* Transactions. */

static void
test_nesting (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_store_in_transaction (store));
  g_assert_cmpint (hs_store_get_now (store), ==, HS_INSTANT_NONE);
  hs_store_rollback (store);
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, "outer", "1", &error));
  g_assert_true (hs_store_begin (store, TEST_NOW + 60, &error));
  g_assert_cmpint (hs_store_get_now (store), ==, TEST_NOW);
  g_assert_true (hs_setting_row_put (store, "inner", "1", &error));
  hs_store_rollback (store);
  assert_value (store, "inner", NULL);
  assert_value (store, "outer", "1");
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, "kept", "1", &error));
  g_assert_true (hs_store_end (store, TRUE, &error));
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, "undone", "1", &error));
  g_assert_false (hs_store_end (store, FALSE, &error));
  g_assert_true (hs_store_in_transaction (store));
  g_assert_true (hs_store_commit (store, &error));
  g_assert_no_error (error);
  assert_value (store, "outer", "1");
  assert_value (store, "kept", "1");
  assert_value (store, "undone", NULL);
}

static void
test_rollback (Place *place, gconstpointer data)
{
  HsStore *store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, "a", "1", &error));
  hs_store_rollback (store);
  assert_value (store, "a", NULL);
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, "b", "1", &error));
  hs_store_close (store);
  store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  assert_value (store, "b", NULL);
  hs_store_close (store);
}

/* Two programs with one book. */

static void
test_busy (Place *place, gconstpointer data)
{
  HsStore *first = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  HsStore *second = NULL;
  g_autoptr (GError) error = NULL;

  put (first, "zone", "America/New_York");
  second = open_as (place->path, HS_STORE_WRITE, 4711, &error);
  g_assert_no_error (error);
  g_assert_true (hs_store_begin (first, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (first, "a", "1", &error));
  assert_refused (hs_store_begin (second, TEST_NOW, &error), error, HS_STORE_ERROR_BUSY,
                  "test on tannery (process 812, since 2026-03-10 06:45)");
  g_clear_error (&error);
  assert_value (second, "a", NULL);
  g_assert_true (hs_store_commit (first, &error));
  put (second, "b", "1");
  assert_value (first, "b", "1");
  assert_value (second, "a", "1");
  hs_store_close (second);
  hs_store_close (first);
}

/* A program may open while another writes; its name is written with its first own change. */
static void
test_open_while_busy (Place *place, gconstpointer data)
{
  HsStore *first = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  HsStore *second = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (first, TEST_NOW, &error));
  second = open_as (place->path, HS_STORE_WRITE, 4711, &error);
  g_assert_nonnull (second);
  g_assert_true (hs_store_commit (first, &error));
  put (second, "b", "1");
  g_assert_true (hs_store_begin (second, TEST_NOW, &error));
  assert_refused (hs_store_begin (first, TEST_NOW, &error), error, HS_STORE_ERROR_BUSY, "process 4711");
  hs_store_close (second);
  hs_store_close (first);
}

static void
test_data_version (Place *place, gconstpointer data)
{
  HsStore *first = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  HsStore *second = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  g_autoptr (GError) error = NULL;
  gint64 before, own, other;

  g_assert_true (hs_store_data_version (first, &before, &error));
  put (first, "a", "1");
  g_assert_true (hs_store_data_version (first, &own, &error));
  g_assert_cmpint (own, ==, before);
  put (second, "b", "1");
  g_assert_true (hs_store_data_version (first, &other, &error));
  g_assert_cmpint (other, !=, before);
  hs_store_close (second);
  hs_store_close (first);
}

static void
test_replaced_file (Place *place, gconstpointer data)
{
  HsStore *store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  g_autofree char *moved = g_strconcat (place->path, "-moved", NULL);
  g_autoptr (GError) error = NULL;
  gint64 version = 7;

  g_assert_cmpint (g_rename (place->path, moved), ==, 0);
  assert_refused (hs_store_begin (store, TEST_NOW, &error), error, HS_STORE_ERROR_FAILED, "moved, removed or replaced");
  g_clear_error (&error);
  write_bytes (place->path, "other", 5);
  assert_refused (hs_store_data_version (store, &version, &error), error, HS_STORE_ERROR_FAILED, "replaced");
  g_assert_cmpint (version, ==, 7);
  hs_store_close (store);
}

/* A full disk: the pages of the file are limited; the message is FULL, and what was saved stays. */
static void
test_full (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  g_autofree char *long_text = g_strnfill (500000, 'x');
  g_autoptr (GError) error = NULL;

  put (store, "kept", "1");
  g_assert_true (hs_store_exec (store, "PRAGMA max_page_count = 100", &error));
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_setting_row_put (store, "small", "1", &error));
  while (hs_setting_row_put (store, "large", long_text, &error))
    ;
  assert_refused (FALSE, error, HS_STORE_ERROR_FULL, "disk is full");
  g_clear_error (&error);
  g_assert_false (hs_store_end (store, FALSE, &error));
  g_assert_false (hs_store_in_transaction (store));
  assert_value (store, "small", NULL);
  assert_value (store, "kept", "1");
  g_assert_true (hs_store_exec (store, "PRAGMA max_page_count = 100000", &error));
  put (store, "large", long_text);
  g_assert_true (hs_store_check (store, TRUE, &error));
}

/* After SQLite undid everything by itself, nothing slips past the transaction. */
static void
test_undone_under_us (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_store_exec (store, "ROLLBACK", &error));
  assert_refused (hs_setting_row_put (store, "a", "1", &error), error, HS_STORE_ERROR_FAILED, "undid all of it");
  g_clear_error (&error);
  assert_refused (hs_store_begin (store, TEST_NOW, &error), error, HS_STORE_ERROR_FAILED, "undid all of it");
  g_clear_error (&error);
  g_assert_false (hs_store_commit (store, &error));
  g_clear_error (&error);
  g_assert_false (hs_store_commit (store, &error));
  g_assert_false (hs_store_in_transaction (store));
  assert_value (store, "a", NULL);
  put (store, "a", "2");
}

/* The file may not grow (ulimit -f): SQLite calls it a disk error. */
static void
grow_too_far (const char *path)
{
  const struct rlimit limit = { 700000, 700000 };
  g_autofree char *long_text = g_strnfill (300000, 'x');
  g_autoptr (GError) error = NULL;
  g_autoptr (HsStore) store = open_as (path, HS_STORE_WRITE, 1, &error);

  if (store == NULL || signal (SIGXFSZ, SIG_IGN) == SIG_ERR || setrlimit (RLIMIT_FSIZE, &limit) != 0)
    _exit (1);
  for (guint i = 0; i < 20; i++)
    {
      g_autofree char *key = g_strdup_printf ("%u", i);

      if (!hs_store_begin (store, TEST_NOW, &error)
          || !hs_store_end (store, hs_setting_row_put (store, key, long_text, &error), &error))
        _exit (error != NULL && error->domain == HS_STORE_ERROR && strstr (error->message, "disk") != NULL ? 0 : 2);
    }
  _exit (3);
}

static void
test_may_not_grow (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = NULL;
  g_autoptr (GError) error = NULL;

  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  if (is_alone (place))
    return;
  g_assert_cmpint (g_chmod (place->folder, 0777), ==, 0);
  g_assert_cmpint (g_chmod (place->path, 0666), ==, 0);
  g_assert_cmpint (as_nobody (grow_too_far, place->path), ==, 0);
  store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  g_assert_true (hs_store_check (store, TRUE, &error));
}

static void
test_recipe (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *pragma;
    gint64 value;
  } recipe[] = {
    { "PRAGMA foreign_keys", 1 }, { "PRAGMA recursive_triggers", 1 }, { "PRAGMA trusted_schema", 0 },
    { "PRAGMA cell_size_check", 1 }, { "PRAGMA mmap_size", 0 }, { "PRAGMA synchronous", 2 },
    { "SELECT journal_mode = 'wal' FROM pragma_journal_mode", 1 },
  };
  g_autoptr (HsStore) store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  int on = 0;

  for (guint i = 0; i < G_N_ELEMENTS (recipe); i++)
    g_assert_cmpint (test_int (store->db, recipe[i].pragma), ==, recipe[i].value);
  g_assert_cmpint (sqlite3_db_config (store->db, SQLITE_DBCONFIG_DEFENSIVE, -1, &on), ==, SQLITE_OK);
  g_assert_cmpint (on, ==, 1);
  g_assert_cmpint (sqlite3_db_config (store->db, SQLITE_DBCONFIG_DQS_DML, -1, &on), ==, SQLITE_OK);
  g_assert_cmpint (on, ==, 0);
}

static void
test_damage_is_told (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = NULL;
  g_autoptr (GError) error = NULL;
  sqlite3 *db;

  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  db = test_connect (place->path, TRUE);
  test_run (db, "INSERT INTO phone (id, customer_id, shown, digits) VALUES ('p', 'nobody', '1', '1')");
  sqlite3_close (db);
  store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  assert_refused (hs_store_check (store, TRUE, &error), error, HS_STORE_ERROR_NOT_A_BOOK, "phone");
}

static void
test_remove (Place *place, gconstpointer data)
{
  static const char *const tails[] = { "", "-wal", "-shm" };
  g_autofree char *other = g_strconcat (place->path, ".kept", NULL);

  write_bytes (other, "x", 1);
  for (guint i = 0; i < G_N_ELEMENTS (tails); i++)
    {
      g_autofree char *part = g_strconcat (place->path, tails[i], NULL);

      write_bytes (part, "x", 1);
    }
  hs_store_remove (place->path);
  for (guint i = 0; i < G_N_ELEMENTS (tails); i++)
    {
      g_autofree char *part = g_strconcat (place->path, tails[i], NULL);

      g_assert_false (g_file_test (part, G_FILE_TEST_EXISTS));
    }
  g_assert_true (g_file_test (other, G_FILE_TEST_EXISTS));
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "create", test_create },
    { "close-leaves-one-file", test_close_leaves_one_file },
    { "faults", test_faults },
    { "foreign", test_foreign },
    { "missing", test_missing },
    { "newer-in-the-log", test_newer_in_the_log },
    { "read-only-folder", test_read_only_folder },
    { "read-only-folder-with-a-log", test_read_only_folder_with_a_log },
    { "read-mode", test_read_mode },
    { "nesting", test_nesting },
    { "rollback", test_rollback },
    { "busy", test_busy },
    { "open-while-busy", test_open_while_busy },
    { "data-version", test_data_version },
    { "replaced-file", test_replaced_file },
    { "full", test_full },
    { "undone-under-us", test_undone_under_us },
    { "may-not-grow", test_may_not_grow },
    { "recipe", test_recipe },
    { "damage-is-told", test_damage_is_told },
    { "remove", test_remove },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/store/open/", tests[i].name, NULL);

      g_test_add (path, Place, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
