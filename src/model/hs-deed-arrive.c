// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the pages write on arriving: made safe, identified, answered, noted, the clock, and a call that comes to
 * nothing. */

#include "hs-deed-arrive.h"

#include "hs-call-off.h"
#include "hs-interview-op.h"
#include "hs-job-op.h"
#include "hs-model-note-op.h"

static gpointer
answer_safety_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *item, *answer, *why;

  g_variant_get (args, "(&s&sm&sm&s)", &job_id, &item, &answer, &why);
  hs_safety_answer (book, job_id, item, answer, why, now, error);
  return NULL;
}

void
hs_deed_answer_safety (HsLedger *ledger, const char *job_id, const char *item, const char *answer, const char *why,
                       GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, answer_safety_func, g_variant_new ("(ssmsms)", job_id, item, answer, why), NULL,
                         FALSE, callback, user_data);
}

static gpointer
answer_down_to_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *item;

  g_variant_get (args, "(&s&s)", &job_id, &item);
  hs_safety_answer_down_to (book, job_id, item, now, error);
  return NULL;
}

void
hs_deed_answer_safety_down_to (HsLedger *ledger, const char *job_id, const char *item, GAsyncReadyCallback callback,
                               gpointer user_data)
{
  hs_ledger_write_async (ledger, answer_down_to_func, g_variant_new ("(ss)", job_id, item), NULL, FALSE, callback,
                         user_data);
}

static gpointer
pass_safety_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  hs_safety_pass (book, job_id, now, error);
  return NULL;
}

void
hs_deed_pass_safety (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, pass_safety_func, g_variant_new ("(s)", job_id), NULL, FALSE, callback, user_data);
}

static gpointer
finish_safety_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *why;
  gint32 end;

  g_variant_get (args, "(&sim&s)", &job_id, &end, &why);
  hs_safety_finish (book, job_id, (HsSafetyEnd) end, why, now, error);
  return NULL;
}

void
hs_deed_finish_safety (HsLedger *ledger, const char *job_id, HsSafetyEnd end, const char *why,
                       GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, finish_safety_func, g_variant_new ("(sims)", job_id, (gint32) end, why), NULL, FALSE,
                         callback, user_data);
}

static gpointer
identify_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *text, *why;
  HsIdentified how = HS_IDENTIFIED_AGREES;
  gint32 field;

  g_variant_get (args, "(&si&sm&s)", &job_id, &field, &text, &why);
  switch ((HsIdentifyField) field)
    {
    case HS_IDENTIFY_PLATE:
      hs_identify_plate (book, job_id, text, why, now, &how, error);
      break;
    case HS_IDENTIFY_VIN:
      hs_identify_vin (book, job_id, text, why, now, &how, error);
      break;
    case HS_IDENTIFY_ODOMETER:
      hs_identify_odometer (book, job_id, text, why, now, error);
      break;
    case HS_IDENTIFY_SAW_IT:
    default:
      hs_identify_saw_it (book, job_id, text, now, error);
    }
  return GINT_TO_POINTER (how);
}

void
hs_deed_identify (HsLedger *ledger, const char *job_id, HsIdentifyField field, const char *text, const char *why,
                  GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, identify_func, g_variant_new ("(sisms)", job_id, (gint32) field, text, why), NULL,
                         FALSE, callback, user_data);
}

static gpointer
answer_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *question, *text, *said_by;

  g_variant_get (args, "(&s&s&sm&s)", &job_id, &question, &text, &said_by);
  hs_answer_add (book, job_id, question, text, said_by, now, error);
  return NULL;
}

void
hs_deed_answer (HsLedger *ledger, const char *job_id, const char *question, const char *text, const char *said_by,
                GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, answer_func, g_variant_new ("(sssms)", job_id, question, text, said_by), NULL, FALSE,
                         callback, user_data);
}

static gpointer
run_clock_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;
  gboolean run;

  g_variant_get (args, "(&sb)", &job_id, &run);
  if (run)
    hs_visit_resume (book, job_id, now, error);
  else
    hs_visit_pause (book, job_id, now, error);
  return NULL;
}

void
hs_deed_run_clock (HsLedger *ledger, const char *job_id, gboolean run, GAsyncReadyCallback callback,
                   gpointer user_data)
{
  hs_ledger_write_async (ledger, run_clock_func, g_variant_new ("(sb)", job_id, run), NULL, FALSE, callback,
                         user_data);
}

static gpointer
note_model_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsModelNoteEntry entry = { NULL };
  g_autofree char *id = NULL;
  const char *job_id;

  g_variant_get (args, "(&sm&s&sm&s)", &job_id, &entry.topic, &entry.words, &entry.years);
  id = hs_model_note_add (book, job_id, &entry, now, error);
  return NULL;
}

void
hs_deed_note_model (HsLedger *ledger, const char *job_id, const char *topic, const char *words, const char *years,
                    GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, note_model_func, g_variant_new ("(smssms)", job_id, topic, words, years), NULL, FALSE,
                         callback, user_data);
}

static gpointer
drop_note_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *note_id;

  g_variant_get (args, "(&s&s)", &job_id, &note_id);
  hs_model_note_remove (book, job_id, note_id, now, error);
  return NULL;
}

void
hs_deed_drop_note (HsLedger *ledger, const char *job_id, const char *note_id, GAsyncReadyCallback callback,
                   gpointer user_data)
{
  hs_ledger_write_async (ledger, drop_note_func, g_variant_new ("(ss)", job_id, note_id), NULL, FALSE, callback,
                         user_data);
}

static gpointer
call_off_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *how, *reason;
  gint64 fee_cents;

  g_variant_get (args, "(&s&sx&s)", &job_id, &how, &fee_cents, &reason);
  hs_job_call_off (book, job_id, how, fee_cents, reason, now, error);
  return NULL;
}

void
hs_deed_call_off (HsLedger *ledger, const char *job_id, const char *how, gint64 fee_cents, const char *reason,
                  GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, call_off_func, g_variant_new ("(ssxs)", job_id, how, fee_cents, reason), NULL, FALSE,
                         callback, user_data);
}
