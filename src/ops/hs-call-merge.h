// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-op.h"

G_BEGIN_DECLS

/*
 * A call slip that two devices write at the same time. Each field stands for itself: who did not touch it takes what
 * the other one wrote. Where both wrote, the later one stands and the other's words are kept as an answer on the job.
 */

/**
 * HsCallClash:
 * @field: `phone`, `name`, `words`, `plate`, `street` or `minutes`
 * @theirs: what the book had from elsewhere; kept as an answer on the job
 * @mine: what stands in the book now
 */
typedef struct
{
  char *field;
  char *theirs;
  char *mine;
} HsCallClash;

void hs_call_clash_free (HsCallClash *clash);

/**
 * hs_call_merge:
 * @slip: as for hs_call_take(), of a job that is there
 * @was: the same fields as they were when this device was shown them
 * @ret_clashes: (out) (element-type HsCallClash): fields that both wrote
 *
 * hs_call_take() of what comes of the two, in one transaction.
 */
gboolean hs_call_merge (HsBook *book, const HsCallSlip *slip, const HsCallSlip *was, HsInstant now,
                        GPtrArray **ret_clashes, GError **error);

/**
 * hs_call_is_placeholder:
 * @name: (nullable), @phone: (nullable): of a customer
 *
 * Returns: whether the name only stands for one that nobody has said yet
 */
gboolean hs_call_is_placeholder (const char *name, const char *phone);

G_END_DECLS
