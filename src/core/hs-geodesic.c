// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Distance on the WGS-84 ellipsoid. Use it for straight lines between places. It never fails to converge: points that
 * nearly face each other through the globe are solved in two halves. */

#include "hs-geodesic.h"

#include <math.h>

#define EQUATOR_METERS 6378137.0
#define FLATTENING (1.0 / 298.257223563)
#define POLE_METERS (EQUATOR_METERS * (1.0 - FLATTENING))
#define RADIAN (G_PI / 180.0)

#define MOST_ROUNDS 100
#define SETTLED 1e-13

/* Samples of the circle halfway round, and rounds that narrow the best of them down. */
#define CIRCLE_STEPS 360
#define NARROW_ROUNDS 60
#define GOLDEN 0.6180339887498949

/* One round of Vincenty's iteration: his equations 14 to 18. */
typedef struct
{
  double sin_u1, cos_u1, sin_u2, cos_u2;
  double sin_sigma, cos_sigma, sigma;
  double cos_sq_alpha, cos_2sigma_m;
} Vincenty;

static void
set_up (Vincenty *v, double latitude_a, double latitude_b)
{
  double u1 = atan2 ((1.0 - FLATTENING) * sin (latitude_a), cos (latitude_a));
  double u2 = atan2 ((1.0 - FLATTENING) * sin (latitude_b), cos (latitude_b));

  v->sin_u1 = sin (u1);
  v->cos_u1 = cos (u1);
  v->sin_u2 = sin (u2);
  v->cos_u2 = cos (u2);
}

/* The next λ from @lambda, the difference of longitudes on the sphere; @difference is the one on the ellipsoid. */
static double
next_lambda (Vincenty *v, double lambda, double difference)
{
  double across = v->cos_u2 * sin (lambda);
  double along = v->cos_u1 * v->sin_u2 - v->sin_u1 * v->cos_u2 * cos (lambda);
  double sin_alpha, c;

  v->sin_sigma = hypot (across, along);
  v->cos_sigma = v->sin_u1 * v->sin_u2 + v->cos_u1 * v->cos_u2 * cos (lambda);
  v->sigma = atan2 (v->sin_sigma, v->cos_sigma);
  if (v->sin_sigma == 0.0)
    {
      v->cos_sq_alpha = 1.0;
      v->cos_2sigma_m = 0.0;
      return lambda;
    }
  sin_alpha = v->cos_u1 * v->cos_u2 * sin (lambda) / v->sin_sigma;
  v->cos_sq_alpha = 1.0 - sin_alpha * sin_alpha;
  v->cos_2sigma_m = v->cos_sq_alpha > 1e-15 ? v->cos_sigma - 2.0 * v->sin_u1 * v->sin_u2 / v->cos_sq_alpha : 0.0;
  c = FLATTENING / 16.0 * v->cos_sq_alpha * (4.0 + FLATTENING * (4.0 - 3.0 * v->cos_sq_alpha));
  return difference
         + (1.0 - c) * FLATTENING * sin_alpha
               * (v->sigma
                  + c * v->sin_sigma
                        * (v->cos_2sigma_m
                           + c * v->cos_sigma * (2.0 * v->cos_2sigma_m * v->cos_2sigma_m - 1.0)));
}

/* His equations 3, 4, 6 and 19. */
static double
length_of (const Vincenty *v)
{
  double u_sq = v->cos_sq_alpha * (EQUATOR_METERS * EQUATOR_METERS - POLE_METERS * POLE_METERS)
                / (POLE_METERS * POLE_METERS);
  double a = 1.0 + u_sq / 16384.0 * (4096.0 + u_sq * (-768.0 + u_sq * (320.0 - 175.0 * u_sq)));
  double b = u_sq / 1024.0 * (256.0 + u_sq * (-128.0 + u_sq * (74.0 - 47.0 * u_sq)));
  double m = v->cos_2sigma_m;
  double delta
      = b * v->sin_sigma
        * (m
           + b / 4.0
                 * (v->cos_sigma * (2.0 * m * m - 1.0)
                    - b / 6.0 * m * (4.0 * v->sin_sigma * v->sin_sigma - 3.0) * (4.0 * m * m - 3.0)));

  return POLE_METERS * a * (v->sigma - delta);
}

/* In radians; NAN where the iteration does not settle or λ runs past the half circle. */
static double
vincenty (double latitude_a, double longitude_a, double latitude_b, double longitude_b)
{
  double difference = remainder (longitude_b - longitude_a, 2.0 * G_PI);
  double lambda = difference;
  Vincenty v;

  set_up (&v, latitude_a, latitude_b);
  for (guint round = 0; round < MOST_ROUNDS; round++)
    {
      double next = next_lambda (&v, lambda, difference);

      if (fabs (next) > G_PI)
        return NAN;
      if (fabs (next - lambda) < SETTLED)
        return length_of (&v);
      lambda = next;
    }
  return NAN;
}

typedef struct
{
  double latitude_a, longitude_a;
  double latitude_b, longitude_b;
} Ends;

/* From a to b by way of the point a quarter round the globe from a, on the sphere, in the direction @azimuth. */
static double
way_through (const Ends *ends, double azimuth)
{
  double latitude = asin (cos (ends->latitude_a) * cos (azimuth));
  double longitude
      = ends->longitude_a + atan2 (sin (azimuth) * cos (ends->latitude_a), -sin (ends->latitude_a) * sin (latitude));

  return vincenty (ends->latitude_a, ends->longitude_a, latitude, longitude)
         + vincenty (latitude, longitude, ends->latitude_b, ends->longitude_b);
}

/* Golden section between two directions around the best sample. */
static double
narrow (const Ends *ends, double from, double to)
{
  double low = to - GOLDEN * (to - from), high = from + GOLDEN * (to - from);
  double at_low = way_through (ends, low), at_high = way_through (ends, high);

  for (guint round = 0; round < NARROW_ROUNDS; round++)
    if (at_low < at_high)
      {
        to = high;
        high = low;
        at_high = at_low;
        low = to - GOLDEN * (to - from);
        at_low = way_through (ends, low);
      }
    else
      {
        from = low;
        low = high;
        at_low = at_high;
        high = from + GOLDEN * (to - from);
        at_high = way_through (ends, high);
      }
  return MIN (at_low, at_high);
}

/* Every line between two points that nearly face each other crosses the circle halfway, so the shortest of all ways
 * through a point of the circle is the shortest line. */
static double
shortest_through (const Ends *ends)
{
  double step = 2.0 * G_PI / CIRCLE_STEPS;
  double best = INFINITY;
  guint best_step = 0;

  for (guint i = 0; i < CIRCLE_STEPS; i++)
    {
      double length = way_through (ends, i * step);

      if (length < best)
        {
          best = length;
          best_step = i;
        }
    }
  return MIN (best, narrow (ends, (best_step - 1.0) * step, (best_step + 1.0) * step));
}

double
hs_geodesic_meters (double latitude_a, double longitude_a, double latitude_b, double longitude_b)
{
  Ends ends = { latitude_a * RADIAN, longitude_a * RADIAN, latitude_b * RADIAN, longitude_b * RADIAN };
  double length;

  if (!(fabs (latitude_a) <= 90.0 && fabs (latitude_b) <= 90.0) || !isfinite (longitude_a) || !isfinite (longitude_b))
    return NAN;
  length = vincenty (ends.latitude_a, ends.longitude_a, ends.latitude_b, ends.longitude_b);
  return isnan (length) ? shortest_through (&ends) : length;
}
