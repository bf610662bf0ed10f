// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/**
 * HsMigration:
 * @to: the version of the schema behind this step
 * @sql: (array zero-terminated=1): what leads there from the version before
 *
 * One step of the schema. The list only grows; a released step is never edited.
 */
typedef struct
{
  int to;
  const char *const *sql;
} HsMigration;

/* All steps, from the files of `schema/`. */
extern const HsMigration hs_migrations[];
extern const guint hs_n_migrations;

/**
 * hs_migrate:
 * @path: (nullable): the book; before an older one is changed a copy is put beside it as `BOOK.before-N`
 * @steps: (array length=n_steps): in order from 1
 *
 * Runs the steps that the file does not have yet, all in one transaction. A new file runs them from the first.
 */
gboolean hs_migrate (sqlite3 *db, const char *path, const HsMigration *steps, guint n_steps, GError **error);

G_END_DECLS
