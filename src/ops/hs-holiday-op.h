// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsHoliday: a day on which a counter does not keep the hours of its week.
 * @counter: (nullable): its name; %NULL: all counters but those of which something else is said
 * @opens_minutes, @shuts_minutes: of the day; both %HS_INT_NONE: shut all day
 * @words: (nullable): why
 */
typedef struct
{
  char *id;
  char *counter;
  HsDate day;
  gint64 opens_minutes;
  gint64 shuts_minutes;
  char *words;
} HsHoliday;

void hs_holiday_free (HsHoliday *holiday);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsHoliday, hs_holiday_free)

/** HsHolidayUndo: what the book said of a day before it was changed, and after. */
typedef struct _HsHolidayUndo HsHolidayUndo;

void hs_holiday_undo_free (HsHolidayUndo *undo);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsHolidayUndo, hs_holiday_undo_free)

/**
 * hs_holidays_list:
 * @from: the first day that counts
 *
 * Returns: (transfer full) (element-type HsHoliday): day by day, first what is said of all counters
 */
GPtrArray *hs_holidays_list (HsBook *book, HsDate from, GError **error);

/* hs_holiday_counters: (transfer full) (element-type utf8): the names of the counters, in the order they were added. */
GPtrArray *hs_holiday_counters (HsBook *book, GError **error);

/**
 * hs_holiday_add:
 * @counter: its name; "": all counters
 * @day: YYYY-MM-DD
 * @opens, @shuts: HH:MM; both "": shut all day
 * @words: why; may be ""
 *
 * As a row of an imported file of holidays, and with its refusals: that it is shut takes the place of other hours of
 * that day, and the other way round.
 *
 * Returns: (transfer full): for taking it back
 */
HsHolidayUndo *hs_holiday_add (HsBook *book, const char *counter, const char *day, const char *opens,
                               const char *shuts, const char *words, HsInstant now, GError **error);

/* hs_holiday_remove: (transfer full): likewise; refuses an id that is not in the book. */
HsHolidayUndo *hs_holiday_remove (HsBook *book, const char *id, HsInstant now, GError **error);

/* hs_holiday_take_back: puts back what the book said of that day; refuses if it says something else by now. */
gboolean hs_holiday_take_back (HsBook *book, const HsHolidayUndo *undo, HsInstant now, GError **error);

G_END_DECLS
