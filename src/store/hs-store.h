// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <math.h>

#include "hs-store-error.h"
#include "hs-time.h"

G_BEGIN_DECLS

/**
 * HsStore:
 *
 * An open book file. The store is synchronous and belongs to one thread; two threads open the book twice.
 *
 * Reading needs no transaction. Every change stands in one: hs_store_begin(), the `_save` and `_delete` functions of
 * the rows, hs_store_commit(). What a row function changes it also writes into the log of changes and into the search
 * index, in the same transaction. Messages of %HS_STORE_ERROR are sentences for the owner.
 */
typedef struct _HsStore HsStore;

/* How many numbers of the schema this program knows: the version of a new book. */
#define HS_STORE_SCHEMA 9

/* Optional whole numbers and reals of a row that are not there. Text is %NULL, dates and instants have their own. */
#define HS_INT_NONE G_MININT64
#define HS_REAL_NONE ((double) NAN)

/**
 * HsStoreMode:
 * @HS_STORE_READ: never writes
 * @HS_STORE_WRITE: an existing book; if its file or folder cannot be written it is opened for reading all the same,
 *   see hs_store_is_read_only()
 * @HS_STORE_CREATE: a new book; an existing file, even an empty one, is refused and left as it is
 */
typedef enum
{
  HS_STORE_READ,
  HS_STORE_WRITE,
  HS_STORE_CREATE,
} HsStoreMode;

/**
 * HsStoreUser:
 * @program: e.g. `halfshaft-cli`; shown to another program that finds the book held
 * @host: the machine's name
 * @pid: the process
 * @now: when it is opened
 * @who: (nullable): whom the log of changes names, e.g. a van's letter; %NULL: @program
 * @busy_milliseconds: how long to wait for another writer; 0: 5000
 */
typedef struct
{
  const char *program;
  const char *host;
  int pid;
  HsInstant now;
  const char *who;
  guint busy_milliseconds;
} HsStoreUser;

/**
 * hs_store_open:
 * @path: the book
 * @user: who opens it
 * @error: return location: %HS_STORE_ERROR_NOT_FOUND if there is no such file (or folder, when creating),
 *   %HS_STORE_ERROR_NOT_A_BOOK for an empty, truncated, damaged or foreign file, %HS_STORE_ERROR_NEWER for a book of a
 *   newer version, %HS_STORE_ERROR_REFUSED when creating over an existing file
 *
 * Opens a book and brings an older one up to date (in one transaction). A file that is refused is not changed by a
 * byte.
 *
 * Returns: (transfer full): the book, or %NULL
 */
HsStore *hs_store_open (const char *path, HsStoreMode mode, const HsStoreUser *user, GError **error);

/* hs_store_close: rolls back what was not committed and folds the write-ahead log into the one file. */
void hs_store_close (HsStore *store);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsStore, hs_store_close)

/* hs_store_remove: takes away a book that could not be made, shut before: also the log that a full disk kept from being
 * folded in, which would fill that disk and lie in wait for the next book of this name. */
void hs_store_remove (const char *path);

const char *hs_store_get_path (HsStore *store);
gboolean hs_store_is_read_only (HsStore *store);

/* hs_store_get_schema: version of the open book's schema. */
int hs_store_get_schema (HsStore *store);

/**
 * hs_store_file_paths:
 *
 * Returns: (transfer full): the book's file and the one beside it that a file monitor has to watch: a commit of another
 *   program changes the second
 */
char **hs_store_file_paths (HsStore *store);

/**
 * hs_store_data_version:
 * @ret_version: (out): a number that changes when another connection has committed; own changes leave it
 *
 * Also refuses with %HS_STORE_ERROR_FAILED when the file at the path is no longer the one that was opened.
 */
gboolean hs_store_data_version (HsStore *store, gint64 *ret_version, GError **error);

/* hs_store_interrupt: stops a long query from another thread; it fails with %HS_STORE_ERROR_FAILED. */
void hs_store_interrupt (HsStore *store);

/* hs_store_set_who: whom the log of changes names from now on. */
void hs_store_set_who (HsStore *store, const char *who);

/* hs_store_set_device: (nullable): the machine that works on the book, by an id of its own. Without one, or if posting
 * is not on for it, nothing is queued for the owner's endpoint. */
void hs_store_set_device (HsStore *store, const char *device);

/**
 * hs_store_begin:
 * @now: stamped on every change of this transaction
 * @error: return location: %HS_STORE_ERROR_BUSY names the program that holds the book, %HS_STORE_ERROR_READ_ONLY
 *
 * Starts to write. Inside a transaction it opens a savepoint, so that an operation can be part of a larger one; @now of
 * the outermost counts. Each begin needs its own hs_store_commit() or hs_store_rollback().
 */
gboolean hs_store_begin (HsStore *store, HsInstant now, GError **error);

/**
 * hs_store_commit:
 * @error: return location: %HS_STORE_ERROR_FULL for a full disk
 *
 * When the outermost commit fails, everything since the outermost begin is rolled back.
 */
gboolean hs_store_commit (HsStore *store, GError **error);

/* hs_store_rollback: undoes what happened since the innermost begin. Without one it does nothing. */
void hs_store_rollback (HsStore *store);

/**
 * hs_store_end:
 * @done: whether the work since the innermost begin succeeded
 *
 * Commits if it did, rolls back if not: `return hs_store_end (store, work (store, error), error);`
 *
 * Returns: @done, or %FALSE if the commit failed
 */
gboolean hs_store_end (HsStore *store, gboolean done, GError **error);

gboolean hs_store_in_transaction (HsStore *store);

/* hs_store_get_now: the instant of the open transaction, %HS_INSTANT_NONE without one. */
HsInstant hs_store_get_now (HsStore *store);

/**
 * hs_store_set_bulk:
 *
 * For filling a large book: neither the log of changes nor the search index is written. hs_search_rebuild() has to
 * follow in the same transaction.
 */
void hs_store_set_bulk (HsStore *store, gboolean bulk);

/**
 * hs_store_check:
 * @thorough: compare every index too
 * @error: return location: %HS_STORE_ERROR_NOT_A_BOOK with the first fault that was found
 *
 * Reads the whole file and tells whether it is sound.
 */
gboolean hs_store_check (HsStore *store, gboolean thorough, GError **error);

G_END_DECLS
