// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The questions of a job with their answers, and whether a time that was answered fits the draw and the battery. An
 * answer stays what somebody said: nothing here makes a finding of it. */

#include "hs-interview-op.h"

#include "hs-decimal.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-reading-private.h"
#include "hs-visit-row.h"

#define DRAW_CHECK "sleeping_draw"

HsInterview *
hs_data_load_interview (GError **error)
{
  g_autoptr (GBytes) bytes = hs_ops_load_data ("interview/questions.ini", error);
  gsize length;
  const char *data;

  if (bytes == NULL)
    return NULL;
  data = g_bytes_get_data (bytes, &length);
  return hs_interview_new_from_data (data, (gssize) length, error);
}

void
hs_answer_line_free (HsAnswerLine *line)
{
  if (line == NULL)
    return;
  g_free (line->id);
  g_free (line->words);
  g_free (line->brief);
  g_strfreev (line->answers);
  g_free (line->decides);
  g_free (line->answer);
  g_free (line->said_by);
  g_free (line->fits);
  g_free (line);
}

typedef struct
{
  HsBook *book;
  HsInterview *interview;
  HsJobRow *job;
  GPtrArray *asked;
  GPtrArray *readings;
  GPtrArray *lines;
} Make;

static void
make_clear (Make *make)
{
  g_clear_pointer (&make->job, hs_job_row_free);
  g_clear_pointer (&make->asked, g_ptr_array_unref);
  g_clear_pointer (&make->readings, g_ptr_array_unref);
  g_clear_pointer (&make->lines, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Make, make_clear)

/* The draw that was there before anything was done about it. */
static const HsReadingRow *
find_draw (const Make *make)
{
  const HsReadingRow *found = NULL;

  for (guint i = 0; i < make->readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (make->readings, i);

      if (g_str_equal (row->check_id, DRAW_CHECK) && row->value != HS_INT_NONE && !g_str_equal (row->phase, "after"))
        found = row;
    }
  return found;
}

static gboolean
fill_fits (const Make *make, HsAnswerLine *line, GError **error)
{
  const HsReadingRow *draw = find_draw (make);
  HsReadingScene scene = { make->book, make->job->vehicle_id, make->readings, NULL };
  HsParked parked;
  HsParkedCase given = { .parked = hs_parked_parse (line->answer, &parked) ? &parked : NULL };
  g_autoptr (HsParkedResult) result = NULL;

  if (draw != NULL)
    {
      given.amps = (double) draw->value / (double) hs_decimal_power ((guint) draw->decimals);
      if (!hs_reading_battery_of (&scene, draw, &given.amp_hours, &given.share, error))
        return FALSE;
    }
  result = hs_parked_judge (&given);
  line->fits = g_strdup (result->words);
  line->verdict = result->verdict;
  return TRUE;
}

static gboolean
fill_answer (const Make *make, HsAnswerLine *line, const HsAskedRow *asked, GError **error)
{
  line->answer = g_strdup (asked->answer);
  line->said_by = g_strdup (asked->said_by);
  line->at = asked->at;
  return line->entry != HS_INTERVIEW_TIME || fill_fits (make, line, error);
}

static HsAnswerLine *
find_line (const Make *make, const char *id)
{
  for (guint i = 0; i < make->lines->len; i++)
    {
      HsAnswerLine *line = g_ptr_array_index (make->lines, i);

      if (g_strcmp0 (line->id, id) == 0)
        return line;
    }
  return NULL;
}

static HsAnswerLine *
add_line (Make *make, const HsInterviewQuestion *question)
{
  HsAnswerLine *line = g_new0 (HsAnswerLine, 1);

  line->id = g_strdup (question->id);
  line->words = g_strdup (question->words);
  line->brief = g_strdup (question->brief);
  line->answers = g_strdupv ((char **) question->answers);
  line->decides = g_strdup (question->decides);
  line->entry = question->entry;
  line->at = HS_INSTANT_NONE;
  g_ptr_array_add (make->lines, line);
  return line;
}

static void
add_questions (Make *make)
{
  const HsInterviewQuestion *question;
  g_autoptr (GPtrArray) phone
      = hs_interview_list (make->interview, make->job->complaint_group, HS_INTERVIEW_PHONE);
  g_autoptr (GPtrArray) again
      = hs_interview_list (make->interview, make->job->complaint_group, HS_INTERVIEW_AGAIN);

  for (guint i = 0; (question = hs_interview_get_nth (make->interview, i)) != NULL; i++)
    {
      gboolean on_phone = g_ptr_array_find (phone, question, NULL);
      gboolean asked_again = g_ptr_array_find (again, question, NULL);
      HsAnswerLine *line;

      if (!on_phone && !asked_again)
        continue;
      line = add_line (make, question);
      line->phone = on_phone;
      line->again = asked_again;
    }
}

/* An answer goes to its question, by whatever words it was asked; a second one to the same question, and one that the
 * list does not have, get a line of their own. */
static gboolean
add_answer (Make *make, const HsAskedRow *asked, GError **error)
{
  const HsInterviewQuestion *question = hs_interview_find (make->interview, asked->question);
  HsAnswerLine *line = question == NULL ? NULL : find_line (make, question->id);
  HsInterviewQuestion own = { .words = asked->question, .brief = asked->question, .entry = HS_INTERVIEW_WORDS };

  if (line == NULL && question != NULL)
    line = add_line (make, question);
  if (line == NULL || line->answer != NULL)
    line = add_line (make, &own);
  return fill_answer (make, line, asked, error);
}

GPtrArray *
hs_job_interview_load (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_auto (Make) make = { .book = book, .interview = hs_book_get_interview (book, error) };

  if (make.interview == NULL || !hs_job_row_load (store, job_id, &make.job, error)
      || !hs_asked_row_list_of (store, job_id, &make.asked, error)
      || !hs_reading_row_list_of (store, job_id, &make.readings, error))
    return NULL;
  make.lines = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_answer_line_free);
  add_questions (&make);
  for (guint i = 0; i < make.asked->len; i++)
    if (!add_answer (&make, g_ptr_array_index (make.asked, i), error))
      return NULL;
  return g_steal_pointer (&make.lines);
}

