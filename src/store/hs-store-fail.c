// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What SQLite says, as a sentence for the owner with a code that a caller can act on. The rules of the book carry their
 * sentence themselves: in the text of a trigger or in the name of a constraint. */

#include <string.h>

#include "hs-store-private.h"

#define CHECK_FAILED "CHECK constraint failed: "
#define UNIQUE_FAILED "UNIQUE constraint failed: "
#define NULL_FAILED "NOT NULL constraint failed: "

/* "job.number" → "The number of the job", "job.number, job.x" likewise for the last one. */
static char *
column_in_words (const char *columns)
{
  const char *last = strrchr (columns, ' ');
  g_auto (GStrv) pair = g_strsplit (last == NULL ? columns : last + 1, ".", 2);
  g_autofree char *text = g_strdup_printf ("The %s of the %s", pair[0] == NULL || pair[1] == NULL ? "id" : pair[1],
                                           pair[0] == NULL ? "row" : pair[0]);

  return g_strdelimit (g_steal_pointer (&text), "_", ' ');
}

static char *
unique_in_words (const char *what)
{
  g_autofree char *column = NULL;
  const char *quote = strchr (what, '\'');

  if (g_str_has_prefix (what, "index ") && quote != NULL)
    return g_strndup (quote + 1, strlen (quote + 1) - (g_str_has_suffix (quote, "'") ? 1 : 0));
  column = column_in_words (what);
  return g_strdup_printf ("%s is in the book already", column);
}

/* A constraint without a sentence of its own shows its condition: "value BETWEEN 0 AND 1440". */
static char *
check_in_words (const char *what)
{
  if (g_ascii_isupper (what[0]) && strchr (what, '(') == NULL)
    return g_strdup (what);
  return g_strdup_printf ("The book takes only: %s", what);
}

static char *
constraint_in_words (int rc, const char *said)
{
  g_autofree char *column = NULL;

  if (g_str_has_prefix (said, CHECK_FAILED))
    return check_in_words (said + strlen (CHECK_FAILED));
  if (g_str_has_prefix (said, UNIQUE_FAILED))
    return unique_in_words (said + strlen (UNIQUE_FAILED));
  if (g_str_has_prefix (said, NULL_FAILED))
    {
      column = column_in_words (said + strlen (NULL_FAILED));
      return g_strdup_printf ("%s is missing", column);
    }
  if (rc == SQLITE_CONSTRAINT_FOREIGNKEY)
    return g_strdup ("It names something that is not in the book, or something in the book still names it");
  return g_strdup (said);
}

static HsStoreError
code_of (int rc)
{
  switch (rc & 0xff)
    {
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
    case SQLITE_TOOBIG:
      return HS_STORE_ERROR_REFUSED;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return HS_STORE_ERROR_BUSY;
    case SQLITE_FULL:
      return HS_STORE_ERROR_FULL;
    case SQLITE_READONLY:
      return HS_STORE_ERROR_READ_ONLY;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return HS_STORE_ERROR_NOT_A_BOOK;
    default:
      return HS_STORE_ERROR_FAILED;
    }
}

static char *
in_words (HsStoreError code, int rc, const char *said)
{
  switch (code)
    {
    case HS_STORE_ERROR_REFUSED:
      return constraint_in_words (rc, said);
    case HS_STORE_ERROR_BUSY:
      return g_strdup ("Another program is writing into the book; try again when it is done");
    case HS_STORE_ERROR_FULL:
      return g_strdup ("The disk is full; nothing of this was saved, what was saved before is safe. Make room and save"
                       " again");
    case HS_STORE_ERROR_READ_ONLY:
      return g_strdup ("The book can be read but not written; copy it to a folder that can be written");
    case HS_STORE_ERROR_NOT_A_BOOK:
      return g_strdup_printf ("The book is damaged (%s); " HS_STORE_PUT_BACKUP, said);
    default:
      if ((rc & 0xff) == SQLITE_IOERR)
        return g_strdup_printf ("The disk failed while the book was read or written (%s, %d); nothing of this was"
                                " saved. Check the disk and its free room, then save again", said, rc);
      if ((rc & 0xff) == SQLITE_INTERRUPT)
        return g_strdup ("The question was stopped before it was answered");
      return g_strdup_printf ("The book cannot do this: %s (%d)", said, rc);
    }
}

gboolean
hs_store_fail_db (sqlite3 *db, const char *path, int rc, GError **error)
{
  int extended = db != NULL && sqlite3_errcode (db) == (rc & 0xff) ? sqlite3_extended_errcode (db) : rc;
  HsStoreError code = code_of (extended);
  g_autofree char *words = in_words (code, extended, db != NULL ? sqlite3_errmsg (db) : sqlite3_errstr (rc));

  if (code == HS_STORE_ERROR_REFUSED || path == NULL)
    g_set_error_literal (error, HS_STORE_ERROR, code, words);
  else
    g_set_error (error, HS_STORE_ERROR, code, "%s: %s", path, words);
  return FALSE;
}

gboolean
hs_store_fail (HsStore *store, int rc, GError **error)
{
  g_autofree char *holder = NULL;

  if (error == NULL || ((rc & 0xff) != SQLITE_BUSY && (rc & 0xff) != SQLITE_LOCKED))
    return hs_store_fail_db (store->db, store->path, rc, error);
  holder = hs_store_dup_holder (store);
  if (holder == NULL)
    return hs_store_fail_db (store->db, store->path, rc, error);
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_BUSY,
               "%s: the book is held by %s; let it finish there, then try again", store->path, holder);
  return FALSE;
}

gboolean
hs_store_exec_db (sqlite3 *db, const char *path, const char *sql, GError **error)
{
  int rc = sqlite3_exec (db, sql, NULL, NULL, NULL);

  return rc == SQLITE_OK || hs_store_fail_db (db, path, rc, error);
}

gboolean
hs_store_exec (HsStore *store, const char *sql, GError **error)
{
  int rc = sqlite3_exec (store->db, sql, NULL, NULL, NULL);

  return rc == SQLITE_OK || hs_store_fail (store, rc, error);
}
