// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The why-chain as rows: order, levels, columns and the wires that pass; then random graphs, held against what the rows
 * promise. */

#include "chain-test.h"

static const HsChainRow *
row_at (const GArray *rows, int nth)
{
  return &g_array_index (rows, HsChainRow, nth);
}

/* "2 flat 1.1/2 c0": number, id, level, place among siblings, column; "<1" where the wire comes from another column,
 * "|0" for each wire that passes, "=" a reference, "x" ruled out. */
static char *
row_text (const HsChain *chain, const HsChainRow *row)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (row->kind != HS_CHAIN_NODE)
    g_string_append_c (text, row->kind == HS_CHAIN_CUT ? 'x' : '=');
  if (row->number > 0)
    g_string_append_printf (text, "%u ", row->number);
  g_string_append_printf (text, "%s %u.%u/%u c%u", hs_chain_get_finding (chain, row->finding)->id, row->level,
                          row->position, row->n_siblings, row->column);
  if (row->from_column != row->column)
    g_string_append_printf (text, "<%u", row->from_column);
  for (guint column = 0; column < HS_CHAIN_MOST_COLUMNS; column++)
    if (row->wires >> column & 1)
      g_string_append_printf (text, "|%u", column);
  return g_strdup (text->str);
}

static void
test_rows (void)
{
  static const struct
  {
    const char *text;
    const char *rows[8];
  } cases[] = {
    { "", { NULL } },
    { "seen a\nsaid b?", { NULL } },
    { "complaint a", { "a 1.1/1 c0" } },
    { "cause a", { "1 a 1.1/1 c0" } },
    { "cut a", { "xa 1.1/1 c0" } },
    /* Straight down. */
    { "complaint a\ncause b\ncause c\na < b seen x\nb < c seen x",
      { "a 1.1/1 c0", "1 b 2.1/1 c0", "2 c 3.1/1 c0" } },
    /* Two causes: the first aside, the wire of the second passes. */
    { "complaint a\ncause b\ncause c\na < b seen x\na < c seen x",
      { "a 1.1/1 c0", "1 b 2.1/2 c1<0|0", "2 c 2.2/2 c0" } },
    /* What is behind the first stands under it before the second comes. */
    { "complaint a\ncause b\ncause c\ncause d\na < b seen x\na < c seen x\nb < d seen x",
      { "a 1.1/1 c0", "1 b 2.1/2 c1<0|0", "2 d 3.1/1 c1|0", "3 c 2.2/2 c0" } },
    /* Three causes, the first with two of its own. */
    { "complaint a\ncause b\ncause c\ncause d\ncause e\ncause f\n"
      "a < b seen x\na < c seen x\na < d seen x\nb < e seen x\nb < f seen x",
      { "a 1.1/1 c0", "1 b 2.1/3 c1<0|0", "2 e 3.1/2 c2<1|0|1", "3 f 3.2/2 c1|0", "4 c 2.2/3 c1<0|0",
        "5 d 2.3/3 c0" } },
    /* One cause of two complaints: under the first, referred to under the second. */
    { "complaint a\ncomplaint b\ncause c\ncause d\na < c seen x\nb < c seen x\nc < d seen x",
      { "a 1.1/2 c0", "1 c 2.1/1 c0", "2 d 3.1/1 c0", "b 1.2/2 c0", "=1 c 2.1/1 c0" } },
    /* A short cut: the node stands where it is read first, which is further down. */
    { "complaint a\ncause b\ncause c\na < b seen x\nb < c seen x\na < c seen x",
      { "a 1.1/1 c0", "1 b 2.1/2 c1<0|0", "2 c 3.1/1 c1|0", "=2 c 2.2/2 c0" } },
    /* Ruled out: under its effect before all causes, however late it was linked. */
    { "complaint a\ncause b\ncut c\na < b seen x\na < c reading x",
      { "a 1.1/1 c0", "xc 2.1/2 c1<0|0", "1 b 2.2/2 c0" } },
    { "complaint a\ncut c\na < c reading x", { "a 1.1/1 c0", "xc 2.1/1 c1<0" } },
    { "complaint a\ncomplaint b\ncut c\na < c reading x\nb < c reading x",
      { "a 1.1/2 c0", "xc 2.1/1 c1<0", "b 1.2/2 c0", "=c 2.1/1 c1<0" } },
    /* Complaints on top, then what stands alone, then what was ruled out alone. */
    { "cut x\ncause c\ncomplaint a\nseen s\ncause d\ns < d seen x",
      { "a 1.1/4 c0", "1 c 1.2/4 c0", "2 s 1.3/4 c0", "3 d 2.1/1 c0", "xx 1.4/4 c0" } },
    { chain_a0013,
      { "lamp 1.1/1 c0", "1 flat 2.1/1 c0", "2 under 3.1/1 c0", "xalternator 4.1/2 c1<0|0", "3 belt 4.2/2 c0",
        "4 pump 5.1/1 c0", "5 water 6.1/1 c0" } },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HsChain) chain = chain_of (cases[i].text);
      g_autoptr (GArray) rows = hs_chain_lay_out (chain);
      guint n = 0;

      g_test_message ("%s", cases[i].text);
      for (; n < rows->len && n < G_N_ELEMENTS (cases[i].rows); n++)
        {
          g_autofree char *text = row_text (chain, row_at (rows, (int) n));

          g_assert_cmpstr (text, ==, cases[i].rows[n]);
        }
      g_assert_cmpuint (n, ==, rows->len);
      g_assert_true (n == G_N_ELEMENTS (cases[i].rows) || cases[i].rows[n] == NULL);
    }
}

