// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-solve.h"

G_BEGIN_DECLS

/**
 * hs_day_mend_add_timed:
 * @solved: a day of which the hours matter, see hs_day_drives_tell_hours ()
 * @home_by: when the van has to be home; @id is then "home", and the mends are of that; else @id is %NULL
 * @mends: (element-type HsDayMend): gets them
 * @ret_keeps_all: (out): no mend is needed but another order
 *
 * Ways out of a day that its own van can't keep (private to this layer): what is said was driven, each drive at the
 * hour that it has then. A call less, later windows of the late call, an earlier start.
 */
gboolean hs_day_mend_add_timed (GPtrArray *mends, const HsDaySolved *solved, gint32 home_by, const char *id,
                                HsInstant now, gboolean *ret_keeps_all, GError **error);

G_END_DECLS
