// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsAreaRow:
 * @id: the code, e.g. `Q`
 * @name: as it is shown
 * @signal: (nullable): `good`, `patchy`, `none`
 * @lat: degrees north, or %HS_REAL_NONE
 * @lon: degrees east, or %HS_REAL_NONE
 */
typedef struct
{
  char *id;
  char *name;
  char *signal;
  double lat;
  double lon;
} HsAreaRow;

HS_DECLARE_ROW (HsAreaRow, hs_area_row)

/* hs_area_row_list: all, in the order in which they were added. */
gboolean hs_area_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/**
 * HsTravelRow:
 * @from_id: code of one area
 * @to_id: code of the other; the same for a hop inside one
 * @seconds: of the drive
 * @millimiles: of the drive, thousandths of a mile
 * @samples: own trips behind the figures
 *
 * One drive, both ways. hs_travel_row_save() puts the two codes in order and finds the row of the pair itself.
 */
typedef struct
{
  char *id;
  char *from_id;
  char *to_id;
  gint64 seconds;
  gint64 millimiles;
  gint64 samples;
} HsTravelRow;

HS_DECLARE_ROW (HsTravelRow, hs_travel_row)
gboolean hs_travel_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/* hs_travel_row_find: the drive between two areas in whichever order; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_travel_row_find (HsStore *store, const char *from_id, const char *to_id, HsTravelRow **ret_row,
                             GError **error);

G_END_DECLS
