// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Who has the book open: one row for each program that may write. Another program that has to wait reads them and names
 * the holder. Lock files and probes of SQLite's own locks would do harm; a row does none. */

#include "hs-session.h"

#include <string.h>

#include "hs-sql.h"

gboolean
hs_session_announce (HsStore *store, HsInstant now, GError **error)
{
  g_autofree char *id = NULL;
  g_autoptr (HsSql) query = NULL;

  if (store->announced)
    return TRUE;
  id = g_uuid_string_random ();
  query = hs_sql_new (store, error,
                      "INSERT INTO session (id, program, host, pid, since) VALUES (?1, ?2, ?3, ?4, ?5)", "tttii",
                      id, store->program, store->host, (gint64) store->pid, now);
  if (!hs_sql_run (query, error))
    return FALSE;
  store->session_id = g_steal_pointer (&id);
  store->announced = TRUE;
  return TRUE;
}

gboolean
hs_session_forget_all (HsStore *store, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "DELETE FROM session", "");

  return hs_sql_run (query, error);
}

void
hs_session_leave (HsStore *store)
{
  g_autoptr (HsSql) query = NULL;

  if (!store->announced)
    return;
  query = hs_sql_new (store, NULL, "DELETE FROM session WHERE id = ?1", "t", store->session_id);
  /* If another program writes just now the row stays; the next one to have the book alone takes it away. */
  (void) hs_sql_run (query, NULL);
  store->announced = FALSE;
}

/* The clock on the wall where the book lives, as far as the book says where. */
static char *
local_clock (HsStore *store, HsInstant since)
{
  g_autoptr (HsSql) query = hs_sql_new (store, NULL, "SELECT value FROM setting WHERE id = 'zone'", "");
  g_autoptr (GTimeZone) zone = NULL;
  g_autofree char *text = NULL;
  gboolean row;

  if (query != NULL && hs_sql_step (query, &row, NULL) && row)
    zone = g_time_zone_new_identifier (hs_sql_text (query, 0));
  if (zone == NULL)
    return hs_instant_format (since);
  text = hs_instant_format_local (zone, since);
  text[MIN (16, strlen (text))] = '\0';
  return g_strdelimit (g_steal_pointer (&text), "T", ' ');
}

char *
hs_store_dup_holder (HsStore *store)
{
  g_autoptr (HsSql) query = NULL;
  g_autofree char *since = NULL;
  gboolean row;

  query = hs_sql_new (store, NULL,
                      "SELECT program, host, pid, since FROM session WHERE id IS NOT ?1 ORDER BY seq DESC LIMIT 1",
                      "t", store->session_id);
  if (query == NULL || !hs_sql_step (query, &row, NULL) || !row)
    return NULL;
  since = local_clock (store, hs_sql_int (query, 3));
  return g_strdup_printf ("%s on %s (process %" G_GINT64_FORMAT ", since %s)", hs_sql_text (query, 0),
                          hs_sql_text (query, 1), hs_sql_int (query, 2), since);
}
