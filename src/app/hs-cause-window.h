// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-next.h"
#include "hs-page.h"

G_BEGIN_DECLS

/**
 * HsCauseWindow:
 *
 * One cause that still stands: what speaks for it and against it, who says how often it is that, and what its repair
 * takes. One key says that it is this one, another that it is not; the proof is what was seen, or the reading that
 * speaks most.
 */
#define HS_TYPE_CAUSE_WINDOW (hs_cause_window_get_type ())
G_DECLARE_FINAL_TYPE (HsCauseWindow, hs_cause_window, HS, CAUSE_WINDOW, AdwWindow)

/** hs_cause_window_present: over @page; @next, @cause: copied from. Returns: (transfer none) */
HsCauseWindow *hs_cause_window_present (HsPage *page, const char *job_id, const HsJobNext *next,
                                        const HsNextCause *cause);

/* hs_cause_window_fill: what was seen; for tests. */
void hs_cause_window_fill (HsCauseWindow *self, const char *seen);

G_END_DECLS
