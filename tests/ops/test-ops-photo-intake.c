// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* From a file to a photo that may be kept: what is refused in which words, what is taken off, which way up it is. */

#include "hs-core-error.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-photo-intake.h"
#include "hs-pixels.h"
#include "photo-test.h"

#include <glib/gstdio.h>
#include <sys/stat.h>

static const PictureTold told = { TRUE, 6, "2026:03:10 08:41:07", "-04:00", TRUE };

static HsPhotoIntake *
take (GBytes *data, gboolean keep_place)
{
  g_autoptr (GError) error = NULL;
  HsPhotoIntake *intake = hs_photo_intake_take ("IMG_1.jpg", data, keep_place, &error);

  g_assert_no_error (error);
  g_bytes_unref (data);
  return intake;
}

static void
test_told (void)
{
  g_autoptr (HsPhotoIntake) intake = take (photo_jpeg (&told, 80, 40, 0), FALSE);

  g_assert_cmpstr (intake->name, ==, "IMG_1.jpg");
  g_assert_cmpstr (intake->media_type, ==, "image/jpeg");
  g_assert_cmpstr (intake->taken, ==, "2026-03-10T08:41:07");
  g_assert_cmpstr (intake->offset, ==, "-04:00");
  g_assert_cmpuint (intake->width, ==, 40);
  g_assert_cmpuint (intake->height, ==, 80);
  g_assert_true (intake->told_place);
  g_assert_false (intake->kept_place);
  g_assert_false (picture_holds (intake->data, "Tannery"));
  g_assert_false (picture_holds (intake->thumbnail, "Tannery"));
}

/* Kept on purpose: byte for byte. A photo that tells no place is bared all the same. */
static void
test_keep_place (void)
{
  const PictureTold placeless = { TRUE, 6, NULL, NULL, FALSE };
  g_autoptr (GBytes) data = photo_jpeg (&told, 80, 40, 0);
  g_autoptr (HsPhotoIntake) kept = take (g_bytes_ref (data), TRUE);
  g_autoptr (HsPhotoIntake) other = take (photo_jpeg (&placeless, 80, 40, 0), TRUE);

  g_assert_true (kept->told_place && kept->kept_place);
  g_assert_true (g_bytes_equal (kept->data, data));
  g_assert_false (picture_holds (kept->thumbnail, "Tannery"));
  g_assert_false (other->told_place || other->kept_place);
  g_assert_false (picture_holds (other->data, "Tannery"));
}

/* The color at a place, as one letter. */
static char
color_at (const HsPixels *pixels, int x, int y)
{
  const guint8 *at = (const guint8 *) g_bytes_get_data (pixels->bytes, NULL) + y * pixels->stride
                     + x * (pixels->alpha ? 4 : 3);

  if (at[0] > 150 && at[2] > 150)
    return 'w';
  return at[0] > 150 ? 'r' : at[2] > 150 ? 'b' : '?';
}

/* Corners of the painted photo (red and blue above, white below), turned as Exif says, worked out with paper: top left,
 * top right, bottom left, bottom right. */
static void
test_turns (void)
{
  static const char *const corners[] = { "rbww", "brww", "wwbr", "wwrb", "rwbw", "wrwb", "wbwr", "bwrw" };

  for (guint i = 0; i < 8; i++)
    {
      const PictureTold lying = { FALSE, i + 1, NULL, NULL, FALSE };
      g_autoptr (GBytes) data = photo_jpeg (&lying, 80, 40, 0);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsPixels) pixels = hs_pixels_decode (data, 1000, &error);
      char seen[5] = { 0 };

      g_assert_no_error (error);
      g_assert_cmpint (pixels->width, ==, i < 4 ? 80 : 40);
      g_assert_cmpint (pixels->height, ==, i < 4 ? 40 : 80);
      for (int j = 0; j < 4; j++)
        seen[j] = color_at (pixels, j % 2 == 0 ? 3 : pixels->width - 4, j < 2 ? 3 : pixels->height - 4);
      g_assert_cmpstr (seen, ==, corners[i]);
    }
}

