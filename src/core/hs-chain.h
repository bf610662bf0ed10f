// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

#include "hs-tongue.h"

G_BEGIN_DECLS

/*
 * Why it failed, as a graph: findings, and links that say which finding is the cause of which. The complaint stands on
 * top, several causes may lead to one effect, one cause to several effects, and nothing leads back to itself.
 *
 * A chain is a copy: it is filled from a book, then asked. The hs_chain_put_… functions take whatever a book holds, as
 * long as it is a graph; the hs_chain_check_… functions hold what somebody wants to write against the rules of the
 * trade and refuse in a sentence that says what to do.
 */

/* Who or what says that a finding is there; in the order of HS_WORDS_FINDING_ROLE. */
typedef enum
{
  HS_CHAIN_COMPLAINT,
  HS_CHAIN_SEEN,
  HS_CHAIN_CAUSE,
  HS_CHAIN_CUSTOMER_SAID,
  HS_CHAIN_RULED_OUT,
} HsChainRole;

/* How sure it is; in the order of HS_WORDS_SURE. */
typedef enum
{
  HS_CHAIN_SUSPECTED,
  HS_CHAIN_PROVEN,
  HS_CHAIN_NOT_KNOWN,
} HsChainSure;

/* What shows that a cause led to its effect; in the order of HS_WORDS_PROOF. */
typedef enum
{
  HS_CHAIN_BY_READING,
  HS_CHAIN_BY_PHOTO,
  HS_CHAIN_BY_EYE,
  HS_CHAIN_BY_WORD,
} HsChainProof;

/* How the chain is settled at a finding; in the order of HS_WORDS_ENDED, from 1. */
typedef enum
{
  HS_CHAIN_NO_END,
  HS_CHAIN_CURED,
  HS_CHAIN_CHOSEN,
  HS_CHAIN_OUTSIDE_TOLD,
  HS_CHAIN_NOT_KNOWN_TOLD,
} HsChainEnd;

/**
 * HsChainFinding:
 * @id: its name in the book
 * @what: in the owner's words: "drive belt glazed and wet"
 * @place: (nullable): where on the vehicle
 * @said_by: (nullable): who said it, of something that the customer said
 * @end_note: (nullable): more about the end, for the invoice: "Belt only, Bram Hark"
 * @has_proof: a reading or a photo of its own shows it, whatever its links rest on
 */
typedef struct
{
  const char *id;
  const char *what;
  const char *place;
  const char *said_by;
  const char *end_note;
  HsChainRole role;
  HsChainSure sure;
  HsChainEnd end;
  gboolean has_proof;
} HsChainFinding;

/**
 * HsChainLink:
 * @effect_id: the finding that is explained
 * @cause_id: the finding that explains it; one that is ruled out says what it was not
 * @how: (nullable): how the cause led to the effect
 * @proof: what shows it, in words: "rest 11.95 V"
 * @by: what kind of proof that is
 */
typedef struct
{
  const char *id;
  const char *effect_id;
  const char *cause_id;
  const char *how;
  const char *proof;
  HsChainProof by;
} HsChainLink;

typedef struct _HsChain HsChain;

HsChain *hs_chain_new (void);
void hs_chain_free (HsChain *chain);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsChain, hs_chain_free)

/**
 * hs_chain_put_finding:
 * @finding: copied; its @id must not be in the chain already
 *
 * Findings stand in the order in which they are put.
 */
void hs_chain_put_finding (HsChain *chain, const HsChainFinding *finding);

/**
 * hs_chain_put_link:
 * @link: copied
 * @error: return location, %HS_CORE_ERROR_REFUSED: a finding is not in the chain, the two are linked already, or the
 *   link closes a ring
 */
gboolean hs_chain_put_link (HsChain *chain, const HsChainLink *link, GError **error);

/**
 * HsChainCure:
 * @HS_CHAIN_CURE_SHOWN: something was done, and a reading or a photo afterwards shows it
 * @HS_CHAIN_CURE_UNTESTED: something was done, and nothing shows it yet
 * @HS_CHAIN_CURE_UNSAID: it shows afterwards, and nothing says what was done
 * @HS_CHAIN_CURE_MEANT: neither
 *
 * What is known of an end that somebody called cured.
 */
typedef enum
{
  HS_CHAIN_CURE_SHOWN,
  HS_CHAIN_CURE_UNTESTED,
  HS_CHAIN_CURE_UNSAID,
  HS_CHAIN_CURE_MEANT,
} HsChainCure;

/**
 * hs_chain_set_work:
 * @done: something was installed, looked after or put on the bill
 * @shown: a reading or a photo was taken afterwards
 *
 * What the job says of the work. Without it what is called cured is taken to be so.
 */
void hs_chain_set_work (HsChain *chain, gboolean done, gboolean shown);

/* hs_chain_get_cure: what is known of @finding's cure. */
HsChainCure hs_chain_get_cure (const HsChain *chain, const HsChainFinding *finding);

guint hs_chain_get_n_findings (const HsChain *chain);

/* hs_chain_get_finding: (transfer none) */
const HsChainFinding *hs_chain_get_finding (const HsChain *chain, guint nth);

/* hs_chain_find: (transfer none) (nullable): by its id. */
const HsChainFinding *hs_chain_find (const HsChain *chain, const char *id);

guint hs_chain_get_n_links (const HsChain *chain);

/* hs_chain_get_link: (transfer none) */
const HsChainLink *hs_chain_get_link (const HsChain *chain, guint nth);

/* hs_chain_has_cause: something other than a ruled-out finding explains it. */
gboolean hs_chain_has_cause (const HsChain *chain, const char *id);

