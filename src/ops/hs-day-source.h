// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-counter-hours.h"
#include "hs-day-facts.h"

G_BEGIN_DECLS

/* hs_day_source_take: takes what @need wants off @stock, of #HsStockRow; %FALSE if it has not as much. */
gboolean hs_day_source_take (GPtrArray *stock, const HsDayNeed *need);

/**
 * hs_day_load_needs:
 * @facts: with its calls in order; its needs are filled in
 * @suppliers: (element-type HsSupplierRow): all
 * @hours: of all counters, on the day of @facts
 *
 * Adds what the calls of a day need, and where each part comes from.
 */
gboolean hs_day_load_needs (HsStore *store, HsDayFacts *facts, GPtrArray *suppliers,
                            const HsCounterHours *hours, GError **error);

G_END_DECLS
