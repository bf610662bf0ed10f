// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store-private.h"

G_BEGIN_DECLS

/* hs_store_file_inspect: whether the bytes at @path can be a book of a version up to @newest; writes nothing. */
gboolean hs_store_file_inspect (const char *path, int newest, GError **error);

/* hs_store_file_create: puts a new book at @path, all of it or nothing, never over an existing file. */
gboolean hs_store_file_create (const char *path, GError **error);

/* hs_store_file_may_write: file and folder can be written. */
gboolean hs_store_file_may_write (const char *path);

/* hs_store_file_dup_wal: where the write-ahead log of @path lies. */
char *hs_store_file_dup_wal (const char *path);

/* hs_store_file_size: bytes of the file, -1 if there is none. */
gint64 hs_store_file_size (const char *path);

G_END_DECLS
