// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Lets a shared day stand: the vans of jobs and the accepted orders of all vans change together, or nothing does.
 * Refuses a proposal that was made of another day than the book now holds. Parts are not moved: what lies in a van or
 * is laid aside stays where it is.
 */

#include "hs-share-private.h"

#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-plan-row.h"

static GPtrArray *
copy_stops (GPtrArray *stops)
{
  GPtrArray *copies = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_plan_stop_row_free);

  for (guint i = 0; i < stops->len; i++)
    g_ptr_array_add (copies, hs_plan_stop_row_copy (g_ptr_array_index (stops, i)));
  return copies;
}

/* What a van has begun, then what is ahead of it. */
static GPtrArray *
order_rows (const HsShareVan *van, const HsShareRoute *route)
{
  GPtrArray *rows = copy_stops (van->past);

  for (guint i = 0; i < route->stops->len; i++)
    {
      const HsShareStop *stop = g_ptr_array_index (route->stops, i);
      HsPlanStopRow *row;

      if (stop->kind == HS_SHARE_BREAK)
        continue;
      row = hs_plan_stop_row_new ();
      hs_row_set (stop->kind == HS_SHARE_CALL ? &row->job_id : &row->supplier_id, stop->row_id);
      row->locked = stop->locked;
      row->arrive_at = stop->arrive;
      row->start_at = stop->start;
      row->depart_at = stop->depart;
      g_ptr_array_add (rows, row);
    }
  return rows;
}

static gboolean
accept_order (HsStore *store, HsDate day, const HsShareVan *van, const HsShareRoute *route, GError **error)
{
  g_autoptr (GPtrArray) stops = order_rows (van, route);
  g_autoptr (HsPlanRow) plan = hs_plan_row_new ();

  if (stops->len == 0)
    return hs_share_order_drop (store, van->id, day, error);
  hs_row_set (&plan->van_id, van->id);
  plan->day = day;
  plan->leave_at = van->begun ? van->rolled_at : route->leave;
  plan->home_at = route->home;
  return hs_plan_row_accept (store, plan, stops, error);
}

/* Accepting -------------------------------------------------------------------------------------------------------- */

static gboolean
refuse (GError **error, const char *message)
{
  g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, message);
  return FALSE;
}

static gboolean
check_plan (const HsSharePlan *plan, GError **error)
{
  gboolean any = FALSE;

  for (guint i = 0; i < plan->routes->len; i++)
    any |= ((const HsShareRoute *) g_ptr_array_index (plan->routes, i))->stops->len > 0;
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);

      if (broken->late_seconds >= 0)
        continue;
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                   "%s would be served by nobody: give it another window or another day, then share the calls again",
                   broken->id);
      return FALSE;
    }
  return any || refuse (error, "There is nothing to share: no call of this day is still ahead");
}

static gboolean
move_job (HsStore *store, const HsShareMove *move, GVariantBuilder *moved, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, move->job_id, &job, error))
    return FALSE;
  g_variant_builder_add (moved, "(ssss)", move->job_id, move->number, job->van_id != NULL ? job->van_id : "",
                         move->to_id);
  hs_row_set (&job->van_id, move->to_id);
  return hs_job_row_save (store, job, error);
}

static gboolean
write_order (HsStore *store, HsDate day, const HsShareVan *van, const HsShareRoute *route, GVariantBuilder *orders,
             GError **error)
{
  g_autoptr (GVariant) was = hs_share_order_read (store, van->id, day, error);
  g_autofree char *became = NULL;

  if (was == NULL || !accept_order (store, day, van, route, error))
    return FALSE;
  became = hs_share_order_describe (store, van->id, day, error);
  if (became != NULL)
    g_variant_builder_add (orders, "(s@m(xxa(ssbxxx))s)", van->id, was, became);
  return became != NULL;
}

static gboolean
write_plan (HsStore *store, const HsSharePlan *plan, const HsShareCase *of, GError **error)
{
  g_auto (GVariantBuilder) moves = G_VARIANT_BUILDER_INIT (G_VARIANT_TYPE ("a(ssss)"));
  g_auto (GVariantBuilder) orders = G_VARIANT_BUILDER_INIT (G_VARIANT_TYPE ("a(sm(xxa(ssbxxx))s)"));

  for (guint i = 0; i < plan->moves->len; i++)
    if (!move_job (store, g_ptr_array_index (plan->moves, i), &moves, error))
      return FALSE;
  for (guint i = 0; i < of->vans->len; i++)
    if (!write_order (store, plan->day, g_ptr_array_index (of->vans, i), g_ptr_array_index (plan->routes, i), &orders,
                      error))
      return FALSE;
  return hs_share_undo_keep (store, plan->day, &moves, &orders, error);
}

static gboolean
accept_plan (HsBook *book, const HsSharePlan *plan, HsInstant now, GError **error)
{
  g_autoptr (HsShareCase) of = hs_share_case_load (book, plan->day, now, error);

  if (of == NULL || !check_plan (plan, error))
    return FALSE;
  if (!g_str_equal (of->digest, plan->digest))
    return refuse (error, "The day has changed since the calls were shared. Nothing was changed: share them again");
  return write_plan (hs_book_get_store (book), plan, of, error);
}

gboolean
hs_share_accept (HsBook *book, const HsSharePlan *plan, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, accept_plan (book, plan, now, error), error);
}
