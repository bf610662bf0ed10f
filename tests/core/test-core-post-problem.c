// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Problem details (RFC 9457). The first row is the example of its section 3; grammar is RFC 8259. */

#include "hs-post-problem.h"

#include <string.h>

static const struct
{
  const char *json;
  const char *line;
} problems[] = {
  { "{\"type\":\"https://example.com/probs/out-of-credit\",\"title\":\"You do not have enough credit.\","
    "\"detail\":\"Your current balance is 30, but that costs 50.\",\"instance\":\"/account/12345/msgs/abc\","
    "\"balance\":30,\"accounts\":[\"/account/12345\",\"/account/67890\"]}",
    "You do not have enough credit.: Your current balance is 30, but that costs 50." },
  { "{\"title\":\"No such van\"}", "No such van" },
  { "{\"detail\":\"revision is too old\"}", "revision is too old" },
  { "{\"title\":\"Same\",\"detail\":\"Same\"}", "Same" },
  { " \n\t{ \"detail\" : \"a\" , \"title\" : \"b\" } \r\n", "b: a" },
  /* RFC 9457, 3.1: a value of another type is passed over. */
  { "{\"title\":7,\"detail\":\"seven\"}", "seven" },
  { "{\"title\":null,\"detail\":{\"title\":\"inner\"}}", NULL },
  { "{\"errors\":[{\"title\":\"inner\",\"detail\":\"inner\"}],\"detail\":\"outer\"}", "outer" },
  { "{\"status\":-1.5e+3,\"a\":true,\"b\":false,\"c\":[],\"d\":{},\"e\":0,\"f\":[1,[2,{\"g\":[]}]],\"title\":\"t\"}",
    "t" },
  { "{\"title\":\"\\\"\\\\\\/\\u00e9\\ud83d\\ude00 end\"}", "\"\\/é😀 end" },
  /* What a screen or a terminal would act on is gone, line breaks are blanks. */
  { "{\"title\":\"a\\u001b[31m\\r\\nb\\u202e\\u200bc\\td\"}", "a [31m b c d" },
  { "{\"title\":\" \\n \",\"detail\":\"  x  \"}", "x" },
  { "{\"title\":\"last\",\"title\":\"wins\"}", "wins" },
  { "{}", NULL },
  { "{\"code\":5}", NULL },
};

static const char *const no_problems[] = {
  "",
  " ",
  "null",
  "\"title\"",
  "[{\"title\":\"t\"}]",
  "{\"title\":\"t\"",
  "{\"title\":\"t\"}}",
  "{\"title\":\"t\"} {}",
  "{\"title\":\"t\",}",
  "{,\"title\":\"t\"}",
  "{\"title\" \"t\"}",
  "{title:\"t\"}",
  "{'title':'t'}",
  "{\"title\":\"t}",
  "{\"title\":\"t\n\"}",
  "{\"title\":\"\\x\"}",
  "{\"title\":\"\\u12\"}",
  "{\"title\":\"\\u0000\"}",
  "{\"title\":\"\\ud83d\"}",
  "{\"title\":\"\\ud83d\\u0041\"}",
  "{\"title\":\"\\ude00\"}",
  "{\"title\":\"t\",\"a\":01}",
  "{\"title\":\"t\",\"a\":1.}",
  "{\"title\":\"t\",\"a\":.5}",
  "{\"title\":\"t\",\"a\":1e}",
  "{\"title\":\"t\",\"a\":+1}",
  "{\"title\":\"t\",\"a\":NaN}",
  "{\"title\":\"t\",\"a\":tru}",
  "{\"title\":\"t\",\"a\":[1,]}",
  "{\"title\":\"t\",\"a\":[1 2]}",
  "{\"title\":\"t\",\"a\":}",
  "{\"title\":\"t\" /* no */}",
  "<html>502</html>",
  "{\"title\":\"\xff\"}",
  "{\"title\":\"\xed\xa0\x80\"}",
};

static void
test_table (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (problems); i++)
    {
      g_autofree char *line = hs_post_problem_read (problems[i].json, strlen (problems[i].json));

      g_test_message ("%s", problems[i].json);
      g_assert_cmpstr (line, ==, problems[i].line);
    }
  for (guint i = 0; i < G_N_ELEMENTS (no_problems); i++)
    {
      g_test_message ("row %u", i);
      g_assert_null (hs_post_problem_read (no_problems[i], strlen (no_problems[i])));
    }
}

/* Cut anywhere, the first example is no object any more. */
static void
test_cut (void)
{
  for (gsize length = 0; length < strlen (problems[0].json); length++)
    {
      g_autofree char *cut = g_memdup2 (problems[0].json, length + 1);

      g_assert_null (hs_post_problem_read (cut, length));
    }
}

