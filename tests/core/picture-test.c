// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Photos made of bytes, written down from the formats and sharing nothing with the readers. */

#include "picture-test.h"

void
picture_put (GByteArray *out, const void *data, gsize length)
{
  g_byte_array_append (out, data, (guint) length);
}

static void
picture_put_number (GByteArray *out, guint64 value, guint bytes, gboolean little)
{
  for (guint i = 0; i < bytes; i++)
    {
      guint8 byte = (guint8) (value >> 8 * (little ? i : bytes - 1 - i));

      picture_put (out, &byte, 1);
    }
}

static void
picture_put_entry (GByteArray *out, const PictureTold *told, guint tag, guint type, guint count, guint value)
{
  picture_put_number (out, tag, 2, told->little);
  picture_put_number (out, type, 2, told->little);
  picture_put_number (out, count, 4, told->little);
  if (type == 3)
    {
      picture_put_number (out, value, 2, told->little);
      picture_put_number (out, 0, 2, told->little);
    }
  else
    picture_put_number (out, value, 4, told->little);
}

/* Four lists of fixed places: 8 main (make, orientation, more, place), 64 more, 96 place, 120 the texts. */
GByteArray *
picture_exif (const PictureTold *told)
{
  GByteArray *out = g_byte_array_new ();
  guint n = 3 + (told->place ? 1 : 0);

  picture_put (out, told->little ? "II*\0" : "MM\0*", 4);
  picture_put_number (out, 8, 4, told->little);
  picture_put_number (out, n, 2, told->little);
  picture_put_entry (out, told, 0x010f, 2, 8, 120);
  picture_put_entry (out, told, 0x0112, 3, 1, told->orientation);
  picture_put_entry (out, told, 0x8769, 4, 1, 64);
  if (told->place)
    picture_put_entry (out, told, 0x8825, 4, 1, 96);
  g_byte_array_set_size (out, 64);
  memset (out->data + 10 + 12 * n, 0, 64 - 10 - 12 * n);
  picture_put_number (out, (told->taken != NULL) + (told->offset != NULL), 2, told->little);
  if (told->taken != NULL)
    picture_put_entry (out, told, 0x9003, 2, 20, 128);
  if (told->offset != NULL)
    picture_put_entry (out, told, 0x9011, 2, 7, 148);
  while (out->len < 96)
    picture_put (out, "", 1);
  picture_put_number (out, 1, 2, told->little);
  picture_put_entry (out, told, 0x0002, 5, 3, 156);
  while (out->len < 120)
    picture_put (out, "", 1);
  picture_put (out, "Tannery", 8);
  picture_put (out, told->taken != NULL ? told->taken : "                   ", 20);
  picture_put (out, told->offset != NULL ? told->offset : "      ", 7);
  picture_put (out, "", 1);
  for (guint i = 0; i < 3; i++)
    {
      picture_put_number (out, i == 0 ? 47 : 11, 4, told->little);
      picture_put_number (out, 1, 4, told->little);
    }
  return out;
}

void
picture_put_segment (GByteArray *out, guint8 marker, const void *data, gsize length)
{
  const guint8 head[] = { 0xff, marker, (guint8) ((length + 2) >> 8), (guint8) (length + 2) };

  picture_put (out, head, sizeof head);
  picture_put (out, data, length);
}

void
picture_put_jpeg_exif (GByteArray *out, const PictureTold *told)
{
  g_autoptr (GByteArray) exif = picture_exif (told);

  g_byte_array_prepend (exif, (const guint8 *) "Exif\0\0", 6);
  picture_put_segment (out, 0xe1, exif->data, exif->len);
}

void
picture_put_jpeg_rest (GByteArray *out, guint8 frame, guint width, guint height, guint n_scans)
{
  const guint8 size[] = { 8, (guint8) (height >> 8), (guint8) height, (guint8) (width >> 8), (guint8) width, 1,
                          1, 0x11, 0 };

  picture_put_segment (out, 0xdb, PICTURE_TEXT ("\x00table"));
  picture_put_segment (out, frame, size, sizeof size);
  for (guint i = 0; i < n_scans; i++)
    {
      picture_put_segment (out, 0xda, PICTURE_TEXT ("\x01\x01\x00\x00\x3f\x00"));
      picture_put (out, PICTURE_TEXT ("scan\xff\x00\xff\xd0more"));
    }
  picture_put (out, PICTURE_TEXT ("\xff\xd9"));
}

