// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Along a WebP file (RFC 9649): a RIFF container, its chunks with a name, a length and a byte of padding behind an odd
 * one. Moving pictures are refused. What stands behind the length of the container is left out. */

#include "hs-picture-private.h"

#include "hs-core-error.h"

#include <string.h>

/* Bytes that a decoder holds for each pixel: as they are stored, and as they are shown. */
#define HELD 8

/* Flags of the extended head. */
#define HAS_EXIF 0x08
#define HAS_XMP 0x04
#define MOVES 0x02

static gboolean
is_named (const guint8 *chunk, const char *name)
{
  return memcmp (chunk, name, 4) == 0;
}

/* The canvas and the picture on it may tell two sizes; the larger one needs the memory. */
static void
grow (HsPictureWalk *walk, guint32 width, guint32 height)
{
  walk->width = MAX (walk->width, width);
  walk->height = MAX (walk->height, height);
  walk->held = HELD;
}

static gboolean
read_extended (HsPictureWalk *walk, const guint8 *body, gsize length, GError **error)
{
  if (length < 10)
    return hs_picture_damaged (error);
  if ((body[0] & MOVES) != 0)
    return hs_core_bad_value (error, "The file is a moving picture. Only photos are kept: JPEG, PNG or WebP.");
  grow (walk, hs_picture_little24 (body + 4) + 1, hs_picture_little24 (body + 7) + 1);
  return TRUE;
}

static gboolean
read_lossy (HsPictureWalk *walk, const guint8 *body, gsize length, GError **error)
{
  if (length < 10 || (body[0] & 1) != 0 || memcmp (body + 3, "\x9d\x01\x2a", 3) != 0)
    return hs_picture_damaged (error);
  grow (walk, hs_picture_little16 (body + 6) & 0x3fff, hs_picture_little16 (body + 8) & 0x3fff);
  return TRUE;
}

static gboolean
read_lossless (HsPictureWalk *walk, const guint8 *body, gsize length, GError **error)
{
  guint32 bits;

  if (length < 5 || body[0] != 0x2f)
    return hs_picture_damaged (error);
  bits = hs_picture_little32 (body + 1);
  grow (walk, (bits & 0x3fff) + 1, (bits >> 14 & 0x3fff) + 1);
  return TRUE;
}

static HsPieceUse
use_of (const guint8 *chunk)
{
  if (is_named (chunk, "VP8X"))
    return HS_PIECE_HEAD;
  if (is_named (chunk, "VP8 ") || is_named (chunk, "VP8L") || is_named (chunk, "ALPH") || is_named (chunk, "ICCP"))
    return HS_PIECE_PICTURE;
  return is_named (chunk, "EXIF") ? HS_PIECE_EXIF : HS_PIECE_TOLD;
}

static gboolean
read_size (HsPictureWalk *walk, const guint8 *chunk, gsize length, gboolean *ret_filled, GError **error)
{
  if (is_named (chunk, "VP8X"))
    return read_extended (walk, chunk + 8, length, error);
  if (!is_named (chunk, "VP8 ") && !is_named (chunk, "VP8L"))
    return TRUE;
  if (*ret_filled)
    return hs_picture_damaged (error);
  *ret_filled = TRUE;
  return is_named (chunk, "VP8 ") ? read_lossy (walk, chunk + 8, length, error)
                                  : read_lossless (walk, chunk + 8, length, error);
}

/* read_chunk: what the chunk at @at tells of the size, as far as it is there: the whole of it may be cut off. */
static gboolean
read_chunk (HsPictureWalk *walk, gsize at, gsize end, gsize *ret_whole, gboolean *ret_filled, GError **error)
{
  const guint8 *chunk = walk->data + at;
  gsize length;

  if (MIN (end, walk->length) - at < 8)
    return hs_picture_cut_off (error);
  length = hs_picture_little32 (chunk + 4);
  *ret_whole = 8 + length + (length & 1);
  if (*ret_whole > end - at || (is_named (chunk, "VP8X") && at != 12))
    return hs_picture_damaged (error);
  if (MIN (length, 10) > walk->length - at - 8)
    return hs_picture_cut_off (error);
  return read_size (walk, chunk, length, ret_filled, error) && hs_picture_check_size (walk, error)
         && (*ret_whole <= walk->length - at || hs_picture_cut_off (error));
}

/* Some cameras put the six letters of JPEG in front. */
static gboolean
add_exif (HsPictureWalk *walk, gsize at, gsize whole, gsize length, GError **error)
{
  gsize skip = length >= 6 && memcmp (walk->data + at + 8, "Exif\0\0", 6) == 0 ? 6 : 0;

  return hs_picture_add_piece (walk, HS_PIECE_EXIF, at, whole, at + 8 + skip, length - skip, error);
}

gboolean
hs_picture_walk_webp (HsPictureWalk *walk, GError **error)
{
  gsize end = (gsize) hs_picture_little32 (walk->data + 4) + 8;
  gboolean filled = FALSE;
  gsize whole = 0;

  if (end < 12)
    return hs_picture_cut_off (error);
  hs_picture_add_piece (walk, HS_PIECE_HEAD, 0, 12, 12, 0, NULL);
  for (gsize at = 12; at < end; at += whole)
    {
      const guint8 *chunk = walk->data + at;
      gsize length;

      if (!read_chunk (walk, at, end, &whole, &filled, error))
        return FALSE;
      length = hs_picture_little32 (chunk + 4);
      if (!(use_of (chunk) == HS_PIECE_EXIF
              ? add_exif (walk, at, whole, length, error)
              : hs_picture_add_piece (walk, use_of (chunk), at, whole, at + 8, length, error)))
        return FALSE;
    }
  return filled || hs_picture_damaged (error);
}

static void
put_little32 (guint8 *at, guint32 value)
{
  for (guint i = 0; i < 4; i++)
    at[i] = (guint8) (value >> 8 * i);
}

void
hs_picture_put_webp_exif (GByteArray *out, const GByteArray *exif)
{
  guint8 head[] = { 'E', 'X', 'I', 'F', 0, 0, 0, 0 };

  put_little32 (head + 4, exif->len);
  g_byte_array_append (out, head, sizeof head);
  g_byte_array_append (out, exif->data, exif->len);
  if (exif->len % 2 != 0)
    g_byte_array_append (out, (const guint8 *) "", 1);
}

/* Only the extended head says what is in the file; the short kind has no room for it. */
void
hs_picture_mend_webp (GByteArray *out, gboolean exif)
{
  put_little32 (out->data + 4, out->len - 8);
  if (is_named (out->data + 12, "VP8X"))
    out->data[20] = (guint8) ((out->data[20] & ~(HAS_EXIF | HAS_XMP)) | (exif ? HAS_EXIF : 0));
}
