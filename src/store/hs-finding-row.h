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
} HsFindingRow;

HS_DECLARE_ROW (HsFindingRow, hs_finding_row)
gboolean hs_finding_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/**
 * HsBecauseRow:
 * @how: (nullable): how the cause led to the effect
 * @proof: what shows it: a reading, seen, said
 *
 * One link of a why-chain. It is added or removed, never changed.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *effect_id;
  char *cause_id;
  char *how;
  char *proof;
} HsBecauseRow;

HS_DECLARE_ROW (HsBecauseRow, hs_because_row)
gboolean hs_because_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
