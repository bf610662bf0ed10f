// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsInterview:
 *
 * The questions that are asked: on the phone by complaint group, and again beside the vehicle. Made from the text of
 * data/interview/questions.ini. Never changes once made, so it can be read from any thread.
 */
typedef struct _HsInterview HsInterview;

/* When it is asked. */
typedef enum
{
  HS_INTERVIEW_PHONE,
  HS_INTERVIEW_AGAIN,
} HsInterviewWhen;

/**
 * HsInterviewEntry:
 * @HS_INTERVIEW_CHOICE: one of a few answers, a digit each
 * @HS_INTERVIEW_YES_NO: 1 is yes, 2 is no
 * @HS_INTERVIEW_TIME: a time that hs_parked_parse() may understand; digits alone are days
 * @HS_INTERVIEW_WORDS: words as they are said
 *
 * What a number pad types. Words are taken for each of them.
 */
typedef enum
{
  HS_INTERVIEW_CHOICE,
  HS_INTERVIEW_YES_NO,
  HS_INTERVIEW_TIME,
  HS_INTERVIEW_WORDS,
} HsInterviewEntry;

/**
 * HsInterviewQuestion:
 * @id: its name: `parked`
 * @words: as it is asked, and as it stands in the book
 * @brief: a word or two for a narrow row
 * @entry: what is typed
 * @answers: (nullable) (array zero-terminated=1): the answers that have a digit, the first is typed as 1
 * @decides: (nullable): what the answer decides, for the owner
 *
 * One question. Fields are (transfer none) and belong to the list.
 */
typedef struct
{
  const char *id;
  const char *words;
  const char *brief;
  HsInterviewEntry entry;
  const char *const *answers;
  const char *decides;
} HsInterviewQuestion;

/**
 * hs_interview_new_from_data:
 * @data: UTF-8 text of data/interview/questions.ini
 * @length: bytes, or −1 if zero-terminated
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the section, the key and what is wrong
 *
 * Returns: (transfer full): free with hs_interview_unref()
 */
HsInterview *hs_interview_new_from_data (const char *data, gssize length, GError **error);
HsInterview *hs_interview_ref (HsInterview *interview);
void hs_interview_unref (HsInterview *interview);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsInterview, hs_interview_unref)

guint hs_interview_get_n_questions (const HsInterview *interview);

/* hs_interview_get_nth: (transfer none) (nullable): in the order of asking; %NULL behind the last. */
const HsInterviewQuestion *hs_interview_get_nth (const HsInterview *interview, guint nth);

/**
 * hs_interview_find:
 * @text: an id, or the question in its own words or in words of an older list; case and punctuation make no difference
 *
 * Returns: (transfer none) (nullable)
 */
const HsInterviewQuestion *hs_interview_find (const HsInterview *interview, const char *text);

/**
 * hs_interview_list:
 * @group: (nullable): complaint group; %NULL gives those that are asked of every group
 *
 * Returns: (transfer container) (element-type HsInterviewQuestion): what is asked then, in the order of asking
 */
GPtrArray *hs_interview_list (const HsInterview *interview, const char *group, HsInterviewWhen when);

/* hs_interview_get_nth_group: (transfer none) (nullable): the groups that a question names then, %NULL behind the last;
 * a question of every group names none. */
const char *hs_interview_get_nth_group (const HsInterview *interview, const HsInterviewQuestion *question,
                                        HsInterviewWhen when, guint nth);

/**
 * hs_interview_dup_answer:
 * @text: what was typed: a digit of an answer, or words
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE: nothing was typed, or a digit that has no answer
 *
 * Returns: (transfer full) (nullable): the words that a book keeps
 */
char *hs_interview_dup_answer (const HsInterviewQuestion *question, const char *text, GError **error);

G_END_DECLS
