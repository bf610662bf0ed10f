// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A reading on its limits.
 *
 * Use it under the entry of a check. The bands come from the catalog of checks; this widget refuses to judge and knows
 * no unit. Shapes say what the words say: rail within, hatch watch, cross-hatch outside, dots not judged. */

#include "hs-gauge.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-ink.h"

#define TOP_PX 26
#define BAND_PX 31
#define BELOW_PX 30

typedef struct
{
  HsGaugeBand kind;
  double to;
  char *word;
} Band;

typedef struct
{
  double value;
  char *text;
} Tick;

struct _HsGauge
{
  GtkWidget parent_instance;
  double from;
  double to;
  gboolean logarithmic;
  gboolean compact;
  GArray *bands;
  GArray *ticks;
  GArray *makers;
  gboolean known;
  double value;
  gboolean before_known;
  double before;
};

G_DEFINE_FINAL_TYPE (HsGauge, hs_gauge, GTK_TYPE_WIDGET)

static void
clear_band (gpointer data)
{
  g_free (((Band *) data)->word);
}

static void
clear_tick (gpointer data)
{
  g_free (((Tick *) data)->text);
}

static double
margin_px (HsGauge *self)
{
  return 16 * hs_ink_unit (GTK_WIDGET (self));
}

static double
x_of (HsGauge *self,
      double   value)
{
  double margin = margin_px (self);

  return margin + (gtk_widget_get_width (GTK_WIDGET (self)) - 2 * margin) * hs_gauge_get_fraction (self, value);
}

static void
draw_word (HsGauge     *self,
           cairo_t     *cr,
           const HsInk *ink,
           const Band  *band,
           double       x1,
           double       x2,
           double       middle)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double u = hs_ink_unit (widget), x = (x1 + x2) / 2;
  int width = band->word != NULL ? hs_ink_width (widget, band->word, 1.02, 700) : 0;
  double needle = x_of (self, self->value);

  if (width == 0 || width + 8 * u > x2 - x1)
    return;
  if (self->known && fabs (needle - x) < width / 2.0 + 12 * u)
    {
      double left = (x1 + needle) / 2, right = (needle + x2) / 2;

      x = needle - x1 > x2 - needle ? left : right;
      if (fabs (needle - x) < width / 2.0 + 10 * u || x - width / 2.0 < x1 || x + width / 2.0 > x2)
        return;
    }
  if (band->kind != HS_GAUGE_BAND_WITHIN)
    hs_ink_box (cr, &GRAPHENE_RECT_INIT (x - width / 2.0 - 8 * u, middle - 9 * u, width + 16 * u, 18 * u), &ink->paper,
                NULL, 0);
  hs_ink_label (widget, cr, band->word, 1.02, 700, &ink->ink, x,
                middle - (band->kind == HS_GAUGE_BAND_WITHIN ? 2 * u : 0), 0.5);
}

static void
draw_band (HsGauge     *self,
           cairo_t     *cr,
           const HsInk *ink,
           const Band  *band,
           double       x1,
           double       x2,
           double       top)
{
  double u = hs_ink_unit (GTK_WIDGET (self)), height = BAND_PX * u;
  graphene_rect_t area = GRAPHENE_RECT_INIT (x1, top, x2 - x1, height);

  hs_ink_box (cr, &area, band->kind == HS_GAUGE_BAND_WITHIN ? &ink->well : &ink->paper, NULL, 0);
  switch (band->kind)
    {
    case HS_GAUGE_BAND_WITHIN:
      hs_ink_box (cr, &GRAPHENE_RECT_INIT (x1 + 4, top + height - 7 * u, MAX (0, x2 - x1 - 7), 5 * u), &ink->ink, NULL,
                  0);
      break;
    case HS_GAUGE_BAND_WATCH:
      hs_ink_hatch (cr, &ink->ink2, &area, 8 * u, FALSE);
      break;
    case HS_GAUGE_BAND_OUTSIDE:
      hs_ink_hatch (cr, &ink->ink2, &area, 7 * u, TRUE);
      break;
    case HS_GAUGE_BAND_NOT_JUDGED:
    default:
      hs_ink_dots (cr, &ink->ink2, &area, 6 * u);
      break;
    }
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (x1 - 1, top, x2 - x1 + 2, height), NULL, &ink->ink, 2);
}

