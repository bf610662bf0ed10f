// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-ledger.h"
#include "hs-pixels.h"

G_BEGIN_DECLS

/**
 * The small picture of a photo in a frame. It asks for it when it comes to the screen. A photo whose picture is not in
 * the book is a crossed frame with the word in it.
 */
#define HS_TYPE_PHOTO_FRAME (hs_photo_frame_get_type ())
G_DECLARE_FINAL_TYPE (HsPhotoFrame, hs_photo_frame, HS, PHOTO_FRAME, GtkWidget)

GtkWidget *hs_photo_frame_new (void);

/** hs_photo_frame_show: @missing: its picture is known not to be there. */
void hs_photo_frame_show (HsPhotoFrame *self, HsLedger *ledger, const char *photo_id, gboolean missing);

/** hs_photo_frame_is_missing: what it shows is the crossed frame. */
gboolean hs_photo_frame_is_missing (HsPhotoFrame *self);

/** hs_photo_frame_has_picture: the small picture has come. */
gboolean hs_photo_frame_has_picture (HsPhotoFrame *self);

/** hs_photo_texture_new: (transfer full): pixels for the screen. */
GdkTexture *hs_photo_texture_new (const HsPixels *pixels);

G_END_DECLS
