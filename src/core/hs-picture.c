// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Photos as files: what kind, how large, when and which way up, and the same without what else the camera tells. Used
 * before a decoder sees a byte. A file is walked along piece by piece (hs-picture-jpeg.c, -png.c, -webp.c); what is
 * refused is refused by its head. */

#include "hs-picture-private.h"

#include "hs-core-error.h"

#include <string.h>

/* Most pixels, in millions. A JPEG is made smaller while it is decoded, unless its picture comes in several layers; of
 * the others a decoder holds the whole. */
#define MOST_PIXELS 110
/* Most bytes that a decoder may hold of a picture at once, in millions. */
#define MOST_HELD 160
/* A camera writes some dozens, a PNG of 40 MiB some thousands; each takes memory while the file is looked at. */
#define MOST_PIECES 65536

static const char *const media_types[] = {
  [HS_PICTURE_JPEG] = "image/jpeg",
  [HS_PICTURE_PNG] = "image/png",
  [HS_PICTURE_WEBP] = "image/webp",
};

HsPictureKind
hs_picture_sniff (GBytes *data)
{
  gsize length;
  const guint8 *bytes = g_bytes_get_data (data, &length);

  if (length >= 3 && memcmp (bytes, "\xff\xd8\xff", 3) == 0)
    return HS_PICTURE_JPEG;
  if (length >= 8 && memcmp (bytes, "\x89PNG\r\n\x1a\n", 8) == 0)
    return HS_PICTURE_PNG;
  if (length >= 12 && memcmp (bytes, "RIFF", 4) == 0 && memcmp (bytes + 8, "WEBP", 4) == 0)
    return HS_PICTURE_WEBP;
  return HS_PICTURE_OTHER;
}

const char *
hs_picture_media_type (HsPictureKind kind)
{
  return kind < HS_PICTURE_OTHER ? media_types[kind] : NULL;
}

gboolean
hs_picture_cut_off (GError **error)
{
  return hs_core_bad_value (error, "The file is cut off: its end is missing. Copy it from the camera again.");
}

gboolean
hs_picture_damaged (GError **error)
{
  return hs_core_bad_value (error, "The file is damaged inside. Copy it from the camera again.");
}

gboolean
hs_picture_has (const guint8 *data, gsize length, const char *word)
{
  gsize n = strlen (word);

  for (gsize at = 0; at + n <= length; at++)
    if (data[at] == (guint8) *word && memcmp (data + at, word, n) == 0)
      return TRUE;
  return FALSE;
}

gboolean
hs_picture_add_piece (HsPictureWalk *walk, HsPieceUse use, gsize start, gsize length, gsize body, gsize body_length,
                      GError **error)
{
  HsPiece piece = { use, start, length, walk->data + body, body_length };

  if (walk->pieces->len == MOST_PIECES)
    return hs_core_bad_value (error, "The file is in more than %d pieces, as no camera writes it. Save the picture "
                                     "again as a JPEG first.", MOST_PIECES);
  g_array_append_val (walk->pieces, piece);
  return TRUE;
}

