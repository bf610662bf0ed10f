// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Trouble codes both ways and who gives them their meaning: the layout of SAE J2012 and ISO 15031-6 as summarized in
 * engineering texts, with the vectors printed there. */

#include "core-test.h"

#include "hs-trouble.h"

static const struct
{
  const char *id;
  const char *hex;
  const char *code;
  HsTroubleScope scope;
  const char *system;
} rows[] = {
  { "DTC-1", "0133", "P0133", HS_TROUBLE_GENERIC, "powertrain" },
  { "DTC-2", "0420", "P0420", HS_TROUBLE_GENERIC, "powertrain" },
  { "DTC-3", "4133", "C0133", HS_TROUBLE_GENERIC, "chassis" },
  { "DTC-4", "8133", "B0133", HS_TROUBLE_GENERIC, "body" },
  { "DTC-5", "C100", "U0100", HS_TROUBLE_GENERIC, "network" },
  { "DTC-6", "C158", "U0158", HS_TROUBLE_GENERIC, "network" },
  { "DTC-7", "D158", "U1158", HS_TROUBLE_MAKER, "network" },
  { "DTC-8", "E03E", "U203E", HS_TROUBLE_MAKER, "network" },
  { "DTC-9", "3FFF", "P3FFF", HS_TROUBLE_GENERIC, "powertrain" },
  { "DTC-10", "0000", "P0000", HS_TROUBLE_PADDING, "powertrain" },
  /* ISO 14229-1 and 15031-6 texts print U0073 = C073 and B1000 = 9000; ISO 15031-5 figure 19 has 01 43 = P0143. */
  { "B12", "C073", "U0073", HS_TROUBLE_GENERIC, "network" },
  { "B12", "9000", "B1000", HS_TROUBLE_MAKER, "body" },
  { "B12", "0143", "P0143", HS_TROUBLE_GENERIC, "powertrain" },
  /* The borders of each second character. */
  { "P1", "1000", "P1000", HS_TROUBLE_MAKER, "powertrain" },
  { "P2", "2503", "P2503", HS_TROUBLE_GENERIC, "powertrain" },
  { "P3 maker, first", "3000", "P3000", HS_TROUBLE_MAKER, "powertrain" },
  { "P3 maker, last", "33FF", "P33FF", HS_TROUBLE_MAKER, "powertrain" },
  { "P3 generic, first", "3400", "P3400", HS_TROUBLE_GENERIC, "powertrain" },
  { "C0", "4000", "C0000", HS_TROUBLE_GENERIC, "chassis" },
  { "C1", "5000", "C1000", HS_TROUBLE_MAKER, "chassis" },
  { "C2", "6FFF", "C2FFF", HS_TROUBLE_MAKER, "chassis" },
  { "C3", "7FFF", "C3FFF", HS_TROUBLE_RESERVED, "chassis" },
  { "B2", "A001", "B2001", HS_TROUBLE_MAKER, "body" },
  { "B3", "B001", "B3001", HS_TROUBLE_RESERVED, "body" },
  { "A11: U3", "F123", "U3123", HS_TROUBLE_MAKER_OR_RESERVED, "network" },
  { "last", "FFFF", "U3FFF", HS_TROUBLE_MAKER_OR_RESERVED, "network" },
};

static void
test_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *code = NULL;
      guint16 by_hex, by_code;

      g_test_message ("%s", rows[i].id);
      g_assert_true (hs_trouble_parse_hex (rows[i].hex, &by_hex, &error));
      g_assert_true (hs_trouble_parse (rows[i].code, &by_code, &error));
      g_assert_no_error (error);
      g_assert_cmphex (by_hex, ==, by_code);
      code = hs_trouble_format (by_hex);
      g_assert_cmpstr (code, ==, rows[i].code);
      g_assert_cmpint (hs_trouble_scope (by_hex), ==, rows[i].scope);
      g_assert_cmpstr (hs_trouble_system_label (by_hex), ==, rows[i].system);
    }
}

