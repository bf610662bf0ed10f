// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* Photos that can be decoded, painted by the tests: the left half red, the right half blue, the lowest quarter white.
 * What a camera tells is put in by ../core/picture-test.h. */

#include "../core/picture-test.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"

#include <gdk-pixbuf/gdk-pixbuf.h>

static inline GdkPixbuf *
photo_paint (int width, int height, guint shade)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  int half = MAX (1, width / 2), quarter = MAX (1, height / 4);
  g_autoptr (GdkPixbuf) left = gdk_pixbuf_new_subpixbuf (pixbuf, 0, 0, half, height);
  g_autoptr (GdkPixbuf) low = gdk_pixbuf_new_subpixbuf (pixbuf, 0, height - quarter, width, quarter);

  gdk_pixbuf_fill (pixbuf, 0x0000ffff);
  gdk_pixbuf_fill (left, 0xff000000 | shade << 16 | 0xff);
  gdk_pixbuf_fill (low, 0xffffffff);
  return pixbuf;
}

/* (transfer full): @shade makes another file of it. */
static inline GBytes *
photo_jpeg (const PictureTold *told, int width, int height, guint shade)
{
  g_autoptr (GdkPixbuf) pixbuf = photo_paint (width, height, shade);
  g_autoptr (GError) error = NULL;
  GByteArray *out = g_byte_array_new ();
  g_autofree char *bytes = NULL;
  gsize length;

  gdk_pixbuf_save_to_buffer (pixbuf, &bytes, &length, "jpeg", &error, "quality", "90", NULL);
  g_assert_no_error (error);
  picture_put (out, "\xff\xd8", 2);
  if (told != NULL)
    picture_put_jpeg_exif (out, told);
  picture_put (out, bytes + 2, length - 2);
  return g_byte_array_free_to_bytes (out);
}

static inline GBytes *
photo_png (int width, int height)
{
  g_autoptr (GdkPixbuf) pixbuf = photo_paint (width, height, 0);
  g_autoptr (GError) error = NULL;
  gsize length;
  char *bytes;

  gdk_pixbuf_save_to_buffer (pixbuf, &bytes, &length, "png", &error, NULL);
  g_assert_no_error (error);
  return g_bytes_new_take (bytes, length);
}

/* A job on its whole way: at the vehicle, tested, priced, squared up. */
static inline void
photo_square_up (HsBook *book, const char *job_id)
{
  const HsReadingEntry after = { .check = "battery_rest", .text = "12.60", .phase = "after", .at = HS_OPS_TEST_NOW };
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_job_move_stage (book, job_id, HS_STAGE_ON_SITE, NULL, HS_OPS_TEST_NOW, &error));
  result = hs_reading_add (book, job_id, &after, HS_OPS_TEST_NOW, &error);
  g_assert_nonnull (result);
  g_assert_true (hs_job_move_stage (book, job_id, HS_STAGE_PROVEN, NULL, HS_OPS_TEST_NOW + 60, &error));
  g_assert_true (hs_go_ahead_add (book, job_id, 100000, "Teo", "phone", HS_OPS_TEST_NOW + 60, &error));
  g_assert_true (hs_job_price (book, job_id, NULL, HS_OPS_TEST_NOW + 60, &error));
  hs_job_square (book, job_id, HS_OPS_TEST_NOW + 120, &error);
  g_assert_no_error (error);
}
