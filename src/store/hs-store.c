// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An open book: the connection with its settings, transactions and their savepoints. Everything that reads or writes
 * rows stands on this. It refuses to open what is not a book and to change anything outside a transaction. */

#include "hs-store.h"

#include <glib/gstdio.h>
#include <string.h>

#include "hs-migrate.h"
#include "hs-sql.h"
#include "hs-search-index.h"
#include "hs-session.h"
#include "hs-store-file.h"
#include "hs-undo-private.h"

#define BUSY_MILLISECONDS 5000
#define ANNOUNCE_MILLISECONDS 500

static void
finalize (gpointer stmt)
{
  /* The result repeats what the last step said. */
  (void) sqlite3_finalize (stmt);
}

static GHashTable *
id_set (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

static HsStore *
store_new (const char *path, const HsStoreUser *user)
{
  HsStore *store = g_new0 (HsStore, 1);

  store->path = g_strdup (path);
  store->statements = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, finalize);
  store->now = HS_INSTANT_NONE;
  store->program = g_strdup (user->program);
  store->host = g_strdup (user->host);
  store->pid = user->pid;
  store->who = g_strdup (user->who != NULL ? user->who : user->program);
  store->seen_vehicles = id_set ();
  store->changed_vehicles = id_set ();
  store->changed_customers = id_set ();
  return store;
}

static void
store_free (HsStore *store)
{
  g_hash_table_unref (store->statements);
  /* Every statement is finalized, so this cannot fail. */
  (void) sqlite3_close (store->db);
  g_hash_table_unref (store->seen_vehicles);
  g_hash_table_unref (store->changed_vehicles);
  g_hash_table_unref (store->changed_customers);
  g_free (store->path);
  g_free (store->program);
  g_free (store->host);
  g_free (store->who);
  g_free (store->device);
  g_free (store->session_id);
  g_free (store);
}

/* What an immutable file can't have: changes that wait in a log beside it. */
static gboolean
connect_immutable (HsStore *store, GError **error)
{
  g_autofree char *wal = hs_store_file_dup_wal (store->path);
  g_autofree char *escaped = g_uri_escape_string (store->path, "/", TRUE);
  g_autofree char *uri = g_strconcat ("file:", escaped, "?immutable=1", NULL);
  int rc;

  if (hs_store_file_size (wal) > 0)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY,
                   "%s: the folder cannot be written, and the newest changes still stand in %s; copy both files to a"
                   " folder that can be written and open the book there", store->path, wal);
      return FALSE;
    }
  rc = sqlite3_open_v2 (uri, &store->db, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);
  store->read_only = TRUE;
  store->immutable = TRUE;
  return rc == SQLITE_OK || hs_store_fail (store, rc, error);
}

static gboolean
connect_file (HsStore *store, HsStoreMode mode, GError **error)
{
  int rc;

  if (!hs_store_file_may_write (store->path))
    return connect_immutable (store, error);
  store->read_only = mode == HS_STORE_READ;
  rc = sqlite3_open_v2 (store->path, &store->db, SQLITE_OPEN_READWRITE, NULL);
  return rc == SQLITE_OK || hs_store_fail (store, rc, error);
}

static int
patience (const HsStoreUser *user)
{
  return user->busy_milliseconds > 0 ? (int) user->busy_milliseconds : BUSY_MILLISECONDS;
}

static gboolean
configure (HsStore *store, const HsStoreUser *user, GError **error)
{
  g_autofree char *wal = hs_store_file_dup_wal (store->path);
  const struct
  {
    int what;
    int on;
  } switches[] = {
    { SQLITE_DBCONFIG_DEFENSIVE, 1 },
    { SQLITE_DBCONFIG_DQS_DML, 0 },
    { SQLITE_DBCONFIG_DQS_DDL, 0 },
    { SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0 },
    { SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0 },
    /* Until the file has proved to be ours, closing it folds nothing in. */
    { SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, hs_store_file_size (wal) > 0 },
  };
  int rc = sqlite3_extended_result_codes (store->db, 1);

  for (guint i = 0; rc == SQLITE_OK && i < G_N_ELEMENTS (switches); i++)
    rc = sqlite3_db_config (store->db, switches[i].what, switches[i].on, NULL);
  if (rc == SQLITE_OK)
    rc = sqlite3_busy_timeout (store->db, patience (user));
  if (rc != SQLITE_OK)
    return hs_store_fail (store, rc, error);
  return hs_store_exec (store,
                        "PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA cell_size_check = ON;"
                        "PRAGMA mmap_size = 0; PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY;"
                        "PRAGMA cache_size = -8000",
                        error);
}

static gboolean
pragma_int (HsStore *store, const char *sql, gint64 *ret_value, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "");

  return hs_sql_one_int (query, 0, ret_value, error);
}

