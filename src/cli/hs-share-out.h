// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cli.h"
#include "hs-day-share.h"

G_BEGIN_DECLS

/**
 * hs_share_out:
 * @limit_seconds: how long to search
 * @accept: whether the proposal is to stand
 *
 * `plan --share`: shares the calls of a day among the vans and prints who takes what. An interrupt ends the search; the
 * best so far is then printed, but never accepted.
 */
gboolean hs_share_out (HsCli *cli, HsDate day, double limit_seconds, gboolean accept, GError **error);

/* hs_share_out_undo: `plan --unshare`: takes back what was accepted last for @day, and prints which calls go back. */
gboolean hs_share_out_undo (HsCli *cli, HsDate day, GError **error);

/* hs_share_out_promises: a list of #HsBrokenPromise as an array @name of "id", "late_minutes" and "why". */
void hs_share_out_promises (HsJsonOut *out, const char *name, GPtrArray *promises);

G_END_DECLS
