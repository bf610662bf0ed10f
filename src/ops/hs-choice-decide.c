// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The customer's answer to an option: who, how, when, which risk was told. The cheaper one is written down like any
 * other, without a remark; a no that was signed keeps its signature. Refuses an answer by nobody, one of which nobody
 * says how it came, one that was signed without its signature, a no or a later without the risk, a call on a day that
 * is over, a yes that would pass the go-ahead, and one to a job that is called off.
 */

#include "hs-choice-private.h"

#include "hs-log-row.h"
#include "hs-ops-private.h"

/* Stands in the log where other entries have their table: words that a pick lent to another option. */
#define TOLD "told by a pick"

/* A customer who put it off is called after two weeks. */
#define CALL_DAYS 14

typedef struct
{
  HsBook *book;
  HsStore *store;
  const HsChoiceAnswer *answer;
  const char *choice;
  const char *means;
  char *by;
  HsInstant now;
  HsInstant at; /* of the answer */
  HsDate today;
  HsAdviceRow *row;
} Decision;

static void
decision_clear (Decision *decision)
{
  g_free (decision->by);
  hs_advice_row_free (decision->row);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Decision, decision_clear)

static gboolean
read_answer (Decision *decision, GError **error)
{
  const HsChoiceAnswer *answer = decision->answer;

  if (!hs_ops_word (HS_WORDS_CHOICE, answer->choice, "open", &decision->choice, error)
      || !hs_ops_word (HS_WORDS_MEANS, answer->means, NULL, &decision->means, error))
    return FALSE;
  if (g_str_equal (decision->choice, "open"))
    return TRUE;
  if (hs_ops_blank_to_null (answer->by) == NULL)
    return hs_ops_refuse (error, "Who decided? An answer needs a name.");
  decision->by = g_strstrip (g_strdup (answer->by));
  return TRUE;
}

/* Asked after the risk: who says no has to hear it first. */
static gboolean
read_means (Decision *decision, GError **error)
{
  const HsChoiceAnswer *answer = decision->answer;

  if (g_str_equal (decision->choice, "open"))
    return TRUE;
  return hs_go_ahead_read_means (answer->means, answer->signature, &decision->means, error)
         && hs_go_ahead_check_signature (answer->signature, decision->means, error);
}

/* Of a no or a later; a yes is signed in its go-ahead, and with an answer that is taken back its signature goes. */
static void
write_signature (const Decision *decision, HsAdviceRow *row)
{
  gboolean declined = g_str_equal (decision->choice, "no") || g_str_equal (decision->choice, "later");

  g_clear_pointer (&row->signature, g_bytes_unref);
  if (declined && decision->answer->signature != NULL)
    row->signature = g_bytes_ref (decision->answer->signature);
}

static void
write_answer (const Decision *decision, HsAdviceRow *row, const char *choice, HsInstant at)
{
  gboolean open = g_str_equal (choice, "open");

  hs_row_set (&row->choice, choice);
  hs_row_set (&row->decided_by, open ? NULL : decision->by);
  hs_row_set (&row->means, open ? NULL : decision->means);
  row->decided_at = open ? HS_INSTANT_NONE : at;
}

static gboolean
has_risk (const HsAdviceRow *row)
{
  return hs_ops_blank_to_null (row->risk_told) != NULL && !g_str_has_prefix (row->risk_told, HS_CHOICE_NO_RISK);
}

