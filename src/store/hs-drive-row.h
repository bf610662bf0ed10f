// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsDriveRow:
 * @job_id: driven to
 * @to_id: area of the job
 * @rolling_at: left for it
 * @arrived_at: was there
 * @before_id: (nullable): area of the visit of the same van before; %NULL: there is none, or it has no area
 * @before_at: when that visit began, or %HS_INSTANT_NONE
 * @before_left_at: when it was over, or %HS_INSTANT_NONE
 * @by_counter: in a plan that was kept, a counter stands right before the job
 *
 * A drive as its visit was stamped. A job without a van is the first van's.
 */
typedef struct
{
  char *job_id;
  char *to_id;
  HsInstant rolling_at;
  HsInstant arrived_at;
  char *before_id;
  HsInstant before_at;
  HsInstant before_left_at;
  gboolean by_counter;
} HsDriveRow;

void hs_drive_row_free (HsDriveRow *row);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDriveRow, hs_drive_row_free)

/* hs_drive_row_list: (element-type HsDriveRow): all that have both stamps and an area, by arrival. */
gboolean hs_drive_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

G_END_DECLS
