// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsRoadRow:
 * @from_place: a position as hs_geo_format() prints it
 * @to_place: likewise
 * @profile: what drives: `motorcar`
 * @stamp: of the map that was driven on
 * @seconds: %HS_INT_NONE where no road leads
 * @millimiles: %HS_INT_NONE where no road leads
 *
 * A drive over the roads of a map, one way.
 */
typedef struct
{
  char *id;
  char *from_place;
  char *to_place;
  char *profile;
  char *stamp;
  gint64 seconds;
  gint64 millimiles;
} HsRoadRow;

HS_DECLARE_ROW (HsRoadRow, hs_road_row)

/**
 * hs_road_row_list:
 *
 * All drives of @profile on the map of @stamp; those of other maps are as if they were not there.
 */
gboolean hs_road_row_list (HsStore *store, const char *profile, const char *stamp, GPtrArray **ret_rows,
                           GError **error);

/* hs_road_row_put: saves @row in the place of what is there for its places and profile. Needs a transaction. */
gboolean hs_road_row_put (HsStore *store, HsRoadRow *row, GError **error);

G_END_DECLS
