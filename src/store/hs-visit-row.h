// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsVisitRow:
 * @drive_seconds: there, or %HS_INT_NONE
 * @drive_millimiles: there, or %HS_INT_NONE
 * @paper_seconds: written up afterwards, or %HS_INT_NONE
 * @safe_note: (nullable): "moved off the road", "refused because …"
 *
 * One coming and going. Instants are %HS_INSTANT_NONE until they happen.
 */
typedef struct
{
  char *id;
  char *job_id;
  HsInstant rolling_at;
  HsInstant arrived_at;
  HsInstant left_at;
  gint64 drive_seconds;
  gint64 drive_millimiles;
  gint64 paper_seconds;
  char *safe_note;
} HsVisitRow;

HS_DECLARE_ROW (HsVisitRow, hs_visit_row)

/* hs_visit_row_list_of: in order. */
gboolean hs_visit_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

/* hs_visit_row_list_during: of all jobs, those that had begun before @to and were not over at @from, in order. */
gboolean hs_visit_row_list_during (HsStore *store, HsInstant from, HsInstant to, GPtrArray **ret_rows, GError **error);

/**
 * HsPauseRow:
 * @to_at: %HS_INSTANT_NONE while it lasts
 *
 * The labor clock stands still.
 */
typedef struct
{
  char *id;
  char *visit_id;
  HsInstant from_at;
  HsInstant to_at;
  char *why;
} HsPauseRow;

HS_DECLARE_ROW (HsPauseRow, hs_pause_row)
gboolean hs_pause_row_list_of (HsStore *store, const char *visit_id, GPtrArray **ret_rows, GError **error);

/**
 * HsSafetyRow:
 * @item: id in the safety lists
 * @answer: `done`, `not_here`, `refused` (with @why)
 *
 * One answer to the safety list of a visit; an item is answered once.
 */
typedef struct
{
  char *id;
  char *visit_id;
  char *item;
  char *answer;
  char *why;
  HsInstant at;
} HsSafetyRow;

HS_DECLARE_ROW (HsSafetyRow, hs_safety_row)
gboolean hs_safety_row_list_of (HsStore *store, const char *visit_id, GPtrArray **ret_rows, GError **error);

/* hs_safety_row_find: the answer to one item; @ret_row is %NULL if there is none yet. */
gboolean hs_safety_row_find (HsStore *store, const char *visit_id, const char *item, HsSafetyRow **ret_row,
                             GError **error);

/**
 * HsAskedRow:
 * @said_by: (nullable): who answered
 *
 * A question of the call and its answer; a question is asked once a job.
 */
typedef struct
{
  char *id;
  char *job_id;
  char *question;
  char *answer;
  char *said_by;
  HsInstant at;
} HsAskedRow;

HS_DECLARE_ROW (HsAskedRow, hs_asked_row)
gboolean hs_asked_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);

G_END_DECLS
