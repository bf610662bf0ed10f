// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of areas, the drives between them, parts counters and their hours. Refuses a drive that takes no time, an
 * area that the book does not have, and hours that overlap.
 */

#include "hs-area-row.h"
#include "hs-geo.h"
#include "hs-hours.h"
#include "hs-import-row.h"
#include "hs-ops-private.h"
#include "hs-supplier-row.h"
#include "hs-text.h"
#include "hs-travel.h"

enum
{
  AREA_CODE,
  AREA_NAME,
  AREA_SIGNAL,
  AREA_POSITION,
};

static const HsImportColumn area_columns[] = {
  [AREA_CODE] = { "code", HS_IMPORT_TEXT, TRUE },
  [AREA_NAME] = { "name", HS_IMPORT_TEXT, TRUE },
  [AREA_SIGNAL] = { "signal", HS_IMPORT_WORD, .words = HS_WORDS_SIGNAL },
  [AREA_POSITION] = { "position", HS_IMPORT_TEXT },
};

/* A link or any notation of latitude and longitude. */
static gboolean
set_position (HsImportRun *run, HsAreaRow *area, gboolean *changed)
{
  const HsImportValue *value = &run->values[AREA_POSITION];
  GError *error = NULL;
  HsGeo geo;

  if (!value->given)
    return TRUE;
  if (!hs_geo_parse (value->text, &geo, &error))
    return hs_import_refuse_error (run, AREA_POSITION, error);
  *changed |= !(area->lat == geo.latitude && area->lon == geo.longitude);
  area->lat = geo.latitude;
  area->lon = geo.longitude;
  return TRUE;
}

