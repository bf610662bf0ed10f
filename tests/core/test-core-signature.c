// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Signatures: what is drawn comes back point by point, stays within its bounds, and foreign bytes are refused. */

#include "hs-signature.h"

#include "hs-core-error.h"

#include <string.h>

static HsSignature *
draw_two_strokes (void)
{
  HsSignature *signature = hs_signature_new (500, 120);

  g_assert_true (hs_signature_begin (signature, 10, 20));
  g_assert_true (hs_signature_move (signature, 12, 20));
  g_assert_true (hs_signature_move (signature, 9, 26));
  g_assert_true (hs_signature_begin (signature, 400.4, 100));
  g_assert_true (hs_signature_move (signature, 300, 50.6));
  return signature;
}

/* By hand: S1; 500 = 0xF4 0x03; 120 = 0x78; two strokes; three points: +10 +20, +2 0, -3 +6; two points: +391 +74,
 * -100 -49. */
static const guint8 two_strokes[] = {
  'S', '1', 0xf4, 0x03, 0x78, 2, 3, 20, 40, 4, 0, 5, 12, 2, 0x8e, 0x06, 0x94, 0x01, 0xc7, 0x01, 0x61,
};

static void
test_bytes (void)
{
  g_autoptr (HsSignature) signature = draw_two_strokes ();
  g_autoptr (GBytes) bytes = hs_signature_to_bytes (signature);
  gsize size;
  const guint8 *data = g_bytes_get_data (bytes, &size);

  g_assert_cmpmem (data, size, two_strokes, sizeof two_strokes);
}

static void
assert_stroke (const HsSignature *signature, guint nth, const HsSignaturePoint *points, guint n_points)
{
  guint n;
  const HsSignaturePoint *stroke = hs_signature_get_stroke (signature, nth, &n);

  g_assert_cmpmem (stroke, n * sizeof *stroke, points, n_points * sizeof *points);
}

static void
test_comes_back (void)
{
  static const HsSignaturePoint first[] = { { 10, 20 }, { 12, 20 }, { 9, 26 } };
  static const HsSignaturePoint second[] = { { 400, 100 }, { 300, 51 } };
  g_autoptr (GBytes) bytes = g_bytes_new_static (two_strokes, sizeof two_strokes);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsSignature) signature = hs_signature_from_bytes (bytes, &error);

  g_assert_no_error (error);
  g_assert_cmpint (hs_signature_get_width (signature), ==, 500);
  g_assert_cmpint (hs_signature_get_height (signature), ==, 120);
  g_assert_cmpuint (hs_signature_get_n_strokes (signature), ==, 2);
  assert_stroke (signature, 0, first, 3);
  assert_stroke (signature, 1, second, 2);
}

/* Outside is drawn to the edge; trembling adds nothing; dots alone are no name. */
static void
test_drawing (void)
{
  static const HsSignaturePoint edge[] = { { 0, 120 }, { 500, 0 } };
  g_autoptr (HsSignature) signature = hs_signature_new (500, 120);

  g_assert_true (hs_signature_is_blank (signature));
  g_assert_false (hs_signature_move (signature, 5, 5));
  g_assert_true (hs_signature_begin (signature, 50, 50));
  g_assert_true (hs_signature_move (signature, 51, 51));
  g_assert_true (hs_signature_is_blank (signature));
  hs_signature_clear (signature);
  g_assert_cmpuint (hs_signature_get_n_strokes (signature), ==, 0);
  g_assert_true (hs_signature_begin (signature, -40, 900));
  g_assert_true (hs_signature_move (signature, 9000, -1));
  g_assert_false (hs_signature_is_blank (signature));
  assert_stroke (signature, 0, edge, 2);
}

