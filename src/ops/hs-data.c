// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Hands core the tables that are compiled in, as bytes; core reads and checks them. */

#include "hs-data.h"

#include "hs-ops-private.h"

HsChecks *
hs_data_load_checks (GError **error)
{
  g_autoptr (GBytes) bytes = hs_ops_load_data ("checks/checks.ini", error);
  gsize length;
  const char *data;

  if (bytes == NULL)
    return NULL;
  data = g_bytes_get_data (bytes, &length);
  return hs_checks_new_from_data (data, (gssize) length, error);
}

HsReference *
hs_data_load_reference (GError **error)
{
  g_autoptr (GBytes) makers = hs_ops_load_data ("reference/makers.csv", error);
  g_autoptr (GBytes) trouble_codes = NULL;
  g_autoptr (GBytes) mileage = NULL;
  g_autoptr (GBytes) deposits = NULL;

  if (makers == NULL)
    return NULL;
  trouble_codes = hs_ops_load_data ("reference/trouble-codes.ini", error);
  if (trouble_codes == NULL)
    return NULL;
  mileage = hs_ops_load_data ("reference/mileage.ini", error);
  if (mileage == NULL)
    return NULL;
  deposits = hs_ops_load_data ("reference/deposits.ini", error);
  if (deposits == NULL)
    return NULL;
  return hs_reference_new (&(HsReferenceTables) { makers, trouble_codes, mileage, deposits }, error);
}
