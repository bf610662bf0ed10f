// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of the bill, each one transaction of the ops layer. */

#include "hs-deed-bill.h"

#include "hs-job-life.h"
#include "hs-job-op.h"

static gpointer
price_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *goodwill;

  g_variant_get (args, "(&sm&s)", &job_id, &goodwill);
  hs_job_price (book, job_id, goodwill, now, error);
  return NULL;
}

void
hs_deed_price (HsLedger *ledger, const char *job_id, const char *goodwill, GAsyncReadyCallback callback,
               gpointer user_data)
{
  hs_ledger_write_async (ledger, price_func, g_variant_new ("(sms)", job_id, goodwill), NULL, FALSE, callback,
                         user_data);
}

static gpointer
minutes_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;
  int minutes;

  g_variant_get (args, "(&si)", &job_id, &minutes);
  hs_visit_set_minutes (book, job_id, minutes, now, error);
  return NULL;
}

void
hs_deed_set_minutes (HsLedger *ledger, const char *job_id, int minutes, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  hs_ledger_write_async (ledger, minutes_func, g_variant_new ("(si)", job_id, minutes), NULL, FALSE, callback,
                         user_data);
}

gpointer
hs_ask_square (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  return hs_square_outlook_load (book, job_id, now, error);
}

gpointer
hs_ask_block_place (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *reason, *place;
  HsStageWhyNot why_not;
  guint to;

  g_variant_get (args, "(&sum&s)", &job_id, &to, &reason);
  if (!hs_job_why_not (book, job_id, (HsStage) to, reason, &why_not, error))
    return NULL;
  place = hs_job_block_place (why_not);
  return g_strdup (place != NULL ? place : "");
}

static gpointer
square_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  hs_job_square (book, job_id, now, error);
  return NULL;
}

void
hs_deed_square (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, square_func, g_variant_new ("(s)", job_id), NULL, FALSE, callback, user_data);
}

static gpointer
pay_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *how;
  gint64 cents;

  g_variant_get (args, "(&sx&s)", &job_id, &cents, &how);
  hs_payment_add (book, job_id, cents, how, now, error);
  return NULL;
}

void
hs_deed_pay (HsLedger *ledger, const char *job_id, gint64 cents, const char *how, GAsyncReadyCallback callback,
             gpointer user_data)
{
  hs_ledger_write_async (ledger, pay_func, g_variant_new ("(sxs)", job_id, cents, how), NULL, FALSE, callback,
                         user_data);
}
