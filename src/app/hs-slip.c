// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is drawn of a parts-run slip: its torn paper and the rail of opening hours.
 *
 * Use HsSlip around the labels and ticks of a counter, HsOpenRail in its head. Neither knows money or parts. */

#include "hs-slip.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-ink.h"

#define TEAR_HEIGHT_PX 7
#define TEAR_WIDTH_PX 16

struct _HsSlip
{
  GtkWidget parent_instance;
  GtkWidget *child;
};

enum
{
  PROP_0,
  PROP_CHILD,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HsSlip, hs_slip, GTK_TYPE_WIDGET)

static void
trace_paper (cairo_t *cr,
             double   width,
             double   height)
{
  guint teeth = (guint) MAX (1, round (width / TEAR_WIDTH_PX));
  double step = (width - 1) / teeth;

  cairo_move_to (cr, 0.5, height - 0.5);
  cairo_line_to (cr, 0.5, 0.5);
  for (guint i = 0; i < teeth; i++)
    {
      cairo_line_to (cr, 0.5 + (i + 0.5) * step, TEAR_HEIGHT_PX + 0.5);
      cairo_line_to (cr, 0.5 + (i + 1) * step, 0.5);
    }
  cairo_line_to (cr, width - 0.5, height - 0.5);
  cairo_close_path (cr);
}

static void
hs_slip_snapshot (GtkWidget   *widget,
                  GtkSnapshot *snapshot)
{
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  HsInk ink;

  hs_ink_read (widget, &ink);
  trace_paper (cr, gtk_widget_get_width (widget), gtk_widget_get_height (widget));
  gdk_cairo_set_source_rgba (cr, &ink.paper);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &ink.edge);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  GTK_WIDGET_CLASS (hs_slip_parent_class)->snapshot (widget, snapshot);
}

static void
hs_slip_measure (GtkWidget      *widget,
                 GtkOrientation  orientation,
                 int             for_size,
                 int            *minimum,
                 int            *natural,
                 int            *minimum_baseline,
                 int            *natural_baseline)
{
  HsSlip *self = HS_SLIP (widget);

  if (self->child != NULL)
    gtk_widget_measure (self->child, orientation, for_size, minimum, natural, NULL, NULL);
  if (orientation == GTK_ORIENTATION_VERTICAL)
    {
      *minimum += TEAR_HEIGHT_PX;
      *natural += TEAR_HEIGHT_PX;
    }
}

static void
hs_slip_size_allocate (GtkWidget *widget,
                       int        width,
                       int        height,
                       int        baseline)
{
  HsSlip *self = HS_SLIP (widget);

  if (self->child != NULL)
    gtk_widget_allocate (self->child, width, height - TEAR_HEIGHT_PX, -1,
                         gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (0, TEAR_HEIGHT_PX)));
}

static GtkSizeRequestMode
hs_slip_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_slip_get_property (GObject    *object,
                      guint       id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  if (id == PROP_CHILD)
    g_value_set_object (value, HS_SLIP (object)->child);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_slip_set_property (GObject      *object,
                      guint         id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  if (id == PROP_CHILD)
    hs_slip_set_child (HS_SLIP (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_slip_dispose (GObject *object)
{
  g_clear_pointer (&HS_SLIP (object)->child, gtk_widget_unparent);
  G_OBJECT_CLASS (hs_slip_parent_class)->dispose (object);
}

static void
hs_slip_class_init (HsSlipClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hs_slip_get_property;
  object_class->set_property = hs_slip_set_property;
  object_class->dispose = hs_slip_dispose;
  widget_class->snapshot = hs_slip_snapshot;
  widget_class->measure = hs_slip_measure;
  widget_class->size_allocate = hs_slip_size_allocate;
  widget_class->get_request_mode = hs_slip_get_request_mode;
  properties[PROP_CHILD] = g_param_spec_object ("child", NULL, NULL, GTK_TYPE_WIDGET,
                                                G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "slip");
}

static void
hs_slip_init (HsSlip *self)
{
}

GtkWidget *
hs_slip_new (GtkWidget *child)
{
  return g_object_new (HS_TYPE_SLIP, "child", child, NULL);
}

void
hs_slip_set_child (HsSlip    *self,
                   GtkWidget *child)
{
  g_return_if_fail (HS_IS_SLIP (self));

  g_clear_pointer (&self->child, gtk_widget_unparent);
  self->child = child;
  if (child != NULL)
    gtk_widget_set_parent (child, GTK_WIDGET (self));
}

/* The rail of opening hours. */

struct _HsOpenRail
{
  GtkWidget parent_instance;
  GArray *spans;
  int arrive;
};

G_DEFINE_FINAL_TYPE (HsOpenRail, hs_open_rail, GTK_TYPE_WIDGET)

static int
minute_at (HsOpenRail *self,
           guint       index)
{
  return g_array_index (self->spans, int, index);
}

static double
rail_x (HsOpenRail *self,
        double      minute)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)), from = minute_at (self, 0);
  double to = minute_at (self, self->spans->len - 1);

  return 10 + (width - 20) * (CLAMP (minute, from, to) - from) / MAX (1, to - from);
}

static char *
clock_text (int minute)
{
  return g_strdup_printf ("%02d:%02d", minute / 60, minute % 60);
}

static void
draw_span (HsOpenRail  *self,
           cairo_t     *cr,
           const HsInk *ink,
           guint        index,
           double       u)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double x1 = round (rail_x (self, minute_at (self, index))), x2 = round (rail_x (self, minute_at (self, index + 1)));
  double y = 14 * u, text_y = 33 * u;
  g_autofree char *opens = clock_text (minute_at (self, index));
  g_autofree char *shuts = clock_text (minute_at (self, index + 1));
  int width = hs_ink_width (widget, opens, 0.92, 400);
  gboolean first = index == 0, last = index + 2 >= self->spans->len;

  hs_ink_line (cr, &ink->ink, 4, x1, y, x2, y);
  hs_ink_line (cr, &ink->ink, 2.5, x1 + 1, y - 6 * u, x1 + 1, y + 6 * u);
  hs_ink_line (cr, &ink->ink, 2.5, x2 - 1, y - 6 * u, x2 - 1, y + 6 * u);
  hs_ink_label (widget, cr, opens, 0.92, 400, &ink->ink2, first ? x1 : x1 + 2, text_y, 0);
  if (x2 - x1 >= 2 * width + 3)
    hs_ink_label (widget, cr, shuts, 0.92, 400, &ink->ink2, last ? x2 : x2 - 2, text_y, 1);
}

