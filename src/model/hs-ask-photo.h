// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask.h"
#include "hs-photo-folder.h"
#include "hs-pixels.h"

G_BEGIN_DECLS

/* Photos as pages ask for them. */

/* hs_job_shot_load_photos: the photos of a job and what they may show, for hs_ask_job (). */
gboolean hs_job_shot_load_photos (HsBook *book, HsJobShot *shot, const char *job_id, GError **error);

/* hs_ask_photo_small: (s): id of a photo; answers the #HsPixels of its small picture. */
gpointer hs_ask_photo_small (HsBook *book, GVariant *args, HsInstant now, GError **error);

/**
 * hs_photo_show_async:
 * @most: how many pixels wide and high it is wanted at most
 *
 * Decodes a photo in a thread of its own, so that the book stays free for what is typed.
 */
void hs_photo_show_async (HsLedger *ledger, const char *photo_id, int most, GAsyncReadyCallback callback,
                          gpointer user_data);

/* hs_photo_show_finish: (transfer full) (nullable): the picture; %NULL with the sentence that says why not. */
HsPixels *hs_photo_show_finish (HsLedger *ledger, GAsyncResult *result, GError **error);

/**
 * hs_photo_look_async:
 * @folder: of a camera
 *
 * Looks through a camera's folder in a thread of its own, then asks the book what it knows of each photo.
 */
void hs_photo_look_async (HsLedger *ledger, GFile *folder, GAsyncReadyCallback callback, gpointer user_data);

/* hs_photo_look_finish: (transfer full) (nullable) (element-type HsPhotoFound): newest first. */
GPtrArray *hs_photo_look_finish (HsLedger *ledger, GAsyncResult *result, GError **error);

G_END_DECLS
