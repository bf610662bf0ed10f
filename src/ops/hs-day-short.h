// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store.h"

G_BEGIN_DECLS

/* What a van has less of than it should keep, and where that can be had. It never sends the van anywhere: it is only
 * named where the day stops anyway. */

/**
 * HsDayLister: a counter that lists a part.
 * @cost_cents: its latest price for one
 */
typedef struct
{
  char *supplier_id;
  char *supplier;
  gint64 cost_cents;
} HsDayLister;

/**
 * HsDayShort:
 * @stock_id: the line of the van's stock
 * @quantity_milli: thousandths that are missing
 * @left_milli: thousandths that are there; not below zero
 * @keep_milli: thousandths that should be
 * @listers: (element-type HsDayLister): the cheapest first, then by name
 */
typedef struct
{
  char *stock_id;
  char *part;
  char *number;
  gint64 quantity_milli;
  gint64 left_milli;
  gint64 keep_milli;
  gint64 core_deposit_cents;
  GPtrArray *listers;
} HsDayShort;

HsDayShort *hs_day_short_new (void);
void hs_day_short_free (HsDayShort *lack);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayShort, hs_day_short_free)

/* hs_day_short_list: adds a counter that lists the part, in its place. */
void hs_day_short_list (HsDayShort *lack, const char *supplier_id, const char *supplier, gint64 cost_cents);

/**
 * hs_day_short_load:
 * @ret_shorts: (out) (transfer full) (element-type HsDayShort): in the order of the stock
 */
gboolean hs_day_short_load (HsStore *store, const char *van_id, GPtrArray **ret_shorts, GError **error);

/**
 * hs_day_short_choose:
 * @stops_there: whether the day stops at a supplier's counter
 *
 * Returns: (transfer none) (nullable): the cheapest of the counters on the way; %NULL if none of them lists it
 */
const HsDayLister *hs_day_short_choose (const HsDayShort *lack,
                                        gboolean (*stops_there) (const char *supplier_id, gpointer user_data),
                                        gpointer user_data);

/* hs_day_short_cents: what @unit_cents comes to for all that is missing, rounded half up; -1 if that is not known. */
gint64 hs_day_short_cents (const HsDayShort *lack, gint64 unit_cents);

G_END_DECLS
