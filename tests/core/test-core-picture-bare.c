// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A photo without what the camera tells beside it: every byte of the picture is there, the place is not. */

#include "picture-test.h"

#include "hs-picture.h"

static GBytes *
bare_of (GBytes *data, HsPicture *ret_picture)
{
  g_autoptr (GError) error = NULL;

  hs_picture_read (data, ret_picture, &error);
  g_assert_no_error (error);
  return hs_picture_bare (data, ret_picture);
}

static const PictureTold told_all = { TRUE, 6, "2026:03:10 08:41:07", "-04:00", TRUE };

typedef GBytes *(*Make) (const PictureTold *told, guint width, guint height);
static const Make makers[] = { picture_jpeg, picture_png, picture_webp };

static void
assert_same (const HsPicture *one, const HsPicture *other)
{
  g_assert_cmpint (one->kind, ==, other->kind);
  g_assert_cmpuint (one->width, ==, other->width);
  g_assert_cmpuint (one->height, ==, other->height);
  g_assert_cmpuint (one->orientation, ==, other->orientation);
  g_assert_cmpstr (one->taken, ==, other->taken);
  g_assert_cmpstr (one->offset, ==, other->offset);
}

static void
test_nothing_left (void)
{
  static const char *const words[] = { "GPS", "47,11N", "Tannery", "Tanneries", "nobody", "ftyp", "adobe", "8BIM" };

  for (guint i = 0; i < G_N_ELEMENTS (makers); i++)
    {
      g_autoptr (GBytes) data = makers[i] (&told_all, 640, 480);
      g_autoptr (GBytes) bare = NULL;
      g_autoptr (GBytes) twice = NULL;
      HsPicture before, after;

      bare = bare_of (data, &before);
      twice = bare_of (bare, &after);
      g_assert_true (before.tells_place);
      g_assert_false (after.tells_place);
      assert_same (&before, &after);
      for (guint j = 0; j < G_N_ELEMENTS (words); j++)
        g_assert_false (picture_holds (bare, words[j]));
      /* The number of the list of places in Exif, whichever end first. */
      g_assert_false (picture_holds (bare, "\x88\x25"));
      g_assert_false (picture_holds (bare, "\x25\x88"));
      g_assert_true (g_bytes_equal (bare, twice));
    }
}

/* Of each kind the pieces that make the picture, written down by hand. */
static void
test_picture_stays (void)
{
  static const struct
  {
    Make make;
    const char *pieces[4];
  } rows[] = {
    { picture_jpeg, { "JFIF", "ICC_PROFILE", "table", "scan\xff" } },
    { picture_png, { "gAMA", "IDATpixels", "IHDR", "IEND" } },
    { picture_webp, { "VP8 ", "VP8X", "\x9d\x01\x2a", "WEBP" } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) data = rows[i].make (&told_all, 640, 480);
      g_autoptr (GBytes) bare = NULL;
      HsPicture picture;

      bare = bare_of (data, &picture);
      for (guint j = 0; j < 4; j++)
        g_assert_true (picture_holds (bare, rows[i].pieces[j]));
    }
}

/* Nothing was told, so that nothing changes. */
static void
test_plain_is_the_same (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (makers); i++)
    {
      g_autoptr (GBytes) data = makers[i] (NULL, 640, 480);
      g_autoptr (GBytes) bare = NULL;
      HsPicture picture;

      bare = bare_of (data, &picture);
      g_assert_true (g_bytes_equal (data, bare));
    }
}

/* What is put in: exactly these bytes, counted out by hand. */
static void
test_written_exif (void)
{
  static const char turned[] = "\xff\xd8\xff\xe1\0\x22"
                               "Exif\0\0MM\0*\0\0\0\x08\0\1\1\x12\0\3\0\0\0\1\0\x03\0\0\0\0\0\0\xff\xdb";
  const PictureTold told = { FALSE, 3, NULL, NULL, TRUE };
  GByteArray *out = g_byte_array_new ();
  g_autoptr (GBytes) data = NULL;
  g_autoptr (GBytes) bare = NULL;
  HsPicture picture;

  picture_put (out, "\xff\xd8", 2);
  picture_put_jpeg_exif (out, &told);
  picture_put_jpeg_rest (out, 0xc0, 30, 20, 1);
  data = g_byte_array_free_to_bytes (out);
  bare = bare_of (data, &picture);
  g_assert_cmpmem (g_bytes_get_data (bare, NULL), sizeof turned - 1, turned, sizeof turned - 1);
}

/* Behind JFIF, which has to come first. */
static void
test_order_in_jpeg (void)
{
  g_autoptr (GBytes) data = picture_jpeg (&told_all, 640, 480);
  g_autoptr (GBytes) bare = NULL;
  const guint8 *bytes;
  HsPicture picture;

  bare = bare_of (data, &picture);
  bytes = g_bytes_get_data (bare, NULL);
  g_assert_cmpmem (bytes + 2, 2, "\xff\xe0", 2);
  g_assert_cmpmem (bytes + 2 + 18, 2, "\xff\xe1", 2);
  g_assert_cmpmem (bytes + 2 + 18 + 4, 6, "Exif\0\0", 6);
}

/* The length of the whole and the flags: Exif yes, XMP no. */
static void
test_head_of_webp (void)
{
  static const struct
  {
    PictureTold told;
    guint8 flags;
  } rows[] = {
    { { TRUE, 6, NULL, NULL, TRUE }, 0x08 },
    { { TRUE, 1, NULL, NULL, TRUE }, 0x00 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) data = picture_webp (&rows[i].told, 640, 480);
      g_autoptr (GBytes) bare = NULL;
      const guint8 *bytes;
      HsPicture picture;
      gsize length;

      bare = bare_of (data, &picture);
      bytes = g_bytes_get_data (bare, &length);
      g_assert_cmpuint (bytes[4] | bytes[5] << 8, ==, length - 8);
      g_assert_cmphex (bytes[20], ==, rows[i].flags);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/picture-bare/nothing-left", test_nothing_left);
  g_test_add_func ("/core/picture-bare/picture-stays", test_picture_stays);
  g_test_add_func ("/core/picture-bare/plain-is-the-same", test_plain_is_the_same);
  g_test_add_func ("/core/picture-bare/written-exif", test_written_exif);
  g_test_add_func ("/core/picture-bare/order-in-jpeg", test_order_in_jpeg);
  g_test_add_func ("/core/picture-bare/head-of-webp", test_head_of_webp);
  return g_test_run ();
}