/* Answering ---------------------------------------------------------------------------------------------------------*/

static gboolean
is_same (const HsInterview *interview, const HsInterviewQuestion *question, const char *words, const char *other)
{
  if (question != NULL)
    return hs_interview_find (interview, other) == question;
  return g_str_equal (words, other);
}

static gboolean
save_answer (HsStore *store, const HsInterview *interview, const HsInterviewQuestion *question, HsAskedRow *answer,
             GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_asked_row_list_of (store, answer->job_id, &rows, error))
    return FALSE;
  hs_ops_note (store, answer->job_id, "answer: %s", answer->question);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAskedRow *row = g_ptr_array_index (rows, i);

      /* The row whose words it has already; failing that, the first one that asks the same. */
      if (is_same (interview, question, answer->question, row->question)
          && (answer->id == NULL || g_str_equal (row->question, answer->question)))
        hs_row_set (&answer->id, row->id);
    }
  return hs_asked_row_save (store, answer, error);
}

gboolean
hs_answer_add (HsBook *book, const char *job_id, const char *question, const char *text, const char *said_by,
               HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  HsInterview *interview = hs_book_get_interview (book, error);
  g_autoptr (HsAskedRow) answer = hs_asked_row_new ();
  HsInterviewQuestion own = { .words = question, .entry = HS_INTERVIEW_WORDS };
  const HsInterviewQuestion *found;

  if (interview == NULL)
    return FALSE;
  if (hs_ops_blank_to_null (question) == NULL)
    return hs_ops_refuse (error, "A question and its answer both need words.");
  found = hs_interview_find (interview, question);
  answer->answer = hs_interview_dup_answer (found != NULL ? found : &own, text, error);
  if (answer->answer == NULL)
    return FALSE;
  hs_row_set (&answer->job_id, job_id);
  hs_row_set (&answer->question, found != NULL ? found->words : question);
  hs_row_set (&answer->said_by, hs_ops_blank_to_null (said_by));
  answer->at = now;
  return hs_store_begin (store, now, error)
         && hs_store_end (store, save_answer (store, interview, found, answer, error), error);
}
