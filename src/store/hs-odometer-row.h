// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsOdometerRow:
 * @value: whole units of the vehicle's odometer
 * @doubted: (nullable): why it does not count
 */
typedef struct
{
  char *id;
  char *vehicle_id;
  HsDate on_date;
  gint64 value;
  char *job_id;
  char *doubted;
} HsOdometerRow;

HS_DECLARE_ROW (HsOdometerRow, hs_odometer_row)

/* hs_odometer_row_list_of: oldest first, doubted ones too. */
gboolean hs_odometer_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
