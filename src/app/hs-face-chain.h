// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain-face.h"
#include "hs-chain-shot.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* From what the book says about why it failed to what the page shows; see hs-face.h. */

/* hs_face_chain: (transfer full) (element-type HsChainFace): a chain that is not begun yet has the caller's words on
 * top, with an empty finding id. */
GPtrArray *hs_face_chain (HsLedger *ledger, const HsChainShot *shot);

/* hs_face_end_word: (transfer none): “Cured today”; %HS_CHAIN_NO_END is an open end. */
const char *hs_face_end_word (HsChainEnd end);

/* hs_face_proof_word: (transfer none): “Read”. */
const char *hs_face_proof_word (HsChainProof by);

/* hs_face_dup_end_note: (transfer full): what is known of an end beyond its kind; may be empty. */
char *hs_face_dup_end_note (HsLedger *ledger, const HsChainShot *shot, guint finding);

G_END_DECLS
