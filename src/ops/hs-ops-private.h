// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-interview.h"
#include "hs-job-row.h"
#include "hs-undo.h"
#include "hs-van-row.h"
#include "hs-words.h"

G_BEGIN_DECLS

/* What the operations share; private to the ops layer. */

/* hs_ops_refuse: sets %HS_OPS_ERROR_REFUSED with a sentence for the owner. Always %FALSE. */
gboolean hs_ops_refuse (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_ops_doubts: sets %HS_OPS_ERROR_WANTS_WHY. Always %FALSE. */
gboolean hs_ops_doubts (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_ops_passes: sets %HS_OPS_ERROR_PAST_CEILING. Always %FALSE. */
gboolean hs_ops_passes (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_ops_not_found: sets %HS_OPS_ERROR_NOT_FOUND. Always %FALSE. */
gboolean hs_ops_not_found (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_ops_is_not_found: the store said that there is no such row. */
gboolean hs_ops_is_not_found (const GError *error);

/* hs_ops_only_missing: %FALSE if @failure is worse than that there is no such row; it is then handed on to @error. */
gboolean hs_ops_only_missing (GError **failure, GError **error);

/* hs_ops_load_data: one of the data files compiled in, `checks/checks.ini`, `reference/…` or `demo/…`. */
GBytes *hs_ops_load_data (const char *name, GError **error);

/* hs_ops_van: the van of that letter, or for %NULL the first one. */
gboolean hs_ops_van (HsBook *book, const char *letter, HsVanRow **ret_van, GError **error);

/* hs_ops_first_van: the van with the first letter. */
gboolean hs_ops_first_van (HsBook *book, HsVanRow **ret_van, GError **error);

/* hs_ops_blank_to_null: %NULL for a text of nothing but blanks. */
const char *hs_ops_blank_to_null (const char *text);

/* hs_ops_check_group: refuses a complaint group that the catalog of checks does not have. */
gboolean hs_ops_check_group (HsBook *book, const char *group, GError **error);

/* hs_ops_said_back: (transfer full): the first forty letters of what was typed, for the sentence that refuses it; %NULL
 * is nothing typed. */
char *hs_ops_said_back (const char *text);

/* hs_ops_read_own: the text of a list that the owner lays beside the book; @of: what it lists, for the refusal.
 * Returns: %FALSE without an error if there is no such file. */
gboolean hs_ops_read_own (const char *path, const char *of, char **ret_text, gsize *ret_length, GError **error);

/* hs_ops_today: the day on the wall of the business. */
HsDate hs_ops_today (HsBook *book, HsInstant now);

/* hs_ops_word: reads a word of a closed list; %NULL gives @standard. */
gboolean hs_ops_word (HsWords words, const char *text, const char *standard, const char **ret_id, GError **error);

/* hs_ops_note: what is done from here to the end of the transaction is one step of the job that can be taken back;
 * hs_undo_note() with words that are put together. */
void hs_ops_note (HsStore *store, const char *job_id, const char *format, ...) G_GNUC_PRINTF (3, 4);

/* hs_ops_note_vehicle: the same for what is done on a vehicle: a step of its latest job, if that is still open. */
gboolean hs_ops_note_vehicle (HsStore *store, const char *vehicle_id, const char *what, GError **error);

/* hs_job_move_stage_raw: like hs_job_move_stage(), but squares without an invoice; for hs_job_square() alone. */
gboolean hs_job_move_stage_raw (HsBook *book, const char *job_id, HsStage to, const char *reason, HsInstant now,
                                GError **error);

/* hs_book_get_proven_causes: (transfer none) (element-type HsProvenCause): of the squared jobs as they stand. */
gboolean hs_book_get_proven_causes (HsBook *book, GPtrArray **ret_causes, GError **error);

/* hs_book_get_own_answers: (transfer none): kept beside them as long as they stand: "JOB CHECK" → the answer that was
 * read, 0 if none was. */
GHashTable *hs_book_get_own_answers (HsBook *book);

/* hs_book_get_interview: (transfer none) (nullable): the questions, read once for a book. */
HsInterview *hs_book_get_interview (HsBook *book, GError **error);

/* hs_book_refresh: reads zone and currency again after a setting changed. */
gboolean hs_book_refresh (HsBook *book, GError **error);

G_END_DECLS
