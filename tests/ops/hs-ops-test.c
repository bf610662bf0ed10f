// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of the ops layer share: a book in a folder of its own, and files from text. */

#include "hs-ops-test.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <string.h>

HsOpsTest *
hs_ops_test_folder (void)
{
  HsOpsTest *test = g_new0 (HsOpsTest, 1);

  test->folder = g_dir_make_tmp (NULL, NULL);
  g_assert_nonnull (test->folder);
  test->path = g_build_filename (test->folder, "test.hsbook", NULL);
  test->user = (HsBookUser) { "test", "bench", 1, HS_OPS_TEST_NOW };
  return test;
}

HsOpsTest *
hs_ops_test_open (void)
{
  HsOpsTest *test = hs_ops_test_folder ();
  GError *error = NULL;

  test->book = hs_book_new (test->path, "America/New_York", &test->user, &error);
  g_assert_no_error (error);
  g_assert_nonnull (test->book);
  return test;
}

void
hs_ops_test_close (HsOpsTest *test)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  g_clear_pointer (&test->book, hs_book_close);
  dir = g_dir_open (test->folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (test->folder, name, NULL);
      g_unlink (path);
    }
  g_rmdir (test->folder);
  g_free (test->path);
  g_free (test->folder);
  g_free (test);
}

gboolean
hs_ops_test_import (HsOpsTest *test, const char *kind, const char *text, HsImportReport **ret_report,
                    char **ret_faults)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (HsImportReport) report = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strconcat (kind, ".csv", NULL);
  gboolean done
      = hs_import (test->book, kind, file, bytes, HS_IMPORT_NONE, HS_OPS_TEST_NOW, &report, &error);
  GString *faults = g_string_new (NULL);

  g_assert_nonnull (report);
  g_assert_true (done == (error == NULL));
  for (guint i = 0; i < report->faults->len; i++)
    g_string_append_printf (faults, "%s\n", (char *) g_ptr_array_index (report->faults, i));
  if (ret_faults != NULL)
    *ret_faults = g_string_free (faults, FALSE);
  else
    g_string_free (faults, TRUE);
  if (ret_report != NULL)
    *ret_report = g_steal_pointer (&report);
  return done;
}

void
hs_ops_test_import_ok (HsOpsTest *test, const char *kind, const char *text, gsize added, gsize changed,
                       gsize unchanged)
{
  g_autoptr (HsImportReport) report = NULL;
  g_autofree char *faults = NULL;

  hs_ops_test_import (test, kind, text, &report, &faults);
  g_assert_cmpstr (faults, ==, "");
  g_assert_cmpuint (report->added, ==, added);
  g_assert_cmpuint (report->changed, ==, changed);
  g_assert_cmpuint (report->unchanged, ==, unchanged);
  g_assert_cmpuint (report->rows, ==, added + changed + unchanged);
}

static sqlite3_int64
query (HsOpsTest *test, const char *sql)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *statement = NULL;
  sqlite3_int64 result;

  g_assert_cmpint (sqlite3_open_v2 (test->path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (db, sql, -1, &statement, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
  result = sqlite3_column_int64 (statement, 0);
  sqlite3_finalize (statement);
  sqlite3_close (db);
  return result;
}

gint64
hs_ops_test_count (HsOpsTest *test, const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT count(*) FROM %s", table);

  return query (test, sql);
}

/* The log of changes grows with every row that any table gains or loses. */
void
hs_ops_test_import_bad (HsOpsTest *test, const char *kind, const char *text, const char *faults)
{
  gint64 before = hs_ops_test_count (test, "change_log");
  g_autofree char *found = NULL;

  g_assert_false (hs_ops_test_import (test, kind, text, NULL, &found));
  g_assert_cmpstr (found, ==, faults);
  g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, before);
}

void
hs_ops_test_fill (HsOpsTest *test)
{
  hs_ops_test_import_ok (test, "areas", "code,name,signal\nT,Tannery Row,good\nH,Highcroft,patchy\n", 2, 0, 0);
  hs_ops_test_import_ok (test, "customers",
                         "name,phone,area,terms_days\nTeo Calloway,555-0115,T,0\nNadira Quell,555-0117,H,14\n", 2, 0,
                         0);
  hs_ops_test_import_ok (test, "vehicles",
                         "plate,owner_phone,make,model,battery_place\nTDM 5508,555-0115,Vostle,Nib,under the hood\n"
                         "TDM 7717,555-0117,Quenby,Larkin,trunk\n",
                         2, 0, 0);
  hs_ops_test_import_ok (test, "suppliers",
                         "name,area,return_days,core_days\nKingpost Parts Counter,T,30,45\nLarch & Weir,H,14,\n", 2,
                         0, 0);
  hs_ops_test_import_ok (test, "parts",
                         "number,name,kind,warranty_months\nBW-55,battery 55 Ah flooded,battery,24\n"
                         "GP-20D,glow plug,,12\n",
                         2, 0, 0);
}

void
hs_ops_test_refused (GError **error, const char *said)
{
  g_assert_nonnull (*error);
  if (strstr ((*error)->message, said) == NULL)
    g_test_message ("“%s” does not say “%s”", (*error)->message, said);
  g_assert_nonnull (strstr ((*error)->message, said));
  g_clear_error (error);
}

HsInstant
hs_ops_test_at (const char *text)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("America/New_York");
  g_autoptr (GError) error = NULL;
  HsInstant instant = HS_INSTANT_NONE;

  g_assert_nonnull (zone);
  hs_instant_parse (text, zone, &instant, &error);
  g_assert_no_error (error);
  return instant;
}

void
hs_ops_test_one (HsOpsTest *test, const char *rows)
{
  gint64 count = hs_ops_test_count (test, rows);

  if (count != 1)
    g_test_message ("%" G_GINT64_FORMAT " × %s", count, rows);
  g_assert_cmpint (count, ==, 1);
}

void
hs_ops_test_run (HsOpsTest *test, const char *sql)
{
  sqlite3 *db = NULL;
  char *said = NULL;

  g_assert_cmpint (sqlite3_open_v2 (test->path, &db, SQLITE_OPEN_READWRITE, NULL), ==, SQLITE_OK);
  sqlite3_exec (db, sql, NULL, NULL, &said);
  g_assert_cmpstr (said, ==, NULL);
  sqlite3_close (db);
}

char *
hs_ops_test_id (HsOpsTest *test, const char *sql)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *statement = NULL;
  char *id;

  g_assert_cmpint (sqlite3_open_v2 (test->path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (db, sql, -1, &statement, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
  id = g_strdup ((const char *) sqlite3_column_text (statement, 0));
  sqlite3_finalize (statement);
  sqlite3_close (db);
  return id;
}
