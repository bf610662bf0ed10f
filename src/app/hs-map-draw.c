// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a map looks like: paper, light grid, wire for drives, marks that differ by shape. It keeps nothing. */

#include "hs-map-draw.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-decimal.h"

#define UNITS_PER_DEGREE 100000.0
#define MOST_LINES 200

static gboolean
is_free (HsMapSheet *sheet, const graphene_rect_t *area)
{
  for (guint i = 0; i < sheet->taken->len; i++)
    if (graphene_rect_intersection (&g_array_index (sheet->taken, graphene_rect_t, i), area, NULL))
      return FALSE;
  return TRUE;
}

/* A caption on a piece of blank paper. */
static void
draw_caption (HsMapSheet *sheet, const char *text, double x, double y, double align, const GdkRGBA *color, int weight)
{
  double wide = hs_ink_width (sheet->widget, text, 0.95, weight);
  graphene_rect_t area = GRAPHENE_RECT_INIT ((float) (x - align * wide - 3), (float) (y - 9 * sheet->u),
                                             (float) (wide + 6), (float) (18 * sheet->u));

  hs_ink_box (sheet->cr, &area, &sheet->ink.well, NULL, 0);
  hs_ink_label (sheet->widget, sheet->cr, text, 0.95, weight, color, x, y, align);
  g_array_append_val (sheet->taken, area);
}

static void
draw_parallels (HsMapSheet *sheet)
{
  gint64 step = hs_chart_grid (&sheet->chart, 96 * sheet->u, FALSE), at;
  double north, south, unused, x, y;

  hs_chart_to_position (&sheet->chart, 0, 0, &north, &unused);
  hs_chart_to_position (&sheet->chart, 0, sheet->chart.height, &south, &unused);
  at = (gint64) ceil (south * UNITS_PER_DEGREE / (double) step);
  for (int line = 0; line < MOST_LINES && at * step <= north * UNITS_PER_DEGREE; line++, at++)
    {
      double latitude = at * step / UNITS_PER_DEGREE;
      g_autofree char *text = hs_chart_say (latitude, step);

      hs_chart_to_pixels (&sheet->chart, latitude, sheet->chart.longitude, &x, &y);
      hs_ink_line (sheet->cr, &sheet->ink.rule, 1, 0, floor (y) + 0.5, sheet->chart.width, floor (y) + 0.5);
      if (y > 16 * sheet->u && y < sheet->chart.height - 64 * sheet->u)
        draw_caption (sheet, text, 6 * sheet->u, y, 0, &sheet->ink.ink2, 400);
    }
}

static void
draw_meridians (HsMapSheet *sheet)
{
  gint64 step = hs_chart_grid (&sheet->chart, 120 * sheet->u, TRUE), at;
  double west, unused, x = 0, y;

  hs_chart_to_position (&sheet->chart, 0, sheet->chart.height / 2, &unused, &west);
  at = (gint64) ceil (west * UNITS_PER_DEGREE / (double) step);
  for (int line = 0; line < MOST_LINES && x <= sheet->chart.width; line++, at++)
    {
      double longitude = at * step / UNITS_PER_DEGREE;
      g_autofree char *text = hs_chart_say (longitude > 180 ? longitude - 360 : longitude, step);

      hs_chart_to_pixels (&sheet->chart, sheet->chart.latitude, longitude, &x, &y);
      hs_ink_line (sheet->cr, &sheet->ink.rule, 1, floor (x) + 0.5, 0, floor (x) + 0.5, sheet->chart.height);
      if (x > 90 * sheet->u && x < sheet->chart.width - 40 * sheet->u)
        draw_caption (sheet, text, x, sheet->chart.height - 12 * sheet->u, 0.5, &sheet->ink.ink2, 400);
    }
}

void
hs_map_draw_grid (HsMapSheet *sheet)
{
  draw_parallels (sheet);
  draw_meridians (sheet);
}

