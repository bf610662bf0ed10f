// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * HsCallSlip: what is written while the phone is at the ear. Only @words and one of @phone or @name are needed.
 * @job_id: %NULL for a new call
 * @plate: may be %NULL; a known plate is that vehicle, a new one is added when @make and @model are there or later
 * @window_from, @window_to: minutes of @day; -1: that end stays open
 * @minutes: work expected, or 0
 * @van: letter of a van, %NULL for the first
 * @follows: number of the earlier job, for a return visit
 * @return_why: id of why it came back; %NULL: not decided
 */
typedef struct
{
  const char *job_id;
  const char *phone;
  const char *name;
  const char *words;
  const char *plate;
  const char *make;
  const char *model;
  const char *group;
  const char *kind;
  const char *area;
  const char *street;
  HsDate day;
  int window_from;
  int window_to;
  int minutes;
  const char *van;
  const char *follows;
  const char *return_why;
} HsCallSlip;

/** hs_call_take: writes or rewrites a call slip: customer, vehicle and job in one transaction. Returns the job's id. */
char *hs_call_take (HsBook *book, const HsCallSlip *slip, HsInstant now, GError **error);

/**
 * HsStageMove:
 * @reason: for `called_off`, `turned_away`, or `unproved_why` on the way to `proven`; may be %NULL
 */
gboolean hs_job_move_stage (HsBook *book, const char *job_id, HsStage to, const char *reason, HsInstant now,
                            GError **error);

/** hs_job_check_move: whether hs_job_move_stage() would do it; nothing is written. */
gboolean hs_job_check_move (HsBook *book, const char *job_id, HsStage to, const char *reason, GError **error);

/** hs_job_why_not: the first rule of the stages that hs_job_check_move() would name. */
gboolean hs_job_why_not (HsBook *book, const char *job_id, HsStage to, const char *reason, HsStageWhyNot *ret_why_not,
                         GError **error);

/** hs_job_next_stage: the stage that one key leads to from where the job stands. */
HsStage hs_job_next_stage (HsStage from);

/** hs_job_find: the id of a job number such as "A-0021"; HS_OPS_ERROR_NOT_FOUND otherwise. */
char *hs_job_find (HsBook *book, const char *number, GError **error);

/** Visits: the labor clock. hs_job_move_stage() opens and stamps them; these pause and resume on site. */
gboolean hs_visit_pause (HsBook *book, const char *job_id, HsInstant now, GError **error);
gboolean hs_visit_resume (HsBook *book, const char *job_id, HsInstant now, GError **error);

/** hs_visit_drive: how long and how far the drive to and from the latest visit was. */
gboolean hs_visit_drive (HsBook *book, const char *job_id, gint64 seconds, gint64 millimiles, HsInstant now,
                         GError **error);

/**
 * hs_visit_set_minutes:
 * @minutes: without pauses; 0: none
 *
 * How long the first visit took of which the labor clock has no minutes, since the machine's clock was put back on it.
 * Refused where there is none.
 */
gboolean hs_visit_set_minutes (HsBook *book, const char *job_id, gint64 minutes, HsInstant now, GError **error);

/** hs_visit_seconds: the labor clock: seconds on site over all visits without pauses; an open visit counts to @now. */
gboolean hs_visit_seconds (HsBook *book, const char *job_id, HsInstant now, gint64 *ret_seconds, GError **error);

/** hs_visit_seconds_until: what of it was before @until. */
gboolean hs_visit_seconds_until (HsBook *book, const char *job_id, HsInstant until, gint64 *ret_seconds,
                                 GError **error);

/**
 * HsReadingEntry:
 * @check: the check's id
 * @keyed: what was keyed: "1242" (the check's decimals are implied), "12.42", "/" over range, "*" not measured; the
 *   digit of an answer, codes or words where the check gives no number
 * @text: instead of @keyed, the value as a file or a command writes it: "12.42", "5 of 5", "over range"
 * @unit: %NULL, or must be the check's unit
 * @phase: `before`, `during`, `after`
 * @place: where on the vehicle, may be %NULL
 * @conditions: as hs_conditions_put() takes them, with remarks between them, may be %NULL
 * @why_not: why it could not be measured, for "*"
 * @sure: @keyed is kept although it is beyond what is likely: whoever typed it was asked
 * @at: when, or %HS_INSTANT_NONE for now
 */
typedef struct
{
  const char *check;
  const char *keyed;
  const char *text;
  const char *unit;
  const char *phase;
  const char *place;
  const char *conditions;
  const char *why_not;
  gboolean sure;
  HsInstant at;
} HsReadingEntry;

