// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsStoreError:
 * @HS_STORE_ERROR_NOT_A_BOOK: the file is empty, truncated, damaged or belongs to another program
 * @HS_STORE_ERROR_NEWER: the book was written by a newer version
 * @HS_STORE_ERROR_BUSY: another program holds the book
 * @HS_STORE_ERROR_READ_ONLY: the book can be read but not written
 * @HS_STORE_ERROR_FULL: the disk is full, or the file may not grow
 * @HS_STORE_ERROR_REFUSED: a rule that the book itself keeps forbids it; the message is that rule
 * @HS_STORE_ERROR_NOT_FOUND: no such row
 * @HS_STORE_ERROR_FAILED: anything else that SQLite says
 *
 * The codes that a caller acts on; the message says the rest, in words for the owner.
 */
typedef enum
{
  HS_STORE_ERROR_NOT_A_BOOK,
  HS_STORE_ERROR_NEWER,
  HS_STORE_ERROR_BUSY,
  HS_STORE_ERROR_READ_ONLY,
  HS_STORE_ERROR_FULL,
  HS_STORE_ERROR_REFUSED,
  HS_STORE_ERROR_NOT_FOUND,
  HS_STORE_ERROR_FAILED,
} HsStoreError;

#define HS_STORE_ERROR (hs_store_error_quark ())
GQuark hs_store_error_quark (void);

G_END_DECLS
