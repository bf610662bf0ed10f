// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the head of a photo says, and what is no photo: each sentence by the file that earns it. */

#include "picture-test.h"

#include "hs-core-error.h"
#include "hs-picture.h"

static GBytes *
bytes_of (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

static GBytes *
cut (GBytes *data, gsize length)
{
  GBytes *short_one = g_bytes_new_from_bytes (data, 0, length);

  g_bytes_unref (data);
  return short_one;
}

static void
assert_refused (GBytes *data, const char *says)
{
  g_autoptr (GError) error = NULL;
  HsPicture picture = { .width = 7 };

  g_assert_false (hs_picture_read (data, &picture, &error));
  g_assert_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE);
  if (strstr (error->message, says) == NULL)
    g_error ("“%s” does not say “%s”", error->message, says);
  g_assert_cmpuint (picture.width, ==, 7);
  g_bytes_unref (data);
}

static HsPicture
read_good (GBytes *data)
{
  g_autoptr (GError) error = NULL;
  HsPicture picture;

  hs_picture_read (data, &picture, &error);
  g_assert_no_error (error);
  g_bytes_unref (data);
  return picture;
}

typedef GBytes *(*Make) (const PictureTold *told, guint width, guint height);

static const struct
{
  const char *name;
  Make make;
  HsPictureKind kind;
} kinds[] = {
  { "image/jpeg", picture_jpeg, HS_PICTURE_JPEG },
  { "image/png", picture_png, HS_PICTURE_PNG },
  { "image/webp", picture_webp, HS_PICTURE_WEBP },
};

static void
test_plain (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      HsPicture picture = read_good (kinds[i].make (NULL, 640, 479));

      g_assert_cmpint (picture.kind, ==, kinds[i].kind);
      g_assert_cmpstr (hs_picture_media_type (picture.kind), ==, kinds[i].name);
      g_assert_cmpuint (picture.width, ==, 640);
      g_assert_cmpuint (picture.height, ==, 479);
      g_assert_cmpuint (picture.orientation, ==, 1);
      g_assert_cmpstr (picture.taken, ==, "");
      g_assert_cmpstr (picture.offset, ==, "");
      g_assert_false (picture.tells_place);
    }
  g_assert_null (hs_picture_media_type (HS_PICTURE_OTHER));
}

static void
test_told (void)
{
  static const struct
  {
    PictureTold told;
    guint orientation;
    const char *taken, *offset;
  } rows[] = {
    { { FALSE, 6, "2026:03:10 08:41:07", "+01:00", TRUE }, 6, "2026-03-10T08:41:07", "+01:00" },
    { { TRUE, 8, "2026:03:10 08:41:07", "-04:00", FALSE }, 8, "2026-03-10T08:41:07", "-04:00" },
    { { TRUE, 1, "2024:02:29 23:59:59", NULL, TRUE }, 1, "2024-02-29T23:59:59", "" },
    { { FALSE, 3, NULL, "+01:00", FALSE }, 3, "", "" },
    /* What cannot be is not there. */
    { { FALSE, 0, "0000:00:00 00:00:00", "+01:00", FALSE }, 1, "", "" },
    { { FALSE, 9, "2026:02:30 08:41:07", NULL, FALSE }, 1, "", "" },
    { { TRUE, 2, "2026:03:10 24:00:00", NULL, FALSE }, 2, "", "" },
    { { TRUE, 2, "2026:03:10 23:60:00", NULL, FALSE }, 2, "", "" },
    { { TRUE, 2, "2026:03:10 23:59:60", NULL, FALSE }, 2, "", "" },
    { { TRUE, 2, "2026-03-10 23:59:00", NULL, FALSE }, 2, "", "" },
    { { TRUE, 4, "2026:03:10 08:41:07", "+15:00", FALSE }, 4, "2026-03-10T08:41:07", "" },
    { { TRUE, 4, "2026:03:10 08:41:07", "UTC+01", FALSE }, 4, "2026-03-10T08:41:07", "" },
  };

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
      {
        HsPicture picture = read_good (kinds[k].make (&rows[i].told, 30, 20));

        g_test_message ("%s %u", kinds[k].name, i);
        g_assert_cmpuint (picture.orientation, ==, rows[i].orientation);
        g_assert_cmpstr (picture.taken, ==, rows[i].taken);
        g_assert_cmpstr (picture.offset, ==, rows[i].offset);
        g_assert_true (picture.tells_place);
      }
}

