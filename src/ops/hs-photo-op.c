// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is done with the photos of a job, each one step. Refuses a photo that the job has, what belongs to another job,
 * and everything once the job is squared up. */

#include "hs-photo-op.h"

#include "hs-finding-row.h"
#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-ops-private.h"
#include "hs-photo-file.h"
#include "hs-photo-private.h"
#include "hs-photo-row.h"
#include "hs-reading-row.h"

HsInstant
hs_photo_instant (HsBook *book, const char *taken, const char *offset)
{
  g_autofree char *text = g_strconcat (taken, offset, NULL);
  HsInstant at = HS_INSTANT_NONE;

  if (*taken != '\0')
    hs_instant_parse (text, hs_book_get_zone (book), &at, NULL);
  return at;
}

gint64
hs_photo_far (const HsVisitRow *visit, HsInstant at, HsInstant now)
{
  HsInstant from = visit->rolling_at != HS_INSTANT_NONE ? visit->rolling_at : visit->arrived_at;
  HsInstant to = visit->left_at != HS_INSTANT_NONE ? visit->left_at : now;
  gint64 far;

  if (from == HS_INSTANT_NONE)
    return -1;
  far = MAX (0, MAX (from - at, at - to));
  return far <= HS_PHOTO_SLACK_SECONDS ? far : -1;
}

static gboolean
fill_visit (HsStore *store, HsPhotoRow *row, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  gint64 best = -1;

  if (row->taken_at == HS_INSTANT_NONE)
    return TRUE;
  if (!hs_visit_row_list_of (store, row->job_id, &visits, error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);
      gint64 far = hs_photo_far (visit, row->taken_at, now);

      if (far < 0 || (best >= 0 && far >= best))
        continue;
      best = far;
      hs_row_set (&row->visit_id, visit->id);
    }
  return TRUE;
}

/* The latest phase of which a reading stood already. */
static gboolean
fill_phase (HsStore *store, HsPhotoRow *row, HsInstant now, GError **error)
{
  HsInstant at = row->taken_at != HS_INSTANT_NONE ? row->taken_at : now;
  g_autoptr (GPtrArray) readings = NULL;
  int phase = 0;

  if (row->phase != NULL)
    return TRUE;
  if (!hs_reading_row_list_of (store, row->job_id, &readings, error))
    return FALSE;
  for (guint i = 0; i < readings->len; i++)
    {
      const HsReadingRow *reading = g_ptr_array_index (readings, i);

      if (reading->taken_at <= at)
        phase = MAX (phase, hs_words_index (HS_WORDS_PHASE, reading->phase));
    }
  hs_row_set (&row->phase, hs_words_get (HS_WORDS_PHASE, NULL)[phase].id);
  return TRUE;
}

static gboolean
keep_file (HsStore *store, const HsPhotoIntake *intake, char **ret_file_id, GError **error)
{
  g_autoptr (HsPhotoFile) file = hs_photo_file_new ();
  guint n_swept;

  hs_row_set (&file->media_type, intake->media_type);
  file->width = intake->width;
  file->height = intake->height;
  file->thumbnail = g_bytes_ref (intake->thumbnail);
  if (!hs_photo_file_sweep (store, &n_swept, error) || !hs_photo_file_add (store, file, intake->data, error))
    return FALSE;
  *ret_file_id = g_strdup (file->id);
  return TRUE;
}

/* The number from 1 of the photo of the job with that picture, or 0. */
static gboolean
find_same (HsStore *store, const char *job_id, const char *file_id, guint *ret_number, char **ret_id, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  *ret_number = 0;
  if (!hs_photo_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len && *ret_number == 0; i++)
    {
      const HsPhotoRow *row = g_ptr_array_index (rows, i);

      if (!g_str_equal (row->file_id, file_id))
        continue;
      *ret_number = i + 1;
      *ret_id = g_strdup (row->id);
    }
  return TRUE;
}

static gboolean
save_new (HsBook *book, HsPhotoRow *row, const HsPhotoIntake *intake, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  row->taken_at = hs_photo_instant (book, intake->taken, intake->offset);
  row->added_at = now;
  hs_row_set (&row->name, hs_ops_blank_to_null (intake->name));
  hs_ops_note (store, row->job_id, "photo%s: %s", intake->kept_place ? ", with its place" : "", intake->name);
  return fill_visit (store, row, now, error) && fill_phase (store, row, now, error)
         && hs_photo_row_save (store, row, error)
         && (!intake->kept_place
             || hs_log_row_add_override (store, "photo", row->id, "place", "kept in the picture on purpose", error));
}

/* What the job has already is refused, unless its picture went missing and is put back by this. */
static gboolean
add (HsBook *book, HsPhotoRow *row, const HsPhotoIntake *intake, HsInstant now, gboolean *ret_mended, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, intake->data);
  g_autofree char *same_id = NULL;
  gboolean whole;
  guint same;

  if (!hs_photo_file_is_whole (store, sum, &whole, error)
      || !find_same (store, row->job_id, sum, &same, &same_id, error))
    return FALSE;
  if (same > 0 && whole)
    return hs_ops_refuse (error, "“%s” is on this job already, as photo %u. It was not added again.", intake->name,
                          same);
  if (!keep_file (store, intake, &row->file_id, error))
    return FALSE;
  *ret_mended = same > 0;
  if (same == 0)
    return save_new (book, row, intake, now, error);
  hs_row_set (&row->id, same_id);
  return TRUE;
}