/* A row's link joins its finding to that of the row above it. */
static void
test_links (void)
{
  g_autoptr (HsChain) chain = chain_of (chain_a0013);
  g_autoptr (GArray) rows = hs_chain_lay_out (chain);

  for (int i = 0; i < (int) rows->len; i++)
    {
      const HsChainRow *row = row_at (rows, i);
      const HsChainLink *link;

      if (row->link < 0)
        {
          g_assert_cmpint (row->parent, ==, -1);
          continue;
        }
      link = hs_chain_get_link (chain, (guint) row->link);
      g_assert_cmpstr (link->cause_id, ==, hs_chain_get_finding (chain, row->finding)->id);
      g_assert_cmpstr (link->effect_id, ==,
                       hs_chain_get_finding (chain, row_at (rows, row->parent)->finding)->id);
    }
}

/* Each row under its parent, in its parent's block; each wire that a row needs passes every row between. */
static void
assert_row (const GArray *rows, int nth)
{
  const HsChainRow *row = row_at (rows, nth);
  const HsChainRow *parent = row->parent < 0 ? NULL : row_at (rows, row->parent);

  g_assert_cmpint (row->parent, <, nth);
  g_assert_cmpuint (row->level, ==, parent == NULL ? 1 : parent->level + 1);
  g_assert_cmpuint (row->position, >=, 1);
  g_assert_cmpuint (row->position, <=, row->n_siblings);
  g_assert_cmpuint (row->from_column, ==, parent == NULL ? row->column : parent->column);
  for (int i = row->parent + 1; parent != NULL && i < nth; i++)
    {
      g_assert_cmpuint (row_at (rows, i)->level, >, parent->level);
      g_assert_true (row_at (rows, i)->wires >> row->from_column & 1);
      g_assert_cmpuint (row_at (rows, i)->column, !=, row->from_column);
    }
}

/* Every link is one row, every finding one row that is no reference, siblings count up. */
static void
assert_layout (const HsChain *chain)
{
  g_autoptr (GArray) rows = hs_chain_lay_out (chain);
  guint n_findings = hs_chain_get_n_findings (chain);
  g_autofree guint *seen = g_new0 (guint, n_findings);
  g_autofree guint *linked = g_new0 (guint, hs_chain_get_n_links (chain) + 1);
  guint number = 0;

  for (int i = 0; i < (int) rows->len; i++)
    {
      const HsChainRow *row = row_at (rows, i);

      assert_row (rows, i);
      seen[row->finding] += row->kind != HS_CHAIN_REFERENCE;
      if (row->link >= 0)
        linked[row->link]++;
      if (row->kind == HS_CHAIN_NODE && row->number > 0)
        g_assert_cmpuint (row->number, ==, ++number);
      if (row->kind == HS_CHAIN_REFERENCE)
        g_assert_cmpuint (row->number, <=, number);
    }
  for (guint i = 0; i < n_findings; i++)
    g_assert_cmpuint (seen[i], ==, hs_chain_holds (chain, hs_chain_get_finding (chain, i)->id));
  for (guint i = 0; i < hs_chain_get_n_links (chain); i++)
    g_assert_cmpuint (linked[i], ==, 1);
}

