// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

G_BEGIN_DECLS

/** A call that comes to nothing: how, by one digit, with its fee and the reason. */
#define HS_TYPE_CALL_OFF_WINDOW (hs_call_off_window_get_type ())
G_DECLARE_FINAL_TYPE (HsCallOffWindow, hs_call_off_window, HS, CALL_OFF_WINDOW, AdwWindow)

/**
 * hs_call_off_window_present:
 * @page: the page over which it lies
 * @number: of the job
 * @reason: (nullable): what was typed as the reason already
 *
 * Returns: (transfer none): the window, shown
 */
HsCallOffWindow *hs_call_off_window_present (HsPage *page, const char *job_id, const char *number,
                                             const char *reason);

G_END_DECLS
