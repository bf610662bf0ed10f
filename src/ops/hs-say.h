// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/* Days and spans as the owner says them, for sentences that operations return. */

/* hs_say_day_full: (transfer full): "October 5, 2023". */
char *hs_say_day_full (HsDate day);

/* hs_say_month: (transfer full): "October 2023". */
char *hs_say_month (HsDate day);

/* hs_say_day_short: (transfer full): "Oct 5", with the year behind it unless @day lies within 180 days of @today. */
char *hs_say_day_short (HsDate day, HsDate today);

/* hs_say_months: (transfer full): "29 months", "1 month", "less than a month". */
char *hs_say_months (int months);

/**
 * hs_say_days_left:
 * @last_day: the last day on which it still can be done
 * @today: the day asked about
 *
 * Returns: (transfer full): "last day today", "last day tomorrow", up to a week "2 days left, Mar 12", further off
 *   "due Mar 29", too late "overdue since Mar 1"
 */
char *hs_say_days_left (HsDate last_day, HsDate today);

/**
 * hs_say_ended:
 * @ended_on: a day before @today
 *
 * Returns: (transfer full): how one speaks of an end: "yesterday", within a month "17 days ago, on February 21",
 *   within eleven months "last October", else "in October 2023"
 */
char *hs_say_ended (HsDate ended_on, HsDate today);

/* hs_say_part: (transfer full): the first words of a part's name, up to a comma or a parenthesis: "starter". */
char *hs_say_part (const char *name);

G_END_DECLS
