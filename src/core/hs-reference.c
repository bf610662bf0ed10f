// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The tables of data/reference as one bundle, and the table of makers: for the calculators and whoever looks up a VIN.
 * Refuses a table with anything in it that is not understood, naming the row and the field. */

#include "hs-reference-private.h"

#include "hs-core-error.h"
#include "hs-csv.h"

#define VIN_ALPHABET "ABCDEFGHJKLMNPRSTUVWXYZ0123456789"
#define SHORT_WMI 3
#define LONG_WMI 6

/* In the order of HsMakerType. */
static const char *const type_labels[] = {
  "", "car", "mpv", "truck", "bus", "trailer", "motorcycle", "low-speed", "incomplete", "off-road",
};

/* The columns of makers.csv, in its order. */
static const char *const maker_columns[] = { "wmi", "maker", "country", "type" };

const char *
hs_maker_type_label (HsMakerType type)
{
  return type_labels[type];
}

static gboolean
refuse (GError **error, HsCsv *csv, const char *field, const char *reason)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "makers.csv row %u, %s: %s", hs_csv_get_row (csv),
               field, reason);
  return FALSE;
}

static gboolean
is_wmi (const char *text)
{
  gsize length = strlen (text);

  if ((length != SHORT_WMI && length != LONG_WMI) || strspn (text, VIN_ALPHABET) != length)
    return FALSE;
  return (text[2] == '9') == (length == LONG_WMI);
}

static gboolean
type_read (const char *text, HsMakerType *ret_type)
{
  for (guint i = 0; i < G_N_ELEMENTS (type_labels); i++)
    if (g_str_equal (type_labels[i], text))
      {
        *ret_type = (HsMakerType) i;
        return TRUE;
      }
  return FALSE;
}

static gboolean
maker_read (HsReference *reference, HsCsv *csv, GError **error)
{
  GArray *makers = reference->makers;
  const char *wmi = hs_csv_get_field (csv, 0);
  HsMaker maker = { 0 };

  if (!is_wmi (wmi))
    return refuse (error, csv, "wmi", "three characters of a VIN, or six if the third is a 9");
  if (makers->len > 0 && strcmp (g_array_index (makers, HsMaker, makers->len - 1).wmi, wmi) >= 0)
    return refuse (error, csv, "wmi", "rows stand in order, and none twice");
  if (*hs_csv_get_field (csv, 1) == '\0')
    return refuse (error, csv, "maker", "must not be empty");
  if (!type_read (hs_csv_get_field (csv, 3), &maker.type))
    return refuse (error, csv, "type", "is no type of vehicle");
  maker.wmi = g_string_chunk_insert (reference->strings, wmi);
  maker.name = g_string_chunk_insert_const (reference->strings, hs_csv_get_field (csv, 1));
  maker.country = g_string_chunk_insert_const (reference->strings, hs_csv_get_field (csv, 2));
  g_array_append_val (makers, maker);
  return TRUE;
}

static gboolean
header_holds (HsCsv *csv, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (maker_columns); i++)
    if (hs_csv_find_column (csv, maker_columns[i]) != (int) i)
      return refuse (error, csv, maker_columns[i], "the columns are wmi, maker, country, type");
  return TRUE;
}

static gboolean
makers_read (HsReference *reference, GBytes *bytes, GError **error)
{
  g_autoptr (HsCsv) csv = hs_csv_new (bytes, ',', error);
  HsCsvStep step;

  if (csv == NULL)
    {
      g_prefix_error (error, "makers.csv: ");
      return FALSE;
    }
  if (!header_holds (csv, error))
    return FALSE;
  while ((step = hs_csv_next (csv, error)) == HS_CSV_ROW)
    if (!maker_read (reference, csv, error))
      return FALSE;
  if (step == HS_CSV_BAD_ROW)
    g_prefix_error (error, "makers.csv row %u: ", hs_csv_get_row (csv));
  return step == HS_CSV_END;
}

HsReference *
hs_reference_new (const HsReferenceTables *tables, GError **error)
{
  g_autoptr (HsReference) reference = g_new0 (HsReference, 1);

  g_atomic_ref_count_init (&reference->ref_count);
  reference->strings = g_string_chunk_new (4096);
  reference->makers = g_array_new (FALSE, FALSE, sizeof (HsMaker));
  reference->troubles = g_array_new (FALSE, FALSE, sizeof (HsTroubleEntry));
  reference->rates = g_array_new (FALSE, FALSE, sizeof (HsMileageRate));
  reference->deposits = g_array_new (FALSE, FALSE, sizeof (HsDepositRule));
  if ((tables->makers != NULL && !makers_read (reference, tables->makers, error))
      || (tables->trouble_codes != NULL && !hs_reference_read_troubles (reference, tables->trouble_codes, error))
      || (tables->mileage != NULL && !hs_reference_read_rates (reference, tables->mileage, error))
      || (tables->deposits != NULL && !hs_reference_read_deposits (reference, tables->deposits, error)))
    return NULL;
  return g_steal_pointer (&reference);
}

HsReference *
hs_reference_ref (HsReference *reference)
{
  g_atomic_ref_count_inc (&reference->ref_count);
  return reference;
}

void
hs_reference_unref (HsReference *reference)
{
  if (reference == NULL || !g_atomic_ref_count_dec (&reference->ref_count))
    return;
  g_array_unref (reference->makers);
  g_array_unref (reference->troubles);
  g_array_unref (reference->rates);
  g_array_unref (reference->deposits);
  g_string_chunk_free (reference->strings);
  g_free (reference);
}

/* Every row starts with the text it is looked up by. */
static int
compare_text (const void *text, const void *row)
{
  return strcmp (text, *(const char *const *) row);
}

static const void *
lookup (const GArray *rows, const char *text, gsize row_size)
{
  return rows->len == 0 ? NULL : bsearch (text, rows->data, rows->len, row_size, compare_text);
}

const HsMaker *
hs_reference_lookup_maker (const HsReference *reference, const char *wmi)
{
  return lookup (reference->makers, wmi, sizeof (HsMaker));
}

guint
hs_reference_get_n_makers (const HsReference *reference)
{
  return reference->makers->len;
}

const HsTroubleEntry *
hs_reference_lookup_trouble (const HsReference *reference, const char *code)
{
  return lookup (reference->troubles, code, sizeof (HsTroubleEntry));
}

guint
hs_reference_get_n_troubles (const HsReference *reference)
{
  return reference->troubles->len;
}

const HsMileageRate *
hs_reference_get_nth_rate (const HsReference *reference, guint nth)
{
  return nth < reference->rates->len ? &g_array_index (reference->rates, HsMileageRate, nth) : NULL;
}

const HsDepositRule *
hs_reference_get_nth_deposit (const HsReference *reference, guint nth)
{
  return nth < reference->deposits->len ? &g_array_index (reference->deposits, HsDepositRule, nth) : NULL;
}

const HsDepositRule *
hs_reference_lookup_deposit (const HsReference *reference, const char *place)
{
  const HsDepositRule *rule;

  for (guint i = 0; (rule = hs_reference_get_nth_deposit (reference, i)) != NULL; i++)
    if (g_ascii_strcasecmp (rule->place, place) == 0)
      return rule;
  return NULL;
}
