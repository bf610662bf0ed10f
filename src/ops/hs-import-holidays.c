// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of days on which counters do not keep the hours of their week: shut, or open at other hours. A row that shuts
 * a day takes the place of its other hours, and other hours take the place of its being shut. Refuses one of both
 * times without the other, hours that overlap, and a file that says both of one day.
 */

#include "hs-hours.h"
#include "hs-import-row.h"
#include "hs-supplier-row.h"

enum
{
  HOLIDAY_SUPPLIER,
  HOLIDAY_DATE,
  HOLIDAY_OPENS,
  HOLIDAY_SHUTS,
  HOLIDAY_WORDS,
};

static const HsImportColumn holiday_columns[] = {
  [HOLIDAY_SUPPLIER] = { "supplier", HS_IMPORT_TEXT },
  [HOLIDAY_DATE] = { "date", HS_IMPORT_DATE, TRUE },
  [HOLIDAY_OPENS] = { "opens", HS_IMPORT_CLOCK },
  [HOLIDAY_SHUTS] = { "shuts", HS_IMPORT_CLOCK },
  [HOLIDAY_WORDS] = { "words", HS_IMPORT_TEXT },
};

static gint64
minutes_of (const HsImportValue *value)
{
  return value->given ? value->number : HS_INT_NONE;
}

/* What the book says of that day of this counter, or of all. */
static gboolean
load_day (HsImportRun *run, const char *supplier_id, GPtrArray **ret_rows)
{
  g_autoptr (GPtrArray) rows = NULL;
  GError *error = NULL;

  if (!hs_counter_day_row_list_on (run->store, (HsDate) run->values[HOLIDAY_DATE].number, &rows, &error))
    return hs_import_refuse_error (run, HOLIDAY_DATE, error);
  for (guint i = rows->len; i > 0; i--)
    if (g_strcmp0 (((HsCounterDayRow *) g_ptr_array_index (rows, i - 1))->supplier_id, supplier_id) != 0)
      g_ptr_array_remove_index (rows, i - 1);
  *ret_rows = g_steal_pointer (&rows);
  return TRUE;
}

static HsCounterDayRow *
find_same (HsImportRun *run, GPtrArray *rows)
{
  for (guint i = 0; i < rows->len; i++)
    {
      HsCounterDayRow *row = g_ptr_array_index (rows, i);

      if (row->opens_minutes == minutes_of (&run->values[HOLIDAY_OPENS])
          && row->shuts_minutes == minutes_of (&run->values[HOLIDAY_SHUTS]))
        return row;
    }
  return NULL;
}

/* Rows that say shut where this one gives hours, or hours where it says shut: they go, and the first is given back. */
static gboolean
take_place_of (HsImportRun *run, GPtrArray *rows, HsCounterDayRow **ret_row, GError **error)
{
  gboolean shuts = !run->values[HOLIDAY_OPENS].given;

  for (guint i = 0; i < rows->len; i++)
    {
      HsCounterDayRow *row = g_ptr_array_index (rows, i);

      if ((row->opens_minutes == HS_INT_NONE) == shuts)
        continue;
      if (*ret_row == NULL)
        *ret_row = hs_counter_day_row_copy (row);
      else if (!hs_counter_day_row_delete (run->store, row->id, error))
        return FALSE;
    }
  return TRUE;
}

static void
add_span (GArray *spans, gint64 opens_minutes, gint64 shuts_minutes)
{
  HsOpenSpan span = { 1, (int) opens_minutes, (int) shuts_minutes };

  g_array_append_val (spans, span);
}

/* The row's hours and those that the book has of that day have to go together. */
static gboolean
check_hours (HsImportRun *run, GPtrArray *rows)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsOpenSpan));
  GError *error = NULL;

  if (!run->values[HOLIDAY_OPENS].given)
    return TRUE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsCounterDayRow *row = g_ptr_array_index (rows, i);

      if (row->opens_minutes != HS_INT_NONE)
        add_span (spans, row->opens_minutes, row->shuts_minutes);
    }
  add_span (spans, run->values[HOLIDAY_OPENS].number, run->values[HOLIDAY_SHUTS].number);
  if (hs_hours_check ((const HsOpenSpan *) (gpointer) spans->data, spans->len, &error))
    return TRUE;
  return hs_import_refuse_error (run, HOLIDAY_SHUTS, error);
}

/* One file says one thing of a day, and one thing of each of its spans. */
static gboolean
claim (HsImportRun *run, const char *supplier_id)
{
  const HsImportValue *values = run->values;
  g_autofree char *day = g_strdup_printf ("%s\n%" G_GINT64_FORMAT, supplier_id != NULL ? supplier_id : "",
                                          values[HOLIDAY_DATE].number);

  g_free (run->content);
  run->content = g_strdup_printf ("%s\n%s", values[HOLIDAY_SHUTS].text, values[HOLIDAY_WORDS].text);
  if (!hs_import_claim (run, HOLIDAY_DATE, g_strdup_printf ("%s\n%s", day, values[HOLIDAY_OPENS].text)))
    return FALSE;
  g_free (run->content);
  run->content = g_strdup (values[HOLIDAY_OPENS].given ? "open" : "shut");
  return hs_import_claim (run, HOLIDAY_DATE, g_steal_pointer (&day));
}

static gboolean
check_row (HsImportRun *run, const char *supplier_id)
{
  const HsImportValue *values = run->values;

  if (values[HOLIDAY_OPENS].given != values[HOLIDAY_SHUTS].given)
    return hs_import_refuse (run, values[HOLIDAY_OPENS].given ? HOLIDAY_SHUTS : HOLIDAY_OPENS,
                             "is empty: write both times, or neither for a day on which it stays shut");
  return claim (run, supplier_id);
}

static HsImportOutcome
save_day (HsImportRun *run, const char *supplier_id, GPtrArray *rows)
{
  const HsImportValue *values = run->values;
  const HsCounterDayRow *same = find_same (run, rows);
  g_autoptr (HsCounterDayRow) row = same != NULL ? hs_counter_day_row_copy (same) : NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (row == NULL && !check_hours (run, rows))
    return HS_IMPORT_BAD;
  if (row == NULL && !take_place_of (run, rows, &row, &error))
    return hs_import_fault_error (run, HOLIDAY_DATE, error);
  is_new = row == NULL;
  if (is_new)
    row = hs_counter_day_row_new ();
  changed = is_new || row->opens_minutes != minutes_of (&values[HOLIDAY_OPENS]);
  hs_row_set (&row->supplier_id, supplier_id);
  row->on_date = (HsDate) values[HOLIDAY_DATE].number;
  row->opens_minutes = minutes_of (&values[HOLIDAY_OPENS]);
  row->shuts_minutes = minutes_of (&values[HOLIDAY_SHUTS]);
  changed |= hs_import_set_text (&row->words, &values[HOLIDAY_WORDS]);
  if (changed)
    hs_counter_day_row_save (run->store, row, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

static HsImportOutcome
save_holiday (HsImportRun *run)
{
  g_autofree char *supplier_id = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_import_find_supplier (run, HOLIDAY_SUPPLIER, &supplier_id) || !check_row (run, supplier_id)
      || !load_day (run, supplier_id, &rows))
    return HS_IMPORT_BAD;
  return save_day (run, supplier_id, rows);
}

const HsImportKind hs_import_holidays
    = { "holidays", holiday_columns, G_N_ELEMENTS (holiday_columns), save_holiday };
