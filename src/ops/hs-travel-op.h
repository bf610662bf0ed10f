// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-road-op.h"
#include "hs-spot.h"
#include "hs-time.h"
#include "hs-travel.h"

G_BEGIN_DECLS

/**
 * HsKnownDrive:
 * @from: where from
 * @to: where to
 * @leg: minutes, miles and where they come from
 */
typedef struct
{
  HsSpot *from;
  HsSpot *to;
  HsTravelLeg leg;
} HsKnownDrive;

void hs_known_drive_free (HsKnownDrive *drive);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsKnownDrive, hs_known_drive_free)

/* hs_travel_rules_load: the owner's settings for the estimate. */
gboolean hs_travel_rules_load (HsBook *book, HsTravelRules *ret_rules, GError **error);

/**
 * hs_known_drive_ask:
 * @from: as hs_spot_find() reads it
 * @to: likewise
 * @at_minutes: time of day at leaving, or -1 for any
 * @source: (nullable): a map to drive on if the book does not keep the drive yet
 * @now: for the book's record
 *
 * The drive between two places from the best that is known: own trips, the table, roads, the estimate. Refuses places
 * of which nothing is known.
 */
HsKnownDrive *hs_known_drive_ask (HsBook *book, const char *from, const char *to, int at_minutes,
                                  const HsRoadSource *source, HsInstant now, GError **error);

/**
 * HsTravelAccuracy:
 * @trips: own trips that were foretold
 * @count: for each #HsTravelSource, how many of them it had something to say about
 * @off_seconds: the median of how far it was off, or -1 where it had nothing to say
 */
typedef struct
{
  guint trips;
  guint count[HS_TRAVEL_OWN + 1];
  gint64 off_seconds[HS_TRAVEL_OWN + 1];
} HsTravelAccuracy;

/**
 * hs_travel_accuracy:
 *
 * Foretells each own trip of the book, at its time of day, from everything but itself, and says how far off each source
 * was. @ret_accuracy is a few numbers and needs no freeing.
 */
gboolean hs_travel_accuracy (HsBook *book, HsTravelAccuracy *ret_accuracy, GError **error);

G_END_DECLS
