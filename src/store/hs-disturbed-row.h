// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsDisturbedRow:
 * @what: "belt cover off"; said once a job
 * @check_id: (nullable): the check that shows whether it is right again
 * @done_at: when it was looked after, or %HS_INSTANT_NONE
 * @done_words: (nullable): what was found
 *
 * What the repair disturbed: one line of the list that is gone through before leaving.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *what;
  char *check_id;
  HsInstant done_at;
  char *done_words;
} HsDisturbedRow;

HS_DECLARE_ROW (HsDisturbedRow, hs_disturbed_row)
gboolean hs_disturbed_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
