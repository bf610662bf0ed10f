// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsDraftRow:
 * @job_id: (nullable): %NULL: a call slip that is no job yet
 * @page: where it was typed
 * @field: into what
 * @text: what stood there
 * @at: when
 *
 * What was being typed; it outlives the program. Not in the log of changes.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *page;
  char *field;
  char *text;
  HsInstant at;
} HsDraftRow;

HS_DECLARE_ROW (HsDraftRow, hs_draft_row)

/* hs_draft_row_put: keeps @text for that field, over what was kept there; it becomes the latest. */
gboolean hs_draft_row_put (HsStore *store, const char *job_id, const char *page, const char *field, const char *text,
                           GError **error);

/* hs_draft_row_drop: forgets a field (@field %NULL: the whole page; @page %NULL too: the whole job). */
gboolean hs_draft_row_drop (HsStore *store, const char *job_id, const char *page, const char *field, GError **error);

/* hs_draft_row_drop_empty: forgets the places of a job in which nothing stands. */
gboolean hs_draft_row_drop_empty (HsStore *store, const char *job_id, GError **error);

/* hs_draft_row_settle: what was typed into a field (@field %NULL: of the whole page; @page %NULL too: of the whole job)
 * stands in the book as such, or is given up. The places stay, without text. */
gboolean hs_draft_row_settle (HsStore *store, const char *job_id, const char *page, const char *field, GError **error);

/* hs_draft_row_list_of: of a job (%NULL: of call slips), oldest first. */
gboolean hs_draft_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_draft_row_find: @ret_row: (out) (nullable): that field's. */
gboolean hs_draft_row_find (HsStore *store, const char *job_id, const char *page, const char *field,
                            HsDraftRow **ret_row, GError **error);

/**
 * hs_draft_row_latest:
 * @ret_row: (out) (nullable): where the owner was; %NULL if nothing is open
 */
gboolean hs_draft_row_latest (HsStore *store, HsDraftRow **ret_row, GError **error);

G_END_DECLS
