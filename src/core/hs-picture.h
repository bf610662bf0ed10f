// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsPictureKind:
 *
 * What a file is by what stands in it, whatever it is called.
 */
typedef enum
{
  HS_PICTURE_JPEG,
  HS_PICTURE_PNG,
  HS_PICTURE_WEBP,
  HS_PICTURE_OTHER,
} HsPictureKind;

/* The longest file that is taken, in bytes: 40 MiB. */
#define HS_PICTURE_MOST_BYTES 41943040

/**
 * HsPicture:
 * @width: in pixels as they are stored, before turning
 * @height: likewise
 * @orientation: how to turn it, 1 to 8 as Exif counts; 1: not at all
 * @taken: `2026-03-10T08:41:07`, by the camera's clock, or empty
 * @offset: of that clock from UTC, `+01:00`, or empty
 * @tells_place: it says where it was taken
 *
 * What the head of a photo says.
 */
typedef struct
{
  HsPictureKind kind;
  guint32 width;
  guint32 height;
  guint orientation;
  char taken[20];
  char offset[7];
  gboolean tells_place;
} HsPicture;

/* hs_picture_sniff: looks at the first bytes only. */
HsPictureKind hs_picture_sniff (GBytes *data);

/* hs_picture_media_type: (nullable): `image/jpeg` and so on; %NULL for %HS_PICTURE_OTHER. */
const char *hs_picture_media_type (HsPictureKind kind);

/**
 * hs_picture_read:
 * @data: a whole file
 * @ret_picture: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Reads the head of a photo and walks along the whole file without decoding a pixel. Refuses with a sentence: what is
 * no JPEG, PNG or WebP photo, what is cut off or damaged, a moving picture, and what has more pixels than a screen full
 * of memory can bear.
 */
gboolean hs_picture_read (GBytes *data, HsPicture *ret_picture, GError **error);

/**
 * hs_picture_read_head:
 * @data: the first part of a file
 *
 * What hs_picture_read() would say, as far as it stands in that part; nothing is refused but what is no photo.
 *
 * Returns: whether it is the beginning of a photo
 */
gboolean hs_picture_read_head (GBytes *data, HsPicture *ret_picture);

/**
 * hs_picture_bare:
 * @data: what hs_picture_read() accepted
 * @picture: what it said
 *
 * The same photo, pixel for pixel and not encoded again, without what the camera wrote beside it: the place, serial
 * numbers, owner, comments, small copies, films hung on behind. How it is turned, when it was taken and what its colors
 * mean stay. Done twice it changes nothing.
 *
 * Returns: (transfer full): the bytes
 */
GBytes *hs_picture_bare (GBytes *data, const HsPicture *picture);

G_END_DECLS
