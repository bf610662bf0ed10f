// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-plan.h"

G_BEGIN_DECLS

/** HsDayMend: what would let a promise be kept: @id: the call's number, or "home"; @what: plain words. */
typedef struct
{
  char *id;
  char *what;
} HsDayMend;

void hs_day_mend_free (HsDayMend *mend);

/**
 * hs_day_mends:
 * @van: a van's letter, or %NULL for the first
 * @anew: of the day planned anew, as hs_day_plan_make () does; else of the plan that stands
 * @now: as in hs_day_plan_make ()
 *
 * Looks for what would mend a day on which not everything can be kept: another van that can take a call without making
 * anybody late who was not; another order; and on this van leaving out a call, moving one, starting earlier. Each by
 * itself is enough for the call that it is said of. Where a counter can't give a part, also who else lists it, or what
 * to do without. Nothing is found where nothing is broken. Reads only.
 *
 * Returns: (transfer full) (element-type HsDayMend): parts first, then other vans
 */
GPtrArray *hs_day_mends (HsBook *book, HsDate day, const char *van, gboolean anew, HsInstant now, GError **error);

G_END_DECLS
