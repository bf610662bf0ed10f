// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gio/gio.h>

#include "hs-book.h"
#include "hs-calc.h"
#include "hs-snapshot.h"

G_BEGIN_DECLS

/**
 * HsLedger:
 *
 * The open book as the window sees it. One worker thread owns the #HsBook; the window hands it tasks and gets
 * snapshots back, so that no key press ever waits for the disk. It notices what another program writes.
 *
 * Properties: `path` (string, %NULL while none is open), `read-only` (boolean), `message` (string: a trouble that
 * lasts, such as a full disk; %NULL when all is well).
 */
#define HS_TYPE_LEDGER (hs_ledger_get_type ())
G_DECLARE_FINAL_TYPE (HsLedger, hs_ledger, HS, LEDGER, GObject)

/**
 * HsLedgerOpen:
 * @HS_LEDGER_OPEN: a book that is there
 * @HS_LEDGER_NEW: a new one; a file that is there is not touched
 * @HS_LEDGER_DEMO: the demo business; written first if it is not there
 */
typedef enum
{
  HS_LEDGER_OPEN,
  HS_LEDGER_NEW,
  HS_LEDGER_DEMO,
} HsLedgerOpen;

/**
 * HsNowFunc:
 *
 * Where `now` comes from: the wall, the demo's morning, or a moment that stands still. Called in the window's thread.
 *
 * Returns: Unix seconds
 */
typedef HsInstant (*HsNowFunc) (gpointer data);

/* hs_ledger_say_in: what says sentences that are made of a book, for all that are opened later; it has to live as long.
 * Without it they are English. */
void hs_ledger_say_in (const HsTongue *in);

/**
 * hs_ledger_new:
 * @now: the time source
 * @data: (closure): handed to @now
 * @free_data: (nullable): frees @data with the ledger
 * @program: name of this program, for another one that finds the book held
 * @pid: number of this process, likewise
 *
 * Returns: (transfer full): a ledger without a book
 */
HsLedger *hs_ledger_new (HsNowFunc now, gpointer data, GDestroyNotify free_data, const char *program, int pid);

/**
 * hs_ledger_open_async:
 * @path: the file; its folder is made for %HS_LEDGER_NEW and %HS_LEDGER_DEMO
 * @how: what to do about it
 * @zone: (nullable): IANA zone of a new book; %NULL is UTC
 *
 * Opens a book after shutting the one that was open. #HsLedger::changed tells that there is another one.
 */
void hs_ledger_open_async (HsLedger *ledger, const char *path, HsLedgerOpen how, const char *zone,
                           GAsyncReadyCallback callback, gpointer user_data);

/* hs_ledger_open_finish: %FALSE with @error of the store: what is wrong with the file and what to do. */
gboolean hs_ledger_open_finish (HsLedger *ledger, GAsyncResult *result, GError **error);

/**
 * HsLedgerFunc:
 * @book: the open book; only for the time of the call
 * @args: (nullable): what was handed to hs_ledger_ask_async() or hs_ledger_write_async()
 * @now: what the clock shows
 * @error: return location
 *
 * A task. Runs in the worker thread: it must touch nothing but its arguments.
 *
 * Returns: (transfer full): the answer, freed by the `free_answer` given with the task; %NULL with @error set, or
 * without for "nothing there"
 */
typedef gpointer (*HsLedgerFunc) (HsBook *book, GVariant *args, HsInstant now, GError **error);

/**
 * hs_ledger_ask_async:
 * @func: reads the book
 * @args: (nullable): its arguments; a floating one is taken over
 * @free_answer: (nullable): frees what @func returns
 *
 * Tasks run in the order in which they are handed in.
 */
void hs_ledger_ask_async (HsLedger *ledger, HsLedgerFunc func, GVariant *args, GDestroyNotify free_answer,
                          GAsyncReadyCallback callback, gpointer user_data);

/**
 * hs_ledger_write_async:
 * @quiet: nobody else shows what this changes (a draft): #HsLedger::changed is not emitted
 *
 * Like hs_ledger_ask_async() for a task that writes. #HsLedger::changed follows unless it failed or is @quiet; a disk
 * that is full or a book that another program holds shows in `message` until a write succeeds.
 */
void hs_ledger_write_async (HsLedger *ledger, HsLedgerFunc func, GVariant *args, GDestroyNotify free_answer,
                            gboolean quiet, GAsyncReadyCallback callback, gpointer user_data);

/**
 * hs_ledger_task_finish:
 * @ret_answer: (out) (transfer full) (optional): the answer; may be %NULL
 *
 * Returns: %FALSE if the task failed
 */
gboolean hs_ledger_task_finish (HsLedger *ledger, GAsyncResult *result, gpointer *ret_answer, GError **error);

/* hs_ledger_wait: runs the main context until all tasks handed in so far are done; for the end of the program. */
void hs_ledger_wait (HsLedger *ledger);


/* hs_ledger_get_clock_starts: when the book's own clock starts as it is opened, as the demo's does; %HS_INSTANT_NONE
 * for a book that lives by the wall. */
HsInstant hs_ledger_get_clock_starts (HsLedger *ledger);
HsInstant hs_ledger_get_now (HsLedger *ledger);
const char *hs_ledger_get_path (HsLedger *ledger);
gboolean hs_ledger_is_open (HsLedger *ledger);
gboolean hs_ledger_is_read_only (HsLedger *ledger);
const char *hs_ledger_get_message (HsLedger *ledger);

/* hs_ledger_get_zone: (transfer none): the book's time zone; UTC while none is open. */
GTimeZone *hs_ledger_get_zone (HsLedger *ledger);

/* hs_ledger_get_currency: (transfer none): ISO 4217 code of the book's currency. */
const char *hs_ledger_get_currency (HsLedger *ledger);

/* hs_ledger_get_checks: (transfer none) (nullable): the catalog of checks; %NULL until a book was open. */
HsChecks *hs_ledger_get_checks (HsLedger *ledger);

/* hs_ledger_get_catalog_trouble: (transfer none) (nullable): why the owner's list of checks beside the book is not
 * used. */
const char *hs_ledger_get_catalog_trouble (HsLedger *ledger);

/**
 * hs_ledger_get_scene:
 * @ret_scene: (out): what a calculator may look at; it stays good until the main context runs again
 * @error: the table that is compiled in and cannot be read
 *
 * Works without a book too: then with the catalog as it is shipped, in US dollars.
 */
gboolean hs_ledger_get_scene (HsLedger *ledger, HsCalcScene *ret_scene, GError **error);

/* hs_ledger_get_today: the day that the clock shows in the book's zone. */
HsDate hs_ledger_get_today (HsLedger *ledger);

G_END_DECLS