/* A place in Exif alone, as most phones write it. */
static void
test_place_in_exif (void)
{
  for (guint place = 0; place < 2; place++)
    {
      const PictureTold told = { FALSE, 1, NULL, NULL, place == 1 };
      GByteArray *out = g_byte_array_new ();

      picture_put (out, "\xff\xd8", 2);
      picture_put_jpeg_exif (out, &told);
      picture_put_jpeg_rest (out, 0xc0, 30, 20, 1);
      g_assert_cmpint (read_good (g_byte_array_free_to_bytes (out)).tells_place, ==, place);
    }
}

static void
test_not_a_photo (void)
{
  static const struct
  {
    const char *text, *says;
  } rows[] = {
    { "", "is empty" },
    { "<svg xmlns='http://www.w3.org/2000/svg'/>", "a drawing or a page of text" },
    { "\xef\xbb\xbf \n<?xml version='1.0'?><!DOCTYPE svg [<!ENTITY a '1'>]>", "a drawing or a page of text" },
    { "GIF89a", "is not a photo. Only photos are kept: JPEG, PNG or WebP." },
    { "%PDF-1.7", "is not a photo" },
    { "\xff\xd8", "is not a photo" },
    { "RIFF....WAVE", "is not a photo" },
    { "....ftypheic....", "HEIC or AVIF" },
    { "....ftypmif1....", "HEIC or AVIF" },
    { "....ftypavif....", "HEIC or AVIF" },
    { "....ftypmp42....", "is a film" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_refused (bytes_of (rows[i].text), rows[i].says);
}

/* The first 300 bytes of each; a WebP tells at its end. */
static void
test_head_alone (void)
{
  static const PictureTold told = { FALSE, 6, "2026:03:10 08:41:07", "+01:00", TRUE };
  g_autoptr (GBytes) none = bytes_of ("GIF89a");
  HsPicture picture;

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      GByteArray *more = g_bytes_unref_to_array (kinds[k].make (&told, 640, 480));
      g_autoptr (GBytes) part = NULL;

      g_byte_array_set_size (more, kinds[k].kind == HS_PICTURE_WEBP ? 60 : 300);
      part = g_byte_array_free_to_bytes (more);
      g_assert_true (hs_picture_read_head (part, &picture));
      g_assert_cmpuint (picture.width, ==, (kinds[k].kind == HS_PICTURE_JPEG ? 0 : 640));
      g_assert_cmpstr (picture.taken, ==, (kinds[k].kind == HS_PICTURE_WEBP ? "" : "2026-03-10T08:41:07"));
    }
  g_assert_false (hs_picture_read_head (none, &picture));
}

/* By its head, whatever is or is not behind it. */
static void
test_too_large (void)
{
  GByteArray *layered = g_byte_array_new ();
  GByteArray *scans = g_byte_array_new ();

  assert_refused (picture_jpeg (NULL, 20000, 20000), "20000 × 20000 pixels; 110 million are the most");
  assert_refused (picture_png (NULL, 20000, 20000), "20000 × 20000 pixels; 40 million are the most");
  assert_refused (picture_webp (NULL, 16000, 16000), "16000 × 16000 pixels; 20 million are the most");
  assert_refused (cut (picture_png (NULL, 20000, 20000), 40), "20000 × 20000 pixels");
  assert_refused (cut (picture_png (NULL, 4294967295u, 4294967295u), 40), "4294967295 × 4294967295 pixels");
  assert_refused (cut (picture_jpeg (NULL, 65535, 65535), 60), "65535 × 65535 pixels");
  read_good (picture_jpeg (NULL, 12000, 9000));
  read_good (picture_png (NULL, 8000, 5000));
  assert_refused (picture_png (NULL, 8001, 5000), "8001 × 5000 pixels; 40 million are the most");
  read_good (picture_webp (NULL, 5000, 4000));
  assert_refused (picture_webp (NULL, 5000, 4001), "5000 × 4001 pixels; 20 million are the most");
  picture_put (layered, "\xff\xd8", 2);
  picture_put_jpeg_rest (layered, 0xc2, 12000, 9000, 1);
  assert_refused (g_byte_array_free_to_bytes (layered), "12000 × 9000 pixels; 80 million");
  picture_put (scans, "\xff\xd8", 2);
  picture_put_jpeg_rest (scans, 0xc0, 12000, 9000, 2);
  assert_refused (g_byte_array_free_to_bytes (scans), "12000 × 9000 pixels; 80 million");
}

static void
test_too_long (void)
{
  GByteArray *out = g_byte_array_new ();

  g_byte_array_set_size (out, HS_PICTURE_MOST_BYTES + 1);
  memset (out->data, 0, out->len);
  memcpy (out->data, "\xff\xd8\xff", 3);
  assert_refused (g_byte_array_free_to_bytes (out), "longer than 40 MiB");
}

/* Every length but the whole one. */
static void
test_cut_off (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      g_autoptr (GBytes) whole = kinds[k].make (NULL, 640, 480);

      for (gsize length = 12; length < g_bytes_get_size (whole); length++)
        {
          g_autoptr (GBytes) part = g_bytes_new_from_bytes (whole, 0, length);

          assert_refused (g_bytes_ref (part), "Copy it from the camera again.");
        }
    }
  assert_refused (cut (picture_jpeg (NULL, 640, 480), 60), "cut off: its end is missing");
}

