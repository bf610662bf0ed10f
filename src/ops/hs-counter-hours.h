// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-hours.h"
#include "hs-store.h"

G_BEGIN_DECLS

/* When counters are open on one day: by the hours of the week, unless the book says something else of that very day. */

/**
 * HsCounterHours:
 * @day: the day asked about
 * @weekly: (element-type HsHoursRow): of all counters
 * @apart: (element-type HsCounterDayRow): what is said of @day
 */
typedef struct
{
  HsDate day;
  GPtrArray *weekly;
  GPtrArray *apart;
} HsCounterHours;

HsCounterHours *hs_counter_hours_load (HsStore *store, HsDate day, GError **error);
void hs_counter_hours_free (HsCounterHours *hours);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCounterHours, hs_counter_hours_free)

/* hs_counter_hours_is_open: whether the counter opens at all on the day; one whose hours nobody knows does. */
gboolean hs_counter_hours_is_open (const HsCounterHours *hours, const char *supplier_id);

/**
 * hs_counter_hours_fill:
 * @spans: (element-type HsOpenSpan): gets the spans of all weekdays, on the day's own those that hold on the day
 * @ret_shut: (out): the book says of this very day that the counter is shut
 * @ret_words: (out) (transfer full) (nullable): what the book says of this day apart; %NULL too where it gives no words
 *
 * Returns: whether the book says something of this very day
 */
gboolean hs_counter_hours_fill (const HsCounterHours *hours, const char *supplier_id, GArray *spans,
                                gboolean *ret_shut, char **ret_words);

/**
 * hs_counter_hours_find_next:
 * @after: a day that does not count any more
 * @ret_day: (out): the first day on which the counter opens, within two months; %HS_DATE_NONE if there is none or if
 *   nobody knows its hours
 * @ret_minutes: (out): when it opens there, as minutes of the day
 */
gboolean hs_counter_hours_find_next (HsStore *store, const char *supplier_id, HsDate after, HsDate *ret_day,
                                     int *ret_minutes, GError **error);

G_END_DECLS
