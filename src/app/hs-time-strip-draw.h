// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-ink.h"
#include "hs-strip-day.h"
#include "hs-time-strip.h"

G_BEGIN_DECLS

/* Shared by hs-time-strip.c and hs-time-strip-draw.c only. */

/**
 * HsStripPlan:
 *
 * Where everything stands, in pixels of the widget: made once a size, read by drawing and by the stops' allocation.
 */
typedef struct
{
  const HsStripDay *day;
  HsStripForm form;
  int chosen;
  int tightest;
  double unit;
  double left;
  double right;
  double frame_top;
  double lanes_top;
  double van_middle;
  double rails_top;
  double bottom;
  int *lanes;
  guint n_lanes;
} HsStripPlan;

/** hs_strip_plan_x: Returns: the pixel of a minute of the day. */
double hs_strip_plan_x (const HsStripPlan *plan, double minute);

/** hs_strip_plan_stop_area: where the stop at @index is drawn on the van's row. */
void hs_strip_plan_stop_area (const HsStripPlan *plan, guint index, graphene_rect_t *ret_area);

/** hs_strip_plan_height: Returns: the height that @plan needs. */
int hs_strip_plan_height (const HsStripPlan *plan);

void hs_strip_draw (GtkWidget *widget, cairo_t *cr, const HsInk *ink, const HsStripPlan *plan);

G_END_DECLS
