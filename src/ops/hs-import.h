// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

typedef enum
{
  HS_IMPORT_NONE = 0,
  HS_IMPORT_IGNORE_UNKNOWN = 1 << 0,
} HsImportFlags;

/**
 * HsImportReport:
 * @rows: data rows read
 * @added: rows that added something
 * @changed: rows that changed something the book already had
 * @unchanged: rows the book already held word for word
 * @faults: (element-type utf8): `FILE:ROW: FIELD: reason`, one a fault; the header is row 1
 * @notes: (element-type utf8): the same form for what was taken but wants a second look; empty when nothing was saved
 */
typedef struct
{
  gsize rows;
  gsize added;
  gsize changed;
  gsize unchanged;
  GPtrArray *faults;
  GPtrArray *notes;
} HsImportReport;

void hs_import_report_free (HsImportReport *report);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsImportReport, hs_import_report_free)

/** hs_import_get_kinds: the %NULL-terminated ids of what can be imported, in the order a new book wants them. */
const char *const *hs_import_get_kinds (void);

/**
 * hs_import:
 * @kind: what the rows are (`areas`, `travel`, `customers`, …)
 * @file: the file's name for messages
 * @bytes: its content: RFC 4180 with a header
 * @ret_report: (out) (optional): also set when the import is refused for bad rows; untouched for an unknown @kind
 *
 * One transaction a file. Any bad row: nothing is saved, and every bad row is listed.
 */
gboolean hs_import (HsBook *book, const char *kind, const char *file, GBytes *bytes, HsImportFlags flags,
                    HsInstant now, HsImportReport **ret_report, GError **error);

/**
 * hs_import_one:
 * @kind: as in hs_import()
 * @header: names of columns, with commas between them
 * @fields: as many values, %NULL at the end
 *
 * Takes one row as if a file held nothing else, so that one rule judges what is typed and what is imported. What is
 * refused is said without a file and a line, for there is none: %HS_OPS_ERROR_REFUSED.
 */
gboolean hs_import_one (HsBook *book, const char *kind, const char *header, const char *const *fields, HsInstant now,
                        GError **error);

G_END_DECLS
