// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/* How long a piece of a file is; the last one is the rest. Shorter pieces make the book longer (16 KiB: 4 percent,
 * 64 KiB: 1 percent), longer ones save nothing more and take more memory at once. */
#define HS_PHOTO_CHUNK 65536

/**
 * HsPhotoFile:
 * @id: SHA-256 of the bytes, in hexadecimal
 * @media_type: `image/jpeg`, `image/png`, `image/webp`
 * @bytes: how many
 * @width: in pixels
 * @height: in pixels
 * @thumbnail: (nullable): a small picture of it, as the app encodes it
 */
typedef struct
{
  char *id;
  char *media_type;
  gint64 bytes;
  gint64 width;
  gint64 height;
  GBytes *thumbnail;
} HsPhotoFile;

HsPhotoFile *hs_photo_file_new (void);
void hs_photo_file_free (HsPhotoFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPhotoFile, hs_photo_file_free)

/**
 * hs_photo_file_add:
 * @file: @id and @bytes are filled in
 * @data: the bytes of the photo
 *
 * Keeps the bytes in pieces. The same bytes are kept once: adding them again changes nothing, but puts back pieces that
 * went missing. Needs a transaction. Not written into the log of changes, and not undone: the photos that show a file
 * are; see hs_photo_file_sweep().
 */
gboolean hs_photo_file_add (HsStore *store, HsPhotoFile *file, GBytes *data, GError **error);

/* hs_photo_file_find: without the bytes; @ret_file is %NULL if the book does not have it: it is missing. */
gboolean hs_photo_file_find (HsStore *store, const char *id, HsPhotoFile **ret_file, GError **error);

/* hs_photo_file_is_whole: the file is in the book with all its pieces; what is in them is not looked at. */
gboolean hs_photo_file_is_whole (HsStore *store, const char *id, gboolean *ret_whole, GError **error);

/* hs_photo_file_load_chunk: piece @n, counted from 0; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_photo_file_load_chunk (HsStore *store, const char *id, guint n, GBytes **ret_data, GError **error);

/**
 * hs_photo_file_load_data:
 * @ret_data: (out) (transfer full): all bytes, and they are the ones that were added
 *
 * Fails with %HS_STORE_ERROR_NOT_FOUND if the file or a piece of it is missing or is not what it was.
 */
gboolean hs_photo_file_load_data (HsStore *store, const char *id, GBytes **ret_data, GError **error);

/**
 * hs_photo_file_sweep:
 * @ret_n_files: (out): how many were taken away
 *
 * Takes away the files that no photo shows and that no step of hs-undo.h can bring back. Needs a transaction.
 */
gboolean hs_photo_file_sweep (HsStore *store, guint *ret_n_files, GError **error);

G_END_DECLS
