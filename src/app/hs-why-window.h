// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-day-plan.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** Why the day is driven in this order: what it comes to, what each other way would cost, stop by stop. */
#define HS_TYPE_WHY_WINDOW (hs_why_window_get_type ())
G_DECLARE_FINAL_TYPE (HsWhyWindow, hs_why_window, HS, WHY_WINDOW, AdwWindow)

/** hs_why_window_present: over @parent; Esc and F6 shut it. (transfer none) */
HsWhyWindow *hs_why_window_present (GtkWindow *parent, HsLedger *ledger, const HsDayPlan *plan);

/** hs_why_window_is_same: whether @anew is @before, stop for stop and from leaving to coming home. */
gboolean hs_why_window_is_same (const HsDayPlan *before, const HsDayPlan *anew);

/**
 * hs_why_window_dup_change:
 * @before: the plan that stands
 * @anew: the plan that was made anew
 *
 * Returns: (transfer full): in one sentence, what the new one changes
 */
char *hs_why_window_dup_change (HsLedger *ledger, const HsDayPlan *before, const HsDayPlan *anew);

G_END_DECLS
