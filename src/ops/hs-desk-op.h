// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/* What is written down beside the jobs, each one transaction: owners, odometers, cores, people to call, trips. */

/**
 * hs_owner_change:
 * @on: first day of the new owner, last day of the one before
 *
 * A vehicle changes hands. The present owner again with an earlier @on only moves the beginning back.
 */
gboolean hs_owner_change (HsBook *book, const char *vehicle_id, const char *customer_id, HsDate on, HsInstant now,
                          GError **error);

/**
 * hs_odometer_add:
 * @job_id: (nullable): the job on which it was read
 * @doubted: (nullable): why it does not count; needed when it falls
 */
gboolean hs_odometer_add (HsBook *book, const char *vehicle_id, const char *job_id, HsDate on, gint64 value,
                          const char *doubted, HsInstant now, GError **error);

/** hs_core_credit: a core was dropped off on @on and credited under @reference. */
gboolean hs_core_credit (HsBook *book, const char *core_id, HsDate on, const char *reference, HsInstant now,
                         GError **error);

/**
 * hs_follow_up_add:
 * @kind: `declined_work`, `how_is_it`, `unpaid` …
 *
 * Somebody to call about a job, once: a call that is still to be made is not listed twice.
 *
 * Returns: (transfer full): the row's id.
 */
char *hs_follow_up_add (HsBook *book, const char *job_id, const char *kind, HsDate due, HsInstant now,
                        GError **error);

/** hs_follow_up_done: @outcome: what was said. */
gboolean hs_follow_up_done (HsBook *book, const char *follow_up_id, HsDate on, const char *outcome, HsInstant now,
                            GError **error);

/**
 * HsTripEntry:
 * @van: letter, %NULL for the first
 * @from, @to: codes of areas, or positions
 * @left_at: when it began; 0: not known
 * @purpose: `job`, `parts`, `supplies`, `private`, `other_business`
 * @job_id: (nullable)
 */
typedef struct
{
  const char *van;
  HsDate on;
  const char *from;
  const char *to;
  gint64 seconds;
  gint64 millimiles;
  const char *purpose;
  const char *job_id;
  HsInstant left_at;
} HsTripEntry;

gboolean hs_trip_add (HsBook *book, const HsTripEntry *entry, HsInstant now, GError **error);

G_END_DECLS
