// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-next.h"

G_BEGIN_DECLS

/**
 * HsChainOffer: one thing that a link of the why-chain can be made with, so that nothing has to be typed twice.
 * @id: of the finding, reading or photo; of a usual reason, the id of the cause in the model of the complaint group
 * @words: as it is shown; of a finding or a reason, as it is written down too
 * @note: (nullable): of a usual reason, how it stands and what speaks for and against it
 */
typedef struct
{
  char *id;
  char *words;
  char *note;
} HsChainOffer;

/**
 * HsChainOffers: what a job offers to its why-chain.
 * @findings: (element-type HsChainOffer): what was found and explains nothing yet, then the causes that are there
 * @reasons: (element-type HsChainOffer): usual causes of the complaint group that are not written down yet, the most
 *   frequent first; once ranked, the likeliest by all that is known
 * @readings: (element-type HsChainOffer): those that were taken, the latest first; what was not within limits before
 *   the rest
 * @photos: (element-type HsChainOffer)
 * @customer: (nullable): who is usually asked
 */
typedef struct
{
  GPtrArray *findings;
  GPtrArray *reasons;
  GPtrArray *readings;
  GPtrArray *photos;
  char *customer;
} HsChainOffers;

void hs_chain_offers_free (HsChainOffers *offers);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsChainOffers, hs_chain_offers_free)

/** hs_chain_offers_load: (transfer full) (nullable): reads only. */
HsChainOffers *hs_chain_offers_load (HsBook *book, const char *job_id, GError **error);

/** hs_chain_offers_rank: puts the usual reasons into the order in which @next ranks them, each with its evidence in
 * words; those that it does not know stay behind. */
void hs_chain_offers_rank (HsChainOffers *offers, const HsJobNext *next, const HsTongue *in);

G_END_DECLS