static HsImportOutcome
save_area (HsImportRun *run)
{
  const HsImportValue *values = run->values;
  g_autoptr (HsAreaRow) area = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (!hs_import_claim (run, AREA_CODE, g_strdup (values[AREA_CODE].text)))
    return HS_IMPORT_BAD;
  is_new = !hs_area_row_load (run->store, values[AREA_CODE].text, &area, &error);
  if (!hs_import_only_missing (run, AREA_CODE, &error))
    return HS_IMPORT_BAD;
  if (is_new)
    area = hs_area_row_new ();
  changed = hs_import_set_text (&area->id, &values[AREA_CODE]);
  changed |= hs_import_set_text (&area->name, &values[AREA_NAME]);
  changed |= hs_import_set_word (&area->signal, &values[AREA_SIGNAL]);
  if (!set_position (run, area, &changed))
    return HS_IMPORT_BAD;
  if (changed)
    hs_area_row_save (run->store, area, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

const HsImportKind hs_import_areas = { "areas", area_columns, G_N_ELEMENTS (area_columns), save_area };

enum
{
  TRAVEL_FROM,
  TRAVEL_TO,
  TRAVEL_MINUTES,
  TRAVEL_MILES,
};

static const HsImportColumn travel_columns[] = {
  [TRAVEL_FROM] = { "from", HS_IMPORT_TEXT, TRUE },
  [TRAVEL_TO] = { "to", HS_IMPORT_TEXT, TRUE },
  [TRAVEL_MINUTES] = { "minutes", HS_IMPORT_THOUSANDTHS, TRUE, 0, 1440 * 1000 },
  [TRAVEL_MILES] = { "miles", HS_IMPORT_THOUSANDTHS, TRUE, 0, 10000 * 1000 },
};

static char *
pair_key (const char *a, const char *b)
{
  return g_strcmp0 (a, b) <= 0 ? g_strdup_printf ("%s\n%s", a, b) : g_strdup_printf ("%s\n%s", b, a);
}

/* A drive that the owner tables is known, not guessed: it counts as if just enough own trips stood behind it. */
static HsImportOutcome
save_travel_pair (HsImportRun *run, const char *from, const char *to)
{
  g_autoptr (HsTravelRow) drive = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  is_new = !hs_travel_row_find (run->store, from, to, &drive, &error);
  if (!hs_import_only_missing (run, TRAVEL_FROM, &error))
    return HS_IMPORT_BAD;
  if (is_new)
    {
      drive = hs_travel_row_new ();
      hs_row_set (&drive->from_id, from);
      hs_row_set (&drive->to_id, to);
      drive->samples = HS_TRAVEL_SURE_SAMPLES;
    }
  changed = hs_import_set_seconds (&drive->seconds, &run->values[TRAVEL_MINUTES]);
  changed |= hs_import_set_number (&drive->millimiles, &run->values[TRAVEL_MILES]);
  drive->samples = MAX (drive->samples, HS_TRAVEL_SURE_SAMPLES);
  if (changed || is_new)
    hs_travel_row_save (run->store, drive, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

static HsImportOutcome
save_travel (HsImportRun *run)
{
  g_autofree char *from = NULL;
  g_autofree char *to = NULL;

  if (!hs_import_find_area (run, TRAVEL_FROM, &from) | !hs_import_find_area (run, TRAVEL_TO, &to))
    return HS_IMPORT_BAD;
  g_free (run->content);
  run->content = g_strdup_printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT, run->values[TRAVEL_MINUTES].number,
                                  run->values[TRAVEL_MILES].number);
  if (!hs_import_claim (run, TRAVEL_TO, pair_key (from, to)))
    return HS_IMPORT_BAD;
  return save_travel_pair (run, from, to);
}

const HsImportKind hs_import_travel = { "travel", travel_columns, G_N_ELEMENTS (travel_columns), save_travel };

enum
{
  SUPPLIER_NAME,
  SUPPLIER_AREA,
  SUPPLIER_PHONE,
  SUPPLIER_ACCOUNT,
  SUPPLIER_RETURN_DAYS,
  SUPPLIER_RESTOCK,
  SUPPLIER_CORE_DAYS,
  SUPPLIER_STOP_MINUTES,
};

static const HsImportColumn supplier_columns[] = {
  [SUPPLIER_NAME] = { "name", HS_IMPORT_TEXT, TRUE },
  [SUPPLIER_AREA] = { "area", HS_IMPORT_TEXT },
  [SUPPLIER_PHONE] = { "phone", HS_IMPORT_PHONE },
  [SUPPLIER_ACCOUNT] = { "account", HS_IMPORT_TEXT },
  [SUPPLIER_RETURN_DAYS] = { "return_days", HS_IMPORT_WHOLE, FALSE, 0, 3650 },
  [SUPPLIER_RESTOCK] = { "restock_percent", HS_IMPORT_THOUSANDTHS, FALSE, 0, 100 * 1000 },
  [SUPPLIER_CORE_DAYS] = { "core_days", HS_IMPORT_WHOLE, FALSE, 0, 3650 },
  [SUPPLIER_STOP_MINUTES] = { "stop_minutes", HS_IMPORT_THOUSANDTHS, FALSE, 0, 1440 * 1000 },
};

static gboolean
fill_supplier (HsImportRun *run, HsSupplierRow *supplier, const char *area_id)
{
  const HsImportValue *values = run->values;
  HsImportValue points = values[SUPPLIER_RESTOCK];
  gboolean changed = hs_import_set_text (&supplier->name, &values[SUPPLIER_NAME]);

  points.number /= 10;
  changed |= hs_import_set_id (&supplier->area_id, area_id);
  changed |= hs_import_set_text (&supplier->phone, &values[SUPPLIER_PHONE]);
  changed |= hs_import_set_text (&supplier->account, &values[SUPPLIER_ACCOUNT]);
  changed |= hs_import_set_number (&supplier->return_days, &values[SUPPLIER_RETURN_DAYS]);
  changed |= hs_import_set_number (&supplier->restock_basis_points, &points);
  changed |= hs_import_set_number (&supplier->core_days, &values[SUPPLIER_CORE_DAYS]);
  changed |= hs_import_set_seconds (&supplier->stop_seconds, &values[SUPPLIER_STOP_MINUTES]);
  return changed;
}

/* A name in letters of any case; one without a letter stays as it is. */
static char *
name_key (const char *name)
{
  g_autofree char *folded = hs_text_fold (name);

  return *folded == '\0' ? g_strdup (name) : g_steal_pointer (&folded);
}

/* The suppliers of the book by folded name, read once a file; those of the file join them. */
static gboolean
load_suppliers (HsImportRun *run, GError **error)
{
  g_autoptr (GPtrArray) suppliers = NULL;

  if (run->in_book != NULL)
    return TRUE;
  if (!hs_supplier_row_list (run->store, &suppliers, error))
    return FALSE;
  run->in_book = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  for (guint i = 0; i < suppliers->len; i++)
    {
      const HsSupplierRow *supplier = g_ptr_array_index (suppliers, i);

      g_hash_table_insert (run->in_book, name_key (supplier->name), g_strdup (supplier->id));
    }
  return TRUE;
}

/* By the very name, else by the name in other letter case: other files find a supplier by either. */
static gboolean
find_supplier (HsImportRun *run, const char *folded, HsSupplierRow **ret_supplier, GError **error)
{
  GError *missing = NULL;
  const char *id;

  if (hs_supplier_row_find (run->store, run->values[SUPPLIER_NAME].text, ret_supplier, &missing))
    return TRUE;
  if (!hs_ops_only_missing (&missing, error))
    return FALSE;
  g_clear_error (&missing);
  if (!load_suppliers (run, error))
    return FALSE;
  id = g_hash_table_lookup (run->in_book, folded);
  return id == NULL || hs_supplier_row_load (run->store, id, ret_supplier, error);
}

static void
remember_supplier (HsImportRun *run, const char *folded, const HsSupplierRow *supplier)
{
  if (run->in_book != NULL)
    g_hash_table_insert (run->in_book, g_strdup (folded), g_strdup (supplier->id));
}

static HsImportOutcome
save_supplier (HsImportRun *run)
{
  g_autoptr (HsSupplierRow) supplier = NULL;
  g_autofree char *folded = name_key (run->values[SUPPLIER_NAME].text);
  g_autofree char *area_id = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (run->values[SUPPLIER_RESTOCK].number % 10 != 0)
    return hs_import_fault (run, SUPPLIER_RESTOCK, "“%s” has more than two decimals",
                            run->values[SUPPLIER_RESTOCK].text);
  if (!hs_import_claim (run, SUPPLIER_NAME, g_strdup (folded)) || !hs_import_find_area (run, SUPPLIER_AREA, &area_id))
    return HS_IMPORT_BAD;
  if (!find_supplier (run, folded, &supplier, &error))
    return hs_import_fault_error (run, SUPPLIER_NAME, error);
  is_new = supplier == NULL;
  if (is_new)
    supplier = hs_supplier_row_new ();
  changed = fill_supplier (run, supplier, area_id);
  if (changed && hs_supplier_row_save (run->store, supplier, &error))
    remember_supplier (run, folded, supplier);
  return hs_import_outcome (run, is_new, changed, error);
}

const HsImportKind hs_import_suppliers
    = { "suppliers", supplier_columns, G_N_ELEMENTS (supplier_columns), save_supplier };

enum
{
  HOURS_SUPPLIER,
  HOURS_WEEKDAY,
  HOURS_OPENS,
  HOURS_SHUTS,
};

static const HsImportColumn hours_columns[] = {
  [HOURS_SUPPLIER] = { "supplier", HS_IMPORT_TEXT, TRUE },
  [HOURS_WEEKDAY] = { "weekday", HS_IMPORT_WEEKDAY, TRUE },
  [HOURS_OPENS] = { "opens", HS_IMPORT_CLOCK, TRUE },
  [HOURS_SHUTS] = { "shuts", HS_IMPORT_CLOCK, TRUE },
};

/* Adds the row's span to what the book has, to see them together; tells whether it is there already. */
static gboolean
gather_spans (GPtrArray *rows, const HsImportValue *values, GArray *spans)
{
  HsOpenSpan span = { .weekday = (int) values[HOURS_WEEKDAY].number,
                      .opens_minutes = (int) values[HOURS_OPENS].number,
                      .shuts_minutes = (int) values[HOURS_SHUTS].number };

  for (guint i = 0; i < rows->len; i++)
    {
      const HsHoursRow *row = g_ptr_array_index (rows, i);
      HsOpenSpan known = { .weekday = (int) row->weekday,
                           .opens_minutes = (int) row->opens_minutes,
                           .shuts_minutes = (int) row->shuts_minutes };

      if (known.weekday == span.weekday && known.opens_minutes == span.opens_minutes
          && known.shuts_minutes == span.shuts_minutes)
        return TRUE;
      g_array_append_val (spans, known);
    }
  g_array_append_val (spans, span);
  return FALSE;
}

static HsImportOutcome
save_hours (HsImportRun *run)
{
  const HsImportValue *values = run->values;
  g_autoptr (HsHoursRow) hours = hs_hours_row_new ();
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsOpenSpan));
  g_autofree char *supplier_id = NULL;
  GError *error = NULL;

  if (!hs_import_find_supplier (run, HOURS_SUPPLIER, &supplier_id))
    return HS_IMPORT_BAD;
  if (!hs_hours_row_list_of (run->store, supplier_id, &rows, &error))
    return hs_import_fault_error (run, HOURS_SUPPLIER, error);
  if (gather_spans (rows, values, spans))
    return HS_IMPORT_UNCHANGED;
  if (!hs_hours_check ((const HsOpenSpan *) (gpointer) spans->data, spans->len, &error))
    return hs_import_fault_error (run, HOURS_SHUTS, error);
  hs_row_set (&hours->supplier_id, supplier_id);
  hours->weekday = values[HOURS_WEEKDAY].number;
  hours->opens_minutes = values[HOURS_OPENS].number;
  hours->shuts_minutes = values[HOURS_SHUTS].number;
  hs_hours_row_save (run->store, hours, &error);
  return hs_import_outcome (run, TRUE, TRUE, error);
}

const HsImportKind hs_import_hours = { "hours", hours_columns, G_N_ELEMENTS (hours_columns), save_hours };
