// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-plan.h"

G_BEGIN_DECLS

/**
 * HsRunRow:
 * @id: the row's id in the book (need, core, return or stock line), for ticks
 * @part: the part's name
 * @number: its number
 * @quantity: how many
 * @cents: the row's sum; -1 when no price is known
 * @deposit_cents: core deposits that come on top (pick up only)
 * @job_number: whom it is for or whence it came; may be %NULL
 * @sure_percent: of a need; -1 for any other row
 * @where_now: of a core: `in_the_van`, `at_base`, …
 * @last_day: of a return or a core; %HS_DATE_NONE if open
 * @note: "laid aside, 38 % sure", "take from base", "2 days left, Mar 12"; may be %NULL
 * @list: which list it belongs to, also where it stands elsewhere: `pick_up`, `drop_off`, `maybe`, `return`, `restock`
 * @supplier: the counter's name; %NULL where there is none
 * @van: letter of the van that a need is bought for or lies in; %NULL for any other row and where there is only one van
 * @ticked: done
 */
typedef struct
{
  char *id;
  char *part;
  char *number;
  double quantity;
  gint64 cents;
  gint64 deposit_cents;
  char *job_number;
  int sure_percent;
  char *where_now;
  HsDate last_day;
  char *note;
  char *list;
  char *supplier;
  char *van;
  gboolean ticked;
} HsRunRow;

/**
 * HsRunCounter: one counter of the run, in the plan's order; those that cannot be stopped at come last.
 * @stop_number: place in the plan from 1, 0 if it cannot be stopped at
 * @arrive: %HS_INSTANT_NONE if it cannot be stopped at
 * @why_not: (nullable): why it cannot be stopped at, and when it opens again
 * @pick_up: job needs only
 * @drop_off: cores in hand at leaving
 * @maybe: cores that may come off a vehicle on the way before this counter; outside the sums
 * @give_back: parts to return
 * @restock: what the van is short of and this counter lists; outside the sums
 * @pick_up_cents, @deposit_cents: of @pick_up, also where it cannot be stopped at: then nothing can be paid there
 * All arrays hold HsRunRow.
 */
typedef struct
{
  char *supplier;
  char *supplier_id;
  char *area;
  guint stop_number;
  HsInstant arrive;
  char *why_not;
  gint64 stop_seconds;
  GPtrArray *pick_up;
  GPtrArray *drop_off;
  GPtrArray *maybe;
  GPtrArray *give_back;
  GPtrArray *restock;
  gint64 pick_up_cents;
  gint64 deposit_cents;
  gint64 drop_off_cents;
  gint64 give_back_cents;
} HsRunCounter;

/**
 * HsPartsRun:
 * @counters: (element-type HsRunCounter)
 * @from_van: (element-type HsRunRow): needs that the van already carries
 * @nowhere: (element-type HsRunRow): needs that no counter lists and no van carries
 * @elsewhere: (element-type HsRunRow): cores, returns and shortages at counters that are not on the way today
 * @load_list: (element-type HsLoadRow): what to see to before leaving; see hs_load_list_make ()
 * @parts_cents, @deposits_cents: to pay over all counters that can be stopped at
 * @coming_back_cents: cores in hand and returns over the same
 */
typedef struct
{
  HsDayPlan *plan;
  GPtrArray *counters;
  GPtrArray *from_van;
  GPtrArray *nowhere;
  GPtrArray *elsewhere;
  GPtrArray *load_list;
  gint64 parts_cents;
  gint64 deposits_cents;
  gint64 coming_back_cents;
} HsPartsRun;

void hs_parts_run_free (HsPartsRun *run);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPartsRun, hs_parts_run_free)

/** hs_parts_run_make: the run of a day, on the plan that stands; @now: as in hs_day_plan_standing (). */
HsPartsRun *hs_parts_run_make (HsBook *book, HsDate day, const char *van, HsInstant now, GError **error);

/**
 * hs_parts_run_tick:
 * @list: `pick_up`, `drop_off`, `maybe`, `return`, `restock`
 * @row_id: of an HsRunRow
 *
 * Marks a row done or open again; kept for the day.
 */
gboolean hs_parts_run_tick (HsBook *book, HsDate day, const char *list, const char *row_id, gboolean done,
                            HsInstant now, GError **error);

G_END_DECLS
