// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The fields of one import row. Every kind of file says in a table how its columns are written; here a row's texts
 * become numbers, days and words of the closed lists, and each fault is told with file, row and field. Refuses what a
 * person would have to guess at: a comma for a decimal point, a day that does not exist, an amount below zero.
 */

#include "hs-import-row.h"

#include "hs-core-error.h"
#include "hs-decimal.h"
#include "hs-hours.h"
#include "hs-ident.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-phone.h"
#include "hs-store-error.h"

#include <string.h>

static char *
say_where (const HsImportRun *run, guint column, const char *what)
{
  return g_strdup_printf ("%s:%u: %s: %s", run->file, run->row, run->kind->columns[column].name, what);
}

static void
add_fault (HsImportRun *run, guint column, const char *reason)
{
  g_ptr_array_add (run->report->faults, say_where (run, column, reason));
  run->row_bad = TRUE;
}

void
hs_import_note (HsImportRun *run, guint column, const char *note)
{
  g_ptr_array_add (run->report->notes, say_where (run, column, note));
}

static void G_GNUC_PRINTF (3, 0)
add_fault_va (HsImportRun *run, guint column, const char *format, va_list args)
{
  g_autofree char *reason = g_strdup_vprintf (format, args);

  add_fault (run, column, reason);
}

HsImportOutcome
hs_import_fault (HsImportRun *run, guint column, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  add_fault_va (run, column, format, args);
  va_end (args);
  return HS_IMPORT_BAD;
}

gboolean
hs_import_refuse (HsImportRun *run, guint column, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  add_fault_va (run, column, format, args);
  va_end (args);
  return FALSE;
}

HsImportOutcome
hs_import_fault_error (HsImportRun *run, guint column, GError *error)
{
  gboolean ends_run = error->domain == HS_STORE_ERROR && error->code != HS_STORE_ERROR_REFUSED
                      && error->code != HS_STORE_ERROR_NOT_FOUND;

  add_fault (run, column, error->message);
  if (ends_run && run->fatal == NULL)
    run->fatal = g_steal_pointer (&error);
  g_clear_error (&error);
  return HS_IMPORT_BAD;
}

gboolean
hs_import_refuse_error (HsImportRun *run, guint column, GError *error)
{
  hs_import_fault_error (run, column, error);
  return FALSE;
}

gboolean
hs_import_only_missing (HsImportRun *run, guint column, GError **error)
{
  if (*error != NULL && !hs_ops_is_not_found (*error))
    return hs_import_refuse_error (run, column, g_steal_pointer (error));
  g_clear_error (error);
  return TRUE;
}

typedef struct
{
  guint row;
  char *content;
} Claim;

static void
claim_free (gpointer data)
{
  Claim *claim = data;

  g_free (claim->content);
  g_free (claim);
}

gboolean
hs_import_claim (HsImportRun *run, guint column, char *key)
{
  g_autofree char *owned = key;
  Claim *claim;

  if (run->keys == NULL)
    run->keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, claim_free);
  claim = g_hash_table_lookup (run->keys, owned);
  if (claim == NULL)
    {
      claim = g_new0 (Claim, 1);
      claim->row = run->row;
      claim->content = g_strdup (run->content);
      g_hash_table_insert (run->keys, g_steal_pointer (&owned), claim);
      return TRUE;
    }
  if (g_str_equal (claim->content, run->content))
    return TRUE;
  return hs_import_refuse (run, column, "row %u says something else about the same one; keep one of the two",
                           claim->row);
}

guint
hs_import_count (HsImportRun *run, const char *key)
{
  guint count;

  if (run->seen == NULL)
    run->seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  count = GPOINTER_TO_UINT (g_hash_table_lookup (run->seen, key)) + 1;
  g_hash_table_insert (run->seen, g_strdup (key), GUINT_TO_POINTER (count));
  return count;
}

static gboolean
read_decimal (const HsImportColumn *column, const char *text, guint decimals, gint64 *ret_number, GError **error)
{
  gint64 number;

  if (!hs_decimal_parse (text, decimals, &number, error))
    return FALSE;
  if (number >= column->least && number <= column->most)
    {
      *ret_number = number;
      return TRUE;
    }

  g_autofree char *least = hs_decimal_format_short (column->least, decimals);
  g_autofree char *most = hs_decimal_format_short (column->most, decimals);
  if (column->most == G_MAXINT64)
    g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is too small; it must be at least %s", text,
                 least);
  else
    g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” must lie between %s and %s", text, least, most);
  return FALSE;
}

static gboolean
read_money (const char *text, const char *currency, gint64 *ret_number, GError **error)
{
  gint64 minor;

  if (!hs_money_parse (text, currency, &minor, error))
    return FALSE;
  if (minor < 0)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is below zero; an amount here is 0 or more",
                   text);
      return FALSE;
    }
  *ret_number = minor;
  return TRUE;
}

