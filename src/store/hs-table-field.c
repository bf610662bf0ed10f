// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Fields of rows as values that can be kept: for the steps that can be undone. */

#include <string.h>

#include "hs-undo-private.h"

static gpointer
field_of (gconstpointer row, const HsColumn *column)
{
  return (guint8 *) row + column->offset;
}

GVariant *
hs_table_field_get (gconstpointer row, const HsColumn *column)
{
  gpointer field = field_of (row, column);

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      return *(char **) field == NULL ? NULL : g_variant_new_bytestring (*(char **) field);
    case HS_COLUMN_INT:
      return *(gint64 *) field == HS_INT_NONE ? NULL : g_variant_new_int64 (*(gint64 *) field);
    case HS_COLUMN_FLAG:
      return g_variant_new_boolean (*(gboolean *) field != FALSE);
    case HS_COLUMN_REAL:
      return isnan (*(double *) field) ? NULL : g_variant_new_double (*(double *) field);
    case HS_COLUMN_BYTES:
      if (*(GBytes **) field == NULL)
        return NULL;
      return g_variant_new_from_bytes (G_VARIANT_TYPE_BYTESTRING, *(GBytes **) field, TRUE);
    default:
      return *(HsDate *) field == HS_DATE_NONE ? NULL : g_variant_new_int32 (*(HsDate *) field);
    }
}

/* A value of another type than the column's, from a damaged step, is nothing. */
static const GVariantType *
type_of (const HsColumn *column)
{
  switch (column->type)
    {
    case HS_COLUMN_INT:
      return G_VARIANT_TYPE_INT64;
    case HS_COLUMN_FLAG:
      return G_VARIANT_TYPE_BOOLEAN;
    case HS_COLUMN_REAL:
      return G_VARIANT_TYPE_DOUBLE;
    case HS_COLUMN_DATE:
      return G_VARIANT_TYPE_INT32;
    default:
      return G_VARIANT_TYPE_BYTESTRING;
    }
}

void
hs_table_field_set (gpointer row, const HsColumn *column, GVariant *value)
{
  gpointer field = field_of (row, column);
  GVariant *known = value != NULL && g_variant_is_of_type (value, type_of (column)) ? value : NULL;

  switch (column->type)
    {
    case HS_COLUMN_TEXT:
      hs_row_set (field, known == NULL ? NULL : g_variant_get_bytestring (known));
      break;
    case HS_COLUMN_INT:
      *(gint64 *) field = known == NULL ? HS_INT_NONE : g_variant_get_int64 (known);
      break;
    case HS_COLUMN_FLAG:
      *(gboolean *) field = known != NULL && g_variant_get_boolean (known);
      break;
    case HS_COLUMN_REAL:
      *(double *) field = known == NULL ? HS_REAL_NONE : g_variant_get_double (known);
      break;
    case HS_COLUMN_BYTES:
      g_clear_pointer ((GBytes **) field, g_bytes_unref);
      *(GBytes **) field = known == NULL ? NULL : g_variant_get_data_as_bytes (known);
      break;
    default:
      *(HsDate *) field = known == NULL ? HS_DATE_NONE : g_variant_get_int32 (known);
      break;
    }
}

gboolean
hs_table_field_is (gconstpointer row, const HsColumn *column, GVariant *value)
{
  g_autoptr (GVariant) stands = hs_table_field_get (row, column);

  if (stands != NULL)
    g_variant_ref_sink (stands);
  return stands == NULL || value == NULL ? stands == value : g_variant_equal (stands, value);
}

static GVariant *
maybe (GVariant *value)
{
  return g_variant_new_maybe (G_VARIANT_TYPE_VARIANT, value == NULL ? NULL : g_variant_new_variant (value));
}

/* The fields that differ, but for those that the store works out by itself. */
static GVariant *
pack_fields (const HsTable *table, gconstpointer old, gconstpointer row)
{
  GVariantBuilder fields;

  g_variant_builder_init (&fields, G_VARIANT_TYPE ("a(smvmv)"));
  for (guint i = 1; i < table->n_columns; i++)
    {
      const HsColumn *column = &table->columns[i];
      GVariant *was = old == NULL ? NULL : hs_table_field_get (old, column);
      GVariant *became = row == NULL ? NULL : hs_table_field_get (row, column);
      gboolean same = was == NULL || became == NULL ? was == became : g_variant_equal (was, became);

      if (!same && !column->quiet)
        g_variant_builder_add (&fields, "(s@mv@mv)", column->name, maybe (was), maybe (became));
      else
        {
          g_clear_pointer (&was, g_variant_unref);
          g_clear_pointer (&became, g_variant_unref);
        }
    }
  return g_variant_builder_end (&fields);
}

void
hs_undo_record (HsStore *store, const HsTable *table, gconstpointer old, gconstpointer row, gint64 seq)
{
  const char *id = *(char **) field_of (row != NULL ? row : old, &table->columns[0]);
  guint8 act = old == NULL ? 'a' : row == NULL ? 'r' : 'c';

  if (store->undo == NULL || store->following > 0)
    return;
  g_ptr_array_add (store->undo->changes,
                   g_variant_ref_sink (g_variant_new ("(ssyx@a(smvmv))", table->name, id, act, seq,
                                                      pack_fields (table, old, row))));
}
