// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The photos of a job: what each shows and when it was taken; their bytes stand in hs-photo-file.c. The file refuses to
 * bind a photo to something of another job. */

#include "hs-photo-row.h"

#include "hs-table.h"

static const HsColumn photo_columns[] = {
  HS_TEXT (HsPhotoRow, id),
  HS_TEXT (HsPhotoRow, job_id),
  HS_TEXT (HsPhotoRow, visit_id),
  HS_TEXT (HsPhotoRow, finding_id),
  HS_TEXT (HsPhotoRow, reading_id),
  HS_TEXT (HsPhotoRow, file_id),
  HS_TEXT (HsPhotoRow, name),
  HS_TEXT (HsPhotoRow, words),
  HS_TEXT (HsPhotoRow, phase),
  HS_INT (HsPhotoRow, taken_at),
  HS_INT (HsPhotoRow, added_at),
};

static const HsTable photo_table = {
  HS_TABLE (HsPhotoRow, "photo", "photo", photo_columns),
};

HS_DEFINE_ROW (HsPhotoRow, hs_photo_row, photo_table)

gboolean
hs_photo_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &photo_table, (GDestroyNotify) hs_photo_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_photo_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &photo_table, (GDestroyNotify) hs_photo_row_free, ret_rows, error, "ORDER BY seq", "");
}

gboolean
hs_photo_row_find (HsStore *store, const char *name, HsInstant taken_at, HsPhotoRow **ret_row, GError **error)
{
  return hs_table_find (store, &photo_table, (gpointer *) ret_row, error, "WHERE name = ?1 AND taken_at IS ?2", "ti",
                        name, taken_at);
}
