// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-spot.h"
#include "hs-travel.h"

G_BEGIN_DECLS

/**
 * HsRoadSource:
 * @profile: what drives
 * @stamp: tells the map from any other
 * @drive: finds the quickest way between two positions in degrees; see hs_roads_drive()
 * @data: for @drive
 *
 * A map that the program hands in; the operations know none of their own.
 */
typedef struct
{
  const char *profile;
  const char *stamp;
  gboolean (*drive) (gpointer data, double from_latitude, double from_longitude, double to_latitude,
                     double to_longitude, gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles,
                     GError **error);
  gpointer data;
} HsRoadSource;

/**
 * HsRoadBook: drives over roads that a book has kept, of the map that it was last driven on.
 */
typedef struct _HsRoadBook HsRoadBook;

/* hs_road_book_load: reads them all; an empty one if there never was a map. */
HsRoadBook *hs_road_book_load (HsBook *book, GError **error);
void hs_road_book_free (HsRoadBook *roads);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsRoadBook, hs_road_book_free)

/* hs_road_book_is_empty: no drive is kept. */
gboolean hs_road_book_is_empty (const HsRoadBook *roads);

/**
 * hs_road_book_find:
 * @ret_pair: (out): the drive, as a pair of @ret_pair's places 0 and 1
 *
 * Returns: whether a drive between these positions is kept, and a road leads there
 */
gboolean hs_road_book_find (const HsRoadBook *roads, double from_latitude, double from_longitude, double to_latitude,
                            double to_longitude, HsTravelPair *ret_pair);

/**
 * hs_road_drive:
 * @source: the map
 * @from, @to: places with positions
 * @now: for the book's record
 *
 * Makes sure that the book keeps the drive from @from to @to on this map; it is driven only if the book does not have
 * it. A book that is read only is left as it is.
 */
gboolean hs_road_drive (HsBook *book, const HsRoadSource *source, const HsSpot *from, const HsSpot *to, HsInstant now,
                        GError **error);

/**
 * hs_road_fill:
 * @ret_driven: (out): how many drives were driven anew
 *
 * Drives between all areas that have a position, each way, and keeps what it took. From then on @source is the map of
 * the book: drives of other maps are no longer heard. Takes long for many areas; call it from a worker.
 */
gboolean hs_road_fill (HsBook *book, const HsRoadSource *source, HsInstant now, guint *ret_driven, GError **error);

G_END_DECLS