GBytes *
picture_jpeg (const PictureTold *told, guint width, guint height)
{
  GByteArray *out = g_byte_array_new ();

  picture_put (out, PICTURE_TEXT ("\xff\xd8"));
  picture_put_segment (out, 0xe0, PICTURE_TEXT ("JFIF\0\1\1\0\0\1\0\1\0\0"));
  if (told != NULL)
    {
      picture_put_jpeg_exif (out, told);
      picture_put_segment (out, 0xe1, PICTURE_TEXT ("http://ns.adobe.com/xap/1.0/\0<exif:GPSLatitude>47,11N"));
      picture_put_segment (out, 0xe2, PICTURE_TEXT ("ICC_PROFILE\0\1\1colors"));
      picture_put_segment (out, 0xed, PICTURE_TEXT ("Photoshop 3.0\08BIM\x1c\x02\x5a\0\x09Tanneries"));
      picture_put_segment (out, 0xfe, PICTURE_TEXT ("owner: nobody"));
    }
  picture_put_jpeg_rest (out, 0xc0, width, height, 1);
  if (told != NULL)
    picture_put (out, PICTURE_TEXT ("....ftypmp42 GPS film"));
  return g_byte_array_free_to_bytes (out);
}

guint32
picture_crc (const guint8 *data, gsize length)
{
  guint32 sum = 0xffffffff;

  for (gsize i = 0; i < length; i++)
    {
      sum ^= data[i];
      for (guint bit = 0; bit < 8; bit++)
        sum = (sum & 1) != 0 ? sum >> 1 ^ 0xedb88320 : sum >> 1;
    }
  return ~sum;
}

void
picture_put_chunk (GByteArray *out, const char *name, const void *data, gsize length)
{
  guint start;

  picture_put_number (out, length, 4, FALSE);
  start = out->len;
  picture_put (out, name, 4);
  picture_put (out, data, length);
  picture_put_number (out, picture_crc (out->data + start, out->len - start), 4, FALSE);
}

GBytes *
picture_png (const PictureTold *told, guint width, guint height)
{
  GByteArray *out = g_byte_array_new ();
  g_autoptr (GByteArray) head = g_byte_array_new ();

  picture_put_number (head, width, 4, FALSE);
  picture_put_number (head, height, 4, FALSE);
  picture_put (head, PICTURE_TEXT ("\x08\x02\0\0\0"));
  picture_put (out, PICTURE_TEXT ("\x89PNG\r\n\x1a\n"));
  picture_put_chunk (out, "IHDR", head->data, head->len);
  if (told != NULL)
    {
      g_autoptr (GByteArray) exif = picture_exif (told);

      picture_put_chunk (out, "gAMA", PICTURE_TEXT ("\0\0\xb1\x8f"));
      picture_put_chunk (out, "eXIf", exif->data, exif->len);
      picture_put_chunk (out, "tEXt", PICTURE_TEXT ("Comment\0GPS 47,11N"));
      picture_put_chunk (out, "iTXt", PICTURE_TEXT ("XML:com.adobe.xmp\0\0\0\0\0<exif:GPSLatitude>47,11N"));
    }
  picture_put_chunk (out, "IDAT", PICTURE_TEXT ("pixels"));
  picture_put_chunk (out, "IEND", PICTURE_TEXT (""));
  if (told != NULL)
    picture_put (out, PICTURE_TEXT ("GPS behind"));
  return g_byte_array_free_to_bytes (out);
}

void
picture_put_riff (GByteArray *out, const char *name, const void *data, gsize length)
{
  picture_put (out, name, 4);
  picture_put_number (out, length, 4, TRUE);
  picture_put (out, data, length);
  if (length % 2 != 0)
    picture_put (out, "", 1);
}

GBytes *
picture_end_riff (GByteArray *out)
{
  for (guint i = 0; i < 4; i++)
    out->data[4 + i] = (guint8) ((out->len - 8) >> 8 * i);
  return g_byte_array_free_to_bytes (out);
}

GBytes *
picture_webp (const PictureTold *told, guint width, guint height)
{
  GByteArray *out = g_byte_array_new ();
  const guint8 canvas[] = { 0x0c, 0, 0, 0, (guint8) (width - 1), (guint8) ((width - 1) >> 8), 0,
                            (guint8) (height - 1), (guint8) ((height - 1) >> 8), 0 };
  const guint8 lossy[] = { 0, 0, 0, 0x9d, 0x01, 0x2a, (guint8) width, (guint8) (width >> 8),
                           (guint8) height, (guint8) (height >> 8), 'x' };

  picture_put (out, PICTURE_TEXT ("RIFF....WEBP"));
  if (told != NULL)
    picture_put_riff (out, "VP8X", canvas, sizeof canvas);
  picture_put_riff (out, "VP8 ", lossy, sizeof lossy);
  if (told != NULL)
    {
      g_autoptr (GByteArray) exif = picture_exif (told);

      picture_put_riff (out, "EXIF", exif->data, exif->len);
      picture_put_riff (out, "XMP ", PICTURE_TEXT ("<exif:GPSLatitude>47,11N"));
      picture_put_riff (out, "ABCD", PICTURE_TEXT ("GPS"));
    }
  return picture_end_riff (out);
}

gboolean
picture_holds (GBytes *data, const char *word)
{
  gsize length, n = strlen (word);
  const guint8 *bytes = g_bytes_get_data (data, &length);

  for (gsize at = 0; at + n <= length; at++)
    if (memcmp (bytes + at, word, n) == 0)
      return TRUE;
  return FALSE;
}
