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
