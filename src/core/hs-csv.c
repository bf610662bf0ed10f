// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Comma separated values after RFC 4180, read from a buffer: for every import. Tells a person the row that is
 * wrong and why, and goes on to the next, so that one pass lists every fault. Never guesses at a broken row. */

#include "hs-csv.h"

#include "hs-core-error.h"

struct _HsCsv
{
  GBytes *bytes;
  const char *at;
  const char *end;
  char separator;
  char **header;
  guint n_columns;
  GPtrArray *fields;
  guint row;
  guint line;
  guint next_line;
};

typedef enum
{
  FAULT_NONE,
  FAULT_BEHIND_QUOTE,
  FAULT_OPEN_QUOTE,
} Fault;

static gboolean
is_newline (char byte)
{
  return byte == '\n' || byte == '\r';
}

static gboolean
at_break (const HsCsv *csv)
{
  return csv->at == csv->end || is_newline (*csv->at);
}

/* Steps over LF, CRLF or CR. */
static void
skip_newline (HsCsv *csv)
{
  if (csv->at == csv->end)
    return;
  if (*csv->at == '\r' && csv->at + 1 < csv->end && csv->at[1] == '\n')
    csv->at++;
  csv->at++;
  csv->next_line++;
}

/* The inside of a quoted field, from behind the opening quote to behind the closing one. */
static Fault
read_quoted (HsCsv *csv, GString *field)
{
  while (csv->at < csv->end)
    {
      const char *start = csv->at;

      if (*csv->at == '"')
        {
          csv->at++;
          if (csv->at == csv->end || *csv->at != '"')
            return FAULT_NONE;
          start = csv->at++;
        }
      else if (is_newline (*csv->at))
        skip_newline (csv);
      else
        csv->at++;
      g_string_append_len (field, start, csv->at - start);
    }
  return FAULT_OPEN_QUOTE;
}

/* One field up to its separator or the end of the row; neither is consumed. */
static Fault
read_field (HsCsv *csv, GString *field)
{
  Fault fault = FAULT_NONE;
  gboolean quoted = csv->at < csv->end && *csv->at == '"';
  const char *start;

  if (quoted)
    {
      csv->at++;
      fault = read_quoted (csv, field);
    }
  start = csv->at;
  while (!at_break (csv) && *csv->at != csv->separator)
    csv->at++;
  if (quoted && fault == FAULT_NONE && csv->at > start)
    fault = FAULT_BEHIND_QUOTE;
  g_string_append_len (field, start, csv->at - start);
  return fault;
}

/* All fields of a row; the first fault is kept and the row is read to its end all the same. */
static Fault
read_fields (HsCsv *csv)
{
  Fault fault = FAULT_NONE;
  gboolean more = TRUE;

  g_ptr_array_set_size (csv->fields, 0);
  while (more)
    {
      GString *field = g_string_new (NULL);
      Fault found = read_field (csv, field);

      if (fault == FAULT_NONE)
        fault = found;
      g_ptr_array_add (csv->fields, g_string_free (field, FALSE));
      more = !at_break (csv);
      if (more)
        csv->at++;
    }
  return fault;
}

static HsCsvStep
refuse (HsCsv *csv, GError **error, const char *format, ...) G_GNUC_PRINTF (3, 4);

static HsCsvStep
refuse (HsCsv *csv, GError **error, const char *format, ...)
{
  g_autofree char *reason = NULL;
  g_autofree char *line = csv->line == csv->row ? g_strdup ("") : g_strdup_printf (" (line %u)", csv->line);
  va_list arguments;

  va_start (arguments, format);
  reason = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "row %u%s %s", csv->row, line, reason);
  g_ptr_array_set_size (csv->fields, 0);
  return HS_CSV_BAD_ROW;
}

static const char *
separator_name (char separator)
{
  switch (separator)
    {
    case ';':
      return "semicolon";
    case '\t':
      return "tab";
    default:
      return "comma";
    }
}

/* @start to the present place is the row as it stands in the file. */
static HsCsvStep
judge_row (HsCsv *csv, const char *start, Fault fault, GError **error)
{
  gsize length = (gsize) (csv->at - start);

  if (length > 0 && memchr (start, '\0', length) != NULL)
    return refuse (csv, error, "holds a NUL byte: this is not a text file, or it is damaged");
  if (!g_utf8_validate_len (start, length, NULL))
    return refuse (csv, error, "holds letters that are not UTF-8: save the file as UTF-8");
  if (fault == FAULT_OPEN_QUOTE)
    return refuse (csv, error, "opens a quote that is never closed: put a \" where the field ends");
  if (fault == FAULT_BEHIND_QUOTE)
    return refuse (csv, error, "has text behind a closing quote: write \"\" for a quote inside a field");
  if (csv->header != NULL && csv->fields->len != csv->n_columns)
    return refuse (csv, error, "has %u fields and the header %u: check for a missing or extra %s", csv->fields->len,
                   csv->n_columns, separator_name (csv->separator));
  return HS_CSV_ROW;
}

HsCsvStep
hs_csv_next (HsCsv *csv, GError **error)
{
  g_ptr_array_set_size (csv->fields, 0);
  while (csv->at < csv->end)
    {
      const char *start = csv->at;
      Fault fault;
      HsCsvStep step;

      csv->row++;
      csv->line = csv->next_line;
      if (is_newline (*csv->at))
        {
          skip_newline (csv);
          continue;
        }
      fault = read_fields (csv);
      step = judge_row (csv, start, fault, error);
      skip_newline (csv);
      return step;
    }
  return HS_CSV_END;
}

