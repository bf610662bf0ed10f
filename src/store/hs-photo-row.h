// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsPhotoRow:
 * @visit_id: (nullable): of the same job
 * @finding_id: (nullable): of the same job: what it shows
 * @reading_id: (nullable): of the same job: the display of a meter, a tester's printout
 * @file_id: of a file in hs-photo-file.h; it may be missing from the book
 * @name: (nullable): the file's name where it came from
 * @words: (nullable): what there is to see
 * @phase: `before`, `during`, `after`
 * @taken_at: by the camera, or %HS_INSTANT_NONE
 *
 * A photo of a job and what it is bound to. Its bytes are kept once, however many photos show them.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *visit_id;
  char *finding_id;
  char *reading_id;
  char *file_id;
  char *name;
  char *words;
  char *phase;
  HsInstant taken_at;
  HsInstant added_at;
} HsPhotoRow;

HS_DECLARE_ROW (HsPhotoRow, hs_photo_row)

/* hs_photo_row_list_of: in the order in which they were added. */
gboolean hs_photo_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_photo_row_list: all photos of the book, oldest first. */
gboolean hs_photo_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/* hs_photo_row_find: a photo of a file of that name, taken at that moment; @ret_row is %NULL if there is none. */
gboolean hs_photo_row_find (HsStore *store, const char *name, HsInstant taken_at, HsPhotoRow **ret_row,
                            GError **error);

G_END_DECLS
