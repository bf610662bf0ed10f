// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Findings and the links between them, as a graph without rings. For whatever tells, draws or checks why something
 * failed. Refuses a link that would close a ring, naming the ring. */

#include "hs-chain-private.h"

#include "hs-core-error.h"
#include "hs-text.h"

static void
node_free (HsChainNode *node)
{
  g_free ((char *) node->finding.id);
  g_free ((char *) node->finding.what);
  g_free ((char *) node->finding.place);
  g_free ((char *) node->finding.said_by);
  g_free ((char *) node->finding.end_note);
  g_array_unref (node->causes);
  g_array_unref (node->effects);
  g_free (node);
}

static void
edge_free (HsChainEdge *edge)
{
  g_free ((char *) edge->link.id);
  g_free ((char *) edge->link.effect_id);
  g_free ((char *) edge->link.cause_id);
  g_free ((char *) edge->link.how);
  g_free ((char *) edge->link.proof);
  g_free (edge);
}

HsChain *
hs_chain_new (void)
{
  HsChain *chain = g_new0 (HsChain, 1);

  chain->nodes = g_ptr_array_new_with_free_func ((GDestroyNotify) node_free);
  chain->edges = g_ptr_array_new_with_free_func ((GDestroyNotify) edge_free);
  chain->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  chain->done = chain->shown = TRUE;
  return chain;
}

void
hs_chain_set_work (HsChain *chain, gboolean done, gboolean shown)
{
  chain->done = done;
  chain->shown = shown;
}

HsChainCure
hs_chain_get_cure (const HsChain *chain, const HsChainFinding *finding)
{
  gboolean done = chain->done || !hs_text_is_blank (finding->end_note);

  if (done)
    return chain->shown ? HS_CHAIN_CURE_SHOWN : HS_CHAIN_CURE_UNTESTED;
  return chain->shown ? HS_CHAIN_CURE_UNSAID : HS_CHAIN_CURE_MEANT;
}

void
hs_chain_free (HsChain *chain)
{
  if (chain == NULL)
    return;
  g_hash_table_unref (chain->by_id);
  g_ptr_array_unref (chain->edges);
  g_ptr_array_unref (chain->nodes);
  g_free (chain);
}

const HsChainNode *
hs_chain_node (const HsChain *chain, guint nth)
{
  return g_ptr_array_index (chain->nodes, nth);
}

const HsChainEdge *
hs_chain_edge (const HsChain *chain, guint nth)
{
  return g_ptr_array_index (chain->edges, nth);
}

int
hs_chain_index (const HsChain *chain, const char *id)
{
  gpointer place;

  if (id == NULL || !g_hash_table_lookup_extended (chain->by_id, id, NULL, &place))
    return -1;
  return GPOINTER_TO_INT (place);
}

void
hs_chain_put_finding (HsChain *chain, const HsChainFinding *finding)
{
  HsChainNode *node;

  g_return_if_fail (finding->id != NULL && finding->what != NULL && hs_chain_index (chain, finding->id) < 0);
  node = g_new0 (HsChainNode, 1);
  node->finding = *finding;
  node->finding.id = g_strdup (finding->id);
  node->finding.what = g_strdup (finding->what);
  node->finding.place = g_strdup (finding->place);
  node->finding.said_by = g_strdup (finding->said_by);
  node->finding.end_note = g_strdup (finding->end_note);
  node->causes = g_array_new (FALSE, FALSE, sizeof (int));
  node->effects = g_array_new (FALSE, FALSE, sizeof (int));
  g_hash_table_insert (chain->by_id, (char *) node->finding.id, GINT_TO_POINTER ((int) chain->nodes->len));
  g_ptr_array_add (chain->nodes, node);
}

/* Fills @before[n] with the place from which n was reached, going from @start to its causes; -1 where it was not. */
static void
walk_up (const HsChain *chain, int start, int *before)
{
  g_autoptr (GArray) queue = g_array_new (FALSE, FALSE, sizeof (int));

  for (guint i = 0; i < chain->nodes->len; i++)
    before[i] = -1;
  before[start] = start;
  g_array_append_val (queue, start);
  for (guint i = 0; i < queue->len; i++)
    {
      int here = g_array_index (queue, int, i);
      const HsChainNode *node = hs_chain_node (chain, (guint) here);

      for (guint k = 0; k < node->causes->len; k++)
        {
          int next = (int) hs_chain_edge (chain, (guint) g_array_index (node->causes, int, k))->cause;

          if (before[next] >= 0)
            continue;
          before[next] = here;
          g_array_append_val (queue, next);
        }
    }
}

