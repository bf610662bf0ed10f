// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Phone numbers as people write them down. */

#include "hs-phone.h"

#include "core-test.h"

static void
test_spellings (void)
{
  /* The numbers are those that national plans keep for fiction, and the demo's 555-01xx. */
  static const struct
  {
    const char *text;
    const char *digits;
    const char *last_four;
  } rows[] = {
    { "555-0121", "5550121", "0121" },
    { "5550121", "5550121", "0121" },
    { "(202) 555-0123", "2025550123", "0123" },
    { "202.555.0123", "2025550123", "0123" },
    { "+1 202 555 0123", "+12025550123", "0123" },
    { " +12025550123", "+12025550123", "0123" },
    { "020 7946 0000", "02079460000", "0000" },
    { "+44 20 7946 0000", "+442079460000", "0000" },
    { "555-0121 x12", "5550121", "0121" },
    { "555-0121 ext. 12", "5550121", "0121" },
    { "555-0121EXT12", "5550121", "0121" },
    { "112", "112", "112" },
    { "", "", "" },
    { "x12", "", "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *digits = hs_phone_digits (rows[i].text);
      g_autofree char *last_four = hs_phone_last_four (rows[i].text);

      g_assert_cmpstr (digits, ==, rows[i].digits);
      g_assert_cmpstr (last_four, ==, rows[i].last_four);
    }
}

static void
test_check (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "555-0121", NULL },
    { " 555-0121 ", NULL },
    { "(202) 555/0123", NULL },
    { "+1 202.555.0123", NULL },
    { "112", NULL },
    { "555-0121 x12", NULL },
    { "555-0121 ext 12", NULL },
    { "555-0121 ext. 12", NULL },
    { "+4930123456789012345", NULL },
    { "", "too short" },
    { "12", "too short" },
    { "+", "too short" },
    { "555-CALL", "is not a phone number" },
    { "call me", "is not a phone number" },
    { "555+0121", "is not a phone number" },
    { "555-0121 x", "is not a phone number" },
    { "555-0121 extra", "is not a phone number" },
    { "555-0121 e12", "is not a phone number" },
    { "555;0121", "is not a phone number" },
    { "555,0121", "is not a phone number" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean accepted = hs_phone_check (rows[i].text, &error);

      if (rows[i].words != NULL)
        assert_bad_value (accepted, &error, rows[i].words);
      g_assert_no_error (error);
    }
}

/* ITU-T E.164: at most 15 digits; longer ones exist, so they are only pointed out. */
static void
test_is_long (void)
{
  g_assert_false (hs_phone_is_long ("+1 202 555 0123"));
  g_assert_false (hs_phone_is_long ("+123456789012345"));
  g_assert_true (hs_phone_is_long ("+1234567890123456"));
  g_assert_false (hs_phone_is_long ("+123456789012345 x1234"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/phone/spellings", test_spellings);
  g_test_add_func ("/phone/check", test_check);
  g_test_add_func ("/phone/is-long", test_is_long);
  return g_test_run ();
}
