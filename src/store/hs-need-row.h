// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsNeedRow:
 * @quantity_milli: thousandths
 * @sure_percent: how likely it is needed
 * @supplier_id: (nullable): where to get it; %NULL: wherever it is cheapest
 * @quoted_cents: for one, or %HS_INT_NONE
 * @state: `wanted`, `asked_for`, `laid_aside`, `in_the_van`, `installed`, `going_back`, `dropped`
 * @advice_line_id: (nullable): the line of a picked option that it came of
 */
typedef struct
{
  char *id;
  char *job_id;
  char *part_id;
  gint64 quantity_milli;
  gint64 sure_percent;
  char *supplier_id;
  gint64 quoted_cents;
  char *state;
  HsDate need_by;
  char *counter_note;
  char *advice_line_id;
} HsNeedRow;

HS_DECLARE_ROW (HsNeedRow, hs_need_row)
gboolean hs_need_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_need_row_list_day: of all jobs of a day that are not called off, passed on or squared. */
gboolean hs_need_row_list_day (HsStore *store, HsDate day, GPtrArray **ret_rows, GError **error);

G_END_DECLS
