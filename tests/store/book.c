// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of the store share: folders, books, a small world of rows, and a way past the store to the file. */

#include "book.h"

#include <glib/gstdio.h>

/* A squared job can hold only what it got while it was open, so the world is told in three parts. */
#define OPEN_JOBS \
  "INSERT INTO area (id, name, signal) VALUES ('O', 'Old Market', 'good'), ('Q', 'Quayside', 'good');" \
  "INSERT INTO van (id, letter) VALUES ('va', 'A');" \
  "INSERT INTO customer (id, name, street, area_id) VALUES ('c1', 'Rue Abernant', '4 Quay Street', 'Q')," \
  "  ('c2', 'Jory Pellam', NULL, 'Q');" \
  "INSERT INTO vehicle (id, plate, plate_key, make, model) VALUES ('v1', 'TDM 8816', 'TDM8816', 'Vostle', 'Crag')," \
  "  ('v2', 'TDM 1216', 'TDM1216', 'Halvik', 'Pim');" \
  "INSERT INTO ownership (id, vehicle_id, customer_id, from_date) VALUES ('w1', 'v1', 'c1', '2025-08-17');" \
  "INSERT INTO odometer (id, vehicle_id, on_date, value) VALUES ('o1', 'v1', '2025-09-02', 81400)," \
  "  ('o2', 'v1', '2025-12-11', 94400);" \
  "INSERT INTO supplier (id, name, area_id) VALUES ('k', 'Kingpost Parts Counter', 'O');" \
  "INSERT INTO part (id, number, name) VALUES ('b', 'B-55', 'battery 55 Ah');" \
  "INSERT INTO check_kind (id, name, unit, decimals) VALUES ('rest', 'Battery at rest', 'V', 2)," \
  "  ('draw', 'Draw', 'A', 3);" \
  "INSERT INTO job (id, number, customer_id, vehicle_id, stage, words, changed_at) VALUES" \
  "  ('open', 'A-0001', 'c1', 'v1', 'on_site', 'slow crank', 1), ('open2', 'A-0002', 'c1', 'v1', 'on_site', 'x', 1)," \
  "  ('proven', 'A-0003', 'c1', 'v1', 'on_site', 'y', 1), ('squared', 'A-0004', 'c1', 'v1', 'on_site', 'z', 1);" \
  "INSERT INTO finding (id, job_id, what, role) SELECT 'f-' || id, id, 'will not start', 'complaint' FROM job;" \
  "INSERT INTO finding (id, job_id, what, role) SELECT 'g-' || id, id, 'battery worn', 'cause' FROM job;" \
  "INSERT INTO because (id, job_id, effect_id, cause_id, proof)" \
  "  SELECT 'b-' || id, id, 'f-' || id, 'g-' || id, '11.42 V' FROM job;" \
  "INSERT INTO reading (id, job_id, check_id, unit, decimals, value, phase, taken_at)" \
  "  SELECT 'r-' || id, id, 'rest', 'V', 2, 1268, 'after', 5 FROM job WHERE id <> 'open';" \
  "INSERT INTO advice (id, job_id, wording, price_cents, choice, decided_by, decided_at, means)" \
  "  SELECT 'a-' || id, id, 'new battery', 21101, 'yes', 'Rue Abernant', 5, 'in_person' FROM job;" \
  "INSERT INTO go_ahead (id, job_id, ceiling_cents, by_whom, at, means)" \
  "  SELECT 'g-' || id, id, 20000, 'Rue Abernant', 5, 'in_person' FROM job;" \
  "INSERT INTO line (id, job_id, kind, what, price_cents, tax_cents)" \
  "  SELECT 'l-' || id, id, 'labor', 'call-out', 18000, 2000 FROM job;" \
  "INSERT INTO installed_part (id, vehicle_id, job_id, kind, what, place, installed_on, known_by, warranty_from," \
  "  replaced_why, replaced_finding_id) SELECT 'i-' || id, vehicle_id, id, 'relay', 'relay', id, '2026-03-10'," \
  "  'we_installed_it', '2026-03-10', 'failed', 'g-' || id FROM job;"

#define ON_SITE \
  "INSERT INTO visit (id, job_id, arrived_at) SELECT 'vi-' || id, id, 700 FROM job;" \
  "INSERT INTO finding (id, job_id, what, role) SELECT 'h-' || id, id, 'lamp left on', 'customer_said' FROM job;" \
  "INSERT INTO photo_file (id, media_type, bytes, width, height) VALUES" \
  "  ('abababababababababababababababababababababababababababababababab', 'image/png', 3, 1, 1);" \
  "INSERT INTO photo_chunk (file_id, n, data) SELECT id, 0, X'000102' FROM photo_file;" \
  "INSERT INTO photo (id, job_id, visit_id, finding_id, reading_id, file_id, phase, added_at)" \
  "  SELECT 'p-' || job.id, job.id, v.id, 'h-' || job.id, r.id, f.id, 'before', 6" \
  "  FROM job JOIN photo_file f LEFT JOIN visit v ON v.job_id = job.id" \
  "  LEFT JOIN reading r ON r.job_id = job.id AND job.id = 'squared';" \
  "INSERT INTO visit (id, job_id, arrived_at) VALUES ('vj-squared', 'squared', 705);" \
  "INSERT INTO safety (id, visit_id, item, answer, at) SELECT 's-' || id, id, 'chocks', 'done', 710 FROM visit;" \
  "INSERT INTO advice_line (id, advice_id, kind, what, price_cents, tax_cents)" \
  "  SELECT 'al-' || job_id, id, 'part', 'battery', 19538, 1563 FROM advice;" \
  "INSERT INTO disturbed (id, job_id, what) SELECT 'd-' || id, id, 'battery clamp' FROM job;" \
  "INSERT INTO undo_step (id, job_id, what, at, changes) SELECT 'u-' || id, id, 'asked', 5, X'00' FROM job;"

