// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-job-op.h"
#include "hs-odometer.h"
#include "hs-repair-op.h"

G_BEGIN_DECLS

/* What the operations of a repair share. Those that write need a transaction. */

/* hs_disturbed_by_part: what putting in @part disturbed goes onto the job's list, as far as it is not there yet. */
gboolean hs_disturbed_by_part (HsBook *book, const HsJobRow *job, const char *part, HsInstant now, GError **error);

/* Bounds of what can be typed: a slip is caught in a sentence. */
gboolean hs_part_check_months (gint64 months, GError **error);
gboolean hs_part_check_millimiles (gint64 millimiles, GError **error);

/* hs_after_fill: the list of a job, each line with what the table knows of it. */
gboolean hs_after_fill (HsBook *book, const char *job_id, GPtrArray **ret_lines, GError **error);

/* hs_repair_find_pace: how much a vehicle is driven, by its odometer. */
gboolean hs_repair_find_pace (HsStore *store, const char *vehicle_id, HsOdometerPace *ret_pace, gboolean *ret_known,
                              GError **error);

/* hs_repair_miles_in: thousandths of a mile in whole units of an odometer, rounded down. */
gint64 hs_repair_miles_in (gint64 millimiles, const char *unit);

/**
 * HsCoverScene: what a cover is reckoned by beside itself.
 * @unit: of the odometer: `mi` or `km`
 * @pace: (nullable): how much the vehicle is driven
 */
typedef struct
{
  const char *unit;
  const HsOdometerPace *pace;
} HsCoverScene;

/* hs_cover_fill: from when to when a part is covered, and how that is said. */
void hs_cover_fill (const HsCoverScene *scene, const HsInstalledRow *row, HsFittedPart *part);

/* hs_prove_fill: what is still to do before a job is tested good; @repair has its parts and looks already. One that is
 * called off is not tested; only why an old part went is asked of it. */
void hs_prove_fill (HsRepair *repair, const HsJobView *view, const HsJobChain *chain, gboolean called_off);

/* hs_repair_is_same_place: where @row goes, @old cannot stay. A vehicle has one battery, wherever it is said to be. */
gboolean hs_repair_is_same_place (const HsInstalledRow *old, const HsInstalledRow *row);

/* hs_repair_is_measured: a value, an answer or over range, not a reason why not. */
gboolean hs_repair_is_measured (const HsReadingResult *result);

G_END_DECLS
