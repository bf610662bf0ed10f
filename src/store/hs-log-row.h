// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsLogRow:
 * @seq: grows with every change
 * @who: who changed it
 * @table: of the book
 * @row_id: id of the row
 * @act: `added`, `changed`, `removed`
 * @field: (nullable): which; %NULL for an added row
 * @was: (nullable): before
 * @became: (nullable): after
 */
typedef struct
{
  gint64 seq;
  HsInstant at;
  char *who;
  char *table;
  char *row_id;
  char *act;
  char *field;
  char *was;
  char *became;
} HsLogRow;

void hs_log_row_free (HsLogRow *row);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsLogRow, hs_log_row_free)

/* hs_log_row_list_of: everything that happened to a row, oldest first. */
gboolean hs_log_row_list_of (HsStore *store, const char *table, const char *row_id, GPtrArray **ret_rows,
                             GError **error);

/**
 * hs_log_row_add_override:
 * @field: which rule
 * @why: what was asked for against it
 *
 * Logs that a person set a rule aside for a row. Inside a transaction; the row's own changes are logged by its saving.
 */
gboolean hs_log_row_add_override (HsStore *store, const char *table, const char *row_id, const char *field,
                                  const char *why, GError **error);

/**
 * hs_log_row_add_deed:
 * @deed: what was done; stands where other entries have the table, and is the name of none
 * @id: to what
 * @act: `added` or `removed`
 * @became: (nullable): what is to be known of it
 *
 * Logs something that a person did to more than one row. Inside a transaction; hs_log_row_list_of () finds it.
 */
gboolean hs_log_row_add_deed (HsStore *store, const char *deed, const char *id, const char *act, const char *became,
                              GError **error);

/* hs_log_row_next_step: the place that the #HsUndoStep gets which is noted in this transaction, and no other ever: for
 * a deed that is one only as long as its step stands. */
gboolean hs_log_row_next_step (HsStore *store, gint64 *ret_seq, GError **error);

/* hs_log_row_list: the changes after @after (0: all), at most @limit, oldest first. */
gboolean hs_log_row_list (HsStore *store, gint64 after, guint limit, GPtrArray **ret_rows, GError **error);

G_END_DECLS
