// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-travel.h"

G_BEGIN_DECLS

/* A drive off the stamps of visits counts as one trip only if it took at least and at most so long. */
#define HS_OWN_TRIP_LEAST_SECONDS 60
#define HS_OWN_TRIP_MOST_SECONDS (3 * 3600)

/* A van that rolls so long after the visit before is not known to come from there. */
#define HS_OWN_TRIP_GAP_SECONDS 900

/**
 * HsOwnTrip:
 * @from: code of an area
 * @to: code of an area
 * @band: of hs_travel_band() by the clock on the wall at leaving, or %HS_TRAVEL_ANY_BAND
 * @seconds: of the drive
 * @millimiles: of the drive, or -1
 *
 * A drive that was.
 */
typedef struct
{
  char *from;
  char *to;
  int band;
  gint64 seconds;
  gint64 millimiles;
} HsOwnTrip;

HsOwnTrip *hs_own_trip_new (const char *from, const char *to, int band, gint64 seconds, gint64 millimiles);
void hs_own_trip_free (HsOwnTrip *trip);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsOwnTrip, hs_own_trip_free)

/**
 * hs_own_trip_list:
 * @ret_trips: (element-type HsOwnTrip): all drives that the book knows
 *
 * Two sorts: what was written down with from, to and time; and what the stamps of visits tell, rolling to arriving. The
 * first visit of a van on a local day starts at the base, a later one where the visit before was if it rolls within
 * %HS_OWN_TRIP_GAP_SECONDS of its end. A drive is left out where the plan that was kept has a counter in between, or
 * where it took shorter or longer than drives do. A trip written down for a job whose stamps tell the same drive lends
 * it its miles and is not counted again.
 */
gboolean hs_own_trip_list (HsBook *book, GPtrArray **ret_trips, GError **error);

G_END_DECLS
