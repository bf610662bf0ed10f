// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Customers and their phones. Money and phone follow the person, history follows the vehicle. */

#include "hs-customer-row.h"

#include "hs-search-index.h"
#include "hs-table.h"
#include "hs-text.h"

static const HsColumn customer_columns[] = {
  HS_TEXT (HsCustomerRow, id),
  HS_TEXT (HsCustomerRow, name),
  HS_TEXT_OR (HsCustomerRow, kind, "private"),
  HS_TEXT (HsCustomerRow, email),
  HS_TEXT (HsCustomerRow, street),
  HS_TEXT (HsCustomerRow, area_id),
  HS_REAL (HsCustomerRow, lat),
  HS_REAL (HsCustomerRow, lon),
  HS_TEXT (HsCustomerRow, access_note),
  HS_INT (HsCustomerRow, reach_from_minutes),
  HS_INT (HsCustomerRow, reach_to_minutes),
  HS_INT_OR (HsCustomerRow, terms_days, 0),
  HS_FLAG (HsCustomerRow, stop_credit),
  HS_TEXT (HsCustomerRow, tax_free_ref),
  HS_TEXT (HsCustomerRow, note),
};

static const HsColumn phone_columns[] = {
  HS_TEXT (HsPhoneRow, id),
  HS_TEXT (HsPhoneRow, customer_id),
  HS_TEXT (HsPhoneRow, shown),
  HS_TEXT (HsPhoneRow, digits),
  HS_TEXT (HsPhoneRow, whose),
};

static gboolean
customer_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  const HsCustomerRow *customer = row != NULL ? row : old;

  hs_search_index_customer (store, customer->id);
  return TRUE;
}

static gboolean
phone_before_save (HsStore *store, gconstpointer old, gpointer row, GError **error)
{
  HsPhoneRow *phone = row;

  g_free (phone->digits);
  phone->digits = phone->shown == NULL ? NULL : hs_text_digits (phone->shown);
  return TRUE;
}

static gboolean
phone_after_change (HsStore *store, gconstpointer old, gconstpointer row, GError **error)
{
  if (old != NULL)
    hs_search_index_customer (store, ((const HsPhoneRow *) old)->customer_id);
  if (row != NULL)
    hs_search_index_customer (store, ((const HsPhoneRow *) row)->customer_id);
  return TRUE;
}

static const HsTable customer_table = {
  HS_TABLE (HsCustomerRow, "customer", "customer", customer_columns),
  .after_change = customer_after_change,
};

static const HsTable phone_table = {
  HS_TABLE (HsPhoneRow, "phone", "phone", phone_columns),
  .before_save = phone_before_save,
  .after_change = phone_after_change,
};

HS_DEFINE_ROW (HsCustomerRow, hs_customer_row, customer_table)
HS_DEFINE_ROW (HsPhoneRow, hs_phone_row, phone_table)

gboolean
hs_customer_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &customer_table, (GDestroyNotify) hs_customer_row_free, ret_rows, error,
                        "ORDER BY name, seq", "");
}

gboolean
hs_phone_row_list_of (HsStore *store, const char *customer_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &phone_table, (GDestroyNotify) hs_phone_row_free, ret_rows, error,
                        "WHERE customer_id = ?1 ORDER BY seq", "t", customer_id);
}

gboolean
hs_customer_row_list_by_phone (HsStore *store, const char *phone, GPtrArray **ret_rows, GError **error)
{
  g_autofree char *digits = hs_text_digits (phone);

  return hs_table_list (store, &customer_table, (GDestroyNotify) hs_customer_row_free, ret_rows, error,
                        "JOIN phone p ON p.customer_id = customer.id WHERE p.digits = ?1 ORDER BY customer.seq", "t",
                        digits);
}

gboolean
hs_customer_row_list_by_name (HsStore *store, const char *name, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &customer_table, (GDestroyNotify) hs_customer_row_free, ret_rows, error,
                        "WHERE name = ?1 ORDER BY seq", "t", name);
}

gboolean
hs_customer_row_middle (HsStore *store, const char *area_id, double *ret_latitude, double *ret_longitude,
                        GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "SELECT avg(lat), avg(lon) FROM customer"
                                        " WHERE area_id = ?1 AND lat IS NOT NULL AND lon IS NOT NULL",
                                        "t", area_id);
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  *ret_latitude = hs_sql_real (query, 0);
  *ret_longitude = hs_sql_real (query, 1);
  return TRUE;
}