/* The first look through SQLite; a log beside the file may say more than its header did. */
static gboolean
verify (HsStore *store, GError **error)
{
  gint64 mark = 0, version = 0, tables = 0;

  if (!pragma_int (store, "PRAGMA application_id", &mark, error)
      || !pragma_int (store, "PRAGMA user_version", &version, error)
      || !pragma_int (store,
                      "SELECT count (*) FROM sqlite_schema WHERE name IN ('setting', 'session', 'change_log', 'job')",
                      &tables, error))
    return FALSE;
  if (version > HS_STORE_SCHEMA)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NEWER,
                   "%s: this book was written by a newer version (schema %d, this one knows %d); install that version",
                   store->path, (int) version, HS_STORE_SCHEMA);
      return FALSE;
    }
  if (mark == HS_STORE_APPLICATION_ID && version > 0 && tables == 4)
    return TRUE;
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_A_BOOK,
               "%s: this is not a whole book; put a backup in its place and keep this file", store->path);
  return FALSE;
}

static gboolean
bring_up_to_date (HsStore *store, GError **error)
{
  gint64 version = 0;
  int rc = sqlite3_db_config (store->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, NULL);

  if (rc != SQLITE_OK)
    return hs_store_fail (store, rc, error);
  if (!store->read_only && !hs_migrate (store->db, store->path, hs_migrations, hs_n_migrations, error))
    return FALSE;
  if (!pragma_int (store, "PRAGMA user_version", &version, error))
    return FALSE;
  store->schema = (int) version;
  if (version == HS_STORE_SCHEMA)
    return TRUE;
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY,
               "%s: this book is from an older version and has to be brought up to date; open it for writing, in a"
               " folder that can be written", store->path);
  return FALSE;
}

/* Being busy is no reason not to open: the row is written with the first change then. So this waits only as long as
 * another program's change usually takes; the patience is kept for the user's own change. */
static gboolean
announce (HsStore *store, gboolean alone, const HsStoreUser *user, GError **error)
{
  g_autoptr (GError) local = NULL;
  gboolean done;

  if (store->read_only)
    return hs_store_exec (store, "PRAGMA query_only = ON", error);
  (void) sqlite3_busy_timeout (store->db, MIN (patience (user), ANNOUNCE_MILLISECONDS));
  done = (!alone || hs_session_forget_all (store, &local)) && hs_session_announce (store, user->now, &local);
  (void) sqlite3_busy_timeout (store->db, patience (user));
  if (done)
    return TRUE;
  if (g_error_matches (local, HS_STORE_ERROR, HS_STORE_ERROR_BUSY)
      || g_error_matches (local, HS_STORE_ERROR, HS_STORE_ERROR_FULL))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}

HsStore *
hs_store_open (const char *path, HsStoreMode mode, const HsStoreUser *user, GError **error)
{
  HsStore *store = NULL;
  g_autofree char *wal = hs_store_file_dup_wal (path);
  gboolean alone = hs_store_file_size (wal) < 0;

  if (mode == HS_STORE_CREATE && !hs_store_file_create (path, error))
    return NULL;
  if (!hs_store_file_inspect (path, HS_STORE_SCHEMA, error))
    return NULL;
  store = store_new (path, user);
  if (g_stat (path, &store->opened) == 0 && connect_file (store, mode, error) && configure (store, user, error)
      && verify (store, error) && bring_up_to_date (store, error) && announce (store, alone, user, error))
    return store;
  if (error != NULL && *error == NULL)
    g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND, "%s: the file has just been taken away", path);
  store_free (store);
  return NULL;
}

void
hs_store_close (HsStore *store)
{
  if (store == NULL)
    return;
  while (store->depth > 0)
    hs_store_rollback (store);
  /* Nothing that is done on leaving is worth waiting for. */
  (void) sqlite3_busy_timeout (store->db, 0);
  hs_session_leave (store);
  /* A reader too may be the last one to leave, and then tidies up the log. */
  if (store->read_only && !store->immutable)
    (void) hs_store_exec (store, "PRAGMA query_only = OFF", NULL);
  /* Another program may still read the log; then it folds it in when it closes. */
  if (!store->read_only)
    (void) sqlite3_wal_checkpoint_v2 (store->db, NULL, SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL);
  store_free (store);
}

void
hs_store_remove (const char *path)
{
  static const char *const tails[] = { "", "-wal", "-shm" };

  for (gsize i = 0; i < G_N_ELEMENTS (tails); i++)
    {
      g_autofree char *part = g_strconcat (path, tails[i], NULL);

      (void) g_unlink (part);
    }
}

const char *
hs_store_get_path (HsStore *store)
{
  return store->path;
}

gboolean
hs_store_is_read_only (HsStore *store)
{
  return store->read_only;
}

int
hs_store_get_schema (HsStore *store)
{
  return store->schema;
}

char **
hs_store_file_paths (HsStore *store)
{
  g_autofree char *wal = hs_store_file_dup_wal (store->path);
  const char *paths[] = { store->path, wal, NULL };

  return g_strdupv ((char **) paths);
}

/* A program that keeps files alike between machines may have put another file in the place of the open one. */
static gboolean
is_in_place (HsStore *store, GError **error)
{
  GStatBuf status;

  if (g_stat (store->path, &status) == 0 && status.st_ino == store->opened.st_ino
      && status.st_dev == store->opened.st_dev)
    return TRUE;
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_FAILED,
               "%s: the file was moved, removed or replaced while it was open; nothing more is written. Put it back, or"
               " close the book and open it again", store->path);
  return FALSE;
}

