// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The rules of a why-chain: what may be linked, what may be called proven, and when it is settled. Asked before
 * anything is written. Refuses with a sentence that names the finding and says what to do. */

#include "hs-chain-private.h"

#include "hs-core-error.h"
#include "hs-text.h"

/* The four ways to settle an end, for sentences. */
#define FOUR_WAYS "cured today, the customer's choice, an outside influence and told, or not known and told"

/* What a finding rests on, from weak to strong. */
typedef enum
{
  BY_NOTHING,
  BY_WORDS,
  BY_EYE,
  BY_METER,
} Ground;

/* In the order of HsChainProof. */
static const Ground grounds[] = { BY_METER, BY_METER, BY_EYE, BY_WORDS };

/* The best of its own proof and of its links to effects, without the link @but. */
static Ground
ground_of (const HsChain *chain, const HsChainNode *node, const char *but)
{
  Ground best = node->finding.has_proof ? BY_METER : BY_NOTHING;

  for (guint i = 0; i < node->effects->len; i++)
    {
      const HsChainLink *link = &hs_chain_edge (chain, (guint) g_array_index (node->effects, int, i))->link;

      if (but == NULL || g_strcmp0 (link->id, but) != 0)
        best = MAX (best, grounds[link->by]);
    }
  return best;
}

gboolean
hs_chain_node_is_shown (const HsChain *chain, const HsChainNode *node)
{
  return ground_of (chain, node, NULL) > BY_WORDS;
}

/* What the customer said takes a reading or a photo, what was seen takes nothing more, and all else must not rest on
 * words alone. */
static gboolean
is_enough (const HsChainFinding *finding, Ground ground)
{
  if (finding->role == HS_CHAIN_CUSTOMER_SAID)
    return ground == BY_METER;
  return finding->role == HS_CHAIN_SEEN || ground != BY_WORDS;
}

gboolean
hs_chain_check_finding (const HsChainFinding *finding, GError **error)
{
  if (hs_text_is_blank (finding->what))
    return hs_core_refuse (error, "A finding needs words: say what it is.");
  if (finding->role == HS_CHAIN_CUSTOMER_SAID && finding->sure == HS_CHAIN_PROVEN && !finding->has_proof)
    return hs_core_refuse (error, "“%s” was only said. It is proven once a reading or a photo shows it.",
                           finding->what);
  if (finding->role == HS_CHAIN_RULED_OUT && finding->end != HS_CHAIN_NO_END)
    return hs_core_refuse (error, "“%s” is ruled out, so the chain does not end there.", finding->what);
  return TRUE;
}

/* What may stand on either side of a link. */
static gboolean
check_sides (const HsChain *chain, const HsChainLink *link, GError **error)
{
  const HsChainFinding *effect = hs_chain_find (chain, link->effect_id);
  const HsChainFinding *cause = hs_chain_find (chain, link->cause_id);

  if (effect->role == HS_CHAIN_RULED_OUT)
    return hs_core_refuse (error, "“%s” is ruled out: nothing has to explain it.", effect->what);
  if (cause->role == HS_CHAIN_COMPLAINT)
    return hs_core_refuse (error, "“%s” is a complaint: look for what is behind it.", cause->what);
  if (effect->end == HS_CHAIN_NOT_KNOWN_TOLD && cause->role != HS_CHAIN_RULED_OUT)
    return hs_core_refuse (error, "“%s” stands as not known. Open that end first, then say what is behind it.",
                           effect->what);
  return TRUE;
}

static gboolean
check_proof (const HsChain *chain, const HsChainLink *link, GError **error)
{
  const HsChainNode *cause = hs_chain_node (chain, (guint) hs_chain_index (chain, link->cause_id));
  const char *what = cause->finding.what;
  Ground ground = MAX (ground_of (chain, cause, NULL), grounds[link->by]);

  if (hs_text_is_blank (link->proof))
    return hs_core_refuse (error, "%s ← %s needs a proof: a reading, a photo, what you saw, or what was said.",
                           hs_chain_find (chain, link->effect_id)->what, what);
  if (cause->finding.role == HS_CHAIN_RULED_OUT && link->by == HS_CHAIN_BY_WORD)
    return hs_core_refuse (error, "Words alone rule nothing out: “%s” needs a reading, a photo or your own eyes.",
                           what);
  if (cause->finding.sure == HS_CHAIN_PROVEN && !is_enough (&cause->finding, ground))
    return hs_core_refuse (error, "“%s” is called proven: show it by a reading or a photo, or call it suspected "
                           "first.", what);
  return TRUE;
}

gboolean
hs_chain_check_link (const HsChain *chain, const HsChainLink *link, GError **error)
{
  return hs_chain_check_shape (chain, link, error) && check_sides (chain, link, error)
         && check_proof (chain, link, error);
}

gboolean
hs_chain_check_unlink (const HsChain *chain, const char *link_id, GError **error)
{
  for (guint i = 0; i < chain->edges->len; i++)
    {
      const HsChainEdge *edge = hs_chain_edge (chain, i);
      const HsChainNode *node = hs_chain_node (chain, edge->cause);

      if (g_strcmp0 (edge->link.id, link_id) != 0)
        continue;
      if (node->finding.sure != HS_CHAIN_PROVEN || is_enough (&node->finding, ground_of (chain, node, link_id)))
        return TRUE;
      return hs_core_refuse (error, "“%s” is called proven by this link. Call it suspected first.",
                             node->finding.what);
    }
  return hs_core_refuse (error, "There is no such link in this chain.");
}

