// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/**
 * HsSpot:
 * @area: (nullable): code of the area it lies in, by which drives are known
 * @name: as it is shown: "Quayside", "4 Quay Street", "40.71280,-74.00600"
 * @has_position: whether @latitude and @longitude are known
 * @latitude: degrees north
 * @longitude: degrees east
 *
 * Somewhere to drive from or to.
 */
typedef struct
{
  char *area;
  char *name;
  gboolean has_position;
  double latitude;
  double longitude;
} HsSpot;

void hs_spot_free (HsSpot *place);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSpot, hs_spot_free)

/**
 * hs_spot_find:
 * @text: code or name of an area; a position as hs_geo_parse() reads it; number of a job; name of a counter; street or
 *   name of a customer, or the first words of one
 *
 * The first of these that fits; a code in its own letter case goes before one in another, and that before a name. A
 * job or a customer has the position of the customer, else that of the area; an area
 * without a position has the middle of its customers.
 *
 * Returns: (transfer full): %NULL with %HS_OPS_ERROR_NOT_FOUND if nothing fits, %HS_OPS_ERROR_REFUSED if the words fit
 *   two areas or customers in different places, or a position is off the globe
 */
HsSpot *hs_spot_find (HsBook *book, const char *text, GError **error);

/**
 * hs_spot_area_id:
 * @text: code of an area, or a position
 * @ret_id: (out) (transfer full): the code; for a position its text by hs_geo_format()
 *
 * Lets a position stand wherever the book wants the code of an area: it becomes an area of its own when it is first
 * named. Any other text is handed back as it is. Needs a transaction.
 */
gboolean hs_spot_area_id (HsStore *store, const char *text, char **ret_id, GError **error);

G_END_DECLS
