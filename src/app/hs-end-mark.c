// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The ends of a why-chain as the ends of a wire, drawn on 48 × 24 units, and a widget that shows one.
 *
 * Use it beside its word. The shapes differ in outline, not only inside, so that they can be told apart in one ink. */

#include "hs-end-mark.h"

#include "hs-ink.h"

struct _HsEndMark
{
  GtkWidget parent_instance;
  HsChainEnd end;
};

G_DEFINE_FINAL_TYPE (HsEndMark, hs_end_mark, GTK_TYPE_WIDGET)

static void
fill_box (cairo_t *cr, double x, double y, double width, double height)
{
  cairo_rectangle (cr, x, y, width, height);
  cairo_fill (cr);
}

static void
stroke (cairo_t *cr, double width)
{
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* Where the wire is pressed into a lug. */
static void
draw_barrel (cairo_t *cr)
{
  for (int i = 0; i < 3; i++)
    fill_box (cr, i * 5, 5, 3, 14);
  fill_box (cr, 15, 5, 8, 14);
  fill_box (cr, 22, 9, 6, 6);
}

static void
draw_ring (cairo_t *cr)
{
  draw_barrel (cr);
  cairo_arc (cr, 37, 12, 8.3, 0, 2 * G_PI);
  stroke (cr, 5.2);
}

static void
draw_fork (cairo_t *cr)
{
  draw_barrel (cr);
  cairo_move_to (cr, 47, 3.6);
  cairo_line_to (cr, 36, 3.6);
  cairo_arc_negative (cr, 36, 12, 8.4, -G_PI / 2, G_PI / 2);
  cairo_line_to (cr, 47, 20.4);
  stroke (cr, 5);
}

static void
draw_cap (cairo_t *cr)
{
  for (int i = 0; i < 4; i++)
    fill_box (cr, i * 6, 1.5, 4, 21);
  fill_box (cr, 24, 1.5, 11, 21);
  cairo_arc (cr, 35, 12, 10.5, -G_PI / 2, G_PI / 2);
  cairo_fill (cr);
}

static void
draw_frayed (cairo_t *cr)
{
  static const double ends[][2] = { { 47, 1.5 }, { 48, 8.5 }, { 48, 15.5 }, { 47, 22.5 } };

  fill_box (cr, 0, 9.8, 17, 4.4);
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      cairo_move_to (cr, 15, 12);
      cairo_curve_to (cr, 26, 12, 32, ends[i][1], ends[i][0], ends[i][1]);
      stroke (cr, 2.4);
    }
}

/* Nothing is on it yet. */
static void
draw_loose (cairo_t *cr)
{
  static const double dash[] = { 5, 3.5 };

  cairo_set_dash (cr, dash, 2, 0);
  cairo_move_to (cr, 0, 12);
  cairo_line_to (cr, 27, 12);
  stroke (cr, 3);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_arc (cr, 36, 12, 7, 0, 2 * G_PI);
  stroke (cr, 2);
}

void
hs_end_mark_draw (cairo_t *cr, HsChainEnd end, const GdkRGBA *color, double x, double y, double height)
{
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, height / 24, height / 24);
  gdk_cairo_set_source_rgba (cr, color);
  cairo_new_path (cr);
  switch (end)
    {
    case HS_CHAIN_CURED: draw_ring (cr); break;
    case HS_CHAIN_CHOSEN: draw_fork (cr); break;
    case HS_CHAIN_OUTSIDE_TOLD: draw_cap (cr); break;
    case HS_CHAIN_NOT_KNOWN_TOLD: draw_frayed (cr); break;
    case HS_CHAIN_NO_END:
    default: draw_loose (cr); break;
    }
  cairo_restore (cr);
}

static void
hs_end_mark_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget), high = MIN (height, width / 2);
  GdkRGBA color;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &color);
  hs_end_mark_draw (cr, HS_END_MARK (widget)->end, &color, (width - 2 * high) / 2, (height - high) / 2, high);
}

static void
hs_end_mark_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                     int *minimum_baseline, int *natural_baseline)
{
  int high = (int) (22 * hs_ink_unit (widget) + 0.5);

  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 2 * high : high;
}

static void
hs_end_mark_class_init (HsEndMarkClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = hs_end_mark_snapshot;
  widget_class->measure = hs_end_mark_measure;
  gtk_widget_class_set_css_name (widget_class, "endmark");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hs_end_mark_init (HsEndMark *self)
{
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
hs_end_mark_new (HsChainEnd end)
{
  HsEndMark *self = g_object_new (HS_TYPE_END_MARK, NULL);

  self->end = end;
  return GTK_WIDGET (self);
}
