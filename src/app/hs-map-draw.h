// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-ask.h"
#include "hs-chart.h"
#include "hs-ink.h"

G_BEGIN_DECLS

/**
 * HsMapSheet:
 * @u: see hs_ink_unit()
 * @taken: (element-type graphene_rect_t): where names stand already
 *
 * One drawing of a map while it is being made.
 */
typedef struct
{
  GtkWidget *widget;
  cairo_t *cr;
  HsInk ink;
  HsChart chart;
  double u;
  GArray *taken;
} HsMapSheet;

/* hs_map_draw_grid: light lines of latitude and longitude with their degrees at the edge. */
void hs_map_draw_grid (HsMapSheet *sheet);

/* hs_map_draw_leg: a piece of wire from one position to another. */
void hs_map_draw_leg (HsMapSheet *sheet, const double *from, const double *to);

/* hs_map_draw_mark: what stands at a place: house, ring, post or dot. */
void hs_map_draw_mark (HsMapSheet *sheet, const HsMapPlace *place);

/* hs_map_draw_name: beside its mark, on the first side that is free; not at all where there is none. */
void hs_map_draw_name (HsMapSheet *sheet, const HsMapPlace *place);
void hs_map_draw_pin (HsMapSheet *sheet, double latitude, double longitude);
void hs_map_draw_crosshair (HsMapSheet *sheet, double latitude, double longitude);

/* hs_map_draw_scale: a bar of a round number of miles, and the mark for north. */
void hs_map_draw_scale (HsMapSheet *sheet);

G_END_DECLS
