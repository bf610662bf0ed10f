// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The sentences that a why-chain gives for the invoice. */

#include "chain-test.h"

static void
test_a0013 (void)
{
  static const char *const expected[] = {
    "The reason for “battery lamp, slow crank”: battery nearly empty (measured: 11.95 V at rest, 9 %).",
    "The reason for that: not being charged (measured: 12.30 V at 1,500 rpm).",
    "The reason for that: drive belt glazed and wet (photo: belt wet and glazed); this was put right on this "
    "visit.",
    "The reason for that: water pump seal weeping onto the belt (measured: 0.3 bar lost in 10 min); what to do about "
    "it was the customer's choice.",
    "About that the customer says: “topped up with plain water for months”; this is not proven; if so, it came from "
    "outside the vehicle; the customer was told.",
    "Ruled out: alternator (measured: 88 of 90 A with a dry belt).",
  };
  g_autoptr (HsChain) chain = chain_of (chain_a0013);
  g_autoptr (GPtrArray) sentences = hs_chain_list_sentences (chain, NULL);

  g_assert_cmpuint (sentences->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < sentences->len; i++)
    g_assert_cmpstr (g_ptr_array_index (sentences, i), ==, expected[i]);
}

static void
assert_sentences (const char *text, const char *const *expected)
{
  g_autoptr (HsChain) chain = chain_of (text);
  g_autoptr (GPtrArray) sentences = hs_chain_list_sentences (chain, NULL);
  guint i = 0;

  g_test_message ("%s", text);
  for (; expected[i] != NULL; i++)
    {
      g_assert_cmpuint (i, <, sentences->len);
      g_assert_cmpstr (g_ptr_array_index (sentences, i), ==, expected[i]);
    }
  g_assert_cmpuint (i, ==, sentences->len);
}

/* What is called cured is put right only if something was done and something shows it; else it says what is known. */
static void
test_cures (void)
{
  static const struct
  {
    gboolean done;
    gboolean shown;
    const char *complaint;
    const char *cause;
    HsChainCure cure;
  } rows[] = {
    { TRUE, TRUE, "“a” was put right on this visit.", "Found: b; this was put right on this visit.",
      HS_CHAIN_CURE_SHOWN },
    { TRUE, FALSE, "“a” was repaired on this visit, and nothing has shown yet that it holds.",
      "Found: b; this was repaired on this visit, and nothing has shown yet that it holds.", HS_CHAIN_CURE_UNTESTED },
    { FALSE, TRUE, "“a” was tested afterwards; what was done is not written down.",
      "Found: b; it was tested afterwards; what was done to it is not written down.",
      HS_CHAIN_CURE_UNSAID },
    { FALSE, FALSE, "“a” is to be put right; nobody wrote down yet that it was.",
      "Found: b; it is to be put right; nobody wrote down yet that it was.", HS_CHAIN_CURE_MEANT },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of ("complaint a+\ncause b+");
      g_autoptr (GPtrArray) sentences = NULL;

      hs_chain_set_work (chain, rows[i].done, rows[i].shown);
      sentences = hs_chain_list_sentences (chain, NULL);
      g_assert_cmpstr (g_ptr_array_index (sentences, 0), ==, rows[i].complaint);
      g_assert_cmpstr (g_ptr_array_index (sentences, 1), ==, rows[i].cause);
      g_assert_cmpint (hs_chain_get_cure (chain, hs_chain_find (chain, "b")), ==, rows[i].cure);
    }
}