void
hs_map_draw_leg (HsMapSheet *sheet, const double *from, const double *to)
{
  double x1, y1, x2, y2, angle, size = 12 * sheet->u, middle_x, middle_y;

  hs_chart_to_pixels (&sheet->chart, from[0], from[1], &x1, &y1);
  hs_chart_to_pixels (&sheet->chart, to[0], to[1], &x2, &y2);
  if (hypot (x2 - x1, y2 - y1) < 1)
    return;
  hs_ink_line (sheet->cr, &sheet->ink.copper, 3.5 * sheet->u, x1, y1, x2, y2);
  if (hypot (x2 - x1, y2 - y1) < 3 * size)
    return;
  angle = atan2 (y2 - y1, x2 - x1);
  middle_x = (x1 + x2) / 2 + cos (angle) * size / 2;
  middle_y = (y1 + y2) / 2 + sin (angle) * size / 2;
  cairo_move_to (sheet->cr, middle_x, middle_y);
  cairo_line_to (sheet->cr, middle_x - size * cos (angle - 0.5), middle_y - size * sin (angle - 0.5));
  cairo_line_to (sheet->cr, middle_x - size * cos (angle + 0.5), middle_y - size * sin (angle + 0.5));
  cairo_close_path (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.copper);
  cairo_fill (sheet->cr);
}

static void
draw_house (HsMapSheet *sheet, double x, double y)
{
  double u = sheet->u;

  cairo_move_to (sheet->cr, x - 12 * u, y - 2 * u);
  cairo_line_to (sheet->cr, x, y - 12 * u);
  cairo_line_to (sheet->cr, x + 12 * u, y - 2 * u);
  cairo_line_to (sheet->cr, x + 12 * u, y + 11 * u);
  cairo_line_to (sheet->cr, x - 12 * u, y + 11 * u);
  cairo_close_path (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.ink);
  cairo_fill (sheet->cr);
}

/* The solid notched post of the time strip. */
static void
draw_post (HsMapSheet *sheet, double x, double y)
{
  double u = sheet->u;

  hs_ink_box (sheet->cr, &GRAPHENE_RECT_INIT ((float) (x - 6 * u), (float) (y - 9 * u), (float) (12 * u),
                                              (float) (18 * u)), &sheet->ink.ink, NULL, 0);
  hs_ink_box (sheet->cr, &GRAPHENE_RECT_INIT ((float) (x - 2 * u), (float) (y - 9 * u), (float) (4 * u),
                                              (float) (6 * u)), &sheet->ink.well, NULL, 0);
}

static void
draw_ring (HsMapSheet *sheet, double x, double y, double radius, double width)
{
  cairo_new_path (sheet->cr);
  cairo_arc (sheet->cr, x, y, radius * sheet->u, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.paper);
  cairo_fill_preserve (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.ink);
  cairo_set_line_width (sheet->cr, width);
  cairo_stroke (sheet->cr);
}

void
hs_map_draw_mark (HsMapSheet *sheet, const HsMapPlace *place)
{
  double x, y;

  hs_chart_to_pixels (&sheet->chart, place->latitude, place->longitude, &x, &y);
  switch (place->kind)
    {
    case HS_MAP_BASE:
      draw_house (sheet, x, y);
      break;
    case HS_MAP_AREA:
      draw_ring (sheet, x, y, 11, 2.5);
      break;
    case HS_MAP_COUNTER:
      draw_post (sheet, x, y);
      break;
    case HS_MAP_CUSTOMER:
      draw_ring (sheet, x, y, 4, 1.5);
      break;
    }
}

void
hs_map_draw_name (HsMapSheet *sheet, const HsMapPlace *place)
{
  double x, y, u = sheet->u, wide = hs_ink_width (sheet->widget, place->name, 0.95, 700);
  double sides[4][2];

  hs_chart_to_pixels (&sheet->chart, place->latitude, place->longitude, &x, &y);
  for (guint i = 0; i < 4; i++)
    {
      sides[i][0] = i == 0 ? x + 17 * u : i == 1 ? x - 17 * u - wide : x - wide / 2;
      sides[i][1] = i == 2 ? y + 23 * u : i == 3 ? y - 23 * u : y;
    }
  for (guint i = 0; i < 4; i++)
    {
      graphene_rect_t area = GRAPHENE_RECT_INIT ((float) (sides[i][0] - 3), (float) (sides[i][1] - 9 * u),
                                                 (float) (wide + 6), (float) (18 * u));

      if (area.origin.x < 0 || area.origin.x + area.size.width > sheet->chart.width || !is_free (sheet, &area))
        continue;
      draw_caption (sheet, place->name, sides[i][0], sides[i][1], 0, &sheet->ink.ink, 700);
      return;
    }
}

