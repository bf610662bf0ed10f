// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What may be written into a why-chain, what may be called proven, and when every end is settled. */

#include "chain-test.h"

static void
test_finding (void)
{
  static const struct
  {
    HsChainFinding finding;
    const char *words;
  } rows[] = {
    { { .what = "draw", .role = HS_CHAIN_CAUSE, .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_CURED }, NULL },
    { { .what = "draw", .role = HS_CHAIN_RULED_OUT, .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_NO_END }, NULL },
    { { .what = "left on", .role = HS_CHAIN_CUSTOMER_SAID, .end = HS_CHAIN_OUTSIDE_TOLD }, NULL },
    { { .what = "left on", .role = HS_CHAIN_CUSTOMER_SAID, .sure = HS_CHAIN_PROVEN, .has_proof = TRUE,
        .end = HS_CHAIN_NO_END }, NULL },
    { { .what = NULL, .role = HS_CHAIN_CAUSE }, "A finding needs words" },
    { { .what = " \t", .role = HS_CHAIN_CAUSE }, "A finding needs words" },
    { { .what = "left on", .role = HS_CHAIN_CUSTOMER_SAID, .sure = HS_CHAIN_PROVEN },
      "“left on” was only said. It is proven once a reading or a photo shows it" },
    { { .what = "starter", .role = HS_CHAIN_RULED_OUT, .end = HS_CHAIN_CURED },
      "“starter” is ruled out, so the chain does not end there" },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].words != NULL)
      assert_refused (hs_chain_check_finding (&rows[i].finding, &error), &error, HS_CORE_ERROR_REFUSED,
                      rows[i].words);
    else
      {
        g_assert_true (hs_chain_check_finding (&rows[i].finding, &error));
        g_assert_no_error (error);
      }
}

static void
test_link (void)
{
  static const char text[] = "complaint dead = dead at noon\ncause flat = battery flat\ncause draw\nseen strap\n"
                             "said radio?\nsaid radio2!\ncause guess?\ncut starter\ncause odd~0 = no reason found\n"
                             "complaint slow\ndead < flat reading 11.2 V\nflat < draw reading 0.31 A";
  static const struct
  {
    const char *effect;
    const char *cause;
    HsChainProof by;
    const char *proof;
    const char *words;
  } rows[] = {
    { "dead", "strap", HS_CHAIN_BY_PHOTO, "x", NULL },
    { "draw", "radio", HS_CHAIN_BY_WORD, "radio left on", NULL },
    { "draw", "radio", HS_CHAIN_BY_EYE, "it was on", NULL },
    { "draw", "radio2", HS_CHAIN_BY_WORD, "x", NULL },
    { "draw", "guess", HS_CHAIN_BY_WORD, "x", NULL },
    { "dead", "draw", HS_CHAIN_BY_WORD, "x", NULL },
    { "dead", "strap", HS_CHAIN_BY_WORD, "x", NULL },
    { "slow", "flat", HS_CHAIN_BY_READING, "x", NULL },
    { "dead", "starter", HS_CHAIN_BY_READING, "draws 164 A", NULL },
    { "odd", "starter", HS_CHAIN_BY_EYE, "x", NULL },
    { "draw", "flat", HS_CHAIN_BY_EYE, "x", "draw ← battery flat ← draw leads back to itself" },
    { "flat", "draw", HS_CHAIN_BY_EYE, "x", "“draw” stands as a cause of “battery flat” already" },
    { "flat", "other", HS_CHAIN_BY_EYE, "x", "Write the finding down first" },
    { "draw", "strap", HS_CHAIN_BY_EYE, NULL, "draw ← strap needs a proof" },
    { "draw", "strap", HS_CHAIN_BY_EYE, "", "draw ← strap needs a proof" },
    { "draw", "strap", HS_CHAIN_BY_EYE, " \n", "draw ← strap needs a proof" },
    { "starter", "strap", HS_CHAIN_BY_EYE, "x", "“starter” is ruled out: nothing has to explain it" },
    { "draw", "slow", HS_CHAIN_BY_EYE, "x", "“slow” is a complaint: look for what is behind it" },
    { "odd", "strap", HS_CHAIN_BY_EYE, "x", "“no reason found” stands as not known. Open that end first" },
    { "dead", "starter", HS_CHAIN_BY_WORD, "x", "Words alone rule nothing out: “starter” needs" },
    { "slow", "odd", HS_CHAIN_BY_WORD, "x", NULL },
  };
  g_autoptr (HsChain) chain = chain_of (text);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsChainLink link = { .effect_id = rows[i].effect, .cause_id = rows[i].cause,
                           .by = rows[i].by, .proof = rows[i].proof };

      g_test_message ("%s ← %s", rows[i].effect, rows[i].cause);
      if (rows[i].words != NULL)
        assert_refused (hs_chain_check_link (chain, &link, &error), &error, HS_CORE_ERROR_REFUSED, rows[i].words);
      else
        {
          g_assert_true (hs_chain_check_link (chain, &link, &error));
          g_assert_no_error (error);
        }
      g_assert_cmpuint (hs_chain_get_n_links (chain), ==, 2);
    }
}

