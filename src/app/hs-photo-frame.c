// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A framed small picture. Use it wherever a photo is listed; the words beside it say what it shows. */

#include "hs-photo-frame.h"

#include <glib/gi18n.h>

#include "hs-ask-photo.h"
#include "hs-ink.h"

#define WIDTH 144
#define HEIGHT 108

struct _HsPhotoFrame
{
  GtkWidget parent_instance;

  HsLedger *ledger;
  char *photo_id;
  gboolean missing;
  gboolean asked;
  GdkTexture *texture;
};

G_DEFINE_FINAL_TYPE (HsPhotoFrame, hs_photo_frame, GTK_TYPE_WIDGET)

GdkTexture *
hs_photo_texture_new (const HsPixels *pixels)
{
  return gdk_memory_texture_new (pixels->width, pixels->height,
                                 pixels->alpha ? GDK_MEMORY_R8G8B8A8 : GDK_MEMORY_R8G8B8, pixels->bytes,
                                 (gsize) pixels->stride);
}

typedef struct
{
  HsPhotoFrame *self;
  char *photo_id;
} Asked;

/* An answer for another photo than the one that is shown by now is dropped. */
static void
answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Asked *asked = data;
  HsPhotoFrame *self = asked->self;
  g_autoptr (HsPixels) pixels = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &pixels, NULL);
  if (g_strcmp0 (asked->photo_id, self->photo_id) == 0)
    {
      self->missing = pixels == NULL;
      g_clear_object (&self->texture);
      if (pixels != NULL)
        self->texture = hs_photo_texture_new (pixels);
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
  g_object_unref (asked->self);
  g_free (asked->photo_id);
  g_free (asked);
}

static void
ask (HsPhotoFrame *self)
{
  Asked *asked;

  if (self->asked || self->missing || self->photo_id == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  self->asked = TRUE;
  asked = g_new0 (Asked, 1);
  asked->self = g_object_ref (self);
  asked->photo_id = g_strdup (self->photo_id);
  hs_ledger_ask_async (self->ledger, hs_ask_photo_small, g_variant_new ("(s)", self->photo_id),
                       (GDestroyNotify) hs_pixels_free, answered_cb, asked);
}

static void
hs_photo_frame_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (hs_photo_frame_parent_class)->map (widget);
  ask (HS_PHOTO_FRAME (widget));
}

static void
hs_photo_frame_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  double u = MIN (1.4, hs_ink_unit (widget));

  *minimum = *natural = (int) ((orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT) * u);
}

/* As large as it goes, nothing cut off. */
static void
draw_picture (HsPhotoFrame *self, GtkSnapshot *snapshot, double width, double height)
{
  double times = MIN (width / gdk_texture_get_width (self->texture), height / gdk_texture_get_height (self->texture));
  double shown_width = gdk_texture_get_width (self->texture) * times;
  double shown_height = gdk_texture_get_height (self->texture) * times;
  graphene_rect_t area = GRAPHENE_RECT_INIT ((float) ((width - shown_width) / 2), (float) ((height - shown_height) / 2),
                                             (float) shown_width, (float) shown_height);

  gtk_snapshot_append_texture (snapshot, self->texture, &area);
}

static void
draw_missing (HsPhotoFrame *self, cairo_t *cr, const HsInk *ink, double width, double height)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double word = hs_ink_width (widget, _("Missing"), 0.95, 700), half = word / 2 + 8, line = 14 * hs_ink_unit (widget);

  hs_ink_line (cr, &ink->ink, 2, 0, 0, width, height);
  hs_ink_line (cr, &ink->ink, 2, 0, height, width, 0);
  hs_ink_box (cr, &GRAPHENE_RECT_INIT ((float) (width / 2 - half), (float) (height / 2 - line), (float) (2 * half),
                                       (float) (2 * line)), &ink->paper, &ink->ink, 2);
  hs_ink_label (widget, cr, _("Missing"), 0.95, 700, &ink->ink, width / 2, height / 2, 0.5);
}

static void
hs_photo_frame_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HsPhotoFrame *self = HS_PHOTO_FRAME (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t whole = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  g_autoptr (HsCairo) cr = NULL;
  HsInk ink;

  hs_ink_read (widget, &ink);
  gtk_snapshot_append_color (snapshot, &ink.well, &whole);
  if (self->texture != NULL)
    draw_picture (self, snapshot, width, height);
  cr = hs_ink_cairo (snapshot, widget, 0);
  if (self->missing)
    draw_missing (self, cr, &ink, width, height);
  hs_ink_box (cr, &whole, NULL, self->missing ? &ink.ink : &ink.edge, 1.5);
}

static void
hs_photo_frame_dispose (GObject *object)
{
  HsPhotoFrame *self = HS_PHOTO_FRAME (object);

  g_clear_object (&self->ledger);
  g_clear_object (&self->texture);
  g_clear_pointer (&self->photo_id, g_free);
  G_OBJECT_CLASS (hs_photo_frame_parent_class)->dispose (object);
}

static void
hs_photo_frame_class_init (HsPhotoFrameClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_photo_frame_dispose;
  widget_class->map = hs_photo_frame_map;
  widget_class->measure = hs_photo_frame_measure;
  widget_class->snapshot = hs_photo_frame_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hs_photo_frame_init (HsPhotoFrame *self)
{
}

GtkWidget *
hs_photo_frame_new (void)
{
  return g_object_new (HS_TYPE_PHOTO_FRAME, NULL);
}

void
hs_photo_frame_show (HsPhotoFrame *self, HsLedger *ledger, const char *photo_id, gboolean missing)
{
  g_return_if_fail (HS_IS_PHOTO_FRAME (self) && HS_IS_LEDGER (ledger));

  if (g_strcmp0 (self->photo_id, photo_id) == 0 && self->missing == missing)
    return;
  g_set_object (&self->ledger, ledger);
  g_free (self->photo_id);
  self->photo_id = g_strdup (photo_id);
  self->missing = missing;
  self->asked = FALSE;
  g_clear_object (&self->texture);
  ask (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

gboolean
hs_photo_frame_is_missing (HsPhotoFrame *self)
{
  g_return_val_if_fail (HS_IS_PHOTO_FRAME (self), FALSE);

  return self->missing;
}

gboolean
hs_photo_frame_has_picture (HsPhotoFrame *self)
{
  g_return_val_if_fail (HS_IS_PHOTO_FRAME (self), FALSE);

  return self->texture != NULL;
}
