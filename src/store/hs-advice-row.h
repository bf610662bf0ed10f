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
 * @signature: (nullable): of a no or a later, drawn on the screen; that of a yes stands in its go-ahead
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
  GBytes *signature;
} HsAdviceRow;

HS_DECLARE_ROW (HsAdviceRow, hs_advice_row)
gboolean hs_advice_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/**
 * HsAdviceLineRow:
 * @kind: as of a line of a job
 * @quantity_milli: thousandths; of labor, minutes
 * @part_id: (nullable): the part of the catalog that is meant
 *
 * One line of an option. Cost, price and tax are of the whole line; together price and tax are the option's price.
 */
typedef struct
{
  char *id;
  char *advice_id;
  char *kind;
  char *what;
  gint64 quantity_milli;
  gint64 cost_cents;
  gint64 price_cents;
  gint64 tax_cents;
  char *part_id;
} HsAdviceLineRow;

HS_DECLARE_ROW (HsAdviceLineRow, hs_advice_line_row)
gboolean hs_advice_line_row_list_of (HsStore *store, const char *advice_id, GPtrArray **ret_rows, GError **error);

/**
 * hs_advice_line_row_sum:
 * @ret_n_lines: (out): an option without lines has a price that was only said
 * @ret_cents: (out): prices and taxes of all lines
 */
gboolean hs_advice_line_row_sum (HsStore *store, const char *advice_id, guint *ret_n_lines, gint64 *ret_cents,
                                 GError **error);

/**
 * HsGoAheadRow:
 * @ceiling_cents: with tax
 * @signature: (nullable): drawn on the screen, as the app encodes it
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
  GBytes *signature;
} HsGoAheadRow;

HS_DECLARE_ROW (HsGoAheadRow, hs_go_ahead_row)

/* hs_go_ahead_row_list_of: in the order in which they were given; the last one counts. */
gboolean hs_go_ahead_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
