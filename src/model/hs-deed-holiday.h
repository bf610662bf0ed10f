// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-holiday-op.h"
#include "hs-ledger.h"
#include "hs-snapshot.h"

G_BEGIN_DECLS

/* Counters' holidays. Deeds as in hs-deed.h. */

/* hs_ask_holidays: (i): the first day; answers a GPtrArray of #HsHoliday. */
gpointer hs_ask_holidays (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_counters: no arguments; answers a GPtrArray of #HsPlace, whose code is the counter's name. */
gpointer hs_ask_counters (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_add_holiday: @fields: counter, day, opens, shuts and words as hs_holiday_add() reads them, %NULL at the end.
 * Answers an #HsHolidayUndo. */
void hs_deed_add_holiday (HsLedger *ledger, const char *const *fields, GAsyncReadyCallback callback,
                          gpointer user_data);

/* hs_deed_remove_holiday: answers an #HsHolidayUndo. */
void hs_deed_remove_holiday (HsLedger *ledger, const char *id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_take_back_holiday: @undo: of an #HsHolidayUndo; the caller keeps it until it is answered. Answers nothing. */
void hs_deed_take_back_holiday (HsLedger *ledger, HsSnapshot *undo, GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
