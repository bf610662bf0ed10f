// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What odometers showed. The file refuses one that runs backward without a reason. */

#include "hs-odometer-row.h"

#include "hs-table.h"

static const HsColumn odometer_columns[] = {
  HS_TEXT (HsOdometerRow, id),
  HS_TEXT (HsOdometerRow, vehicle_id),
  HS_DATE (HsOdometerRow, on_date),
  HS_INT (HsOdometerRow, value),
  HS_TEXT (HsOdometerRow, job_id),
  HS_TEXT (HsOdometerRow, doubted),
};

static const HsTable odometer_table = {
  HS_TABLE (HsOdometerRow, "odometer", "odometer reading", odometer_columns),
};

HS_DEFINE_ROW (HsOdometerRow, hs_odometer_row, odometer_table)

gboolean
hs_odometer_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &odometer_table, (GDestroyNotify) hs_odometer_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 ORDER BY on_date, value, seq", "t", vehicle_id);
}
