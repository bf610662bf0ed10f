// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A QR code for a telephone's camera. The words beside it say what it holds; the code alone says nothing to anybody
 * who has no camera. */

#include "hs-qr.h"

#include <qrencode.h>
#include <string.h>

#include "hs-ink.h"

#define QUIET 4

/* A module on the screen: what it would like to be, and the least that cameras still read. */
#define MODULE 7
#define LEAST_MODULE 3

/* From how many bytes on large modules are worth more than mending: a screen has no scratches. */
#define LONG_TEXT 60

struct _HsQr
{
  GtkWidget parent_instance;

  QRcode *code;
};

G_DEFINE_FINAL_TYPE (HsQr, hs_qr, GTK_TYPE_WIDGET)

static int
count_modules (HsQr *self)
{
  return self->code != NULL ? self->code->width + 2 * QUIET : 0;
}

static GtkSizeRequestMode
hs_qr_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_CONSTANT_SIZE;
}

static void
hs_qr_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
               int *minimum_baseline, int *natural_baseline)
{
  *minimum = count_modules (HS_QR (widget)) * LEAST_MODULE;
  *natural = count_modules (HS_QR (widget)) * MODULE;
}

static void
hs_qr_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  static const GdkRGBA black = { 0, 0, 0, 1 }, white = { 1, 1, 1, 1 };
  HsQr *self = HS_QR (widget);
  int n = count_modules (self), width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  int module, left, top;
  g_autoptr (HsCairo) cr = NULL;

  if (n == 0)
    return;
  module = MAX (1, MIN (width, height) / n);
  left = (width - module * n) / 2;
  top = (height - module * n) / 2;
  cr = hs_ink_cairo (snapshot, widget, 0);
  gdk_cairo_set_source_rgba (cr, &white);
  cairo_rectangle (cr, left, top, module * n, module * n);
  cairo_fill (cr);
  gdk_cairo_set_source_rgba (cr, &black);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_NONE);
  for (int y = 0; y < self->code->width; y++)
    for (int x = 0; x < self->code->width; x++)
      if ((self->code->data[y * self->code->width + x] & 1) != 0)
        cairo_rectangle (cr, left + (x + QUIET) * module, top + (y + QUIET) * module, module, module);
  cairo_fill (cr);
}

static void
hs_qr_finalize (GObject *object)
{
  QRcode_free (HS_QR (object)->code);
  G_OBJECT_CLASS (hs_qr_parent_class)->finalize (object);
}

static void
hs_qr_class_init (HsQrClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_qr_finalize;
  widget_class->get_request_mode = hs_qr_get_request_mode;
  widget_class->measure = hs_qr_measure;
  widget_class->snapshot = hs_qr_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hs_qr_init (HsQr *self)
{
}

GtkWidget *
hs_qr_new (void)
{
  return g_object_new (HS_TYPE_QR, NULL);
}

gboolean
hs_qr_set_text (HsQr *self, const char *text)
{
  g_return_val_if_fail (HS_IS_QR (self), FALSE);

  QRcode_free (self->code);
  self->code = NULL;
  if (text != NULL && *text != '\0')
    self->code = QRcode_encodeString (text, 0, strlen (text) > LONG_TEXT ? QR_ECLEVEL_L : QR_ECLEVEL_M, QR_MODE_8, 1);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  return self->code != NULL || text == NULL || *text == '\0';
}
