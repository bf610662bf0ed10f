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

G_END_DECLS
