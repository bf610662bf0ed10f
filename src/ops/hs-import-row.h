// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-import.h"
#include "hs-words.h"

G_BEGIN_DECLS

/* What the kinds of import share; private to the ops layer. */

/**
 * HsImportType: how a field is written, and what its number means.
 * @HS_IMPORT_TEXT: any text, trimmed
 * @HS_IMPORT_MONEY: 0 or more in the currency's decimals; minor units
 * @HS_IMPORT_DATE: ISO date; #HsDate
 * @HS_IMPORT_WHOLE: whole number between the column's least and most
 * @HS_IMPORT_THOUSANDTHS: decimal between least and most (both in thousandths); thousandths
 * @HS_IMPORT_DEGREES: decimal between least and most (both in ten-millionths); ten-millionths
 * @HS_IMPORT_CLOCK: HH:MM; minutes
 * @HS_IMPORT_WEEKDAY: mon … sun or the full name; 1 to 7
 * @HS_IMPORT_YES_NO: yes, no, true, false, 1, 0; 1 or 0
 * @HS_IMPORT_WORD: a word of a closed list; its id
 * @HS_IMPORT_PHONE: a phone number as typed; its digits are the value's word
 * @HS_IMPORT_PLATE: a plate as typed; its signs without blanks are the value's word
 */
typedef enum
{
  HS_IMPORT_TEXT,
  HS_IMPORT_MONEY,
  HS_IMPORT_DATE,
  HS_IMPORT_WHOLE,
  HS_IMPORT_THOUSANDTHS,
  HS_IMPORT_DEGREES,
  HS_IMPORT_CLOCK,
  HS_IMPORT_WEEKDAY,
  HS_IMPORT_YES_NO,
  HS_IMPORT_WORD,
  HS_IMPORT_PHONE,
  HS_IMPORT_PLATE,
} HsImportType;

typedef struct
{
  const char *name;
  HsImportType type;
  gboolean required;
  gint64 least;
  gint64 most;
  HsWords words;
} HsImportColumn;

/**
 * HsImportValue: one field.
 * @given: the file has the column and the field is not empty
 * @text: the field without blanks around it; never %NULL
 * @number: see #HsImportType
 * @word: (nullable): an id, the digits of a phone, the signs of a plate
 */
typedef struct
{
  gboolean given;
  char *text;
  gint64 number;
  char *word;
} HsImportValue;

typedef enum
{
  HS_IMPORT_ADDED,
  HS_IMPORT_CHANGED,
  HS_IMPORT_UNCHANGED,
  HS_IMPORT_BAD,
} HsImportOutcome;

typedef struct _HsImportRun HsImportRun;

/**
 * HsImportKind:
 * @columns: (array length=n_columns): in the order of the enum that the kind's own file declares
 * @save: saves one row whose fields could all be read; tells faults through hs_import_fault()
 */
typedef struct
{
  const char *id;
  const HsImportColumn *columns;
  gsize n_columns;
  HsImportOutcome (*save) (HsImportRun *run);
} HsImportKind;

/**
 * HsImportRun: one file on its way in.
 * @row: as a spreadsheet counts it
 * @values: (array): one a column of the kind
 * @content: all values of the row in one text, to tell a repeated row from a contradiction
 * @keys: key → row number and content, of the rows so far
 * @seen: how often a key came, for kinds in which equal rows are several things
 * @in_book: (nullable): what the book had before, by key, for kinds whose rows have no key of their own
 * @fatal: what ends the run, not only the row: a full disk, a book held by another program
 */
struct _HsImportRun
{
  HsBook *book;
  HsStore *store;
  HsInstant now;
  HsDate today;
  const char *currency;
  const HsImportKind *kind;
  const char *file;
  guint row;
  HsImportValue *values;
  char *content;
  GHashTable *keys;
  GHashTable *seen;
  GHashTable *in_book;
  gboolean row_bad;
  HsImportReport *report;
  GError *fatal;
};

/** hs_import_fault: lists `FILE:ROW: FIELD: reason`; @column is of the kind's enum. Always %HS_IMPORT_BAD. */
HsImportOutcome hs_import_fault (HsImportRun *run, guint column, const char *format, ...) G_GNUC_PRINTF (3, 4);