static HsPhotoRow *
row_of_entry (const char *job_id, const HsPhotoEntry *entry, GError **error)
{
  g_autoptr (HsPhotoRow) row = hs_photo_row_new ();
  const char *phase = NULL;

  if (entry != NULL && !hs_ops_word (HS_WORDS_PHASE, entry->phase, NULL, &phase, error))
    return NULL;
  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->phase, phase);
  if (entry == NULL)
    return g_steal_pointer (&row);
  hs_row_set (&row->finding_id, entry->finding_id);
  hs_row_set (&row->reading_id, entry->reading_id);
  hs_row_set (&row->words, hs_ops_blank_to_null (entry->words));
  return g_steal_pointer (&row);
}

char *
hs_photo_add (HsBook *book, const char *job_id, const HsPhotoIntake *intake, const HsPhotoEntry *entry, HsInstant now,
              gboolean *ret_mended, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsPhotoRow) row = row_of_entry (job_id, entry, error);
  gboolean mended = FALSE;

  if (row == NULL || !hs_store_begin (store, now, error)
      || !hs_store_end (store, add (book, row, intake, now, &mended, error), error))
    return NULL;
  if (ret_mended != NULL)
    *ret_mended = mended;
  return g_strdup (row->id);
}

/* Changes ---------------------------------------------------------------------------------------------------------- */

static gboolean
photo_load (HsStore *store, const char *photo_id, HsPhotoRow **ret_row, GError **error)
{
  g_autoptr (GError) missing = NULL;

  if (hs_photo_row_load (store, photo_id, ret_row, &missing))
    return TRUE;
  return hs_ops_only_missing (&missing, error)
         && hs_ops_not_found (error, "There is no such photo in this book. It may have been removed meanwhile.");
}

static const char *
called (const HsPhotoRow *row)
{
  return row->words != NULL ? row->words : row->name != NULL ? row->name : "photo";
}

/* A change of one field, for hs_photo_bind () and its like. */
typedef struct
{
  const char *note;
  gsize field;
  const char *text;
} Change;

static gboolean
change (HsStore *store, const char *photo_id, const Change *what, GError **error)
{
  g_autoptr (HsPhotoRow) row = NULL;
  g_autofree char *words = NULL;

  if (!photo_load (store, photo_id, &row, error))
    return FALSE;
  words = g_strdup_printf ("%s: %s", what->note, called (row));
  hs_undo_note (store, row->job_id, words);
  hs_row_set ((char **) ((char *) row + what->field), what->text);
  return hs_photo_row_save (store, row, error);
}

static gboolean
change_one (HsBook *book, const char *photo_id, const Change *what, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, change (store, photo_id, what, error), error);
}

gboolean
hs_photo_bind (HsBook *book, const char *photo_id, const char *finding_id, HsInstant now, GError **error)
{
  const Change what = { "what a photo shows", G_STRUCT_OFFSET (HsPhotoRow, finding_id), finding_id };
  g_autoptr (HsFindingRow) finding = NULL;
  g_autoptr (GError) missing = NULL;

  if (finding_id != NULL && !hs_finding_row_load (hs_book_get_store (book), finding_id, &finding, &missing))
    return hs_ops_only_missing (&missing, error)
           && hs_ops_not_found (error, "There is no such finding in this book. It may have been removed meanwhile.");
  return change_one (book, photo_id, &what, now, error);
}

gboolean
hs_photo_set_phase (HsBook *book, const char *photo_id, const char *phase, HsInstant now, GError **error)
{
  Change what = { "phase of a photo", G_STRUCT_OFFSET (HsPhotoRow, phase), NULL };

  if (hs_ops_blank_to_null (phase) == NULL)
    return hs_ops_refuse (error, "Say when the photo was taken: before, during or after the repair.");
  return hs_words_parse (HS_WORDS_PHASE, phase, &what.text, error) && change_one (book, photo_id, &what, now, error);
}

gboolean
hs_photo_reword (HsBook *book, const char *photo_id, const char *words, HsInstant now, GError **error)
{
  const Change what = { "words of a photo", G_STRUCT_OFFSET (HsPhotoRow, words), hs_ops_blank_to_null (words) };

  return change_one (book, photo_id, &what, now, error);
}

static gboolean
remove_photo (HsStore *store, const char *photo_id, GError **error)
{
  g_autoptr (HsPhotoRow) row = NULL;

  if (!photo_load (store, photo_id, &row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "photo removed: %s", called (row));
  return hs_photo_row_delete (store, photo_id, error);
}

gboolean
hs_photo_remove (HsBook *book, const char *photo_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, remove_photo (store, photo_id, error), error);
}
