// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Parts on vehicles: what is there now, since when, how that is known, and how long it is covered. The file
 * refuses two of a kind in one place, and a warranty swap that starts a new clock. */

#include "hs-installed-row.h"

#include "hs-table.h"

static const HsColumn installed_columns[] = {
  HS_TEXT (HsInstalledRow, id),
  HS_TEXT (HsInstalledRow, vehicle_id),
  HS_TEXT (HsInstalledRow, job_id),
  HS_TEXT (HsInstalledRow, part_id),
  HS_TEXT (HsInstalledRow, kind),
  HS_TEXT (HsInstalledRow, what),
  HS_TEXT (HsInstalledRow, place),
  HS_TEXT (HsInstalledRow, serial),
  HS_TEXT (HsInstalledRow, date_stamp),
  HS_DATE (HsInstalledRow, installed_on),
  HS_INT (HsInstalledRow, installed_odometer),
  HS_TEXT (HsInstalledRow, known_by),
  HS_TEXT (HsInstalledRow, supplier_id),
  HS_TEXT (HsInstalledRow, supplier_bill),
  HS_TEXT (HsInstalledRow, maker),
  HS_DATE (HsInstalledRow, warranty_from),
  HS_INT (HsInstalledRow, warranty_months),
  HS_INT (HsInstalledRow, warranty_millimiles),
  HS_TEXT (HsInstalledRow, stands_in_for_id),
  HS_TEXT (HsInstalledRow, replaced_why),
  HS_TEXT (HsInstalledRow, replaced_finding_id),
  HS_INT (HsInstalledRow, told_at),
  HS_DATE (HsInstalledRow, removed_on),
  HS_TEXT (HsInstalledRow, removed_job_id),
  HS_TEXT (HsInstalledRow, battery_kind),
  HS_REAL (HsInstalledRow, battery_ah),
  HS_INT (HsInstalledRow, battery_cca),
  HS_TEXT (HsInstalledRow, old_part),
};

static const HsTable installed_table = {
  HS_TABLE (HsInstalledRow, "installed_part", "installed part", installed_columns),
};

HS_DEFINE_ROW (HsInstalledRow, hs_installed_row, installed_table)

gboolean
hs_installed_row_list_of_vehicle (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &installed_table, (GDestroyNotify) hs_installed_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 ORDER BY installed_on DESC, seq DESC", "t", vehicle_id);
}

gboolean
hs_installed_row_list_of_job (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &installed_table, (GDestroyNotify) hs_installed_row_free, ret_rows, error,
                        "WHERE job_id = ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_installed_row_list_batteries (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &installed_table, (GDestroyNotify) hs_installed_row_free, ret_rows, error,
                        "WHERE vehicle_id = ?1 AND kind = 'battery' AND removed_on IS NULL"
                        " ORDER BY installed_on DESC, seq DESC", "t", vehicle_id);
}
