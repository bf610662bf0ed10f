// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Usual jobs: how a setting words one, and what its digits do. Everything is done by the operations that any job goes
 * through, so that no rule of proof is passed by; what is short is only the typing. It refuses a wording that a later
 * sum or verdict would trip over, and a finish before the customer said yes.
 */

#include "hs-usual.h"

#include "hs-customer-row.h"
#include "hs-decimal.h"
#include "hs-job-life.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-settings-op.h"
#include "hs-text.h"

#include <string.h>

#define MOST_WHYS 8
#define MOST_MINUTES 480
#define MOST_CENTS 100000000

enum
{
  PART_NAME,
  PART_PRICE,
  PART_MINUTES,
  PART_GROUP,
  PART_PROOF,
  PART_WHYS,
  PART_CAUTION,
};

G_STATIC_ASSERT (PART_CAUTION + 1 == HS_USUAL_PARTS);

const char *const hs_usual_reasons[] = {
  "the customer had to go", "not safe here", "tool not on hand", "it cannot be tried here", NULL,
};

void
hs_usual_free (HsUsual *usual)
{
  if (usual == NULL)
    return;
  g_free (usual->name);
  g_free (usual->group);
  g_free (usual->check);
  g_free (usual->keyed);
  g_strfreev (usual->whys);
  g_strfreev (usual->ends);
  g_free (usual->caution);
  g_free (usual);
}

/* How it is worded ------------------------------------------------------------------------------------------------- */

/* (transfer full) (nullable): without blanks around it; %NULL if nothing is left. */
static char *
dup_part (char **parts, guint part)
{
  g_autofree char *text = part < g_strv_length (parts) ? g_strstrip (g_strdup (parts[part])) : NULL;

  return text == NULL || *text == '\0' ? NULL : g_steal_pointer (&text);
}

static gboolean
read_name (HsUsual *usual, char **parts, GError **error)
{
  usual->name = dup_part (parts, PART_NAME);
  return usual->name != NULL || hs_ops_refuse (error, "A usual job starts with its name: Jump start; 65.00; …");
}

static gboolean
read_price (HsBook *book, HsUsual *usual, char **parts, GError **error)
{
  guint decimals = (guint) hs_currency_decimals (hs_book_get_currency (book));
  g_autofree char *price = dup_part (parts, PART_PRICE);
  g_autofree char *minutes = dup_part (parts, PART_MINUTES);
  gint64 number;

  if (price == NULL || !hs_decimal_parse (price, decimals, &usual->price_cents, NULL) || usual->price_cents < 0
      || usual->price_cents > MOST_CENTS)
    return hs_ops_refuse (error, "The price of “%s” is written like 65.00, not “%s”.", usual->name,
                          price != NULL ? price : "");
  if (minutes == NULL || !hs_decimal_parse (minutes, 0, &number, NULL) || number < 1 || number > MOST_MINUTES)
    return hs_ops_refuse (error, "The minutes of “%s” are a whole number from 1 to %d, not “%s”.", usual->name,
                          MOST_MINUTES, minutes != NULL ? minutes : "");
  usual->minutes = (int) number;
  return TRUE;
}

static gboolean
read_proof (HsBook *book, HsUsual *usual, char **parts, GError **error)
{
  g_autofree char *text = dup_part (parts, PART_PROOF);
  g_auto (GStrv) words = text != NULL ? g_strsplit (text, " ", 2) : NULL;
  const HsCheck *check;
  HsReading reading;

  if (words == NULL)
    return TRUE;
  check = hs_checks_lookup (hs_book_get_checks (book), words[0]);
  if (check == NULL)
    return hs_ops_refuse (error, "“%s” is proven by a check, but there is none called “%s”.", usual->name, words[0]);
  if (words[1] != NULL && !hs_check_read_pad (check, g_strstrip (words[1]), &reading, NULL))
    return hs_ops_refuse (error, "“%s” cannot be keyed for %s.", words[1], check->name);
  usual->check = g_strdup (check->id);
  usual->keyed = g_strdup (words[1]);
  return TRUE;
}

/* "battery at its end=chosen"; without an end it is an outside influence, and the customer was told. */
static gboolean
read_why (HsUsual *usual, const char *text, GPtrArray *whys, GPtrArray *ends, GError **error)
{
  const char *equal = strrchr (text, '=');
  g_autofree char *why = g_strstrip (g_strndup (text, equal != NULL ? (gsize) (equal - text) : strlen (text)));
  g_autofree char *end = g_strstrip (g_strdup (equal != NULL ? equal + 1 : "outside_told"));
  const char *id;

  if (*why == '\0')
    return hs_ops_refuse (error, "One of the reasons of “%s” has no words.", usual->name);
  if (!hs_ops_word (HS_WORDS_ENDED, end, "outside_told", &id, error))
    return FALSE;
  g_ptr_array_add (whys, g_steal_pointer (&why));
  g_ptr_array_add (ends, g_strdup (id));
  return TRUE;
}

