// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/**
 * The repair and its proof: what is still to do before a job is tested good, parts that were installed, what was
 * disturbed and is looked after, and each reading before the work beside the one after it.
 */
#define HS_TYPE_AFTER_PANE (hs_after_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsAfterPane, hs_after_pane, HS, AFTER_PANE, HsJobPane)

G_END_DECLS