static HsChain *
random_chain (GRand *rand)
{
  HsChain *chain = hs_chain_new ();
  guint n = (guint) g_rand_int_range (rand, 1, 14);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("f%u", i);
      HsChainRole role = (HsChainRole) g_rand_int_range (rand, 0, 5);

      hs_chain_put_finding (chain, &(HsChainFinding){ .id = id, .what = id, .role = role });
    }
  for (guint i = 0; i < 2 * n; i++)
    {
      const HsChainFinding *effect = hs_chain_get_finding (chain, (guint) g_rand_int_range (rand, 0, (gint32) n));
      const HsChainFinding *cause = hs_chain_get_finding (chain, (guint) g_rand_int_range (rand, 0, (gint32) n));
      HsChainLink link = { .effect_id = effect->id, .cause_id = cause->id, .proof = "x",
                           .by = (HsChainProof) g_rand_int_range (rand, 0, 3) };

      if (effect->role != HS_CHAIN_RULED_OUT && cause->role != HS_CHAIN_COMPLAINT)
        hs_chain_put_link (chain, &link, NULL);
    }
  return chain;
}

/* Also: no more sentences than links, findings alone, and one for what was ruled out. */
static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  guint n_links = 0;

  for (guint i = 0; i < 3000; i++)
    {
      g_autoptr (HsChain) chain = random_chain (rand);
      g_autoptr (GPtrArray) sentences = hs_chain_list_sentences (chain, NULL);
      guint most = hs_chain_get_n_links (chain) + hs_chain_get_n_findings (chain) + 1;

      assert_layout (chain);
      g_assert_cmpuint (sentences->len, <=, most);
      n_links += hs_chain_get_n_links (chain);
    }
  g_assert_cmpuint (n_links, >, 10000);
}

/* Deeper than there are columns: each effect has an end beside what goes on, so every level branches. */
static void
test_deep (void)
{
  g_autoptr (HsChain) chain = hs_chain_new ();
  g_autoptr (GArray) rows = NULL;

  hs_chain_put_finding (chain, &(HsChainFinding){ .id = "0", .what = "x", .role = HS_CHAIN_COMPLAINT });
  for (guint i = 0; i < 200; i++)
    {
      g_autofree char *effect = g_strdup_printf ("%u", i);
      g_autofree char *cause = g_strdup_printf ("%u", i + 1);
      g_autofree char *beside = g_strdup_printf ("e%u", i);

      hs_chain_put_finding (chain, &(HsChainFinding){ .id = cause, .what = "x", .role = HS_CHAIN_CAUSE });
      hs_chain_put_finding (chain, &(HsChainFinding){ .id = beside, .what = "x", .role = HS_CHAIN_CAUSE });
      hs_chain_put_link (chain, &(HsChainLink){ .effect_id = effect, .cause_id = cause, .proof = "x" }, NULL);
      hs_chain_put_link (chain, &(HsChainLink){ .effect_id = effect, .cause_id = beside, .proof = "x" }, NULL);
    }
  rows = hs_chain_lay_out (chain);
  g_assert_cmpuint (rows->len, ==, 401);
  for (int i = 0; i < 401; i++)
    g_assert_cmpuint (row_at (rows, i)->column, <, HS_CHAIN_MOST_COLUMNS);
  g_assert_cmpuint (row_at (rows, 200)->level, ==, 201);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-layout/rows", test_rows);
  g_test_add_func ("/chain-layout/links", test_links);
  g_test_add_func ("/chain-layout/random", test_random);
  g_test_add_func ("/chain-layout/deep", test_deep);
  return g_test_run ();
}
