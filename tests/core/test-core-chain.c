// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The why-chain as a graph: what can be put into it, rings and their names, and random graphs held against an own
 * search for a way back. */

#include "chain-test.h"

static void
test_put (void)
{
  g_autoptr (HsChain) chain = chain_of (chain_a0013);

  g_assert_cmpuint (hs_chain_get_n_findings (chain), ==, 7);
  g_assert_cmpuint (hs_chain_get_n_links (chain), ==, 6);
  g_assert_cmpstr (hs_chain_get_finding (chain, 0)->what, ==, "battery lamp, slow crank");
  g_assert_cmpint (hs_chain_get_finding (chain, 0)->role, ==, HS_CHAIN_COMPLAINT);
  g_assert_cmpint (hs_chain_get_finding (chain, 0)->end, ==, HS_CHAIN_NO_END);
  g_assert_cmpint (hs_chain_find (chain, "belt")->end, ==, HS_CHAIN_CURED);
  g_assert_cmpint (hs_chain_find (chain, "water")->sure, ==, HS_CHAIN_SUSPECTED);
  g_assert_null (hs_chain_find (chain, "starter"));
  g_assert_null (hs_chain_find (chain, NULL));
  g_assert_cmpstr (hs_chain_get_link (chain, 0)->proof, ==, "11.95 V at rest, 9 %");
  g_assert_cmpint (hs_chain_get_link (chain, 3)->by, ==, HS_CHAIN_BY_PHOTO);
  g_assert_cmpstr (hs_chain_get_link (chain, 5)->cause_id, ==, "water");
}

static void
test_copies (void)
{
  char id[] = "a", what[] = "what", place[] = "trunk", who[] = "Bram Hark", note[] = "Belt only";
  HsChainFinding finding
      = { .id = id, .what = what, .place = place, .said_by = who, .end_note = note, .role = HS_CHAIN_SEEN };
  g_autoptr (HsChain) chain = hs_chain_new ();
  const HsChainFinding *kept;

  hs_chain_put_finding (chain, &finding);
  id[0] = what[0] = place[0] = who[0] = note[0] = 'X';
  kept = hs_chain_find (chain, "a");
  g_assert_nonnull (kept);
  g_assert_cmpstr (kept->what, ==, "what");
  g_assert_cmpstr (kept->place, ==, "trunk");
  g_assert_cmpstr (kept->said_by, ==, "Bram Hark");
  g_assert_cmpstr (kept->end_note, ==, "Belt only");
}

static void
test_holds (void)
{
  static const struct
  {
    const char *text;
    const char *id;
    gboolean holds;
    gboolean has_cause;
  } rows[] = {
    { "complaint a", "a", TRUE, FALSE },
    { "cause a", "a", TRUE, FALSE },
    { "cut a", "a", TRUE, FALSE },
    { "seen a", "a", FALSE, FALSE },
    { "said a?", "a", FALSE, FALSE },
    { "seen a\ncause b\na < b seen x", "a", TRUE, TRUE },
    { "seen a\ncause b\nb < a seen x", "a", TRUE, FALSE },
    { "said a?\ncause b\nb < a said x", "a", TRUE, FALSE },
    { "complaint a\ncut b\na < b reading x", "a", TRUE, FALSE },
    { "complaint a\ncut b\ncause c\na < b reading x\na < c reading x", "a", TRUE, TRUE },
    { "complaint a", "b", FALSE, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChain) chain = chain_of (rows[i].text);

      g_test_message ("%s: %s", rows[i].text, rows[i].id);
      g_assert_cmpint (hs_chain_holds (chain, rows[i].id), ==, rows[i].holds);
      g_assert_cmpint (hs_chain_has_cause (chain, rows[i].id), ==, rows[i].has_cause);
    }
}

/* The ring that one more link would close. */
static void
test_rings (void)
{
  static const char line[] = "cause flat = battery flat\ncause draw\ncause relay\ncause wet\n"
                             "flat < draw reading 0.31 A\ndraw < relay seen x\nrelay < wet photo x";
  static const struct
  {
    const char *effect;
    const char *cause;
    const char *ring;
  } rows[] = {
    { "draw", "flat", "draw ← battery flat ← draw" },
    { "relay", "flat", "relay ← battery flat ← draw ← relay" },
    { "wet", "flat", "wet ← battery flat ← draw ← relay ← wet" },
    { "wet", "draw", "wet ← draw ← relay ← wet" },
    { "flat", "flat", "battery flat ← battery flat" },
    { "wet", "wet", "wet ← wet" },
    { "flat", "relay", NULL },
    { "flat", "wet", NULL },
    { "draw", "wet", NULL },
    { "flat", "nobody", NULL },
    { "nobody", "flat", NULL },
  };
  g_autoptr (HsChain) chain = chain_of (line);

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *ring = hs_chain_dup_ring (chain, rows[i].effect, rows[i].cause);

      g_assert_cmpstr (ring, ==, rows[i].ring);
    }
}

/* The shortest way back is told, not the long one. */
static void
test_shortest_ring (void)
{
  g_autoptr (HsChain) chain = chain_of ("cause a\ncause b\ncause c\ncause d\n"
                                        "a < b seen x\nb < c seen x\nc < d seen x\na < d seen x");
  g_autofree char *ring = hs_chain_dup_ring (chain, "d", "a");

  g_assert_cmpstr (ring, ==, "d ← a ← d");
}

