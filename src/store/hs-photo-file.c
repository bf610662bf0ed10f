// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The bytes of photos, by the SHA-256 of what is in them and in pieces, so that a long photo needs little memory in
 * SQLite and the same photo stands in the book once. The file refuses to alter them. A missing file is an answer, not a
 * fault: a book may come from a copy without photos. */

#include "hs-photo-file.h"

#include "hs-table.h"

static const HsColumn file_columns[] = {
  HS_TEXT (HsPhotoFile, id),
  HS_TEXT (HsPhotoFile, media_type),
  HS_INT (HsPhotoFile, bytes),
  HS_INT (HsPhotoFile, width),
  HS_INT (HsPhotoFile, height),
  HS_BYTES (HsPhotoFile, thumbnail),
};

static const HsTable file_table = {
  HS_TABLE (HsPhotoFile, "photo_file", "file of a photo", file_columns),
  .unlogged = TRUE,
};

HsPhotoFile *
hs_photo_file_new (void)
{
  return hs_table_new (&file_table);
}

void
hs_photo_file_free (HsPhotoFile *file)
{
  hs_table_free (&file_table, file);
}

gboolean
hs_photo_file_find (HsStore *store, const char *id, HsPhotoFile **ret_file, GError **error)
{
  return hs_table_find (store, &file_table, (gpointer *) ret_file, error, "WHERE id = ?1", "t", id);
}

static gboolean
add_chunk (HsStore *store, const char *id, guint n, GBytes *data, GError **error)
{
  gsize start = (gsize) n * HS_PHOTO_CHUNK;
  gsize length = MIN (HS_PHOTO_CHUNK, g_bytes_get_size (data) - start);
  g_autoptr (GBytes) piece = g_bytes_new_from_bytes (data, start, length);
  g_autoptr (HsSql) query = hs_sql_new (store, error, "INSERT INTO photo_chunk (file_id, n, data) VALUES (?1, ?2, ?3)",
                                        "ti", id, (gint64) n);

  return query != NULL && hs_sql_bind_bytes (query, 3, piece, error) && hs_sql_run (query, error);
}

static guint
count_chunks (gint64 n_bytes)
{
  return (guint) ((n_bytes + HS_PHOTO_CHUNK - 1) / HS_PHOTO_CHUNK);
}

static gboolean
has_chunk (HsStore *store, const char *id, guint n, gboolean *ret_there, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT 1 FROM photo_chunk WHERE file_id = ?1 AND n = ?2", "ti",
                                        id, (gint64) n);

  return query != NULL && hs_sql_step (query, ret_there, error);
}

gboolean
hs_photo_file_add (HsStore *store, HsPhotoFile *file, GBytes *data, GError **error)
{
  g_autofree char *id = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, data);
  g_autoptr (HsPhotoFile) there = NULL;

  if (!hs_store_may_change (store, error) || !hs_photo_file_find (store, id, &there, error))
    return FALSE;
  hs_row_set (&file->id, id);
  file->bytes = (gint64) g_bytes_get_size (data);
  if (there == NULL && !hs_table_save (store, &file_table, file, error))
    return FALSE;
  for (guint n = 0; n < count_chunks (file->bytes); n++)
    {
      gboolean kept;

      if (!has_chunk (store, id, n, &kept, error) || (!kept && !add_chunk (store, id, n, data, error)))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_photo_file_is_whole (HsStore *store, const char *id, gboolean *ret_whole, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "SELECT bytes = (SELECT total (length (data)) FROM photo_chunk"
                                        " WHERE file_id = ?1) FROM photo_file WHERE id = ?1", "t", id);
  gint64 whole;

  if (!hs_sql_one_int (query, 0, &whole, error))
    return FALSE;
  *ret_whole = whole != 0;
  return TRUE;
}

static gboolean
missing (const char *id, GError **error)
{
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND,
               "The picture of this photo is not in the book (%.8s); add it again, or take it from a backup", id);
  return FALSE;
}

gboolean
hs_photo_file_load_chunk (HsStore *store, const char *id, guint n, GBytes **ret_data, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT data FROM photo_chunk WHERE file_id = ?1 AND n = ?2",
                                        "ti", id, (gint64) n);
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  if (!row)
    return missing (id, error);
  *ret_data = hs_sql_dup_bytes (query, 0);
  return TRUE;
}

gboolean
hs_photo_file_load_data (HsStore *store, const char *id, GBytes **ret_data, GError **error)
{
  g_autoptr (HsPhotoFile) file = NULL;
  g_autoptr (GByteArray) array = g_byte_array_new ();
  g_autoptr (GBytes) data = NULL;
  g_autofree char *sum = NULL;

  if (!hs_photo_file_find (store, id, &file, error))
    return FALSE;
  if (file == NULL)
    return missing (id, error);
  for (guint n = 0; n < count_chunks (file->bytes); n++)
    {
      g_autoptr (GBytes) piece = NULL;

      if (!hs_photo_file_load_chunk (store, id, n, &piece, error))
        return FALSE;
      g_byte_array_append (array, g_bytes_get_data (piece, NULL), (guint) g_bytes_get_size (piece));
    }
  data = g_byte_array_free_to_bytes (g_steal_pointer (&array));
  sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, data);
  if (g_strcmp0 (sum, id) != 0)
    return missing (id, error);
  *ret_data = g_steal_pointer (&data);
  return TRUE;
}

gboolean
hs_photo_file_sweep (HsStore *store, guint *ret_n_files, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "DELETE FROM photo_file WHERE NOT EXISTS (SELECT 1 FROM photo WHERE file_id = photo_file.id)"
                      " AND NOT EXISTS (SELECT 1 FROM undo_step"
                      " WHERE instr (changes, CAST (photo_file.id AS BLOB)) > 0)", "");
  if (!hs_sql_run (query, error))
    return FALSE;
  *ret_n_files = (guint) sqlite3_changes (store->db);
  return TRUE;
}
