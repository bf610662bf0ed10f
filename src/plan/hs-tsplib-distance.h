// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The distance functions of TSPLIB 95, each rounded as that text says (private to this layer). */

/**
 * HsTsplibMeasure: a distance between two points
 * @name: as EDGE_WEIGHT_TYPE writes it
 * @dimensions: 2 or 3
 * @on_globe: coordinates are degrees and minutes, DDD.MM
 * @distance: whole, 0 or more; not finite where a double can't hold it
 */
typedef struct
{
  const char *name;
  guint dimensions;
  gboolean on_globe;
  double (*distance) (const double *a, const double *b);
} HsTsplibMeasure;

/** hs_tsplib_measure_find: (nullable): the one that is called @name. */
const HsTsplibMeasure *hs_tsplib_measure_find (const char *name);

G_END_DECLS
