// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The arithmetic of the area sketch: places from trip minutes, fitted into a room.
 *
 * Use it before drawing; it is pure and repeatable. It refuses maps: minutes are all it knows. */

#include "hs-sketch-layout.h"

#include <math.h>

#define ROUNDS 400
#define APART_ROUNDS 60
#define MOST_STRETCH 1.5

static double
wanted (guint         n,
        const double *minutes,
        guint         i,
        guint         j)
{
  double there = minutes[i * n + j], back = minutes[j * n + i];

  if (there >= 0 && back >= 0)
    return MAX (1, (there + back) / 2);
  return there >= 0 || back >= 0 ? MAX (1, MAX (there, back)) : -1;
}

double
hs_sketch_stress (guint         n,
                  const double *minutes,
                  const double *x,
                  const double *y)
{
  double stress = 0;

  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      {
        double d = wanted (n, minutes, i, j), miss;

        if (d < 0)
          continue;
        miss = hypot (x[i] - x[j], y[i] - y[j]) - d;
        stress += miss * miss / (d * d);
      }
  return stress;
}

static void
move_one (guint         n,
          const double *minutes,
          guint         i,
          double       *x,
          double       *y)
{
  double sum_x = 0, sum_y = 0, weights = 0;

  for (guint j = 0; j < n; j++)
    {
      double d = i != j ? wanted (n, minutes, i, j) : -1, weight, now;

      if (d < 0)
        continue;
      weight = 1 / (d * d);
      now = MAX (1e-9, hypot (x[i] - x[j], y[i] - y[j]));
      sum_x += weight * (x[j] + d * (x[i] - x[j]) / now);
      sum_y += weight * (y[j] + d * (y[i] - y[j]) / now);
      weights += weight;
    }
  if (weights > 0)
    {
      x[i] = sum_x / weights;
      y[i] = sum_y / weights;
    }
}

static void
turn (guint   n,
      int     bottom,
      double *x,
      double *y)
{
  double middle_x = 0, middle_y = 0, angle;

  for (guint i = 0; i < n; i++)
    {
      middle_x += x[i] / n;
      middle_y += y[i] / n;
    }
  angle = G_PI / 2 - atan2 (y[bottom] - middle_y, x[bottom] - middle_x);
  for (guint i = 0; i < n; i++)
    {
      double dx = x[i] - middle_x, dy = y[i] - middle_y;

      x[i] = dx * cos (angle) - dy * sin (angle);
      y[i] = dx * sin (angle) + dy * cos (angle);
    }
}

void
hs_sketch_lay_out (guint         n,
                   const double *minutes,
                   int           bottom,
                   double       *ret_x,
                   double       *ret_y)
{
  double far = 1;

  for (guint i = 0; i < n * n; i++)
    far = MAX (far, minutes[i]);
  for (guint i = 0; i < n; i++)
    {
      ret_x[i] = far / 2 * cos (2 * G_PI * i / n + 0.3);
      ret_y[i] = far / 2 * sin (2 * G_PI * i / n + 0.3);
    }
  for (guint round = 0; round < ROUNDS; round++)
    for (guint i = 0; i < n; i++)
      move_one (n, minutes, i, ret_x, ret_y);
  if (bottom >= 0 && (guint) bottom < n && n > 1)
    turn (n, bottom, ret_x, ret_y);
}

static void
bounds_of (guint         n,
           const double *values,
           double       *ret_low,
           double       *ret_size)
{
  double low = values[0], high = values[0];

  for (guint i = 1; i < n; i++)
    {
      low = MIN (low, values[i]);
      high = MAX (high, values[i]);
    }
  *ret_low = low;
  *ret_size = high - low;
}

