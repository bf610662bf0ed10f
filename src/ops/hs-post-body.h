// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/* The message about one job to the owner's own endpoint; data/post/job.schema.json says what stands in it. */

#define HS_POST_BODY_VERSION 1

/* Photos go along as long as all of them together are no longer than this; then only what they are is said. */
#define HS_POST_BODY_PHOTO_BYTES (16 * 1024 * 1024)

/* What is held back unless the owner switched it on. */
typedef enum
{
  HS_POST_SHOW_NOTHING = 0,
  HS_POST_SHOW_PHONE = 1 << 0,
  HS_POST_SHOW_STREET = 1 << 1,
  HS_POST_SHOW_SIGNATURE = 1 << 2,
  HS_POST_SHOW_PHOTOS = 1 << 3,
  HS_POST_SHOW_COSTS = 1 << 4,
} HsPostShow;

/**
 * hs_post_body_make:
 * @revision: of the message; a receiver keeps the highest of a job
 * @show: what is not held back
 *
 * Reads the job as it stands. Notes of the owner's own, the text of invoices, positions and what a part was bought
 * under are never in it; phone and e-mail, street and gate code, signatures, photos, and what things cost her, only
 * by @show.
 *
 * Returns: (transfer full): JSON in UTF-8 without a line break, or %NULL
 */
char *hs_post_body_make (HsBook *book, const char *job_id, gint64 revision, HsPostShow show, GError **error);

G_END_DECLS
