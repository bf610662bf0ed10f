// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Along a PNG file (ISO/IEC 15948): chunks with a length, a name and a checksum. Those without which the picture is
 * another one stay, with those that say what its colors mean; texts, times and unknown ones are told beside it. What
 * stands behind the last chunk is left out. */

#include "hs-picture-private.h"

#include <string.h>

/* Bytes that a decoder holds for each pixel. */
#define HELD 4

static const char *const kept[] = { "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "bKGD",
                                    "pHYs", "cICP" };

/* CRC-32 as in annex D, four bits at a time. */
static guint32
checksum (const guint8 *data, gsize length)
{
  static const guint32 table[16]
      = { 0x00000000, 0x1db71064, 0x3b6e20c8, 0x26d930ac, 0x76dc4190, 0x6b6b51f4, 0x4db26158, 0x5005713c,
          0xedb88320, 0xf00f9344, 0xd6d6a3e8, 0xcb61b38c, 0x9b64c2b0, 0x86d3d2d4, 0xa00ae278, 0xbdbdf21c };
  guint32 sum = 0xffffffff;

  for (gsize i = 0; i < length; i++)
    {
      sum ^= data[i];
      sum = table[sum & 15] ^ sum >> 4;
      sum = table[sum & 15] ^ sum >> 4;
    }
  return ~sum;
}

static HsPieceUse
use_of (const guint8 *name)
{
  if (memcmp (name, "IHDR", 4) == 0)
    return HS_PIECE_HEAD;
  if (memcmp (name, "eXIf", 4) == 0)
    return HS_PIECE_EXIF;
  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    if (memcmp (name, kept[i], 4) == 0)
      return HS_PIECE_PICTURE;
  return HS_PIECE_TOLD;
}

/* A name that begins with a capital belongs to the picture itself; an unknown one makes it unreadable. */
static gboolean
is_strange (const guint8 *name)
{
  for (guint i = 0; i < 4; i++)
    if (!g_ascii_isalpha ((char) name[i]))
      return TRUE;
  return g_ascii_isupper ((char) name[0]) && use_of (name) == HS_PIECE_TOLD;
}

static gboolean
read_head (HsPictureWalk *walk, const guint8 *body, gsize length, GError **error)
{
  if (length != 13 || walk->width > 0)
    return hs_picture_damaged (error);
  walk->width = hs_picture_big32 (body);
  walk->height = hs_picture_big32 (body + 4);
  walk->held = HELD;
  return walk->width > 0 && walk->height > 0 ? hs_picture_check_size (walk, error) : hs_picture_damaged (error);
}

static gboolean
read_chunk (HsPictureWalk *walk, gsize at, gsize *ret_length, GError **error)
{
  const guint8 *name = walk->data + at + 4;
  HsPieceUse use;
  gsize length;

  if (walk->length - at < 12)
    return hs_picture_cut_off (error);
  length = hs_picture_big32 (walk->data + at);
  if (length > G_MAXINT32 || is_strange (name))
    return hs_picture_damaged (error);
  use = use_of (name);
  if ((use == HS_PIECE_HEAD) != (at == 8))
    return hs_picture_damaged (error);
  if (length > walk->length - at - 12)
    return (use != HS_PIECE_HEAD || length == 13) ? hs_picture_cut_off (error) : hs_picture_damaged (error);
  if (checksum (name, length + 4) != hs_picture_big32 (name + 4 + length))
    return hs_picture_damaged (error);
  if (use == HS_PIECE_HEAD && !read_head (walk, name + 4, length, error))
    return FALSE;
  *ret_length = length + 12;
  return hs_picture_add_piece (walk, use, at, length + 12, at + 8, length, error);
}

gboolean
hs_picture_walk_png (HsPictureWalk *walk, GError **error)
{
  gboolean filled = FALSE;
  gsize at = 8, length = 0;

  hs_picture_add_piece (walk, HS_PIECE_HEAD, 0, 8, 8, 0, NULL);
  do
    {
      if (!read_chunk (walk, at, &length, error))
        return FALSE;
      filled |= memcmp (walk->data + at + 4, "IDAT", 4) == 0;
      at += length;
    }
  while (memcmp (walk->data + at - length + 4, "IEND", 4) != 0);
  return filled || hs_picture_damaged (error);
}

static void
put_big32 (GByteArray *out, guint32 value)
{
  const guint8 bytes[] = { (guint8) (value >> 24), (guint8) (value >> 16), (guint8) (value >> 8), (guint8) value };

  g_byte_array_append (out, bytes, sizeof bytes);
}

void
hs_picture_put_png_exif (GByteArray *out, const GByteArray *exif)
{
  guint name;

  put_big32 (out, exif->len);
  name = out->len;
  g_byte_array_append (out, (const guint8 *) "eXIf", 4);
  g_byte_array_append (out, exif->data, exif->len);
  put_big32 (out, checksum (out->data + name, exif->len + 4));
}