static gboolean
read_whys (HsUsual *usual, char **parts, GError **error)
{
  g_autofree char *text = dup_part (parts, PART_WHYS);
  g_auto (GStrv) words = g_strsplit (text != NULL ? text : "", "/", -1);
  g_autoptr (GPtrArray) whys = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) ends = g_ptr_array_new_with_free_func (g_free);

  if (g_strv_length (words) > MOST_WHYS)
    return hs_ops_refuse (error, "“%s” has more than %d reasons; each needs a digit.", usual->name, MOST_WHYS);
  for (guint i = 0; words[i] != NULL; i++)
    if (!read_why (usual, words[i], whys, ends, error))
      return FALSE;
  g_ptr_array_add (whys, NULL);
  g_ptr_array_add (ends, NULL);
  usual->whys = (char **) g_ptr_array_steal (whys, NULL);
  usual->ends = (char **) g_ptr_array_steal (ends, NULL);
  return TRUE;
}

HsUsual *
hs_usual_parse (HsBook *book, const char *text, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", HS_USUAL_PARTS);
  g_autoptr (HsUsual) usual = g_new0 (HsUsual, 1);

  usual->group = dup_part (parts, PART_GROUP);
  usual->caution = dup_part (parts, PART_CAUTION);
  if (!read_name (usual, parts, error) || !read_price (book, usual, parts, error)
      || (usual->group != NULL && !hs_ops_check_group (book, usual->group, error))
      || !read_proof (book, usual, parts, error) || !read_whys (usual, parts, error))
    return NULL;
  return g_steal_pointer (&usual);
}

static gboolean
load_nth (HsBook *book, guint nth, HsUsual **ret_usual, GError **error)
{
  g_autofree char *key = g_strdup_printf ("usual_%u", nth);
  g_autofree char *text = hs_settings_dup (book, key, error);

  if (text == NULL)
    return FALSE;
  if (hs_text_is_blank (text))
    {
      *ret_usual = NULL;
      return TRUE;
    }
  *ret_usual = hs_usual_parse (book, text, error);
  if (*ret_usual == NULL)
    return FALSE;
  (*ret_usual)->nth = nth;
  return TRUE;
}

GPtrArray *
hs_usual_list (HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_usual_free);

  for (guint nth = 1; nth <= HS_USUAL_MOST; nth++)
    {
      HsUsual *usual = NULL;

      if (!load_nth (book, nth, &usual, error))
        return NULL;
      if (usual != NULL)
        g_ptr_array_add (list, usual);
    }
  return g_steal_pointer (&list);
}

/* What its digits do ----------------------------------------------------------------------------------------------- */

static gboolean
need_nth (HsBook *book, guint nth, HsUsual **ret_usual, GError **error)
{
  if (nth < 1 || nth > HS_USUAL_MOST || !load_nth (book, nth, ret_usual, error))
    return error != NULL && *error != NULL ? FALSE : hs_ops_refuse (error, "There is no usual job %u.", nth);
  return *ret_usual != NULL
         || hs_ops_refuse (error, "There is no usual job %u; word it under the book's settings.", nth);
}

static gboolean
fill_job (HsStore *store, const HsUsual *usual, HsJobRow *job, GError **error)
{
  if (job->complaint_group == NULL && usual->group != NULL)
    hs_row_set (&job->complaint_group, usual->group);
  if (job->guess_seconds == HS_INT_NONE || job->guess_seconds <= 0)
    job->guess_seconds = 60 * (gint64) usual->minutes;
  return hs_job_row_save (store, job, error);
}

static gboolean
agree (HsBook *book, const HsUsual *usual, const char *job_id, const char *means, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;

  hs_ops_note (store, job_id, "usual job: %s", usual->name);
  if (!hs_job_row_load (store, job_id, &job, error) || !fill_job (store, usual, job, error)
      || !hs_customer_row_load (store, job->customer_id, &customer, error))
    return FALSE;
  return hs_go_ahead_add (book, job_id, usual->price_cents, customer->name, means, now, error);
}

gboolean
hs_usual_agree (HsBook *book, const char *job_id, guint nth, const char *means, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsUsual) usual = NULL;

  return need_nth (book, nth, &usual, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, agree (book, usual, job_id, means, now, error), error);
}

static gboolean
arrive (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  HsStage stage;

  if (!hs_job_row_load (hs_book_get_store (book), job_id, &job, error) || !hs_stage_parse (job->stage, &stage, error))
    return FALSE;
  if (stage >= HS_STAGE_ON_SITE)
    return TRUE;
  return hs_job_move_stage (book, job_id, HS_STAGE_ON_SITE, NULL, now, error);
}

