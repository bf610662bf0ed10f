// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a photo may take of the memory, whatever its file says: each is read by a child that may have only so much, and
 * dies if it asks for more. */

#include "hs-photo-intake.h"
#include "hs-ops-test.h"
#include "photo-test.h"

#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#define MIB 1048576
#define MOST_FILE (40 * MIB)

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define IS_SANITIZED TRUE
#else
#define IS_SANITIZED FALSE
#endif

/* --- The child ------------------------------------------------------------------------------------------------- */

/* own_bytes: of addresses, what the program has before it reads anything. */
static gsize
own_bytes (void)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL));
  return (gsize) g_ascii_strtoull (text, NULL, 10) * (gsize) sysconf (_SC_PAGESIZE);
}

/* Says what came of it: 0: taken, 3: refused. */
static int
read_in_child (const char *path, gsize most)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsPhotoIntake) intake = NULL;
  struct rlimit limit = { own_bytes () + most, own_bytes () + most };

  if (setrlimit (RLIMIT_AS, &limit) != 0)
    return 9;
  intake = hs_photo_intake_read (file, FALSE, &error);
  if (intake != NULL)
    return 0;
  fputs (error->message, stdout);
  return 3;
}

/* --- Files ----------------------------------------------------------------------------------------------------- */

static void
put_zeros (GByteArray *out, gsize n)
{
  guint at = out->len;

  g_byte_array_set_size (out, at + (guint) n);
  memset (out->data + at, 0, n);
}

/* A JPEG in which every number is the code of one bit that says “as before”: a gray picture of any size that a decoder
 * reads to the end. @layered: progressive, its first layer alone. */
static GBytes *
plain_jpeg (gboolean layered, guint width, guint height)
{
  const guint8 frame[] = { 8, (guint8) (height >> 8), (guint8) height, (guint8) (width >> 8), (guint8) width, 3,
                           1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0 };
  const guint8 scan[] = { 3, 1, 0, 2, 0, 3, 0, 0, layered ? 0 : 63, 0 };
  gsize blocks = (gsize) ((width + 7) / 8) * ((height + 7) / 8) * 3;
  guint8 steps[65], codes[18] = { 0, 1 };
  GByteArray *out = g_byte_array_new ();

  memset (steps, 1, sizeof steps);
  steps[0] = 0;
  picture_put (out, "\xff\xd8", 2);
  picture_put_segment (out, 0xdb, steps, sizeof steps);
  picture_put_segment (out, layered ? 0xc2 : 0xc0, frame, sizeof frame);
  for (guint table = 0; table < 2; table++)
    {
      codes[0] = (guint8) (table << 4);
      picture_put_segment (out, 0xc4, codes, sizeof codes);
    }
  picture_put_segment (out, 0xda, scan, sizeof scan);
  put_zeros (out, (blocks * (layered ? 1 : 2) + 7) / 8);
  picture_put (out, "\xff\xd9", 2);
  return g_byte_array_free_to_bytes (out);
}

static void
put_deflated (GByteArray *out, gsize zeros)
{
  g_autoptr (GZlibCompressor) zlib = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB, 1);
  g_autofree guint8 *from = g_malloc0 (MIB), *to = g_malloc (MIB);
  GConverterResult result = G_CONVERTER_CONVERTED;

  while (result != G_CONVERTER_FINISHED)
    {
      gsize most = MIN (zeros, MIB), read, written;

      result = g_converter_convert (G_CONVERTER (zlib), from, most, to, MIB,
                                    most == zeros ? G_CONVERTER_INPUT_AT_END : 0, &read, &written, NULL);
      g_assert_true (result != G_CONVERTER_ERROR);
      zeros -= read;
      g_byte_array_append (out, to, (guint) written);
    }
}

/* A PNG with all of it see-through. */
static GBytes *
plain_png (guint width, guint height)
{
  const guint8 head[] = { (guint8) (width >> 24), (guint8) (width >> 16), (guint8) (width >> 8), (guint8) width,
                          (guint8) (height >> 24), (guint8) (height >> 16), (guint8) (height >> 8), (guint8) height,
                          8, 6, 0, 0, 0 };
  g_autoptr (GByteArray) lines = g_byte_array_new ();
  GByteArray *out = g_byte_array_new ();

  put_deflated (lines, (gsize) height * (1 + 4 * (gsize) width));
  picture_put (out, "\x89PNG\r\n\x1a\n", 8);
  picture_put_chunk (out, "IHDR", head, sizeof head);
  picture_put_chunk (out, "IDAT", lines->data, lines->len);
  picture_put_chunk (out, "IEND", "", 0);
  return g_byte_array_free_to_bytes (out);
}

/* As long as a file may be, of @piece again and again behind @head. */
static GBytes *
filled_up (const void *head, gsize head_length, const void *piece, gsize piece_length)
{
  GByteArray *out = g_byte_array_sized_new (MOST_FILE);

  picture_put (out, head, head_length);
  while (out->len + piece_length <= MOST_FILE)
    picture_put (out, piece, piece_length);
  return g_byte_array_free_to_bytes (out);
}

