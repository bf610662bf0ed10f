// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <sqlite3.h>

#include "hs-store.h"

G_BEGIN_DECLS

/* The instant at which these tests happen: 2026-03-10T10:45:00Z. */
#define TEST_NOW G_GINT64_CONSTANT (1773139500)

/* A folder of its own for one test; test_folder_remove() takes it away with all that is in it. */
char *test_folder_make (void);
void test_folder_remove (char *folder);

/* Opens or creates FOLDER/NAME as program `test`; fails the test if that does not work. */
HsStore *test_book_open (const char *folder, const char *name, HsStoreMode mode);

/* A new book with the small world of test_world_sql, open for writing. */
HsStore *test_book_new (const char *folder);

/* Areas O and Q, van A, customers c1 and c2, vehicles v1 (of c1) and v2 (of nobody), supplier k, part b, checks, and
 * the jobs `open`, `open2` (on site), `proven` and `squared`, each with one row of everything that hangs on a job. */
extern const char test_world_sql[];

/* The same with what is done on site: visit vi-JOB and vj-squared, finding h-JOB (said), photo p-JOB bound to h-JOB
 * (and to the reading of squared), safety answer s-vi-JOB, line al-JOB of the option, place d-JOB, step u-JOB. */
extern const char test_on_site_world_sql[];

/* A bare connection to the file, with the settings of the recipe or (plain) those that SQLite starts with. */
sqlite3 *test_connect (const char *path, gboolean plain);

/* Runs SQL and fails the test if SQLite refuses it. */
void test_run (sqlite3 *db, const char *sql);

/* The schema of the file, as one text. */
char *test_schema (sqlite3 *db);

/* All rows of the file in order, as one text. */
char *test_dump (sqlite3 *db);

/* The number that SQL returns. */
gint64 test_int (sqlite3 *db, const char *sql);

/* The SHA-256 of the file's bytes. */
char *test_hash (const char *path);

#define assert_refused(done, error, code, words) G_STMT_START { \
    g_assert_false (done); \
    g_assert_error (error, HS_STORE_ERROR, (int) (code)); \
    if (strstr ((error)->message, words) == NULL) \
      g_assert_cmpstr ((error)->message, ==, words); \
  } G_STMT_END

G_END_DECLS
