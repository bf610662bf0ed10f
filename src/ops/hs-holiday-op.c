// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Days on which counters do not keep the hours of their week, one by one: what is coming, one more, one less, and that
 * taken back. Use import for a year of them. Refuses what the import refuses, and to take back what was changed again.
 */

#include "hs-holiday-op.h"

#include "hs-import.h"
#include "hs-ops-error.h"
#include "hs-supplier-row.h"

struct _HsHolidayUndo
{
  HsDate day;
  GPtrArray *before;
  GPtrArray *after;
};

void
hs_holiday_free (HsHoliday *holiday)
{
  if (holiday == NULL)
    return;
  g_free (holiday->id);
  g_free (holiday->counter);
  g_free (holiday->words);
  g_free (holiday);
}

void
hs_holiday_undo_free (HsHolidayUndo *undo)
{
  if (undo == NULL)
    return;
  g_clear_pointer (&undo->before, g_ptr_array_unref);
  g_clear_pointer (&undo->after, g_ptr_array_unref);
  g_free (undo);
}

static HsHoliday *
holiday_of (HsStore *store, const HsCounterDayRow *row, GError **error)
{
  g_autoptr (HsHoliday) holiday = g_new0 (HsHoliday, 1);
  g_autoptr (HsSupplierRow) supplier = NULL;

  if (row->supplier_id != NULL && !hs_supplier_row_load (store, row->supplier_id, &supplier, error))
    return NULL;
  holiday->id = g_strdup (row->id);
  holiday->counter = supplier != NULL ? g_strdup (supplier->name) : NULL;
  holiday->day = row->on_date;
  holiday->opens_minutes = row->opens_minutes;
  holiday->shuts_minutes = row->shuts_minutes;
  holiday->words = g_strdup (row->words);
  return g_steal_pointer (&holiday);
}

GPtrArray *
hs_holidays_list (HsBook *book, HsDate from, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) holidays = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_holiday_free);
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_counter_day_row_list_from (store, from, &rows, error))
    return NULL;
  for (guint i = 0; i < rows->len; i++)
    {
      HsHoliday *holiday = holiday_of (store, g_ptr_array_index (rows, i), error);

      if (holiday == NULL)
        return NULL;
      g_ptr_array_add (holidays, holiday);
    }
  return g_steal_pointer (&holidays);
}

GPtrArray *
hs_holiday_counters (HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  GPtrArray *names;

  if (!hs_supplier_row_list (hs_book_get_store (book), &rows, error))
    return NULL;
  names = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < rows->len; i++)
    g_ptr_array_add (names, g_strdup (((const HsSupplierRow *) g_ptr_array_index (rows, i))->name));
  return names;
}

/* Changing --------------------------------------------------------------------------------------------------------- */

static gboolean
add_row (HsBook *book, const char *const *fields, HsDate day, HsInstant now, HsHolidayUndo *undo, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  undo->day = day;
  return hs_counter_day_row_list_on (store, day, &undo->before, error)
         && hs_import_one (book, "holidays", "supplier,date,opens,shuts,words", fields, now, error)
         && hs_counter_day_row_list_on (store, day, &undo->after, error);
}

/* A day that cannot be read is refused by the import, in its words. */
HsHolidayUndo *
hs_holiday_add (HsBook *book, const char *counter, const char *day, const char *opens, const char *shuts,
                const char *words, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *fields[] = { counter, day, opens, shuts, words, NULL };
  g_autoptr (HsHolidayUndo) undo = g_new0 (HsHolidayUndo, 1);
  g_autofree char *stripped = g_strstrip (g_strdup (day));
  HsDate date = HS_DATE_NONE;

  hs_date_parse (stripped, &date, NULL);
  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, add_row (book, fields, date, now, undo, error), error))
    return NULL;
  return g_steal_pointer (&undo);
}

static gboolean
remove_row (HsStore *store, const char *id, HsHolidayUndo *undo, GError **error)
{
  g_autoptr (HsCounterDayRow) row = NULL;

  if (!hs_counter_day_row_load (store, id, &row, error))
    return FALSE;
  undo->day = row->on_date;
  return hs_counter_day_row_list_on (store, row->on_date, &undo->before, error)
         && hs_counter_day_row_delete (store, id, error)
         && hs_counter_day_row_list_on (store, row->on_date, &undo->after, error);
}

HsHolidayUndo *
hs_holiday_remove (HsBook *book, const char *id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsHolidayUndo) undo = g_new0 (HsHolidayUndo, 1);

  if (!hs_store_begin (store, now, error) || !hs_store_end (store, remove_row (store, id, undo, error), error))
    return NULL;
  return g_steal_pointer (&undo);
}

/* Taking back ------------------------------------------------------------------------------------------------------ */

static gboolean
is_same (const HsCounterDayRow *a, const HsCounterDayRow *b)
{
  return g_str_equal (a->id, b->id) && g_strcmp0 (a->supplier_id, b->supplier_id) == 0
         && a->opens_minutes == b->opens_minutes && a->shuts_minutes == b->shuts_minutes
         && g_strcmp0 (a->words, b->words) == 0;
}

static gboolean
are_same (GPtrArray *a, GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!is_same (g_ptr_array_index (a, i), g_ptr_array_index (b, i)))
      return FALSE;
  return TRUE;
}

/* What is there goes first, so that no two rows say of one day what must not stand together. */
static gboolean
restore (HsStore *store, const HsHolidayUndo *undo, GError **error)
{
  g_autoptr (GPtrArray) now = NULL;

  if (!hs_counter_day_row_list_on (store, undo->day, &now, error))
    return FALSE;
  if (!are_same (now, undo->after))
    {
      g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                           "Something else was written of this day since, so that cannot be taken back");
      return FALSE;
    }
  for (guint i = 0; i < now->len; i++)
    if (!hs_counter_day_row_delete (store, ((const HsCounterDayRow *) g_ptr_array_index (now, i))->id, error))
      return FALSE;
  for (guint i = 0; i < undo->before->len; i++)
    {
      g_autoptr (HsCounterDayRow) row = hs_counter_day_row_copy (g_ptr_array_index (undo->before, i));

      if (!hs_counter_day_row_save (store, row, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_holiday_take_back (HsBook *book, const HsHolidayUndo *undo, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, restore (store, undo, error), error);
}
