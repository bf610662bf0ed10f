// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Notes by model: where the fuse is, the knack, the counter's name for the part, what to beware of. A note outlives its
 * job. Refuses one on a vehicle whose make or model is not known, and years that are none. */

#include "hs-model-note-op.h"

#include "hs-decimal.h"
#include "hs-model-note-row.h"
#include "hs-ops-private.h"
#include "hs-vehicle-row.h"

#include <string.h>

void
hs_model_note_free (HsModelNote *note)
{
  if (note == NULL)
    return;
  g_free (note->id);
  g_free (note->topic);
  g_free (note->words);
  g_free (note->years);
  g_free (note->number);
  g_free (note);
}

/* %NULL vehicle: the job has none, or nobody knows its model. */
static gboolean
load_model (HsStore *store, const char *job_id, HsJobRow **ret_job, HsVehicleRow **ret_vehicle, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (!hs_job_row_load (store, job_id, ret_job, error))
    return FALSE;
  if ((*ret_job)->vehicle_id == NULL)
    return TRUE;
  if (!hs_vehicle_row_load (store, (*ret_job)->vehicle_id, &vehicle, error))
    return FALSE;
  if (hs_ops_blank_to_null (vehicle->make) != NULL && hs_ops_blank_to_null (vehicle->model) != NULL)
    *ret_vehicle = g_steal_pointer (&vehicle);
  return TRUE;
}

static char *
say_years (const HsModelNoteRow *row)
{
  int from = (int) row->year_from;
  int to = (int) row->year_to;

  if (row->year_from == HS_INT_NONE && row->year_to == HS_INT_NONE)
    return NULL;
  if (row->year_from == row->year_to)
    return g_strdup_printf ("%d", from);
  if (row->year_from == HS_INT_NONE)
    return g_strdup_printf ("to %d", to);
  return row->year_to == HS_INT_NONE ? g_strdup_printf ("from %d", from) : g_strdup_printf ("%d to %d", from, to);
}

static gboolean
add_note (HsStore *store, const HsModelNoteRow *row, GPtrArray *notes, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  HsModelNote *note;

  if (row->job_id != NULL && !hs_job_row_load (store, row->job_id, &job, error))
    return FALSE;
  note = g_new0 (HsModelNote, 1);
  note->id = g_strdup (row->id);
  note->topic = g_strdup (row->topic);
  note->topic_word = hs_words_label (HS_WORDS_NOTE_TOPIC, row->topic);
  note->words = g_strdup (row->words);
  note->years = say_years (row);
  note->number = job != NULL ? g_strdup (job->number) : NULL;
  note->at = row->at;
  g_ptr_array_add (notes, note);
  return TRUE;
}

GPtrArray *
hs_model_note_list (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) notes = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_model_note_free);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  if (!load_model (store, job_id, &job, &vehicle, error))
    return NULL;
  if (vehicle == NULL)
    return g_steal_pointer (&notes);
  if (!hs_model_note_row_list_of (store, vehicle->make, vehicle->model, vehicle->year, &rows, error))
    return NULL;
  for (guint i = 0; i < rows->len; i++)
    if (!add_note (store, g_ptr_array_index (rows, i), notes, error))
      return NULL;
  return g_steal_pointer (&notes);
}

/* Years ------------------------------------------------------------------------------------------------------------ */

static gboolean
read_year (const char *text, gint64 *ret_year, GError **error)
{
  g_autofree char *said = hs_ops_said_back (text);
  gint64 year;

  if (hs_ops_blank_to_null (text) == NULL)
    return TRUE;
  if (!hs_decimal_parse (text, 0, &year, NULL) || year < 1885 || year > 2200)
    return hs_ops_refuse (error, "“%s” is no year of a vehicle; write them like 2014-2018.", said);
  *ret_year = year;
  return TRUE;
}

static gboolean
read_years (const char *years, HsModelNoteRow *row, GError **error)
{
  g_auto (GStrv) ends = NULL;

  if (hs_ops_blank_to_null (years) == NULL)
    return TRUE;
  ends = g_strsplit (years, "-", 2);
  if (!read_year (ends[0], &row->year_from, error) || (ends[1] != NULL && !read_year (ends[1], &row->year_to, error)))
    return FALSE;
  if (ends[1] == NULL)
    row->year_to = row->year_from;
  if (row->year_to != HS_INT_NONE && row->year_from > row->year_to)
    return hs_ops_refuse (error, "%s: the first year comes first.", years);
  return TRUE;
}

/* Writing ---------------------------------------------------------------------------------------------------------- */

static HsModelNoteRow *
row_of_entry (HsStore *store, const char *job_id, const HsModelNoteEntry *entry, HsInstant now, GError **error)
{
  g_autoptr (HsModelNoteRow) row = hs_model_note_row_new ();
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVehicleRow) vehicle = NULL;
  const char *topic;

  if (!hs_ops_word (HS_WORDS_NOTE_TOPIC, entry->topic, "knack", &topic, error)
      || !read_years (entry->years, row, error) || !load_model (store, job_id, &job, &vehicle, error))
    return NULL;
  if (vehicle == NULL)
    hs_ops_refuse (error, "A note on which model? Make and model of the vehicle of %s are not known yet.", job->number);
  else if (hs_ops_blank_to_null (entry->words) == NULL)
    hs_ops_refuse (error, "A note needs a few words.");
  else
    {
      hs_row_set (&row->make, vehicle->make);
      hs_row_set (&row->model, vehicle->model);
      hs_row_set (&row->topic, topic);
      hs_row_set (&row->words, entry->words);
      hs_row_set (&row->job_id, job_id);
      row->at = now;
      return g_steal_pointer (&row);
    }
  return NULL;
}

/* A squared job takes no step to be taken back, but a note may still be written. */
static gboolean
note_step (HsStore *store, const char *job_id, const char *what, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  if (!g_str_equal (job->stage, hs_stage_id (HS_STAGE_SQUARED)))
    hs_undo_note (store, job_id, what);
  return TRUE;
}

char *
hs_model_note_add (HsBook *book, const char *job_id, const HsModelNoteEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsModelNoteRow) row = row_of_entry (store, job_id, entry, now, error);

  if (row == NULL || !hs_store_begin (store, now, error)
      || !hs_store_end (store, note_step (store, job_id, "note on the model", error)
                                   && hs_model_note_row_save (store, row, error), error))
    return NULL;
  return g_strdup (row->id);
}

gboolean
hs_model_note_remove (HsBook *book, const char *job_id, const char *note_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, note_step (store, job_id, "note on the model removed", error)
                                     && hs_model_note_row_delete (store, note_id, error), error);
}
