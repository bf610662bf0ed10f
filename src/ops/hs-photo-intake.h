// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-picture.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/* How wide and high the small picture of a photo is at most: sharp at twice the size at which lists show it. */
#define HS_PHOTO_THUMBNAIL 320

/**
 * HsPhotoIntake:
 * @name: of the file
 * @data: the bytes as the book will keep them
 * @thumbnail: a small JPEG of it
 * @width: in pixels, once it is upright
 * @height: likewise
 * @taken: by the camera's clock, `2026-03-10T08:41:07`, or empty
 * @offset: of that clock, `+01:00`, or empty
 * @told_place: the file said where it was taken
 * @kept_place: and @data still does
 *
 * A photo that was looked at and is fit to be kept. Making one needs no book and may take a second: it is made in a
 * thread of its own while the book stays free.
 */
typedef struct
{
  char *name;
  const char *media_type;
  GBytes *data;
  GBytes *thumbnail;
  guint width;
  guint height;
  char *taken;
  char *offset;
  gboolean told_place;
  gboolean kept_place;
} HsPhotoIntake;

void hs_photo_intake_free (HsPhotoIntake *intake);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPhotoIntake, hs_photo_intake_free)

/**
 * hs_photo_intake_read:
 * @file: a photo
 * @keep_place: keep the file byte for byte, with the place where it was taken; else everything that is told beside the
 *   picture goes, see hs_picture_bare()
 *
 * Reads no more of a file than a photo may be long.
 *
 * Returns: (transfer full) (nullable): the photo; %NULL with a sentence that begins with the file's name
 */
HsPhotoIntake *hs_photo_intake_read (GFile *file, gboolean keep_place, GError **error);

/* hs_photo_intake_take: the same from bytes that are at hand. */
HsPhotoIntake *hs_photo_intake_take (const char *name, GBytes *data, gboolean keep_place, GError **error);

/* hs_photo_file_begin: (transfer full) (nullable): the first @most bytes of a file; refuses what is no plain file. */
GBytes *hs_photo_file_begin (GFile *file, gsize most, GError **error);

G_END_DECLS
