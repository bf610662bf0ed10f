// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A flat piece of the globe on a screen: for drawing places a day's drive apart, without tiles and without a net. */

/* The closest and the widest that a chart goes, meters a pixel. */
#define HS_CHART_LEAST_METERS 0.1
#define HS_CHART_MOST_METERS 20000.0

/**
 * HsChart:
 * @latitude, @longitude: degrees on WGS-84, in the middle of the area
 * @meters: on the ground, a pixel
 * @width, @height: of the area in pixels
 *
 * North is up. Positions are laid out by the two radii of curvature at the middle (equirectangular, true to scale
 * along the middle's parallel and meridian).
 */
typedef struct
{
  double latitude;
  double longitude;
  double meters;
  double width;
  double height;
} HsChart;

/**
 * hs_chart_to_pixels:
 * @ret_x, @ret_y: (out): from the top left corner; may lie outside of the area
 *
 * A place on the far side of the meridian of 180° is shown on the shorter way there.
 */
void hs_chart_to_pixels (const HsChart *chart, double latitude, double longitude, double *ret_x, double *ret_y);

/**
 * hs_chart_to_position:
 * @ret_latitude: (out): kept within ±89.9°, since no map of this kind has a pole
 * @ret_longitude: (out): above -180°, to 180°
 */
void hs_chart_to_position (const HsChart *chart, double x, double y, double *ret_latitude, double *ret_longitude);

/* hs_chart_pan: moves the ground by so many pixels to the right and down. */
void hs_chart_pan (HsChart *chart, double right, double down);

/* hs_chart_zoom: shows everything @times as large, at most within the limits; what lies at @x, @y stays there. */
void hs_chart_zoom (HsChart *chart, double times, double x, double y);

/**
 * hs_chart_fit:
 * @latitudes, @longitudes: (array length=n): positions
 * @margin: pixels to keep free at each edge
 *
 * Shows all of them, as large as they fit; one alone, or several at one spot, on about two miles. Nothing changes if @n
 * is 0.
 */
void hs_chart_fit (HsChart *chart, guint n, const double *latitudes, const double *longitudes, double margin);

/**
 * hs_chart_scale:
 * @most: pixels that the bar may be long
 * @ret_pixels: (out): length of the bar
 *
 * Returns: the longest of 1, 2, 5, 10, 20, … thousandths of a mile that is not longer than @most, on the parallel of
 *   the middle
 */
gint64 hs_chart_scale (const HsChart *chart, double most, double *ret_pixels);

/**
 * hs_chart_grid:
 * @least: pixels between two lines at the least
 * @meridians: whether the lines run north and south
 *
 * Returns: distance of the lines in 1/100,000 of a degree: 1, 2, 5, 10, 20, …, at most 20 degrees
 */
gint64 hs_chart_grid (const HsChart *chart, double least, gboolean meridians);

/**
 * hs_chart_hit:
 * @latitudes, @longitudes: (array length=n): positions
 * @reach: pixels
 *
 * Returns: the one that is nearest to @x, @y within @reach, the first of equals; -1 if there is none
 */
int hs_chart_hit (const HsChart *chart, guint n, const double *latitudes, const double *longitudes, double x, double y,
                  double reach);

/**
 * hs_chart_say:
 * @degrees: latitude or longitude
 * @step: distance of grid lines, as hs_chart_grid() has it: no more decimals than these need
 *
 * Returns: (transfer full): `40.72°`, below zero with a minus
 */
char *hs_chart_say (double degrees, gint64 step);

G_END_DECLS
