// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-op.h"
#include "hs-reading-row.h"
#include "hs-vehicle-row.h"

G_BEGIN_DECLS

/**
 * HsReadingGround: what all readings of one vehicle are judged by, read out of the book with the first of them.
 * @vehicle: (nullable); @installed: (nullable) (element-type HsInstalledRow); @limits: (nullable) (element-type
 *   HsOwnLimit): without a vehicle there are none
 * @usable_percent: of a battery, for days to no-start
 */
typedef struct
{
  gboolean loaded;
  HsVehicleRow *vehicle;
  GPtrArray *installed;
  GPtrArray *limits;
  gint64 usable_percent;
} HsReadingGround;

void hs_reading_ground_clear (HsReadingGround *ground);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HsReadingGround, hs_reading_ground_clear)

/**
 * HsReadingScene: what a reading is judged by beside itself.
 * @vehicle_id: (nullable)
 * @job_readings: (nullable) (element-type HsReadingRow): of the same job, for the battery's volts at rest
 * @ground: (nullable): whoever judges more than one reading lends it, so that the book is asked once for all of them;
 *   it is of that vehicle alone
 */
typedef struct
{
  HsBook *book;
  const char *vehicle_id;
  GPtrArray *job_readings;
  HsReadingGround *ground;
} HsReadingScene;

/* hs_reading_find_check: refuses an id that the catalog does not have, naming those that it has. */
const HsCheck *hs_reading_find_check (HsBook *book, const char *id, GError **error);

/* hs_reading_judge_row: a stored or a would-be reading with its verdict. */
HsReadingResult *hs_reading_judge_row (const HsReadingScene *scene, const HsReadingRow *row, GError **error);

/* hs_reading_battery_of: amp-hours of the battery that was on the vehicle at the reading, 0 if they are not known, and
 * the share of them that may be gone before it no longer starts. */
gboolean hs_reading_battery_of (const HsReadingScene *scene, const HsReadingRow *row, double *ret_amp_hours,
                                double *ret_share, GError **error);

/* hs_reading_of_row: what stands in a row of @check. Returns: %FALSE for an answer that the check does not have, or not
 * any more. */
gboolean hs_reading_of_row (const HsCheck *check, const HsReadingRow *row, HsReading *ret_reading);

/* hs_reading_result_say: (transfer full): "Battery at rest 11.95 V, 9 %". */
char *hs_reading_result_say (const HsReadingResult *result);

/* hs_reading_result_of_check: an empty line of the sheet. */
HsReadingResult *hs_reading_result_of_check (const HsCheck *check, const char *phase);

/* hs_reading_row_from_entry: what was keyed, as a row without a job. */
HsReadingRow *hs_reading_row_from_entry (HsBook *book, const HsReadingEntry *entry, HsInstant now, GError **error);

/**
 * hs_reading_dup_bands:
 * @reading_id: of @scene
 * @ret_bands: (element-type HsCheckBand): the scale that it is judged on; empty where its check has none
 */
gboolean hs_reading_dup_bands (const HsReadingScene *scene, const char *reading_id, const HsCheck **ret_check,
                               GArray **ret_bands, GError **error);

G_END_DECLS