static void
draw_bands (HsGauge     *self,
            cairo_t     *cr,
            const HsInk *ink,
            double       top)
{
  double from = self->from;

  for (guint pass = 0; pass < 2; pass++, from = self->from)
    for (guint i = 0; i < self->bands->len; i++)
      {
        const Band *band = &g_array_index (self->bands, Band, i);
        double x1 = round (x_of (self, from)), x2 = round (x_of (self, band->to));

        if (pass == 0)
          draw_band (self, cr, ink, band, x1, x2, top);
        else
          draw_word (self, cr, ink, band, x1, x2, top + BAND_PX * hs_ink_unit (GTK_WIDGET (self)) / 2);
        from = band->to;
      }
}

static void
draw_ticks (HsGauge     *self,
            cairo_t     *cr,
            const HsInk *ink,
            double       bottom)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double u = hs_ink_unit (widget), free_from = -G_MAXDOUBLE;

  for (guint i = 0; i < self->ticks->len; i++)
    {
      const Tick *tick = &g_array_index (self->ticks, Tick, i);
      double x = round (x_of (self, tick->value));
      int width = hs_ink_width (widget, tick->text, 1.05, 400);

      if (self->compact && i % 2 == 1 && i + 1 < self->ticks->len)
        continue;
      hs_ink_line (cr, &ink->ink, 1.5, x, bottom, x, bottom + 5 * u);
      if (x - width / 2.0 < free_from)
        continue;
      hs_ink_label (widget, cr, tick->text, 1.05, 400, &ink->ink, x, bottom + 18 * u, 0.5);
      free_from = x + width / 2.0 + 6 * u;
    }
}

static void
draw_makers (HsGauge     *self,
             cairo_t     *cr,
             const HsInk *ink,
             double       top)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double u = hs_ink_unit (widget), first = 0, last = 0;
  int width;

  for (guint i = 0; i < self->makers->len; i++)
    {
      double x = round (x_of (self, g_array_index (self->makers, double, i)));

      hs_ink_line (cr, &ink->ink, 1.75, x, top - 10 * u, x, top);
      first = i == 0 ? x : MIN (first, x);
      last = i == 0 ? x : MAX (last, x);
    }
  first = (first + last) / 2;
  width = hs_ink_width (widget, _("makers"), 0.95, 700);
  if (self->known && fabs (x_of (self, self->value) - first) < width / 2.0 + 14 * u)
    return;
  if (self->makers->len > 0 && !self->compact)
    /* Translators: over the ticks that show what the makers of vehicles allow. */
    hs_ink_label (widget, cr, _("makers"), 0.95, 700, &ink->ink2, MAX (first, 30 * u), top - 19 * u, 0.5);
}

static void
draw_needle (HsGauge     *self,
             cairo_t     *cr,
             const HsInk *ink,
             double       x,
             double       top,
             gboolean     now)
{
  double u = hs_ink_unit (GTK_WIDGET (self)), half = (now ? 12 : 9) * u, height = (now ? 23 : 17) * u;
  double bottom = top + BAND_PX * u;
  static const double dash[] = { 3, 3 };

  if (now)
    {
      hs_ink_line (cr, &ink->paper, 9 * u, x, top - 1, x, bottom + 1);
      hs_ink_line (cr, &ink->ink, 4.5 * u, x, top - 12 * u, x, bottom + 6 * u);
    }
  else
    {
      cairo_save (cr);
      cairo_set_dash (cr, dash, 2, 0);
      hs_ink_line (cr, &ink->ink, 2.5, x, top - 4 * u, x, bottom);
      cairo_restore (cr);
    }
  cairo_move_to (cr, x - half, top - height);
  cairo_line_to (cr, x + half, top - height);
  cairo_line_to (cr, x, top - (now ? 2 : 3) * u);
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, now ? &ink->ink : &ink->paper);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_set_line_width (cr, now ? 0.5 : 2.25);
  cairo_stroke (cr);
}

static void
hs_gauge_snapshot (GtkWidget   *widget,
                   GtkSnapshot *snapshot)
{
  HsGauge *self = HS_GAUGE (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  double u = hs_ink_unit (widget), top = round (TOP_PX * u);
  HsInk ink;

  hs_ink_read (widget, &ink);
  draw_bands (self, cr, &ink, top);
  draw_ticks (self, cr, &ink, top + round (BAND_PX * u));
  draw_makers (self, cr, &ink, top);
  if (self->before_known)
    draw_needle (self, cr, &ink, round (x_of (self, self->before)), top, FALSE);
  if (self->known)
    draw_needle (self, cr, &ink, round (x_of (self, self->value)), top, TRUE);
}

static void
hs_gauge_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  double u = hs_ink_unit (widget);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 240;
      *natural = (int) (640 * u);
    }
  else
    *minimum = *natural = (int) ((TOP_PX + BAND_PX + BELOW_PX) * u);
}

