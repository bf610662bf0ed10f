// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/** The safety list that comes with arriving: Enter answers line after line, then says that it is safe here; 0 says that
 * a line is not so, + at the end that the vehicle was moved, / that the work is refused and why. */
#define HS_TYPE_SAFETY_WINDOW (hs_safety_window_get_type ())
G_DECLARE_FINAL_TYPE (HsSafetyWindow, hs_safety_window, HS, SAFETY_WINDOW, AdwWindow)

/* What it is called as a place of a job, as hs_job_block_place() says it. */
#define HS_SAFETY_PAGE "safety"

/**
 * hs_safety_window_present:
 * @page: the page over which it lies
 * @number: of the job
 *
 * One that is open for @page already comes forward.
 *
 * Returns: (transfer none): the window, shown
 */
HsSafetyWindow *hs_safety_window_present (HsPage *page, const char *job_id, const char *number);

/**
 * hs_safety_window_bar:
 * @from: where the job stands
 * @reason: (nullable): with which it was to be tested good
 *
 * Nobody began the list of a job that was to be tested good: it says so, and F8 goes on without it.
 */
void hs_safety_window_bar (HsSafetyWindow *self, HsStage from, const char *reason);

G_END_DECLS