static void
hs_open_rail_snapshot (GtkWidget   *widget,
                       GtkSnapshot *snapshot)
{
  HsOpenRail *self = HS_OPEN_RAIL (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  double u = hs_ink_unit (widget);
  HsInk ink;

  hs_ink_read (widget, &ink);
  if (self->spans->len < 2)
    {
      hs_ink_label (widget, cr, _("shut today"), 1, 700, &ink.ink, gtk_widget_get_width (widget), 14 * u, 1);
      return;
    }
  for (guint i = 0; i + 1 < self->spans->len; i += 2)
    draw_span (self, cr, &ink, i, u);
  if (self->arrive >= 0)
    {
      double x = rail_x (self, self->arrive);

      cairo_move_to (cr, x - 8 * u, 4 * u);
      cairo_line_to (cr, x + 8 * u, 4 * u);
      cairo_line_to (cr, x, 15 * u);
      cairo_close_path (cr);
      gdk_cairo_set_source_rgba (cr, &ink.ink);
      cairo_fill (cr);
    }
}

static void
hs_open_rail_measure (GtkWidget      *widget,
                      GtkOrientation  orientation,
                      int             for_size,
                      int            *minimum,
                      int            *natural,
                      int            *minimum_baseline,
                      int            *natural_baseline)
{
  HsOpenRail *self = HS_OPEN_RAIL (widget);
  double u = hs_ink_unit (widget);
  int text = hs_ink_width (widget, "00:00", 1, 400);

  if (orientation == GTK_ORIENTATION_VERTICAL)
    *minimum = *natural = (int) (44 * u);
  else
    {
      *minimum = 20 + text * (int) MAX (2, self->spans->len / 2) + 6;
      *natural = MAX (*minimum, (int) (256 * u));
    }
}

static void
hs_open_rail_finalize (GObject *object)
{
  g_array_unref (HS_OPEN_RAIL (object)->spans);
  G_OBJECT_CLASS (hs_open_rail_parent_class)->finalize (object);
}

static void
hs_open_rail_class_init (HsOpenRailClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_open_rail_finalize;
  widget_class->snapshot = hs_open_rail_snapshot;
  widget_class->measure = hs_open_rail_measure;
  gtk_widget_class_set_css_name (widget_class, "openrail");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hs_open_rail_init (HsOpenRail *self)
{
  self->spans = g_array_new (FALSE, FALSE, sizeof (int));
  self->arrive = -1;
}

GtkWidget *
hs_open_rail_new (void)
{
  return g_object_new (HS_TYPE_OPEN_RAIL, NULL);
}

void
hs_open_rail_set (HsOpenRail *self,
                  const int  *spans,
                  guint       n_spans,
                  int         arrive)
{
  g_autoptr (GString) name = g_string_new (NULL);

  g_return_if_fail (HS_IS_OPEN_RAIL (self));

  g_array_set_size (self->spans, 0);
  if (n_spans > 0)
    g_array_append_vals (self->spans, spans, 2 * n_spans);
  self->arrive = arrive;
  for (guint i = 0; i < 2 * n_spans; i += 2)
    {
      g_autofree char *opens = clock_text (spans[i]), *shuts = clock_text (spans[i + 1]);

      g_string_append_printf (name, "%s%s–%s", i == 0 ? "" : ", ", opens, shuts);
    }
  g_string_prepend (name, n_spans > 0 ? _("Open ") : _("Shut today"));
  if (arrive >= 0 && n_spans > 0)
    {
      g_autofree char *at = clock_text (arrive);

      g_string_append_printf (name, _(", arrival %s"), at);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name->str, -1);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), name->str);
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
