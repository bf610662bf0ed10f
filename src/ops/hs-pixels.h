// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-picture.h"

G_BEGIN_DECLS

/**
 * HsPixels:
 * @stride: bytes from one line to the next
 * @alpha: four bytes a pixel, red first, with how much it covers; else three
 * @bytes: the lines from the top
 *
 * A photo as it is shown: decoded, upright, not larger than was asked for.
 */
typedef struct
{
  int width;
  int height;
  int stride;
  gboolean alpha;
  GBytes *bytes;
} HsPixels;

void hs_pixels_free (HsPixels *pixels);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPixels, hs_pixels_free)

/**
 * hs_pixels_decode:
 * @data: a file that hs_picture_read() accepts; anything else never reaches a decoder
 * @most: how many pixels wide and high it may become; a smaller one is not blown up
 *
 * Returns: (transfer full) (nullable): the picture
 */
HsPixels *hs_pixels_decode (GBytes *data, int most, GError **error);

/* hs_pixels_thumbnail: (transfer full) (nullable): @data as a small upright JPEG, without anything told beside it. */
GBytes *hs_pixels_thumbnail (GBytes *data, int most, GError **error);

G_END_DECLS
