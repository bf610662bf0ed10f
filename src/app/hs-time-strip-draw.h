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
  double rail; /* height of a counter's rail */
  double bottom;
  int *lanes;
  guint n_lanes;
} HsStripPlan;

/** hs_strip_plan_x: Returns: the pixel of a minute of the day. */
double hs_strip_plan_x (const HsStripPlan *plan, double minute);

/** hs_strip_plan_stop_area: where the stop at @index is drawn on the van's row. */
void hs_strip_plan_stop_area (const HsStripPlan *plan, guint index, graphene_rect_t *ret_area);

/**
 * HsStripWords:
 * @label_x: left end of the stop's short name
 * @text: (nullable): how much is spare or how late it is; %NULL where it finds no room and is not late
 * @text_x: left end of @text, with its frame where it is the tightest
 * @text_width: its width, with the frame
 * @from, @to: all that is drawn of the window, in pixels
 */
typedef struct
{
  double label_x;
  char *text;
  double text_x;
  double text_width;
  double from;
  double to;
} HsStripWords;

/** hs_strip_plan_words: what stands in a window, or beside one that is too short for it. Free @ret_words->text. */
void hs_strip_plan_words (GtkWidget *widget, const HsStripPlan *plan, guint index, HsStripWords *ret_words);

/** hs_strip_plan_drawn: @ret_drawn: (out caller-allocates) (array): two minutes a stop, for hs_strip_day_pack(). */
void hs_strip_plan_drawn (GtkWidget *widget, const HsStripPlan *plan, int *ret_drawn);

/** hs_strip_plan_flag: the flag of now: over its line, and so that it hides no hour, where there is room for that. */
void hs_strip_plan_flag (GtkWidget *widget, const HsStripPlan *plan, double *ret_x, double *ret_width);

/** hs_strip_plan_home_width: Returns: what stands behind the end of the day, in pixels. */
double hs_strip_plan_home_width (GtkWidget *widget, const HsStripPlan *plan);

/** hs_strip_plan_place: where the rows stand, once the lanes are known. */
void hs_strip_plan_place (HsStripPlan *plan);

/** hs_strip_plan_height: Returns: the height that @plan needs. */
int hs_strip_plan_height (const HsStripPlan *plan);

void hs_strip_draw (GtkWidget *widget, cairo_t *cr, const HsInk *ink, const HsStripPlan *plan);

G_END_DECLS