#define CLOSED_JOBS \
  "UPDATE job SET stage = 'proven' WHERE id IN ('proven', 'squared');" \
  "INSERT INTO invoice (id, number, job_id, issued_on, due_on, net_cents, tax_cents, total_cents, frozen, sha256)" \
  "  VALUES ('n', 'A-0004', 'squared', '2026-03-10', '2026-03-24', 18000, 2000, 20000, '{}', 'x');" \
  "UPDATE job SET stage = 'squared' WHERE id = 'squared';" \
  "INSERT INTO change_log (at, who, tbl, row_id, act) VALUES (1, 'A', 'job', 'open', 'added');" \
  "INSERT INTO core (id, supplier_id, deposit_cents, paid_on) VALUES ('k1', 'k', 1800, '2026-01-26');"

const char test_world_sql[] = OPEN_JOBS CLOSED_JOBS;
const char test_on_site_world_sql[] = OPEN_JOBS ON_SITE CLOSED_JOBS;

char *
test_folder_make (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp (NULL, &error);

  g_assert_no_error (error);
  return folder;
}

void
test_folder_remove (char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        test_folder_remove (g_steal_pointer (&path));
      else
        g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_free (folder);
}

HsStore *
test_book_open (const char *folder, const char *name, HsStoreMode mode)
{
  const HsStoreUser user = { .program = "test", .host = "tannery", .pid = 812, .now = TEST_NOW, .who = "A",
                             .busy_milliseconds = 50 };
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (folder, name, NULL);
  HsStore *store = hs_store_open (path, mode, &user, &error);

  g_assert_no_error (error);
  g_assert_nonnull (store);
  return store;
}

HsStore *
test_book_new (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "test.hsbook", NULL);
  sqlite3 *db;

  hs_store_close (test_book_open (folder, "test.hsbook", HS_STORE_CREATE));
  db = test_connect (path, FALSE);
  test_run (db, test_world_sql);
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
  return test_book_open (folder, "test.hsbook", HS_STORE_WRITE);
}

sqlite3 *
test_connect (const char *path, gboolean plain)
{
  sqlite3 *db = NULL;

  g_assert_cmpint (sqlite3_open (path, &db), ==, SQLITE_OK);
  if (!plain)
    test_run (db, "PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA trusted_schema = OFF;");
  return db;
}

void
test_run (sqlite3 *db, const char *sql)
{
  g_autofree char *said = NULL;

  if (sqlite3_exec (db, sql, NULL, NULL, NULL) != SQLITE_OK)
    said = g_strdup (sqlite3_errmsg (db));
  g_assert_cmpstr (said, ==, NULL);
}

static int
add_line (gpointer lines, int n_columns, char **values, char **names)
{
  for (int i = 0; i < n_columns; i++)
    g_string_append_printf (lines, "%s|", values[i] != NULL ? values[i] : "-");
  g_string_append_c (lines, '\n');
  return 0;
}

static int
add_name (gpointer names, int n_columns, char **values, char **column_names)
{
  g_ptr_array_add (names, g_strdup (values[0]));
  return 0;
}

char *
test_schema (sqlite3 *db)
{
  GString *lines = g_string_new (NULL);

  g_assert_cmpint (sqlite3_exec (db, "SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name",
                                 add_line, lines, NULL), ==, SQLITE_OK);
  return g_string_free (lines, FALSE);
}

char *
test_dump (sqlite3 *db)
{
  g_autoptr (GPtrArray) tables = g_ptr_array_new_with_free_func (g_free);
  GString *lines = g_string_new (NULL);

  g_assert_cmpint (sqlite3_exec (db, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'search%'"
                                 " AND name NOT LIKE 'sqlite_%' ORDER BY name", add_name, tables, NULL), ==, SQLITE_OK);
  for (guint i = 0; i < tables->len; i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT '%s', * FROM %s ORDER BY seq", (char *) tables->pdata[i],
                                              (char *) tables->pdata[i]);

      g_assert_cmpint (sqlite3_exec (db, sql, add_line, lines, NULL), ==, SQLITE_OK);
    }
  return g_string_free (lines, FALSE);
}

gint64
test_int (sqlite3 *db, const char *sql)
{
  sqlite3_stmt *stmt = NULL;
  gint64 value;

  g_assert_cmpint (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_step (stmt), ==, SQLITE_ROW);
  value = sqlite3_column_int64 (stmt, 0);
  g_assert_cmpint (sqlite3_finalize (stmt), ==, SQLITE_OK);
  return value;
}

char *
test_hash (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &bytes, &length, &error));
  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guint8 *) bytes, length);
}
