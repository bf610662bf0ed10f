// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The book as a file: looks at its bytes before SQLite may touch them, and makes a new one. It refuses what is
 * empty, truncated, foreign or newer, and never writes over anything. SQLite itself would take an empty file for a
 * good one. */

#include "hs-store-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "hs-migrate.h"

#define HEADER_BYTES 100
#define MAGIC "SQLite format 3"

static guint32
big_endian (const guint8 *bytes, guint n)
{
  guint32 value = 0;

  for (guint i = 0; i < n; i++)
    value = value << 8 | bytes[i];
  return value;
}

static gboolean
refuse (GError **error, HsStoreError code, const char *path, const char *why)
{
  g_set_error (error, HS_STORE_ERROR, code, "%s: %s", path, why);
  return FALSE;
}

gint64
hs_store_file_size (const char *path)
{
  GStatBuf status;

  return g_stat (path, &status) == 0 ? (gint64) status.st_size : -1;
}

char *
hs_store_file_dup_wal (const char *path)
{
  return g_strconcat (path, "-wal", NULL);
}

/* Through SQLite, which keeps a file open for as long as another connection of the program has locks on it: whoever
 * opens a book by himself and closes it lets go of them all (POSIX advisory locks; "How To Corrupt An SQLite Database
 * File", 2.2). Nothing is written, and no lock is taken. */
static int
read_bytes (sqlite3 *db, guint8 *header)
{
  sqlite3_file *file = NULL;
  int rc = sqlite3_file_control (db, "main", SQLITE_FCNTL_FILE_POINTER, &file);

  if (rc != SQLITE_OK || file == NULL || file->pMethods == NULL)
    return SQLITE_CANTOPEN;
  return file->pMethods->xRead (file, header, HEADER_BYTES, 0);
}

static gboolean
read_header (const char *path, guint8 *header, GError **error)
{
  sqlite3 *db = NULL;
  int rc = sqlite3_open_v2 (path, &db, SQLITE_OPEN_READONLY, NULL);
  int why = rc == SQLITE_OK ? 0 : sqlite3_system_errno (db);

  if (rc == SQLITE_OK)
    rc = read_bytes (db, header);
  (void) sqlite3_close (db);
  if (rc != SQLITE_OK && rc != SQLITE_IOERR_SHORT_READ)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_FAILED, "%s: cannot be read: %s", path,
                   why != 0 ? g_strerror (why) : sqlite3_errstr (rc));
      return FALSE;
    }
  if (rc == SQLITE_OK && memcmp (header, MAGIC, sizeof MAGIC) == 0)
    return TRUE;
  return refuse (error, HS_STORE_ERROR_NOT_A_BOOK, path,
                 "this is not a book (the file is damaged or of another kind); choose another file, or put a backup in"
                 " its place");
}

/* The header tells the pages of the file if its two change counters agree (SQLite file format, 1.3.7). While a
 * write-ahead log waits beside the file, pages may still be there. */
static gboolean
is_truncated (const char *path, const guint8 *header)
{
  g_autofree char *wal = hs_store_file_dup_wal (path);
  gint64 page = big_endian (header + 16, 2);
  gint64 pages = big_endian (header + 28, 4);

  if (hs_store_file_size (wal) > 0 || memcmp (header + 24, header + 92, 4) != 0)
    return FALSE;
  return hs_store_file_size (path) < pages * (page == 1 ? 65536 : page);
}

gboolean
hs_store_file_inspect (const char *path, int newest, GError **error)
{
  guint8 header[HEADER_BYTES];
  GStatBuf status;
  guint32 version;

  if (g_stat (path, &status) != 0)
    return refuse (error, HS_STORE_ERROR_NOT_FOUND, path,
                   "there is no such book; make a new one, or check the name and the folder");
  if (!S_ISREG (status.st_mode))
    return refuse (error, HS_STORE_ERROR_NOT_A_BOOK, path, "this is not a file; choose the book itself");
  if (status.st_size == 0)
    return refuse (error, HS_STORE_ERROR_NOT_A_BOOK, path,
                   "the file is empty, its content is lost; put a backup in its place, or move it away and make a new"
                   " book");
  if (!read_header (path, header, error))
    return FALSE;
  if (big_endian (header + 68, 4) != HS_STORE_APPLICATION_ID)
    return refuse (error, HS_STORE_ERROR_NOT_A_BOOK, path, "this file belongs to another program; choose a book");
  version = big_endian (header + 60, 4);
  if (version > (guint32) newest)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NEWER,
                   "%s: this book was written by a newer version (schema %u, this one knows %d); install that version",
                   path, version, newest);
      return FALSE;
    }
  if (version == 0 || is_truncated (path, header))
    return refuse (error, HS_STORE_ERROR_NOT_A_BOOK, path,
                   "the book is cut short, a part of it is missing; put a backup in its place and keep this file");
  return TRUE;
}

gboolean
hs_store_file_may_write (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return g_access (path, R_OK | W_OK) == 0 && g_access (folder, W_OK | X_OK) == 0;
}

static gboolean
fill (const char *path, GError **error)
{
  sqlite3 *db = NULL;
  int rc = sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);
  g_autofree char *mark = g_strdup_printf ("PRAGMA application_id = %d", HS_STORE_APPLICATION_ID);
  gboolean done;

  done = (rc == SQLITE_OK || hs_store_fail_db (db, path, rc, error)) && hs_store_exec_db (db, path, mark, error)
         && hs_migrate (db, NULL, hs_migrations, hs_n_migrations, error)
         && hs_store_exec_db (db, path, "PRAGMA journal_mode = WAL", error);
  rc = sqlite3_close (db);
  if (done && rc != SQLITE_OK)
    return hs_store_fail_db (db, path, rc, error);
  return done;
}

/* The name of the new file has to be on the disk too. */
static void
sync_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  int fd = g_open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (fd < 0)
    return;
  (void) fsync (fd);
  (void) close (fd);
}

/* A hard link never replaces a file. Where the disk knows none (a memory stick), the look before has to do. */
static gboolean
move_into_place (const char *made, const char *path, GError **error)
{
  if (link (made, path) == 0)
    return TRUE;
  if (errno != EEXIST && g_access (path, F_OK) != 0 && g_rename (made, path) == 0)
    return TRUE;
  return refuse (error, HS_STORE_ERROR_REFUSED, path, "there is such a file already; choose another name");
}

gboolean
hs_store_file_create (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *unique = g_uuid_string_random ();
  g_autofree char *made = g_strdup_printf ("%s.new-%.8s", path, unique);
  gboolean done;

  if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    return refuse (error, HS_STORE_ERROR_NOT_FOUND, folder, "there is no such folder; make it first");
  if (g_access (path, F_OK) == 0)
    return refuse (error, HS_STORE_ERROR_REFUSED, path, "there is such a file already; choose another name");
  if (g_access (folder, W_OK | X_OK) != 0)
    return refuse (error, HS_STORE_ERROR_READ_ONLY, folder, "the folder cannot be written; choose another one");
  done = fill (made, error) && move_into_place (made, path, error);
  (void) g_unlink (made);
  sync_folder (path);
  return done;
}
