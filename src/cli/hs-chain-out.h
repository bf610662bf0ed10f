// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain-op.h"
#include "hs-json-out.h"

G_BEGIN_DECLS

/** hs_chain_out_write: the whole chain: nodes, links, ends, sentences. */
void hs_chain_out_write (HsJsonOut *out, const char *name, const HsJobChain *job);

/** hs_chain_out_print: the chain as a tree, what is still open, and the sentences for the invoice. */
void hs_chain_out_print (const HsJobChain *job);

/**
 * hs_chain_out_find:
 * @text: the number that hs_chain_out_print() gives it, `complaint` for the first one, its id, or its own words
 *
 * Returns: (transfer none) (nullable): the finding
 */
const HsChainFinding *hs_chain_out_find (const HsJobChain *job, const char *text);

G_END_DECLS
