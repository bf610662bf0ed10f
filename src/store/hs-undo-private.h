// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-table.h"

G_BEGIN_DECLS

/* The type of a step's changes in the book: table, id, act (`a`dded, `c`hanged, `r`emoved), seq of the row or 0, and
 * the fields with what they were and became. Little-endian. */
#define HS_UNDO_CHANGE "(ssyxa(smvmv))"
#define HS_UNDO_CHANGES "a" HS_UNDO_CHANGE

/*
 * A step while it is done. depth: how many begins were open when it was noted; changes: GVariants in order; marks: how
 * many there were at each begin since.
 */
typedef struct _HsUndoWork
{
  char *job_id;
  char *what;
  guint depth;
  GPtrArray *changes;
  GArray *marks;
} HsUndoWork;

void hs_undo_work_free (HsUndoWork *work);

/* What the transactions of the store tell: before a begin, before a commit, after a rollback; depth is the one that is
 * left or entered. */
void hs_undo_began (HsStore *store);
gboolean hs_undo_commits (HsStore *store, GError **error);
void hs_undo_rolled_back (HsStore *store);

/* hs_undo_record: a row that changed; @old is %NULL for an added one, @row for a removed one. @seq: its place; 0 of one
 * that only changed. */
void hs_undo_record (HsStore *store, const HsTable *table, gconstpointer old, gconstpointer row, gint64 seq);

/* hs_undo_apply: does the changes again, or (@back) takes them back in the opposite order. @kept: the numbers of
 * squared jobs whose labor clock was left as it is are added to it. */
gboolean hs_undo_apply (HsStore *store, GVariant *changes, gboolean back, GString *kept, GError **error);

G_END_DECLS
