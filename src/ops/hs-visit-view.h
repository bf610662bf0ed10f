// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsVisitView: one coming and going, for its row.
 * @rolling_at, @arrived_at, @left_at: %HS_INSTANT_NONE until it happens
 * @paused_at: since when the labor clock stands still, or %HS_INSTANT_NONE while it runs or is over
 * @seconds: on the labor clock of this visit, up to @left_at or now
 * @paused_seconds: how long it stood still
 * @n_pauses: how often
 * @safe_note: (nullable): how the safety list came out
 */
typedef struct
{
  HsInstant rolling_at;
  HsInstant arrived_at;
  HsInstant left_at;
  HsInstant paused_at;
  gint64 seconds;
  gint64 paused_seconds;
  guint n_pauses;
  char *safe_note;
} HsVisitView;

void hs_visit_view_free (HsVisitView *view);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsVisitView, hs_visit_view_free)

/** hs_visit_view_list: (transfer full) (element-type HsVisitView): the visits of a job, in order. Reads only. */
GPtrArray *hs_visit_view_list (HsBook *book, const char *job_id, HsInstant now, GError **error);

/** hs_visit_view_runs: whether the labor clock of this visit runs. */
gboolean hs_visit_view_runs (const HsVisitView *view);

/** hs_visit_view_is_open: whether somebody is at the vehicle, also while the clock stands still. */
gboolean hs_visit_view_is_open (const HsVisitView *view);

G_END_DECLS
