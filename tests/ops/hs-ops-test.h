// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-import.h"

G_BEGIN_DECLS

/* A new book in a folder of its own; both go away with hs_ops_test_close(). */
typedef struct
{
  char *folder;
  char *path;
  HsBookUser user;
  HsBook *book;
} HsOpsTest;

/* 2026-03-10 06:45 in New York. */
#define HS_OPS_TEST_NOW G_GINT64_CONSTANT (1773139500)

HsOpsTest *hs_ops_test_open (void);

/* The same folder without a book yet. */
HsOpsTest *hs_ops_test_folder (void);
void hs_ops_test_close (HsOpsTest *test);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsOpsTest, hs_ops_test_close)

/* hs_ops_test_import: brings rows in; on a fault @ret_faults gets them with a line break behind each. */
gboolean hs_ops_test_import (HsOpsTest *test, const char *kind, const char *text, HsImportReport **ret_report,
                             char **ret_faults);

/* hs_ops_test_import_ok: aborts the test on a fault. */
void hs_ops_test_import_ok (HsOpsTest *test, const char *kind, const char *text, gsize added, gsize changed,
                            gsize unchanged);

/* hs_ops_test_import_bad: aborts the test unless the faults are exactly @faults and nothing was saved. */
void hs_ops_test_import_bad (HsOpsTest *test, const char *kind, const char *text, const char *faults);

/* hs_ops_test_fill: areas, customers, vehicles, suppliers, parts of a small invented business. */
void hs_ops_test_fill (HsOpsTest *test);

/* hs_ops_test_seen: how many rows a table of the book has, seen from outside. */
gint64 hs_ops_test_count (HsOpsTest *test, const char *table);

/* hs_ops_test_refused: @error is set and says @said; it is cleared. */
void hs_ops_test_refused (GError **error, const char *said);

/* hs_ops_test_at: a wall clock in New York, "2026-03-10T06:45". */
HsInstant hs_ops_test_at (const char *text);

/* hs_ops_test_one: exactly one row of the book fulfils "TABLE WHERE …". */
void hs_ops_test_one (HsOpsTest *test, const char *rows);

/* hs_ops_test_run: changes the book from outside, as no op would. */
void hs_ops_test_run (HsOpsTest *test, const char *sql);

/* hs_ops_test_id: (transfer full): the first value of the first row of a query from outside. */
char *hs_ops_test_id (HsOpsTest *test, const char *sql);

G_END_DECLS
