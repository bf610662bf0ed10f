// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask.h"
#include "hs-gauge.h"
#include "hs-reading-line.h"
#include "hs-sketch.h"
#include "hs-stop-row.h"
#include "hs-tag.h"
#include "hs-time-strip.h"

G_BEGIN_DECLS

/* From what the book says to what a drawn widget shows. The widgets know no book, the book knows no widget; here they
 * meet. */

void hs_face_tag (HsTag *tag, HsLedger *ledger, const HsBoardRow *row);

/**
 * hs_face_stop:
 * @index: place in the plan, from 0
 * @chosen: it is the chosen stop
 */
void hs_face_stop (HsStopRow *row, HsLedger *ledger, const HsDayPlan *plan, guint index, gboolean chosen);

/* hs_face_dup_stop_say: (transfer full): everything about a stop in one sentence. */
char *hs_face_dup_stop_say (HsLedger *ledger, const HsDayPlan *plan, guint index);

/* hs_face_dup_shut: (transfer full): "Larch & Weir is shut until 08:00: starter for A-0021". */
char *hs_face_dup_shut (HsLedger *ledger, const HsShutPart *part);

/* hs_face_day: (transfer full): the day for the time strip; @now: an instant of that day, or %HS_INSTANT_NONE. */
HsStripDay *hs_face_day (HsLedger *ledger, const HsDayPlan *plan, HsInstant now);

/* hs_face_spare_minutes: whole minutes of a spare time, rounded down; below zero is how late, rounded up. */
int hs_face_spare_minutes (gint64 spare_seconds);

/* hs_face_dup_spare: (transfer full): "35 min spare", "4 min late". */
char *hs_face_dup_spare (gint64 spare_seconds);

/* hs_face_dup_broken: (transfer full): a line for each of at most @most broken promises, how many are left, and the
 * first of @mends, (nullable) (element-type HsDayMend). @plan: (nullable) */
char *hs_face_dup_broken (const HsDayPlan *plan, GPtrArray *mends, guint most);

/* hs_face_dup_ring: (transfer full): a line for each customer to ring before it is too late. @plan: (nullable) */
char *hs_face_dup_ring (const HsDayPlan *plan);

/* hs_face_dup_none_head: (transfer full): why no stop is shown; @plan, @trouble: (nullable). */
char *hs_face_dup_none_head (const HsDayPlan *plan, const char *trouble);

/* hs_face_dup_leave_note: (transfer full): "leave", with how long it still is. */
char *hs_face_dup_leave_note (HsLedger *ledger, const HsDayPlan *plan);

/* hs_face_dup_home_note: (transfer full): "home", or how far past the time that is set. */
char *hs_face_dup_home_note (const HsDayPlan *plan);

/* hs_face_dup_penciled: (transfer full) (nullable): which calls are penciled in and left out. */
char *hs_face_dup_penciled (const HsDayPlan *plan);

/* hs_face_sketch: @plan: (nullable): clears it; @places: (nullable) (element-type HsPlace): their names and signals. */
void hs_face_sketch (HsSketch *sketch, const HsDayPlan *plan, GPtrArray *places);

/* hs_face_dup_bare_value: (transfer full) (nullable): a reading's value without its unit, which stands beside it. */
char *hs_face_dup_bare_value (const HsReadingResult *result);

/* hs_face_reading: @check: (nullable): from the catalog, for the words under the name; @best: (nullable): words in
 * their stead, that it is best done next. */
void hs_face_reading (HsReadingLine *line, guint number, const HsReadingResult *result, const HsCheck *check,
                      gboolean chosen, const char *best);

/* hs_face_gauge: @check: (nullable), @shown: (nullable): hides the gauge; @told: (nullable): conditions beside the
 * reading. The scale is the vehicle's own where it has one. */
void hs_face_gauge (HsGauge *gauge, HsLedger *ledger, const HsJobShot *shot, const HsCheck *check,
                    const HsReadingResult *shown, const char *told);

G_END_DECLS