/* Never larger than asked for, never blown up, never thinner than a pixel. */
static void
test_sizes (void)
{
  static const struct
  {
    int width, height, most, shown_width, shown_height;
  } rows[] = {
    { 80, 40, 1000, 80, 40 }, { 800, 400, 320, 320, 160 }, { 400, 800, 320, 160, 320 }, { 2000, 2, 100, 100, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) data = photo_jpeg (NULL, rows[i].width, rows[i].height, 0);
      g_autoptr (GBytes) small = NULL;
      g_autoptr (GError) error = NULL;
      g_autoptr (HsPixels) pixels = hs_pixels_decode (data, rows[i].most, &error);
      g_autoptr (HsPixels) again = NULL;

      g_assert_no_error (error);
      g_assert_cmpint (pixels->width, ==, rows[i].shown_width);
      g_assert_cmpint (pixels->height, ==, rows[i].shown_height);
      small = hs_pixels_thumbnail (data, rows[i].most, &error);
      g_assert_no_error (error);
      again = hs_pixels_decode (small, 1000, &error);
      g_assert_no_error (error);
      g_assert_cmpint (again->width, ==, rows[i].shown_width);
    }
}

/* A WebP of one pixel: kept where the computer can show such, else refused with what to do. */
static void
test_webp (void)
{
  static const char one[] = "RIFF\x1a\0\0\0WEBPVP8L\x0d\0\0\0\x2f\0\0\0\x10\x07\x10\x11\x11\x88\x88\xfe\x07\0";
  g_autoptr (GBytes) data = g_bytes_new_static (one, sizeof one - 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsPhotoIntake) intake = hs_photo_intake_take ("one.webp", data, FALSE, &error);

  if (intake == NULL)
    {
      hs_ops_test_refused (&error, "“one.webp”: This computer has nothing that shows WebP photos. Save it as a JPEG");
      return;
    }
  g_assert_no_error (error);
  g_assert_cmpstr (intake->media_type, ==, "image/webp");
  g_assert_cmpuint (intake->width, ==, 1);
  g_assert_cmpuint (intake->height, ==, 1);
  g_assert_true (g_bytes_equal (intake->data, data));
}

/* What shines through is white, not black. */
static void
test_alpha (void)
{
  g_autoptr (GdkPixbuf) clear = gdk_pixbuf_new (GDK_COLORSPACE_RGB, TRUE, 8, 20, 20);
  g_autoptr (GBytes) png = NULL;
  g_autoptr (GBytes) small = NULL;
  g_autoptr (HsPixels) pixels = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;
  char *bytes;

  gdk_pixbuf_fill (clear, 0x00000000);
  gdk_pixbuf_save_to_buffer (clear, &bytes, &length, "png", &error, NULL);
  g_assert_no_error (error);
  png = g_bytes_new_take (bytes, length);
  small = hs_pixels_thumbnail (png, 320, &error);
  g_assert_no_error (error);
  pixels = hs_pixels_decode (small, 320, &error);
  g_assert_false (pixels->alpha);
  g_assert_cmpint (color_at (pixels, 10, 10), ==, 'w');
}

/* A head in order and nonsense behind it comes as far as the decoder and is refused there. */
static void
test_undecodable (void)
{
  g_autoptr (GBytes) png = picture_png (NULL, 40, 30);
  g_autoptr (GBytes) jpeg = picture_jpeg (NULL, 40, 30);
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_photo_intake_take ("a.png", png, FALSE, &error));
  hs_ops_test_refused (&error, "“a.png”: The picture in the file is not whole.");
  g_assert_null (hs_photo_intake_take ("a.jpg", jpeg, FALSE, &error));
  hs_ops_test_refused (&error, "“a.jpg”: The picture cannot be shown");
}

