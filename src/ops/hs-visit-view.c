// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The visits of a job as they are shown: when the van rolled, came and left, and what the labor clock says. */

#include "hs-visit-view.h"

#include "hs-visit-private.h"
#include "hs-visit-row.h"

void
hs_visit_view_free (HsVisitView *view)
{
  if (view == NULL)
    return;
  g_free (view->safe_note);
  g_free (view);
}

static gboolean
add_view (HsStore *store, const HsVisitRow *visit, HsInstant now, GPtrArray *views, GError **error)
{
  HsInstant end = visit->left_at != HS_INSTANT_NONE ? visit->left_at : now;
  g_autoptr (HsVisitView) view = g_new0 (HsVisitView, 1);
  g_autoptr (GPtrArray) pauses = NULL;

  view->rolling_at = visit->rolling_at;
  view->arrived_at = visit->arrived_at;
  view->left_at = visit->left_at;
  view->paused_at = HS_INSTANT_NONE;
  view->safe_note = g_strdup (visit->safe_note);
  if (!hs_pause_row_list_of (store, visit->id, &pauses, error)
      || !hs_visit_add_seconds (store, visit, now, &view->seconds, error))
    return FALSE;
  view->n_pauses = hs_visit_count_pauses (visit, pauses);
  if (visit->arrived_at != HS_INSTANT_NONE && !hs_visit_is_unclocked (visit, pauses, now))
    view->paused_seconds = MAX (0, end - visit->arrived_at) - view->seconds;
  for (guint i = 0; i < pauses->len; i++)
    {
      const HsPauseRow *pause = g_ptr_array_index (pauses, i);

      if (pause->to_at == HS_INSTANT_NONE && visit->left_at == HS_INSTANT_NONE)
        view->paused_at = pause->from_at;
    }
  g_ptr_array_add (views, g_steal_pointer (&view));
  return TRUE;
}

GPtrArray *
hs_visit_view_list (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) views = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_visit_view_free);
  g_autoptr (GPtrArray) visits = NULL;

  if (!hs_visit_row_list_of (store, job_id, &visits, error))
    return NULL;
  for (guint i = 0; i < visits->len; i++)
    if (!add_view (store, g_ptr_array_index (visits, i), now, views, error))
      return NULL;
  return g_steal_pointer (&views);
}

gboolean
hs_visit_view_is_open (const HsVisitView *view)
{
  return view->arrived_at != HS_INSTANT_NONE && view->left_at == HS_INSTANT_NONE;
}

gboolean
hs_visit_view_runs (const HsVisitView *view)
{
  return hs_visit_view_is_open (view) && view->paused_at == HS_INSTANT_NONE;
}
