// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Keying a reading, taking one back, and the sheet of a job's checks. Refuses a check that does not exist, a unit that
 * is not the check's, a value that the check cannot have, and "not measured" without a reason.
 */

#include "hs-job-op.h"
#include "hs-ops-private.h"
#include "hs-reading-private.h"
#include "hs-safety-private.h"
#include "hs-text.h"

const HsCheck *
hs_reading_find_check (HsBook *book, const char *id, GError **error)
{
  HsChecks *checks = hs_book_get_checks (book);
  const HsCheck *check = id == NULL ? NULL : hs_checks_lookup (checks, id);
  g_autoptr (GString) known = NULL;
  const HsCheck *each;

  if (check != NULL)
    return check;
  known = g_string_new (NULL);
  for (guint i = 0; (each = hs_checks_get_nth (checks, i)) != NULL; i++)
    g_string_append_printf (known, "%s%s", i == 0 ? "" : ", ", each->id);
  hs_ops_not_found (error, "There is no check “%s”. There are: %s.", id == NULL ? "" : id, known->str);
  return NULL;
}

/* What is beyond the likely is kept from nobody who was asked about it. */
static gboolean
read_keyed (const HsCheck *check, const HsReadingEntry *entry, HsReading *ret_reading, GError **error)
{
  const char *keyed = entry->keyed == NULL ? "" : entry->keyed;

  return entry->sure ? hs_check_read_pad_sure (check, keyed, ret_reading, error)
                     : hs_check_read_pad (check, keyed, ret_reading, error);
}

static gboolean
read_entry (const HsCheck *check, const HsReadingEntry *entry, HsReading *ret_reading, GError **error)
{
  if (!hs_text_is_blank (entry->unit) && g_ascii_strcasecmp (entry->unit, check->unit) != 0)
    return hs_ops_refuse (error, "%s is read in %s, not in %s.", check->name, check->unit, entry->unit);
  if (entry->text != NULL)
    return hs_check_parse (check, entry->text, ret_reading, error);
  return read_keyed (check, entry, ret_reading, error);
}

/* What is written beside a reading is understood, or it is not stored: a slip would pass for "not known". */
static gboolean
check_conditions (const HsReadingEntry *entry, GError **error)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_autoptr (GError) wrong = NULL;

  if (entry->conditions == NULL || hs_conditions_put (entry->conditions, &conditions, &wrong))
    return TRUE;
  return hs_ops_refuse (error, "Conditions: %s.", wrong->message);
}

static gboolean
put_answer (const HsCheck *check, const HsReadingEntry *entry, HsReadingRow *row, GError **error)
{
  row->answer = hs_check_dup_answer (check, entry->text != NULL ? entry->text : entry->keyed, error);
  return row->answer != NULL;
}

static gboolean
put_reading (const HsCheck *check, const HsReading *reading, const HsReadingEntry *entry, HsReadingRow *row,
             GError **error)
{
  hs_row_set (&row->check_id, check->id);
  hs_row_set (&row->unit, check->unit);
  row->decimals = check->decimals;
  row->over_range = reading->kind == HS_READING_OVER_RANGE;
  if (reading->kind == HS_READING_VALUE && !hs_check_has_number (check))
    return put_answer (check, entry, row, error);
  if (reading->kind == HS_READING_VALUE)
    {
      row->value = reading->value;
      if (check->entry == HS_CHECK_PAIR)
        row->of_value = reading->of;
    }
  if (reading->kind != HS_READING_NOT_MEASURED)
    return TRUE;
  if (hs_text_is_blank (entry->why_not))
    return hs_ops_refuse (error, "Say why %s could not be measured.", check->name);
  hs_row_set (&row->not_measured_why, entry->why_not);
  return TRUE;
}

HsReadingRow *
hs_reading_row_from_entry (HsBook *book, const HsReadingEntry *entry, HsInstant now, GError **error)
{
  const HsCheck *check = hs_reading_find_check (book, entry->check, error);
  g_autoptr (HsReadingRow) row = hs_reading_row_new ();
  const char *phase;
  HsReading reading;

  if (check == NULL || !read_entry (check, entry, &reading, error) || !check_conditions (entry, error)
      || !hs_ops_word (HS_WORDS_PHASE, entry->phase, "before", &phase, error)
      || !put_reading (check, &reading, entry, row, error))
    return NULL;
  hs_row_set (&row->phase, phase);
  hs_row_set (&row->place, hs_ops_blank_to_null (entry->place));
  hs_row_set (&row->conditions, hs_ops_blank_to_null (entry->conditions));
  row->taken_at = entry->at == HS_INSTANT_NONE ? now : entry->at;
  return g_steal_pointer (&row);
}

HsReadingResult *
hs_reading_judge (HsBook *book, const char *vehicle_id, const HsReadingEntry *entry, HsInstant now, GError **error)
{
  HsReadingScene scene = { .book = book, .vehicle_id = vehicle_id };
  g_autoptr (HsReadingRow) row = hs_reading_row_from_entry (book, entry, now, error);

  return row == NULL ? NULL : hs_reading_judge_row (&scene, row, error);
}

/* The would-be reading comes behind those that stand. */
HsReadingResult *
hs_reading_try (HsBook *book, const char *job_id, const HsReadingEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsReadingRow) row = hs_reading_row_from_entry (book, entry, now, error);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  if (row == NULL || !hs_job_row_load (store, job_id, &job, error)
      || !hs_reading_row_list_of (store, job_id, &rows, error))
    return NULL;
  HsReadingScene scene = { .book = book, .vehicle_id = job->vehicle_id, .job_readings = rows };
  return hs_reading_judge_row (&scene, row, error);
}

