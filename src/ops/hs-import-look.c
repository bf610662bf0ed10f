// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What the fields of an import row name in the book: areas by code or name, suppliers by name, parts by number or
 * name, customers by phone, vehicles by plate, jobs by number. Refuses a name that the book does not have, saying
 * which file would bring it.
 */

#include "hs-import-row.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-geo.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-spot.h"
#include "hs-supplier-row.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

#include <math.h>

static gboolean
same_words (const char *a, const char *b)
{
  g_autofree char *folded_a = hs_text_fold (a);
  g_autofree char *folded_b = hs_text_fold (b);

  return g_str_equal (folded_a, folded_b);
}

gboolean
hs_import_find_area (HsImportRun *run, guint column, char **ret_id)
{
  const HsImportValue *value = &run->values[column];
  g_autoptr (GPtrArray) areas = NULL;
  g_autoptr (GError) error = NULL;
  const HsAreaRow *named = NULL;

  if (!value->given)
    return TRUE;
  if (!hs_area_row_list (run->store, &areas, &error))
    return hs_import_refuse_error (run, column, g_steal_pointer (&error));
  for (guint i = 0; i < areas->len; i++)
    {
      const HsAreaRow *area = g_ptr_array_index (areas, i);

      if (g_str_equal (area->id, value->text))
        {
          *ret_id = g_strdup (area->id);
          return TRUE;
        }
      if (same_words (area->name, value->text) || g_ascii_strcasecmp (area->id, value->text) == 0)
        named = area;
    }
  if (named == NULL && hs_geo_is_meant (value->text))
    return hs_spot_area_id (run->store, value->text, ret_id, &error)
           || hs_import_refuse_error (run, column, g_steal_pointer (&error));
  if (named == NULL)
    return hs_import_refuse (run, column, "there is no area “%s” in the book; import areas first", value->text);
  *ret_id = g_strdup (named->id);
  return TRUE;
}

gboolean
hs_import_find_supplier (HsImportRun *run, guint column, char **ret_id)
{
  const HsImportValue *value = &run->values[column];
  g_autoptr (GPtrArray) suppliers = NULL;
  g_autoptr (GError) error = NULL;

  if (!value->given)
    return TRUE;
  if (!hs_supplier_row_list (run->store, &suppliers, &error))
    return hs_import_refuse_error (run, column, g_steal_pointer (&error));
  for (guint i = 0; i < suppliers->len; i++)
    {
      const HsSupplierRow *supplier = g_ptr_array_index (suppliers, i);

      if (same_words (supplier->name, value->text))
        {
          *ret_id = g_strdup (supplier->id);
          return TRUE;
        }
    }
  return hs_import_refuse (run, column, "there is no supplier “%s” in the book; import suppliers first", value->text);
}

static gboolean
find_part_by_name (HsImportRun *run, guint column, char **ret_id)
{
  const char *text = run->values[column].text;
  g_autoptr (GPtrArray) parts = NULL;
  g_autoptr (GError) error = NULL;
  const HsPartRow *named = NULL;

  if (!hs_part_row_list (run->store, &parts, &error))
    return hs_import_refuse_error (run, column, g_steal_pointer (&error));
  for (guint i = 0; i < parts->len; i++)
    {
      const HsPartRow *part = g_ptr_array_index (parts, i);

      if (!g_str_equal (part->name, text))
        continue;
      if (named != NULL)
        return hs_import_refuse (run, column, "“%s” is the name of two parts, %s and %s; write the number", text,
                                 named->number, part->number);
      named = part;
    }
  if (named == NULL)
    return hs_import_refuse (run, column, "there is no part “%s” in the book; import parts first", text);
  *ret_id = g_strdup (named->id);
  return TRUE;
}

gboolean
hs_import_find_part (HsImportRun *run, guint column, char **ret_id)
{
  const HsImportValue *value = &run->values[column];
  g_autoptr (HsPartRow) part = NULL;
  g_autoptr (GError) error = NULL;

  if (!value->given)
    return TRUE;
  if (hs_part_row_find (run->store, value->text, &part, &error))
    {
      *ret_id = g_strdup (part->id);
      return TRUE;
    }
  if (hs_ops_is_not_found (error))
    return find_part_by_name (run, column, ret_id);
  return hs_import_refuse_error (run, column, g_steal_pointer (&error));
}

