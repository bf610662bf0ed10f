// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-job-row.h"

G_BEGIN_DECLS

/**
 * hs_reach_log:
 * @job: saved, with its customer
 * @ret_note: (out) (optional) (transfer full): what was logged; %NULL if the window lies within the customer's
 *   reachable hours, or if one of the two is not known
 *
 * A person may promise a window at which the customer sleeps or works; nothing refuses it, but the change log says so.
 * The hours are those of the wall clock on the window's day. Call it inside the transaction that set the window.
 */
gboolean hs_reach_log (HsBook *book, const HsJobRow *job, char **ret_note, GError **error);

/**
 * hs_reach_instant:
 * @minutes: of @day, 0 to 1440
 *
 * The moment of a clock time that is promised. Refuses a time that is skipped when clocks go forward: nobody will ever
 * read it off a clock.
 */
gboolean hs_reach_instant (GTimeZone *zone, HsDate day, int minutes, HsInstant *ret_instant, GError **error);

G_END_DECLS
