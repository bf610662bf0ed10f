// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsCustomerRow:
 * @kind: `private` or `trade`
 * @area_id: (nullable): code of the area
 * @lat: degrees north, or %HS_REAL_NONE
 * @lon: degrees east, or %HS_REAL_NONE
 * @reach_from_minutes: of the day, or %HS_INT_NONE
 * @reach_to_minutes: of the day, or %HS_INT_NONE
 * @terms_days: 0: pays on the spot
 */
typedef struct
{
  char *id;
  char *name;
  char *kind;
  char *email;
  char *street;
  char *area_id;
  double lat;
  double lon;
  char *access_note;
  gint64 reach_from_minutes;
  gint64 reach_to_minutes;
  gint64 terms_days;
  gboolean stop_credit;
  char *tax_free_ref;
  char *note;
} HsCustomerRow;

HS_DECLARE_ROW (HsCustomerRow, hs_customer_row)

/* hs_customer_row_list: all, by name. For small books and exports; the window searches instead. */
gboolean hs_customer_row_list (HsStore *store, GPtrArray **ret_rows, GError **error);

/**
 * HsPhoneRow:
 * @shown: as it was typed
 * @digits: its digits; hs_phone_row_save() fills them from @shown
 * @whose: (nullable): "office", "Bram"
 */
typedef struct
{
  char *id;
  char *customer_id;
  char *shown;
  char *digits;
  char *whose;
} HsPhoneRow;

HS_DECLARE_ROW (HsPhoneRow, hs_phone_row)
gboolean hs_phone_row_list_of (HsStore *store, const char *customer_id, GPtrArray **ret_rows, GError **error);

/* hs_customer_row_list_by_phone: the customers with exactly these digits, punctuation ignored. */
gboolean hs_customer_row_list_by_phone (HsStore *store, const char *phone, GPtrArray **ret_rows, GError **error);

/* hs_customer_row_list_by_name: the customers with exactly this name, oldest first. */
gboolean hs_customer_row_list_by_name (HsStore *store, const char *name, GPtrArray **ret_rows, GError **error);

/**
 * hs_customer_row_middle:
 * @ret_latitude: (out): degrees north, or %HS_REAL_NONE
 * @ret_longitude: (out): degrees east, or %HS_REAL_NONE
 *
 * Where an area lies, by the customers in it whose position is known: their mean.
 */
gboolean hs_customer_row_middle (HsStore *store, const char *area_id, double *ret_latitude, double *ret_longitude,
                                 GError **error);

G_END_DECLS
