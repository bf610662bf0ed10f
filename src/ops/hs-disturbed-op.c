// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What a repair disturbed, as the list that is gone through before leaving: what was disturbed decides what is looked
 * after. Each line is ticked with its time. A line that has to be done again after some miles makes somebody to call.
 * Refuses to say the same twice.
 */

#include "hs-repair-private.h"

#include "hs-chase-row.h"
#include "hs-disturbed-row.h"
#include "hs-ops-private.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

/* When nobody knows how much it is driven: early is better than late. */
#define DAYS_WITHOUT_PACE 3
#define MOST_DAYS 30
#define RETORQUE "retorque"

typedef struct
{
  HsBook *book;
  HsStore *store;
  const HsJobRow *job;
  HsInstant now;
  HsAfterList *list;
  GPtrArray *there;
  HsVehicleRow *vehicle;
  guint n_added;
} Adding;

static void
adding_clear (Adding *adding)
{
  g_clear_pointer (&adding->list, hs_after_list_unref);
  g_clear_pointer (&adding->there, g_ptr_array_unref);
  hs_vehicle_row_free (adding->vehicle);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Adding, adding_clear)

HsAfterList *
hs_data_load_after (GError **error)
{
  g_autoptr (GBytes) bytes = hs_ops_load_data ("reference/disturbed.ini", error);
  gsize length;
  const char *data;

  if (bytes == NULL)
    return NULL;
  data = g_bytes_get_data (bytes, &length);
  return hs_after_list_new_from_data (data, (gssize) length, error);
}

static gboolean
adding_start (Adding *adding, GError **error)
{
  adding->list = hs_data_load_after (error);
  if (adding->list == NULL || !hs_disturbed_row_list_of (adding->store, adding->job->id, &adding->there, error))
    return FALSE;
  return adding->job->vehicle_id == NULL
         || hs_vehicle_row_load (adding->store, adding->job->vehicle_id, &adding->vehicle, error);
}

static gboolean
is_there (const Adding *adding, const char *words)
{
  for (guint i = 0; i < adding->there->len; i++)
    if (g_str_equal (((const HsDisturbedRow *) g_ptr_array_index (adding->there, i))->what, words))
      return TRUE;
  return FALSE;
}

/* The day on which the vehicle has driven that far, by its own pace. */
static gboolean
find_day (const Adding *adding, gint64 miles, HsDate *ret_day, GError **error)
{
  HsDate today = hs_ops_today (adding->book, adding->now);
  gint64 days = DAYS_WITHOUT_PACE;
  HsOdometerPace pace;
  gboolean known;

  if (!hs_repair_find_pace (adding->store, adding->job->vehicle_id, &pace, &known, error))
    return FALSE;
  if (known && pace.distance > 0)
    days = CLAMP (hs_repair_miles_in (miles * 1000, adding->vehicle->odometer_unit) * pace.days / pace.distance, 1,
                  MOST_DAYS);
  *ret_day = hs_date_add_days (today, (int) days);
  return TRUE;
}

static gboolean
call_again (const Adding *adding, gint64 miles, GError **error)
{
  g_autoptr (HsChaseRow) chase = hs_chase_row_new ();

  if (miles == 0 || adding->job->vehicle_id == NULL)
    return TRUE;
  hs_row_set (&chase->kind, RETORQUE);
  hs_row_set (&chase->job_id, adding->job->id);
  hs_row_set (&chase->vehicle_id, adding->job->vehicle_id);
  hs_row_set (&chase->customer_id, adding->job->customer_id);
  return find_day (adding, miles, &chase->due_on, error) && hs_chase_row_save (adding->store, chase, error);
}

static gboolean
add_look (Adding *adding, const char *words, const char *check, gint64 miles, GError **error)
{
  g_autoptr (HsDisturbedRow) row = hs_disturbed_row_new ();

  if (is_there (adding, words))
    return TRUE;
  hs_row_set (&row->job_id, adding->job->id);
  hs_row_set (&row->what, words);
  hs_row_set (&row->check_id, check);
  row->done_at = HS_INSTANT_NONE;
  adding->n_added++;
  return hs_disturbed_row_save (adding->store, row, error) && call_again (adding, miles, error);
}

static gboolean
add_place (Adding *adding, const HsAfterPlace *place, GError **error)
{
  gboolean coding = adding->vehicle != NULL && adding->vehicle->needs_coding;

  for (guint i = 0; i < place->n_looks; i++)
    if ((coding || !place->looks[i].coding)
        && !add_look (adding, place->looks[i].words, place->looks[i].check, place->looks[i].again_miles, error))
      return FALSE;
  return TRUE;
}