/* What was refused along with the work nobody answered since; and what is not so stays so beside it. */
static gboolean
is_over (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (line->asked || line->not_so)
        return FALSE;
    }
  return TRUE;
}

static gboolean
answer_safe (HsBook *book, const char *job_id, const char *item, const char *answer, HsSafetyEnd end, HsInstant now,
             GError **error)
{
  g_autoptr (HsSafetySheet) sheet = NULL;

  hs_undo_note (hs_book_get_store (book), job_id, "safety: at the vehicle");
  if (!arrive (book, job_id, now, error)
      || !(g_strcmp0 (answer, "down_to") == 0 ? hs_safety_answer_down_to (book, job_id, item, now, error)
                                              : hs_safety_answer (book, job_id, item, answer, NULL, now, error)))
    return FALSE;
  sheet = hs_safety_sheet_load (book, job_id, error);
  if (sheet == NULL || !is_over (sheet))
    return sheet != NULL;
  return hs_safety_finish (book, job_id, end, NULL, now, error);
}

gboolean
hs_usual_answer_safe (HsBook *book, const char *job_id, const char *item, const char *answer, HsSafetyEnd end,
                      HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, answer_safe (book, job_id, item, answer, end, now, error), error);
}

static gboolean
finish_safe (HsBook *book, const char *job_id, HsSafetyEnd end, const char *why, HsInstant now, GError **error)
{
  hs_undo_note (hs_book_get_store (book), job_id, "safety: at the vehicle");
  return arrive (book, job_id, now, error) && hs_safety_finish (book, job_id, end, why, now, error);
}

gboolean
hs_usual_finish_safe (HsBook *book, const char *job_id, HsSafetyEnd end, const char *why, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, finish_safe (book, job_id, end, why, now, error), error);
}

/* A digit proves nothing: the reason stays what was said. */
static gboolean
say_why (HsBook *book, const HsUsual *usual, const char *job_id, int why, HsInstant now, GError **error)
{
  gboolean known = why >= 0;
  const HsFindingEntry cause = { .what = known ? usual->whys[why] : "cause not known",
                                 .sure = known ? NULL : "not_known",
                                 .ended = known ? usual->ends[why] : "not_known_told" };
  const HsBecauseEntry link = { .proof = known ? "at the vehicle" : "looked for, not found", .kind = "said" };
  g_autofree char *id = hs_chain_extend (book, job_id, NULL, &cause, &link, now, error);

  return id != NULL;
}

static gboolean
prove (HsBook *book, const HsUsual *usual, const char *job_id, const HsUsualEnd *end, HsInstant now, GError **error)
{
  const HsReadingEntry entry = { .check = usual->check, .keyed = end->keyed, .phase = "after", .at = now };
  g_autoptr (HsReadingResult) result = NULL;

  if (end->keyed == NULL)
    return TRUE;
  if (usual->check == NULL)
    return hs_ops_refuse (error, "“%s” names no check that could be read afterwards.", usual->name);
  result = hs_reading_add (book, job_id, &entry, now, error);
  return result != NULL;
}

static gboolean
charge (HsBook *book, const HsUsual *usual, const char *job_id, GError **error)
{
  g_autoptr (HsLineRow) line = hs_line_row_new ();

  hs_row_set (&line->job_id, job_id);
  hs_row_set (&line->kind, "call_out");
  hs_row_set (&line->what, usual->name);
  line->price_cents = usual->price_cents;
  return hs_line_row_save (hs_book_get_store (book), line, error);
}

static gboolean
pay (HsBook *book, const char *job_id, const char *how, HsInstant now, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (how == NULL)
    return TRUE;
  if (!hs_job_row_load (hs_book_get_store (book), job_id, &job, error))
    return FALSE;
  return job->owed_cents == 0 || hs_payment_add (book, job_id, job->owed_cents, how, now, error);
}

static gboolean
finish (HsBook *book, const HsUsual *usual, const char *job_id, const HsUsualEnd *end, HsInstant now, GError **error)
{
  hs_ops_note (hs_book_get_store (book), job_id, "usual job: %s", usual->name);
  if (end->why >= 0 && (guint) end->why >= g_strv_length (usual->whys))
    return hs_ops_refuse (error, "“%s” has no reason %d.", usual->name, end->why + 1);
  return arrive (book, job_id, now, error) && say_why (book, usual, job_id, end->why, now, error)
         && prove (book, usual, job_id, end, now, error) && charge (book, usual, job_id, error)
         && hs_job_move_stage (book, job_id, HS_STAGE_PROVEN, end->unproven, now, error)
         && hs_job_square (book, job_id, now, error) && pay (book, job_id, end->paid, now, error);
}

gboolean
hs_usual_finish (HsBook *book, const char *job_id, const HsUsualEnd *end, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsUsual) usual = NULL;

  return need_nth (book, end->nth, &usual, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, finish (book, usual, job_id, end, now, error), error);
}
