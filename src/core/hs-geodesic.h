// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_geodesic_meters:
 * @latitude_a, @longitude_a: degrees, any real longitude
 * @latitude_b, @longitude_b: degrees, any real longitude
 *
 * Length of the shortest line between two points on the WGS-84 ellipsoid (a = 6,378,137 m, 1/f = 298.257223563) by
 * T. Vincenty's inverse formula (Direct and Inverse Solutions of Geodesics on the Ellipsoid, Survey Review 23 no. 176,
 * 1975), good to about half a millimeter. Where that does not converge, near the antipode, the line is cut at the
 * circle halfway round the globe and the shortest way through it is searched; good to about a centimeter.
 *
 * Returns: meters; NAN if a value is not finite or a latitude lies off the globe
 */
double hs_geodesic_meters (double latitude_a, double longitude_a, double latitude_b, double longitude_b);

G_END_DECLS