gboolean
hs_disturbed_by_part (HsBook *book, const HsJobRow *job, const char *part, HsInstant now, GError **error)
{
  g_auto (Adding) adding = { .book = book, .store = hs_book_get_store (book), .job = job, .now = now };
  g_autoptr (GPtrArray) places = NULL;

  if (!adding_start (&adding, error))
    return FALSE;
  places = hs_after_list_suggest (adding.list, part);
  for (guint i = 0; i < places->len; i++)
    if (!add_place (&adding, g_ptr_array_index (places, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
add_what (Adding *adding, const char *what, GError **error)
{
  const HsAfterPlace *place;
  gboolean added;

  if (!adding_start (adding, error))
    return FALSE;
  place = hs_after_list_find (adding->list, what);
  hs_ops_note (adding->store, adding->job->id, "disturbed: %s", place != NULL ? place->name : what);
  added = place != NULL ? add_place (adding, place, error) : add_look (adding, what, NULL, 0, error);
  if (added && adding->n_added == 0)
    return hs_ops_refuse (error, "“%s” is on the list already.", place != NULL ? place->name : what);
  return added;
}

gboolean
hs_disturbed_add (HsBook *book, const char *job_id, const char *what, HsInstant now, guint *ret_n_added,
                  GError **error)
{
  g_auto (Adding) adding = { .book = book, .store = hs_book_get_store (book), .now = now };
  g_autofree char *words = g_strstrip (g_strdup (what == NULL ? "" : what));
  g_autoptr (HsJobRow) job = NULL;

  if (hs_text_is_blank (words))
    return hs_ops_refuse (error, "What was disturbed? Name it, or pick it by its number.");
  if (!hs_job_row_load (adding.store, job_id, &job, error) || !hs_store_begin (adding.store, now, error))
    return FALSE;
  adding.job = job;
  if (!hs_store_end (adding.store, add_what (&adding, words, error), error))
    return FALSE;
  if (ret_n_added != NULL)
    *ret_n_added = adding.n_added;
  return TRUE;
}

static gboolean
tick (HsStore *store, const char *id, HsInstant at, const char *words, GError **error)
{
  g_autoptr (HsDisturbedRow) row = NULL;

  if (!hs_disturbed_row_load (store, id, &row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, at == HS_INSTANT_NONE ? "not looked after: %s" : "looked after: %s", row->what);
  row->done_at = at;
  hs_row_set (&row->done_words, at == HS_INSTANT_NONE ? NULL : words);
  return hs_disturbed_row_save (store, row, error);
}

gboolean
hs_disturbed_tick (HsBook *book, const char *disturbed_id, gboolean done, const char *words, HsInstant now,
                   GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, tick (store, disturbed_id, done ? now : HS_INSTANT_NONE, hs_ops_blank_to_null (words),
                                    error), error);
}

/* Nobody has to be called about it any more. */
static gboolean
drop_call (HsStore *store, const HsDisturbedRow *row, GError **error)
{
  g_autoptr (HsAfterList) list = hs_data_load_after (error);
  g_autoptr (GPtrArray) rows = NULL;
  const HsAfterLook *look;

  if (list == NULL)
    return FALSE;
  look = hs_after_list_find_look (list, row->what, NULL);
  if (look == NULL || look->again_miles == 0)
    return TRUE;
  if (!hs_chase_row_list_due (store, HS_DATE_NONE, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsChaseRow *chase = g_ptr_array_index (rows, i);

      if (g_strcmp0 (chase->job_id, row->job_id) == 0 && g_str_equal (chase->kind, RETORQUE)
          && !hs_chase_row_delete (store, chase->id, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
remove_line (HsStore *store, const char *id, GError **error)
{
  g_autoptr (HsDisturbedRow) row = NULL;

  if (!hs_disturbed_row_load (store, id, &row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "not disturbed: %s", row->what);
  return drop_call (store, row, error) && hs_disturbed_row_delete (store, id, error);
}

gboolean
hs_disturbed_remove (HsBook *book, const char *disturbed_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, remove_line (store, disturbed_id, error), error);
}

static HsAfterLine *
line_of (HsBook *book, const HsAfterList *list, const HsDisturbedRow *row)
{
  const HsCheck *check = row->check_id == NULL ? NULL : hs_checks_lookup (hs_book_get_checks (book), row->check_id);
  HsAfterLine *line = g_new0 (HsAfterLine, 1);
  const HsAfterPlace *place = NULL;

  line->id = g_strdup (row->id);
  line->what = g_strdup (row->what);
  line->check = g_strdup (row->check_id);
  line->check_name = check == NULL ? NULL : g_strdup (check->name);
  line->done_at = row->done_at;
  line->done_words = g_strdup (row->done_words);
  if (hs_after_list_find_look (list, row->what, &place) == NULL)
    return line;
  line->place = g_strdup (place->id);
  line->caution = g_strdup (place->caution);
  line->source = g_strdup (place->source);
  return line;
}

static void
line_free (HsAfterLine *line)
{
  g_free (line->id);
  g_free (line->what);
  g_free (line->check);
  g_free (line->check_name);
  g_free (line->place);
  g_free (line->caution);
  g_free (line->source);
  g_free (line->done_words);
  g_free (line);
}

gboolean
hs_after_fill (HsBook *book, const char *job_id, GPtrArray **ret_lines, GError **error)
{
  g_autoptr (HsAfterList) list = hs_data_load_after (error);
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  g_autoptr (GPtrArray) rows = NULL;

  if (list == NULL || !hs_disturbed_row_list_of (hs_book_get_store (book), job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    g_ptr_array_add (lines, line_of (book, list, g_ptr_array_index (rows, i)));
  *ret_lines = g_steal_pointer (&lines);
  return TRUE;
}
