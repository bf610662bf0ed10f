// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is JSON and what only looks like it. Each refusal is compared whole: path, line and reason. */

#include "hs-json-strict.h"
#include "hs-ops-error.h"

#include <string.h>

static void
test_accepted (void)
{
  static const char *const rows[] = {
    "{}",
    "[]",
    " [ ] ",
    "\t{\r\n}\n",
    "null",
    "true",
    "false",
    "0",
    "-0",
    "-0.0e-0",
    "10",
    "1.5E+10",
    "1e999",
    "123456789012345678",
    "0.12345678901234567890123456789",
    "\"\"",
    "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"",
    "\"\\u0001\\uFFFF\\ud83d\\uDE00\"",
    "\"\x7f ü €\"",
    "\xef\xbb\xbf{\"a\":1}",
    "{\"a\":1,\"A\":2,\"\":{\"a\":[1,\"x\",null,{}]}}",
    "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]",
    "{\"/* no comment */\": \"// nor this [ { \"}",
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GError *error = NULL;

      g_test_message ("%s", rows[i]);
      g_assert_true (hs_json_strict_check ("it", rows[i], strlen (rows[i]), &error));
      g_assert_no_error (error);
    }
}

typedef struct
{
  const char *text;
  const char *message;
} Refused;

static const Refused refused[] = {
  { "", "it: line 1: a value is missing" },
  { " \n\n ", "it: line 3: a value is missing" },
  { "\xef\xbb\xbf", "it: line 1: a value is missing" },
  { "\xff", "it: is not UTF-8 text" },
  { "{\"a\":1", "it: line 1: a comma or } is missing" },
  { "{\"a\":1]", "it: line 1: a comma or } is missing" },
  { "{\"a\"", "a: line 1: a colon is missing" },
  { "{\"a\",1}", "a: line 1: a colon is missing" },
  { "{\"a\":", "a: line 1: a value is missing" },
  { "{\"a\":}", "a: line 1: a value is missing" },
  { "{\"a\":1,}", "it: line 1: a text in \" is missing" },
  { "{a:1}", "it: line 1: a text in \" is missing" },
  { "{'a':1}", "it: line 1: a text in \" is missing" },
  { "{\"a\":'x'}", "a: line 1: a value is missing" },
  { "{\"a\":1 \"b\":2}", "it: line 1: a comma or } is missing" },
  { "{\"a\":1,\"a\":1}", "a: line 1: stands twice" },
  { "{\"a_b\":1,\"a\\u005fb\":1}", "a_b: line 1: stands twice" },
  { "{\"\\ud83d\\ude00\":1,\"\xf0\x9f\x98\x80\":1}", "\xf0\x9f\x98\x80: line 1: stands twice" },
  { "{\"b\":[0,{\"a\":1,\n\"a\":1}]}", "b[1].a: line 2: stands twice" },
  { "[1", "it: line 1: a comma or ] is missing" },
  { "[1,]", "[1]: line 1: a value is missing" },
  { "[1}", "it: line 1: a comma or ] is missing" },
  { "[,1]", "[0]: line 1: a value is missing" },
  { "[1 2]", "it: line 1: a comma or ] is missing" },
  { "{\"a\":[0,[1\n,\n x]]}", "a[1][1]: line 3: a value is missing" },
  { "{} {}", "it: line 1: something follows the end" },
  { "{}\nx", "it: line 2: something follows the end" },
  { "// note\n{}", "it: line 1: a value is missing" },
  { "/* note */ {}", "it: line 1: a value is missing" },
  { "[1, /* note */ 2]", "[1]: line 1: a value is missing" },
  { "var x = {}", "it: line 1: a value is missing" },
  { "nul", "it: line 1: a value is missing" },
  { "TRUE", "it: line 1: a value is missing" },
  { "truest", "it: line 1: a value is missing" },
  { "NaN", "it: line 1: a value is missing" },
  { "Infinity", "it: line 1: a value is missing" },
  { "-Infinity", "it: line 1: a value is missing" },
  { "+1", "it: line 1: a value is missing" },
  { ".5", "it: line 1: a value is missing" },
  { "-", "it: line 1: a value is missing" },
  { "012", "it: line 1: a number starts with 0" },
  { "[00]", "[0]: line 1: a number starts with 0" },
  { "0x10", "it: line 1: something follows the end" },
  { "5.", "it: line 1: a digit is missing after the point" },
  { "5.e1", "it: line 1: a digit is missing after the point" },
  { "5e", "it: line 1: a digit is missing in the exponent" },
  { "5e+", "it: line 1: a digit is missing in the exponent" },
  { "{\"a\":1234567890123456789}", "a: line 1: is too large" },
  { "\"a", "it: line 1: a text has no end" },
  { "\"a\\", "it: line 1: what follows \\ is not an escape" },
  { "\"\\x41\"", "it: line 1: what follows \\ is not an escape" },
  { "\"\\'\"", "it: line 1: what follows \\ is not an escape" },
  { "\"a\nb\"", "it: line 1: a text holds a control character" },
  { "\"\\u12\"", "it: line 1: \\u wants four digits of base 16" },
  { "\"\\u00g0\"", "it: line 1: \\u wants four digits of base 16" },
  { "\"\\u0000\"", "it: line 1: a text holds a zero character" },
  { "\"\\ud800\"", "it: line 1: half of a surrogate pair stands alone" },
  { "\"\\ud800x\"", "it: line 1: half of a surrogate pair stands alone" },
  { "\"\\ud800\\n\"", "it: line 1: half of a surrogate pair stands alone" },
  { "\"\\ud800\\u0041\"", "it: line 1: half of a surrogate pair stands alone" },
  { "\"\\udc00\"", "it: line 1: half of a surrogate pair stands alone" },
  { "\"\\ud800\\u12\"", "it: line 1: \\u wants four digits of base 16" },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *shown = g_strescape (refused[i].text, NULL);

      g_test_message ("%s", shown);
      g_assert_false (hs_json_strict_check ("it", refused[i].text, strlen (refused[i].text), &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      g_assert_cmpstr (error->message, ==, refused[i].message);
    }
}

/* A zero byte is not the end, neither in a text nor after it. */
static void
test_zero_bytes (void)
{
  static const char inside[] = "\"a\0b\"";
  static const char after[] = "{}\0";

  g_assert_false (hs_json_strict_check ("it", inside, sizeof inside - 1, NULL));
  g_assert_false (hs_json_strict_check ("it", after, sizeof after - 1, NULL));
}

static void
test_deep (void)
{
  static const char *const openings[] = { "[", "{\"a\":", "[{\"a\":" };

  for (guint i = 0; i < G_N_ELEMENTS (openings); i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (GError) error = NULL;

      for (guint n = 0; n < 300000; n++)
        g_string_append (text, openings[i]);
      g_assert_false (hs_json_strict_check ("it", text->str, text->len, &error));
      g_assert_nonnull (strstr (error->message, "is nested too deeply"));
      g_assert_cmpuint (strlen (error->message), <, 200);
    }
}

/* Cut at any byte, a text is no JSON any more. */
static void
test_cut (void)
{
  static const char whole[] = "{\"a\":[1.5e3,\"\\u00fc\\\\\",{\"b\":null,\"c\":true}],\"d\":-0}";

  g_assert_true (hs_json_strict_check ("it", whole, sizeof whole - 1, NULL));
  for (gsize length = 1; length < sizeof whole - 1; length++)
    {
      /* A copy of just that size, so that reading past it is noticed. */
      g_autofree char *cut = g_memdup2 (whole, length);

      g_assert_false (hs_json_strict_check ("it", cut, length, NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/json-strict/accepted", test_accepted);
  g_test_add_func ("/ops/json-strict/refused", test_refused);
  g_test_add_func ("/ops/json-strict/zero-bytes", test_zero_bytes);
  g_test_add_func ("/ops/json-strict/deep", test_deep);
  g_test_add_func ("/ops/json-strict/cut", test_cut);
  return g_test_run ();
}
