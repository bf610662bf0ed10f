// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * HsJobRow:
 * @number: `A-0021`
 * @vehicle_id: (nullable): not known yet
 * @kind: id of the kind of job
 * @stage: id of hs_stage_id()
 * @complaint_group: (nullable): `will_not_start` …
 * @words: the caller's own
 * @day: planned for, or %HS_DATE_NONE
 * @window_from: first instant of the promise, or %HS_INSTANT_NONE
 * @window_to: last one, or %HS_INSTANT_NONE
 * @zone: (nullable): IANA zone in which the window was promised
 * @guess_seconds: work expected, or %HS_INT_NONE
 * @follows_job_id: (nullable): of a return visit, the earlier job
 * @return_why: (nullable): stays open when the job is squared
 * @safe_to_drive: (nullable): `yes`, `no`, `told_not_to`
 * @saw_it: (nullable): whether the complaint was seen to happen, `yes` or `no`; stands once squared
 * @called_off_how: (nullable): `canceled`, `no_show`, `gone_on_arrival`
 * @owed_cents: invoiced and not paid; the store keeps it up to date
 * @rev: counts the changes; hs_job_row_save() counts
 * @changed_at: hs_job_row_save() stamps it with the transaction's now
 */
typedef struct
{
  char *id;
  char *number;
  char *van_id;
  char *worker_id;
  char *customer_id;
  char *vehicle_id;
  char *kind;
  char *stage;
  char *complaint_group;
  char *words;
  HsInstant called_at;
  char *area_id;
  char *street;
  char *access_note;
  HsDate day;
  HsInstant window_from;
  HsInstant window_to;
  char *zone;
  gint64 guess_seconds;
  char *follows_job_id;
  char *return_why;
  char *unproved_why;
  char *turned_away_why;
  char *called_off_why;
  char *safe_to_drive;
  char *note;
  gint64 owed_cents;
  gint64 rev;
  HsInstant changed_at;
  char *saw_it;
  char *called_off_how;
} HsJobRow;

HS_DECLARE_ROW (HsJobRow, hs_job_row)

/* hs_job_row_find: by number; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_job_row_find (HsStore *store, const char *number, HsJobRow **ret_row, GError **error);

/**
 * hs_job_row_move:
 * @reason: (nullable): kept as why it is not proven, called off or passed on, by @to
 *
 * Sets the stage; the book refuses what its rules forbid. Whether there is such a move at all is for the caller.
 */
gboolean hs_job_row_move (HsStore *store, const char *job_id, HsStage to, const char *reason, GError **error);

/* hs_job_row_is_called_off: nothing came of it; also once its fee is squared up. */
gboolean hs_job_row_is_called_off (const HsJobRow *job);

/**
 * hs_job_row_facts:
 * @ret_facts: (out caller-allocates): what hs_stage_check_move() asks; @currency is left %NULL
 */
gboolean hs_job_row_facts (HsStore *store, const char *job_id, HsStageFacts *ret_facts, GError **error);

/**
 * hs_job_row_list_day:
 * @van_id: (nullable): only this van's and those that no van has
 *
 * The jobs of a day in any stage, by start of window, then number.
 */
gboolean hs_job_row_list_day (HsStore *store, HsDate day, const char *van_id, GPtrArray **ret_rows, GError **error);

/* hs_job_row_list_of_vehicle: newest first. */
gboolean hs_job_row_list_of_vehicle (HsStore *store, const char *vehicle_id, GPtrArray **ret_rows, GError **error);

/* hs_job_row_list_of_customer: newest first. */
gboolean hs_job_row_list_of_customer (HsStore *store, const char *customer_id, guint limit, GPtrArray **ret_rows,
                                      GError **error);

/* hs_job_row_ids: (element-type utf8): of all jobs in a stage (%NULL: in all), newest first, for lazy lists. */
gboolean hs_job_row_ids (HsStore *store, const char *stage, GPtrArray **ret_ids, GError **error);

/* hs_job_row_count_closed: how many are squared up, called off or turned away; quick, however many. */
gboolean hs_job_row_count_closed (HsStore *store, guint64 *ret_count, GError **error);

/* hs_job_row_count: how many jobs are in a stage. */
gboolean hs_job_row_count (HsStore *store, HsStage stage, guint64 *ret_count, GError **error);

G_END_DECLS