/* hs_chain_holds: it belongs to the chain: complaints, causes and what was ruled out always, what was seen or said
 * once it is linked. */
gboolean hs_chain_holds (const HsChain *chain, const char *id);

/**
 * hs_chain_dup_ring:
 *
 * Returns: (transfer full) (nullable): the ring that a link from @cause_id to @effect_id would close, as
 *   "battery flat ← draw ← battery flat", or %NULL if it closes none
 */
char *hs_chain_dup_ring (const HsChain *chain, const char *effect_id, const char *cause_id);

/* hs-chain-rules.c -------------------------------------------------------------------------------------------------*/

/**
 * hs_chain_check_finding:
 * @finding: what is about to be written; its @id may be %NULL
 * @error: return location, %HS_CORE_ERROR_REFUSED
 *
 * Words are there, what was only said is not called proven, and what is ruled out is no end.
 */
gboolean hs_chain_check_finding (const HsChainFinding *finding, GError **error);

/**
 * hs_chain_check_link:
 * @link: what is about to be written; its @id may be %NULL
 * @error: return location, %HS_CORE_ERROR_REFUSED
 *
 * Both findings are known, the proof is there, no ring is closed ("battery flat ← draw ← battery flat leads back to
 * itself"), a complaint is no cause, nothing is ruled out or called proven by words alone, and nothing stands behind
 * an end that is "not known".
 */
gboolean hs_chain_check_link (const HsChain *chain, const HsChainLink *link, GError **error);

/* hs_chain_check_unlink: a cause that is called proven does not lose what proves it. */
gboolean hs_chain_check_unlink (const HsChain *chain, const char *link_id, GError **error);

/* hs_chain_check_end: the chain may be settled like that at this finding; %HS_CHAIN_NO_END opens it again. */
gboolean hs_chain_check_end (const HsChain *chain, const char *id, HsChainEnd end, GError **error);

/**
 * hs_chain_check_sure:
 *
 * Whether a finding may be called that. What was only said is never proven without a reading or a photo.
 */
gboolean hs_chain_check_sure (const HsChain *chain, const char *id, HsChainSure sure, GError **error);

/**
 * HsChainTip:
 * @finding: which one, as hs_chain_get_finding() counts
 * @end: how it is settled, or %HS_CHAIN_NO_END
 * @missing: (nullable): what is missing, in a sentence; %NULL if it is settled
 *
 * An end of the chain: a finding with nothing behind it, or one at which it was settled on the way.
 */
typedef struct
{
  guint finding;
  HsChainEnd end;
  char *missing;
} HsChainTip;

/* hs_chain_list_tips: (transfer full) (element-type HsChainTip): in the order in which the findings stand. */
GPtrArray *hs_chain_list_tips (const HsChain *chain);

/* hs_chain_count_open: how many ends are not settled. */
guint hs_chain_count_open (const HsChain *chain);

/**
 * hs_chain_check_settled:
 * @error: return location, %HS_CORE_ERROR_REFUSED naming the ends that are open
 *
 * Returns: %TRUE if every end is cured, chosen, outside and told, or not known and told; a chain without findings is
 *   settled too
 */
gboolean hs_chain_check_settled (const HsChain *chain, GError **error);

/* hs-chain-layout.c ------------------------------------------------------------------------------------------------*/

/**
 * HsChainRowKind:
 * @HS_CHAIN_NODE: a finding
 * @HS_CHAIN_REFERENCE: a cause that stands further up already, under another effect
 * @HS_CHAIN_CUT: a cause that was ruled out
 */
typedef enum
{
  HS_CHAIN_NODE,
  HS_CHAIN_REFERENCE,
  HS_CHAIN_CUT,
} HsChainRowKind;

/* Columns of the drawing at most; deeper branches share the last one. */
#define HS_CHAIN_MOST_COLUMNS 64

/**
 * HsChainRow:
 * @finding: which one, as hs_chain_get_finding() counts
 * @link: the link to its effect, as hs_chain_get_link() counts; −1 on top
 * @parent: the row of its effect; −1 on top
 * @number: of a node under the complaints: 1, 2, 3 … down the page; of a reference the node's; 0 otherwise
 * @level: depth in the tree, 1 on top
 * @position: which of its siblings, from 1
 * @n_siblings: how many they are, itself included
 * @column: where it is drawn, from 0: the last cause of an effect stays in its column, those before it stand one
 *   further in, so that a chain without branches runs straight down
 * @from_column: where its wire comes from; its own column on top
 * @wires: bit n: a wire of column n passes this row on its way to a row below
 */
typedef struct
{
  HsChainRowKind kind;
  guint finding;
  int link;
  int parent;
  guint number;
  guint level;
  guint position;
  guint n_siblings;
  guint column;
  guint from_column;
  guint64 wires;
} HsChainRow;

/**
 * hs_chain_lay_out:
 *
 * The chain as rows, for drawing it and for reading it as a tree: each effect before its causes, what was ruled out
 * right under the effect. Every finding that the chain holds is in one row that is no reference.
 *
 * Returns: (transfer full) (element-type HsChainRow)
 */
GArray *hs_chain_lay_out (const HsChain *chain);

/* hs-chain-words.c -------------------------------------------------------------------------------------------------*/

/**
 * hs_chain_list_sentences:
 *
 * @in: (nullable): what says them; %NULL: English
 *
 * The chain in plain sentences, for the customer: from the complaint to the ends, each link with its proof and, where
 * the chain is settled, how; what was ruled out last, in one sentence. What was said stays what somebody says.
 *
 * Returns: (transfer full) (element-type utf8): no more than links + findings without a link + 1
 */
GPtrArray *hs_chain_list_sentences (const HsChain *chain, const HsTongue *in);

G_END_DECLS
