// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of usual jobs. What the receipt says is read in the same task, so that it is of the moment of squaring. */

#include "hs-deed-usual.h"

#include "hs-board.h"

gpointer
hs_ask_usual (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_usual_list (book, error);
}

static gpointer
agree_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *means;
  guint nth;

  g_variant_get (args, "(&su&s)", &job_id, &nth, &means);
  hs_usual_agree (book, job_id, nth, means, now, error);
  return NULL;
}

void
hs_deed_agree_usual (HsLedger *ledger, const char *job_id, guint nth, const char *means, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  hs_ledger_write_async (ledger, agree_func, g_variant_new ("(sus)", job_id, nth, means), NULL, FALSE, callback,
                         user_data);
}

static gpointer
answer_safe_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *item, *answer;
  guint end;

  g_variant_get (args, "(&s&sm&su)", &job_id, &item, &answer, &end);
  hs_usual_answer_safe (book, job_id, item, answer, (HsSafetyEnd) end, now, error);
  return NULL;
}

void
hs_deed_answer_usual_safe (HsLedger *ledger, const char *job_id, const char *item, const char *answer, HsSafetyEnd end,
                           GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, answer_safe_func, g_variant_new ("(ssmsu)", job_id, item, answer, (guint) end), NULL,
                         FALSE, callback, user_data);
}

static gpointer
finish_safe_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *why;
  guint end;

  g_variant_get (args, "(&sum&s)", &job_id, &end, &why);
  hs_usual_finish_safe (book, job_id, (HsSafetyEnd) end, why, now, error);
  return NULL;
}

void
hs_deed_finish_usual_safe (HsLedger *ledger, const char *job_id, HsSafetyEnd end, const char *why,
                           GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, finish_safe_func, g_variant_new ("(sums)", job_id, (guint) end, why), NULL, FALSE,
                         callback, user_data);
}

static gpointer
finish_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsUsualEnd end = { 0 };
  const char *job_id;

  g_variant_get (args, "(&suim&sm&sm&s)", &job_id, &end.nth, &end.why, &end.keyed, &end.unproven, &end.paid);
  return hs_usual_finish (book, job_id, &end, now, error) ? hs_job_view_load (book, job_id, now, error) : NULL;
}

void
hs_deed_finish_usual (HsLedger *ledger, const char *job_id, const HsUsualEnd *end, GAsyncReadyCallback callback,
                      gpointer user_data)
{
  hs_ledger_write_async (ledger, finish_func,
                         g_variant_new ("(suimsmsms)", job_id, end->nth, end->why, end->keyed, end->unproven,
                                        end->paid),
                         (GDestroyNotify) hs_job_view_free, FALSE, callback, user_data);
}
