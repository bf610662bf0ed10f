// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The text of an invoice as it is handed over: who, which vehicle, the customer's words, lines and sums, readings
 * before and after, why it failed, what was declined, and why a job was not tried out. No cost price and nobody else's
 * name is in it. Money stands as decimals in the book's currency, so that the text can be read without this program.
 */

#include "hs-advice-row.h"
#include "hs-bill-private.h"
#include "hs-chain-op.h"
#include "hs-check.h"
#include "hs-customer-row.h"
#include "hs-decimal.h"
#include "hs-json-text.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-reading-row.h"
#include "hs-vehicle-row.h"

#include <json-glib/json-glib.h>

static void
put_text (JsonBuilder *builder, const char *name, const char *text)
{
  if (text == NULL)
    return;
  json_builder_set_member_name (builder, name);
  json_builder_add_string_value (builder, text);
}

static void
put_date (JsonBuilder *builder, const char *name, HsDate date)
{
  g_autofree char *text = hs_date_format (date);

  put_text (builder, name, text);
}

static void
put_money (JsonBuilder *builder, const char *name, gint64 cents, const char *currency)
{
  g_autofree char *text = hs_money_format (cents, currency);

  put_text (builder, name, text);
}

static gboolean
put_customer (JsonBuilder *builder, HsStore *store, const char *customer_id, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!hs_customer_row_load (store, customer_id, &customer, error))
    return FALSE;
  put_text (builder, "customer", customer->name);
  put_text (builder, "street", customer->street);
  return TRUE;
}

static gboolean
put_vehicle (JsonBuilder *builder, HsStore *store, const char *vehicle_id, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (vehicle_id == NULL)
    return TRUE;
  if (!hs_vehicle_row_load (store, vehicle_id, &vehicle, error))
    return FALSE;
  put_text (builder, "plate", vehicle->plate);
  put_text (builder, "make", vehicle->make);
  put_text (builder, "model", vehicle->model);
  return TRUE;
}

static void
put_line (JsonBuilder *builder, const HsLineRow *line, const char *currency)
{
  json_builder_begin_object (builder);
  put_text (builder, "kind", line->kind);
  put_text (builder, "what", line->what);
  put_money (builder, "price", line->price_cents, currency);
  put_money (builder, "tax", line->tax_cents, currency);
  json_builder_end_object (builder);
}

static gboolean
put_lines (JsonBuilder *builder, HsStore *store, const char *job_id, const char *currency, GError **error)
{
  g_autoptr (GPtrArray) lines = NULL;
  gint64 net_cents = 0;
  gint64 tax_cents = 0;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  json_builder_set_member_name (builder, "lines");
  json_builder_begin_array (builder);
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      put_line (builder, line, currency);
      net_cents += line->price_cents;
      tax_cents += line->tax_cents;
    }
  json_builder_end_array (builder);
  put_money (builder, "net", net_cents, currency);
  put_money (builder, "tax", tax_cents, currency);
  put_money (builder, "total", net_cents + tax_cents, currency);
  return TRUE;
}

static char *
reading_text (const HsReadingRow *row)
{
  g_autofree char *value = row->value == HS_INT_NONE ? NULL : hs_decimal_format (row->value, (guint) row->decimals);
  g_autofree char *of
      = row->of_value == HS_INT_NONE ? NULL : hs_decimal_format (row->of_value, (guint) row->decimals);

  if (row->over_range)
    return g_strdup ("over range");
  if (value == NULL)
    return g_strdup (row->answer != NULL ? row->answer : row->not_measured_why);
  return of == NULL ? g_strdup (value) : g_strdup_printf ("%s of %s", value, of);
}

static gboolean
put_readings (JsonBuilder *builder, HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_reading_row_list_of (store, job_id, &rows, error))
    return FALSE;
  json_builder_set_member_name (builder, "readings");
  json_builder_begin_array (builder);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (rows, i);
      g_autofree char *text = reading_text (row);

      json_builder_begin_object (builder);
      put_text (builder, "check", row->check_id);
      put_text (builder, "place", row->place);
      put_text (builder, "phase", row->phase);
      put_text (builder, "value", text);
      put_text (builder, "unit", row->unit);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  return TRUE;
}

/* Why it failed, in sentences for the customer. */
static gboolean
put_why (JsonBuilder *builder, HsBook *book, const char *job_id, GError **error)
{
  g_autoptr (HsJobChain) job = hs_job_chain_load (book, job_id, error);

  if (job == NULL)
    return FALSE;
  json_builder_set_member_name (builder, "why_it_failed");
  json_builder_begin_array (builder);
  for (guint i = 0; i < job->sentences->len; i++)
    json_builder_add_string_value (builder, g_ptr_array_index (job->sentences, i));
  json_builder_end_array (builder);
  return TRUE;
}

static gboolean
put_choices (JsonBuilder *builder, HsStore *store, const char *job_id, const char *currency, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_advice_row_list_of (store, job_id, &rows, error))
    return FALSE;
  json_builder_set_member_name (builder, "choices");
  json_builder_begin_array (builder);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (rows, i);

      json_builder_begin_object (builder);
      put_text (builder, "wording", row->wording);
      put_money (builder, "price", row->price_cents, currency);
      put_text (builder, "choice", row->choice);
      put_text (builder, "risk", row->risk_told);
      put_text (builder, "by", row->decided_by);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
  return TRUE;
}

static gboolean
put_invoice (JsonBuilder *builder, HsBook *book, const HsJobRow *job, HsDate issued_on, HsDate due_on, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *currency = hs_book_get_currency (book);

  put_text (builder, "number", job->number);
  put_date (builder, "issued_on", issued_on);
  put_date (builder, "due_on", due_on);
  put_text (builder, "currency", currency);
  put_text (builder, "words", job->words);
  put_text (builder, "not_proven_because", job->unproved_why);
  return put_customer (builder, store, job->customer_id, error) && put_vehicle (builder, store, job->vehicle_id, error)
         && put_lines (builder, store, job->id, currency, error) && put_readings (builder, store, job->id, error)
         && put_why (builder, book, job->id, error) && put_choices (builder, store, job->id, currency, error);
}

char *
hs_bill_freeze (HsBook *book, const HsJobRow *job, HsDate issued_on, HsDate due_on, GError **error)
{
  g_autoptr (JsonBuilder) builder = json_builder_new_immutable ();
  g_autoptr (JsonNode) root = NULL;

  json_builder_begin_object (builder);
  if (!put_invoice (builder, book, job, issued_on, due_on, error))
    return NULL;
  json_builder_end_object (builder);
  root = json_builder_get_root (builder);
  return hs_json_text (root);
}
