// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every kind of row: what the program fills in stands in the file as it was meant, comes back unchanged, is logged, and
 * can be removed. */

#include <string.h>

#include "book.h"
#include "hs-store-private.h"
#include "row-kinds.h"

/* What stands in the file of the row: its columns but seq (and a drawn id), with | between them. */
static char *
standing (HsStore *store, const Kind *kind, const char *id)
{
  g_autofree char *sql = g_strdup_printf ("SELECT * FROM %s WHERE id = ?1", kind->table);
  GString *text = g_string_new (NULL);
  sqlite3_stmt *stmt = NULL;

  g_assert_cmpint (sqlite3_prepare_v2 (store->db, sql, -1, &stmt, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_bind_text (stmt, 1, id, -1, SQLITE_STATIC), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_step (stmt), ==, SQLITE_ROW);
  for (int i = 1; i < sqlite3_column_count (stmt); i++)
    {
      const char *value = (const char *) sqlite3_column_text (stmt, i);

      if (i == 1 && strlen (id) == 36)
        continue;
      g_string_append_printf (text, "%s%s", text->len > 0 ? "|" : "", value != NULL ? value : "-");
    }
  sqlite3_finalize (stmt);
  return g_string_free (text, FALSE);
}

static const Kind *
kind_at (guint i)
{
  return i < n_kinds ? &kinds[i] : &on_site_kinds[i - n_kinds];
}

static gint64
changes_logged (HsStore *store)
{
  return test_int (store->db, "SELECT count (*) FROM change_log");
}

/* Rows that some of the kinds name. */
static void
add_neighbors (HsStore *store)
{
  test_run (store->db,
            "INSERT INTO visit (id, job_id) VALUES ('vi', 'open');"
            "INSERT INTO finding (id, job_id, what, role) VALUES ('h-open', 'open', 'x', 'cause');"
            "INSERT INTO reading (id, job_id, check_id, unit, decimals, value, phase, taken_at)"
            "  VALUES ('r-before', 'open', 'rest', 'V', 2, 1242, 'before', 4);"
            "INSERT INTO photo (id, job_id, file_id, phase, added_at)"
            "  VALUES ('ph', 'open', '0000000000000000000000000000000000000000000000000000000000000000', 'before', 4);"
            "INSERT INTO advice_line (id, advice_id, kind, what, price_cents)"
            "  VALUES ('al-open', 'a-open', 'part', 'x', 1);"
            "INSERT INTO day_plan (id, van_id, day, leave_at, accepted_at) VALUES ('pl', 'va', '2026-03-09', 1, 1);");
}

static void
save_and_remove (HsStore *store, const Kind *kind)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *stands = NULL;
  gpointer row = kind->make ();
  gpointer loaded = NULL, copy;
  gint64 logged;

  kind->fill (row);
  g_assert_true (kind->save (store, row, &error));
  g_assert_no_error (error);
  stands = standing (store, kind, *(char **) row);
  g_assert_cmpstr (stands, ==, kind->stands);
  logged = changes_logged (store);
  g_assert_true (kind->load (store, *(char **) row, &loaded, &error));
  g_assert_true (kind->save (store, loaded, &error));
  copy = kind->copy (loaded);
  kind->free (loaded);
  g_assert_true (kind->save (store, copy, &error));
  g_assert_cmpint (changes_logged (store), ==, logged);
  g_assert_cmpint (kind->remove (store, *(char **) row, &error), ==, !kind->kept);
  if (kind->kept)
    assert_refused (FALSE, error, HS_STORE_ERROR_REFUSED, "kept");
  g_clear_error (&error);
  if (!kind->kept)
    assert_refused (kind->load (store, *(char **) row, &loaded, &error), error, HS_STORE_ERROR_NOT_FOUND, "no ");
  kind->free (copy);
  kind->free (row);
  kind->free (NULL);
}

static void
test_kind (gconstpointer data)
{
  const Kind *kind = data;
  char *folder = test_folder_make ();
  HsStore *store = test_book_new (folder);
  g_autoptr (GError) error = NULL;

  add_neighbors (store);
  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  save_and_remove (store, kind);
  g_assert_true (hs_store_commit (store, &error));
  g_assert_no_error (error);
  hs_store_close (store);
  test_folder_remove (folder);
}

static void
test_outside (void)
{
  char *folder = test_folder_make ();
  HsStore *store = test_book_new (folder);

  add_neighbors (store);
  for (guint i = 0; i < n_kinds + n_on_site_kinds; i++)
    {
      const Kind *kind = kind_at (i);
      g_autoptr (GError) error = NULL;
      gpointer row = kind->make ();

      kind->fill (row);
      assert_refused (kind->save (store, row, &error), error, HS_STORE_ERROR_FAILED, "transaction");
      g_clear_error (&error);
      assert_refused (kind->remove (store, "x", &error), error, HS_STORE_ERROR_FAILED, "transaction");
      kind->free (row);
    }
  hs_store_close (store);
  test_folder_remove (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < n_kinds + n_on_site_kinds; i++)
    {
      g_autofree char *path = g_strconcat ("/store/rows/", kind_at (i)->table, NULL);

      g_test_add_data_func (path, kind_at (i), test_kind);
    }
  g_test_add_func ("/store/rows/outside-a-transaction", test_outside);
  return g_test_run ();
}
