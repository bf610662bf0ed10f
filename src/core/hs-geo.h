// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Places on the globe as people write and link them. All positions are WGS-84. */

/**
 * HsGeo:
 * @latitude: degrees north, -90 to 90
 * @longitude: degrees east, above -180 to 180; 0 at the poles
 * @altitude_meters: above the ellipsoid, NAN if not given
 * @uncertainty_meters: radius, NAN if not given
 */
typedef struct
{
  double latitude;
  double longitude;
  double altitude_meters;
  double uncertainty_meters;
} HsGeo;

/**
 * hs_geo_parse_uri:
 * @text: `geo:40.7128,-74.006`, with altitude, `;crs=wgs84`, `;u=40` and other parameters as RFC 5870 §3.3 has them
 * @ret_geo: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Scheme, names of parameters and the crs are read in any letter case. Parameters that are not known are checked and
 * skipped. Refused: another coordinate system than WGS-84, `crs` and `u` out of their order or twice, anything that
 * the grammar does not allow, a position off the globe.
 */
gboolean hs_geo_parse_uri (const char *text, HsGeo *ret_geo, GError **error);

/**
 * hs_geo_parse:
 * @text: a `geo:` URI, or latitude and longitude as degrees (`40.7128, -74.006`), degrees and minutes
 *   (`40° 42.768′ N 74° 0.36′ W`) or degrees, minutes and seconds (`40°42'46"N 74°0'22"W`, `40:42:46N 74:0:22W`,
 *   `N 40 42 46 W 74 0 22`)
 * @ret_geo: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * South and west are below zero, or have their letter, not both. With letters the longitude may stand first. A decimal
 * comma is refused, since a comma parts the two halves.
 */
gboolean hs_geo_parse (const char *text, HsGeo *ret_geo, GError **error);

/**
 * hs_geo_is_meant:
 *
 * Returns: %TRUE if @text is written like a position and not like a name or an address: it starts with `geo:`, or has
 * at least two numbers and nothing but numbers, marks and the letters N, S, E, W. It may still be a wrong one.
 */
gboolean hs_geo_is_meant (const char *text);

/**
 * hs_geo_format:
 *
 * Returns: (transfer full): `40.71280,-74.00600`: about one meter; the same text for the same place
 */
char *hs_geo_format (double latitude, double longitude);

/**
 * hs_geo_format_uri:
 *
 * Returns: (transfer full): `geo:40.7128,-74.006`
 */
char *hs_geo_format_uri (double latitude, double longitude);

G_END_DECLS