gboolean
hs_import_find_customer (HsImportRun *run, guint column, char **ret_id)
{
  const HsImportValue *value = &run->values[column];
  g_autoptr (GPtrArray) customers = NULL;
  g_autoptr (GError) error = NULL;

  if (!value->given)
    return TRUE;
  if (!hs_customer_row_list_by_phone (run->store, value->text, &customers, &error))
    return hs_import_refuse_error (run, column, g_steal_pointer (&error));
  if (customers->len == 0)
    return hs_import_refuse (run, column, "there is no customer with the phone %s in the book; import customers first",
                             value->text);
  *ret_id = g_strdup (((const HsCustomerRow *) g_ptr_array_index (customers, 0))->id);
  return TRUE;
}

gboolean
hs_import_find_vehicle (HsImportRun *run, guint column, char **ret_id)
{
  const HsImportValue *value = &run->values[column];
  g_autoptr (GPtrArray) vehicles = NULL;
  g_autoptr (GError) error = NULL;

  if (!value->given)
    return TRUE;
  if (!hs_vehicle_row_list_by_plate (run->store, value->text, &vehicles, &error))
    return hs_import_refuse_error (run, column, g_steal_pointer (&error));
  if (vehicles->len == 0)
    return hs_import_refuse (run, column, "there is no vehicle %s in the book; import vehicles first", value->text);
  if (vehicles->len > 1)
    return hs_import_refuse (run, column, "%u vehicles have the plate %s, of different states; enter this one by hand",
                             vehicles->len, value->text);
  *ret_id = g_strdup (((const HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id);
  return TRUE;
}

gboolean
hs_import_find_job (HsImportRun *run, guint column, char **ret_id)
{
  const HsImportValue *value = &run->values[column];
  g_autoptr (GError) error = NULL;

  if (!value->given)
    return TRUE;
  *ret_id = hs_job_find (run->book, value->text, &error);
  if (*ret_id != NULL)
    return TRUE;
  if (g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND))
    return hs_import_refuse (run, column, "there is no job %s in the book; import jobs first", value->text);
  return hs_import_refuse_error (run, column, g_steal_pointer (&error));
}

gboolean
hs_import_set_id (char **field, const char *id)
{
  if (id == NULL || g_strcmp0 (*field, id) == 0)
    return FALSE;
  hs_row_set (field, id);
  return TRUE;
}

gboolean
hs_import_set_text (char **field, const HsImportValue *value)
{
  return value->given && hs_import_set_id (field, value->text);
}

gboolean
hs_import_set_word (char **field, const HsImportValue *value)
{
  return value->given && hs_import_set_id (field, value->word);
}

gboolean
hs_import_set_number (gint64 *field, const HsImportValue *value)
{
  if (!value->given || *field == value->number)
    return FALSE;
  *field = value->number;
  return TRUE;
}

gboolean
hs_import_set_seconds (gint64 *field, const HsImportValue *minutes_thousandths)
{
  gint64 seconds = (minutes_thousandths->number * 60 + 500) / 1000;

  if (!minutes_thousandths->given || *field == seconds)
    return FALSE;
  *field = seconds;
  return TRUE;
}

static gboolean
set_scaled (double *field, const HsImportValue *value, double scale)
{
  double number = (double) value->number / scale;

  if (!value->given || (!isnan (*field) && *field == number))
    return FALSE;
  *field = number;
  return TRUE;
}

gboolean
hs_import_set_degrees (double *field, const HsImportValue *value)
{
  return set_scaled (field, value, 1e7);
}

gboolean
hs_import_set_thousandths (double *field, const HsImportValue *value)
{
  return set_scaled (field, value, 1000);
}

gboolean
hs_import_set_date (HsDate *field, const HsImportValue *value)
{
  if (!value->given || *field == (HsDate) value->number)
    return FALSE;
  *field = (HsDate) value->number;
  return TRUE;
}

HsImportOutcome
hs_import_outcome (HsImportRun *run, gboolean is_new, gboolean changed, GError *error)
{
  if (error != NULL)
    return hs_import_fault_error (run, 0, error);
  if (is_new)
    return HS_IMPORT_ADDED;
  return changed ? HS_IMPORT_CHANGED : HS_IMPORT_UNCHANGED;
}
