// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Colors, text and fillings for the drawn widgets.
 *
 * Use it in snapshot functions: read the ink once, then draw. It holds no state and knows no widget of ours. It refuses
 * to know what a color means; that is written where it is drawn. */

#include "hs-ink.h"

#include <math.h>

#define DESIGN_TEXT_PX (11.0 * 96.0 / 72.0)

static void
read_color (GtkStyleContext *context,
            const char      *name,
            GdkRGBA         *color)
{
  *color = (GdkRGBA) { 0, 0, 0, 1 };
  gtk_style_context_lookup_color (context, name, color);
}

void
hs_ink_read (GtkWidget *widget,
             HsInk     *ret_ink)
{
  GtkStyleContext *context = gtk_widget_get_style_context (widget);

  read_color (context, "hs_bench", &ret_ink->bench);
  read_color (context, "hs_bar", &ret_ink->bar);
  read_color (context, "hs_paper", &ret_ink->paper);
  read_color (context, "hs_well", &ret_ink->well);
  read_color (context, "hs_ink", &ret_ink->ink);
  read_color (context, "hs_ink2", &ret_ink->ink2);
  read_color (context, "hs_edge", &ret_ink->edge);
  read_color (context, "hs_rule", &ret_ink->rule);
  read_color (context, "hs_copper", &ret_ink->copper);
  read_color (context, "hs_fill", &ret_ink->fill);
  read_color (context, "hs_on_fill", &ret_ink->on_fill);
  read_color (context, "hs_wash", &ret_ink->wash);
}

static double
system_text_px (GtkWidget *widget)
{
  GtkSettings *settings = gtk_widget_get_settings (widget);
  g_autofree char *name = NULL;
  g_autoptr (PangoFontDescription) font = NULL;
  double size;
  int dpi = -1;

  g_object_get (settings, "gtk-font-name", &name, "gtk-xft-dpi", &dpi, NULL);
  font = pango_font_description_from_string (name != NULL ? name : "");
  size = (double) pango_font_description_get_size (font) / PANGO_SCALE;
  if (size <= 0)
    size = 10;
  if (pango_font_description_get_size_is_absolute (font))
    return size;
  return size * (dpi > 0 ? dpi / 1024.0 : 96.0) / 72.0;
}

double
hs_ink_unit (GtkWidget *widget)
{
  return system_text_px (widget) / DESIGN_TEXT_PX;
}

PangoLayout *
hs_ink_layout (GtkWidget  *widget,
               const char *text,
               double      times,
               int         weight)
{
  PangoLayout *layout = gtk_widget_create_pango_layout (widget, text != NULL ? text : "");
  PangoContext *context = pango_layout_get_context (layout);
  g_autoptr (PangoFontDescription) font = pango_font_description_copy (pango_context_get_font_description (context));
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

  pango_font_description_set_absolute_size (font, system_text_px (widget) * times * PANGO_SCALE);
  pango_font_description_set_weight (font, weight);
  pango_layout_set_font_description (layout, font);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum"));
  pango_layout_set_attributes (layout, attributes);
  return layout;
}

double
hs_ink_text (cairo_t       *cr,
             PangoLayout   *layout,
             const GdkRGBA *color,
             double         x,
             double         y,
             double         align)
{
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  gdk_cairo_set_source_rgba (cr, color);
  cairo_move_to (cr, round (x - width * align), round (y - height / 2.0));
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  return width;
}

double
hs_ink_label (GtkWidget     *widget,
              cairo_t       *cr,
              const char    *text,
              double         times,
              int            weight,
              const GdkRGBA *color,
              double         x,
              double         y,
              double         align)
{
  g_autoptr (PangoLayout) layout = hs_ink_layout (widget, text, times, weight);

  return hs_ink_text (cr, layout, color, x, y, align);
}

int
hs_ink_width (GtkWidget  *widget,
              const char *text,
              double      times,
              int         weight)
{
  g_autoptr (PangoLayout) layout = hs_ink_layout (widget, text, times, weight);
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  return width;
}

static void
hatch_one_way (cairo_t               *cr,
               const graphene_rect_t *area,
               double                 step,
               gboolean               rising)
{
  double x0 = area->origin.x, y0 = area->origin.y;
  double w = area->size.width, h = area->size.height;

  for (double t = -h; t < w; t += step)
    {
      cairo_move_to (cr, x0 + t, rising ? y0 + h : y0);
      cairo_line_to (cr, x0 + t + h, rising ? y0 : y0 + h);
    }
}

void
hs_ink_hatch (cairo_t               *cr,
              const GdkRGBA         *color,
              const graphene_rect_t *area,
              double                 step,
              gboolean               crossed)
{
  if (area->size.width <= 0 || area->size.height <= 0 || step <= 0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, area->origin.x, area->origin.y, area->size.width, area->size.height);
  cairo_clip (cr);
  hatch_one_way (cr, area, step, TRUE);
  if (crossed)
    hatch_one_way (cr, area, step, FALSE);
  gdk_cairo_set_source_rgba (cr, color);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
hs_ink_dots (cairo_t               *cr,
             const GdkRGBA         *color,
             const graphene_rect_t *area,
             double                 step)
{
  if (step <= 0)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, area->origin.x, area->origin.y, area->size.width, area->size.height);
  cairo_clip (cr);
  for (double y = area->origin.y + step / 2; y < area->origin.y + area->size.height; y += step)
    for (double x = area->origin.x + step / 2; x < area->origin.x + area->size.width; x += step)
      {
        cairo_new_sub_path (cr);
        cairo_arc (cr, x, y, step / 5, 0, 2 * G_PI);
      }
  gdk_cairo_set_source_rgba (cr, color);
  cairo_fill (cr);
  cairo_restore (cr);
}

void
hs_ink_line (cairo_t       *cr,
             const GdkRGBA *color,
             double         width,
             double         x1,
             double         y1,
             double         x2,
             double         y2)
{
  gdk_cairo_set_source_rgba (cr, color);
  cairo_set_line_width (cr, width);
  cairo_move_to (cr, x1, y1);
  cairo_line_to (cr, x2, y2);
  cairo_stroke (cr);
}

void
hs_ink_box (cairo_t               *cr,
            const graphene_rect_t *area,
            const GdkRGBA         *fill,
            const GdkRGBA         *line,
            double                 width)
{
  if (fill != NULL)
    {
      cairo_rectangle (cr, area->origin.x, area->origin.y, area->size.width, area->size.height);
      gdk_cairo_set_source_rgba (cr, fill);
      cairo_fill (cr);
    }
  if (line != NULL)
    {
      cairo_rectangle (cr, area->origin.x + width / 2, area->origin.y + width / 2, MAX (0, area->size.width - width),
                       MAX (0, area->size.height - width));
      gdk_cairo_set_source_rgba (cr, line);
      cairo_set_line_width (cr, width);
      cairo_stroke (cr);
    }
}

cairo_t *
hs_ink_cairo (GtkSnapshot *snapshot,
              GtkWidget   *widget,
              double       margin)
{
  graphene_rect_t area = GRAPHENE_RECT_INIT (-margin, -margin, gtk_widget_get_width (widget) + 2 * margin,
                                             gtk_widget_get_height (widget) + 2 * margin);

  return gtk_snapshot_append_cairo (snapshot, &area);
}