/** hs_import_note: lists `FILE:ROW: FIELD: note` for something that is taken as it is. */
void hs_import_note (HsImportRun *run, guint column, const char *note);

/**
 * hs_import_fault_error:
 * @error: (transfer full): why the book or a rule refused the row
 *
 * A refusal is a fault of the row; anything else (no room on the disk …) ends the run. Always %HS_IMPORT_BAD.
 */
HsImportOutcome hs_import_fault_error (HsImportRun *run, guint column, GError *error);

/* hs_import_refuse, hs_import_refuse_error: like hs_import_fault() and its like, for a step that says if it went well:
 * always %FALSE. */
gboolean hs_import_refuse (HsImportRun *run, guint column, const char *format, ...) G_GNUC_PRINTF (3, 4);
gboolean hs_import_refuse_error (HsImportRun *run, guint column, GError *error);

/**
 * hs_import_only_missing:
 * @error: (inout): what a look-up in the store said, or %NULL
 *
 * Returns: %TRUE if the row was found or is merely not there, with @error cleared; else %FALSE with a fault
 */
gboolean hs_import_only_missing (HsImportRun *run, guint column, GError **error);

/**
 * hs_import_claim:
 * @column: the field to name
 * @key: (transfer full): what makes this row one of a kind
 *
 * Returns: %FALSE with a fault if an earlier row of this file has the same key and other content
 */
gboolean hs_import_claim (HsImportRun *run, guint column, char *key);

/** hs_import_count: how often this very @key came in this file, this time included. */
guint hs_import_count (HsImportRun *run, const char *key);

/* Reads the fields of one row into run->values; lists every fault. */
gboolean hs_import_read_row (HsImportRun *run, const char *const *fields);
void hs_import_clear_row (HsImportRun *run);

/*
 * Looking up what a field names. Each lists a fault and gives %FALSE if the book does not have it; a field that is not
 * given leaves @ret_id %NULL. A position is an area of its own.
 */
gboolean hs_import_find_area (HsImportRun *run, guint column, char **ret_id);
gboolean hs_import_find_supplier (HsImportRun *run, guint column, char **ret_id);
gboolean hs_import_find_part (HsImportRun *run, guint column, char **ret_id);
gboolean hs_import_find_customer (HsImportRun *run, guint column, char **ret_id);
gboolean hs_import_find_vehicle (HsImportRun *run, guint column, char **ret_id);
gboolean hs_import_find_job (HsImportRun *run, guint column, char **ret_id);

/* Setting a field of a row from a value that is given; %TRUE if that changed it. */
gboolean hs_import_set_text (char **field, const HsImportValue *value);
gboolean hs_import_set_word (char **field, const HsImportValue *value);
gboolean hs_import_set_id (char **field, const char *id);
gboolean hs_import_set_number (gint64 *field, const HsImportValue *value);
gboolean hs_import_set_seconds (gint64 *field, const HsImportValue *minutes_thousandths);
gboolean hs_import_set_degrees (double *field, const HsImportValue *value);
gboolean hs_import_set_thousandths (double *field, const HsImportValue *value);
gboolean hs_import_set_date (HsDate *field, const HsImportValue *value);

/**
 * hs_import_outcome:
 * @is_new: the book did not have it
 * @changed: a field changed
 * @error: (transfer full) (nullable): why the store would not save it
 *
 * Tells what became of a row; an error is a fault of its first column.
 */
HsImportOutcome hs_import_outcome (HsImportRun *run, gboolean is_new, gboolean changed, GError *error);

extern const HsImportKind hs_import_areas;
extern const HsImportKind hs_import_travel;
extern const HsImportKind hs_import_customers;
extern const HsImportKind hs_import_vehicles;
extern const HsImportKind hs_import_suppliers;
extern const HsImportKind hs_import_hours;
extern const HsImportKind hs_import_holidays;
extern const HsImportKind hs_import_parts;
extern const HsImportKind hs_import_prices;
extern const HsImportKind hs_import_stock;
extern const HsImportKind hs_import_jobs;
extern const HsImportKind hs_import_needs;
extern const HsImportKind hs_import_odometer;
extern const HsImportKind hs_import_installed;
extern const HsImportKind hs_import_readings;
extern const HsImportKind hs_import_cores;
extern const HsImportKind hs_import_returns;
extern const HsImportKind hs_import_trips;

G_END_DECLS