/* One byte of each turned over: PNG notices all of them, by its checksums. */
static void
test_png_sums (void)
{
  g_autoptr (GBytes) whole = picture_png (NULL, 640, 480);
  gsize length;
  const guint8 *data = g_bytes_get_data (whole, &length);

  for (gsize at = 8; at < length; at++)
    {
      guint8 *other = g_memdup2 (data, length);

      other[at] ^= 0x10;
      assert_refused (g_bytes_new_take (other, length), "Copy it from the camera again.");
    }
}

typedef struct
{
  const char *name;
  const char *data;
  gsize length;
} Part;

static GBytes *
png_of (const Part *parts)
{
  GByteArray *out = g_byte_array_new ();

  picture_put (out, "\x89PNG\r\n\x1a\n", 8);
  for (guint i = 0; parts[i].name != NULL; i++)
    picture_put_chunk (out, parts[i].name, parts[i].data, parts[i].length);
  return g_byte_array_free_to_bytes (out);
}

static void
test_damaged_png (void)
{
  static const char head[] = "\0\0\0\x08\0\0\0\x08\x08\x02\0\0\0";
  static const char flat[] = "\0\0\0\x08\0\0\0\0\x08\x02\0\0\0";
  static const Part rows[][5] = {
    { { "IHDR", flat, 13 }, { "IDAT", "x", 1 }, { "IEND", "", 0 } },
    { { "IHDR", head, 12 }, { "IDAT", "x", 1 }, { "IEND", "", 0 } },
    { { "IHDR", head, 13 }, { "IEND", "", 0 } },
    { { "IDAT", "x", 1 }, { "IHDR", head, 13 }, { "IEND", "", 0 } },
    { { "IHDR", head, 13 }, { "IHDR", head, 13 }, { "IDAT", "x", 1 }, { "IEND", "", 0 } },
    { { "IHDR", head, 13 }, { "IDAT", "x", 1 }, { "ABCD", "", 0 }, { "IEND", "", 0 } },
    { { "IHDR", head, 13 }, { "ID T", "x", 1 }, { "IEND", "", 0 } },
  };
  static const Part good[] = { { "IHDR", head, 13 }, { "IDAT", "x", 1 }, { "IEND", "", 0 }, { NULL, NULL, 0 } };

  g_assert_cmpuint (read_good (png_of (good)).height, ==, 8);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_refused (png_of (rows[i]), "is damaged inside");
}

