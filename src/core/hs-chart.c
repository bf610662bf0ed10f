// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The geometry of a small map. Use it for places within some hundred miles of each other; it refuses nothing, but far
 * from its middle lengths are no longer true, and there is no pole on it.
 */

#include "hs-chart.h"

#include <math.h>

/* WGS-84. */
#define AXIS_METERS 6378137.0
#define FLATTENING (1 / 298.257223563)
#define ECCENTRICITY_2 (FLATTENING * (2 - FLATTENING))

#define METERS_PER_MILLIMILE 1.609344
#define MOST_LATITUDE 89.9
#define ALONE_METERS 3200.0
#define UNITS_PER_DEGREE 100000.0
#define MOST_UNITS 2000000
#define MOST_MILLIMILES 20000000

static double
radians (double degrees)
{
  return degrees * G_PI / 180;
}

/* Meters of a degree along the meridian at @latitude. */
static double
meters_north (double latitude)
{
  double sine = sin (radians (latitude));
  double under = 1 - ECCENTRICITY_2 * sine * sine;

  return radians (1) * AXIS_METERS * (1 - ECCENTRICITY_2) / (under * sqrt (under));
}

/* Meters of a degree along the parallel at @latitude. */
static double
meters_east (double latitude)
{
  double sine = sin (radians (latitude));

  return radians (1) * AXIS_METERS * cos (radians (latitude)) / sqrt (1 - ECCENTRICITY_2 * sine * sine);
}

static double
wrap (double longitude)
{
  double turned = fmod (longitude, 360);

  if (turned > 180)
    return turned - 360;
  return turned <= -180 ? turned + 360 : turned;
}

void
hs_chart_to_pixels (const HsChart *chart, double latitude, double longitude, double *ret_x, double *ret_y)
{
  *ret_x = chart->width / 2 + wrap (longitude - chart->longitude) * meters_east (chart->latitude) / chart->meters;
  *ret_y = chart->height / 2 - (latitude - chart->latitude) * meters_north (chart->latitude) / chart->meters;
}

void
hs_chart_to_position (const HsChart *chart, double x, double y, double *ret_latitude, double *ret_longitude)
{
  double east = (x - chart->width / 2) * chart->meters / meters_east (chart->latitude);
  double north = (chart->height / 2 - y) * chart->meters / meters_north (chart->latitude);

  *ret_latitude = CLAMP (chart->latitude + north, -MOST_LATITUDE, MOST_LATITUDE);
  *ret_longitude = wrap (chart->longitude + CLAMP (east, -180, 180));
}

void
hs_chart_pan (HsChart *chart, double right, double down)
{
  double latitude, longitude;

  hs_chart_to_position (chart, chart->width / 2 - right, chart->height / 2 - down, &latitude, &longitude);
  chart->latitude = latitude;
  chart->longitude = longitude;
}

void
hs_chart_zoom (HsChart *chart, double times, double x, double y)
{
  double latitude, longitude, at_x, at_y;

  hs_chart_to_position (chart, x, y, &latitude, &longitude);
  chart->meters = CLAMP (chart->meters / times, HS_CHART_LEAST_METERS, HS_CHART_MOST_METERS);
  /* The parallel of the new middle has another length; each round mends what is left of that. */
  for (int round = 0; round < 4; round++)
    {
      hs_chart_to_pixels (chart, latitude, longitude, &at_x, &at_y);
      hs_chart_pan (chart, x - at_x, y - at_y);
    }
}

void
hs_chart_fit (HsChart *chart, guint n, const double *latitudes, const double *longitudes, double margin)
{
  double south = 90, north = -90, west = 180, east = -180, wide, high;

  for (guint i = 0; i < n; i++)
    {
      double aside = wrap (longitudes[i] - longitudes[0]);

      south = MIN (south, latitudes[i]);
      north = MAX (north, latitudes[i]);
      west = MIN (west, aside);
      east = MAX (east, aside);
    }
  if (n == 0)
    return;
  chart->latitude = CLAMP ((south + north) / 2, -MOST_LATITUDE, MOST_LATITUDE);
  chart->longitude = wrap (longitudes[0] + (west + east) / 2);
  wide = (east - west) * meters_east (chart->latitude) / MAX (1, chart->width - 2 * margin);
  high = (north - south) * meters_north (chart->latitude) / MAX (1, chart->height - 2 * margin);
  chart->meters = MAX (wide, high);
  if (chart->meters <= 0)
    chart->meters = ALONE_METERS / MAX (1, MIN (chart->width, chart->height));
  chart->meters = CLAMP (chart->meters, HS_CHART_LEAST_METERS, HS_CHART_MOST_METERS);
}

/* The next of 1, 2, 5, 10, 20, … */
static gint64
next_round (gint64 number)
{
  gint64 lead = number;

  while (lead >= 10)
    lead /= 10;
  return lead == 2 ? number / 2 * 5 : number * 2;
}

gint64
hs_chart_scale (const HsChart *chart, double most, double *ret_pixels)
{
  gint64 millimiles = 1;

  while (next_round (millimiles) <= MOST_MILLIMILES
         && next_round (millimiles) * METERS_PER_MILLIMILE / chart->meters <= most)
    millimiles = next_round (millimiles);
  *ret_pixels = millimiles * METERS_PER_MILLIMILE / chart->meters;
  return millimiles;
}

gint64
hs_chart_grid (const HsChart *chart, double least, gboolean meridians)
{
  double meters = meridians ? meters_east (chart->latitude) : meters_north (chart->latitude);
  double pixels = meters / UNITS_PER_DEGREE / chart->meters;
  gint64 units = 1;

  while (units < MOST_UNITS && units * pixels < least)
    units = next_round (units);
  return units;
}

int
hs_chart_hit (const HsChart *chart, guint n, const double *latitudes, const double *longitudes, double x, double y,
              double reach)
{
  double nearest = reach;
  int hit = -1;

  for (guint i = 0; i < n; i++)
    {
      double at_x, at_y, away;

      hs_chart_to_pixels (chart, latitudes[i], longitudes[i], &at_x, &at_y);
      away = hypot (at_x - x, at_y - y);
      if (away > nearest || (hit >= 0 && away >= nearest))
        continue;
      nearest = away;
      hit = (int) i;
    }
  return hit;
}

char *
hs_chart_say (double degrees, gint64 step)
{
  char format[] = { '%', '.', '0', 'f', '\0' }, number[G_ASCII_DTOSTR_BUF_SIZE];

  for (gint64 left = step; left < (gint64) UNITS_PER_DEGREE && format[2] < '5'; left *= 10)
    format[2]++;
  g_ascii_formatd (number, sizeof number, format, degrees);
  return g_strconcat (number, "°", NULL);
}
