// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain-offer.h"
#include "hs-chain-op.h"
#include "hs-interview-op.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * HsChainShot: all that the page of why it failed shows of a job, read at one moment.
 * @chain: the chain and what is made of it
 * @told_at: (element-type HsInstant): when the customer was told of the end at each finding of @chain, or
 *   %HS_INSTANT_NONE
 * @offers: what a new link can be made with
 * @answers: (element-type HsAnswerLine): the interview
 * @stage: where the job stands
 * @not_yet: (nullable): why it may not be tested good, in a sentence; %NULL if it may or is
 */
typedef struct
{
  HsJobChain *chain;
  GArray *told_at;
  HsChainOffers *offers;
  GPtrArray *answers;
  HsStage stage;
  char *not_yet;
} HsChainShot;

/** hs_chain_shot_load: (transfer full) (nullable): reads only. */
HsChainShot *hs_chain_shot_load (HsBook *book, const char *job_id, GError **error);
void hs_chain_shot_free (HsChainShot *shot);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsChainShot, hs_chain_shot_free)

G_END_DECLS