/* Why it is not taken, as near as the first bytes tell. */
static gboolean
refuse_other (const guint8 *data, gsize length, GError **error)
{
  gsize at = length >= 3 && memcmp (data, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;

  while (at < length && g_ascii_isspace ((char) data[at]))
    at++;
  if (length == 0)
    return hs_core_bad_value (error, "The file is empty. Copy it from the camera again.");
  if (length >= 12 && memcmp (data + 4, "ftyp", 4) == 0
      && (memcmp (data + 8, "he", 2) == 0 || memcmp (data + 8, "mif1", 4) == 0 || memcmp (data + 8, "avif", 4) == 0))
    return hs_core_bad_value (error, "The file is a HEIC or AVIF photo, which not every computer can show. Set the "
                                     "phone to take JPEG photos, or send a JPEG copy.");
  if (length >= 8 && memcmp (data + 4, "ftyp", 4) == 0)
    return hs_core_bad_value (error, "The file is a film. Only photos are kept: JPEG, PNG or WebP.");
  if (at < length && data[at] == '<')
    return hs_core_bad_value (error, "The file is a drawing or a page of text, not a photo. Only photos are kept: "
                                     "JPEG, PNG or WebP.");
  return hs_core_bad_value (error, "The file is not a photo. Only photos are kept: JPEG, PNG or WebP.");
}

gboolean
hs_picture_check_size (const HsPictureWalk *walk, GError **error)
{
  guint64 pixels = (guint64) walk->width * walk->height;
  guint most = walk->held > 0 ? MIN (MOST_PIXELS, (guint) (MOST_HELD / walk->held)) : MOST_PIXELS;

  if (pixels > (guint64) most * 1000000)
    return hs_core_bad_value (error, "The picture has %u × %u pixels; %u million are the most. Make it smaller first.",
                              walk->width, walk->height, most);
  return TRUE;
}

static gboolean
walk_along (HsPictureKind kind, HsPictureWalk *walk, GError **error)
{
  switch (kind)
    {
    case HS_PICTURE_JPEG:
      return hs_picture_walk_jpeg (walk, error);
    case HS_PICTURE_PNG:
      return hs_picture_walk_png (walk, error);
    case HS_PICTURE_WEBP:
      return hs_picture_walk_webp (walk, error);
    case HS_PICTURE_OTHER:
    default:
      return refuse_other (walk->data, walk->length, error);
    }
}

static void
walk_start (HsPictureWalk *walk, GBytes *data)
{
  *walk = (HsPictureWalk){ .pieces = g_array_new (FALSE, FALSE, sizeof (HsPiece)) };
  walk->data = g_bytes_get_data (data, &walk->length);
}

/* The words by which the other ways of telling name a place: XMP's by names, IPTC's by numbers of its second record
 * (90 city, 92 street, 95 state, 100 and 101 country). */
static gboolean
tells_place (const HsPiece *piece)
{
  static const char *const words[] = { "GPS", "Location", "photoshop:City", "\x1c\x02\x5a", "\x1c\x02\x5c",
                                       "\x1c\x02\x5f", "\x1c\x02\x64", "\x1c\x02\x65" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (hs_picture_has (piece->body, piece->body_length, words[i]))
      return TRUE;
  return FALSE;
}

static void
read_told (const HsPictureWalk *walk, HsPicture *picture)
{
  gboolean read = FALSE;

  for (guint i = 0; i < walk->pieces->len; i++)
    {
      const HsPiece *piece = &g_array_index (walk->pieces, HsPiece, i);

      if (piece->use == HS_PIECE_EXIF && !read)
        {
          read = TRUE;
          hs_picture_read_exif (piece->body, piece->body_length, picture);
        }
      else if (piece->use == HS_PIECE_TOLD && !picture->tells_place)
        picture->tells_place = tells_place (piece);
    }
}

gboolean
hs_picture_read (GBytes *data, HsPicture *ret_picture, GError **error)
{
  HsPicture picture = { .kind = hs_picture_sniff (data), .orientation = 1 };
  HsPictureWalk walk;
  gboolean done;

  walk_start (&walk, data);
  if (walk.length > HS_PICTURE_MOST_BYTES)
    done = hs_core_bad_value (error, "The file is longer than %d MiB. Make the picture smaller first.",
                              HS_PICTURE_MOST_BYTES / 1048576);
  else
    done = walk_along (picture.kind, &walk, error);
  if (done)
    {
      picture.width = walk.width;
      picture.height = walk.height;
      read_told (&walk, &picture);
      *ret_picture = picture;
    }
  g_array_unref (walk.pieces);
  return done;
}

gboolean
hs_picture_read_head (GBytes *data, HsPicture *ret_picture)
{
  HsPicture picture = { .kind = hs_picture_sniff (data), .orientation = 1 };
  HsPictureWalk walk;

  if (picture.kind == HS_PICTURE_OTHER)
    return FALSE;
  walk_start (&walk, data);
  walk_along (picture.kind, &walk, NULL);
  picture.width = walk.width;
  picture.height = walk.height;
  read_told (&walk, &picture);
  g_array_unref (walk.pieces);
  *ret_picture = picture;
  return TRUE;
}

static void
put_exif (HsPictureKind kind, GByteArray *out, const GByteArray *exif)
{
  if (kind == HS_PICTURE_JPEG)
    hs_picture_put_jpeg_exif (out, exif);
  else if (kind == HS_PICTURE_PNG)
    hs_picture_put_png_exif (out, exif);
  else
    hs_picture_put_webp_exif (out, exif);
}

/* In JPEG and PNG what is told stands behind the head, in WebP behind the picture. */
static void
put_pieces (const HsPictureWalk *walk, HsPictureKind kind, const GByteArray *exif, GByteArray *out)
{
  gboolean told = exif == NULL;

  for (guint i = 0; i < walk->pieces->len; i++)
    {
      const HsPiece *piece = &g_array_index (walk->pieces, HsPiece, i);

      if (piece->use == HS_PIECE_EXIF || piece->use == HS_PIECE_TOLD)
        continue;
      if (piece->use == HS_PIECE_PICTURE && !told && kind != HS_PICTURE_WEBP)
        {
          put_exif (kind, out, exif);
          told = TRUE;
        }
      g_byte_array_append (out, walk->data + piece->start, (guint) piece->length);
    }
  if (!told)
    put_exif (kind, out, exif);
}

GBytes *
hs_picture_bare (GBytes *data, const HsPicture *picture)
{
  GByteArray *out = g_byte_array_sized_new ((guint) g_bytes_get_size (data) + 128);
  GByteArray *exif = hs_picture_write_exif (picture);
  HsPictureWalk walk;

  walk_start (&walk, data);
  if (walk_along (picture->kind, &walk, NULL))
    {
      put_pieces (&walk, picture->kind, exif, out);
      if (picture->kind == HS_PICTURE_WEBP)
        hs_picture_mend_webp (out, exif != NULL);
    }
  g_array_unref (walk.pieces);
  if (exif != NULL)
    g_byte_array_unref (exif);
  return g_byte_array_free_to_bytes (out);
}
