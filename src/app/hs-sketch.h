// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** HsSketchSignal: how the phone works there: the ring is solid, dashed or filled with dots. */
typedef enum
{
  HS_SKETCH_SIGNAL_GOOD,
  HS_SKETCH_SIGNAL_PATCHY,
  HS_SKETCH_SIGNAL_NONE,
} HsSketchSignal;

/** The areas of a day as a sketch: where the stops are, in which order, how many minutes between them. Role img. */
#define HS_TYPE_SKETCH (hs_sketch_get_type ())
G_DECLARE_FINAL_TYPE (HsSketch, hs_sketch, HS, SKETCH, GtkWidget)

GtkWidget *hs_sketch_new (void);

/** hs_sketch_clear: forgets places, minutes and legs. */
void hs_sketch_clear (HsSketch *self);

/**
 * hs_sketch_add_place:
 * @name: the area in words
 * @base: whether it is where the van lives
 *
 * Returns: the place's index
 */
guint hs_sketch_add_place (HsSketch *self, const char *name, HsSketchSignal signal, gboolean base);

/** hs_sketch_add_stop: prints the stop's @number at @place. */
void hs_sketch_add_stop (HsSketch *self, guint place, guint number);

/** hs_sketch_set_minutes: what a trip between two places takes; makes the layout, draws nothing. */
void hs_sketch_set_minutes (HsSketch *self, guint from, guint to, double minutes);

/** hs_sketch_add_leg: one drive of the day, an arrow with its @minutes; it also sets the minutes between both. */
void hs_sketch_add_leg (HsSketch *self, guint from, guint to, int minutes);

/**
 * hs_sketch_set_position:
 *
 * Where the place really is, in any one scale with y growing downward; used when every place has one.
 */
void hs_sketch_set_position (HsSketch *self, guint place, double x, double y);

G_END_DECLS
