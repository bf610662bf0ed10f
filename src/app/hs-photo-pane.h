// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-deed-photo.h"
#include "hs-job-pane.h"

G_BEGIN_DECLS

/**
 * The photos of a job. `/` adds files, `*` looks through a camera, `+` is the next phase, a digit says what a photo
 * shows, `0` that it shows nothing in particular, Enter looks at it, `−` takes it away.
 */
#define HS_TYPE_PHOTO_PANE (hs_photo_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsPhotoPane, hs_photo_pane, HS, PHOTO_PANE, HsJobPane)

/** hs_photo_pane_add: adds @files, a list of #GFile, as if they had been chosen. */
void hs_photo_pane_add (HsPhotoPane *self, GListModel *files);

/** hs_photo_pane_focus: puts the keyboard onto the chosen photo, or onto the button that adds the first. */
void hs_photo_pane_focus (HsPhotoPane *self);

/** hs_photo_pane_tell: what came of adding, in words; the camera's window uses it too. */
void hs_photo_pane_tell (HsPage *page, const HsPhotoReport *report);

G_END_DECLS