static void
push_apart (guint   n,
            double *x,
            double *y,
            double  width,
            double  height,
            double  apart)
{
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      {
        double dx = x[j] - x[i], dy = y[j] - y[i], now = hypot (dx, dy), push;

        if (now >= apart)
          continue;
        if (now < 1e-6)
          dx = now = 1;
        push = (apart - now) / 2 / now;
        x[i] = CLAMP (x[i] - dx * push, 0, width);
        y[i] = CLAMP (y[i] - dy * push, 0, height);
        x[j] = CLAMP (x[j] + dx * push, 0, width);
        y[j] = CLAMP (y[j] + dy * push, 0, height);
      }
}

void
hs_sketch_fit (guint   n,
               double *x,
               double *y,
               double  width,
               double  height,
               double  apart)
{
  double low_x, low_y, size_x, size_y, scale_x, scale_y;

  if (n == 0)
    return;
  bounds_of (n, x, &low_x, &size_x);
  bounds_of (n, y, &low_y, &size_y);
  scale_x = width / MAX (size_x, 1e-6);
  scale_y = height / MAX (size_y, 1e-6);
  scale_x = MIN (scale_x, scale_y * MOST_STRETCH);
  scale_y = MIN (scale_y, scale_x * MOST_STRETCH);
  for (guint i = 0; i < n; i++)
    {
      x[i] = (x[i] - low_x - size_x / 2) * scale_x + width / 2;
      y[i] = (y[i] - low_y - size_y / 2) * scale_y + height / 2;
    }
  for (guint round = 0; round < APART_ROUNDS; round++)
    push_apart (n, x, y, width, height, apart);
}

double
hs_sketch_box_overlap (const HsSketchBox *one,
                       const HsSketchBox *other)
{
  double width = one->half_width + other->half_width - fabs (one->x - other->x);
  double height = one->half_height + other->half_height - fabs (one->y - other->y);

  width = MIN (width, 2 * MIN (one->half_width, other->half_width));
  height = MIN (height, 2 * MIN (one->half_height, other->half_height));
  return width > 0 && height > 0 ? width * height : 0;
}

/* A covered place is worse than two minutes over one another. */
static double
count_covered (guint              leg,
               guint              n_places,
               const HsSketchBox *places,
               const HsSketchBox *minutes)
{
  double covered = 0;

  for (guint i = 0; i < n_places; i++)
    covered += 4 * hs_sketch_box_overlap (&minutes[leg], &places[i]);
  for (guint i = 0; i < leg; i++)
    covered += hs_sketch_box_overlap (&minutes[leg], &minutes[i]);
  return covered;
}

static void
place_one (guint              leg,
           const double      *line,
           guint              n_places,
           const HsSketchBox *places,
           HsSketchBox       *minutes)
{
  static const double along[] = { 0.45, 0.5, 0.4, 0.55, 0.35, 0.6, 0.3, 0.65, 0.25, 0.7, 0.2, 0.8 };
  static const double aside[] = { 0, 1.2, -1.2, 2.4, -2.4, 3, -3 };
  double dx = line[2] - line[0], dy = line[3] - line[1], length = MAX (1, hypot (dx, dy)), least = G_MAXDOUBLE;
  HsSketchBox *box = &minutes[leg], best = *box;

  for (guint i = 0; i < G_N_ELEMENTS (aside) && least > 0; i++)
    for (guint j = 0; j < G_N_ELEMENTS (along) && least > 0; j++)
      {
        double off = aside[i] * box->half_height, covered;

        box->x = line[0] + dx * along[j] - dy / length * off;
        box->y = line[1] + dy * along[j] + dx / length * off;
        covered = count_covered (leg, n_places, places, minutes);
        if (covered >= least)
          continue;
        least = covered;
        best = *box;
      }
  *box = best;
}

void
hs_sketch_place_minutes (guint              n,
                         const double      *lines,
                         guint              n_places,
                         const HsSketchBox *places,
                         HsSketchBox       *minutes)
{
  for (guint i = 0; i < n; i++)
    place_one (i, &lines[4 * i], n_places, places, minutes);
}
