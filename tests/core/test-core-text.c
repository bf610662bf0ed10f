// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Text as a search sees it, in scripts that the owner may meet. */

#include "hs-text.h"

#include "core-test.h"

static void
test_fold (void)
{
  /* Letters and their decompositions as the Unicode Character Database (NFKD, CaseFolding) has them. */
  static const struct
  {
    const char *text;
    const char *folded;
  } rows[] = {
    { NULL, "" },
    { "", "" },
    { "   ", "" },
    { "--- ..", "" },
    { "Ottoline Mabry", "ottoline mabry" },
    { "  Ottoline   MABRY ", "ottoline mabry" },
    { "Mabry, Ottoline", "mabry ottoline" },
    { "O'Hara", "ohara" },
    { "O’Hara", "ohara" },
    { "O.Hara", "o hara" },
    { "Larch & Weir", "larch weir" },
    { "TDM-8816", "tdm 8816" },
    { "Núñez", "nunez" },
    { "Nu\xcc\x81n\xcc\x83" "ez", "nunez" },
    { "Müller", "muller" },
    { "Straße", "strasse" },
    { "STRASSE", "strasse" },
    { "Ångström", "angstrom" },
    { "Ｔｏｗｎ", "town" },
    { "①②", "12" },
    { "ﬁlter", "filter" },
    { "Ⅳ", "iv" },
    { "℡", "tel" },
    { "ΣΊΣΥΦΟΣ", "σισυφοσ" },
    { "Σίσυφος", "σισυφοσ" },
    { "Жёлтый", "желтыи" },
    { "東京 42", "東京 42" },
    { "٠١٢", "012" },
    { "१२३", "123" },
    { "55-0118", "55 0118" },
    { "a\xff" "b", "a b" },
    { "\xff\xfe", "" },
    { "x\ty\nz", "x y z" },
    { "1.2 gas", "1 2 gas" },
    { "€5", "5" },
    { "😀 van", "van" },
    { "İstanbul", "istanbul" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *folded = hs_text_fold (rows[i].text);
      g_autofree char *again = hs_text_fold (folded);

      g_assert_cmpstr (folded, ==, rows[i].folded);
      g_assert_cmpstr (again, ==, folded);
    }
}

static void
test_words (void)
{
  static const struct
  {
    const char *text;
    const char *words[5];
  } rows[] = {
    { "", { NULL } },
    { NULL, { NULL } },
    { " - ", { NULL } },
    { "Larch & Weir Auto", { "larch", "weir", "auto", NULL } },
    { "12 Tannery Row", { "12", "tannery", "row", NULL } },
    { "one", { "one", NULL } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) words = hs_text_words (rows[i].text);

      g_assert_cmpstrv (words, (char **) rows[i].words);
    }
}

static void
test_digits (void)
{
  static const struct
  {
    const char *text;
    const char *digits;
  } rows[] = {
    { "", "" },
    { NULL, "" },
    { "none", "" },
    { "(202) 555-0123", "2025550123" },
    { "TDM 8816", "8816" },
    { "٠١٢١", "0121" },
    { "０１２１", "0121" },
    { "a1b2", "12" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *digits = hs_text_digits (rows[i].text);

      g_assert_cmpstr (digits, ==, rows[i].digits);
    }
}

static void
test_tails (void)
{
  static const struct
  {
    const char *word;
    guint least;
    const char *tails[8];
  } rows[] = {
    { "5550121", 4, { "5550121", "550121", "50121", "0121", NULL } },
    { "0121", 4, { "0121", NULL } },
    { "121", 4, { NULL } },
    { "abc", 1, { "abc", "bc", "c", NULL } },
    { "abc", 0, { "abc", "bc", "c", NULL } },
    { "", 1, { NULL } },
    { "東京都", 2, { "東京都", "京都", NULL } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) tails = hs_text_tails (rows[i].word, rows[i].least);

      g_assert_cmpstrv (tails, (char **) rows[i].tails);
    }
}

static void
test_last (void)
{
  static const struct
  {
    const char *text;
    guint most;
    const char *last;
  } rows[] = {
    { "5550121", 4, "0121" },
    { "0121", 4, "0121" },
    { "21", 4, "21" },
    { "", 4, "" },
    { "abc", 0, "" },
    { "東京都", 2, "京都" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpstr (hs_text_last (rows[i].text, rows[i].most), ==, rows[i].last);
}

static void
test_is_blank (void)
{
  g_assert_true (hs_text_is_blank (NULL));
  g_assert_true (hs_text_is_blank (""));
  g_assert_true (hs_text_is_blank (" \t\n"));
  g_assert_true (hs_text_is_blank ("\u00a0\u2003"));
  g_assert_false (hs_text_is_blank ("."));
  g_assert_false (hs_text_is_blank ("  x  "));
  g_assert_false (hs_text_is_blank ("é"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/fold", test_fold);
  g_test_add_func ("/text/words", test_words);
  g_test_add_func ("/text/digits", test_digits);
  g_test_add_func ("/text/tails", test_tails);
  g_test_add_func ("/text/last", test_last);
  g_test_add_func ("/text/is-blank", test_is_blank);
  return g_test_run ();
}
