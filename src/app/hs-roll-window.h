// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask-way.h"
#include "hs-page.h"

G_BEGIN_DECLS

#define HS_TYPE_ROLL_WINDOW (hs_roll_window_get_type ())
G_DECLARE_FINAL_TYPE (HsRollWindow, hs_roll_window, HS, ROLL_WINDOW, AdwWindow)

/**
 * hs_roll_window_present:
 * @page: where F4 was pressed
 * @number: the job's, for its title
 * @from: the stage that the job is in
 * @to: rolling, or on site
 * @reason: (nullable): why it goes there
 * @outlook: (transfer full): what rolling would bring; not clear
 *
 * Says it before the van rolls, or before the owner begins at the vehicle; a digit goes all the same, Esc stays.
 */
HsRollWindow *hs_roll_window_present (HsPage *page, const char *job_id, const char *number, HsStage from,
                                      HsStage to, const char *reason, HsRollOutlook *outlook);

G_END_DECLS
