// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-visit-row.h"

G_BEGIN_DECLS

/* How far a camera's clock may be off from the owner's without being taken for another visit. */
#define HS_PHOTO_SLACK_SECONDS (30 * 60)

/* hs_photo_instant: when the camera says, by its own offset or else on the wall of the business; %HS_INSTANT_NONE. */
HsInstant hs_photo_instant (HsBook *book, const char *taken, const char *offset);

/* hs_photo_far: how many seconds @at lies outside of a visit, 0 within; -1: farther than a clock may be off. */
gint64 hs_photo_far (const HsVisitRow *visit, HsInstant at, HsInstant now);

G_END_DECLS
