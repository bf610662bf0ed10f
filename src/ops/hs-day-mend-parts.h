// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-mend.h"
#include "hs-day-solve.h"

G_BEGIN_DECLS

/* What is to be done about a part that its counter can't give on the day (private to this layer). */

/* hs_day_mend_new: (transfer full): takes over @what. */
HsDayMend *hs_day_mend_new (const char *id, char *what);

/**
 * hs_day_mend_add_parts:
 * @mends: (element-type HsDayMend): gets them
 * @ask: how @solved was asked for
 *
 * For each call ahead with a part from a counter that can't be stopped at: the cheapest other counter that lists the
 * part and by way of which nothing else is late that is not anyway; else another day for the call, or going there
 * without a part that is only likely.
 */
gboolean hs_day_mend_add_parts (GPtrArray *mends, const HsDayAsk *ask, const HsDaySolved *solved, GError **error);

G_END_DECLS