/* However long the pen stays down, the bytes fit the book, and what fits comes back whole. */
static void
test_bounds (void)
{
  g_autoptr (HsSignature) signature = hs_signature_new (HS_SIGNATURE_MOST_SIDE, HS_SIGNATURE_MOST_SIDE);
  g_autoptr (HsSignature) again = NULL;
  g_autoptr (GBytes) bytes = NULL;
  guint n_taken = 0;

  for (guint i = 0; i < 100000; i++)
    n_taken += i % 20 == 0 ? hs_signature_begin (signature, i % 2 * 4096, i % 3 * 2048)
                           : hs_signature_move (signature, i % 2 * 4096, i % 3 * 2048);
  g_assert_cmpuint (n_taken, <, 100000);
  g_assert_cmpuint (hs_signature_get_n_strokes (signature), <=, HS_SIGNATURE_MOST_STROKES);
  bytes = hs_signature_to_bytes (signature);
  g_assert_cmpuint (g_bytes_get_size (bytes), <=, HS_SIGNATURE_MOST_BYTES);
  again = hs_signature_from_bytes (bytes, NULL);
  g_assert_nonnull (again);
  g_assert_cmpuint (hs_signature_get_n_strokes (again), ==, hs_signature_get_n_strokes (signature));
}

static void
assert_refused (const guint8 *data, gsize size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_signature_from_bytes (bytes, &error));
  g_assert_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE);
  g_assert_nonnull (strstr (error->message, "signed again"));
}

static void
test_refused (void)
{
  static const struct
  {
    const char *what;
    gsize size;
    guint8 data[12];
  } rows[] = {
    { "nothing", 0, { 0 } },
    { "another mark", 5, { 'S', '2', 10, 10, 0 } },
    { "no width", 5, { 'S', '1', 0, 10, 0 } },
    { "too wide", 6, { 'S', '1', 0x81, 0x20, 10, 0 } },
    { "a stroke that is not there", 5, { 'S', '1', 10, 10, 1 } },
    { "a stroke without a point", 6, { 'S', '1', 10, 10, 1, 0 } },
    { "left of the field", 8, { 'S', '1', 10, 10, 1, 1, 1, 0 } },
    { "below the field", 8, { 'S', '1', 10, 10, 1, 1, 0, 22 } },
    { "something behind it", 6, { 'S', '1', 10, 10, 0, 0 } },
    { "a number with an empty byte", 7, { 'S', '1', 0x8a, 0x00, 10, 0 } },
    { "a number without end", 9, { 'S', '1', 0xff, 0xff, 0xff, 0xff, 0x01, 10, 0 } },
    { "more strokes than may be", 6, { 'S', '1', 10, 10, 0xc9, 0x01 } },
  };
  g_autofree guint8 *large = g_malloc0 (HS_SIGNATURE_MOST_BYTES + 1);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].what);
      assert_refused (rows[i].data, rows[i].size);
    }
  for (gsize size = 0; size < sizeof two_strokes; size++)
    assert_refused (two_strokes, size);
  memcpy (large, "S1", 2);
  assert_refused (large, HS_SIGNATURE_MOST_BYTES + 1);
}

/* Whatever is read is written the same again. */
static void
test_any_bytes (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint round = 0; round < 20000; round++)
    {
      guint8 data[24];
      gsize size = 2 + (gsize) g_rand_int_range (rand, 0, 23);
      g_autoptr (GBytes) bytes = NULL;
      g_autoptr (GBytes) again = NULL;
      g_autoptr (HsSignature) signature = NULL;

      for (gsize i = 0; i < size; i++)
        data[i] = (guint8) (g_rand_int (rand) % (i < 5 ? 100 : 256));
      memcpy (data, "S1", 2);
      bytes = g_bytes_new (data, size);
      signature = hs_signature_from_bytes (bytes, NULL);
      if (signature == NULL)
        continue;
      again = hs_signature_to_bytes (signature);
      g_assert_true (g_bytes_equal (bytes, again));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/signature/bytes", test_bytes);
  g_test_add_func ("/signature/comes-back", test_comes_back);
  g_test_add_func ("/signature/drawing", test_drawing);
  g_test_add_func ("/signature/bounds", test_bounds);
  g_test_add_func ("/signature/refused", test_refused);
  g_test_add_func ("/signature/any-bytes", test_any_bytes);
  return g_test_run ();
}
