// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The inside of a why-chain, for the files that ask it. */

#include "hs-chain.h"

G_BEGIN_DECLS

/* A finding and its links, as places in the chain's list of links. */
typedef struct
{
  HsChainFinding finding;
  GArray *causes;  /* of int: links in which it is the effect */
  GArray *effects; /* of int: links in which it is the cause */
} HsChainNode;

typedef struct
{
  HsChainLink link;
  guint effect;
  guint cause;
} HsChainEdge;

struct _HsChain
{
  GPtrArray *nodes; /* of HsChainNode */
  GPtrArray *edges; /* of HsChainEdge */
  GHashTable *by_id;
  gboolean done;
  gboolean shown;
};

const HsChainNode *hs_chain_node (const HsChain *chain, guint nth);
const HsChainEdge *hs_chain_edge (const HsChain *chain, guint nth);

/* hs_chain_index: place of a finding in the list, or −1. */
int hs_chain_index (const HsChain *chain, const char *id);

/* hs_chain_check_shape: the link joins two findings of the chain, not twice, and closes no ring. */
gboolean hs_chain_check_shape (const HsChain *chain, const HsChainLink *link, GError **error);

/* hs_chain_node_has_cause: like hs_chain_has_cause(). */
gboolean hs_chain_node_has_cause (const HsChain *chain, const HsChainNode *node);

/* hs_chain_node_is_shown: a reading, a photo or the owner's own eyes show it: by itself, or as the cause of a link. */
gboolean hs_chain_node_is_shown (const HsChain *chain, const HsChainNode *node);

/* hs_chain_node_holds: like hs_chain_holds(). */
gboolean hs_chain_node_holds (const HsChainNode *node);

G_END_DECLS
