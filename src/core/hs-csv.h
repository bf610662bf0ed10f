// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsCsv:
 *
 * Reads comma separated values (RFC 4180) from a buffer, row after row. The first row is the header.
 */
typedef struct _HsCsv HsCsv;

/**
 * HsCsvStep:
 * @HS_CSV_ROW: a row was read
 * @HS_CSV_BAD_ROW: this row cannot be used; the error says which and why; reading may go on
 * @HS_CSV_END: there is no further row
 */
typedef enum
{
  HS_CSV_ROW,
  HS_CSV_BAD_ROW,
  HS_CSV_END,
} HsCsvStep;

/**
 * hs_csv_new:
 * @bytes: UTF-8 text with or without a byte order mark; lines end with LF, CRLF or CR
 * @separator: `,`, `;` or a tab; 0 finds it from the header (the one that comes most often outside quotes)
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Reads the header. Refuses an empty file, text in UTF-16, a header with an empty or repeated name and every fault
 * that hs_csv_next() refuses.
 *
 * Returns: (transfer full): free with hs_csv_free(); %NULL on failure
 */
HsCsv *hs_csv_new (GBytes *bytes, char separator, GError **error);
void hs_csv_free (HsCsv *csv);

/**
 * hs_csv_next:
 * @error: return location, set for %HS_CSV_BAD_ROW with %HS_CORE_ERROR_BAD_VALUE
 *
 * Steps to the next row. Empty lines are skipped but counted. Bad rows: a NUL byte, bytes that are not UTF-8, more or
 * fewer fields than the header has, text behind a closing quote, a quote that is never closed (nothing follows it).
 *
 * Returns: what was found
 */
HsCsvStep hs_csv_next (HsCsv *csv, GError **error);

/**
 * hs_csv_get_header:
 *
 * Returns: (transfer none) (array zero-terminated=1): the names, trimmed, in the file's own spelling
 */
const char *const *hs_csv_get_header (HsCsv *csv);

guint hs_csv_get_n_columns (HsCsv *csv);
char hs_csv_get_separator (HsCsv *csv);

/* hs_csv_find_column: its number from 0, letter case ignored; −1 if the header has no such name. */
int hs_csv_find_column (HsCsv *csv, const char *name);

/**
 * hs_csv_get_field:
 * @column: 0 to hs_csv_get_n_columns() − 1
 *
 * Returns: (transfer none): the field of the present row as it stands (blanks are data), valid until the next step;
 *   empty if the last step was not %HS_CSV_ROW
 */
const char *hs_csv_get_field (HsCsv *csv, guint column);

/* hs_csv_get_row: number of the present row as a spreadsheet counts it: the header is row 1. */
guint hs_csv_get_row (HsCsv *csv);

/* hs_csv_get_line: the line of the file on which the present row starts, from 1. */
guint hs_csv_get_line (HsCsv *csv);

/**
 * hs_csv_append_row:
 * @out: where the row goes
 * @fields: (array zero-terminated=1): valid UTF-8
 *
 * Writes one row with commas and CRLF (RFC 4180), quoting fields that need it.
 */
void hs_csv_append_row (GString *out, const char *const *fields);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCsv, hs_csv_free)

G_END_DECLS
