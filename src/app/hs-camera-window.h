// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-page.h"

G_BEGIN_DECLS

/**
 * The new photos of a camera or a phone, each with the job at which it was taken, by its time. Those of this job are
 * ticked; what has no job goes to this one when it is ticked.
 */
#define HS_TYPE_CAMERA_WINDOW (hs_camera_window_get_type ())
G_DECLARE_FINAL_TYPE (HsCameraWindow, hs_camera_window, HS, CAMERA_WINDOW, AdwWindow)

/**
 * hs_camera_window_present:
 * @page: the page over which it lies
 * @job_id: the job that is open
 * @number: its number
 *
 * Looks at once where a camera is plugged in, or where the last one was.
 *
 * Returns: (transfer none): the window, shown
 */
HsCameraWindow *hs_camera_window_present (HsPage *page, const char *job_id, const char *number);

/** hs_camera_window_look: looks through @folder. */
void hs_camera_window_look (HsCameraWindow *self, GFile *folder);

/** hs_camera_window_is_busy: it looks or adds. */
gboolean hs_camera_window_is_busy (HsCameraWindow *self);

G_END_DECLS
