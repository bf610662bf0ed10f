// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Gathers the proof sheet of a job: readings before and after with their verdicts, why it failed, what was installed
 * and how long it is covered, what was declined, and what could not be done. Reads only; cost prices stay out. */

#include "hs-proof-load.h"

#include "hs-advice-row.h"
#include "hs-money.h"
#include "hs-odometer-row.h"
#include "hs-ops-private.h"
#include "hs-reading-row.h"
#include "hs-repair-private.h"
#include "hs-say.h"
#include "hs-settings-op.h"

typedef struct
{
  HsBook *book;
  HsStore *store;
  const HsTongue *in;
  HsJobRow *job;
  HsJobView *view;
  HsJobChain *chain;
  HsRepair *repair;
  GPtrArray *rows;
  HsProofSheet *sheet;
} Gather;

static void
gather_clear (Gather *gather)
{
  hs_job_row_free (gather->job);
  hs_job_view_free (gather->view);
  hs_job_chain_free (gather->chain);
  hs_repair_free (gather->repair);
  g_clear_pointer (&gather->rows, g_ptr_array_unref);
  hs_proof_sheet_free (gather->sheet);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Gather, gather_clear)

/* Why a reading could not be taken. */
static const char *
find_why_not (const Gather *gather, const HsReadingResult *result)
{
  for (guint i = 0; i < gather->rows->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (gather->rows, i);

      if (g_str_equal (row->id, result->id))
        return row->not_measured_why;
    }
  return NULL;
}

static void
put_value (const Gather *gather, const HsReadingResult *result, HsProofValue *value)
{
  const char *why_not = find_why_not (gather, result);

  value->text = why_not != NULL ? g_strdup_printf (gather->in->gettext ("not measured: %s"), why_not)
                                : g_strdup (hs_verdict_word_in (result->value_text, gather->in));
  value->word = why_not != NULL ? NULL : g_strdup (hs_verdict_word_in (result->word, gather->in));
  value->do_not_drive = g_strcmp0 (result->word, HS_DO_NOT_DRIVE_WORD) == 0;
  if (why_not != NULL || !hs_verdict_parse (result->verdict, &value->verdict, NULL))
    value->verdict = HS_VERDICT_CANNOT_TELL;
}

static const HsReadingResult *
find_last (const Gather *gather, const HsReadingResult *like, const char *phase)
{
  const HsReadingResult *found = NULL;

  for (guint i = 0; i < gather->view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (gather->view->readings, i);

      if (g_str_equal (result->phase, phase) && g_str_equal (result->check, like->check)
          && g_strcmp0 (result->place, like->place) == 0)
        found = result;
    }
  return found;
}

static void
add_change (const Gather *gather, const HsReadingResult *before, const HsReadingResult *after)
{
  gboolean by_after = after != NULL && (before == NULL || hs_repair_is_measured (after));
  const HsReadingResult *any = by_after ? after : before;
  HsProofChange *change = hs_proof_sheet_add_change (gather->sheet);

  change->name = g_strdup (gather->in->gettext (any->name));
  change->place = g_strdup (any->place);
  change->limit = g_strdup (hs_verdict_word_in (any->limit, gather->in));
  change->source = any->source == NULL ? NULL : hs_verdict_source_text (any->source, any->sure);
  if (before != NULL)
    put_value (gather, before, &change->before);
  if (after != NULL)
    put_value (gather, after, &change->after);
}

/* Each check once, in the order in which it was read: before, then what was read only after. */
static void
gather_changes (const Gather *gather)
{
  for (guint i = 0; i < gather->view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (gather->view->readings, i);
      gboolean before = g_str_equal (result->phase, "before");

      if (find_last (gather, result, result->phase) != result)
        continue;
      if (before)
        add_change (gather, result, find_last (gather, result, "after"));
      else if (g_str_equal (result->phase, "after") && find_last (gather, result, "before") == NULL)
        add_change (gather, NULL, result);
    }
}