gboolean
hs_chain_check_end (const HsChain *chain, const char *id, HsChainEnd end, GError **error)
{
  const HsChainFinding *finding = hs_chain_find (chain, id);

  if (finding == NULL)
    return hs_core_refuse (error, "There is no such finding in this chain.");
  if (end == HS_CHAIN_NO_END)
    return TRUE;
  if (finding->role == HS_CHAIN_RULED_OUT)
    return hs_core_refuse (error, "“%s” is ruled out, so the chain does not end there.", finding->what);
  if (!hs_chain_has_cause (chain, id))
    return TRUE;
  if (finding->role == HS_CHAIN_COMPLAINT)
    return hs_core_refuse (error, "“%s” has causes: settle the chain at those.", finding->what);
  if (end == HS_CHAIN_NOT_KNOWN_TOLD)
    return hs_core_refuse (error, "What is behind “%s” is written down. Take that link away if it is not known.",
                           finding->what);
  return TRUE;
}

gboolean
hs_chain_check_sure (const HsChain *chain, const char *id, HsChainSure sure, GError **error)
{
  int place = hs_chain_index (chain, id);
  const HsChainNode *node;

  if (place < 0)
    return hs_core_refuse (error, "There is no such finding in this chain.");
  node = hs_chain_node (chain, (guint) place);
  if (sure != HS_CHAIN_PROVEN || is_enough (&node->finding, ground_of (chain, node, NULL)))
    return TRUE;
  return hs_core_refuse (error, "“%s” was only said. It is proven once a reading or a photo shows it.",
                         node->finding.what);
}

static void
tip_free (HsChainTip *tip)
{
  g_free (tip->missing);
  g_free (tip);
}

static gboolean
is_tip (const HsChain *chain, const HsChainNode *node)
{
  const HsChainFinding *finding = &node->finding;

  if (finding->role == HS_CHAIN_RULED_OUT || !hs_chain_node_holds (node))
    return FALSE;
  return !hs_chain_node_has_cause (chain, node)
         || (finding->end != HS_CHAIN_NO_END && finding->role != HS_CHAIN_COMPLAINT);
}

static char *
say_missing (const HsChainFinding *finding)
{
  if (finding->end != HS_CHAIN_NO_END)
    return NULL;
  if (finding->role == HS_CHAIN_COMPLAINT)
    return g_strdup_printf ("“%s” has no cause yet. Say what is behind it, or settle it: " FOUR_WAYS ".",
                            finding->what);
  return g_strdup_printf ("“%s” is an open end. Say what is behind it, or settle it: " FOUR_WAYS ".", finding->what);
}

GPtrArray *
hs_chain_list_tips (const HsChain *chain)
{
  GPtrArray *tips = g_ptr_array_new_with_free_func ((GDestroyNotify) tip_free);

  for (guint i = 0; i < chain->nodes->len; i++)
    {
      const HsChainNode *node = hs_chain_node (chain, i);
      HsChainTip *tip;

      if (!is_tip (chain, node))
        continue;
      tip = g_new0 (HsChainTip, 1);
      tip->finding = i;
      tip->end = node->finding.end;
      tip->missing = say_missing (&node->finding);
      g_ptr_array_add (tips, tip);
    }
  return tips;
}

/* "“battery”, “draw” and “strap”", and how many they are. */
static char *
list_open (const HsChain *chain, guint *ret_n_open)
{
  g_autoptr (GPtrArray) tips = hs_chain_list_tips (chain);
  GString *text = g_string_new (NULL);
  guint n_open = 0;
  guint n_left;

  for (guint i = 0; i < tips->len; i++)
    n_open += ((HsChainTip *) g_ptr_array_index (tips, i))->missing != NULL;
  n_left = n_open;
  for (guint i = 0; i < tips->len; i++)
    {
      const HsChainTip *tip = g_ptr_array_index (tips, i);

      if (tip->missing == NULL)
        continue;
      if (n_left < n_open)
        g_string_append (text, n_left == 1 ? " and " : ", ");
      g_string_append_printf (text, "“%s”", hs_chain_node (chain, tip->finding)->finding.what);
      n_left--;
    }
  *ret_n_open = n_open;
  return g_string_free (text, FALSE);
}

guint
hs_chain_count_open (const HsChain *chain)
{
  guint n_open;
  g_autofree char *open = list_open (chain, &n_open);

  return n_open;
}

gboolean
hs_chain_check_settled (const HsChain *chain, GError **error)
{
  guint n_open;
  g_autofree char *open = list_open (chain, &n_open);

  if (n_open == 0)
    return TRUE;
  return hs_core_refuse (error, n_open == 1 ? "Why it failed is still open at %s. Say what is behind it, or settle it: "
                                              FOUR_WAYS "."
                                            : "Why it failed is still open at %s. Say of each what is behind it, or "
                                              "settle it: " FOUR_WAYS ".",
                         open);
}
