// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Verdicts: words and shapes, never one without the other. */

#include "hs-verdict.h"

#include "core-test.h"

static void
test_words_and_shapes (void)
{
  static const struct
  {
    HsVerdict verdict;
    const char *id;
    const char *word;
    const char *shape;
  } rows[] = {
    { HS_VERDICT_WITHIN, "within", "within", "plain" },
    { HS_VERDICT_WATCH, "watch", "watch", "thin" },
    { HS_VERDICT_OUTSIDE, "outside", "outside", "heavy" },
    { HS_VERDICT_CANNOT_TELL, "cannot_tell", "cannot tell", "dashed" },
    { HS_VERDICT_DEPENDS, "depends", "depends", "dotted" },
  };

  g_assert_cmpuint (G_N_ELEMENTS (rows), ==, HS_N_VERDICTS);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsVerdict back = (HsVerdict) 4711;

      g_assert_cmpstr (hs_verdict_id (rows[i].verdict), ==, rows[i].id);
      g_assert_cmpstr (hs_verdict_word (rows[i].verdict), ==, rows[i].word);
      g_assert_cmpstr (hs_verdict_shape (rows[i].verdict), ==, rows[i].shape);
      g_assert_true (hs_verdict_parse (rows[i].id, &back, NULL));
      g_assert_cmpint (back, ==, rows[i].verdict);
      g_assert_true (hs_verdict_parse (rows[i].word, &back, NULL));
      g_assert_cmpint (back, ==, rows[i].verdict);
      for (gsize j = 0; j < i; j++)
        g_assert_cmpstr (rows[i].shape, !=, rows[j].shape);
      g_assert_cmpstr (rows[i].shape, !=, HS_DO_NOT_DRIVE_SHAPE);
    }
}

static void
test_refuses (void)
{
  static const char *const rows[] = { "", "ok", "good", "out", "do not drive" };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsVerdict verdict = HS_VERDICT_WATCH;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_verdict_parse (rows[i], &verdict, &error), &error, "is not a verdict: write within, watch");
      g_assert_cmpint (verdict, ==, HS_VERDICT_WATCH);
    }
}

/* Of two neighbors the better one owns the limit, whichever way they are named. */
static void
test_better (void)
{
  static const HsVerdict order[] = {
    HS_VERDICT_WITHIN, HS_VERDICT_WATCH, HS_VERDICT_DEPENDS, HS_VERDICT_CANNOT_TELL, HS_VERDICT_OUTSIDE,
  };

  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    for (gsize j = 0; j < G_N_ELEMENTS (order); j++)
      g_assert_cmpint (hs_verdict_better (order[i], order[j]), ==, order[MIN (i, j)]);
}

/* Who says so is told once. */
static void
test_source_text (void)
{
  static const char *const rows[][3] = {
    { "US Army TM 5-1185", "official text", "US Army TM 5-1185 (official text)" },
    { "Common practice", "common practice", "Common practice" },
    { "Common practice; a textbook", "common practice",
      "Common practice; a textbook (common practice)" },
    { "Common practice with testers", "common practice", "Common practice with testers" },
    { "a datasheet", "memory", "a datasheet (memory)" },
    { "the meter", "", "the meter" },
    { "the meter", NULL, "the meter" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_verdict_source_text (rows[i][0], rows[i][1]);

      g_assert_cmpstr (text, ==, rows[i][2]);
    }
}

static char *
say_other (const char *text)
{
  if (g_str_equal (text, "verdict\004outside"))
    return (char *) "fuera";
  if (g_str_equal (text, "outside"))
    return (char *) "de fuera";
  return g_str_equal (text, "flat") ? (char *) "descargada" : (char *) text;
}

static char *
say_other_number (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

/* Plain words by their context, words of a limit without one, the owner's own as they are. */
static void
test_word_in (void)
{
  static const HsTongue other = { say_other, say_other_number };
  static const char *const rows[][2] = {
    { "outside", "fuera" }, { "within", "within" }, { "flat", "descargada" }, { "my own", "my own" }, { "", "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (hs_verdict_word_in (rows[i][0], &other), ==, rows[i][1]);
  g_assert_cmpstr (hs_verdict_word_in ("outside", &hs_tongue_english), ==, "outside");
  g_assert_null (hs_verdict_word_in (NULL, &other));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/verdict/words-and-shapes", test_words_and_shapes);
  g_test_add_func ("/verdict/source-text", test_source_text);
  g_test_add_func ("/verdict/word-in", test_word_in);
  g_test_add_func ("/verdict/refuses", test_refuses);
  g_test_add_func ("/verdict/better", test_better);
  return g_test_run ();
}
