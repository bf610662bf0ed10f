// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* Bends good text into bad: bytes flipped, dropped, doubled and swapped, signs that number readers stumble over, runs
 * cut out and put in twice. Everything comes from one seed, so that a failure can be seen again:
 * HS_FUZZ_SEED and HS_FUZZ_ROUNDS change what is tried. */

#include <glib.h>

/* Rounds asked for in the environment, or @usual. */
static inline guint
fuzz_rounds (guint usual)
{
  const char *text = g_getenv ("HS_FUZZ_ROUNDS");

  return text == NULL ? usual : (guint) g_ascii_strtoull (text, NULL, 10);
}

static inline GRand *
fuzz_rand_new (void)
{
  const char *text = g_getenv ("HS_FUZZ_SEED");
  guint32 seed = text == NULL ? 20261125 : (guint32) g_ascii_strtoull (text, NULL, 10);

  g_test_message ("HS_FUZZ_SEED=%u", seed);
  return g_rand_new_with_seed (seed);
}

/* What breaks readers of numbers and codes. */
static inline const char *
fuzz_splinter (GRand *rand)
{
  static const char *const splinters[] = {
    "-", "--", "+", ",", ".", "..", "e9", "E999", "nan", "inf", "0x10", "\xc3\xa9", "\xff", "\xe2\x88\x92", " ", "\t",
    "00000000000000000000", "99999999999999999999", "9223372036854775808", "-9223372036854775808", "1e-400", "%s%n",
    "=", ";", "|", "[", "]", "\n", "\r", "I", "O", "Q", "Z", "\x01", "V", "2147483648", "0.0000000001",
  };

  return splinters[g_rand_int_range (rand, 0, G_N_ELEMENTS (splinters))];
}

static inline void
fuzz_bend_once (GRand *rand, GString *text)
{
  gint32 length = (gint32) text->len;
  gint32 at = length > 0 ? g_rand_int_range (rand, 0, length) : 0;
  gint32 run = length > 0 ? g_rand_int_range (rand, 1, MIN (12, length - at) + 1) : 0;
  g_autofree char *copy = g_strndup (text->str + at, run);

  switch (length == 0 ? 0 : g_rand_int_range (rand, 0, 6))
    {
    case 0:
      g_string_insert (text, at, fuzz_splinter (rand));
      break;
    case 1:
      g_string_erase (text, at, run);
      break;
    case 2:
      g_string_insert (text, at, copy);
      break;
    case 3:
      text->str[at] = (char) g_rand_int_range (rand, 1, 256);
      break;
    case 4:
      text->str[at] = "0123456789.-ABCDXYZ"[g_rand_int_range (rand, 0, 19)];
      break;
    default:
      g_string_truncate (text, at);
    }
}

/* @text bent once to @most times. */
static inline char *
fuzz_bend (GRand *rand, const char *text, gint32 most)
{
  GString *bent = g_string_new (text);

  for (gint32 i = g_rand_int_range (rand, 1, most + 1); i > 0; i--)
    fuzz_bend_once (rand, bent);
  return g_string_free (bent, FALSE);
}
