// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The photos of a job as they are listed, the picture of one, and the check of all. A picture that the book does not
 * have is told, never a fault of the list. */

#include "hs-photo-op.h"

#include "hs-finding-row.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-photo-file.h"
#include "hs-photo-row.h"
#include "hs-visit-row.h"

void
hs_photo_card_free (HsPhotoCard *card)
{
  if (card == NULL)
    return;
  g_free (card->id);
  g_free (card->file_id);
  g_free (card->name);
  g_free (card->words);
  g_free (card->phase);
  g_free (card->finding_id);
  g_free (card->finding);
  g_free (card->reading_id);
  g_free (card->media_type);
  g_free (card);
}

static gboolean
fill_file (HsStore *store, HsPhotoCard *card, GError **error)
{
  g_autoptr (HsPhotoFile) file = NULL;
  gboolean whole;

  if (!hs_photo_file_find (store, card->file_id, &file, error)
      || !hs_photo_file_is_whole (store, card->file_id, &whole, error))
    return FALSE;
  card->missing = !whole;
  if (file == NULL)
    return TRUE;
  card->media_type = g_strdup (file->media_type);
  card->bytes = file->bytes;
  card->width = file->width;
  card->height = file->height;
  return TRUE;
}

static gboolean
fill_bonds (HsStore *store, const HsPhotoRow *row, GPtrArray *visits, HsPhotoCard *card, GError **error)
{
  g_autoptr (HsFindingRow) finding = NULL;

  for (guint i = 0; i < visits->len; i++)
    if (g_strcmp0 (((const HsVisitRow *) g_ptr_array_index (visits, i))->id, row->visit_id) == 0)
      card->visit = i + 1;
  if (row->finding_id == NULL)
    return TRUE;
  if (!hs_finding_row_load (store, row->finding_id, &finding, error))
    return FALSE;
  card->finding = g_strdup (finding->what);
  return TRUE;
}

static HsPhotoCard *
card_of_row (const HsPhotoRow *row, guint number)
{
  HsPhotoCard *card = g_new0 (HsPhotoCard, 1);

  card->id = g_strdup (row->id);
  card->file_id = g_strdup (row->file_id);
  card->name = g_strdup (row->name);
  card->words = g_strdup (row->words);
  card->phase = g_strdup (row->phase);
  card->finding_id = g_strdup (row->finding_id);
  card->reading_id = g_strdup (row->reading_id);
  card->taken_at = row->taken_at;
  card->added_at = row->added_at;
  card->number = number;
  return card;
}

GPtrArray *
hs_photo_list (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) cards = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_card_free);
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GPtrArray) visits = NULL;

  if (!hs_photo_row_list_of (store, job_id, &rows, error) || !hs_visit_row_list_of (store, job_id, &visits, error))
    return NULL;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsPhotoRow *row = g_ptr_array_index (rows, i);
      HsPhotoCard *card = card_of_row (row, i + 1);

      g_ptr_array_add (cards, card);
      if (!fill_file (store, card, error) || !fill_bonds (store, row, visits, card, error))
        return NULL;
    }
  return g_steal_pointer (&cards);
}

void
hs_photo_subject_free (HsPhotoSubject *subject)
{
  if (subject == NULL)
    return;
  g_free (subject->id);
  g_free (subject->what);
  g_free (subject);
}

GPtrArray *
hs_photo_subjects (HsBook *book, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  GPtrArray *subjects;

  if (!hs_finding_row_list_of (hs_book_get_store (book), job_id, &rows, error))
    return NULL;
  subjects = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_subject_free);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsFindingRow *row = g_ptr_array_index (rows, i);
      HsPhotoSubject *subject = g_new0 (HsPhotoSubject, 1);

      subject->id = g_strdup (row->id);
      subject->what = g_strdup (row->what);
      g_ptr_array_add (subjects, subject);
    }
  return subjects;
}

char *
hs_photo_find (HsBook *book, const char *job_id, const char *text, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  guint64 number = 0;

  if (!hs_photo_row_list_of (hs_book_get_store (book), job_id, &rows, error))
    return NULL;
  g_ascii_string_to_unsigned (text, 10, 1, G_MAXUINT, &number, NULL);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsPhotoRow *row = g_ptr_array_index (rows, i);

      if (number == i + 1 || g_str_equal (row->id, text))
        return g_strdup (row->id);
    }
  if (rows->len == 0)
    hs_ops_not_found (error, "There is no photo of this job yet.");
  else
    hs_ops_not_found (error, "There is no photo “%s” of this job; there are 1 to %u.", text, rows->len);
  return NULL;
}

