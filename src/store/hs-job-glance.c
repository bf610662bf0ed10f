// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the job board shows of every open job, read in one query: with the parts it waits for, its open choices, charges
 * and ceiling, and what is owed. Whether it wants attention is for the caller to say. */

#include "hs-job-glance.h"

#include "hs-sql.h"

/* The columns in the order of read_glance(); the stages in the order of a day. */
#define GLANCE \
  "SELECT j.id, j.number, j.stage, j.kind, j.words, j.day, j.window_from, j.window_to, j.guess_seconds, j.return_why," \
  " j.owed_cents, j.changed_at, c.id, c.name, a.id, a.name, a.signal, v.id, v.plate," \
  " trim (ifnull (v.make || ' ', '') || ifnull (v.model || ' ', '') || ifnull (v.year, ''))," \
  " ifnull (v.high_voltage, 0), f.number," \
  " (SELECT count (*) FROM need n WHERE n.job_id = j.id AND n.state IN ('wanted', 'asked_for', 'laid_aside'))," \
  " p.name, s.name, n.sure_percent," \
  " (SELECT q.name FROM need m JOIN part q ON q.id = m.part_id WHERE m.job_id = j.id AND m.state = 'in_the_van'" \
  "  ORDER BY m.seq LIMIT 1)," \
  " (SELECT count (*) FROM advice d WHERE d.job_id = j.id AND d.choice = 'open')," \
  " (SELECT ifnull (sum (l.price_cents + l.tax_cents), 0) FROM line l WHERE l.job_id = j.id)," \
  " ifnull ((SELECT g.ceiling_cents FROM go_ahead g WHERE g.job_id = j.id ORDER BY g.seq DESC LIMIT 1), 0)," \
  " i.issued_on, i.due_on, w.rolling_at, w.arrived_at, w.left_at," \
  " EXISTS (SELECT 1 FROM draft t WHERE t.job_id = j.id AND t.text <> ''), j.van_id" \
  " FROM job j JOIN customer c ON c.id = j.customer_id" \
  " LEFT JOIN area a ON a.id = ifnull (j.area_id, c.area_id)" \
  " LEFT JOIN vehicle v ON v.id = j.vehicle_id" \
  " LEFT JOIN job f ON f.id = j.follows_job_id" \
  " LEFT JOIN need n ON n.seq = (SELECT min (o.seq) FROM need o WHERE o.job_id = j.id" \
  "                              AND o.state IN ('wanted', 'asked_for', 'laid_aside'))" \
  " LEFT JOIN part p ON p.id = n.part_id" \
  " LEFT JOIN supplier s ON s.id = n.supplier_id" \
  " LEFT JOIN invoice i ON i.job_id = j.id AND i.credits_id IS NULL" \
  " LEFT JOIN visit w ON w.seq = (SELECT max (x.seq) FROM visit x WHERE x.job_id = j.id) "

#define OPEN_STAGES \
  "'called_in', 'penciled', 'promised', 'rolling', 'on_site', 'waiting_part', 'waiting_yes', 'proven'"

#define IN_BOARD_ORDER \
  "ORDER BY CASE j.stage WHEN 'called_in' THEN 0 WHEN 'penciled' THEN 1 WHEN 'promised' THEN 2 WHEN 'rolling' THEN 3" \
  " WHEN 'on_site' THEN 4 WHEN 'waiting_part' THEN 5 WHEN 'waiting_yes' THEN 6 WHEN 'proven' THEN 7 ELSE 8 END," \
  " j.window_from NULLS LAST, j.number"

void
hs_job_glance_free (HsJobGlance *glance)
{
  if (glance == NULL)
    return;
  g_free (glance->id);
  g_free (glance->number);
  g_free (glance->stage);
  g_free (glance->kind);
  g_free (glance->words);
  g_free (glance->return_why);
  g_free (glance->customer_id);
  g_free (glance->customer);
  g_free (glance->area_id);
  g_free (glance->area);
  g_free (glance->signal);
  g_free (glance->vehicle_id);
  g_free (glance->plate);
  g_free (glance->vehicle);
  g_free (glance->follows_number);
  g_free (glance->need_part);
  g_free (glance->need_supplier);
  g_free (glance->van_part);
  g_free (glance->van_id);
  g_free (glance);
}

