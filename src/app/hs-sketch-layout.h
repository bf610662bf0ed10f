// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_sketch_lay_out:
 * @n: how many places
 * @minutes: (array): n × n, row by row: minutes between two places; below zero where not known
 * @bottom: index of the place that is to lie lowest (the base); below zero for none
 * @ret_x, @ret_y: (out caller-allocates) (array): n coordinates each, in minutes, in no particular place
 *
 * Finds places in the plane whose distances are as near as can be to the minutes: metric scaling by majorization (each
 * place moves to the mean of where the others want it, which never raises the stress), from a circle, so that the same
 * minutes always give the same sketch. It is turned so that @bottom lies lowest, as y grows downward.
 */
void hs_sketch_lay_out (guint n, const double *minutes, int bottom, double *ret_x, double *ret_y);

/**
 * hs_sketch_stress:
 *
 * Returns: the sum of squared differences between distances and minutes, each weighed by 1 / minutes²
 */
double hs_sketch_stress (guint n, const double *minutes, const double *x, const double *y);

/**
 * hs_sketch_fit:
 * @width, @height: the room, at least 1 each
 * @apart: the least distance between two places, as far as the room allows
 *
 * Moves and stretches coordinates in place so that they fill a @width × @height room from its top left corner. The
 * sketch is not to scale: the two directions may stretch differently, but by no more than half again.
 */
void hs_sketch_fit (guint n, double *x, double *y, double width, double height, double apart);

/** HsSketchBox: a box in the sketch by its middle. */
typedef struct
{
  double x;
  double y;
  double half_width;
  double half_height;
} HsSketchBox;

/** hs_sketch_box_overlap: Returns: the area that both cover. */
double hs_sketch_box_overlap (const HsSketchBox *one, const HsSketchBox *other);

/**
 * hs_sketch_place_minutes:
 * @lines: (array): four numbers a leg: from x, y to x, y
 * @n_places, @places: (array): the boxes of the places, which nothing may cover
 * @minutes: (inout) (array): a box a leg; its size is given, its middle is found
 *
 * Finds a place on each leg, near its middle, where its minutes cover no place and no other minutes; beside the leg
 * where there is none on it, and where there is none at all, where they cover the least.
 */
void hs_sketch_place_minutes (guint n, const double *lines, guint n_places, const HsSketchBox *places,
                              HsSketchBox *minutes);

G_END_DECLS
