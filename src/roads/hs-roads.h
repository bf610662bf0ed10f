// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Drives over the roads of an OpenStreetMap extract that the owner puts on disk. Optional: a program that was built
 * without it says so through hs_roads_are_built_in(), and everything here fails with %HS_ROADS_ERROR_NOT_BUILT_IN. */

/**
 * HsRoadsError:
 * @HS_ROADS_ERROR_NOT_BUILT_IN: this program was built without roads
 * @HS_ROADS_ERROR_NO_MAP: there is no map in the folder, or it cannot be read
 * @HS_ROADS_ERROR_FAILED: anything else
 */
typedef enum
{
  HS_ROADS_ERROR_NOT_BUILT_IN,
  HS_ROADS_ERROR_NO_MAP,
  HS_ROADS_ERROR_FAILED,
} HsRoadsError;

#define HS_ROADS_ERROR (hs_roads_error_quark ())
GQuark hs_roads_error_quark (void);

/* What drives, by the name that the router has for it. */
#define HS_ROADS_PROFILE "motorcar"

/**
 * HsRoads: an open map. One at a time in a program, used from one thread.
 */
typedef struct _HsRoads HsRoads;

gboolean hs_roads_are_built_in (void);

/**
 * hs_roads_make_map:
 * @extract: an OpenStreetMap file: .osm, .pbf, .o5m, plain or packed as the splitter reads it
 * @folder: where the map goes; the map that is there is replaced once the new one is whole
 *
 * Has the router's own splitter make the map. Takes minutes for a whole state; call it from a worker.
 */
gboolean hs_roads_make_map (const char *extract, const char *folder, GError **error);

/**
 * hs_roads_dup_splitter:
 * @ret_stamp: (out) (transfer full): of the map that will be made
 *
 * The first half of hs_roads_make_map(), for a program that runs the splitter itself so that it can be stopped: the
 * words to start it by, in @folder. It writes a line a step to its output. Reads the whole extract.
 *
 * Returns: (transfer full): %NULL with @error
 */
char **hs_roads_dup_splitter (const char *extract, const char *folder, char **ret_stamp, GError **error);

/* hs_roads_take_map: the second half: from now on the map of @stamp counts, if it has a road in it. */
gboolean hs_roads_take_map (const char *folder, const char *stamp, GError **error);

/* hs_roads_is_left_over: whether the file @name of @folder is of no use any more: of another map than the one that
 * counts, or left by a splitter that was stopped. Nothing is lost if it stays. */
gboolean hs_roads_is_left_over (const char *folder, const char *name);

/* hs_roads_sweep: takes away all that is left over in @folder; what can't be stays. */
void hs_roads_sweep (const char *folder);

/* hs_roads_dup_folder: (transfer full): where the map of this machine lies below the user's @data_folder. */
char *hs_roads_dup_folder (const char *data_folder);

/* hs_roads_has_map: whether a map counts there; hs_roads_open() says whether it can be read. */
gboolean hs_roads_has_map (const char *folder);

/**
 * hs_roads_open:
 * @folder: as given to hs_roads_make_map()
 *
 * Returns: (transfer full): the map, or %NULL
 */
HsRoads *hs_roads_open (const char *folder, GError **error);
void hs_roads_close (HsRoads *roads);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsRoads, hs_roads_close)

/* hs_roads_get_stamp: tells this map from any other; drives kept from another are of no use. */
const char *hs_roads_get_stamp (const HsRoads *roads);

/**
 * hs_roads_drive:
 * @map: an #HsRoads; untyped, so that it can be handed to those who know of no map
 * @ret_found: (out): whether a road leads there; a place more than a kilometer from any road is not reached
 * @ret_seconds: (out): the time of the quickest way, rounded half up; 0 if none
 * @ret_millimiles: (out): its length in thousandths of a mile, rounded half up; 0 if none
 *
 * Positions are degrees on WGS-84.
 */
gboolean hs_roads_drive (gpointer map, double from_latitude, double from_longitude, double to_latitude,
                         double to_longitude, gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles,
                         GError **error);

G_END_DECLS
