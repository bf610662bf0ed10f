// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsCheckKindRow:
 * @id: of the check, as in the catalog
 * @unit: of its readings
 * @decimals: of its readings
 *
 * What the book has to know of a check so that it can refuse a reading in another unit. Once there are readings, unit
 * and decimals stay as they are.
 */
typedef struct
{
  char *id;
  char *name;
  char *unit;
  gint64 decimals;
} HsCheckKindRow;

HS_DECLARE_ROW (HsCheckKindRow, hs_check_kind_row)
gboolean hs_check_kind_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/**
 * HsCheckOwnRow:
 * @whose: `maker` or `owner`; a vehicle may have one of each for a check
 * @low: scaled by the check's decimals, or %HS_INT_NONE
 * @high: likewise
 * @source: who says so
 *
 * A vehicle's own limits.
 */
typedef struct
{
  char *id;
  char *vehicle_id;
  char *check_id;
  char *whose;
  gint64 low;
  gint64 high;
  char *source;
} HsCheckOwnRow;

HS_DECLARE_ROW (HsCheckOwnRow, hs_check_own_row)
gboolean hs_check_own_row_list_of (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

/**
 * HsReadingRow:
 * @finding_id: (nullable): what it proves
 * @unit: the check's
 * @decimals: the check's
 * @place: (nullable): where on the vehicle
 * @value: scaled by @decimals, or %HS_INT_NONE
 * @of_value: second number of a pair, scaled alike, or %HS_INT_NONE
 * @over_range: the meter showed over range; then there is no value
 * @answer: (nullable): a reading in words
 * @not_measured_why: (nullable): why there is no reading
 * @phase: `before`, `during`, `after`
 * @conditions: (nullable): in words
 *
 * Exactly one of value, over range, answer and not-measured-why is there.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *finding_id;
  char *check_id;
  char *unit;
  gint64 decimals;
  char *place;
  gint64 value;
  gint64 of_value;
  gboolean over_range;
  char *answer;
  char *not_measured_why;
  char *phase;
  char *conditions;
  HsInstant taken_at;
} HsReadingRow;

HS_DECLARE_ROW (HsReadingRow, hs_reading_row)

/* hs_reading_row_list_of: of a job, in the order in which they were taken down. */
gboolean hs_reading_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_reading_row_list_latest: of a vehicle over all its jobs, the latest of each check and phase. */
gboolean hs_reading_row_list_latest (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