/* A tag's eyelet on a point. */
void
hs_map_draw_pin (HsMapSheet *sheet, double latitude, double longitude)
{
  double x, y, u = sheet->u;

  hs_chart_to_pixels (&sheet->chart, latitude, longitude, &x, &y);
  cairo_move_to (sheet->cr, x, y);
  cairo_line_to (sheet->cr, x - 11 * u, y - 20 * u);
  cairo_arc (sheet->cr, x, y - 24 * u, 12 * u, G_PI - 0.3, 2 * G_PI + 0.3);
  cairo_close_path (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.fill);
  cairo_fill_preserve (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.on_fill);
  cairo_set_line_width (sheet->cr, 1.5);
  cairo_stroke (sheet->cr);
  cairo_arc (sheet->cr, x, y - 24 * u, 4.5 * u, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.on_fill);
  cairo_fill (sheet->cr);
}

void
hs_map_draw_crosshair (HsMapSheet *sheet, double latitude, double longitude)
{
  static const int ways[][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  double x, y, u = sheet->u;

  hs_chart_to_pixels (&sheet->chart, latitude, longitude, &x, &y);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    hs_ink_line (sheet->cr, &sheet->ink.copper, 3, x + ways[i][0] * 5 * u, y + ways[i][1] * 5 * u,
                 x + ways[i][0] * 20 * u, y + ways[i][1] * 20 * u);
}

/* What lies at the edge leaves the frame to be seen. */
#define FRAME 2

static void
draw_north (HsMapSheet *sheet)
{
  double u = sheet->u, x = sheet->chart.width - 24 * u, y = 14 * u;
  graphene_rect_t area = GRAPHENE_RECT_INIT ((float) (x - 14 * u), FRAME, (float) (28 * u), (float) (58 * u));

  hs_ink_box (sheet->cr, &area, &sheet->ink.well, NULL, 0);
  cairo_move_to (sheet->cr, x, y);
  cairo_line_to (sheet->cr, x + 9 * u, y + 22 * u);
  cairo_line_to (sheet->cr, x, y + 16 * u);
  cairo_line_to (sheet->cr, x - 9 * u, y + 22 * u);
  cairo_close_path (sheet->cr);
  gdk_cairo_set_source_rgba (sheet->cr, &sheet->ink.ink);
  cairo_fill (sheet->cr);
  hs_ink_label (sheet->widget, sheet->cr, C_("north on a map", "N"), 1.02, 800, &sheet->ink.ink, x, y + 33 * u, 0.5);
  g_array_append_val (sheet->taken, area);
}

void
hs_map_draw_scale (HsMapSheet *sheet)
{
  double u = sheet->u, x = 12 * u, y = sheet->chart.height - 34 * u, pixels;
  gint64 millimiles = hs_chart_scale (&sheet->chart, MIN (180 * u, sheet->chart.width / 2), &pixels);
  g_autofree char *miles = hs_decimal_format_short (millimiles, 3);
  g_autofree char *text = g_strdup_printf (_("%s mi"), miles);
  double wide = MAX (pixels, hs_ink_width (sheet->widget, text, 0.95, 700));
  graphene_rect_t area = GRAPHENE_RECT_INIT (FRAME, (float) (y - 22 * u), (float) (wide + 24 * u), (float) (34 * u));

  hs_ink_box (sheet->cr, &area, &sheet->ink.well, NULL, 0);
  hs_ink_label (sheet->widget, sheet->cr, text, 0.95, 700, &sheet->ink.ink, x, y - 11 * u, 0);
  hs_ink_line (sheet->cr, &sheet->ink.ink, 3, x, y + 4 * u, x + pixels, y + 4 * u);
  hs_ink_line (sheet->cr, &sheet->ink.ink, 2, x + 1, y - 1 * u, x + 1, y + 9 * u);
  hs_ink_line (sheet->cr, &sheet->ink.ink, 2, x + pixels - 1, y - 1 * u, x + pixels - 1, y + 9 * u);
  g_array_append_val (sheet->taken, area);
  draw_north (sheet);
}
