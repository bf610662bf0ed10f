// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-picture.h"

G_BEGIN_DECLS

/* What the readers of the three kinds of photo share; private to hs-picture-….c. */

/**
 * HsPieceUse:
 * @HS_PIECE_HEAD: belongs to the photo and has to stay in front of what is told
 * @HS_PIECE_PICTURE: belongs to the photo
 * @HS_PIECE_EXIF: a TIFF structure with what the camera tells
 * @HS_PIECE_TOLD: anything else that is told beside the photo
 */
typedef enum
{
  HS_PIECE_HEAD,
  HS_PIECE_PICTURE,
  HS_PIECE_EXIF,
  HS_PIECE_TOLD,
} HsPieceUse;

/* A run of the file, and inside it what it says. */
typedef struct
{
  HsPieceUse use;
  gsize start;
  gsize length;
  const guint8 *body;
  gsize body_length;
} HsPiece;

/**
 * HsPictureWalk:
 * @pieces: (element-type HsPiece): the file in order; a file that is refused may leave some
 * @held: bytes that a decoder holds for each pixel of the whole picture; 0: it makes it smaller line by line
 */
typedef struct
{
  const guint8 *data;
  gsize length;
  GArray *pieces;
  guint32 width;
  guint32 height;
  double held;
} HsPictureWalk;

/* Each walks along one kind of file from the first byte to the last that belongs to the photo. */
gboolean hs_picture_walk_jpeg (HsPictureWalk *walk, GError **error);
gboolean hs_picture_walk_png (HsPictureWalk *walk, GError **error);
gboolean hs_picture_walk_webp (HsPictureWalk *walk, GError **error);

/* hs_picture_add_piece: Returns: %FALSE with an error if there are more than any camera writes. */
gboolean hs_picture_add_piece (HsPictureWalk *walk, HsPieceUse use, gsize start, gsize length, gsize body,
                               gsize body_length, GError **error);

/* hs_picture_check_size: once the head told it; also as soon as it did, so that nothing behind it is looked at. */
gboolean hs_picture_check_size (const HsPictureWalk *walk, GError **error);

/* hs_picture_cut_off: the sentence for a file that ends too early. Always %FALSE. */
gboolean hs_picture_cut_off (GError **error);

/* hs_picture_damaged: the sentence for one that cannot be. Always %FALSE. */
gboolean hs_picture_damaged (GError **error);

/* hs_picture_has: @word, written in Latin letters, stands somewhere in @data. */
gboolean hs_picture_has (const guint8 *data, gsize length, const char *word);

/* Each puts one piece with @exif around it, as its kind of file wants it. */
void hs_picture_put_jpeg_exif (GByteArray *out, const GByteArray *exif);
void hs_picture_put_png_exif (GByteArray *out, const GByteArray *exif);
void hs_picture_put_webp_exif (GByteArray *out, const GByteArray *exif);

/* hs_picture_mend_webp: writes the length of the whole and what is in it into the head of a WebP file. */
void hs_picture_mend_webp (GByteArray *out, gboolean exif);

/* hs_picture_read_exif: what a TIFF structure says; what is not understood is left out. */
void hs_picture_read_exif (const guint8 *data, gsize length, HsPicture *picture);

/* hs_picture_write_exif: (transfer full) (nullable): a TIFF structure with how it is turned and when it was taken;
 * %NULL if there is nothing to say. */
GByteArray *hs_picture_write_exif (const HsPicture *picture);

static inline guint32
hs_picture_big16 (const guint8 *at)
{
  return (guint32) at[0] << 8 | at[1];
}

static inline guint32
hs_picture_big32 (const guint8 *at)
{
  return (guint32) at[0] << 24 | (guint32) at[1] << 16 | (guint32) at[2] << 8 | at[3];
}

static inline guint32
hs_picture_little16 (const guint8 *at)
{
  return (guint32) at[1] << 8 | at[0];
}

static inline guint32
hs_picture_little24 (const guint8 *at)
{
  return (guint32) at[2] << 16 | (guint32) at[1] << 8 | at[0];
}

static inline guint32
hs_picture_little32 (const guint8 *at)
{
  return (guint32) at[3] << 24 | (guint32) at[2] << 16 | (guint32) at[1] << 8 | at[0];
}

G_END_DECLS