static void
hs_gauge_finalize (GObject *object)
{
  HsGauge *self = HS_GAUGE (object);

  g_array_unref (self->bands);
  g_array_unref (self->ticks);
  g_array_unref (self->makers);
  G_OBJECT_CLASS (hs_gauge_parent_class)->finalize (object);
}

static void
hs_gauge_class_init (HsGaugeClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_gauge_finalize;
  widget_class->snapshot = hs_gauge_snapshot;
  widget_class->measure = hs_gauge_measure;
  gtk_widget_class_set_css_name (widget_class, "gauge");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_METER);
}

static void
hs_gauge_init (HsGauge *self)
{
  self->to = 1;
  self->bands = g_array_new (FALSE, FALSE, sizeof (Band));
  g_array_set_clear_func (self->bands, clear_band);
  self->ticks = g_array_new (FALSE, FALSE, sizeof (Tick));
  g_array_set_clear_func (self->ticks, clear_tick);
  self->makers = g_array_new (FALSE, FALSE, sizeof (double));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Reading on its limits"), -1);
}

GtkWidget *
hs_gauge_new (void)
{
  return g_object_new (HS_TYPE_GAUGE, NULL);
}

void
hs_gauge_set_scale (HsGauge  *self,
                    double    from,
                    double    to,
                    gboolean  logarithmic)
{
  g_return_if_fail (HS_IS_GAUGE (self));
  g_return_if_fail (from < to);
  g_return_if_fail (!logarithmic || from > 0);

  self->from = from;
  self->to = to;
  self->logarithmic = logarithmic;
  self->known = self->before_known = FALSE;
  g_array_set_size (self->bands, 0);
  g_array_set_size (self->ticks, 0);
  g_array_set_size (self->makers, 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, from,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, to, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, "", -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_gauge_add_band (HsGauge     *self,
                   HsGaugeBand  kind,
                   double       to,
                   const char  *word)
{
  Band band = { kind, to, g_strdup (word) };

  g_return_if_fail (HS_IS_GAUGE (self));

  g_array_append_val (self->bands, band);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_gauge_add_tick (HsGauge    *self,
                   double      value,
                   const char *text)
{
  Tick tick = { value, g_strdup (text) };

  g_return_if_fail (HS_IS_GAUGE (self));

  g_array_append_val (self->ticks, tick);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_gauge_add_maker (HsGauge *self,
                    double   value)
{
  g_return_if_fail (HS_IS_GAUGE (self));

  g_array_append_val (self->makers, value);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_gauge_set_needle (HsGauge    *self,
                     gboolean    known,
                     double      value,
                     const char *text)
{
  g_return_if_fail (HS_IS_GAUGE (self));

  self->known = known;
  self->value = value;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, known ? value : self->from,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, text != NULL ? text : "", -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_gauge_set_before (HsGauge  *self,
                     gboolean  known,
                     double    value)
{
  g_return_if_fail (HS_IS_GAUGE (self));

  self->before_known = known;
  self->before = value;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
hs_gauge_get_needle (HsGauge *self, double *ret_value)
{
  g_return_val_if_fail (HS_IS_GAUGE (self), FALSE);

  if (self->known)
    *ret_value = self->value;
  return self->known;
}

gboolean
hs_gauge_get_before (HsGauge *self, double *ret_value)
{
  g_return_val_if_fail (HS_IS_GAUGE (self), FALSE);

  if (self->before_known)
    *ret_value = self->before;
  return self->before_known;
}

void
hs_gauge_set_compact (HsGauge  *self,
                      gboolean  compact)
{
  g_return_if_fail (HS_IS_GAUGE (self));

  self->compact = compact;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

double
hs_gauge_get_fraction (HsGauge *self,
                       double   value)
{
  double at;

  g_return_val_if_fail (HS_IS_GAUGE (self), 0);

  if (self->logarithmic)
    at = value > 0 ? log (value / self->from) / log (self->to / self->from) : 0;
  else
    at = (value - self->from) / (self->to - self->from);
  return CLAMP (at, 0, 1);
}