/* A chain by itself: may the finding be called proven, may its only link go, may it be linked by words? */
static void
test_proven (void)
{
  static const struct
  {
    const char *text;
    gboolean may;
  } rows[] = {
    { "cause x?", TRUE },
    { "seen x?", TRUE },
    { "said x?", FALSE },
    { "said x?!", TRUE },
    { "cause x?\ncause a\na < x said y", FALSE },
    { "cause x?!\ncause a\na < x said y", TRUE },
    { "cause x?\ncause a\na < x seen y", TRUE },
    { "cause x?\ncause a\na < x reading y", TRUE },
    { "cause x?\ncause a\na < x photo y", TRUE },
    { "seen x?\ncause a\na < x said y", TRUE },
    { "said x?\ncause a\na < x said y", FALSE },
    { "said x?\ncause a\na < x seen y", FALSE },
    { "said x?\ncause a\na < x reading y", TRUE },
    { "said x?\ncause a\na < x photo y", TRUE },
    { "said x?\ncause a\ncause b\na < x said y\nb < x reading y", TRUE },
    { "cause x?\ncause a\ncause b\na < x said y\nb < x said y", FALSE },
    { "said x?\ncause a\nx < a reading y", FALSE },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of (rows[i].text);

      g_test_message ("%s", rows[i].text);
      g_assert_true (hs_chain_check_sure (chain, "x", HS_CHAIN_SUSPECTED, &error));
      g_assert_true (hs_chain_check_sure (chain, "x", HS_CHAIN_NOT_KNOWN, &error));
      if (rows[i].may)
        g_assert_true (hs_chain_check_sure (chain, "x", HS_CHAIN_PROVEN, &error));
      else
        assert_refused (hs_chain_check_sure (chain, "x", HS_CHAIN_PROVEN, &error), &error, HS_CORE_ERROR_REFUSED,
                        "“x” was only said. It is proven once a reading or a photo shows it");
      assert_refused (hs_chain_check_sure (chain, "y", HS_CHAIN_PROVEN, &error), &error, HS_CORE_ERROR_REFUSED,
                      "no such finding");
    }
}