/* Every two bytes are a code, and every code is its two bytes again. */
static void
test_all_round (void)
{
  for (guint value = 0; value <= G_MAXUINT16; value++)
    {
      g_autofree char *code = hs_trouble_format ((guint16) value);
      guint16 again = 0;

      g_assert_cmpuint (strlen (code), ==, HS_TROUBLE_LENGTH);
      g_assert_true (hs_trouble_parse (code, &again, NULL));
      g_assert_cmphex (again, ==, value);
    }
}

/* DTC-11: what is typed is put in order. */
static void
test_typed (void)
{
  static const char *const codes[] = { "P0133", "p0133", "p 0133", " P-0133 ", "P01 33" };
  static const char *const hexes[] = { "0133", "01 33", "0x0133", "0X0133", " 0133 " };

  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    {
      guint16 value = 0;

      g_assert_true (hs_trouble_parse (codes[i], &value, NULL));
      g_assert_cmphex (value, ==, 0x0133);
      value = 0;
      g_assert_true (hs_trouble_parse_hex (hexes[i], &value, NULL));
      g_assert_cmphex (value, ==, 0x0133);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *code;
    const char *words;
  } codes[] = {
    { "", "starts with P, C, B or U" },      { "0133", "starts with P, C, B or U" },
    { "X0133", "starts with P, C, B or U" }, { "P4133", "second character is 0, 1, 2 or 3" },
    { "PA133", "second character" },         { "P013", "a letter and four characters" },
    { "P01331", "leave out what a tool" },   { "P0133-11", "leave out what a tool" },
    { "P01G3", "digits and A to F" },        { "P0ö3", "digits and A to F" },
    { "Ⓟ0133", "starts with" },
  };
  static const char *const hexes[] = { "", "013", "01331", "01G3", "0x", "0x013", "-133", "P133", "0x0x33" };
  guint16 value = 7;

  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_trouble_parse (codes[i].code, &value, &error), &error, codes[i].words);
    }
  for (guint i = 0; i < G_N_ELEMENTS (hexes); i++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_trouble_parse_hex (hexes[i], &value, &error), &error, "four hexadecimal digits");
    }
  g_assert_cmphex (value, ==, 7);
}

/* The third character of a P0 code, as a carmaker's table of 2008 has it. */
static void
test_part (void)
{
  g_assert_cmpstr (hs_trouble_part_label (0x0133), ==, "fuel and air");
  g_assert_cmpstr (hs_trouble_part_label (0x0301), ==, "ignition and misfire");
  g_assert_cmpstr (hs_trouble_part_label (0x0420), ==, "auxiliary emission controls");
  g_assert_cmpstr (hs_trouble_part_label (0x0571), ==, "speed and idle");
  g_assert_cmpstr (hs_trouble_part_label (0x0620), ==, "control unit and its outputs");
  g_assert_cmpstr (hs_trouble_part_label (0x0740), ==, "transmission");
  g_assert_null (hs_trouble_part_label (0x0000));
  g_assert_null (hs_trouble_part_label (0x0A80));
  g_assert_null (hs_trouble_part_label (0x1133));
  g_assert_null (hs_trouble_part_label (0x4133));
}

static void
test_labels (void)
{
  g_assert_cmpstr (hs_trouble_scope_label (HS_TROUBLE_PADDING), ==, "no code");
  g_assert_cmpstr (hs_trouble_scope_label (HS_TROUBLE_GENERIC), ==, "generic");
  g_assert_cmpstr (hs_trouble_scope_label (HS_TROUBLE_MAKER), ==, "maker");
  g_assert_cmpstr (hs_trouble_scope_label (HS_TROUBLE_MAKER_OR_RESERVED), ==, "maker or reserved");
  g_assert_cmpstr (hs_trouble_scope_label (HS_TROUBLE_RESERVED), ==, "reserved");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trouble/rows", test_rows);
  g_test_add_func ("/trouble/all-round", test_all_round);
  g_test_add_func ("/trouble/typed", test_typed);
  g_test_add_func ("/trouble/refused", test_refused);
  g_test_add_func ("/trouble/part", test_part);
  g_test_add_func ("/trouble/labels", test_labels);
  return g_test_run ();
}
