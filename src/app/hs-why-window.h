// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-day-plan.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** hs_why_window_present: why the day is driven in this order, in words, over @parent; Esc shuts it. */
void hs_why_window_present (GtkWindow *parent, HsLedger *ledger, const HsDayPlan *plan);

/** hs_why_window_dup_text: (transfer full): the same words as one text, for tests and for the clipboard. */
char *hs_why_window_dup_text (HsLedger *ledger, const HsDayPlan *plan);

/** hs_why_window_dup_others: (transfer full): what each other way would cost, in words; @others is of #HsDayOther. */
char *hs_why_window_dup_others (HsLedger *ledger, GPtrArray *others);

/**
 * hs_why_window_dup_change:
 * @before: the plan that stands
 * @anew: the plan that was made anew
 *
 * Returns: (transfer full): in one sentence, what the new one changes
 */
char *hs_why_window_dup_change (HsLedger *ledger, const HsDayPlan *before, const HsDayPlan *anew);

G_END_DECLS
