// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsVanRow:
 * @letter: one letter, A to Z
 * @next_number: of its next job
 */
typedef struct
{
  char *id;
  char *letter;
  char *plate;
  gint64 next_number;
} HsVanRow;

HS_DECLARE_ROW (HsVanRow, hs_van_row)
gboolean hs_van_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/* hs_van_row_find: by letter; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_van_row_find (HsStore *store, const char *letter, HsVanRow **ret_row, GError **error);

/* hs_van_row_take_number: the van's next job number, `A-0021`, used up with this call. Needs a transaction. */
gboolean hs_van_row_take_number (HsStore *store, const char *van_id, char **ret_number, GError **error);

/**
 * HsWorkerRow:
 * @wage_cents: an hour
 */
typedef struct
{
  char *id;
  char *name;
  gint64 wage_cents;
} HsWorkerRow;

HS_DECLARE_ROW (HsWorkerRow, hs_worker_row)
gboolean hs_worker_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

G_END_DECLS
