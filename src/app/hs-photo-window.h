// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-page.h"
#include "hs-photo-op.h"

G_BEGIN_DECLS

/** One photo as large as the screen lets it. Arrows turn to the next, `/` saves a copy, Esc goes back. */
#define HS_TYPE_PHOTO_WINDOW (hs_photo_window_get_type ())
G_DECLARE_FINAL_TYPE (HsPhotoWindow, hs_photo_window, HS, PHOTO_WINDOW, AdwWindow)

/**
 * hs_photo_window_present:
 * @page: the page over which it lies
 * @snapshot: what owns @cards
 * @cards: (element-type HsPhotoCard): the photos to turn through
 * @photo_id: the one to begin with
 *
 * Returns: (transfer none): the window, shown
 */
HsPhotoWindow *hs_photo_window_present (HsPage *page, HsSnapshot *snapshot, GPtrArray *cards, const char *photo_id);

/** hs_photo_window_has_picture: the picture of the photo has come. */
gboolean hs_photo_window_has_picture (HsPhotoWindow *self);

/** hs_photo_window_save: writes the shown photo into the new file @to and says what came of it. */
void hs_photo_window_save (HsPhotoWindow *self, GFile *to);

G_END_DECLS