static void
add_more (HsProofLine *line, const char *text)
{
  if (text != NULL && *text != '\0')
    g_ptr_array_add (line->more, g_strdup (text));
}

/* "Serial 77-1204 · C5 · March 2025": what there is of it. */
static char *
say_numbers (const Gather *gather, const HsFittedPart *part)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (part->serial != NULL)
    g_string_append_printf (text, gather->in->gettext ("Serial number %s"), part->serial);
  if (part->date_stamp != NULL)
    {
      g_string_append (text, text->len > 0 ? " · " : "");
      g_string_append_printf (text, gather->in->gettext ("date code %s"), part->date_stamp);
    }
  if (part->made != NULL)
    g_string_append_printf (text, " (%s)", part->made);
  return g_strdup (text->str);
}

static void
gather_parts (const Gather *gather)
{
  for (guint i = 0; i < gather->repair->parts->len; i++)
    {
      const HsFittedPart *part = g_ptr_array_index (gather->repair->parts, i);
      g_autofree char *numbers = say_numbers (gather, part);
      g_autoptr (GString) what = g_string_new (part->what);
      HsProofLine *line;

      if (part->maker != NULL)
        g_string_append_printf (what, ", %s", part->maker);
      if (part->place != NULL)
        g_string_append_printf (what, ", %s", part->place);
      line = hs_proof_line_add (gather->sheet->parts, what->str, NULL);
      add_more (line, numbers);
      add_more (line, part->why_said);
      add_more (line, part->cover);
    }
}

/* "no: Bram Hark, signed on screen, February 3, 2026" */
static char *
say_decision (const Gather *gather, const HsAdviceRow *row)
{
  g_autoptr (GString) text = g_string_new (hs_words_label (HS_WORDS_CHOICE, row->choice));
  HsDate date;

  if (row->decided_by != NULL)
    g_string_append_printf (text, ": %s", row->decided_by);
  if (row->means != NULL)
    g_string_append_printf (text, ", %s", hs_words_label (HS_WORDS_MEANS, row->means));
  if (row->decided_at != HS_INSTANT_NONE)
    {
      g_autofree char *day = NULL;

      hs_instant_to_local (hs_book_get_zone (gather->book), row->decided_at, &date, NULL);
      day = hs_say_day_full (date);
      g_string_append_printf (text, ", %s", day);
    }
  return g_strdup (text->str);
}

static gboolean
gather_declined (const Gather *gather, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_row_list_of (gather->store, gather->job->id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);
      g_autofree char *price = NULL;
      g_autofree char *decision = NULL;
      HsProofLine *line;

      if (!g_str_equal (row->choice, "no") && !g_str_equal (row->choice, "later"))
        continue;
      price = hs_money_format_grouped (row->price_cents, hs_book_get_currency (gather->book));
      decision = say_decision (gather, row);
      line = hs_proof_line_add (gather->sheet->declined, row->wording, price);
      add_more (line, row->risk_told);
      add_more (line, decision);
    }
  return TRUE;
}

static void
gather_looks (const Gather *gather)
{
  for (guint i = 0; i < gather->repair->looks->len; i++)
    {
      const HsAfterLine *line = g_ptr_array_index (gather->repair->looks, i);

      if (line->done_at != HS_INSTANT_NONE)
        g_ptr_array_add (gather->sheet->looked_after,
                         line->done_words == NULL ? g_strdup (line->what)
                                                  : g_strdup_printf ("%s: %s", line->what, line->done_words));
    }
  for (guint i = 0; i < gather->repair->missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (gather->repair->missing, i);

      if (item->kind == HS_PROVE_READ_AGAIN)
        g_ptr_array_add (gather->sheet->open,
                         g_strdup_printf (gather->in->gettext ("Not read again after the repair: %s."), item->what));
      else if (item->kind == HS_PROVE_STILL_OUTSIDE)
        g_ptr_array_add (gather->sheet->open, hs_prove_say (item, gather->in));
      else if (item->kind == HS_PROVE_TRY)
        g_ptr_array_add (gather->sheet->open, g_strdup (gather->in->gettext ("The complaint was not tried again.")));
    }
}

