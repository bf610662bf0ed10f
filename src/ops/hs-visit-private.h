// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-stage.h"
#include "hs-store.h"
#include "hs-visit-row.h"

G_BEGIN_DECLS

/* hs_visit_follow_move: opens, stamps, pauses or closes the visit that a move of stage means. Needs a transaction. */
gboolean hs_visit_follow_move (HsStore *store, const char *job_id, HsStage from, HsStage to, HsInstant now,
                               GError **error);

/* hs_visit_clock_runs: whether somebody is at the vehicle by the latest visit, and the labor clock does not stand. */
gboolean hs_visit_clock_runs (HsStore *store, const char *job_id, gboolean *ret_runs, GError **error);

/* hs_visit_load_arrived: the latest visit on which somebody came to the vehicle, over or not; %NULL: none. */
gboolean hs_visit_load_arrived (HsStore *store, const char *job_id, HsVisitRow **ret_visit, GError **error);

/* hs_visit_is_unclocked: the labor clock has no minutes of it, since the machine's clock was put back on it; @pauses
 * (element-type HsPauseRow) are its own. */
gboolean hs_visit_is_unclocked (const HsVisitRow *visit, GPtrArray *pauses, HsInstant now);

/* hs_visit_keep_put_back: keeps that the clock stood at @now, before a stamp of @visit, where what happened is stamped
 * no earlier than that. Needs a transaction. */
gboolean hs_visit_keep_put_back (HsStore *store, const HsVisitRow *visit, HsInstant now, GError **error);

/* hs_visit_count_pauses: of @pauses (element-type HsPauseRow) those in which the clock stood still. */
guint hs_visit_count_pauses (const HsVisitRow *visit, GPtrArray *pauses);

/* hs_visit_load_unclocked: the first visit that arrived before @until and of which the labor clock has no minutes,
 * since the machine's clock was put back on it; %NULL: none. */
gboolean hs_visit_load_unclocked (HsStore *store, const char *job_id, HsInstant now, HsInstant until,
                                  HsVisitRow **ret_visit, GError **error);

/* hs_visit_add_seconds: adds what the labor clock shows of one visit; one that is not over counts to @now, and one of
 * which it has no minutes for nothing. */
gboolean hs_visit_add_seconds (HsStore *store, const HsVisitRow *visit, HsInstant now, gint64 *seconds,
                               GError **error);

G_END_DECLS
