// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Brings the schema of a book up to date: an append-only list of steps, run in one transaction from where the file
 * stands. A file is never between two versions. It refuses nothing by itself; the caller has refused newer files. */

#include "hs-migrate.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <unistd.h>

#include "hs-store-private.h"

static gboolean
schema_of (sqlite3 *db, const char *path, int *ret_version, GError **error)
{
  sqlite3_stmt *stmt = NULL;
  int rc = sqlite3_prepare_v2 (db, "PRAGMA user_version", -1, &stmt, NULL);

  if (rc == SQLITE_OK)
    rc = sqlite3_step (stmt);
  if (rc == SQLITE_ROW)
    *ret_version = sqlite3_column_int (stmt, 0);
  sqlite3_finalize (stmt);
  return rc == SQLITE_ROW || hs_store_fail_db (db, path, rc, error);
}

static gboolean
write_copy (sqlite3 *db, const char *path, const char *copy, GError **error)
{
  sqlite3_stmt *stmt = NULL;
  int rc = sqlite3_prepare_v2 (db, "VACUUM INTO ?1", -1, &stmt, NULL);

  if (rc == SQLITE_OK)
    rc = sqlite3_bind_text (stmt, 1, copy, -1, SQLITE_TRANSIENT);
  if (rc == SQLITE_OK)
    rc = sqlite3_step (stmt);
  sqlite3_finalize (stmt);
  return rc == SQLITE_DONE || hs_store_fail_db (db, path, rc, error);
}

/* An older copy of that name is as good: it was made before the same step, and it gets its name once it is whole. */
static gboolean
keep_copy (sqlite3 *db, const char *path, int next, GError **error)
{
  g_autofree char *copy = g_strdup_printf ("%s.before-%d", path, next);
  g_autofree char *part = g_strconcat (copy, ".part", NULL);

  if (g_access (copy, F_OK) == 0)
    return TRUE;
  (void) g_unlink (part);
  if (write_copy (db, path, part, error))
    {
      if (g_rename (part, copy) == 0)
        return TRUE;
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_FAILED, "%s: cannot be written: %s", copy, g_strerror (errno));
    }
  (void) g_unlink (part);
  return FALSE;
}

static gboolean
run_step (sqlite3 *db, const char *path, const HsMigration *step, GError **error)
{
  g_autofree char *stamp = g_strdup_printf ("PRAGMA user_version = %d", step->to);

  for (guint i = 0; step->sql[i] != NULL; i++)
    if (!hs_store_exec_db (db, path, step->sql[i], error))
      return FALSE;
  return hs_store_exec_db (db, path, stamp, error);
}

static gboolean
run_steps (sqlite3 *db, const char *path, const HsMigration *steps, guint n_steps, GError **error)
{
  int version = 0;

  /* Asked again inside: another program may have been faster. */
  if (!schema_of (db, path, &version, error))
    return FALSE;
  for (guint i = 0; i < n_steps; i++)
    if (steps[i].to > version && !run_step (db, path, &steps[i], error))
      return FALSE;
  return hs_store_exec_db (db, path, "COMMIT", error);
}

gboolean
hs_migrate (sqlite3 *db, const char *path, const HsMigration *steps, guint n_steps, GError **error)
{
  int version = 0;

  if (!schema_of (db, path, &version, error))
    return FALSE;
  if (version >= steps[n_steps - 1].to)
    return TRUE;
  if (version > 0 && path != NULL && !keep_copy (db, path, version + 1, error))
    return FALSE;
  if (!hs_store_exec_db (db, path, "BEGIN IMMEDIATE", error))
    return FALSE;
  if (run_steps (db, path, steps, n_steps, error))
    return TRUE;
  if (!sqlite3_get_autocommit (db))
    (void) hs_store_exec_db (db, path, "ROLLBACK", NULL);
  return FALSE;
}