static gboolean
read_weekday (const char *text, gint64 *ret_number, GError **error)
{
  static const char *const names[] = { "monday", "tuesday", "wednesday", "thursday",
                                       "friday", "saturday", "sunday" };
  int weekday;

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    if (g_ascii_strcasecmp (text, names[i]) == 0)
      {
        *ret_number = i + 1;
        return TRUE;
      }
  if (!hs_weekday_parse (text, &weekday, error))
    return FALSE;
  *ret_number = weekday;
  return TRUE;
}

static gboolean
read_yes_no (const char *text, gint64 *ret_number, GError **error)
{
  static const char *const words[] = { "no", "yes", "false", "true", "0", "1", "n", "y" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_ascii_strcasecmp (text, words[i]) == 0)
      {
        *ret_number = i % 2;
        return TRUE;
      }
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is neither yes nor no", text);
  return FALSE;
}

static gboolean
read_phone (const char *text, char **ret_word, GError **error)
{
  if (!hs_phone_check (text, error))
    return FALSE;
  *ret_word = hs_phone_digits (text);
  return TRUE;
}

static gboolean
read_plate (const char *text, char **ret_word, GError **error)
{
  g_autofree char *plate = hs_plate_normalize (text);

  if (*plate == '\0')
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” has neither a letter nor a digit", text);
      return FALSE;
    }
  *ret_word = g_steal_pointer (&plate);
  return TRUE;
}

static gboolean
read_date (const char *text, gint64 *ret_number, GError **error)
{
  HsDate date;

  if (!hs_date_parse (text, &date, error))
    return FALSE;
  *ret_number = date;
  return TRUE;
}

static gboolean
read_clock (const char *text, gint64 *ret_number, GError **error)
{
  int minutes;

  if (!hs_clock_parse (text, &minutes, error))
    return FALSE;
  *ret_number = minutes;
  return TRUE;
}

static gboolean
read_word (HsWords words, const char *text, char **ret_word, GError **error)
{
  const char *id;

  if (!hs_words_parse (words, text, &id, error))
    return FALSE;
  *ret_word = g_strdup (id);
  return TRUE;
}

static gboolean
read_value (const HsImportRun *run, const HsImportColumn *column, HsImportValue *value, GError **error)
{
  switch (column->type)
    {
    case HS_IMPORT_TEXT:
      return TRUE;
    case HS_IMPORT_MONEY:
      return read_money (value->text, run->currency, &value->number, error);
    case HS_IMPORT_DATE:
      return read_date (value->text, &value->number, error);
    case HS_IMPORT_WHOLE:
      return read_decimal (column, value->text, 0, &value->number, error);
    case HS_IMPORT_THOUSANDTHS:
      return read_decimal (column, value->text, 3, &value->number, error);
    case HS_IMPORT_DEGREES:
      return read_decimal (column, value->text, 7, &value->number, error);
    case HS_IMPORT_CLOCK:
      return read_clock (value->text, &value->number, error);
    case HS_IMPORT_WEEKDAY:
      return read_weekday (value->text, &value->number, error);
    case HS_IMPORT_YES_NO:
      return read_yes_no (value->text, &value->number, error);
    case HS_IMPORT_WORD:
      return read_word (column->words, value->text, &value->word, error);
    case HS_IMPORT_PHONE:
      return read_phone (value->text, &value->word, error);
    case HS_IMPORT_PLATE:
      return read_plate (value->text, &value->word, error);
    }
  g_assert_not_reached ();
}

void
hs_import_clear_row (HsImportRun *run)
{
  for (gsize i = 0; i < run->kind->n_columns; i++)
    {
      g_free (run->values[i].text);
      g_free (run->values[i].word);
    }
  memset (run->values, 0, run->kind->n_columns * sizeof (HsImportValue));
  g_clear_pointer (&run->content, g_free);
  run->row_bad = FALSE;
}

/* Two spellings of one value are no contradiction: 9 and 9.0, mon and Monday. */
static void
append_content (GString *content, const HsImportColumn *column, const HsImportValue *value)
{
  if (value->word != NULL)
    g_string_append (content, value->word);
  else if (column->type == HS_IMPORT_TEXT || !value->given)
    g_string_append (content, value->text);
  else
    g_string_append_printf (content, "%" G_GINT64_FORMAT, value->number);
  g_string_append_c (content, '\n');
}

gboolean
hs_import_read_row (HsImportRun *run, const char *const *fields)
{
  GString *content = g_string_new (NULL);

  for (gsize i = 0; i < run->kind->n_columns; i++)
    {
      const HsImportColumn *column = &run->kind->columns[i];
      HsImportValue *value = &run->values[i];
      g_autoptr (GError) error = NULL;

      value->text = g_strstrip (g_strdup (fields[i] == NULL ? "" : fields[i]));
      value->given = *value->text != '\0';
      if (!value->given && column->required)
        hs_import_fault (run, i, "is empty, but it is needed");
      else if (value->given && !read_value (run, column, value, &error))
        hs_import_fault_error (run, i, g_steal_pointer (&error));
      append_content (content, column, value);
    }
  run->content = g_string_free (content, FALSE);
  return !run->row_bad;
}
