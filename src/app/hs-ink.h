// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A cairo_t that cleans up after itself; no library of the platform says how. */
typedef cairo_t HsCairo;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCairo, cairo_destroy)

/**
 * HsInk:
 *
 * The tokens of the look as colors, read from the style sheet that is in force, so that one drawing serves the paper
 * sheet, the dark sheet and both high contrast sheets.
 */
typedef struct
{
  GdkRGBA bench;
  GdkRGBA bar;
  GdkRGBA paper;
  GdkRGBA well;
  GdkRGBA ink;
  GdkRGBA ink2;
  GdkRGBA edge;
  GdkRGBA rule;
  GdkRGBA copper;
  GdkRGBA fill;
  GdkRGBA on_fill;
  GdkRGBA wash;
} HsInk;

/**
 * hs_ink_read:
 * @widget: any widget on a display
 * @ret_ink: (out): the colors; a token that no sheet defines stays opaque black
 */
void hs_ink_read (GtkWidget *widget, HsInk *ret_ink);

/**
 * hs_ink_unit:
 * @widget: any widget
 *
 * Drawings are designed for system text of 11 points at 96 dots an inch (14.67 px).
 *
 * Returns: by how much a designed pixel grows under the user's text size, 1.0 or so
 */
double hs_ink_unit (GtkWidget *widget);

/**
 * hs_ink_layout:
 * @widget: whose font family, language and direction are used
 * @text: (nullable): the text; %NULL is read as empty
 * @times: size, × the system's text size
 * @weight: 400, 700 or 800
 *
 * Returns: (transfer full): a layout with figures of equal width
 */
PangoLayout *hs_ink_layout (GtkWidget *widget, const char *text, double times, int weight);

/**
 * hs_ink_text:
 * @cr: a context
 * @layout: the text
 * @color: its color
 * @x: the anchor
 * @y: the vertical middle of the text
 * @align: 0 when the text starts at @x, 0.5 when it is centered on it, 1 when it ends there
 *
 * Returns: the width of the text in pixels
 */
double hs_ink_text (cairo_t *cr, PangoLayout *layout, const GdkRGBA *color, double x, double y, double align);

/**
 * hs_ink_label:
 *
 * hs_ink_layout() and hs_ink_text() in one call.
 *
 * Returns: the width of the text in pixels
 */
double hs_ink_label (GtkWidget *widget, cairo_t *cr, const char *text, double times, int weight, const GdkRGBA *color,
                     double x, double y, double align);

/**
 * hs_ink_width:
 *
 * Returns: the width that hs_ink_label() would give, in pixels, rounded up
 */
int hs_ink_width (GtkWidget *widget, const char *text, double times, int weight);

/**
 * hs_ink_hatch:
 * @step: distance of the lines along the edge
 * @crossed: whether the second direction is drawn too (out of bounds rather than room left)
 */
void hs_ink_hatch (cairo_t *cr, const GdkRGBA *color, const graphene_rect_t *area, double step, gboolean crossed);

/**
 * hs_ink_dots:
 *
 * Fills @area with dots: not judged, or no signal.
 */
void hs_ink_dots (cairo_t *cr, const GdkRGBA *color, const graphene_rect_t *area, double step);

/**
 * hs_ink_line:
 *
 * A straight line of @width, butt ends.
 */
void hs_ink_line (cairo_t *cr, const GdkRGBA *color, double width, double x1, double y1, double x2, double y2);

/**
 * hs_ink_box:
 * @fill: (nullable): the inside
 * @line: (nullable): the border, drawn wholly inside @area
 */
void hs_ink_box (cairo_t *cr, const graphene_rect_t *area, const GdkRGBA *fill, const GdkRGBA *line, double width);

/**
 * hs_ink_cairo:
 * @snapshot: where to draw
 * @widget: the widget being drawn
 * @margin: how far the drawing may reach beyond the widget's own area
 *
 * Returns: (transfer full): a context over the whole of @widget
 */
cairo_t *hs_ink_cairo (GtkSnapshot *snapshot, GtkWidget *widget, double margin);

G_END_DECLS
