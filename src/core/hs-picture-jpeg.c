// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Along a JPEG file (ISO/IEC 10918-1, annex B): segments that begin with a marker, and behind each start of a scan the
 * coded picture, which ends at the next marker that is no restart. Of the segments for applications (APPn) those that
 * say how to decode and what the colors mean stay: JFIF, the color profile, Adobe's color transform. What stands behind
 * the end of the image is left out. */

#include "hs-picture-private.h"

#include <string.h>

#define SOI 0xd8
#define EOI 0xd9
#define SOS 0xda
#define APP0 0xe0
#define APP15 0xef
#define COM 0xfe

static gboolean
is_alone (guint8 marker)
{
  return marker == 0x01 || (marker >= 0xd0 && marker <= 0xd7);
}

/* C4, C8 and CC are tables among the frames. */
static gboolean
is_frame (guint8 marker)
{
  return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}

/* Frames whose picture comes line by line and can be made smaller meanwhile: baseline and its like. */
static gboolean
is_passing (guint8 marker)
{
  return marker == 0xc0 || marker == 0xc1 || marker == 0xc9;
}

/* held_whole: bytes for a pixel where a decoder holds the whole picture: two for each number of each color, which may
 * be coarser than the pixels. Returns: 0 if the colors cannot be. */
static double
held_whole (const guint8 *colors, guint n_colors)
{
  guint sum = 0, most_across = 1, most_down = 1;

  for (guint i = 0; i < n_colors; i++)
    {
      guint across = colors[3 * i + 1] >> 4, down = colors[3 * i + 1] & 15;

      if (across < 1 || across > 4 || down < 1 || down > 4)
        return 0;
      most_across = MAX (most_across, across);
      most_down = MAX (most_down, down);
      sum += across * down;
    }
  return 2.0 * sum / (most_across * most_down);
}

static gboolean
begins (const guint8 *body, gsize length, const char *word, gsize word_length)
{
  return length >= word_length && memcmp (body, word, word_length) == 0;
}

static HsPieceUse
use_of (guint8 marker, const guint8 *body, gsize length)
{
  if (marker == COM)
    return HS_PIECE_TOLD;
  if (marker < APP0 || marker > APP15)
    return HS_PIECE_PICTURE;
  if (marker == APP0 && begins (body, length, "JFIF", 5))
    return HS_PIECE_HEAD;
  if (marker == APP0 + 1 && begins (body, length, "Exif\0\0", 6))
    return HS_PIECE_EXIF;
  if ((marker == APP0 + 2 && begins (body, length, "ICC_PROFILE", 12))
      || (marker == APP0 + 14 && begins (body, length, "Adobe", 5)))
    return HS_PIECE_PICTURE;
  return HS_PIECE_TOLD;
}

static gboolean
read_frame (HsPictureWalk *walk, guint8 marker, const guint8 *body, gsize length, double *ret_whole, GError **error)
{
  if (length < 6 || walk->width > 0)
    return hs_picture_damaged (error);
  walk->height = hs_picture_big16 (body + 1);
  walk->width = hs_picture_big16 (body + 3);
  if (walk->height == 0 || walk->width == 0 || body[5] == 0 || length < 6 + 3 * (gsize) body[5])
    return hs_picture_damaged (error);
  *ret_whole = held_whole (body + 6, body[5]);
  walk->held = is_passing (marker) ? 0 : *ret_whole;
  return *ret_whole > 0 ? hs_picture_check_size (walk, error) : hs_picture_damaged (error);
}

/* Where the coded picture ends: the place of the next marker, or the end of the file. */
static gsize
end_of_scan (const HsPictureWalk *walk, gsize at)
{
  while (at + 1 < walk->length)
    {
      const guint8 *hit = memchr (walk->data + at, 0xff, walk->length - at);

      if (hit == NULL)
        return walk->length;
      at = (gsize) (hit - walk->data);
      if (at + 1 >= walk->length)
        return walk->length;
      if (walk->data[at + 1] != 0x00 && walk->data[at + 1] != 0xff && !is_alone (walk->data[at + 1]))
        return at;
      at += walk->data[at + 1] == 0xff ? 1 : 2;
    }
  return walk->length;
}

/* One segment with a length; moves @at behind it, and behind the scan that it starts. */
static gboolean
read_segment (HsPictureWalk *walk, guint8 marker, gsize *at, double *ret_whole, GError **error)
{
  gsize start = *at;
  gsize length, body = start + 4, end;
  HsPieceUse use;

  if (walk->length - start < 4)
    return hs_picture_cut_off (error);
  length = hs_picture_big16 (walk->data + start + 2);
  if (length < 2)
    return hs_picture_damaged (error);
  end = start + 2 + length;
  if (end > walk->length)
    return hs_picture_cut_off (error);
  use = use_of (marker, walk->data + body, length - 2);
  if (is_frame (marker) && !read_frame (walk, marker, walk->data + body, length - 2, ret_whole, error))
    return FALSE;
  if (use == HS_PIECE_EXIF)
    body += 6;
  *at = marker == SOS ? end_of_scan (walk, end) : end;
  return hs_picture_add_piece (walk, use, start, *at - start, body, end - body, error);
}

gboolean
hs_picture_walk_jpeg (HsPictureWalk *walk, GError **error)
{
  gboolean scanned = FALSE;
  double whole = 0;
  gsize at = 2;

  hs_picture_add_piece (walk, HS_PIECE_HEAD, 0, 2, 2, 0, NULL);
  while (TRUE)
    {
      guint8 marker;

      /* What is between segments is skipped, as decoders do; so are repeated FF in front of a marker. */
      while (at + 1 < walk->length && (walk->data[at] != 0xff || walk->data[at + 1] == 0xff
                                       || walk->data[at + 1] == 0x00))
        at++;
      if (at + 1 >= walk->length)
        return hs_picture_cut_off (error);
      marker = walk->data[at + 1];
      if (marker == EOI)
        break;
      if (marker == SOI)
        return hs_picture_damaged (error);
      if (is_alone (marker))
        {
          at += 2;
          continue;
        }
      if (marker == SOS && walk->width == 0)
        return hs_picture_damaged (error);
      if (scanned && marker == SOS)
        walk->held = whole;
      scanned |= marker == SOS;
      if (!hs_picture_check_size (walk, error) || !read_segment (walk, marker, &at, &whole, error))
        return FALSE;
    }
  return hs_picture_add_piece (walk, HS_PIECE_PICTURE, at, 2, at + 2, 0, error)
         && (scanned || hs_picture_damaged (error));
}

void
hs_picture_put_jpeg_exif (GByteArray *out, const GByteArray *exif)
{
  guint length = 2 + 6 + exif->len;
  const guint8 head[] = { 0xff, APP0 + 1, (guint8) (length >> 8), (guint8) length, 'E', 'x', 'i', 'f', 0, 0 };

  g_byte_array_append (out, head, sizeof head);
  g_byte_array_append (out, exif->data, exif->len);
}
