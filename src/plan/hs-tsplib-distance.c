// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* TSPLIB's distances. They are defined by C arithmetic in doubles, with its own π and radius of the Earth, so that
 * everybody gets the same whole numbers; nearer values would be wrong here. */

#include "hs-tsplib-distance.h"

#include <math.h>

#define TSPLIB_PI 3.141592
#define TSPLIB_RADIUS 6378.388

static double
nearest (double value)
{
  return floor (value + 0.5);
}

static double
straight (const double *a, const double *b, guint dimensions)
{
  double sum = 0;

  for (guint i = 0; i < dimensions; i++)
    sum += (a[i] - b[i]) * (a[i] - b[i]);
  return sqrt (sum);
}

static double
euclid_2d (const double *a, const double *b)
{
  return nearest (straight (a, b, 2));
}

static double
euclid_3d (const double *a, const double *b)
{
  return nearest (straight (a, b, 3));
}

static double
ceiling_2d (const double *a, const double *b)
{
  return ceil (straight (a, b, 2));
}

static double
blocks_2d (const double *a, const double *b)
{
  return nearest (fabs (a[0] - b[0]) + fabs (a[1] - b[1]));
}

static double
blocks_3d (const double *a, const double *b)
{
  return nearest (fabs (a[0] - b[0]) + fabs (a[1] - b[1]) + fabs (a[2] - b[2]));
}

static double
most_2d (const double *a, const double *b)
{
  return MAX (nearest (fabs (a[0] - b[0])), nearest (fabs (a[1] - b[1])));
}

static double
most_3d (const double *a, const double *b)
{
  return MAX (most_2d (a, b), nearest (fabs (a[2] - b[2])));
}

/* Rounded to the nearest, and up by one where that fell short. */
static double
pseudo_euclid (const double *a, const double *b)
{
  double exact = sqrt (((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1])) / 10.0);
  double whole = nearest (exact);

  return whole < exact ? whole + 1 : whole;
}

static double
radians (double degrees_minutes)
{
  double degrees = trunc (degrees_minutes);

  return TSPLIB_PI * (degrees + 5.0 * (degrees_minutes - degrees) / 3.0) / 180.0;
}

static double
globe (const double *a, const double *b)
{
  double q1 = cos (radians (a[1]) - radians (b[1]));
  double q2 = cos (radians (a[0]) - radians (b[0]));
  double q3 = cos (radians (a[0]) + radians (b[0]));
  double angle = 0.5 * ((1.0 + q1) * q2 - (1.0 - q1) * q3);

  return trunc (TSPLIB_RADIUS * acos (CLAMP (angle, -1.0, 1.0)) + 1.0);
}

static const HsTsplibMeasure measures[] = {
  { "EUC_2D", 2, FALSE, euclid_2d },  { "EUC_3D", 3, FALSE, euclid_3d }, { "CEIL_2D", 2, FALSE, ceiling_2d },
  { "MAN_2D", 2, FALSE, blocks_2d },  { "MAN_3D", 3, FALSE, blocks_3d }, { "MAX_2D", 2, FALSE, most_2d },
  { "MAX_3D", 3, FALSE, most_3d },    { "ATT", 2, FALSE, pseudo_euclid }, { "GEO", 2, TRUE, globe },
};

const HsTsplibMeasure *
hs_tsplib_measure_find (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (measures); i++)
    if (g_str_equal (measures[i].name, name))
      return &measures[i];
  return NULL;
}