static char *
say_other (const char *text)
{
  static const struct
  {
    const char *english;
    const char *other;
  } words[] = {
    { "The reason for “{effect}”: {cause}{proof}", "{cause}{proof} → {effect}" },
    { " (seen: {words})", " [{words}]" },
    { "this was put right on this visit", "ok" },
    { "Ruled out: ", "no: " },
    { "battery", "pila" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (words[i].english, text))
      return (char *) words[i].other;
  return (char *) text;
}

static char *
say_other_number (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

/* Another language puts the parts of a pattern in its own order; words of a model are said in it, the owner's own stay
 * as they are. */
static void
test_other_tongue (void)
{
  static const HsTongue other = { say_other, say_other_number };
  const HsChainFinding complaint = { .id = "c", .what = "it is dead", .role = HS_CHAIN_COMPLAINT };
  const HsChainFinding battery = { .id = "b", .what = "battery", .role = HS_CHAIN_CAUSE, .sure = HS_CHAIN_PROVEN,
                                   .end = HS_CHAIN_CURED };
  const HsChainFinding starter = { .id = "s", .what = "starter", .role = HS_CHAIN_RULED_OUT };
  const HsChainLink link = { .id = "l", .effect_id = "c", .cause_id = "b", .by = HS_CHAIN_BY_EYE, .proof = "swollen" };
  g_autoptr (HsChain) chain = hs_chain_new ();
  g_autoptr (GPtrArray) sentences = NULL;

  hs_chain_put_finding (chain, &complaint);
  hs_chain_put_finding (chain, &battery);
  hs_chain_put_finding (chain, &starter);
  g_assert_true (hs_chain_put_link (chain, &link, NULL));
  hs_chain_set_work (chain, TRUE, TRUE);
  sentences = hs_chain_list_sentences (chain, &other);
  g_assert_cmpuint (sentences->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (sentences, 0), ==, "Pila [swollen] → it is dead; ok.");
  g_assert_cmpstr (g_ptr_array_index (sentences, 1), ==, "No: starter.");
}

/* A part that was put in for it is work of its own. */
static void
test_cured_by_a_part (void)
{
  const HsChainFinding pump = { .id = "p", .what = "pump", .end_note = "new pump installed", .role = HS_CHAIN_CAUSE,
                                .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_CURED };
  g_autoptr (HsChain) chain = hs_chain_new ();
  g_autoptr (GPtrArray) sentences = NULL;

  hs_chain_put_finding (chain, &pump);
  hs_chain_set_work (chain, FALSE, FALSE);
  sentences = hs_chain_list_sentences (chain, NULL);
  g_assert_cmpstr (g_ptr_array_index (sentences, 0), ==,
                   "Found: pump; this was repaired on this visit: new pump installed; nothing has shown yet that it "
                   "holds.");
  g_assert_cmpint (hs_chain_get_cure (chain, &pump), ==, HS_CHAIN_CURE_UNTESTED);
}

static void
test_shapes (void)
{
  static const struct
  {
    const char *text;
    const char *sentences[5];
  } rows[] = {
    { "", { NULL } },
    { "seen a\nsaid b?", { NULL } },
    { "complaint a", { "The reason for “a” has not been found yet." } },
    { "complaint a+", { "“a” was put right on this visit." } },
    { "complaint a*", { "What to do about “a” was the customer's choice." } },
    { "complaint a^", { "“a” came from outside the vehicle, and the customer was told." } },
    { "complaint a0", { "The reason for “a” is not known, and the customer was told." } },
    { "cause a+", { "Found: a; this was put right on this visit." } },
    { "cause a?*", { "Suspected, not proven: a; what to do about it was the customer's choice." } },
    { "cause a~0", { "Not known: a; the customer was told." } },
    { "cause a0", { "Found: a; what is behind it is not known, and the customer was told." } },
    { "cause a^", { "Found: a; it came from outside the vehicle, and the customer was told." } },
    { "cause a?^", { "Suspected, not proven: a; if so, it came from outside the vehicle; the customer was told." } },
    { "cut a", { "Ruled out: a." } },
    { "cut a\ncut b\ncomplaint c\nc < b seen turns freely",
      { "The reason for “c” has not been found yet.", "Ruled out: b (seen: turns freely); a." } },
    /* Two causes of one complaint. */
    { "complaint a\ncause b+\ncause c?*\na < b reading 1 V\na < c seen loose",
      { "The reason for “a”: b (measured: 1 V); this was put right on this visit.",
        "Another likely reason for “a”, not proven: c (seen: loose); what to do about it was the customer's "
        "choice." } },
    /* After a side branch the effect is named again. */
    { "complaint a\ncause b\ncause c\ncause d\na < b reading 1\nb < c reading 2\nb < d reading 3",
      { "The reason for “a”: b (measured: 1).", "The reason for that: c (measured: 2).",
        "Another reason for “b”: d (measured: 3)." } },
    /* A cause that was ruled out is no first cause, and does not part the others. */
    { "complaint a\ncause b\ncut x\ncause c\na < b reading 1\nb < x reading 9\nb < c reading 2",
      { "The reason for “a”: b (measured: 1).", "The reason for that: c (measured: 2).",
        "Ruled out: x (measured: 9)." } },
    /* Two complaints, one cause. */
    { "complaint a\ncomplaint b\ncause c+\na < c reading 1\nb < c seen 2",
      { "The reason for “a”: c (measured: 1); this was put right on this visit.",
        "“c” is also a reason for “b” (seen: 2)." } },
    { "complaint a\ncomplaint b\ncause c?\na < c reading 1\nb < c seen 2",
      { "The likely reason for “a”, not proven: c (measured: 1).",
        "“c” is likely also a reason for “b”, which is not proven (seen: 2)." } },
    { "complaint a\ncomplaint b\ncause c~0\na < c reading 1\nb < c seen 2",
      { "The reason for “a” is not known: c (measured: 1); the customer was told.",
        "It is not known either whether “c” is a reason for “b” (seen: 2)." } },
    { "complaint a\ncomplaint b\nsaid c?\na < c said he did\nb < c said c",
      { "About “a” the customer says: “c” (said: he did); this is not proven.",
        "What the customer says, “c”, may also be a reason for “b”; this is not proven." } },
    /* What was measured is not told as mere words where only its link is. */
    { "complaint a\ncomplaint b\ncause c\nsaid d!\na < c reading 1\nb < c said x\nb < d said y",
      { "The reason for “a”: c (measured: 1).", "“c” is likely also a reason for “b”, which is not proven (said: x).",
        "Another likely reason for “b”, not proven: d (said: y)." } },
    /* It is not said twice that it was said. */
    { "complaint a\ncause d?\na < d said said at the gate",
      { "About “a” somebody says: “d” (said: at the gate); this is not proven." } },
    { "said a!\ncause b\na < b reading 1", { "Found: a.", "The reason for that: b (measured: 1)." } },
    { "said a?\ncause b\na < b reading 1",
      { "The customer says: “a”; this is not proven.", "The reason for that: b (measured: 1)." } },
    /* Each way of telling after a sentence, and as one more. */
    { "cause a\ncause b?\ncause c~\ncause d?\na < b photo x\nb < c seen x\nc < d said y",
      { "Found: a.", "The likely reason for that, not proven: b (photo: x).",
        "The reason for that is not known: c (seen: x).",
        "About that somebody says: “d” (said: y); this is not proven." } },
    { "complaint a\ncause b\ncause c~\ncause d?\na < b seen x\na < c seen x\na < d said y",
      { "The reason for “a”: b (seen: x).", "Another reason for “a” is not known: c (seen: x).",
        "About “a” somebody also says: “d” (said: y); this is not proven." } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_sentences (rows[i].text, rows[i].sentences);
}

/* The owner's words come as they are, on one line, without a second full stop, and are never taken for a pattern. */
static void
test_words (void)
{
  static const struct
  {
    const char *what;
    const char *sentence;
  } rows[] = {
    { "belt", "Found: belt." },
    { "belt.", "Found: belt." },
    { "belt ...", "Found: belt." },
    { " belt ;\n", "Found: belt." },
    { "belt\n\n  wet\tand  glazed", "Found: belt wet and glazed." },
    { "belt {cause} {effect} {", "Found: belt {cause} {effect} {." },
    { "12.30 V", "Found: 12.30 V." },
    { "Kühlmittel läuft über", "Found: Kühlmittel läuft über." },
    { "why?", "Found: why?." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = hs_chain_new ();
      HsChainFinding finding
          = { .id = "a", .what = rows[i].what, .role = HS_CHAIN_CAUSE, .sure = HS_CHAIN_PROVEN };
      g_autoptr (GPtrArray) sentences = NULL;

      hs_chain_put_finding (chain, &finding);
      sentences = hs_chain_list_sentences (chain, NULL);
      g_assert_cmpuint (sentences->len, ==, 1);
      g_assert_cmpstr (g_ptr_array_index (sentences, 0), ==, rows[i].sentence);
    }
}

/* Who said it, how it came about, and the note of an end. */
static void
test_details (void)
{
  static const struct
  {
    HsChainFinding cause;
    HsChainLink link;
    const char *sentence;
  } rows[] = {
    { { .what = "left on", .role = HS_CHAIN_CUSTOMER_SAID, .said_by = "Bram Hark." },
      { .proof = "Left on!", .by = HS_CHAIN_BY_WORD },
      "About “dead” Bram Hark says: “left on”; this is not proven." },
    { { .what = "left on", .role = HS_CHAIN_CUSTOMER_SAID, .said_by = " " },
      { .proof = "all weekend", .by = HS_CHAIN_BY_WORD },
      "About “dead” the customer says: “left on” (said: all weekend); this is not proven." },
    { { .what = "radio left on", .role = HS_CHAIN_CUSTOMER_SAID, .sure = HS_CHAIN_PROVEN },
      { .proof = "0.31 A gone with the radio off", .by = HS_CHAIN_BY_READING },
      "The reason for “dead”: radio left on (measured: 0.31 A gone with the radio off)." },
    { { .what = "radio left on", .role = HS_CHAIN_CUSTOMER_SAID, .said_by = "Bram Hark" },
      { .proof = "0.31 A", .by = HS_CHAIN_BY_READING },
      "The likely reason for “dead”, not proven: radio left on (measured: 0.31 A)." },
    { { .what = "pump", .role = HS_CHAIN_CAUSE, .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_CHOSEN,
        .end_note = "Belt only, Bram Hark." },
      { .proof = "wet", .how = "its seal weeps onto the belt", .by = HS_CHAIN_BY_EYE },
      "The reason for “dead”: pump, its seal weeps onto the belt (seen: wet); what to do about it was the customer's "
      "choice: Belt only, Bram Hark." },
    { { .what = "pump", .role = HS_CHAIN_CAUSE, .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_CURED,
        .end_note = "new pump" },
      { .proof = "wet", .by = HS_CHAIN_BY_PHOTO },
      "The reason for “dead”: pump (photo: wet); this was put right on this visit: new pump." },
    { { .what = "pump", .role = HS_CHAIN_CAUSE, .sure = HS_CHAIN_PROVEN }, { .proof = " . " },
      "The reason for “dead”: pump." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of ("complaint dead");
      HsChainFinding cause = rows[i].cause;
      HsChainLink link = rows[i].link;
      g_autoptr (GPtrArray) sentences = NULL;

      cause.id = link.cause_id = "c";
      link.effect_id = "dead";
      hs_chain_put_finding (chain, &cause);
      g_assert_true (hs_chain_put_link (chain, &link, NULL));
      sentences = hs_chain_list_sentences (chain, NULL);
      g_assert_cmpuint (sentences->len, ==, 1);
      g_assert_cmpstr (g_ptr_array_index (sentences, 0), ==, rows[i].sentence);
    }
}

/* Whatever the chain: what rests on words alone is told as somebody's words. */
static void
test_said_stays_said (void)
{
  static const char *const signs[] = { "", "?", "~", "+", "?*", "^", "?^", "~0", "0" };
  static const char *const roles[] = { "cause", "said", "seen" };

  for (gsize i = 0; i < G_N_ELEMENTS (signs) * G_N_ELEMENTS (roles); i++)
    {
      g_autofree char *text = g_strdup_printf ("complaint a\n%s b%s\na < b said y", roles[i % 3], signs[i / 3]);
      g_autoptr (HsChain) chain = chain_of (text);
      g_autoptr (GPtrArray) sentences = hs_chain_list_sentences (chain, NULL);
      const char *sentence = g_ptr_array_index (sentences, 0);

      g_assert_cmpuint (sentences->len, ==, 1);
      /* Only what is written down as the customer's is the customer's. */
      g_assert_nonnull (strstr (sentence, i % 3 == 1 ? "the customer says: “b”" : "somebody says: “b”"));
      g_assert_nonnull (strstr (sentence, "not proven"));
      g_assert_null (strstr (sentence, "; it came from outside"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-words/a-0013", test_a0013);
  g_test_add_func ("/chain-words/shapes", test_shapes);
  g_test_add_func ("/chain-words/cures", test_cures);
  g_test_add_func ("/chain-words/other-tongue", test_other_tongue);
  g_test_add_func ("/chain-words/cured-by-a-part", test_cured_by_a_part);
  g_test_add_func ("/chain-words/words", test_words);
  g_test_add_func ("/chain-words/details", test_details);
  g_test_add_func ("/chain-words/said-stays-said", test_said_stays_said);
  return g_test_run ();
}