/* Nothing that a screen would act on comes out, whatever goes in. */
static void
assert_harmless (const char *line)
{
  if (line == NULL)
    return;
  g_assert_true (g_utf8_validate (line, -1, NULL));
  g_assert_cmpint (g_utf8_strlen (line, -1), <=, HS_POST_PROBLEM_LETTERS);
  g_assert_cmpuint (strlen (line), >, 0);
  g_assert_false (g_str_has_prefix (line, " "));
  g_assert_false (g_str_has_suffix (line, " "));
  for (const char *at = line; *at != '\0'; at = g_utf8_next_char (at))
    {
      GUnicodeType type = g_unichar_type (g_utf8_get_char (at));

      g_assert_cmpint (type, !=, G_UNICODE_CONTROL);
      g_assert_cmpint (type, !=, G_UNICODE_FORMAT);
      g_assert_cmpint (type, !=, G_UNICODE_LINE_SEPARATOR);
    }
}

/* Each byte of each row turned into each of these. */
static void
test_bent (void)
{
  static const char signs[] = "\"\\{}[]:,0u \n\x01\x7f\xc3\xff";

  for (guint i = 0; i < G_N_ELEMENTS (problems); i++)
    for (gsize at = 0; at < strlen (problems[i].json); at++)
      for (gsize sign = 0; sign < sizeof signs; sign++)
        {
          g_autofree char *bent = g_strdup (problems[i].json);
          g_autofree char *line = NULL;

          bent[at] = signs[sign];
          line = hs_post_problem_read (bent, strlen (problems[i].json));
          assert_harmless (line);
        }
}

static char *
nest (guint depth)
{
  GString *text = g_string_new ("{\"title\":\"t\",\"a\":");

  for (guint i = 0; i < depth; i++)
    g_string_append_c (text, '[');
  for (guint i = 0; i < depth; i++)
    g_string_append_c (text, ']');
  g_string_append_c (text, '}');
  return g_string_free (text, FALSE);
}

static void
test_bounds (void)
{
  g_autofree char *deep = nest (31);
  g_autofree char *too_deep = nest (32);
  g_autofree char *abyss = nest (30000);
  g_autofree char *line = hs_post_problem_read (deep, strlen (deep));
  g_autofree char *letters = g_strnfill (HS_POST_PROBLEM_BYTES - 11, 'x');
  g_autofree char *fits = g_strdup_printf ("{\"title\":\"%.*s\"}", HS_POST_PROBLEM_BYTES - 12, letters);
  g_autofree char *long_one = g_strdup_printf ("{\"title\":\"%s\"}", letters);
  g_autofree char *cut = hs_post_problem_read (fits, strlen (fits));

  g_assert_cmpstr (line, ==, "t");
  g_assert_null (hs_post_problem_read (too_deep, strlen (too_deep)));
  g_assert_null (hs_post_problem_read (abyss, strlen (abyss)));
  g_assert_cmpuint (strlen (fits), ==, HS_POST_PROBLEM_BYTES);
  g_assert_cmpint (g_utf8_strlen (cut, -1), ==, HS_POST_PROBLEM_LETTERS);
  g_assert_true (g_str_has_suffix (cut, "x…"));
  g_assert_cmpuint (strlen (long_one), ==, HS_POST_PROBLEM_BYTES + 1);
  g_assert_null (hs_post_problem_read (long_one, strlen (long_one)));
}

/* Looked for in what was meant, not in how it was written, and before anything is cut. */
static void
test_never (void)
{
  static const char *const never[] = { "mF_9.B5f", "ZGFyYTpz", "", NULL };
  static const struct
  {
    const char *json;
    const char *line;
  } rows[] = {
    { "{\"title\":\"mF_9 is not known\"}", "mF_9 is not known" },
    { "{\"title\":\"mF_9.B5f is not known\"}", NULL },
    { "{\"title\":\"\\u006dF_9.B5f is not known\"}", NULL },
    { "{\"title\":\"no\",\"detail\":\"Basic ZGFyYTpzZWNyZXQ=\"}", NULL },
    { "{\"title\":\"no\",\"other\":\"mF_9.B5f\"}", "no" },
  };
  g_autofree char *letters = g_strnfill (HS_POST_PROBLEM_LETTERS - 4, 'x');
  g_autofree char *at_the_cut = g_strdup_printf ("{\"title\":\"%smF_9.B5f\"}", letters);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *line = hs_post_problem_read_but (rows[i].json, strlen (rows[i].json), never);

      g_assert_cmpstr (line, ==, rows[i].line);
    }
  g_assert_null (hs_post_problem_read_but (at_the_cut, strlen (at_the_cut), never));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/post-problem/table", test_table);
  g_test_add_func ("/core/post-problem/cut", test_cut);
  g_test_add_func ("/core/post-problem/bent", test_bent);
  g_test_add_func ("/core/post-problem/bounds", test_bounds);
  g_test_add_func ("/core/post-problem/never", test_never);
  return g_test_run ();
}