static void
read_job (HsSql *query, HsJobGlance *glance)
{
  glance->id = g_strdup (hs_sql_text (query, 0));
  glance->number = g_strdup (hs_sql_text (query, 1));
  glance->stage = g_strdup (hs_sql_text (query, 2));
  glance->kind = g_strdup (hs_sql_text (query, 3));
  glance->words = g_strdup (hs_sql_text (query, 4));
  glance->day = hs_sql_date (query, 5);
  glance->window_from = hs_sql_int (query, 6);
  glance->window_to = hs_sql_int (query, 7);
  glance->guess_seconds = hs_sql_int (query, 8);
  glance->return_why = g_strdup (hs_sql_text (query, 9));
  glance->owed_cents = hs_sql_int (query, 10);
  glance->changed_at = hs_sql_int (query, 11);
}

static void
read_who_and_where (HsSql *query, HsJobGlance *glance)
{
  glance->customer_id = g_strdup (hs_sql_text (query, 12));
  glance->customer = g_strdup (hs_sql_text (query, 13));
  glance->area_id = g_strdup (hs_sql_text (query, 14));
  glance->area = g_strdup (hs_sql_text (query, 15));
  glance->signal = g_strdup (hs_sql_text (query, 16));
  glance->vehicle_id = g_strdup (hs_sql_text (query, 17));
  glance->plate = g_strdup (hs_sql_text (query, 18));
  glance->vehicle = glance->vehicle_id == NULL ? NULL : g_strdup (hs_sql_text (query, 19));
  glance->high_voltage = hs_sql_int (query, 20) == 1;
  glance->follows_number = g_strdup (hs_sql_text (query, 21));
}

static void
read_attention (HsSql *query, HsJobGlance *glance)
{
  glance->need_count = hs_sql_int (query, 22);
  glance->need_part = g_strdup (hs_sql_text (query, 23));
  glance->need_supplier = g_strdup (hs_sql_text (query, 24));
  glance->need_sure_percent = hs_sql_int (query, 25);
  glance->van_part = g_strdup (hs_sql_text (query, 26));
  glance->open_choices = hs_sql_int (query, 27);
  glance->charges_cents = hs_sql_int (query, 28);
  glance->ceiling_cents = hs_sql_int (query, 29);
  glance->invoiced_on = hs_sql_date (query, 30);
  glance->due_on = hs_sql_date (query, 31);
  glance->rolling_at = hs_sql_int (query, 32);
  glance->arrived_at = hs_sql_int (query, 33);
  glance->left_at = hs_sql_int (query, 34);
  glance->has_draft = hs_sql_int (query, 35) == 1;
  glance->van_id = g_strdup (hs_sql_text (query, 36));
}

static gpointer
read_glance (HsSql *query)
{
  HsJobGlance *glance = g_new0 (HsJobGlance, 1);

  read_job (query, glance);
  read_who_and_where (query, glance);
  read_attention (query, glance);
  return glance;
}

gboolean
hs_job_glance_list (HsStore *store, GPtrArray **ret_glances, GError **error)
{
  g_autoptr (HsSql) query
      = hs_sql_new (store, error,
                    GLANCE "WHERE j.seq IN (SELECT seq FROM job WHERE stage IN (" OPEN_STAGES ")"
                    " UNION SELECT seq FROM job WHERE owed_cents <> 0"
                    " UNION SELECT o.seq FROM job o WHERE o.stage = 'called_off'"
                    " AND EXISTS (SELECT 1 FROM line l WHERE l.job_id = o.id)) " IN_BOARD_ORDER, "");

  return hs_sql_rows (query, read_glance, (GDestroyNotify) hs_job_glance_free, ret_glances, error);
}

/* The + keeps to the order of the rows: sorting all that were ever closed would take long. */
gboolean
hs_job_glance_list_closed (HsStore *store, guint limit, GPtrArray **ret_glances, GError **error)
{
  g_autoptr (HsSql) query
      = hs_sql_new (store, error,
                    GLANCE "WHERE j.seq IN (SELECT seq FROM job WHERE +stage NOT IN (" OPEN_STAGES ")"
                    " ORDER BY seq DESC LIMIT ?1) ORDER BY j.seq DESC", "i", (gint64) limit);

  return hs_sql_rows (query, read_glance, (GDestroyNotify) hs_job_glance_free, ret_glances, error);
}

gboolean
hs_job_glance_load (HsStore *store, const char *job_id, HsJobGlance **ret_glance, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, GLANCE "WHERE j.id = ?1", "t", job_id);
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  if (!row)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND, "There is no job “%s” in the book", job_id);
      return FALSE;
    }
  *ret_glance = read_glance (query);
  return TRUE;
}
