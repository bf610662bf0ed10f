// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* From the bytes of a photo to pixels. The decoder is chosen by what core found in the file, never by the decoder's own
 * guess, so that no other format is ever tried on it. */

#include "hs-pixels.h"

#include "hs-ops-private.h"

#include <gdk-pixbuf/gdk-pixbuf.h>

void
hs_pixels_free (HsPixels *pixels)
{
  if (pixels == NULL)
    return;
  g_bytes_unref (pixels->bytes);
  g_free (pixels);
}

/* How large it may become, and how many lines of it came. */
typedef struct
{
  int most;
  int seen;
} Load;

static void
fit (int most, int *width, int *height)
{
  double times = MIN (1, (double) most / MAX (*width, *height));

  *width = MAX (1, (int) (*width * times + 0.5));
  *height = MAX (1, (int) (*height * times + 0.5));
}

static void
size_prepared_cb (GdkPixbufLoader *loader, int width, int height, gpointer data)
{
  Load *load = data;

  fit (load->most, &width, &height);
  gdk_pixbuf_loader_set_size (loader, width, height);
}

static void
area_updated_cb (GdkPixbufLoader *loader, int x, int y, int width, int height, gpointer data)
{
  Load *load = data;

  load->seen = MAX (load->seen, y + height);
}

static GdkPixbufLoader *
loader_new (HsPictureKind kind, GError **error)
{
  static const char *const names[] = { "jpeg", "png", "webp" };
  g_autoptr (GError) failure = NULL;
  GdkPixbufLoader *loader = gdk_pixbuf_loader_new_with_type (names[kind], &failure);

  if (loader == NULL)
    hs_ops_refuse (error, "This computer has nothing that shows %s photos. Save it as a JPEG first.",
                   kind == HS_PICTURE_WEBP ? "WebP" : "such");
  return loader;
}

/* A loader wants to be closed whatever came before. */
static gboolean
feed (GdkPixbufLoader *loader, GBytes *data, GError **error)
{
  g_autoptr (GError) failure = NULL;
  gboolean fed = gdk_pixbuf_loader_write_bytes (loader, data, &failure);

  if (gdk_pixbuf_loader_close (loader, fed ? &failure : NULL) && fed)
    return TRUE;
  return hs_ops_refuse (error, "The picture cannot be shown (%s). Copy the file from the camera again.",
                        failure != NULL ? failure->message : "no picture in it");
}

/* Exif counts from the corner of the first line and column: 3 is upside down, 6 and 8 lie on a side, the even ones
 * below 5 and the odd ones above are mirrored. */
static GdkPixbuf *
turn (GdkPixbuf *lying, guint orientation)
{
  static const struct
  {
    GdkPixbufRotation rotation;
    gboolean mirrored;
  } turns[] = {
    { GDK_PIXBUF_ROTATE_NONE, FALSE },             { GDK_PIXBUF_ROTATE_NONE, TRUE },
    { GDK_PIXBUF_ROTATE_UPSIDEDOWN, FALSE },       { GDK_PIXBUF_ROTATE_UPSIDEDOWN, TRUE },
    { GDK_PIXBUF_ROTATE_CLOCKWISE, TRUE },         { GDK_PIXBUF_ROTATE_CLOCKWISE, FALSE },
    { GDK_PIXBUF_ROTATE_COUNTERCLOCKWISE, TRUE },  { GDK_PIXBUF_ROTATE_COUNTERCLOCKWISE, FALSE },
  };
  g_autoptr (GdkPixbuf) turned = gdk_pixbuf_rotate_simple (lying, turns[orientation - 1].rotation);

  return turns[orientation - 1].mirrored ? gdk_pixbuf_flip (turned, TRUE) : g_steal_pointer (&turned);
}

static gboolean
no_picture (GError **error)
{
  return hs_ops_refuse (error, "The picture in the file is not whole. Copy it from the camera again.");
}

/* The decoder of JPEG makes a picture smaller while it reads. The others give it whole; lines that never came would
 * show what was in the memory before. */
static GdkPixbuf *
load_lying (GBytes *data, HsPictureKind kind, int most, GError **error)
{
  g_autoptr (GdkPixbufLoader) loader = loader_new (kind, error);
  Load load = { .most = most };
  GdkPixbuf *lying;
  int width, height;

  if (loader == NULL)
    return NULL;
  if (kind == HS_PICTURE_JPEG)
    g_signal_connect (loader, "size-prepared", G_CALLBACK (size_prepared_cb), &load);
  else
    g_signal_connect (loader, "area-updated", G_CALLBACK (area_updated_cb), &load);
  if (!feed (loader, data, error))
    return NULL;
  lying = gdk_pixbuf_loader_get_pixbuf (loader);
  if (lying == NULL || (kind != HS_PICTURE_JPEG && load.seen < gdk_pixbuf_get_height (lying)))
    {
      no_picture (error);
      return NULL;
    }
  width = gdk_pixbuf_get_width (lying);
  height = gdk_pixbuf_get_height (lying);
  fit (most, &width, &height);
  return width == gdk_pixbuf_get_width (lying) ? g_object_ref (lying)
                                               : gdk_pixbuf_scale_simple (lying, width, height, GDK_INTERP_BILINEAR);
}

static GdkPixbuf *
decode (GBytes *data, int most, GError **error)
{
  g_autoptr (GdkPixbuf) lying = NULL;
  HsPicture picture;

  if (!hs_picture_read (data, &picture, error))
    return NULL;
  lying = load_lying (data, picture.kind, most, error);
  return lying != NULL ? turn (lying, picture.orientation) : NULL;
}

HsPixels *
hs_pixels_decode (GBytes *data, int most, GError **error)
{
  g_autoptr (GdkPixbuf) pixbuf = decode (data, most, error);
  HsPixels *pixels;

  if (pixbuf == NULL)
    return NULL;
  pixels = g_new0 (HsPixels, 1);
  pixels->width = gdk_pixbuf_get_width (pixbuf);
  pixels->height = gdk_pixbuf_get_height (pixbuf);
  pixels->stride = gdk_pixbuf_get_rowstride (pixbuf);
  pixels->alpha = gdk_pixbuf_get_has_alpha (pixbuf);
  pixels->bytes = gdk_pixbuf_read_pixel_bytes (pixbuf);
  return pixels;
}

/* What shines through is paper. */
static GdkPixbuf *
flatten (GdkPixbuf *pixbuf)
{
  return gdk_pixbuf_composite_color_simple (pixbuf, gdk_pixbuf_get_width (pixbuf), gdk_pixbuf_get_height (pixbuf),
                                            GDK_INTERP_NEAREST, 255, 64, 0xffffff, 0xffffff);
}

GBytes *
hs_pixels_thumbnail (GBytes *data, int most, GError **error)
{
  g_autoptr (GdkPixbuf) pixbuf = decode (data, most, error);
  g_autoptr (GdkPixbuf) flat = NULL;
  gsize length;
  char *bytes;

  if (pixbuf == NULL)
    return NULL;
  flat = gdk_pixbuf_get_has_alpha (pixbuf) ? flatten (pixbuf) : g_object_ref (pixbuf);
  if (!gdk_pixbuf_save_to_buffer (flat, &bytes, &length, "jpeg", error, "quality", "82", NULL))
    return NULL;
  return g_bytes_new_take (bytes, length);
}
