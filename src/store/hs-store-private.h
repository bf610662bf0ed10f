// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <sqlite3.h>
#include <sys/stat.h>

#include "hs-store.h"

G_BEGIN_DECLS

/* "HSHF" in the file's header: the mark of a book. */
#define HS_STORE_APPLICATION_ID 0x48534846

/* What to do about a damaged book. A log left of it would spoil the backup. */
#define HS_STORE_PUT_BACKUP \
  "move it away together with the files beside it that end in -wal and -shm, keep them, and put a backup in its place"

/*
 * statements: SQL text → prepared statement that nobody uses just now.
 * depth: how many begins are open.
 * seen_vehicles, changed_vehicles, changed_customers: ids whose search documents are written before the commit; the
 * values tell their order by counting noted.
 * device: the machine, if it is one that may post.
 * undo: the step that is being done, if one was noted. following: how deep in what follows from a change.
 */
struct _HsStore
{
  sqlite3 *db;
  char *path;
  struct stat opened;
  gboolean read_only;
  gboolean immutable;
  int schema;
  GHashTable *statements;
  guint depth;
  HsInstant now;
  char *who;
  char *device;
  char *program;
  char *host;
  int pid;
  char *session_id;
  gboolean announced;
  gboolean bulk;
  GHashTable *seen_vehicles;
  GHashTable *changed_vehicles;
  GHashTable *changed_customers;
  guint noted;
  struct _HsUndoWork *undo;
  guint following;
};

/**
 * hs_store_fail:
 * @rc: what SQLite returned
 *
 * Puts SQLite's last word on this connection into @error, as a sentence for the owner.
 *
 * Returns: %FALSE
 */
gboolean hs_store_fail (HsStore *store, int rc, GError **error);

/* hs_store_fail_db: the same before there is a store. @path is the book in the message. */
gboolean hs_store_fail_db (sqlite3 *db, const char *path, int rc, GError **error);

/* hs_store_exec: runs SQL that takes nothing and returns nothing. */
gboolean hs_store_exec (HsStore *store, const char *sql, GError **error);
gboolean hs_store_exec_db (sqlite3 *db, const char *path, const char *sql, GError **error);

/* hs_store_may_change: %FALSE with @error unless a transaction is open and has not been rolled back under us. */
gboolean hs_store_may_change (HsStore *store, GError **error);

/* hs_store_dup_holder: (nullable): who else has the book open: "halfshaft on tannery, process 812, since …". */
char *hs_store_dup_holder (HsStore *store);

G_END_DECLS
