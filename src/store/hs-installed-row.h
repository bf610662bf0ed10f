// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsInstalledRow:
 * @job_id: (nullable): the job that installed it; %NULL: somebody else did
 * @part_id: (nullable): in the catalog
 * @kind: (nullable): `battery` …; a battery has this kind
 * @what: in words
 * @place: (nullable): one item of a kind in one place at a time
 * @installed_odometer: or %HS_INT_NONE
 * @known_by: `we_installed_it`, `receipt`, `date_stamp`, `customer_says`, `not_known`
 * @warranty_from: first day of cover; a warranty swap keeps the first one's
 * @warranty_months: or %HS_INT_NONE
 * @warranty_millimiles: or %HS_INT_NONE
 * @stands_in_for_id: (nullable): of a warranty swap, the one it stands in for
 * @replaced_why: (nullable): `failed` (with @replaced_finding_id), `due`, `none_before`, `not_known` (with @told_at)
 * @told_at: when the customer was told that it is not known
 * @removed_on: %HS_DATE_NONE: still there
 * @battery_ah: or %HS_REAL_NONE
 * @battery_cca: or %HS_INT_NONE
 * @old_part: (nullable): what became of the one it replaced: `shown`, `kept`, `handed_over`, `core`
 */
typedef struct
{
  char *id;
  char *vehicle_id;
  char *job_id;
  char *part_id;
  char *kind;
  char *what;
  char *place;
  char *serial;
  char *date_stamp;
  HsDate installed_on;
  gint64 installed_odometer;
  char *known_by;
  char *supplier_id;
  char *supplier_bill;
  char *maker;
  HsDate warranty_from;
  gint64 warranty_months;
  gint64 warranty_millimiles;
  char *stands_in_for_id;
  char *replaced_why;
  char *replaced_finding_id;
  HsInstant told_at;
  HsDate removed_on;
  char *removed_job_id;
  char *battery_kind;
  double battery_ah;
  gint64 battery_cca;
  char *old_part;
} HsInstalledRow;

HS_DECLARE_ROW (HsInstalledRow, hs_installed_row)

/* hs_installed_row_list_of_vehicle: newest first, removed ones too. */
gboolean hs_installed_row_list_of_vehicle (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows,
                                           GError **error);
gboolean hs_installed_row_list_of_job (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_installed_row_list_batteries: those on the vehicle now, the latest first. */
gboolean hs_installed_row_list_batteries (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