char *
hs_chain_dup_ring (const HsChain *chain, const char *effect_id, const char *cause_id)
{
  int effect = hs_chain_index (chain, effect_id);
  int cause = hs_chain_index (chain, cause_id);
  g_autofree int *before = g_new (int, chain->nodes->len + 1);
  g_autoptr (GString) ring = NULL;

  if (effect < 0 || cause < 0)
    return NULL;
  walk_up (chain, cause, before);
  if (before[effect] < 0)
    return NULL;
  ring = g_string_new (hs_chain_node (chain, (guint) effect)->finding.what);
  for (int at = effect; at != cause; at = before[at])
    {
      g_string_prepend (ring, " ← ");
      g_string_prepend (ring, hs_chain_node (chain, (guint) before[at])->finding.what);
    }
  g_string_prepend (ring, " ← ");
  g_string_prepend (ring, hs_chain_node (chain, (guint) effect)->finding.what);
  return g_strdup (ring->str);
}

static gboolean
is_linked (const HsChain *chain, int effect, int cause)
{
  const GArray *causes = hs_chain_node (chain, (guint) effect)->causes;

  for (guint i = 0; i < causes->len; i++)
    if ((int) hs_chain_edge (chain, (guint) g_array_index (causes, int, i))->cause == cause)
      return TRUE;
  return FALSE;
}

gboolean
hs_chain_check_shape (const HsChain *chain, const HsChainLink *link, GError **error)
{
  const HsChainFinding *effect = hs_chain_find (chain, link->effect_id);
  const HsChainFinding *cause = hs_chain_find (chain, link->cause_id);
  g_autofree char *ring = NULL;

  if (effect == NULL || cause == NULL)
    return hs_core_refuse (error, "A link joins two findings of one job. Write the finding down first.");
  if (is_linked (chain, hs_chain_index (chain, effect->id), hs_chain_index (chain, cause->id)))
    return hs_core_refuse (error, "“%s” stands as a cause of “%s” already.", cause->what, effect->what);
  ring = hs_chain_dup_ring (chain, link->effect_id, link->cause_id);
  if (ring != NULL)
    return hs_core_refuse (error, "%s leads back to itself. Name another cause, or take one of these links away first.",
                           ring);
  return TRUE;
}

gboolean
hs_chain_put_link (HsChain *chain, const HsChainLink *link, GError **error)
{
  int place = (int) chain->edges->len;
  HsChainEdge *edge;

  if (!hs_chain_check_shape (chain, link, error))
    return FALSE;
  edge = g_new0 (HsChainEdge, 1);
  edge->link = *link;
  edge->link.id = g_strdup (link->id);
  edge->link.effect_id = g_strdup (link->effect_id);
  edge->link.cause_id = g_strdup (link->cause_id);
  edge->link.how = g_strdup (link->how);
  edge->link.proof = g_strdup (link->proof);
  edge->effect = (guint) hs_chain_index (chain, link->effect_id);
  edge->cause = (guint) hs_chain_index (chain, link->cause_id);
  g_array_append_val (hs_chain_node (chain, edge->effect)->causes, place);
  g_array_append_val (hs_chain_node (chain, edge->cause)->effects, place);
  g_ptr_array_add (chain->edges, edge);
  return TRUE;
}

guint
hs_chain_get_n_findings (const HsChain *chain)
{
  return chain->nodes->len;
}

const HsChainFinding *
hs_chain_get_finding (const HsChain *chain, guint nth)
{
  g_return_val_if_fail (nth < chain->nodes->len, NULL);
  return &hs_chain_node (chain, nth)->finding;
}

const HsChainFinding *
hs_chain_find (const HsChain *chain, const char *id)
{
  int place = hs_chain_index (chain, id);

  return place < 0 ? NULL : &hs_chain_node (chain, (guint) place)->finding;
}

guint
hs_chain_get_n_links (const HsChain *chain)
{
  return chain->edges->len;
}

const HsChainLink *
hs_chain_get_link (const HsChain *chain, guint nth)
{
  g_return_val_if_fail (nth < chain->edges->len, NULL);
  return &hs_chain_edge (chain, nth)->link;
}

gboolean
hs_chain_node_has_cause (const HsChain *chain, const HsChainNode *node)
{
  for (guint i = 0; i < node->causes->len; i++)
    {
      const HsChainEdge *edge = hs_chain_edge (chain, (guint) g_array_index (node->causes, int, i));

      if (hs_chain_node (chain, edge->cause)->finding.role != HS_CHAIN_RULED_OUT)
        return TRUE;
    }
  return FALSE;
}

gboolean
hs_chain_has_cause (const HsChain *chain, const char *id)
{
  int place = hs_chain_index (chain, id);

  return place >= 0 && hs_chain_node_has_cause (chain, hs_chain_node (chain, (guint) place));
}

gboolean
hs_chain_node_holds (const HsChainNode *node)
{
  if (node->finding.role != HS_CHAIN_SEEN && node->finding.role != HS_CHAIN_CUSTOMER_SAID)
    return TRUE;
  return node->causes->len > 0 || node->effects->len > 0;
}

gboolean
hs_chain_holds (const HsChain *chain, const char *id)
{
  int place = hs_chain_index (chain, id);

  return place >= 0 && hs_chain_node_holds (hs_chain_node (chain, (guint) place));
}