/* PNG whose first lines are there and the last are not: their memory is not shown. */
static void
test_half_a_png (void)
{
  g_autoptr (GBytes) whole = photo_png (400, 300);
  const guint8 *data = g_bytes_get_data (whole, NULL);
  GByteArray *half = g_byte_array_new ();
  g_autoptr (GBytes) cut = NULL;
  g_autoptr (GError) error = NULL;
  gsize at = 33;

  /* Signature and head are 33 bytes; then come chunks up to the one with the lines. */
  while (memcmp (data + at + 4, "IDAT", 4) != 0)
    at += 12 + (data[at + 2] << 8 | data[at + 3]);
  picture_put (half, data, 33);
  picture_put_chunk (half, "IDAT", data + at + 8, (gsize) (data[at + 2] << 8 | data[at + 3]) / 2);
  picture_put_chunk (half, "IEND", "", 0);
  cut = g_byte_array_free_to_bytes (half);
  g_assert_null (hs_photo_intake_take ("half.png", cut, FALSE, &error));
  hs_ops_test_refused (&error, "“half.png”: The picture");
}

typedef struct
{
  const char *name;
  const char *text;
  const char *said;
} Row;

/* Files as they lie on a disk. The bomb would unfold to a thousand million letters in a reader of XML. */
static void
test_refused_files (void)
{
  static const Row rows[] = {
    { "notes.jpg", "not a picture at all", "“notes.jpg”: The file is not a photo" },
    { "bomb.jpg", "<?xml version='1.0'?><!DOCTYPE svg [<!ENTITY a 'haha'><!ENTITY b '&a;&a;&a;&a;'>]><svg>&b;</svg>",
      "“bomb.jpg”: The file is a drawing or a page of text" },
    { "empty.jpg", "", "“empty.jpg”: The file is empty" },
    { NULL, NULL, "No such file" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_build_filename (test->folder, rows[i].name != NULL ? rows[i].name : "none.jpg", NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      g_autoptr (GError) error = NULL;

      if (rows[i].name != NULL)
        g_assert_true (g_file_set_contents (path, rows[i].text, -1, NULL));
      g_assert_null (hs_photo_intake_read (file, FALSE, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
}

/* What is no plain file is not even opened: a pipe would wait for ever. */
static void
test_not_plain (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();
  g_autofree char *path = g_build_filename (test->folder, "pipe.jpg", NULL);
  g_autoptr (GFile) pipe = g_file_new_for_path (path);
  g_autoptr (GFile) folder = g_file_new_for_path (test->folder);
  g_autoptr (GFile) device = g_file_new_for_path ("/dev/zero");
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (mkfifo (path, 0600), ==, 0);
  g_assert_null (hs_photo_intake_read (pipe, FALSE, &error));
  hs_ops_test_refused (&error, "“pipe.jpg”: This is not a file.");
  g_assert_null (hs_photo_intake_read (folder, FALSE, &error));
  hs_ops_test_refused (&error, "This is a folder. Choose a photo in it.");
  g_assert_null (hs_photo_intake_read (device, FALSE, &error));
  hs_ops_test_refused (&error, "“zero”: This is not a file.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/photo-intake/told", test_told);
  g_test_add_func ("/ops/photo-intake/keep-place", test_keep_place);
  g_test_add_func ("/ops/photo-intake/turns", test_turns);
  g_test_add_func ("/ops/photo-intake/sizes", test_sizes);
  g_test_add_func ("/ops/photo-intake/webp", test_webp);
  g_test_add_func ("/ops/photo-intake/alpha", test_alpha);
  g_test_add_func ("/ops/photo-intake/undecodable", test_undecodable);
  g_test_add_func ("/ops/photo-intake/half-a-png", test_half_a_png);
  g_test_add_func ("/ops/photo-intake/refused-files", test_refused_files);
  g_test_add_func ("/ops/photo-intake/not-plain", test_not_plain);
  return g_test_run ();
}
