// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of the bill, each one transaction of the ops layer. */

#include "hs-deed-bill.h"

#include "hs-job-life.h"

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