/**
 * HsReadingResult: a stored reading with its verdict.
 * @value_text: "12.42 V", "over range", "not measured"
 * @verdict: id; @word: what to show; @why: one sentence; @limit: "12.40 V or more"; @source: who says so;
 * @sure: how sure that is: "official text", "common practice", "maker's value", …, may be empty; @whose: whose limit it
 * is: `catalog`, `owner`, `maker`; %NULL in a row without a reading;
 * @answer: where the check gives words, these, else %NULL; then there is no @value;
 * @then: checks that the result suggests next, by their ids, may be %NULL;
 * @wanted: conditions that nobody has told and that could change the verdict, by their ids, may be %NULL;
 * @why_not: why it could not be measured, may be %NULL;
 * @next: what to check next, may be %NULL; @note: "71 %", "3.2 days to no-start", may be %NULL
 */
typedef struct
{
  char *id;
  char *check;
  char *name;
  char *how;
  char *caution;
  char *phase;
  char *place;
  char *value_text;
  double value;
  gboolean has_value;
  char *unit;
  char *verdict;
  char *word;
  char *why;
  char *limit;
  char *source;
  char *next;
  char *note;
  char *sure;
  char *whose;
  char *answer;
  char *why_not;
  char **then;
  char **wanted;
  HsInstant at;
} HsReadingResult;

void hs_reading_result_free (HsReadingResult *result);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsReadingResult, hs_reading_result_free)

/** hs_reading_judge: the verdict without storing; @vehicle_id may be %NULL. */
HsReadingResult *hs_reading_judge (HsBook *book, const char *vehicle_id, const HsReadingEntry *entry, HsInstant now,
                                   GError **error);

/** hs_reading_try: the verdict that hs_reading_add() would give, with all that the job knows, without storing. */
HsReadingResult *hs_reading_try (HsBook *book, const char *job_id, const HsReadingEntry *entry, HsInstant now,
                                 GError **error);
HsReadingResult *hs_reading_add (HsBook *book, const char *job_id, const HsReadingEntry *entry, HsInstant now,
                                 GError **error);

/**
 * hs_reading_tell:
 * @condition: what its verdict depends on, by its id
 * @text: (nullable): as hs_conditions_put() takes it; %NULL: nobody knows
 *
 * What was not told when the reading was stored, or was told otherwise; refused once the job is squared.
 */
gboolean hs_reading_tell (HsBook *book, const char *reading_id, const char *condition, const char *text, HsInstant now,
                          GError **error);

/** hs_reading_remove: takes a reading back; refused once the job is squared. */
gboolean hs_reading_remove (HsBook *book, const char *reading_id, HsInstant now, GError **error);

/**
 * hs_job_sheet: the findings sheet of a job: one row a check of its complaint group, in order, then any other check
 * that was read; @phase picks the column.
 *
 * Returns: (transfer full) (element-type HsReadingResult): rows without a reading have %NULL value_text.
 */
GPtrArray *hs_job_sheet (HsBook *book, const char *job_id, const char *phase, HsInstant now, GError **error);

/** hs_job_set_group: changes the complaint group (`will_not_start`, …). */
gboolean hs_job_set_group (HsBook *book, const char *job_id, const char *group, HsInstant now, GError **error);

/** Where was I: the one interrupted place of this book, so that a killed program reopens there. */
typedef struct
{
  char *job_id;
  char *job_number;
  char *page;
  char *field;
  char *text;
  HsInstant at;
} HsWhere;

void hs_where_free (HsWhere *where);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsWhere, hs_where_free)
HsWhere *hs_where_load (HsBook *book, GError **error);

/* hs_where_save: @field %NULL: what was typed on the page is given up or stored; if the owner was there, the page of
 * the job stays the place. */
gboolean hs_where_save (HsBook *book, const char *job_id, const char *page, const char *field, const char *text,
                        HsInstant now, GError **error);

/* Stands for the field where a page is looked at and nothing is being typed. */
#define HS_WHERE_HERE "."

/* Stands before the field of a place that was left of the owner's own will: it can be gone back to, but nothing was
 * interrupted there. */
#define HS_WHERE_LEFT "left:"

/* hs_where_visit: the owner is there now; what was typed there and not stored is kept. */
gboolean hs_where_visit (HsBook *book, const char *job_id, const char *page, const char *field, HsInstant now,
                         GError **error);

/* hs_where_leave: the job was left from where the owner was, unless something is half typed there: that is interrupted,
 * not left. @worked %FALSE: it was only looked at, and where the owner was before that counts again. */
gboolean hs_where_leave (HsBook *book, const char *job_id, gboolean worked, HsInstant now, GError **error);

/* hs_where_settle: what was typed into a field (@field %NULL: of the whole page) stands in the book as such now; the
 * place is kept, without its text. In the transaction that stores it, so that a kill between the two offers nothing
 * twice. */
gboolean hs_where_settle (HsBook *book, const char *job_id, const char *page, const char *field, HsInstant now,
                          GError **error);

G_END_DECLS
