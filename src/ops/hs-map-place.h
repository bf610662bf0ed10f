// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/** HsMapKind: what stands there. */
typedef enum
{
  HS_MAP_AREA,
  HS_MAP_BASE,
  HS_MAP_COUNTER,
  HS_MAP_CUSTOMER,
} HsMapKind;

/**
 * HsMapPlace:
 * @code: as the book wants a place: the code of an area; for a customer the position by hs_geo_format()
 * @name: as it is shown
 * @latitude: degrees north
 * @longitude: degrees east
 */
typedef struct
{
  HsMapKind kind;
  char *code;
  char *name;
  double latitude;
  double longitude;
} HsMapPlace;

void hs_map_place_free (HsMapPlace *place);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsMapPlace, hs_map_place_free)

/**
 * hs_map_places:
 *
 * Everything in the book whose position is known: the areas, the base among them, in the owner's order; then the
 * counters, each where its area lies; then the customers who have a position of their own. An area without a position
 * lies amid its customers. One that is nothing but the position of a counter is left to that counter.
 *
 * Returns: (transfer full) (element-type HsMapPlace)
 */
GPtrArray *hs_map_places (HsBook *book, GError **error);

G_END_DECLS
