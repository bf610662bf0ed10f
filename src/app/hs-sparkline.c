// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A small line of readings.
 *
 * Use it beside the figure that it leads to. It has no axis: the newest figure stands in words next to it. */

#include "hs-sparkline.h"

#include <glib/gi18n.h>

#include <math.h>

#include "hs-ink.h"
#include "hs-spoken.h"

struct _HsSparkline
{
  GtkWidget parent_instance;
  GArray *points;
  char *limit;
  double limit_value;
};

typedef struct
{
  double left;
  double right;
  double top;
  double bottom;
  double first;
  double last;
  double low;
  double high;
} Frame;

G_DEFINE_FINAL_TYPE (HsSparkline, hs_sparkline, GTK_TYPE_WIDGET)

static const HsSparkPoint *
point_at (HsSparkline *self,
          guint        index)
{
  return &g_array_index (self->points, HsSparkPoint, index);
}

static void
make_frame (HsSparkline *self,
            double       u,
            Frame       *frame)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double text = self->limit != NULL ? hs_ink_width (widget, self->limit, 0.95, 400) + 8 * u : 6 * u;

  *frame = (Frame) { .left = 8 * u, .right = gtk_widget_get_width (widget) - text, .top = 9 * u };
  frame->bottom = gtk_widget_get_height (widget) - 9 * u;
  frame->low = frame->high = self->limit != NULL ? self->limit_value : point_at (self, 0)->value;
  for (guint i = 0; i < self->points->len; i++)
    {
      frame->low = MIN (frame->low, point_at (self, i)->value);
      frame->high = MAX (frame->high, point_at (self, i)->value);
    }
  frame->first = point_at (self, 0)->when;
  frame->last = point_at (self, self->points->len - 1)->when;
}

static double
frame_x (const Frame *frame,
         double       when)
{
  if (frame->last <= frame->first)
    return frame->right - 10;
  return frame->left + (frame->right - 10 - frame->left) * (when - frame->first) / (frame->last - frame->first);
}

static double
frame_y (const Frame *frame,
         double       value)
{
  if (frame->high <= frame->low)
    return (frame->top + frame->bottom) / 2;
  return frame->bottom - (frame->bottom - frame->top) * (value - frame->low) / (frame->high - frame->low);
}

static void
draw_limit (HsSparkline *self,
            cairo_t     *cr,
            const HsInk *ink,
            const Frame *frame,
            double       u)
{
  static const double dots[] = { 2, 4 };
  double y = round (frame_y (frame, self->limit_value)) + 0.5;

  cairo_save (cr);
  cairo_set_dash (cr, dots, 2, 0);
  hs_ink_line (cr, &ink->ink2, 1.5, 2, y, frame->right, y);
  cairo_restore (cr);
  hs_ink_label (GTK_WIDGET (self), cr, self->limit, 0.95, 400, &ink->ink2, frame->right + 4 * u, y, 0);
}

static void
draw_swap (HsSparkline *self,
           cairo_t     *cr,
           const HsInk *ink,
           const Frame *frame)
{
  static const double dashes[] = { 5, 3 };

  for (guint i = 0; i + 1 < self->points->len; i++)
    if (point_at (self, i)->old && !point_at (self, i + 1)->old)
      {
        double before = frame_x (frame, point_at (self, i)->when);
        double x = round (MIN ((before + frame_x (frame, point_at (self, i + 1)->when)) / 2, before + 8));

        cairo_save (cr);
        cairo_set_dash (cr, dashes, 2, 0);
        hs_ink_line (cr, &ink->ink, 2.5, x, 0, x, gtk_widget_get_height (GTK_WIDGET (self)));
        cairo_restore (cr);
      }
}

static void
draw_points (HsSparkline *self,
             cairo_t     *cr,
             const HsInk *ink,
             const Frame *frame,
             double       u)
{
  for (guint i = 0; i + 1 < self->points->len; i++)
    if (point_at (self, i)->old == point_at (self, i + 1)->old)
      hs_ink_line (cr, &ink->ink, 2, frame_x (frame, point_at (self, i)->when),
                   frame_y (frame, point_at (self, i)->value), frame_x (frame, point_at (self, i + 1)->when),
                   frame_y (frame, point_at (self, i + 1)->value));
  for (guint i = 0; i < self->points->len; i++)
    {
      double x = frame_x (frame, point_at (self, i)->when), y = frame_y (frame, point_at (self, i)->value);

      if (point_at (self, i)->old)
        {
          hs_ink_box (cr, &GRAPHENE_RECT_INIT (x - 5 * u, y - 5 * u, 10 * u, 10 * u), &ink->paper, &ink->ink, 2.5);
          continue;
        }
      cairo_arc (cr, x, y, 5.5 * u, 0, 2 * G_PI);
      gdk_cairo_set_source_rgba (cr, &ink->ink);
      cairo_fill (cr);
    }
}

static void
hs_sparkline_snapshot (GtkWidget   *widget,
                       GtkSnapshot *snapshot)
{
  HsSparkline *self = HS_SPARKLINE (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  double u = hs_ink_unit (widget);
  Frame frame;
  HsInk ink;

  if (self->points->len == 0)
    return;
  hs_ink_read (widget, &ink);
  make_frame (self, u, &frame);
  if (self->limit != NULL)
    draw_limit (self, cr, &ink, &frame, u);
  draw_swap (self, cr, &ink, &frame);
  draw_points (self, cr, &ink, &frame, u);
}

static void
hs_sparkline_measure (GtkWidget      *widget,
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
      *minimum = (int) (120 * u);
      *natural = (int) (200 * u);
    }
  else
    *minimum = *natural = (int) (54 * u);
}

static void
clear_point (gpointer data)
{
  g_free ((char *) ((HsSparkPoint *) data)->spoken);
}

static void
hs_sparkline_finalize (GObject *object)
{
  g_array_unref (HS_SPARKLINE (object)->points);
  g_free (HS_SPARKLINE (object)->limit);
  G_OBJECT_CLASS (hs_sparkline_parent_class)->finalize (object);
}

static void
hs_sparkline_class_init (HsSparklineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_sparkline_finalize;
  widget_class->snapshot = hs_sparkline_snapshot;
  widget_class->measure = hs_sparkline_measure;
  gtk_widget_class_set_css_name (widget_class, "sparkline");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hs_sparkline_init (HsSparkline *self)
{
  self->points = g_array_new (FALSE, FALSE, sizeof (HsSparkPoint));
  g_array_set_clear_func (self->points, clear_point);
  hs_spoken_name (GTK_WIDGET (self), _("Readings over time"));
}

GtkWidget *
hs_sparkline_new (void)
{
  return g_object_new (HS_TYPE_SPARKLINE, NULL);
}

void
hs_sparkline_set (HsSparkline        *self,
                  const char         *title,
                  const HsSparkPoint *points,
                  guint               n_points,
                  const char         *limit,
                  double              limit_value)
{
  g_autoptr (GString) name = g_string_new (title);

  g_return_if_fail (HS_IS_SPARKLINE (self));

  g_array_set_size (self->points, 0);
  for (guint i = 0; i < n_points; i++)
    {
      HsSparkPoint copy = points[i];

      copy.spoken = g_strdup (points[i].spoken);
      g_array_append_val (self->points, copy);
      g_string_append_printf (name, ", %s", copy.spoken != NULL ? copy.spoken : "");
    }
  g_free (self->limit);
  self->limit = g_strdup (limit);
  self->limit_value = limit_value;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name->str, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
