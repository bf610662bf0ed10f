// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The one question of the customer's page. */

#include "hs-ask-customer.h"

gpointer
hs_ask_customer (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  return hs_customer_shot_load (book, job_id, now, error);
}
