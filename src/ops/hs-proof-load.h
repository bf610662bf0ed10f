// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-proof-sheet.h"
#include "hs-tongue.h"

G_BEGIN_DECLS

/**
 * hs_proof_sheet_load:
 * @in: for what is put into sentences here
 *
 * All of a job that its proof sheet shows; of what was not done only what the owner of the vehicle has to know. Reads
 * only.
 *
 * Returns: (transfer full) (nullable)
 */
HsProofSheet *hs_proof_sheet_load (HsBook *book, const char *job_id, const HsTongue *in, HsInstant now,
                                   GError **error);

G_END_DECLS
