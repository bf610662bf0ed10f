// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The readers of photos against bent files, with the address and undefined-behavior sanitizers. Nothing may crash; what
 * is taken keeps its promises: within bounds, the same after its telling is taken off, and with no place left. */

#include "fuzz-mutate.h"

#include "../core/picture-test.h"

#include "hs-picture.h"

/* A bent PNG fails by its checksums; with right ones what is behind them is reached too. */
static void
mend_sums (GString *text)
{
  gsize at = 8;

  while (at + 12 <= text->len)
    {
      const guint8 *chunk = (const guint8 *) text->str + at;
      gsize length = (gsize) chunk[0] << 24 | (gsize) chunk[1] << 16 | (gsize) chunk[2] << 8 | chunk[3];
      guint32 sum;

      if (length > text->len - at - 12)
        return;
      sum = picture_crc (chunk + 4, length + 4);
      for (guint i = 0; i < 4; i++)
        text->str[at + 8 + length + i] = (char) (sum >> 8 * (3 - i));
      at += length + 12;
    }
}

static void
assert_taken_holds (GBytes *data, const HsPicture *picture)
{
  g_autoptr (GBytes) bare = hs_picture_bare (data, picture);
  g_autoptr (GBytes) twice = NULL;
  g_autoptr (GError) error = NULL;
  HsPicture again;

  g_assert_true (picture->width > 0 && picture->height > 0);
  g_assert_cmpuint ((guint64) picture->width * picture->height, <=, 110000000);
  g_assert_true (picture->orientation >= 1 && picture->orientation <= 8);
  hs_picture_read (bare, &again, &error);
  g_assert_no_error (error);
  g_assert_false (again.tells_place);
  g_assert_cmpuint (again.width, ==, picture->width);
  g_assert_cmpuint (again.height, ==, picture->height);
  g_assert_cmpuint (again.orientation, ==, picture->orientation);
  g_assert_cmpstr (again.taken, ==, picture->taken);
  g_assert_cmpstr (again.offset, ==, picture->offset);
  twice = hs_picture_bare (bare, &again);
  g_assert_true (g_bytes_equal (bare, twice));
}

typedef GBytes *(*Make) (const PictureTold *told, guint width, guint height);

static void
try_kind (Make make)
{
  static const PictureTold told[] = {
    { TRUE, 6, "2026:03:10 08:41:07", "-04:00", TRUE },
    { FALSE, 1, "2026:03:10 08:41:07", NULL, TRUE },
    { FALSE, 3, NULL, NULL, TRUE },
  };
  g_autoptr (GRand) rand = fuzz_rand_new ();
  guint n_taken = 0;

  for (guint round = fuzz_rounds (20000); round > 0; round--)
    {
      g_autoptr (GBytes) good = make (round % 4 == 0 ? NULL : &told[round % 3], 640, 480);
      GString *text = g_string_new_len (g_bytes_get_data (good, NULL), (gssize) g_bytes_get_size (good));
      g_autoptr (GBytes) bent = NULL;
      g_autoptr (GError) error = NULL;
      HsPicture picture;
      gboolean taken;

      for (gint32 i = g_rand_int_range (rand, 1, 4); i > 0; i--)
        fuzz_bend_once (rand, text);
      if (make == picture_png && text->len > 8)
        mend_sums (text);
      bent = g_string_free_to_bytes (text);
      taken = hs_picture_read (bent, &picture, &error);
      g_assert_true (taken == (error == NULL));
      n_taken += taken;
      if (taken)
        assert_taken_holds (bent, &picture);
    }
  /* Else the promises were not put to the test. */
  g_assert_cmpuint (n_taken, >, fuzz_rounds (20000) / 100);
}

static void
test_kind (gconstpointer data)
{
  static const Make makers[] = { picture_jpeg, picture_png, picture_webp };

  try_kind (makers[GPOINTER_TO_UINT (data)]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/fuzz/jpeg", GUINT_TO_POINTER (0), test_kind);
  g_test_add_data_func ("/fuzz/png", GUINT_TO_POINTER (1), test_kind);
  g_test_add_data_func ("/fuzz/webp", GUINT_TO_POINTER (2), test_kind);
  return g_test_run ();
}
