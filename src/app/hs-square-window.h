// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

#include <adwaita.h>

G_BEGIN_DECLS

/**
 * HsSquareWindow:
 *
 * The one question before a job is squared up, for squaring freezes: what it comes to, what is left open, and what
 * stands against it with one key to the place where it is mended. Enter squares up, Esc leaves.
 */
#define HS_TYPE_SQUARE_WINDOW (hs_square_window_get_type ())
G_DECLARE_FINAL_TYPE (HsSquareWindow, hs_square_window, HS, SQUARE_WINDOW, AdwWindow)

HsSquareWindow *hs_square_window_present (HsPage *page, const char *job_id, const char *number);

/* hs_square_window_say_place: (transfer full): words for a button that leads to a face of the job's page. */
char *hs_square_window_say_place (const char *place);

G_END_DECLS
