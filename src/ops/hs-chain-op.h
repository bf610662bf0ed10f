// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-chain.h"

G_BEGIN_DECLS

/*
 * Why it failed, on one job: findings and the links between them, read as a chain and written step by step, each step
 * one transaction. What the rules of the chain (hs-chain.h) refuse comes back as %HS_OPS_ERROR_REFUSED or a core error
 * with its sentence. A squared job takes no step.
 */

/**
 * HsJobChain: the chain of one job and all that is made of it; never changes once loaded.
 * @rows: (element-type HsChainRow): for drawing, and for reading as a tree
 * @tips: (element-type HsChainTip): the ends, settled or open
 * @sentences: (element-type utf8): for the invoice
 * @open: (nullable): the sentence that names the open ends; %NULL if all are settled
 * @words: the complaint as the caller said it, whether or not it is a finding yet
 */
typedef struct
{
  HsChain *chain;
  GArray *rows;
  GPtrArray *tips;
  GPtrArray *sentences;
  char *open;
  char *words;
} HsJobChain;

void hs_job_chain_free (HsJobChain *chain);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsJobChain, hs_job_chain_free)

/** hs_job_chain_load: (transfer full) (nullable): reads only. */
HsJobChain *hs_job_chain_load (HsBook *book, const char *job_id, GError **error);

/**
 * HsFindingEntry:
 * @role: `complaint`, `seen`, `cause`, `customer_said`, `ruled_out`; %NULL: `seen`
 * @sure: `suspected`, `proven`, `not_known`; %NULL: `suspected`
 * @weight: `do_not_drive`, `fix_this_visit`, `plan_it`, `watch_it`, `sound`; may be %NULL
 * @ended: how the chain ends here: `cured`, `chosen`, `outside_told`, `not_known_told`; may be %NULL
 * @said_by: who said it; %NULL: of what the customer said, the customer of the job
 * @cause: id of a cause in the model of the complaint group, may be %NULL
 * @told_at: when the customer was told of an end that says so; 0: now
 */
typedef struct
{
  const char *place;
  const char *what;
  const char *role;
  const char *sure;
  const char *weight;
  const char *ended;
  const char *said_by;
  const char *cause;
  HsInstant told_at;
} HsFindingEntry;

/** hs_finding_add: Returns the finding's id. */
char *hs_finding_add (HsBook *book, const char *job_id, const HsFindingEntry *entry, HsInstant now, GError **error);

/** hs_finding_reword: other words, or another place (%NULL: none). */
gboolean hs_finding_reword (HsBook *book, const char *finding_id, const char *what, const char *place, HsInstant now,
                            GError **error);

/** hs_finding_remove: refused while it is linked, or a part, a choice or a photo names it. */
gboolean hs_finding_remove (HsBook *book, const char *finding_id, HsInstant now, GError **error);

/** hs_finding_settle: @ended as in HsFindingEntry; %NULL opens the end again. What was told is stamped with @now. */
gboolean hs_finding_settle (HsBook *book, const char *finding_id, const char *ended, HsInstant now, GError **error);

/** hs_finding_call: @sure as in HsFindingEntry. What was only said is not called proven. */
gboolean hs_finding_call (HsBook *book, const char *finding_id, const char *sure, HsInstant now, GError **error);

/**
 * HsBecauseEntry:
 * @how: how the cause led to the effect, may be %NULL
 * @proof: in words; may be %NULL beside a reading, whose check and value it then is
 * @kind: of proof: `reading`, `photo`, `seen`, `said`; %NULL: by what is there, else `said`
 * @reading_id: of the same job
 * @photo_id: of the same job
 */
typedef struct
{
  const char *how;
  const char *proof;
  const char *kind;
  const char *reading_id;
  const char *photo_id;
} HsBecauseEntry;

/** hs_because_add: @cause_id led to @effect_id; if that one is ruled out, it did not. Returns the link's id. */
char *hs_because_add (HsBook *book, const char *effect_id, const char *cause_id, const HsBecauseEntry *entry,
                      HsInstant now, GError **error);

/** hs_because_remove: takes a link away; both findings stay. */
gboolean hs_because_remove (HsBook *book, const char *link_id, HsInstant now, GError **error);

/**
 * hs_chain_take_back:
 *
 * Takes a link away, and its cause with it if nothing else rests on that: no other link, reading, photo, choice or
 * part. What was seen stays. Refused as hs_because_remove() is.
 */
gboolean hs_chain_take_back (HsBook *book, const char *link_id, HsInstant now, GError **error);

/**
 * hs_chain_extend:
 * @effect_id: (nullable): what is explained; %NULL: the complaint, which is written down from the caller's words if it
 *   is not yet
 * @cause: a new finding, of role `cause` unless it says otherwise; `ruled_out` rules it out. Without @sure it is proven
 *   unless it is only said
 * @link: what shows it
 *
 * A new cause and its link in one step.
 *
 * Returns: (transfer full): the id of the new finding
 */
char *hs_chain_extend (HsBook *book, const char *job_id, const char *effect_id, const HsFindingEntry *cause,
                       const HsBecauseEntry *link, HsInstant now, GError **error);

/** hs_chain_join: like hs_chain_extend() with a cause that is a finding already. Returns the link's id. */
char *hs_chain_join (HsBook *book, const char *job_id, const char *effect_id, const char *cause_id,
                     const HsBecauseEntry *link, HsInstant now, GError **error);

/** hs_complaint_ensure: the id of the job's first complaint, written down from the caller's words if there is none. */
char *hs_complaint_ensure (HsBook *book, const char *job_id, HsInstant now, GError **error);

/**
 * hs_reading_find_proof:
 * @check: id of a check
 * @place: (nullable): where it was measured; %NULL: anywhere
 *
 * Returns: (transfer full): the id of the job's latest reading of that check before the repair, else of the latest one;
 *   %HS_OPS_ERROR_NOT_FOUND
 */
char *hs_reading_find_proof (HsBook *book, const char *job_id, const char *check, const char *place,
                             GError **error);

G_END_DECLS
