// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which causes were proven on squared jobs, for learning how often it is which. A squared job never changes, so the
 * list only grows. */

#include "hs-proven-cause.h"

#include "hs-sql.h"

void
hs_proven_cause_free (HsProvenCause *cause)
{
  if (cause == NULL)
    return;
  g_free (cause->job_id);
  g_free (cause->group);
  g_free (cause->cause);
  g_free (cause);
}

static gpointer
read_cause (HsSql *query)
{
  HsProvenCause *cause = g_new0 (HsProvenCause, 1);

  cause->job_id = g_strdup (hs_sql_text (query, 0));
  cause->group = g_strdup (hs_sql_text (query, 1));
  cause->cause = g_strdup (hs_sql_text (query, 2));
  return cause;
}

gboolean
hs_proven_cause_list (HsStore *store, GPtrArray **ret_causes, GError **error)
{
  g_autoptr (HsSql) query
    = hs_sql_new (store, error,
                  "SELECT j.id, j.complaint_group, f.cause FROM finding f JOIN job j ON j.id = f.job_id"
                  " WHERE f.cause IS NOT NULL AND f.role = 'cause' AND f.sure = 'proven' AND j.stage = 'squared'"
                  " AND j.complaint_group IS NOT NULL GROUP BY j.id, f.cause ORDER BY min (f.seq)",
                  "");

  return hs_sql_rows (query, read_cause, (GDestroyNotify) hs_proven_cause_free, ret_causes, error);
}
