// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* Photos made of bytes by the tests: the smallest files that have every part the readers look at, and Exif as cameras
 * write it, with a place. What is in them is not a picture that can be decoded. */

#include <glib.h>

#include <string.h>

/* What a camera tells. @place: 47° 11' north, as numbers of the list that is taken off. */
typedef struct
{
  gboolean little;
  guint orientation;
  const char *taken;
  const char *offset;
  gboolean place;
} PictureTold;

/* A text with its length, whatever is in it. */
#define PICTURE_TEXT(text) text, sizeof text - 1

void picture_put (GByteArray *out, const void *data, gsize length);

/* picture_exif: (transfer full): a TIFF structure with four lists of fixed places. */
GByteArray *picture_exif (const PictureTold *told);
void picture_put_segment (GByteArray *out, guint8 marker, const void *data, gsize length);
void picture_put_jpeg_exif (GByteArray *out, const PictureTold *told);

/* picture_put_jpeg_rest: frame @frame (C0 baseline, C2 layered), @n_scans scans with stuffed bytes and a restart, and
 * the end. */
void picture_put_jpeg_rest (GByteArray *out, guint8 frame, guint width, guint height, guint n_scans);

/* (transfer full): with everything that cameras put beside a photo unless @told is NULL: Exif, XMP, IPTC, a profile, a
 * comment, and a film hung on behind. A WebP is lossy, 16383 pixels wide at most, extended if there is something to
 * tell. */
GBytes *picture_jpeg (const PictureTold *told, guint width, guint height);
GBytes *picture_png (const PictureTold *told, guint width, guint height);
GBytes *picture_webp (const PictureTold *told, guint width, guint height);

/* picture_crc: by another way than the readers': bit by bit. */
guint32 picture_crc (const guint8 *data, gsize length);
void picture_put_chunk (GByteArray *out, const char *name, const void *data, gsize length);
void picture_put_riff (GByteArray *out, const char *name, const void *data, gsize length);

/* picture_end_riff: (transfer full): @out with its length written in front. */
GBytes *picture_end_riff (GByteArray *out);

/* picture_holds: @word stands somewhere in @data. */
gboolean picture_holds (GBytes *data, const char *word);