/* What the reading says is known once it is judged; so the step is noted twice. */
static gboolean
save_reading (HsBook *book, const HsJobRow *job, HsReadingRow *row, HsReadingResult **ret_result, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  hs_row_set (&row->job_id, job->id);
  hs_undo_note (store, job->id, "reading");
  if (!hs_reading_row_save (store, row, error) || !hs_reading_row_list_of (store, job->id, &rows, error))
    return FALSE;
  HsReadingScene scene = { .book = book, .vehicle_id = job->vehicle_id, .job_readings = rows };
  result = hs_reading_judge_row (&scene, row, error);
  if (result == NULL)
    return FALSE;
  hs_ops_note (store, job->id, "reading: %s, %s", result->name, result->value_text);
  *ret_result = g_steal_pointer (&result);
  return TRUE;
}

static gboolean
check_on_road (const HsJobRow *job, GError **error)
{
  gboolean off = g_str_equal (job->stage, hs_stage_id (HS_STAGE_CALLED_OFF));

  if (!off && !g_str_equal (job->stage, hs_stage_id (HS_STAGE_TURNED_AWAY)))
    return TRUE;
  return hs_ops_refuse (error, "%s was %s; nothing is measured on it. Take it up again first, by its stage.",
                        job->number, off ? "called off" : "passed on");
}

HsReadingResult *
hs_reading_add (HsBook *book, const char *job_id, const HsReadingEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsReadingRow) row = hs_reading_row_from_entry (book, entry, now, error);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsReadingResult) result = NULL;

  if (row == NULL || !hs_job_row_load (store, job_id, &job, error) || !check_on_road (job, error)
      || !hs_safety_gate (store, job_id, error) || !hs_store_begin (store, now, error)
      || !hs_store_end (store, save_reading (book, job, row, &result, error), error))
    return NULL;
  return g_steal_pointer (&result);
}

static gboolean
remove_reading (HsBook *book, const char *reading_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsReadingRow) row = NULL;
  const HsCheck *check;

  if (!hs_reading_row_load (store, reading_id, &row, error))
    return FALSE;
  check = hs_checks_lookup (hs_book_get_checks (book), row->check_id);
  hs_ops_note (store, row->job_id, "reading removed: %s", check == NULL ? row->check_id : check->name);
  return hs_reading_row_delete (store, reading_id, error);
}

gboolean
hs_reading_remove (HsBook *book, const char *reading_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, remove_reading (book, reading_id, error), error);
}

/* Whether a later reading stands for the same check in the same place and phase. */
static gboolean
is_outdated (GPtrArray *rows, guint index)
{
  const HsReadingRow *row = g_ptr_array_index (rows, index);

  for (guint i = index + 1; i < rows->len; i++)
    {
      const HsReadingRow *later = g_ptr_array_index (rows, i);

      if (g_str_equal (later->check_id, row->check_id) && g_str_equal (later->phase, row->phase)
          && g_strcmp0 (later->place, row->place) == 0)
        return TRUE;
    }
  return FALSE;
}

/* Puts the readings of one check in one phase onto the sheet; tells how many there were. */
static gboolean
put_check (const HsReadingScene *scene, const char *check_id, const char *phase, GPtrArray *sheet, guint *ret_count,
           GError **error)
{
  guint count = 0;

  for (guint i = 0; i < scene->job_readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->job_readings, i);
      HsReadingResult *result;

      if (!g_str_equal (row->check_id, check_id) || !g_str_equal (row->phase, phase)
          || is_outdated (scene->job_readings, i))
        continue;
      result = hs_reading_judge_row (scene, row, error);
      if (result == NULL)
        return FALSE;
      g_ptr_array_add (sheet, result);
      count++;
    }
  *ret_count = count;
  return TRUE;
}

static gboolean
put_group (const HsReadingScene *scene, const HsCheckGroup *group, const char *phase, GPtrArray *sheet,
           GHashTable *done, GError **error)
{
  for (guint i = 0; group != NULL && group->check_ids[i] != NULL; i++)
    {
      const char *id = group->check_ids[i];
      guint count;

      if (!put_check (scene, id, phase, sheet, &count, error))
        return FALSE;
      if (count == 0)
        g_ptr_array_add (sheet, hs_reading_result_of_check (
                                    hs_checks_lookup (hs_book_get_checks (scene->book), id), phase));
      g_hash_table_add (done, (gpointer) id);
    }
  return TRUE;
}

static gboolean
put_others (const HsReadingScene *scene, const char *phase, GPtrArray *sheet, GHashTable *done, GError **error)
{
  for (guint i = 0; i < scene->job_readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->job_readings, i);
      guint count;

      if (g_hash_table_contains (done, row->check_id))
        continue;
      g_hash_table_add (done, row->check_id);
      if (!put_check (scene, row->check_id, phase, sheet, &count, error))
        return FALSE;
    }
  return TRUE;
}

GPtrArray *
hs_job_sheet (HsBook *book, const char *job_id, const char *phase, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) sheet = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_reading_result_free);
  g_autoptr (GHashTable) done = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_auto (HsReadingGround) ground = { 0 };
  const HsCheckGroup *group = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_reading_row_list_of (store, job_id, &rows, error))
    return NULL;
  if (job->complaint_group != NULL)
    group = hs_checks_lookup_group (hs_book_get_checks (book), job->complaint_group);
  HsReadingScene scene = { .book = book, .vehicle_id = job->vehicle_id, .job_readings = rows, .ground = &ground };
  if (!put_group (&scene, group, phase, sheet, done, error) || !put_others (&scene, phase, sheet, done, error))
    return NULL;
  return g_steal_pointer (&sheet);
}
