// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * HsPhotoFound:
 * @uri: where the file is
 * @bytes: how long it is
 * @taken: by the camera's clock, or empty; @offset of that clock, or empty
 * @changed_at: when the file was written
 * @at: when it was taken as far as it is known: by the camera, else when the file was written
 * @known: a photo of that name and moment is in the book
 * @job_id: (nullable): the job that was being worked on at @at
 * @job: (nullable): its number
 * @plate: (nullable): of its vehicle
 * @visit_id: (nullable): the visit
 *
 * A photo in a camera's folder.
 */
typedef struct
{
  char *uri;
  char *name;
  gint64 bytes;
  char *taken;
  char *offset;
  HsInstant changed_at;
  HsInstant at;
  gboolean known;
  char *job_id;
  char *job;
  char *plate;
  char *visit_id;
} HsPhotoFound;

void hs_photo_found_free (HsPhotoFound *found);

/**
 * hs_photo_folder_scan:
 * @folder: of a camera or a telephone, or any other
 *
 * Looks for photos there and four folders down, at most 2000. Reads the first part of each; needs no book, and is slow
 * on a cable.
 *
 * Returns: (transfer full) (element-type HsPhotoFound): without what the book knows
 */
GPtrArray *hs_photo_folder_scan (GFile *folder, GError **error);

/**
 * hs_photo_folder_match:
 * @found: (element-type HsPhotoFound): what hs_photo_folder_scan() gave; filled in, newest first afterwards
 *
 * Says of each whether the book has it, and to which visit of a job that is not squared up it belongs by its time.
 */
gboolean hs_photo_folder_match (HsBook *book, GPtrArray *found, HsInstant now, GError **error);

G_END_DECLS
