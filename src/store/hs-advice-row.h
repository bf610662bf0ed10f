// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsAdviceRow:
 * @option_group: (nullable): options of one group stand beside each other
 * @rank: place in its group, or %HS_INT_NONE
 * @price_cents: with tax
 * @choice: `open`, `yes`, `no`, `later`
 * @means: (nullable): `signed_on_screen`, `in_person`, `text`, `phone`, `email`
 * @chase_on: when to call about it, or %HS_DATE_NONE
 */
typedef struct
{
  char *id;
  char *job_id;
  char *finding_id;
  char *option_group;
  gint64 rank;
  char *wording;
  gint64 price_cents;
  char *choice;
  char *risk_told;
  char *decided_by;
  HsInstant decided_at;
  char *means;
  HsDate chase_on;
} HsAdviceRow;

HS_DECLARE_ROW (HsAdviceRow, hs_advice_row)
gboolean hs_advice_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/**
 * HsGoAheadRow:
 * @ceiling_cents: with tax
 *
 * A yes with its ceiling. It is added, never changed or removed; the latest one counts.
 */
typedef struct
{
  char *id;
  char *job_id;
  gint64 ceiling_cents;
  char *by_whom;
  HsInstant at;
  char *means;
} HsGoAheadRow;

HS_DECLARE_ROW (HsGoAheadRow, hs_go_ahead_row)

/* hs_go_ahead_row_list_of: in the order in which they were given; the last one counts. */
gboolean hs_go_ahead_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
