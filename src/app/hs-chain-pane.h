// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/** Why it failed: what led to what on a job, and the proof of each. */
#define HS_TYPE_CHAIN_PANE (hs_chain_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsChainPane, hs_chain_pane, HS, CHAIN_PANE, HsJobPane)

G_END_DECLS
