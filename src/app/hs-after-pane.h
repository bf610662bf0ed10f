// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/** Before and after: each reading of a job before the work beside the one after it. */
#define HS_TYPE_AFTER_PANE (hs_after_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsAfterPane, hs_after_pane, HS, AFTER_PANE, HsJobPane)

G_END_DECLS