static gboolean
has_words_of_lesser (const Decision *decision, const HsAdviceRow *row, GPtrArray *rows)
{
  for (guint i = 0; row->rank != HS_INT_NONE && i < rows->len; i++)
    {
      const HsAdviceRow *lesser = g_ptr_array_index (rows, i);

      if (!g_str_equal (lesser->id, decision->row->id) && lesser->rank != HS_INT_NONE && row->rank < lesser->rank
          && g_strcmp0 (lesser->option_group, row->option_group) == 0
          && g_strcmp0 (lesser->risk_told, row->risk_told) == 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_lent_words (const Decision *decision, const HsAdviceRow *row, gboolean *ret_lent, GError **error)
{
  g_autoptr (GPtrArray) log = NULL;

  if (!hs_log_row_list_of (decision->store, TOLD, row->id, &log, error))
    return FALSE;
  *ret_lent = log->len > 0
              && g_strcmp0 (((const HsLogRow *) g_ptr_array_index (log, log->len - 1))->became, row->risk_told) == 0;
  return TRUE;
}

/* Said of it by the pick of another one, whose words it has, and so as good as that pick; not what was signed or put
 * off with it. Of a better one the words themselves say so; without ranks both may have them, and the log knows. */
static gboolean
is_told_by_pick (const Decision *decision, const HsAdviceRow *row, GPtrArray *rows, gboolean *ret_told, GError **error)
{
  *ret_told = FALSE;
  if (!has_risk (row) || row->option_group == NULL || row->signature != NULL || g_str_equal (row->choice, "later"))
    return TRUE;
  *ret_told = has_words_of_lesser (decision, row, rows);
  return *ret_told || has_lent_words (decision, row, ret_told, error);
}

static gboolean
take_back_risk (const Decision *decision, HsAdviceRow *row, GError **error)
{
  gboolean picked = g_str_equal (decision->choice, "yes") && row->rank == HS_INT_NONE;
  g_autoptr (GPtrArray) rows = NULL;
  gboolean told;

  if (!(picked || g_str_equal (decision->choice, "open")) || !g_str_equal (row->choice, "no"))
    return TRUE;
  if (!hs_advice_row_list_of (decision->store, row->job_id, &rows, error)
      || !is_told_by_pick (decision, row, rows, &told, error))
    return FALSE;
  if (told)
    hs_row_set (&row->risk_told, NULL);
  return TRUE;
}

static gboolean
write_risk (const Decision *decision, HsAdviceRow *row, GError **error)
{
  const char *risk = hs_ops_blank_to_null (decision->answer->risk);

  if (!take_back_risk (decision, row, error))
    return FALSE;
  if (risk != NULL)
    {
      g_free (row->risk_told);
      row->risk_told = g_strstrip (g_strdup (risk));
    }
  if (has_risk (row))
    return TRUE;
  /* That it was left for another one does not hold any more. */
  hs_row_set (&row->risk_told, NULL);
  if (g_str_equal (decision->choice, "yes") || g_str_equal (decision->choice, "open"))
    return TRUE;
  return hs_ops_refuse (error, "Which risk was told? Say in one sentence what may happen without “%s”.", row->wording);
}

static gboolean
write_call (const Decision *decision, HsAdviceRow *row, GError **error)
{
  HsDate wanted = decision->answer->call_on;
  HsDate old_day = row->chase_on;
  gboolean later = g_str_equal (decision->choice, "later");

  if (!later && !g_str_equal (decision->choice, "no"))
    wanted = HS_DATE_NONE;
  else if (wanted == HS_DATE_NONE && later)
    wanted = hs_date_add_days (decision->today, CALL_DAYS);
  if (wanted != HS_DATE_NONE && wanted <= decision->today)
    return hs_ops_refuse (error, "The day to call about “%s” is not after today; name a later one.", row->wording);
  row->chase_on = wanted;
  return hs_choice_call (decision->book, row, old_day, decision->now, error);
}

/* The rest of a group ---------------------------------------------------------------------------------------------- */

/* Each keeps its own sentence; what an earlier pick told of a better one is told anew. Whoever takes the lesser option
 * was told by its sentence what the better one would spare; of what is no better than the picked one nothing was
 * told. */
static gboolean
risk_of_rest (const Decision *decision, HsAdviceRow *other, GError **error)
{
  const HsAdviceRow *picked = decision->row;
  gboolean ranked = picked->rank != HS_INT_NONE && other->rank != HS_INT_NONE;

  if (has_risk (other))
    return TRUE;
  if (has_risk (picked) && (!ranked || other->rank < picked->rank))
    {
      hs_row_set (&other->risk_told, picked->risk_told);
      return ranked || hs_log_row_add_deed (decision->store, TOLD, other->id, "added", other->risk_told, error);
    }
  if (has_risk (picked) || (ranked && picked->rank < other->rank))
    {
      g_free (other->risk_told);
      other->risk_told = g_strdup_printf (HS_CHOICE_NO_RISK "%s” was picked", picked->wording);
    }
  else
    return hs_ops_refuse (error, "“%s” leaves out “%s”. Say in one sentence what may happen then.", picked->wording,
                          other->wording);
  return TRUE;
}

static gboolean
answer_rest (const Decision *decision, HsAdviceRow *other, GPtrArray *rows, GError **error)
{
  gboolean ranked = other->rank != HS_INT_NONE && decision->row->rank != HS_INT_NONE;
  gboolean told;

  if (!is_told_by_pick (decision, other, rows, &told, error))
    return FALSE;
  told &= !ranked || other->rank < decision->row->rank;
  if (g_str_equal (other->choice, "yes")
      && (!hs_choice_off_bill (decision->book, other, error)
          || !hs_choice_note_taken_back (decision->store, other, decision->now, error)))
    return FALSE;
  if (!told && !g_str_equal (other->choice, "open") && !g_str_equal (other->choice, "yes"))
    return TRUE;
  if (told)
    hs_row_set (&other->risk_told, NULL);
  write_answer (decision, other, "no", decision->answer->at != 0 ? decision->answer->at : decision->now);
  return risk_of_rest (decision, other, error) && hs_advice_row_save (decision->store, other, error);
}

static gboolean
answer_group (const Decision *decision, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (decision->row->option_group == NULL)
    return TRUE;
  if (!hs_advice_row_list_of (decision->store, decision->row->job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      HsAdviceRow *other = g_ptr_array_index (rows, i);

      if (!g_str_equal (other->id, decision->row->id)
          && g_strcmp0 (other->option_group, decision->row->option_group) == 0
          && !answer_rest (decision, other, rows, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_room (const Decision *decision, GError **error)
{
  g_autoptr (HsGoAheadRoom) room
      = hs_go_ahead_check (decision->book, decision->row->job_id, NULL, 0, decision->now, error);
  g_autofree char *said = NULL;

  if (room == NULL)
    return FALSE;
  if (!room->given || room->short_cents == 0)
    return TRUE;
  said = hs_go_ahead_room_say (decision->book, room);
  return hs_ops_refuse (error, "With “%s”: %s", decision->row->wording, said);
}

/* Only the fee is charged of one; its lines would stand beside it. */
static gboolean
check_called_off (const Decision *decision, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (decision->store, decision->row->job_id, &job, error))
    return FALSE;
  return !g_str_equal (job->stage, hs_stage_id (HS_STAGE_CALLED_OFF))
         || hs_ops_refuse (error, "%s is called off; take it up again before “%s” is done.", job->number,
                           decision->row->wording);
}

static gboolean
write_bill (const Decision *decision, gboolean was_yes, GError **error)
{
  gboolean yes = g_str_equal (decision->choice, "yes");

  if (was_yes && !yes)
    return hs_choice_off_bill (decision->book, decision->row, error)
           && hs_choice_put_call_out (decision->book, decision->row->job_id, error);
  if (!yes)
    return TRUE;
  return check_called_off (decision, error) && answer_group (decision, error)
         && (was_yes || hs_choice_on_bill (decision->book, decision->row, error))
         && hs_choice_put_call_out (decision->book, decision->row->job_id, error) && check_room (decision, error);
}

/* Work is agreed from its first yes on; that it is said once more, or to another option of the group, makes nothing
 * dearer. */
static gboolean
find_at (Decision *decision, GError **error)
{
  decision->at = decision->answer->at != 0 ? decision->answer->at : decision->now;
  return decision->answer->at != 0 || !g_str_equal (decision->choice, "yes")
         || hs_choice_agreed_at (decision->store, decision->row, &decision->at, error);
}

static gboolean
decide (Decision *decision, GError **error)
{
  HsAdviceRow *row = decision->row;
  gboolean was_yes = g_str_equal (row->choice, "yes");

  hs_ops_note (decision->store, row->job_id, "%s: %s", row->wording,
               hs_words_label (HS_WORDS_CHOICE, decision->choice));
  if (!write_risk (decision, row, error) || !read_means (decision, error) || !write_call (decision, row, error)
      || !find_at (decision, error)
      || (was_yes && !g_str_equal (decision->choice, "yes")
          && !hs_choice_note_taken_back (decision->store, row, decision->now, error)))
    return FALSE;
  write_answer (decision, row, decision->choice, decision->at);
  write_signature (decision, row);
  return hs_advice_row_save (decision->store, row, error) && write_bill (decision, was_yes, error);
}

/* A yes up to a sum is a row of its own, outside the step, for it is never taken back. */
static gboolean
raise_ceiling (const Decision *decision, GError **error)
{
  const HsChoiceAnswer *answer = decision->answer;
  const HsGoAheadEntry entry = { answer->ceiling_cents, decision->by, decision->means, answer->signature, answer->at };

  if (answer->ceiling_cents == HS_INT_NONE)
    return answer->signature == NULL || !g_str_equal (decision->choice, "yes")
           || hs_ops_refuse (error, "A signed yes goes with a go-ahead; write down up to how much.");
  if (!g_str_equal (decision->choice, "yes"))
    return hs_ops_refuse (error, "A go-ahead goes with a yes.");
  return hs_go_ahead_give (decision->book, decision->row->job_id, &entry, decision->now, error);
}

static gboolean
raise_and_decide (Decision *decision, const char *choice_id, GError **error)
{
  return hs_advice_row_load (decision->store, choice_id, &decision->row, error) && raise_ceiling (decision, error)
         && hs_store_begin (decision->store, decision->now, error)
         && hs_store_end (decision->store, decide (decision, error), error);
}

gboolean
hs_choice_decide (HsBook *book, const char *choice_id, const HsChoiceAnswer *answer, HsInstant now, GError **error)
{
  g_auto (Decision) decision = { .book = book, .store = hs_book_get_store (book), .answer = answer, .now = now,
                                 .today = hs_ops_today (book, now) };

  return read_answer (&decision, error) && hs_store_begin (decision.store, now, error)
         && hs_store_end (decision.store, raise_and_decide (&decision, choice_id, error), error);
}