/* A first link by words alone under a cause that is called proven. */
static void
test_link_proven (void)
{
  static const struct
  {
    const char *cause;
    HsChainProof by;
    gboolean may;
  } rows[] = {
    { "cause x", HS_CHAIN_BY_WORD, FALSE }, { "cause x", HS_CHAIN_BY_EYE, TRUE },
    { "cause x", HS_CHAIN_BY_PHOTO, TRUE }, { "cause x?", HS_CHAIN_BY_WORD, TRUE },
    { "cause x!", HS_CHAIN_BY_WORD, TRUE }, { "cause x~", HS_CHAIN_BY_WORD, TRUE },
    { "said x", HS_CHAIN_BY_EYE, FALSE },   { "said x", HS_CHAIN_BY_READING, TRUE },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strconcat ("complaint a\n", rows[i].cause, NULL);
      g_autoptr (HsChain) chain = chain_of (text);
      HsChainLink link = { .effect_id = "a", .cause_id = "x", .by = rows[i].by, .proof = "y" };

      g_test_message ("%s %d", rows[i].cause, rows[i].by);
      if (rows[i].may)
        g_assert_true (hs_chain_check_link (chain, &link, &error));
      else
        assert_refused (hs_chain_check_link (chain, &link, &error), &error, HS_CORE_ERROR_REFUSED,
                        "“x” is called proven: show it by a reading or a photo, or call it suspected first");
    }
}

static void
test_unlink (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "cause a\ncause x\na < x reading y", NULL },
    { "cause a\ncause x?\na < x reading y", NULL },
    { "cause a\nsaid x!\na < x reading y", NULL },
    { "cause a\ncause b\ncause x\na < x reading y\nb < x seen y", NULL },
    { "cause a\ncause b\ncause x\na < x reading y\nb < x said y", "“x” is called proven by this link" },
    { "cause a\ncause b\nsaid x\na < x reading y\nb < x seen y", "Call it suspected first" },
    { "cause a\nsaid x\na < x photo y", "“x” is called proven by this link" },
    { "cause a\ncause x", "There is no such link" },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of (rows[i].text);

      g_test_message ("%s", rows[i].text);
      if (rows[i].words == NULL)
        g_assert_true (hs_chain_check_unlink (chain, "a<x", &error));
      else
        assert_refused (hs_chain_check_unlink (chain, "a<x", &error), &error, HS_CORE_ERROR_REFUSED, rows[i].words);
    }
}

static void
test_end (void)
{
  static const char text[] = "complaint dead\ncomplaint slow\ncause flat\ncause draw\ncut starter\n"
                             "dead < flat reading x\nflat < draw reading x\nflat < starter reading x";
  static const struct
  {
    const char *id;
    HsChainEnd end;
    const char *words;
  } rows[] = {
    { "draw", HS_CHAIN_CURED, NULL },
    { "draw", HS_CHAIN_CHOSEN, NULL },
    { "draw", HS_CHAIN_OUTSIDE_TOLD, NULL },
    { "draw", HS_CHAIN_NOT_KNOWN_TOLD, NULL },
    { "draw", HS_CHAIN_NO_END, NULL },
    { "flat", HS_CHAIN_CURED, NULL },
    { "flat", HS_CHAIN_CHOSEN, NULL },
    { "slow", HS_CHAIN_NOT_KNOWN_TOLD, NULL },
    { "dead", HS_CHAIN_NO_END, NULL },
    { "flat", HS_CHAIN_NOT_KNOWN_TOLD, "What is behind “flat” is written down" },
    { "dead", HS_CHAIN_CURED, "“dead” has causes: settle the chain at those" },
    { "starter", HS_CHAIN_CURED, "“starter” is ruled out, so the chain does not end there" },
    { "other", HS_CHAIN_CURED, "There is no such finding" },
  };
  g_autoptr (HsChain) chain = chain_of (text);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    if (rows[i].words == NULL)
      g_assert_true (hs_chain_check_end (chain, rows[i].id, rows[i].end, &error));
    else
      assert_refused (hs_chain_check_end (chain, rows[i].id, rows[i].end, &error), &error, HS_CORE_ERROR_REFUSED,
                      rows[i].words);
}

