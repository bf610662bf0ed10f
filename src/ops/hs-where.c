// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Where was I: what was being typed, into which field of which job, kept in the book so that it outlives the program
 * and a flat inverter. Saving no page forgets the job's place.
 */

#include "hs-draft-row.h"
#include "hs-job-op.h"
#include "hs-ops-private.h"

void
hs_where_free (HsWhere *where)
{
  if (where == NULL)
    return;
  g_free (where->job_id);
  g_free (where->job_number);
  g_free (where->page);
  g_free (where->field);
  g_free (where->text);
  g_free (where);
}

HsWhere *
hs_where_load (HsBook *book, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsDraftRow) draft = NULL;
  g_autoptr (HsJobRow) job = NULL;
  HsWhere *where;

  if (!hs_draft_row_latest (store, &draft, error) || draft == NULL)
    return NULL;
  if (draft->job_id != NULL && !hs_job_row_load (store, draft->job_id, &job, error))
    return NULL;
  where = g_new0 (HsWhere, 1);
  where->job_id = g_strdup (draft->job_id);
  where->job_number = job == NULL ? NULL : g_strdup (job->number);
  where->page = g_strdup (draft->page);
  where->field = g_strdup (draft->field);
  where->text = g_strdup (draft->text);
  where->at = draft->at;
  return where;
}

static gboolean
forget_page (HsStore *store, const char *job_id, const char *page, GError **error)
{
  g_autoptr (HsDraftRow) latest = NULL;
  gboolean there;

  if (!hs_draft_row_latest (store, &latest, error))
    return FALSE;
  there = latest != NULL && job_id != NULL && g_strcmp0 (latest->job_id, job_id) == 0
          && g_strcmp0 (latest->page, page) == 0;
  if (!hs_draft_row_drop (store, job_id, page, NULL, error))
    return FALSE;
  return !there || hs_draft_row_put (store, job_id, page, HS_WHERE_HERE, "", error);
}

gboolean
hs_where_save (HsBook *book, const char *job_id, const char *page, const char *field, const char *text, HsInstant now,
               GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  if (page == NULL || field == NULL)
    return hs_store_end (store, forget_page (store, job_id, page, error), error);
  return hs_store_end (store, hs_draft_row_put (store, job_id, page, field, text == NULL ? "" : text, error), error);
}

static gboolean
visit (HsStore *store, const char *job_id, const char *page, const char *field, GError **error)
{
  g_autoptr (HsDraftRow) typed = NULL;

  if (!hs_draft_row_find (store, job_id, page, field, &typed, error)
      || !hs_draft_row_drop_empty (store, job_id, error))
    return FALSE;
  return hs_draft_row_put (store, job_id, page, field, typed != NULL ? typed->text : "", error);
}

gboolean
hs_where_visit (HsBook *book, const char *job_id, const char *page, const char *field, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, visit (store, job_id, page, field, error), error);
}

static gboolean
leave (HsStore *store, const char *job_id, gboolean worked, GError **error)
{
  g_autoptr (HsDraftRow) latest = NULL;
  g_autofree char *left = NULL;

  if (!hs_draft_row_latest (store, &latest, error))
    return FALSE;
  if (latest == NULL || g_strcmp0 (latest->job_id, job_id) != 0 || *latest->text != '\0'
      || g_str_has_prefix (latest->field, HS_WHERE_LEFT))
    return TRUE;
  left = g_strconcat (HS_WHERE_LEFT, latest->field, NULL);
  return hs_draft_row_drop (store, job_id, latest->page, latest->field, error)
         && (!worked || hs_draft_row_put (store, job_id, latest->page, left, "", error));
}

gboolean
hs_where_leave (HsBook *book, const char *job_id, gboolean worked, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, leave (store, job_id, worked, error), error);
}

gboolean
hs_where_settle (HsBook *book, const char *job_id, const char *page, const char *field, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, hs_draft_row_settle (store, job_id, page, field, error), error);
}