static void
test_put_refuses (void)
{
  static const struct
  {
    const char *effect;
    const char *cause;
    const char *words;
  } rows[] = {
    { "draw", "flat", "draw ← battery flat ← draw leads back to itself. Name another cause" },
    { "draw", "draw", "draw ← draw leads back to itself" },
    { "flat", "draw", "“draw” stands as a cause of “battery flat” already" },
    { "flat", "nobody", "joins two findings of one job" },
    { "nobody", "flat", "joins two findings of one job" },
    { NULL, "flat", "joins two findings of one job" },
  };
  g_autoptr (HsChain) chain = chain_of ("cause flat = battery flat\ncause draw\nflat < draw reading 0.31 A");
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsChainLink link = { .effect_id = rows[i].effect, .cause_id = rows[i].cause, .proof = "x" };

      assert_refused (hs_chain_put_link (chain, &link, &error), &error, HS_CORE_ERROR_REFUSED, rows[i].words);
      g_assert_cmpuint (hs_chain_get_n_links (chain), ==, 1);
    }
}

/* Own answer, by closing the relation step by step (Warshall): does a way lead from @cause down to @effect? */
static gboolean
leads_back (gboolean reach[][12], guint n, guint effect, guint cause)
{
  gboolean closed[12][12];

  memcpy (closed, reach, sizeof closed);
  for (guint k = 0; k < n; k++)
    for (guint i = 0; i < n; i++)
      for (guint j = 0; j < n; j++)
        closed[i][j] |= closed[i][k] && closed[k][j];
  return effect == cause || closed[cause][effect];
}

/* The ring that was named starts and ends with the same finding, and every step in it is a link but for the first. */
static void
assert_ring (const char *ring, gboolean reach[][12], guint effect, guint cause)
{
  g_auto (GStrv) steps = g_strsplit (ring, " ← ", -1);
  guint n_steps = g_strv_length (steps);

  g_assert_cmpuint ((guint) atoi (steps[0] + 1), ==, effect);
  g_assert_cmpuint ((guint) atoi (steps[1] + 1), ==, cause);
  g_assert_cmpstr (steps[0], ==, steps[n_steps - 1]);
  for (guint i = 1; i + 1 < n_steps; i++)
    g_assert_true (reach[atoi (steps[i] + 1)][atoi (steps[i + 1] + 1)]);
}

static guint
try_graph (GRand *rand)
{
  guint n = (guint) g_rand_int_range (rand, 2, 13);
  gboolean reach[12][12] = { { FALSE } };
  g_autoptr (HsChain) chain = hs_chain_new ();
  guint n_refused = 0;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("f%u", i);

      hs_chain_put_finding (chain, &(HsChainFinding){ .id = id, .what = id, .role = HS_CHAIN_CAUSE });
    }
  for (guint i = 0; i < 3 * n; i++)
    {
      guint effect = (guint) g_rand_int_range (rand, 0, (gint32) n);
      guint cause = (guint) g_rand_int_range (rand, 0, (gint32) n);
      g_autofree char *effect_id = g_strdup_printf ("f%u", effect);
      g_autofree char *cause_id = g_strdup_printf ("f%u", cause);
      g_autofree char *ring = hs_chain_dup_ring (chain, effect_id, cause_id);
      HsChainLink link = { .effect_id = effect_id, .cause_id = cause_id, .proof = "x" };
      gboolean back = leads_back (reach, n, effect, cause);

      g_assert_cmpint (ring != NULL, ==, back);
      g_assert_cmpint (hs_chain_put_link (chain, &link, NULL), ==, !back && !reach[effect][cause]);
      if (ring != NULL)
        assert_ring (ring, reach, effect, cause);
      n_refused += back;
      reach[effect][cause] |= !back;
    }
  return n_refused;
}

static void
test_random_graphs (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (13);
  guint n_refused = 0;

  for (guint i = 0; i < 2000; i++)
    n_refused += try_graph (rand);
  g_assert_cmpuint (n_refused, >, 5000);
}

/* Ten thousand links in a row, and one that would close them. */
static void
test_long (void)
{
  g_autoptr (HsChain) chain = hs_chain_new ();
  HsChainLink back = { .effect_id = "9999", .cause_id = "0", .proof = "x" };
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 10000; i++)
    {
      g_autofree char *id = g_strdup_printf ("%u", i);

      hs_chain_put_finding (chain, &(HsChainFinding){ .id = id, .what = id, .role = HS_CHAIN_CAUSE });
    }
  for (guint i = 9999; i-- > 0;)
    {
      g_autofree char *effect = g_strdup_printf ("%u", i);
      g_autofree char *cause = g_strdup_printf ("%u", i + 1);

      g_assert_true (hs_chain_put_link (
        chain, &(HsChainLink){ .effect_id = effect, .cause_id = cause, .proof = "x" }, NULL));
    }
  assert_refused (hs_chain_put_link (chain, &back, &error), &error, HS_CORE_ERROR_REFUSED, "leads back to itself");
  hs_chain_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain/put", test_put);
  g_test_add_func ("/chain/copies", test_copies);
  g_test_add_func ("/chain/holds", test_holds);
  g_test_add_func ("/chain/rings", test_rings);
  g_test_add_func ("/chain/shortest-ring", test_shortest_ring);
  g_test_add_func ("/chain/put-refuses", test_put_refuses);
  g_test_add_func ("/chain/random-graphs", test_random_graphs);
  g_test_add_func ("/chain/long", test_long);
  return g_test_run ();
}