/* The sign that comes most often outside quotes in the first line that is not empty. */
static char
find_separator (const char *at, const char *end)
{
  static const char candidates[] = { ',', ';', '\t' };
  guint counts[G_N_ELEMENTS (candidates)] = { 0 };
  gboolean quoted = FALSE;
  gsize best = 0;

  while (at < end && is_newline (*at))
    at++;
  for (; at < end && (quoted || !is_newline (*at)); at++)
    {
      if (*at == '"')
        quoted = !quoted;
      for (gsize i = 0; !quoted && i < G_N_ELEMENTS (candidates); i++)
        counts[i] += *at == candidates[i];
    }
  for (gsize i = 1; i < G_N_ELEMENTS (candidates); i++)
    if (counts[i] > counts[best])
      best = i;
  return candidates[best];
}

/* Takes the row just read as the header. */
static gboolean
take_header (HsCsv *csv, GError **error)
{
  csv->n_columns = csv->fields->len;
  csv->header = g_new0 (char *, csv->n_columns + 1);
  for (guint i = 0; i < csv->n_columns; i++)
    {
      g_autofree char *name = g_strstrip (g_strdup (g_ptr_array_index (csv->fields, i)));

      if (*name == '\0')
        {
          g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "column %u of the header has no name: name it or remove it", i + 1);
          return FALSE;
        }
      if (hs_csv_find_column (csv, name) >= 0)
        {
          g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "the header names “%s” twice: remove one of the columns", name);
          return FALSE;
        }
      csv->header[i] = g_steal_pointer (&name);
    }
  return TRUE;
}

/* Steps over a byte order mark; refuses those of UTF-16. */
static gboolean
skip_mark (HsCsv *csv, GError **error)
{
  gsize length = (gsize) (csv->end - csv->at);

  if (length >= 2 && (memcmp (csv->at, "\xff\xfe", 2) == 0 || memcmp (csv->at, "\xfe\xff", 2) == 0))
    {
      g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                           "the file is in UTF-16: save it as UTF-8");
      return FALSE;
    }
  if (length >= 3 && memcmp (csv->at, "\xef\xbb\xbf", 3) == 0)
    csv->at += 3;
  return TRUE;
}

HsCsv *
hs_csv_new (GBytes *bytes, char separator, GError **error)
{
  g_autoptr (HsCsv) csv = g_new0 (HsCsv, 1);
  gsize length;

  g_return_val_if_fail (separator == '\0' || strchr (",;\t", separator) != NULL, NULL);
  csv->bytes = g_bytes_ref (bytes);
  csv->at = g_bytes_get_data (bytes, &length);
  csv->end = csv->at + length;
  csv->next_line = 1;
  csv->fields = g_ptr_array_new_with_free_func (g_free);
  if (!skip_mark (csv, error))
    return NULL;
  csv->separator = separator != '\0' ? separator : find_separator (csv->at, csv->end);
  switch (hs_csv_next (csv, error))
    {
    case HS_CSV_ROW:
      if (!take_header (csv, error))
        return NULL;
      g_ptr_array_set_size (csv->fields, 0);
      return g_steal_pointer (&csv);
    case HS_CSV_END:
      g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                           "the file is empty: its first row must name the columns");
      return NULL;
    case HS_CSV_BAD_ROW:
    default:
      return NULL;
    }
}

void
hs_csv_free (HsCsv *csv)
{
  if (csv == NULL)
    return;
  g_strfreev (csv->header);
  g_ptr_array_unref (csv->fields);
  g_bytes_unref (csv->bytes);
  g_free (csv);
}

const char *const *
hs_csv_get_header (HsCsv *csv)
{
  return (const char *const *) csv->header;
}

guint
hs_csv_get_n_columns (HsCsv *csv)
{
  return csv->n_columns;
}

char
hs_csv_get_separator (HsCsv *csv)
{
  return csv->separator;
}

int
hs_csv_find_column (HsCsv *csv, const char *name)
{
  for (guint i = 0; csv->header[i] != NULL; i++)
    if (g_ascii_strcasecmp (csv->header[i], name) == 0)
      return (int) i;
  return -1;
}

const char *
hs_csv_get_field (HsCsv *csv, guint column)
{
  return column < csv->fields->len ? g_ptr_array_index (csv->fields, column) : "";
}

guint
hs_csv_get_row (HsCsv *csv)
{
  return csv->row;
}

guint
hs_csv_get_line (HsCsv *csv)
{
  return csv->line;
}

static gboolean
needs_quotes (const char *field)
{
  return strpbrk (field, ",;\t\"\r\n") != NULL || *field == ' ' || (*field != '\0' && field[strlen (field) - 1] == ' ');
}

void
hs_csv_append_row (GString *out, const char *const *fields)
{
  gsize start = out->len;

  for (guint i = 0; fields[i] != NULL; i++)
    {
      if (i > 0)
        g_string_append_c (out, ',');
      if (!needs_quotes (fields[i]))
        {
          g_string_append (out, fields[i]);
          continue;
        }
      g_string_append_c (out, '"');
      for (const char *at = fields[i]; *at != '\0'; at++)
        g_string_append_printf (out, *at == '"' ? "\"\"" : "%c", *at);
      g_string_append_c (out, '"');
    }
  /* A row of one empty field would read back as an empty line. */
  if (out->len == start)
    g_string_append (out, "\"\"");
  g_string_append (out, "\r\n");
}