static gboolean
gather_odometer (const Gather *gather, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (gather->job->vehicle_id == NULL)
    return TRUE;
  if (!hs_odometer_row_list_of (gather->store, gather->job->vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (g_strcmp0 (row->job_id, gather->job->id) != 0 || row->doubted != NULL)
        continue;
      g_free (gather->sheet->odometer);
      gather->sheet->odometer = g_strdup_printf ("%" G_GINT64_FORMAT " %s", row->value,
                                                 hs_words_label (HS_WORDS_ODOMETER_UNIT,
                                                                 gather->repair->odometer_unit));
    }
  return TRUE;
}

/* The day on which the vehicle was worked on: of the arrival, else the one that was given. */
static HsDate
find_day (const Gather *gather, HsInstant now)
{
  if (gather->view->arrived_at != HS_INSTANT_NONE)
    return hs_ops_today (gather->book, gather->view->arrived_at);
  return gather->job->day != HS_DATE_NONE ? gather->job->day : hs_ops_today (gather->book, now);
}

static gboolean
gather_head (const Gather *gather, HsInstant now, GError **error)
{
  const HsBoardRow *tag = gather->view->tag;
  HsProofSheet *sheet = gather->sheet;

  sheet->business = hs_settings_dup (gather->book, "business_name", error);
  sheet->paper_size = sheet->business == NULL ? NULL : hs_settings_dup (gather->book, "paper_size", error);
  if (sheet->paper_size == NULL)
    return FALSE;
  sheet->number = g_strdup (tag->number);
  sheet->day = hs_say_day_full (find_day (gather, now));
  sheet->plate = g_strdup (tag->plate);
  sheet->vehicle = g_strdup (tag->vehicle);
  sheet->owner = g_strdup (tag->customer);
  sheet->complaint = g_strdup (tag->words);
  sheet->tried = g_strdup (gather->repair->tried);
  sheet->unproved_why = g_strdup (gather->repair->unproved_why);
  sheet->safe = g_strdup (gather->repair->safe);
  return gather_odometer (gather, error);
}

static gboolean
load (Gather *gather, const char *job_id, HsInstant now, GError **error)
{
  gather->view = hs_job_view_load (gather->book, job_id, now, error);
  if (gather->view == NULL || !hs_job_row_load (gather->store, job_id, &gather->job, error)
      || !hs_reading_row_list_of (gather->store, job_id, &gather->rows, error))
    return FALSE;
  gather->chain = hs_job_chain_load (gather->book, job_id, error);
  gather->repair = gather->chain == NULL ? NULL : hs_repair_load (gather->book, job_id, gather->view, now, error);
  return gather->repair != NULL;
}

HsProofSheet *
hs_proof_sheet_load (HsBook *book, const char *job_id, const HsTongue *in, HsInstant now, GError **error)
{
  g_auto (Gather) gather = { .book = book, .store = hs_book_get_store (book), .in = in };
  g_autoptr (GPtrArray) sentences = NULL;

  if (!load (&gather, job_id, now, error))
    return NULL;
  gather.sheet = hs_proof_sheet_new ();
  if (!gather_head (&gather, now, error) || !gather_declined (&gather, error))
    return NULL;
  gather_changes (&gather);
  gather_parts (&gather);
  gather_looks (&gather);
  sentences = hs_chain_list_sentences (gather.chain->chain, in);
  for (guint i = 0; i < sentences->len; i++)
    g_ptr_array_add (gather.sheet->why, g_strdup (g_ptr_array_index (sentences, i)));
  return g_steal_pointer (&gather.sheet);
}
