// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"
#include "hs-photo-op.h"

G_BEGIN_DECLS

/**
 * The photos of a job, each with its phase and what it shows in words. Arrows choose, Enter opens. Signals:
 * `chosen` (another photo is chosen), `opened` (Enter, a double click).
 */
#define HS_TYPE_PHOTO_STRIP (hs_photo_strip_get_type ())
G_DECLARE_FINAL_TYPE (HsPhotoStrip, hs_photo_strip, HS, PHOTO_STRIP, AdwBin)

GtkWidget *hs_photo_strip_new (void);

/** hs_photo_strip_set: @cards: (element-type HsPhotoCard): copied as far as they are shown; the chosen one stays so. */
void hs_photo_strip_set (HsPhotoStrip *self, HsLedger *ledger, GPtrArray *cards);

/** hs_photo_strip_get_chosen: (transfer none) (nullable): the id of the chosen photo. */
const char *hs_photo_strip_get_chosen (HsPhotoStrip *self);

/** hs_photo_strip_choose: @photo_id: also puts the keyboard there if @focus. */
void hs_photo_strip_choose (HsPhotoStrip *self, const char *photo_id, gboolean focus);

/** hs_photo_say: (transfer full): a photo in one sentence, as a screen reader speaks it. */
char *hs_photo_say (HsLedger *ledger, const HsPhotoCard *card);

G_END_DECLS
