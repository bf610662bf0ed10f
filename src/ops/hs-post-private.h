// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-post-op.h"

G_BEGIN_DECLS

/* The steps of sending; private to posting. */

/**
 * hs_post_take:
 * @ret_parcel: (out) (nullable): %NULL if nothing is to be sent now
 * @ret_refused: (out): how it ended before it began: no address, or no body; only if the parcel has no URL or no body
 *
 * Takes the next message that is due and writes down that it is tried. Its body is made and kept if it has none.
 */
gboolean hs_post_take (HsBook *book, HsInstant now, HsPostParcel **ret_parcel, HsPostReply *ret_refused,
                       GError **error);

/**
 * hs_post_settle:
 * @parcel: what was sent
 * @faults: how many in a row were in vain just before
 * @ret_do: (out): what was decided
 *
 * Writes down how it ended. What was replaced meanwhile is left alone; that it was taken is kept all the same.
 */
gboolean hs_post_settle (HsBook *book, const HsPostParcel *parcel, const HsPostReply *reply, guint faults,
                         HsInstant now, double draw, HsPostNext *ret_next, GError **error);

/* hs_post_follow_clock: where the clock was ahead when it was last tried, nothing is waited for. */
gboolean hs_post_follow_clock (HsBook *book, HsInstant now, GError **error);

/* hs_post_resume: what paused or held the queue is over; inside a transaction. */
gboolean hs_post_resume (HsBook *book, GError **error);

G_END_DECLS
