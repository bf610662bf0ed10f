// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which cause it was or was not, and one more complaint, written in the worker thread. */

#include "hs-deed-next.h"

static gpointer
hs_deed_name_cause_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *group, *cause, *seen;
  g_autofree char *finding = NULL;
  gboolean is_it;

  g_variant_get (args, "(&sm&s&sbm&s)", &job_id, &group, &cause, &is_it, &seen);
  finding = hs_job_name_cause (book, job_id, group, cause, is_it, seen, now, error);
  return NULL;
}

void
hs_deed_name_cause (HsLedger *ledger, const char *job_id, const char *group, const char *cause, gboolean is_it,
                    const char *seen, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_name_cause_func,
                         g_variant_new ("(smssbms)", job_id, group, cause, is_it, seen), NULL, FALSE, callback,
                         user_data);
}

static gpointer
hs_deed_add_symptom_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *group;

  g_variant_get (args, "(&s&s)", &job_id, &group);
  hs_job_add_symptom (book, job_id, group, now, error);
  return NULL;
}

void
hs_deed_add_symptom (HsLedger *ledger, const char *job_id, const char *group, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_add_symptom_func, g_variant_new ("(ss)", job_id, group), NULL, FALSE,
                         callback, user_data);
}
