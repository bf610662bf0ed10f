// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-draft.h"
#include "hs-usual.h"
#include "hs-window.h"

G_BEGIN_DECLS

/**
 * HsUsualWindow:
 *
 * A usual job by digits, one question after the other: what, whether the customer says yes to its price, why, whether
 * it works now, how it is paid. Left in between, it goes on there by "Where was I". Signal `done` (HsJobView or NULL)
 * once the customer has said yes and it is left, or once it is squared up.
 */
#define HS_TYPE_USUAL_WINDOW (hs_usual_window_get_type ())
G_DECLARE_FINAL_TYPE (HsUsualWindow, hs_usual_window, HS, USUAL_WINDOW, AdwWindow)

/* What a place of it is called in drafts. */
#define HS_USUAL_PAGE "usual"

/**
 * HsUsualJobFunc:
 *
 * Makes a job of what stands behind the window once it is known which usual one it is.
 *
 * Returns: (transfer none) (nullable): its id; %NULL: it lacks something, and that was said where it lacks
 */
typedef const char *(*HsUsualJobFunc) (const HsUsual *usual, gpointer data);

/**
 * hs_usual_window_present:
 * @over: what it lies over
 * @home: the window that tells what was done
 * @draft: (nullable): keeps the place
 * @job_id: (nullable): the job; %NULL: @get_job makes it
 * @get_job: (nullable): with @data, as long as @over lives
 */
HsUsualWindow *hs_usual_window_present (GtkWindow *over, HsWindow *home, HsLedger *ledger, HsDraft *draft,
                                        const char *job_id, HsUsualJobFunc get_job, gpointer data);

/** hs_usual_window_go: @text: what "Where was I" kept of it. */
void hs_usual_window_go (HsUsualWindow *self, const char *text);

/** hs_usual_window_field_title: (transfer none): a step of it in words, for "Where was I". */
const char *hs_usual_window_field_title (const char *field);

G_END_DECLS
