// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The tables that a person extends with a text editor: trouble codes, mileage rates, battery deposits. A row is a
 * section; each names its source and how sure that is. Refuses what is not understood, naming section and key. */

#include "hs-reference-private.h"

#include "hs-calc.h"
#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-money.h"
#include "hs-trouble.h"

#define CURRENCY "USD"
#define MOST_DAYS 3650
/* A rate above this many hundredths of a cent is a slipped digit. */
#define MOST_CENTICENTS 50000

static const char *const sures[] = {
  HS_SURE_OFFICIAL, HS_SURE_DERIVED, HS_SURE_SECONDARY, HS_SURE_PRACTICE, HS_SURE_MEMORY, NULL,
};

static const char *const trouble_keys[] = { "meaning", "next", "source", "tag", NULL };
static const char *const rate_keys[] = { "cents", "source", "tag", NULL };
static const char *const deposit_keys[] = { "deposit", "days", "checked", "source", "tag", NULL };

/* One row while it is read. */
typedef struct
{
  HsReference *reference;
  GKeyFile *file;
  const char *section;
} Row;

typedef gboolean (*RowRead) (const Row *row, GError **error);

static gboolean
table_read (HsReference *reference, GBytes *bytes, const char *name, const char *const *known, RowRead read,
            GError **error)
{
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  g_autoptr (GKeyFile) file = hs_key_file_read (data, length, "it", error);
  g_auto (GStrv) sections = file == NULL ? NULL : g_key_file_get_groups (file, NULL);
  gboolean whole = file != NULL;

  for (guint i = 0; whole && sections[i] != NULL; i++)
    {
      Row row = { reference, file, sections[i] };

      whole = hs_key_file_only (file, sections[i], known, 0, error) && read (&row, error);
    }
  if (!whole)
    g_prefix_error (error, "%s: ", name);
  return whole;
}

static gboolean
text_read (const Row *row, const char *key, const char **ret_text, GError **error)
{
  g_autofree char *text = hs_key_file_dup_needed (row->file, row->section, key, error);

  if (text == NULL)
    return FALSE;
  *ret_text = g_string_chunk_insert_const (row->reference->strings, text);
  return TRUE;
}

/* Who says so, and how sure that is. */
static gboolean
source_read (const Row *row, const char **ret_source, const char **ret_sure, GError **error)
{
  g_autofree char *all = NULL;
  const char *tag;

  if (!text_read (row, "source", ret_source, error) || !text_read (row, "tag", &tag, error))
    return FALSE;
  for (guint i = 0; sures[i] != NULL; i++)
    if (g_str_equal (sures[i], tag))
      {
        *ret_sure = sures[i];
        return TRUE;
      }
  all = g_strjoinv (", ", (char **) sures);
  return hs_key_file_refuse (error, row->section, "“tag” must be one of %s, not “%s”", all, tag);
}

static gboolean
trouble_read (const Row *row, GError **error)
{
  HsTroubleEntry entry = { .next = "" };
  g_autofree char *next = hs_key_file_dup_text (row->file, row->section, "next");
  g_autofree char *code = NULL;
  g_autoptr (GError) broken = NULL;
  guint16 value;

  if (!hs_trouble_parse (row->section, &value, &broken))
    return hs_key_file_refuse (error, row->section, "%s", broken->message);
  code = hs_trouble_format (value);
  if (!g_str_equal (code, row->section))
    return hs_key_file_refuse (error, row->section, "write the code as %s", code);
  entry.code = g_string_chunk_insert (row->reference->strings, code);
  if (next != NULL)
    entry.next = g_string_chunk_insert (row->reference->strings, next);
  if (!text_read (row, "meaning", &entry.meaning, error)
      || !source_read (row, &entry.source, &entry.sure, error))
    return FALSE;
  g_array_append_val (row->reference->troubles, entry);
  return TRUE;
}

static int
compare_codes (const void *one, const void *other)
{
  return strcmp (((const HsTroubleEntry *) one)->code, ((const HsTroubleEntry *) other)->code);
}

gboolean
hs_reference_read_troubles (HsReference *reference, GBytes *bytes, GError **error)
{
  if (!table_read (reference, bytes, "trouble-codes.ini", trouble_keys, trouble_read, error))
    return FALSE;
  g_array_sort (reference->troubles, compare_codes);
  return TRUE;
}

static gboolean
date_read (const Row *row, const char *text, HsDate *ret_date, GError **error)
{
  g_autoptr (GError) broken = NULL;

  if (hs_date_parse (text, ret_date, &broken))
    return TRUE;
  return hs_key_file_refuse (error, row->section, "%s", broken->message);
}

static gboolean
rate_read (const Row *row, GError **error)
{
  HsMileageRate rate = { 0 };
  g_autoptr (GError) broken = NULL;
  const char *cents;

  if (!date_read (row, row->section, &rate.from, error) || !text_read (row, "cents", &cents, error)
      || !source_read (row, &rate.source, &rate.sure, error))
    return FALSE;
  if (!hs_decimal_parse (cents, 2, &rate.centicents, &broken))
    return hs_key_file_refuse (error, row->section, "“cents”: %s", broken->message);
  if (rate.centicents < 1 || rate.centicents > MOST_CENTICENTS)
    return hs_key_file_refuse (error, row->section, "“cents” must be more than 0 and at most %d",
                               MOST_CENTICENTS / 100);
  g_array_append_val (row->reference->rates, rate);
  return TRUE;
}

static int
compare_dates (const void *one, const void *other)
{
  const HsMileageRate *first = one, *second = other;

  return (first->from > second->from) - (first->from < second->from);
}

gboolean
hs_reference_read_rates (HsReference *reference, GBytes *bytes, GError **error)
{
  if (!table_read (reference, bytes, "mileage.ini", rate_keys, rate_read, error))
    return FALSE;
  g_array_sort (reference->rates, compare_dates);
  return TRUE;
}

static gboolean
days_read (const Row *row, int *ret_days, GError **error)
{
  g_autofree char *text = hs_key_file_dup_text (row->file, row->section, "days");
  guint64 days = 0;

  if (text != NULL && !g_ascii_string_to_unsigned (text, 10, 1, MOST_DAYS, &days, NULL))
    return hs_key_file_refuse (error, row->section, "“days” must be 1 to %d, or left away", MOST_DAYS);
  *ret_days = (int) days;
  return TRUE;
}

static gboolean
deposit_read (const Row *row, GError **error)
{
  HsDepositRule rule = { .place = g_string_chunk_insert (row->reference->strings, row->section) };
  g_autoptr (GError) broken = NULL;
  const char *deposit, *checked;

  if (!text_read (row, "deposit", &deposit, error) || !days_read (row, &rule.days, error)
      || !text_read (row, "checked", &checked, error) || !date_read (row, checked, &rule.checked, error)
      || !source_read (row, &rule.source, &rule.sure, error))
    return FALSE;
  if (!hs_money_parse (deposit, CURRENCY, &rule.deposit_cents, &broken))
    return hs_key_file_refuse (error, row->section, "“deposit”: %s", broken->message);
  if (rule.deposit_cents < 1)
    return hs_key_file_refuse (error, row->section, "“deposit” must be more than 0");
  g_array_append_val (row->reference->deposits, rule);
  return TRUE;
}

gboolean
hs_reference_read_deposits (HsReference *reference, GBytes *bytes, GError **error)
{
  return table_read (reference, bytes, "deposits.ini", deposit_keys, deposit_read, error);
}
