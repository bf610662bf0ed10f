// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-catalog.h"
#include "hs-cause-catalog.h"
#include "hs-store.h"
#include "hs-tongue.h"
#include "hs-time.h"

G_BEGIN_DECLS

/**
 * HsBook:
 *
 * An open book with what every operation needs beside the rows: the check catalog, the book's time zone, its
 * currency's decimals, and who is writing. Operations take a book and `now`; they load, ask core or plan, and save in
 * one transaction. A book belongs to one thread.
 */
typedef struct _HsBook HsBook;

typedef enum
{
  HS_BOOK_WRITE,
  HS_BOOK_READ,
} HsBookMode;

/**
 * HsBookUser:
 * @program: the program that opens the book ("halfshaft", "halfshaft-cli")
 * @host: the machine's name
 * @pid: the process
 * @now: when, for the session row
 *
 * Who opens the book; shown to another program that finds it held.
 */
typedef struct
{
  const char *program;
  const char *host;
  int pid;
  HsInstant now;
} HsBookUser;

/**
 * hs_book_new:
 * @path: where the new book goes; its folder must exist
 * @zone: an IANA zone id, kept in the book
 * @user: who makes it
 *
 * Makes a new book with van A, the zone and all rates at their defaults; `base_area` is set once there are areas. An
 * existing file is never overwritten.
 *
 * Returns: (transfer full): the book, or %NULL with @error set.
 */
HsBook *hs_book_new (const char *path, const char *zone, const HsBookUser *user, GError **error);

/**
 * hs_book_open:
 * @mode: %HS_BOOK_READ never writes
 *
 * Opens an existing book. A book that cannot be written (read-only folder) opens for reading in %HS_BOOK_WRITE mode
 * too; see hs_book_is_read_only().
 */
HsBook *hs_book_open (const char *path, HsBookMode mode, const HsBookUser *user, GError **error);
void hs_book_close (HsBook *book);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsBook, hs_book_close)

HsStore *hs_book_get_store (HsBook *book);

/** hs_book_get_host, hs_book_get_device: (transfer none): what the machine is called, and an id of it that says nothing
 * else about it. */
const char *hs_book_get_host (HsBook *book);
const char *hs_book_get_device (HsBook *book);

/** hs_book_get_checks: (transfer none): the catalog of checks. */
HsChecks *hs_book_get_checks (HsBook *book);

/** hs_book_get_catalog: (transfer none): which catalog that is, and what is wrong with the file beside the book. */
const HsCatalog *hs_book_get_catalog (HsBook *book);

/**
 * hs_book_set_tongue:
 * @in: (nullable): what says sentences that are made of a book: what to check next, why it failed. It has to live as
 *   long; %NULL: English
 */
void hs_book_set_tongue (HsBook *book, const HsTongue *in);
/** hs_book_get_tongue: (transfer none): never %NULL. */
const HsTongue *hs_book_get_tongue (HsBook *book);

/**
 * hs_book_get_causes: (transfer none): which cause models are in use, and what is wrong with the file beside the book.
 * Read when it is first asked for; %NULL only if what is built in cannot be read.
 */
const HsCauseCatalog *hs_book_get_causes (HsBook *book, GError **error);

/** hs_book_get_zone: the zone of the book's setting `zone`; owned by the book, replaced when the setting changes. */
GTimeZone *hs_book_get_zone (HsBook *book);

/**
 * hs_book_set_van:
 * @letter: (nullable): a van's letter; %NULL for the first
 *
 * Says whose day is meant where an operation is asked about no van in particular. It is not kept in the book: two
 * windows may each look at another van.
 */
void hs_book_set_van (HsBook *book, const char *letter);

/** hs_book_get_van: (nullable): the letter set last. */
const char *hs_book_get_van (HsBook *book);

/** hs_book_get_currency: the ISO 4217 code of the book's money; owned by the book. */
const char *hs_book_get_currency (HsBook *book);
gboolean hs_book_is_read_only (HsBook *book);

G_END_DECLS
