// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-job-row.h"
#include "hs-odometer-row.h"
#include "hs-odometer.h"
#include "hs-vehicle-row.h"

G_BEGIN_DECLS

/* Seven digits. */
#define HS_ODOMETER_MOST 9999999

/**
 * hs_odometer_question:
 * @rows: (element-type HsOdometerRow): all readings of the vehicle, oldest first
 * @instead_of: (nullable): the one of @rows that the new reading replaces
 * @now: the new reading
 * @error: return location, %HS_OPS_ERROR_WANTS_WHY
 *
 * The one rule for what an odometer may show: it never falls, and it never rises by more than anybody drives. What does
 * is a question, which a reason answers; readings that are doubted themselves ask none.
 *
 * Returns: %FALSE if there is something to ask
 */
gboolean hs_odometer_question (const HsVehicleRow *vehicle, GPtrArray *rows, const HsOdometerRow *instead_of,
                               const HsOdometer *now, GError **error);

/**
 * hs_odometer_question_read:
 *
 * The same for one that was just read off, which can be read again: a first one that hardly any vehicle of its age
 * shows is a question, too. A file may tell of a vehicle when it was new.
 */
gboolean hs_odometer_question_read (const HsVehicleRow *vehicle, GPtrArray *rows, const HsOdometerRow *instead_of,
                                    const HsOdometer *now, GError **error);

/* hs_odometer_check_range: 0 to %HS_ODOMETER_MOST. */
gboolean hs_odometer_check_range (gint64 value, GError **error);

/* hs_odometer_note: what the odometer showed on this job today, beside something else that was written down; once is
 * enough. Has no place for a reason, so what is asked is refused, and the refusal says where the reason goes. */
gboolean hs_odometer_note (HsBook *book, const HsJobRow *job, gint64 value, HsInstant now, GError **error);

G_END_DECLS
