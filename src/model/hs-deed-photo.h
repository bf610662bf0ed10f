// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"

G_BEGIN_DECLS

/* What is done with photos. Deeds as in hs-deed.h; each is a step of its job. */

/* hs_deed_bind_photo: @finding_id: (nullable): what it shows: answers nothing. */
void hs_deed_bind_photo (HsLedger *ledger, const char *photo_id, const char *finding_id, GAsyncReadyCallback callback,
                         gpointer user_data);

/* hs_deed_set_photo_phase: answers nothing. */
void hs_deed_set_photo_phase (HsLedger *ledger, const char *photo_id, const char *phase, GAsyncReadyCallback callback,
                              gpointer user_data);

/* hs_deed_remove_photo: answers nothing. */
void hs_deed_remove_photo (HsLedger *ledger, const char *photo_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_write_photo: the picture of a photo into the new file @uri: answers nothing. */
void hs_deed_write_photo (HsLedger *ledger, const char *photo_id, const char *uri, GAsyncReadyCallback callback,
                          gpointer user_data);

/**
 * HsPhotoOrder:
 * @uri: of the file
 * @job_id: where it goes
 */
typedef struct
{
  char *uri;
  char *job_id;
} HsPhotoOrder;

HsPhotoOrder *hs_photo_order_new (const char *uri, const char *job_id);
void hs_photo_order_free (HsPhotoOrder *order);

/**
 * HsPhotoReport:
 * @n_added: new photos
 * @n_mended: photos whose missing picture is there again
 * @n_bared: of both, those whose place was left out
 * @refused: (element-type utf8): a sentence for each that was not added
 */
typedef struct
{
  guint n_added;
  guint n_mended;
  guint n_bared;
  GPtrArray *refused;
} HsPhotoReport;

void hs_photo_report_free (HsPhotoReport *report);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPhotoReport, hs_photo_report_free)

/**
 * hs_photos_add_async:
 * @orders: (transfer full) (element-type HsPhotoOrder): with hs_photo_order_free()
 * @keep_place: keep the files as they are
 *
 * Adds one after the other. Each is read and made small in a thread of its own, so that the book is free meanwhile;
 * one that is refused does not keep the others out.
 */
void hs_photos_add_async (HsLedger *ledger, GPtrArray *orders, gboolean keep_place, GAsyncReadyCallback callback,
                          gpointer user_data);

/* hs_photos_add_finish: (transfer full): never %NULL. */
HsPhotoReport *hs_photos_add_finish (HsLedger *ledger, GAsyncResult *result);

G_END_DECLS
