// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The text format with one vehicle and windows, beyond the rows of test-plan-tsptw-read.c: every number of a file
 * spoiled in its turn, forms of numbers and notes, values written and read back, and bytes changed at random. */

#include "hs-plan-error.h"
#include "hs-tsptw-read.h"

#include <string.h>

static HsTsptw *
read_good (const char *text)
{
  HsTsptw *problem = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_tsptw_read (text, strlen (text), &problem, &error));
  g_assert_no_error (error);
  g_assert_true (hs_tsptw_check (problem, &error));
  return problem;
}

static void
refuse (const char *text, gsize length, const char *message)
{
  HsTsptw *problem = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_tsptw_read (text, length, &problem, &error));
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  g_assert_null (problem);
  if (!g_str_has_prefix (error->message, message))
    g_error ("“%s” should begin “%s”", error->message, message);
}

/* How one number may be written, as the leg from 0 to 1; all else is whole. */
static void
test_numbers (void)
{
  static const struct
  {
    const char *word;
    gint64 scaled;
    guint decimals;
  } rows[] = {
    { "7", 7, 0 },
    { "007", 7, 0 },
    { "0", 0, 0 },
    { "-0", 0, 0 },
    { "7.", 7, 0 },
    { ".25", 25, 2 },
    { "0.10", 1, 1 },
    { "12.3400", 1234, 2 },
    { "0.000000001", 1, 9 },
    { "123.000000000000", 123, 0 },
    { "999999.999999999", G_GINT64_CONSTANT (999999999999999), 9 },
    { "1000000000000000", HS_TSPTW_MAX_VALUE, 0 },
    { "100000000000000.0", HS_TSPTW_MAX_VALUE / 10, 0 },
    { "99999999999999.9", G_GINT64_CONSTANT (999999999999999), 1 },
    { "0000000000000000000000000000000000000007", 7, 0 },
    { "7#seven", 7, 0 },
    { "7# 8 9", 7, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("2\n0 %s\n0 0\n0 9\n0 9\n", rows[i].word);
      g_autoptr (HsTsptw) problem = read_good (text);

      g_assert_cmpint (problem->drive[1], ==, rows[i].scaled);
      g_assert_cmpint (problem->decimals, ==, rows[i].decimals);
      for (guint power = 0; power < rows[i].decimals; power++)
        problem->to[1] /= 10;
      g_assert_cmpint (problem->to[1], ==, 9);
    }
}

static void
test_no_numbers (void)
{
  static const struct
  {
    const char *word;
    const char *why;
  } rows[] = {
    { ".", "only digits and one point" },
    { "-", "only digits and one point" },
    { "-.", "only digits and one point" },
    { "--1", "only digits and one point" },
    { "1.2.3", "only digits and one point" },
    { "1-2", "only digits and one point" },
    { "0x10", "only digits and one point" },
    { "1_000", "only digits and one point" },
    { "12a", "only digits and one point" },
    { "1:30", "only digits and one point" },
    { "*", "only digits and one point" },
    { "+7", "leave the plus sign away" },
    { "7e2", "without an exponent" },
    { "7E2", "without an exponent" },
    { "7e-2", "without an exponent" },
    { "7.5e0", "without an exponent" },
    { "1,000", "write a point" },
    { "0,5", "write a point" },
    { "inf", "only plain numbers" },
    { "INF", "only plain numbers" },
    { "-inf", "only plain numbers" },
    { "NaN", "only plain numbers" },
    { "-1", "is below zero" },
    { "-0.001", "is below zero" },
    { "-9223372036854775807", "is below zero" },
    { "1000000000000001", "too large" },
    { "100000000000000.1", "too large" },
    { "9223372036854775807", "too large" },
    { "9223372036854775808", "too large" },
    { "18446744073709551616", "too large" },
    { "99999999999999999999999999999999", "too large" },
    { "-9223372036854775809", "too large" },
    { "0.0000000001", "only 9 decimals" },
    { "1.1234567890123", "only 9 decimals" },
    { "\xd9\xa3", "is not a number" },
    { "7\x01", "is not a number" },
    { "\x7f", "is not a number" },
    { "12345678901234567890123456789012345678901", "is not a number" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint place = 0; place < 2; place++)
      {
        g_autofree char *text = g_strdup_printf (place == 0 ? "2\n0 %s\n0 0\n0 9\n0 9\n" : "2\n0 1\n0 0\n0 9\n%s 9\n",
                                                 rows[i].word);
        g_autoptr (HsTsptw) problem = NULL;
        g_autoptr (GError) error = NULL;

        g_test_message ("“%s”", rows[i].word);
        g_assert_false (hs_tsptw_read (text, strlen (text), &problem, &error));
        g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
        g_assert_nonnull (strstr (error->message, rows[i].why));
        g_assert_true (g_str_has_prefix (error->message, place == 0 ? "line 2: leg from 0 to 1: "
                                                                    : "line 5: window of 1: "));
      }
}

/* A file of words: the number of nodes, the table and the windows; @spoiled is written as @word. */
static char *
write_words (guint n, guint spoiled, const char *word, const char *between, const char *line_end)
{
  GString *text = g_string_new (NULL);
  guint n_words = 1 + n * n + 2 * n;

  for (guint i = 0; i < n_words; i++)
    {
      guint in_row = i == 0 ? 0 : i <= n * n ? (i - 1) % n : (i - 1 - n * n) % 2;
      gboolean ends = i == 0 || (i <= n * n ? in_row + 1 == n : in_row == 1);

      if (i == spoiled)
        g_string_append (text, word);
      else if (i == 0)
        g_string_append_printf (text, "%u", n);
      else
        g_string_append_printf (text, "%u", i <= n * n ? i : in_row * 1000);
      g_string_append (text, ends ? line_end : between);
    }
  return g_string_free (text, FALSE);
}

/* Where the word is, in a file whose every row takes @step lines. */
static char *
name_place (guint n, guint word, guint step)
{
  if (word == 0)
    return g_strdup ("line 1: number of nodes: ");
  word--;
  if (word < n * n)
    return g_strdup_printf ("line %u: leg from %u to %u: ", 1 + step * (1 + word / n), word / n, word % n);
  word -= n * n;
  return g_strdup_printf ("line %u: window of %u: ", 1 + step * (1 + n + word / 2), word / 2);
}

/* Each number in its turn is spoiled; the refusal names its line and field. */
static void
test_each_word (void)
{
  static const struct
  {
    const char *between;
    const char *line_end;
    guint step;
  } forms[] = {
    { " ", "\n", 1 },
    { "\t", "\r\n", 1 },
    { "  \t ", " \n\n", 2 },
    { " ", " # 1 2 3\n", 1 },
    { " ", "#\n# more\n\n", 3 },
    { "\f\v", "\n", 1 },
  };

  for (guint form = 0; form < G_N_ELEMENTS (forms); form++)
    for (guint n = 1; n <= 5; n++)
      {
        g_autofree char *good = write_words (n, G_MAXUINT, "", forms[form].between, forms[form].line_end);
        g_autoptr (HsTsptw) problem = read_good (good);

        g_assert_cmpint (problem->n_nodes, ==, n);
        for (guint i = 0; i < n * n; i++)
          g_assert_cmpint (problem->drive[i], ==, i + 1);
        for (guint i = 0; i < n; i++)
          g_assert_cmpint (problem->from[i] * 10000 + problem->to[i], ==, 1000);
        for (guint word = 0; word < 1 + n * n + 2 * n; word++)
          {
            g_autofree char *bad = write_words (n, word, "?", forms[form].between, forms[form].line_end);
            g_autofree char *where = name_place (n, word, forms[form].step);

            refuse (bad, strlen (bad), where);
          }
      }
}

static gint64
power_of_ten (guint exponent)
{
  return exponent == 0 ? 1 : 10 * power_of_ten (exponent - 1);
}

/* Random values with decimals come back exactly. */
static void
test_written_and_read (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);

  for (guint decimals = 0; decimals <= 9; decimals++)
    for (guint round = 0; round < 20; round++)
      {
        guint n = (guint) g_rand_int_range (rand, 1, 8);
        gint64 one = power_of_ten (decimals);
        g_autoptr (GString) text = g_string_new (NULL);
        g_autofree gint64 *values = g_new (gint64, n * n);
        g_autoptr (HsTsptw) problem = NULL;

        g_string_append_printf (text, "%u\n", n);
        for (guint i = 0; i < n * n; i++)
          {
            values[i] = g_rand_int_range (rand, 0, 900000) * one + g_rand_int (rand) % one;
            values[i] += i == 0 && values[i] % 10 == 0;
            g_string_append_printf (text, "%" G_GINT64_FORMAT, values[i] / one);
            if (decimals > 0)
              g_string_append_printf (text, ".%0*" G_GINT64_FORMAT, (int) decimals, values[i] % one);
            g_string_append_c (text, i % n == n - 1 ? '\n' : ' ');
          }
        for (guint i = 0; i < n; i++)
          g_string_append_printf (text, "%u %u\n", i, i + 1);
        problem = read_good (text->str);
        g_assert_cmpint (problem->decimals, ==, decimals);
        g_assert_cmpmem (problem->drive, n * n * sizeof (gint64), values, n * n * sizeof (gint64));
        for (guint i = 0; i < n; i++)
          {
            g_assert_cmpint (problem->from[i], ==, i * one);
            g_assert_cmpint (problem->to[i], ==, (i + 1) * one);
          }
      }
}

static void
test_sizes (void)
{
  static const guint sizes[] = { 1, 2, 64, 65, 256, 257, 511, 512 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *text = write_words (sizes[i], G_MAXUINT, "", " ", "\n");
      g_autoptr (HsTsptw) problem = read_good (text);

      g_assert_cmpint (problem->n_nodes, ==, sizes[i]);
      g_assert_cmpint (problem->drive[sizes[i] * sizes[i] - 1], ==, sizes[i] * sizes[i]);
      g_assert_cmpint (problem->to[sizes[i] - 1], ==, 1000);
    }
  {
    g_autofree char *text = write_words (513, G_MAXUINT, "", " ", "\n");

    refuse (text, strlen (text), "line 1: number of nodes: must be from 1 to 512");
  }
}

static guint
count_lines (const char *text, gsize length)
{
  guint lines = 1;

  for (gsize i = 0; i < length; i++)
    lines += text[i] == '\n';
  return lines;
}

/* Either a problem that passes the check, or a refusal with a line that the text has. */
static gboolean
read_anything (const char *text, gsize length)
{
  g_autofree char *exact = g_memdup2 (text, length);
  g_autoptr (HsTsptw) problem = NULL;
  g_autoptr (GError) error = NULL;
  guint64 line;
  char *rest;

  if (hs_tsptw_read (exact, length, &problem, &error))
    {
      g_assert_no_error (error);
      g_assert_true (hs_tsptw_check (problem, NULL));
      return TRUE;
    }
  g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
  g_assert_null (problem);
  g_assert_true (g_str_has_prefix (error->message, "line "));
  line = g_ascii_strtoull (error->message + 5, &rest, 10);
  g_assert_cmpint (line, >=, 1);
  g_assert_cmpint (line, <=, count_lines (text, length));
  g_assert_true (g_str_has_prefix (rest, ": "));
  g_assert_nonnull (strstr (rest + 2, ": "));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  return FALSE;
}

static const char good_text[] = "# made here\n4\n0 7 1.5 3\n8 0 2 4\n4 4 0 6.25 # row\n9 8 7 0\n"
                                "0 99\n3 5\n\n6 12.75\n7 20 note\n";

static void
test_changed_bytes (void)
{
  static const char letters[] = "0123456789.-+eE#, \n\r\t\x80\xff\x01x";
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);
  guint accepted = 0;

  for (guint round = 0; round < 20000; round++)
    {
      g_autoptr (GString) text = g_string_new_len (good_text, sizeof good_text - 1);
      guint changes = (guint) g_rand_int_range (rand, 1, 5);

      for (guint i = 0; i < changes; i++)
        {
          gssize at = g_rand_int_range (rand, 0, (gint32) text->len);
          char letter = letters[g_rand_int_range (rand, 0, sizeof letters)];

          switch (g_rand_int_range (rand, 0, 4))
            {
            case 0:
              g_string_erase (text, at, 1);
              break;
            case 1:
              g_string_insert_c (text, at, letter);
              break;
            case 2:
              text->str[at] = (char) g_rand_int_range (rand, 0, 256);
              break;
            default:
              text->str[at] = letter;
            }
        }
      accepted += read_anything (text->str, text->len);
    }
  g_assert_cmpint (accepted, >, 1000);
  g_assert_cmpint (accepted, <, 19000);
}

