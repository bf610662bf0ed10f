// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The box for a signature. Strokes are kept in the units of the box in which the first one was drawn, and drawn to
 * scale wherever it is shown afterwards. It refuses to be drawn on once it shows a signature that was given. */

#include "hs-signature-pad.h"

#include <glib/gi18n.h>

#include "hs-ink.h"
#include "hs-signature.h"
#include "hs-spoken.h"

#define LEAST_HEIGHT 96
#define PEN 3.0

struct _HsSignaturePad
{
  GtkWidget parent_instance;

  HsSignature *signature; /* %NULL until something is drawn */
  char *hint;
  gboolean given;
  double from_x;
  double from_y;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsSignaturePad, hs_signature_pad, GTK_TYPE_WIDGET)

/* Drawing ---------------------------------------------------------------------------------------------------------- */

static void
draw_box (HsSignaturePad *self, cairo_t *cr, const HsInk *ink)
{
  const double dashes[] = { 8, 6 };
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));

  gdk_cairo_set_source_rgba (cr, &ink->well);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_fill (cr);
  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_set_line_width (cr, 2);
  cairo_set_dash (cr, dashes, 2, 0);
  cairo_rectangle (cr, 1, 1, width - 2, height - 2);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_strokes (HsSignaturePad *self, cairo_t *cr, const HsInk *ink)
{
  double scale = MIN ((double) gtk_widget_get_width (GTK_WIDGET (self)) / hs_signature_get_width (self->signature),
                      (double) gtk_widget_get_height (GTK_WIDGET (self)) / hs_signature_get_height (self->signature));

  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_set_line_width (cr, PEN);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < hs_signature_get_n_strokes (self->signature); i++)
    {
      guint n_points;
      const HsSignaturePoint *points = hs_signature_get_stroke (self->signature, i, &n_points);

      cairo_move_to (cr, points[0].x * scale, points[0].y * scale);
      for (guint k = 0; k < n_points; k++)
        cairo_line_to (cr, points[k].x * scale, points[k].y * scale);
      cairo_stroke (cr);
    }
}

static void
hs_signature_pad_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HsSignaturePad *self = HS_SIGNATURE_PAD (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  g_autoptr (PangoLayout) layout = hs_ink_layout (widget, self->hint, 0.95, 400);
  int width = gtk_widget_get_width (widget) - 28;
  HsInk ink;

  hs_ink_read (widget, &ink);
  draw_box (self, cr, &ink);
  pango_layout_set_width (layout, MAX (width, 1) * PANGO_SCALE);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  hs_ink_text (cr, layout, &ink.ink2, 14, gtk_widget_get_height (widget) - 16 * hs_ink_unit (widget), 0);
  if (self->signature != NULL)
    draw_strokes (self, cr, &ink);
}

static void
hs_signature_pad_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                          int *minimum_baseline, int *natural_baseline)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;

  *minimum = across ? 180 : LEAST_HEIGHT;
  *natural = across ? 480 : 120;
  *minimum_baseline = *natural_baseline = -1;
}

/* Writing ---------------------------------------------------------------------------------------------------------- */

static void
changed (HsSignaturePad *self)
{
  g_autofree char *name = NULL;

  /* Translators: what the box asks for, and that it has been done. */
  name = hs_signature_pad_is_blank (self) ? g_strdup (self->hint) : g_strdup_printf (_("%s, signed"), self->hint);
  hs_spoken_name (GTK_WIDGET (self), name);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, signals[CHANGED], 0);
}

void
hs_signature_pad_draw (HsSignaturePad *self, gboolean begins, double x, double y)
{
  g_return_if_fail (HS_IS_SIGNATURE_PAD (self));

  if (self->given)
    return;
  if (self->signature == NULL)
    self->signature
        = hs_signature_new (CLAMP (gtk_widget_get_width (GTK_WIDGET (self)), 1, HS_SIGNATURE_MOST_SIDE),
                            CLAMP (gtk_widget_get_height (GTK_WIDGET (self)), 1, HS_SIGNATURE_MOST_SIDE));
  if (begins)
    hs_signature_begin (self->signature, x, y);
  else
    hs_signature_move (self->signature, x, y);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
drag_begin_cb (HsSignaturePad *self, double x, double y)
{
  self->from_x = x;
  self->from_y = y;
  hs_signature_pad_draw (self, TRUE, x, y);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
drag_update_cb (HsSignaturePad *self, double x, double y)
{
  hs_signature_pad_draw (self, FALSE, self->from_x + x, self->from_y + y);
}

static void
drag_end_cb (HsSignaturePad *self)
{
  changed (self);
}

void
hs_signature_pad_clear (HsSignaturePad *self)
{
  g_return_if_fail (HS_IS_SIGNATURE_PAD (self));

  if (self->given)
    return;
  g_clear_pointer (&self->signature, hs_signature_free);
  changed (self);
}

static void
clear_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_signature_pad_clear (HS_SIGNATURE_PAD (widget));
}

static void
hs_signature_pad_finalize (GObject *object)
{
  HsSignaturePad *self = HS_SIGNATURE_PAD (object);

  g_clear_pointer (&self->signature, hs_signature_free);
  g_free (self->hint);
  G_OBJECT_CLASS (hs_signature_pad_parent_class)->finalize (object);
}

static void
hs_signature_pad_class_init (HsSignaturePadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_signature_pad_finalize;
  widget_class->snapshot = hs_signature_pad_snapshot;
  widget_class->measure = hs_signature_pad_measure;
  signals[CHANGED] = g_signal_new ("changed", HS_TYPE_SIGNATURE_PAD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "signature");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_install_action (widget_class, "signature.clear", NULL, clear_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_BackSpace, 0, "signature.clear", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Delete, 0, "signature.clear", NULL);
}

static void
hs_signature_pad_init (HsSignaturePad *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();

  self->hint = g_strdup (_("Sign here"));
  g_signal_connect_object (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (drag, "drag-update", G_CALLBACK (drag_update_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (drag, "drag-end", G_CALLBACK (drag_end_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  hs_spoken_name (GTK_WIDGET (self), self->hint);
}

GtkWidget *
hs_signature_pad_new (void)
{
  return g_object_new (HS_TYPE_SIGNATURE_PAD, NULL);
}

void
hs_signature_pad_set_hint (HsSignaturePad *self, const char *hint)
{
  g_return_if_fail (HS_IS_SIGNATURE_PAD (self));

  if (g_strcmp0 (hint, self->hint) == 0)
    return;
  g_free (self->hint);
  self->hint = g_strdup (hint);
  hs_spoken_name (GTK_WIDGET (self), self->hint);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
hs_signature_pad_is_blank (HsSignaturePad *self)
{
  g_return_val_if_fail (HS_IS_SIGNATURE_PAD (self), TRUE);

  return self->signature == NULL || hs_signature_is_blank (self->signature);
}

GBytes *
hs_signature_pad_dup_bytes (HsSignaturePad *self)
{
  return hs_signature_pad_is_blank (self) ? NULL : hs_signature_to_bytes (self->signature);
}

void
hs_signature_pad_show (HsSignaturePad *self, GBytes *bytes)
{
  g_return_if_fail (HS_IS_SIGNATURE_PAD (self));

  g_clear_pointer (&self->signature, hs_signature_free);
  self->given = bytes != NULL;
  if (bytes != NULL)
    self->signature = hs_signature_from_bytes (bytes, NULL);
  changed (self);
}