/* Which ends there are: each as its finding and what is missing of it. */
static void
test_tips (void)
{
  static const struct
  {
    const char *text;
    const char *tips;
    guint n_open;
    const char *words;
  } rows[] = {
    { "", "", 0, NULL },
    { "seen a\nsaid b?", "", 0, NULL },
    { "cut a", "", 0, NULL },
    { "complaint a", "a?", 1, "still open at “a”. Say what is behind it, or settle it: cured today" },
    { "complaint a0", "a", 0, NULL },
    { "complaint a\ncause b+\na < b seen x", "b", 0, NULL },
    { "complaint a\ncause b\na < b seen x", "b?", 1, "the customer's choice, an outside influence and told" },
    { "cause b", "b?", 1, "not known and told" },
    { "complaint a\ncause b+\ncause c\na < b seen x\na < c seen x", "b c?", 1, "open at “c”." },
    { "complaint a\ncause b\ncause c\na < b seen x\na < c seen x", "b? c?", 2, "open at “b” and “c”. Say of each" },
    { "cause a\ncause b\ncause c*\ncause d", "a? b? c d?", 3, "open at “a”, “b” and “d”." },
    { "complaint a\ncause b+\ncause c\na < b seen x\nb < c seen x", "b c?", 1, "“c”" },
    { "complaint a\ncause b\nsaid c?^\na < b seen x\nb < c said x", "c", 0, NULL },
    { "complaint a\nsaid c?\na < c said x", "c?", 1, "“c”" },
    { "complaint a\ncut b\na < b seen x", "a?", 1, "“a”" },
    { "complaint a\ncomplaint b\ncause c+\na < c seen x", "b? c", 1, "“b”" },
    { "complaint a\ncomplaint b\ncause c+\na < c seen x\nb < c seen x", "c", 0, NULL },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of (rows[i].text);
      g_autoptr (GPtrArray) tips = hs_chain_list_tips (chain);
      g_autoptr (GString) told = g_string_new (NULL);

      for (guint k = 0; k < tips->len; k++)
        {
          const HsChainTip *tip = g_ptr_array_index (tips, k);

          g_string_append_printf (told, "%s%s%s", k > 0 ? " " : "", hs_chain_get_finding (chain, tip->finding)->id,
                                  tip->missing != NULL ? "?" : "");
          g_assert_cmpint (tip->end == HS_CHAIN_NO_END, ==, tip->missing != NULL);
        }
      g_assert_cmpstr (told->str, ==, rows[i].tips);
      g_assert_cmpuint (hs_chain_count_open (chain), ==, rows[i].n_open);
      if (rows[i].words == NULL)
        g_assert_true (hs_chain_check_settled (chain, &error));
      else
        assert_refused (hs_chain_check_settled (chain, &error), &error, HS_CORE_ERROR_REFUSED, rows[i].words);
    }
}

/* What is missing says which of the four ways there are. */
static void
test_missing (void)
{
  static const struct
  {
    const char *text;
    const char *missing;
  } rows[] = {
    { "cause draw", "“draw” is an open end. Say what is behind it, or settle it: cured today, the customer's choice, "
                    "an outside influence and told, or not known and told." },
    { "complaint dead", "“dead” has no cause yet. Say what is behind it, or settle it: cured today, the customer's "
                        "choice, an outside influence and told, or not known and told." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of (rows[i].text);
      g_autoptr (GPtrArray) tips = hs_chain_list_tips (chain);

      g_assert_cmpuint (tips->len, ==, 1);
      g_assert_cmpstr (((HsChainTip *) g_ptr_array_index (tips, 0))->missing, ==, rows[i].missing);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-rules/finding", test_finding);
  g_test_add_func ("/chain-rules/link", test_link);
  g_test_add_func ("/chain-rules/proven", test_proven);
  g_test_add_func ("/chain-rules/link-proven", test_link_proven);
  g_test_add_func ("/chain-rules/unlink", test_unlink);
  g_test_add_func ("/chain-rules/end", test_end);
  g_test_add_func ("/chain-rules/tips", test_tips);
  g_test_add_func ("/chain-rules/missing", test_missing);
  return g_test_run ();
}