static GBytes *
filled_up_behind (GBytes *data, guint cut, const void *piece, gsize piece_length)
{
  GBytes *filled = filled_up (g_bytes_get_data (data, NULL), g_bytes_get_size (data) - cut, piece, piece_length);

  g_bytes_unref (data);
  return filled;
}

static GBytes *
png_of_pieces (void)
{
  g_autoptr (GByteArray) piece = g_byte_array_new ();

  picture_put_chunk (piece, "teXt", "", 0);
  return filled_up_behind (plain_png (4, 4), 12, piece->data, piece->len);
}

static GBytes *
webp_of_pieces (void)
{
  GByteArray *out = g_byte_array_new ();

  picture_put (out, "RIFF\xf8\xff\x7f\x02WEBPVP8L\x06\0\0\0\x2f\0\0\0\0\0", 26);
  return filled_up_behind (g_byte_array_free_to_bytes (out), 0, "junk\0\0\0\0", 8);
}

typedef struct
{
  const char *what;
  GBytes *data;
  gsize most;
  const char *refused; /* (nullable) */
} Row;

static void
read_row (const HsOpsTest *test, const char *self, const Row *row)
{
  g_autofree char *path = g_build_filename (test->folder, "photo.jpg", NULL);
  g_autofree char *most = g_strdup_printf ("%" G_GSIZE_FORMAT, row->most);
  const char *const words[] = { self, "--child", path, most, NULL };
  g_autofree char *out = NULL, *trouble = NULL;
  g_autoptr (GError) error = NULL;
  gsize length;
  const char *data = g_bytes_get_data (row->data, &length);
  int status = 0;

  g_test_message ("%s: %" G_GSIZE_FORMAT " bytes, %" G_GSIZE_FORMAT " MiB", row->what, length, row->most / MIB);
  g_assert_true (g_file_set_contents (path, data, (gssize) length, NULL));
  g_assert_true (g_spawn_sync (NULL, (char **) words, NULL, 0, NULL, NULL, &out, &trouble, &status, &error));
  g_assert_true (WIFEXITED (status));
  g_assert_cmpstr (trouble, ==, "");
  g_assert_cmpint (WEXITSTATUS (status), ==, row->refused != NULL ? 3 : 0);
  if (row->refused != NULL)
    g_assert_nonnull (strstr (out, row->refused));
  g_bytes_unref (row->data);
}

/* The largest that are taken: the file, what is left of it, the decoder's 160 million bytes, and a tenth on top. */
static void
test_taken (gconstpointer self)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();
  const Row rows[] = {
    { "a JPEG of 110 million pixels", plain_jpeg (FALSE, 10480, 10480), 64 * MIB, NULL },
    { "a JPEG in layers of 26 million", plain_jpeg (TRUE, 5200, 5000), 200 * MIB, NULL },
    { "a PNG of 40 million", plain_png (8000, 5000), 200 * MIB, NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    read_row (test, self, &rows[i]);
}

/* Refused without more than the file itself and a list of its pieces. */
static void
test_refused (gconstpointer self)
{
  static const char bomb[] = "<svg><!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>]>";
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();
  const gsize most = 96 * MIB;
  const Row rows[] = {
    { "a JPEG of 400 million pixels", filled_up_behind (plain_jpeg (FALSE, 20000, 20000), 0, "abcdefgh", 8), most,
      "20000 × 20000 pixels; 110 million are the most" },
    { "a JPEG in layers", filled_up_behind (plain_jpeg (TRUE, 20000, 20000), 2, "abcdefgh", 8), most,
      "20000 × 20000 pixels; 26 million are the most" },
    { "a PNG of 400 million", plain_png (20000, 20000), most, "20000 × 20000 pixels; 40 million are the most" },
    { "a JPEG of ten million pieces", filled_up_behind (plain_jpeg (FALSE, 8, 8), 2, "\xff\xfe\0\2", 4), most,
      "more than 65536 pieces" },
    { "a PNG of three million pieces", png_of_pieces (), most, "more than 65536 pieces" },
    { "a WebP of five million pieces", webp_of_pieces (), most, "more than 65536 pieces" },
    { "a JPEG that is cut off", filled_up_behind (plain_jpeg (FALSE, 10000, 10000), 2, "abcdefgh", 8), most,
      "cut off" },
    { "a GIF", filled_up ("GIF89a\x20\x4e\x20\x4e\0\0\0", 13, "abcdefgh", 8), most, "not a photo" },
    { "a TIFF", filled_up ("II*\0\x08\0\0\0", 8, "abcdefgh", 8), most, "not a photo" },
    { "a drawing that unfolds", filled_up ("", 0, bomb, sizeof bomb - 1), most, "a drawing or a page of text" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    read_row (test, self, &rows[i]);
}

int
main (int argc, char **argv)
{
  if (argc == 4 && g_str_equal (argv[1], "--child"))
    return read_in_child (argv[2], (gsize) g_ascii_strtoull (argv[3], NULL, 10));
  g_test_init (&argc, &argv, NULL);
  if (IS_SANITIZED)
    {
      g_test_message ("a sanitizer needs all addresses there are");
      return g_test_run ();
    }
  g_test_add_data_func ("/ops/photo-memory/taken", argv[0], test_taken);
  g_test_add_data_func ("/ops/photo-memory/refused", argv[0], test_refused);
  return g_test_run ();
}