/* Cut anywhere: before its last number is whole the last window ends before it begins; the rest is notes. */
static void
test_cut_anywhere (void)
{
  gsize least = strlen (good_text) - strlen (" note\n");

  for (gsize length = 0; length < sizeof good_text; length++)
    g_assert_cmpint (read_anything (good_text, length), ==, length >= least);
}

/* A mebibyte of one letter before, in and behind a file. */
static void
test_long (void)
{
  static const struct
  {
    char letter;
    gboolean before;
    gboolean within;
  } rows[] = {
    { ' ', TRUE, TRUE },
    { '\t', TRUE, TRUE },
    { '\n', TRUE, TRUE },
    { '0', FALSE, FALSE },
    { '9', FALSE, FALSE },
    { '.', FALSE, FALSE },
    { '-', FALSE, FALSE },
    { '\0', FALSE, FALSE },
    { 'x', FALSE, FALSE },
    { '#', FALSE, FALSE },
  };
  gsize size = 1 << 20;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *filler = g_malloc (size);
      g_autoptr (GString) before = g_string_new (NULL);
      g_autoptr (GString) within = g_string_new ("2\n0 ");
      g_autoptr (GString) behind = g_string_new ("2\n0 7\n7 0\n0 99\n0 99 ");

      memset (filler, rows[i].letter, size);
      g_string_append_len (before, filler, (gssize) size);
      g_string_append (before, "2\n0 7\n7 0\n0 99\n0 99\n");
      g_string_append_len (within, filler, (gssize) size);
      g_string_append (within, " 7\n7 0\n0 99\n0 99\n");
      g_string_append_len (behind, filler, (gssize) size);
      g_test_message ("letter %d", rows[i].letter);
      g_assert_cmpint (read_anything (before->str, before->len), ==, rows[i].before);
      g_assert_cmpint (read_anything (within->str, within->len), ==, rows[i].within);
      g_assert_true (read_anything (behind->str, behind->len));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tsptw-text/numbers", test_numbers);
  g_test_add_func ("/tsptw-text/no-numbers", test_no_numbers);
  g_test_add_func ("/tsptw-text/each-word", test_each_word);
  g_test_add_func ("/tsptw-text/written-and-read", test_written_and_read);
  g_test_add_func ("/tsptw-text/sizes", test_sizes);
  g_test_add_func ("/tsptw-text/changed-bytes", test_changed_bytes);
  g_test_add_func ("/tsptw-text/cut-anywhere", test_cut_anywhere);
  g_test_add_func ("/tsptw-text/long", test_long);
  return g_test_run ();
}
