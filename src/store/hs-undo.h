// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/*
 * Taking back what was done on a job, step by step, until it is squared up. A step is what an operation changed
 * between hs_undo_note() and the end of its transaction: the store notes every row that is added, changed or removed
 * through the functions of the rows, and keeps the step in the book with the rows themselves, so that it outlives the
 * program.
 *
 *     if (!hs_store_begin (store, now, error))
 *       return FALSE;
 *     hs_undo_note (store, job_id, "reading 12.42 V");
 *     return hs_store_end (store, hs_reading_row_save (store, row, error), error);
 *
 * Not noted are drafts and the bytes of photos. A go-ahead, an invoice and a payment are never altered, so an operation
 * that only adds one notes no step.
 */

/**
 * hs_undo_note:
 * @job_id: (nullable): the job that it belongs to; %NULL: no job, and nothing is noted
 * @what: what it is, in the owner's words: "stage: at the vehicle"
 *
 * From here to the end of the innermost hs_store_begin() all changes are one step. In the same transaction a second
 * call says better words; while a book is filled in bulk, it does nothing. A step that changes no row is not kept.
 * Needs a transaction.
 *
 * Where operations call each other, depth decides. A step belongs to the hs_store_begin() in which it was noted first;
 * while it is open, a note further in does nothing, so that what an inner operation does goes with the outer step and
 * is said in its words. An inner note that comes before the outer one is a step of its own, which ends with the inner
 * hs_store_end(): what the outer operation does afterwards would be another. An operation that calls others therefore
 * notes first of all.
 */
void hs_undo_note (HsStore *store, const char *job_id, const char *what);

/**
 * HsUndoStep:
 * @seq: grows from step to step over the whole book
 * @what: in the owner's words
 * @at: when it was done
 * @undone_at: when it was taken back, or %HS_INSTANT_NONE
 * @kept: (nullable): of a step that was just turned: the numbers of squared jobs whose labor clock it had changed and
 *   now left as it is
 */
typedef struct
{
  gint64 seq;
  char *id;
  char *job_id;
  char *what;
  HsInstant at;
  HsInstant undone_at;
  char *kept;
} HsUndoStep;

void hs_undo_step_free (HsUndoStep *step);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsUndoStep, hs_undo_step_free)

/**
 * hs_undo_list:
 * @ret_steps: (out) (element-type HsUndoStep): newest first, those taken back too
 */
gboolean hs_undo_list (HsStore *store, const char *job_id, GPtrArray **ret_steps, GError **error);

/**
 * hs_undo_newest:
 * @undone: the step that was taken back last, if nothing was done since; else the latest one that stands
 * @ret_step: (out) (nullable): on whatever job; %NULL if there is none
 */
gboolean hs_undo_newest (HsStore *store, gboolean undone, HsUndoStep **ret_step, GError **error);

/**
 * hs_undo_last:
 * @now: stamped on the changes in the log
 * @ret_step: (out) (optional) (transfer full): what was taken back
 *
 * Takes back the latest step of a job that is not taken back yet, in one transaction. Every change goes into the log of
 * changes and into the search index as any other; the revision of the job counts on. Nothing changes and %FALSE comes
 * with %HS_STORE_ERROR_NOT_FOUND if there is no step, with %HS_STORE_ERROR_REFUSED if the job is squared up, if a row
 * of the step was changed since, or if a rule of the book stands against it.
 *
 * A step may have stopped the labor clock of another job. If that is squared up since, its clock stays as it is and the
 * rest of the step is taken back.
 */
gboolean hs_undo_last (HsStore *store, const char *job_id, HsInstant now, HsUndoStep **ret_step, GError **error);

/* hs_undo_again: does again what was taken back last; a new step of the job ends that. */
gboolean hs_undo_again (HsStore *store, const char *job_id, HsInstant now, HsUndoStep **ret_step, GError **error);

G_END_DECLS
