// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-interview.h"
#include "hs-parked.h"

G_BEGIN_DECLS

/* What is asked on the phone and again beside the vehicle, with the answers of one job. */

/** hs_data_load_interview: (transfer full): the questions that are compiled in. It needs no book. */
HsInterview *hs_data_load_interview (GError **error);

/**
 * HsAnswerLine: a question and, if it was answered, its answer.
 * @id: (nullable): of the question; %NULL for one that the list does not have
 * @words: the question
 * @brief: a word or two for a narrow row
 * @answers: (nullable) (array zero-terminated=1): the answers that have a digit
 * @decides: (nullable): what the answer decides
 * @phone, @again: asked then, of this job's complaint group
 * @answer: (nullable): what was answered
 * @said_by: (nullable): by whom
 * @at: when, or %HS_INSTANT_NONE
 * @fits: (nullable): how the answer stands beside the readings, in one sentence with the sum; only where a time was
 *   asked and answered
 * @verdict: if there is @fits
 */
typedef struct
{
  char *id;
  char *words;
  char *brief;
  char **answers;
  char *decides;
  HsInterviewEntry entry;
  gboolean phone;
  gboolean again;
  char *answer;
  char *said_by;
  HsInstant at;
  char *fits;
  HsParkedVerdict verdict;
} HsAnswerLine;

void hs_answer_line_free (HsAnswerLine *line);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsAnswerLine, hs_answer_line_free)

/**
 * hs_job_interview_load:
 *
 * Returns: (transfer full) (element-type HsAnswerLine): the questions of the job's group and of the interview, in the
 *   order of asking, each once, then whatever else was answered
 */
GPtrArray *hs_job_interview_load (HsBook *book, const char *job_id, GError **error);

/**
 * hs_answer_add:
 * @question: its id or its words; words that the list does not have are a question of its own
 * @text: what was typed, as hs_interview_dup_answer() takes it
 * @said_by: (nullable): who answered
 *
 * An answer is kept as what somebody said. Another answer to the same question takes its place.
 */
gboolean hs_answer_add (HsBook *book, const char *job_id, const char *question, const char *text, const char *said_by,
                        HsInstant now, GError **error);

G_END_DECLS