gboolean
hs_store_data_version (HsStore *store, gint64 *ret_version, GError **error)
{
  return is_in_place (store, error) && pragma_int (store, "PRAGMA data_version", ret_version, error);
}

void
hs_store_interrupt (HsStore *store)
{
  sqlite3_interrupt (store->db);
}

void
hs_store_set_device (HsStore *store, const char *device)
{
  g_free (store->device);
  store->device = g_strdup (device);
}

void
hs_store_set_who (HsStore *store, const char *who)
{
  g_free (store->who);
  store->who = g_strdup (who);
}

static void
forget_transaction (HsStore *store)
{
  store->now = HS_INSTANT_NONE;
  store->bulk = FALSE;
  g_hash_table_remove_all (store->seen_vehicles);
  g_hash_table_remove_all (store->changed_vehicles);
  g_hash_table_remove_all (store->changed_customers);
}

static gboolean
begin_outermost (HsStore *store, HsInstant now, GError **error)
{
  if (store->read_only)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY,
                   "%s: the book is open for reading only; copy it to a folder that can be written to change it",
                   store->path);
      return FALSE;
    }
  if (!is_in_place (store, error) || !hs_session_announce (store, now, error)
      || !hs_store_exec (store, "BEGIN IMMEDIATE", error))
    return FALSE;
  store->now = now;
  return TRUE;
}

gboolean
hs_store_begin (HsStore *store, HsInstant now, GError **error)
{
  if (store->depth == 0 ? !begin_outermost (store, now, error)
                        : !hs_store_may_change (store, error) || !hs_store_exec (store, "SAVEPOINT hs", error))
    return FALSE;
  store->depth++;
  hs_undo_began (store);
  return TRUE;
}

static gboolean
commit_outermost (HsStore *store, GError **error)
{
  gboolean done = hs_store_may_change (store, error) && hs_undo_commits (store, error)
                  && hs_search_index_flush (store, error)
                  && hs_store_exec (store, "COMMIT", error);

  if (!done)
    {
      hs_store_rollback (store);
      return FALSE;
    }
  store->depth = 0;
  forget_transaction (store);
  return TRUE;
}

gboolean
hs_store_commit (HsStore *store, GError **error)
{
  g_return_val_if_fail (store->depth > 0, FALSE);

  if (store->depth == 1)
    return commit_outermost (store, error);
  if (!hs_store_may_change (store, error) || !hs_undo_commits (store, error)
      || !hs_store_exec (store, "RELEASE hs", error))
    {
      hs_store_rollback (store);
      return FALSE;
    }
  store->depth--;
  return TRUE;
}

void
hs_store_rollback (HsStore *store)
{
  if (store->depth == 0)
    return;
  store->depth--;
  hs_undo_rolled_back (store);
  /* After a full disk SQLite may have rolled back all by itself; then there is nothing left to undo. */
  if (!sqlite3_get_autocommit (store->db))
    (void) hs_store_exec (store, store->depth == 0 ? "ROLLBACK" : "ROLLBACK TO hs; RELEASE hs", NULL);
  if (store->depth == 0)
    forget_transaction (store);
}

gboolean
hs_store_end (HsStore *store, gboolean done, GError **error)
{
  if (done)
    return hs_store_commit (store, error);
  hs_store_rollback (store);
  return FALSE;
}

gboolean
hs_store_in_transaction (HsStore *store)
{
  return store->depth > 0;
}

HsInstant
hs_store_get_now (HsStore *store)
{
  return store->now;
}

gboolean
hs_store_may_change (HsStore *store, GError **error)
{
  if (store->depth > 0 && !sqlite3_get_autocommit (store->db))
    return TRUE;
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_FAILED,
               store->depth == 0 ? "%s: a change stands in a transaction, and none is open"
                                 : "%s: nothing of this was saved, an earlier fault undid all of it; try again",
               store->path);
  return FALSE;
}

void
hs_store_set_bulk (HsStore *store, gboolean bulk)
{
  store->bulk = bulk;
}

gboolean
hs_store_check (HsStore *store, gboolean thorough, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        thorough ? "PRAGMA integrity_check (1)" : "PRAGMA quick_check (1)", "");
  g_autoptr (HsSql) keys = NULL;
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  if (!row || strcmp (hs_sql_text (query, 0), "ok") != 0)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_A_BOOK,
                   "%s: the book is damaged (%s); " HS_STORE_PUT_BACKUP, store->path,
                   row ? hs_sql_text (query, 0) : "no answer");
      return FALSE;
    }
  keys = hs_sql_new (store, error, "PRAGMA foreign_key_check", "");
  if (keys == NULL || !hs_sql_step (keys, &row, error))
    return FALSE;
  if (!row)
    return TRUE;
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_A_BOOK,
               "%s: the book is damaged (a row of %s names one that is missing); " HS_STORE_PUT_BACKUP, store->path,
               hs_sql_text (keys, 0));
  return FALSE;
}