static void
test_damaged_jpeg (void)
{
  static const struct
  {
    const char *data;
    gsize length;
  } rows[] = {
    /* No picture; an empty segment; a scan before its frame; no height; two frames; a second start. */
    { "\xff\xd8\xff\xd9", 4 },
    { "\xff\xd8\xff\xe0\0\1\xff\xd9", 8 },
    { "\xff\xd8\xff\xda\0\2xx\xff\xd9", 10 },
    { "\xff\xd8\xff\xc0\0\x0b\x08\0\0\0\x09\1\1\x11\0\xff\xda\0\2x\xff\xd9", 22 },
    { "\xff\xd8\xff\xc0\0\x0b\x08\0\x07\0\x09\1\1\x11\0\xff\xc0\0\x0b\x08\0\x07\0\x09\1\1\x11\0\xff\xda\0\2x\xff\xd9",
      35 },
    { "\xff\xd8\xff\xc0\0\x0b\x08\0\x07\0\x09\1\1\x11\0\xff\xd8\xff\xda\0\2x\xff\xd9", 24 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_refused (g_bytes_new_static (rows[i].data, rows[i].length), "is damaged inside");
  /* Filling between segments is no fault. */
  g_assert_cmpuint (read_good (g_bytes_new_static ("\xff\xd8\xff\xfe\0\2zz\xff\xff\xff\xc0\0\x0b\x08\0\x07\0\x09\1\1"
                                                   "\x11\0\xff\xda\0\2x\xff\xff\xd9", 31)).width, ==, 9);
}

static GBytes *
webp_of (const Part *parts)
{
  GByteArray *out = g_byte_array_new ();

  picture_put (out, "RIFF....WEBP", 12);
  for (guint i = 0; parts[i].name != NULL; i++)
    picture_put_riff (out, parts[i].name, parts[i].data, parts[i].length);
  return picture_end_riff (out);
}

static void
test_damaged_webp (void)
{
  static const char lossy[] = "\0\0\0\x9d\x01\x2a\x08\0\x09\0";
  static const char wrong[] = "\0\0\0\x9d\x01\x2b\x08\0\x09\0";
  static const char lossless[] = "\x2f\x07\x00\x02\0";
  static const char canvas[] = "\0\0\0\0\x63\0\0\x31\0\0";
  static const Part bad[][4] = {
    { { "VP8 ", wrong, 10 } },
    { { "VP8 ", lossy, 9 } },
    { { "VP8L", "\x2e\x07\x00\x02\0", 5 } },
    { { "VP8X", canvas, 9 }, { "VP8 ", lossy, 10 } },
    { { "VP8X", canvas, 10 } },
    { { "VP8 ", lossy, 10 }, { "VP8X", canvas, 10 } },
    { { "VP8 ", lossy, 10 }, { "VP8 ", lossy, 10 } },
    { { NULL, NULL, 0 } },
  };
  static const Part moves[] = { { "VP8X", "\2\0\0\0\x63\0\0\x31\0\0", 10 }, { NULL, NULL, 0 } };
  static const Part short_one[] = { { "VP8L", lossless, 5 }, { NULL, NULL, 0 } };
  static const Part large[] = { { "VP8X", canvas, 10 }, { "VP8 ", lossy, 10 }, { NULL, NULL, 0 } };
  HsPicture picture;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    assert_refused (webp_of (bad[i]), "is damaged inside");
  assert_refused (webp_of (moves), "is a moving picture");
  /* 14 bits of width less one, 14 of height less one: 0x00020007 is 8 × 9. */
  picture = read_good (webp_of (short_one));
  g_assert_cmpuint (picture.width, ==, 8);
  g_assert_cmpuint (picture.height, ==, 9);
  picture = read_good (webp_of (large));
  g_assert_cmpuint (picture.width, ==, 100);
  g_assert_cmpuint (picture.height, ==, 50);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/picture/plain", test_plain);
  g_test_add_func ("/core/picture/told", test_told);
  g_test_add_func ("/core/picture/place-in-exif", test_place_in_exif);
  g_test_add_func ("/core/picture/not-a-photo", test_not_a_photo);
  g_test_add_func ("/core/picture/head-alone", test_head_alone);
  g_test_add_func ("/core/picture/too-large", test_too_large);
  g_test_add_func ("/core/picture/too-long", test_too_long);
  g_test_add_func ("/core/picture/cut-off", test_cut_off);
  g_test_add_func ("/core/picture/png-sums", test_png_sums);
  g_test_add_func ("/core/picture/damaged-png", test_damaged_png);
  g_test_add_func ("/core/picture/damaged-jpeg", test_damaged_jpeg);
  g_test_add_func ("/core/picture/damaged-webp", test_damaged_webp);
  return g_test_run ();
}
