// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsFindingRow:
 * @role: `complaint`, `seen`, `cause`, `customer_said`, `ruled_out`
 * @sure: `suspected`, `proven`, `not_known`
 * @weight: (nullable): `do_not_drive`, `fix_this_visit`, `plan_it`, `watch_it`, `sound`
 * @ended: (nullable): how this end of the why-chain is settled: `cured`, `chosen`, `outside_told`, `not_known_told`
 * @cause: (nullable): id of a cause in the model of the complaint group
 * @said_by: (nullable): who said it, of what was said
 * @told_at: when the customer was told; `outside_told` and `not_known_told` need it
 *
 * `proven` needs better than hearsay: what a customer said, a reading or a photo (bound to the finding, or on a link in
 * which it is the cause); any other finding that links name as a cause, one link that is not only `said`. What was seen
 * (role `seen`) is proven by having been seen.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *place;
  char *what;
  char *role;
  char *sure;
  char *weight;
  char *ended;
  HsInstant entered_at;
  char *cause;
  char *said_by;
  HsInstant told_at;
} HsFindingRow;

HS_DECLARE_ROW (HsFindingRow, hs_finding_row)
gboolean hs_finding_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/**
 * HsBecauseRow:
 * @how: (nullable): how the cause led to the effect
 * @proof: what shows it, in words
 * @proof_kind: `reading` (with @reading_id), `photo` (with @photo_id), `seen`, `said`
 * @reading_id: (nullable): of the same job, and taken
 * @photo_id: (nullable): of the same job
 *
 * One link of a why-chain. It is added or removed, never changed. A cause that is ruled out is a finding of role
 * `ruled_out` with a link of its own.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *effect_id;
  char *cause_id;
  char *how;
  char *proof;
  char *proof_kind;
  char *reading_id;
  char *photo_id;
} HsBecauseRow;

HS_DECLARE_ROW (HsBecauseRow, hs_because_row)
gboolean hs_because_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