static gboolean
load_row (HsBook *book, const char *photo_id, HsPhotoRow **ret_row, GError **error)
{
  return hs_photo_row_load (hs_book_get_store (book), photo_id, ret_row, error);
}

GBytes *
hs_photo_load (HsBook *book, const char *photo_id, GError **error)
{
  g_autoptr (HsPhotoRow) row = NULL;
  GBytes *data = NULL;

  if (load_row (book, photo_id, &row, error))
    hs_photo_file_load_data (hs_book_get_store (book), row->file_id, &data, error);
  return data;
}

GBytes *
hs_photo_load_thumbnail (HsBook *book, const char *photo_id, GError **error)
{
  g_autoptr (HsPhotoRow) row = NULL;
  g_autoptr (HsPhotoFile) file = NULL;

  if (!load_row (book, photo_id, &row, error)
      || !hs_photo_file_find (hs_book_get_store (book), row->file_id, &file, error))
    return NULL;
  if (file != NULL && file->thumbnail != NULL)
    return g_bytes_ref (file->thumbnail);
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND, "The small picture of this photo is not in the book.");
  return NULL;
}

gboolean
hs_photo_export (HsBook *book, const char *photo_id, GFile *to, GError **error)
{
  g_autoptr (GBytes) data = hs_photo_load (book, photo_id, error);
  g_autoptr (GFileOutputStream) stream = NULL;
  g_autoptr (GError) failure = NULL;
  gsize written;

  if (data == NULL)
    return FALSE;
  stream = g_file_create (to, G_FILE_CREATE_NONE, NULL, &failure);
  if (g_error_matches (failure, G_IO_ERROR, G_IO_ERROR_EXISTS))
    return hs_ops_refuse (error, "There is a file of that name already. Choose another name; no file is overwritten.");
  if (stream != NULL
      && g_output_stream_write_all (G_OUTPUT_STREAM (stream), g_bytes_get_data (data, NULL), g_bytes_get_size (data),
                                    &written, NULL, &failure)
      && g_output_stream_close (G_OUTPUT_STREAM (stream), NULL, &failure))
    return TRUE;
  /* Half a picture under its name would be taken for the whole. */
  if (stream != NULL)
    g_file_delete (to, NULL, NULL);
  return hs_ops_refuse (error, "The photo could not be written: %s.", failure->message);
}

/* The check of all. */

void
hs_photo_fault_free (HsPhotoFault *fault)
{
  if (fault == NULL)
    return;
  g_free (fault->job);
  g_free (fault->name);
  g_free (fault);
}

static gboolean
add_fault (HsStore *store, const HsPhotoRow *row, GPtrArray *faults, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  HsPhotoFault *fault;

  if (!hs_job_row_load (store, row->job_id, &job, error) || !hs_photo_row_list_of (store, row->job_id, &rows, error))
    return FALSE;
  fault = g_new0 (HsPhotoFault, 1);
  fault->job = g_strdup (job->number);
  fault->name = g_strdup (row->name);
  for (guint i = 0; i < rows->len; i++)
    if (g_str_equal (((const HsPhotoRow *) g_ptr_array_index (rows, i))->id, row->id))
      fault->number = i + 1;
  g_ptr_array_add (faults, fault);
  return TRUE;
}

gboolean
hs_photo_check (HsBook *book, guint *ret_n_photos, GPtrArray **ret_faults, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) faults = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_fault_free);
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_photo_row_list (store, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsPhotoRow *row = g_ptr_array_index (rows, i);
      g_autoptr (GBytes) data = NULL;
      g_autoptr (GError) failure = NULL;

      if (hs_photo_file_load_data (store, row->file_id, &data, &failure))
        continue;
      if (!hs_ops_only_missing (&failure, error) || !add_fault (store, row, faults, error))
        return FALSE;
    }
  *ret_n_photos = rows->len;
  *ret_faults = g_steal_pointer (&faults);
  return TRUE;
}
