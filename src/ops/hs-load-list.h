// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-parts-run.h"

G_BEGIN_DECLS

/**
 * HsLoadKind: what is to be done about a thing before the van leaves.
 * @HS_LOAD_TOOL: tools and fluids for a call: see that they are on board
 * @HS_LOAD_ON_BOARD: a part that the van has: see that it is on board
 * @HS_LOAD_FROM_BASE: a core that lies at base: put it in
 * @HS_LOAD_GIVE_BACK: a part that goes back to its counter: put it in
 * @HS_LOAD_BRING: may be needed, is bought on the way, and worth it
 * @HS_LOAD_LEAVE: may be needed, would be bought on the way, and is not worth it, or can't be had on this day
 */
typedef enum
{
  HS_LOAD_TOOL,
  HS_LOAD_ON_BOARD,
  HS_LOAD_FROM_BASE,
  HS_LOAD_GIVE_BACK,
  HS_LOAD_BRING,
  HS_LOAD_LEAVE,
} HsLoadKind;

/* hs_load_kind_id: `tool`, `on_board`, `from_base`, `give_back`, `bring`, `leave`. */
const char *hs_load_kind_id (HsLoadKind kind);

/**
 * HsLoadRow:
 * @what: the part's name, or the tools
 * @number: (nullable): the part's number
 * @job_number: (nullable): for which call
 * @supplier: (nullable): for which counter, or bought where
 * @sure_percent: how likely it is needed; -1 where that is not asked
 * @line_permille: worth bringing above this many of a thousand, rounded half up; -1 where that is not weighed
 * @vain_cents: what bringing it for nothing costs; -1 where it is not weighed
 * @trip_cents: what leaving it behind costs if it is needed: a second trip; -1 where that is not asked
 * @gain_cents: what bringing it saves on average; below zero: what it costs
 * @why: in words
 */
typedef struct
{
  HsLoadKind kind;
  char *what;
  char *number;
  double quantity;
  char *job_number;
  char *supplier;
  int sure_percent;
  int line_permille;
  gint64 vain_cents;
  gint64 trip_cents;
  gint64 gain_cents;
  char *why;
} HsLoadRow;

void hs_load_row_free (HsLoadRow *row);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsLoadRow, hs_load_row_free)

/**
 * hs_load_list_make:
 * @run: a van's day
 * @ret_rows: (out) (transfer full) (element-type HsLoadRow): by kind, within a kind by call and counter
 *
 * What to see to before that van leaves. A part that is only likely is weighed as `calc bring` weighs it: how sure the
 * need is, against R ÷ (R + T). R, for nothing: what the counter keeps of the price, and `return_minutes` at
 * `minute_cents`. T, left behind: `second_trip_minutes` and `second_trip_miles` at their rates. What the van has anyway
 * costs nothing to bring. The plan stays as it is: a need that is not worth it is dropped by the owner.
 */
gboolean hs_load_list_make (HsBook *book, const HsPartsRun *run, GPtrArray **ret_rows, GError **error);

G_END_DECLS
