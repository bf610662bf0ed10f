// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-page.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/** Where a job may go from here, each stage by one digit, and a line for the reason that some of them ask for. */
#define HS_TYPE_STAGE_WINDOW (hs_stage_window_get_type ())
G_DECLARE_FINAL_TYPE (HsStageWindow, hs_stage_window, HS, STAGE_WINDOW, AdwWindow)

/**
 * hs_stage_window_present:
 * @page: the page over which it lies
 * @job_id: the job
 * @number: its number
 * @from: where it stands
 * @wanted: where it was to go; @from for nowhere yet
 * @refusal: (nullable): why it did not go there
 *
 * Returns: (transfer none): the window, shown
 */
HsStageWindow *hs_stage_window_present (HsPage *page, const char *job_id, const char *number, HsStage from,
                                        HsStage wanted, const char *refusal);

/** hs_stage_window_move: tries to move the job; a refusal is told in the window, success shuts it. */
void hs_stage_window_move (HsStageWindow *self, HsStage to);

/** hs_stage_window_set_reason: as if it had been typed. */
void hs_stage_window_set_reason (HsStageWindow *self, const char *reason);

G_END_DECLS
