// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was being typed when the program stopped, by job, page and field. It is kept out of the log of changes: it
 * is not yet part of the business. */

#include "hs-draft-row.h"

#include "hs-table.h"

static const HsColumn draft_columns[] = {
  HS_TEXT (HsDraftRow, id),
  HS_TEXT (HsDraftRow, job_id),
  HS_TEXT (HsDraftRow, page),
  HS_TEXT (HsDraftRow, field),
  HS_TEXT (HsDraftRow, text),
  HS_INT (HsDraftRow, at),
};

static const HsTable draft_table = {
  HS_TABLE (HsDraftRow, "draft", "draft", draft_columns),
  .unlogged = TRUE,
};

HS_DEFINE_ROW (HsDraftRow, hs_draft_row, draft_table)

gboolean
hs_draft_row_drop (HsStore *store, const char *job_id, const char *page, const char *field, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "DELETE FROM draft WHERE job_id IS ?1 AND (?2 IS NULL OR page = ?2)"
                      " AND (?3 IS NULL OR field = ?3)", "ttt", job_id, page, field);
  return hs_sql_run (query, error);
}

gboolean
hs_draft_row_drop_empty (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error, "DELETE FROM draft WHERE job_id IS ?1 AND text = ''", "t", job_id);
  return hs_sql_run (query, error);
}

gboolean
hs_draft_row_find (HsStore *store, const char *job_id, const char *page, const char *field, HsDraftRow **ret_row,
                   GError **error)
{
  return hs_table_find (store, &draft_table, (gpointer *) ret_row, error,
                        "WHERE job_id IS ?1 AND page = ?2 AND field = ?3 ORDER BY seq DESC LIMIT 1", "ttt", job_id,
                        page, field);
}

gboolean
hs_draft_row_settle (HsStore *store, const char *job_id, const char *page, const char *field, GError **error)
{
  g_autoptr (HsSql) query = NULL;

  if (!hs_store_may_change (store, error))
    return FALSE;
  query = hs_sql_new (store, error,
                      "UPDATE draft SET text = '' WHERE job_id IS ?1 AND (?2 IS NULL OR page = ?2)"
                      " AND (?3 IS NULL OR field = ?3) AND text <> ''", "ttt", job_id, page, field);
  return hs_sql_run (query, error);
}

/* Taken away and added again, so that it is the latest by its place, whatever the clock says. */
gboolean
hs_draft_row_put (HsStore *store, const char *job_id, const char *page, const char *field, const char *text,
                  GError **error)
{
  g_autoptr (HsDraftRow) row = hs_draft_row_new ();

  if (!hs_draft_row_drop (store, job_id, page, field, error))
    return FALSE;
  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->page, page);
  hs_row_set (&row->field, field);
  hs_row_set (&row->text, text);
  row->at = hs_store_get_now (store);
  return hs_draft_row_save (store, row, error);
}

gboolean
hs_draft_row_list_of (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &draft_table, (GDestroyNotify) hs_draft_row_free, ret_rows, error,
                        "WHERE job_id IS ?1 ORDER BY seq", "t", job_id);
}

gboolean
hs_draft_row_latest (HsStore *store, HsDraftRow **ret_row, GError **error)
{
  return hs_table_find (store, &draft_table, (gpointer *) ret_row, error, "ORDER BY seq DESC LIMIT 1", "");
}
