// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-choice-op.h"
#include "hs-consent.h"
#include "hs-page.h"

G_BEGIN_DECLS

/**
 * A new go-ahead: up to how much, who says so and how, signed on the screen or in another way. The sum that the job
 * comes to stands in it already. Those that were given before are shown and stay.
 */
#define HS_TYPE_GO_AHEAD_WINDOW (hs_go_ahead_window_get_type ())
G_DECLARE_FINAL_TYPE (HsGoAheadWindow, hs_go_ahead_window, HS, GO_AHEAD_WINDOW, AdwWindow)

/* Where what is typed and not written down is kept, on the page of the choices. */
#define HS_GO_AHEAD_FIELD "go-ahead"

/** hs_go_ahead_window_present: @page: the pane of the choices. Returns: (transfer none): gone once it is shut. */
HsGoAheadWindow *hs_go_ahead_window_present (HsPage *page, const char *job_id, const HsJobChoices *job);

void hs_go_ahead_window_set_ceiling (HsGoAheadWindow *self, const char *text);
HsConsent *hs_go_ahead_window_get_consent (HsGoAheadWindow *self);

G_END_DECLS
