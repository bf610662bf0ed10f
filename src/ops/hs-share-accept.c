// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Lets a shared day stand, and takes it back: the vans of jobs and the accepted orders of all vans change together, or
 * nothing does. Refuses a proposal that was made of another day than the book now holds, and to undo what was changed
 * again since. Parts are not moved: what lies in a van or is laid aside stays where it is.
 */

#include "hs-share-private.h"

#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-plan-row.h"

/* @plan: (nullable): the order that stood for a van, with its @stops; @became: the one that stands now, in one text */
typedef struct
{
  char *van_id;
  HsPlanRow *plan;
  GPtrArray *stops;
  char *became;
} UndoVan;

typedef struct
{
  char *job_id;
  char *number;
  char *from_id;
  char *to_id;
} UndoMove;

struct _HsShareUndo
{
  HsDate day;
  GPtrArray *moves;
  GPtrArray *vans;
};

static void
undo_van_free (gpointer data)
{
  UndoVan *van = data;

  g_free (van->van_id);
  hs_plan_row_free (van->plan);
  g_clear_pointer (&van->stops, g_ptr_array_unref);
  g_free (van->became);
  g_free (van);
}

static void
undo_move_free (gpointer data)
{
  UndoMove *move = data;

  g_free (move->job_id);
  g_free (move->number);
  g_free (move->from_id);
  g_free (move->to_id);
  g_free (move);
}

void
hs_share_undo_free (HsShareUndo *undo)
{
  if (undo == NULL)
    return;
  g_ptr_array_unref (undo->moves);
  g_ptr_array_unref (undo->vans);
  g_free (undo);
}

/* Orders ----------------------------------------------------------------------------------------------------------- */

/* The order that stands for a van, in one text; "" for none. */
static gboolean
describe_order (HsStore *store, const char *van_id, HsDate day, char **ret_text, GError **error)
{
  g_autoptr (HsPlanRow) plan = NULL;
  g_autoptr (GPtrArray) stops = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  if (!hs_plan_row_find (store, van_id, day, &plan, error))
    return FALSE;
  if (plan != NULL && !hs_plan_stop_row_list_of (store, plan->id, &stops, error))
    return FALSE;
  if (plan != NULL)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, plan->leave_at);
  for (guint i = 0; stops != NULL && i < stops->len; i++)
    {
      const HsPlanStopRow *stop = g_ptr_array_index (stops, i);

      g_string_append_printf (text, " %s%s", stop->job_id != NULL ? stop->job_id : stop->supplier_id,
                              stop->locked ? "!" : "");
    }
  *ret_text = g_strdup (text->str);
  return TRUE;
}

static gboolean
drop_order (HsStore *store, const char *van_id, HsDate day, GError **error)
{
  g_autoptr (HsPlanRow) plan = NULL;
  g_autoptr (GPtrArray) stops = NULL;

  if (!hs_plan_row_find (store, van_id, day, &plan, error))
    return FALSE;
  if (plan == NULL)
    return TRUE;
  if (!hs_plan_stop_row_list_of (store, plan->id, &stops, error))
    return FALSE;
  for (guint i = 0; i < stops->len; i++)
    if (!hs_plan_stop_row_delete (store, ((HsPlanStopRow *) g_ptr_array_index (stops, i))->id, error))
      return FALSE;
  return hs_plan_row_delete (store, plan->id, error);
}

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
    return drop_order (store, van->id, day, error);
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
remember_van (HsStore *store, HsShareUndo *undo, const char *van_id, GError **error)
{
  UndoVan *van = g_new0 (UndoVan, 1);

  g_ptr_array_add (undo->vans, van);
  van->van_id = g_strdup (van_id);
  return hs_plan_row_find (store, van_id, undo->day, &van->plan, error)
         && (van->plan == NULL || hs_plan_stop_row_list_of (store, van->plan->id, &van->stops, error));
}

static gboolean
move_job (HsStore *store, const HsShareMove *move, HsShareUndo *undo, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  UndoMove *was;

  if (!hs_job_row_load (store, move->job_id, &job, error))
    return FALSE;
  was = g_new0 (UndoMove, 1);
  was->job_id = g_strdup (move->job_id);
  was->number = g_strdup (move->number);
  was->from_id = g_strdup (job->van_id);
  was->to_id = g_strdup (move->to_id);
  g_ptr_array_add (undo->moves, was);
  hs_row_set (&job->van_id, move->to_id);
  return hs_job_row_save (store, job, error);
}

static gboolean
write_plan (HsBook *book, const HsSharePlan *plan, HsInstant now, HsShareUndo *undo, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsShareCase) of = hs_share_case_load (book, plan->day, now, error);

  if (of == NULL || !check_plan (plan, error))
    return FALSE;
  if (!g_str_equal (of->digest, plan->digest))
    return refuse (error, "The day has changed since the calls were shared. Nothing was changed: share them again");
  for (guint i = 0; i < of->vans->len; i++)
    if (!remember_van (store, undo, ((HsShareVan *) g_ptr_array_index (of->vans, i))->id, error))
      return FALSE;
  for (guint i = 0; i < plan->moves->len; i++)
    if (!move_job (store, g_ptr_array_index (plan->moves, i), undo, error))
      return FALSE;
  for (guint i = 0; i < of->vans->len; i++)
    {
      UndoVan *van = g_ptr_array_index (undo->vans, i);

      if (!accept_order (store, plan->day, g_ptr_array_index (of->vans, i), g_ptr_array_index (plan->routes, i), error)
          || !describe_order (store, van->van_id, plan->day, &van->became, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_share_accept (HsBook *book, const HsSharePlan *plan, HsInstant now, HsShareUndo **ret_undo, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsShareUndo) undo = g_new0 (HsShareUndo, 1);

  undo->day = plan->day;
  undo->moves = g_ptr_array_new_with_free_func (undo_move_free);
  undo->vans = g_ptr_array_new_with_free_func (undo_van_free);
  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, write_plan (book, plan, now, undo, error), error))
    return FALSE;
  if (ret_undo != NULL)
    *ret_undo = g_steal_pointer (&undo);
  return TRUE;
}

/* Taking back ------------------------------------------------------------------------------------------------------ */

static gboolean
restore_job (HsStore *store, const UndoMove *move, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, move->job_id, &job, error))
    return FALSE;
  if (g_strcmp0 (job->van_id, move->to_id) != 0 || !g_str_equal (job->stage, hs_stage_id (HS_STAGE_PROMISED)))
    {
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                   "%s has gone on since the calls were shared, so that cannot be taken back", move->number);
      return FALSE;
    }
  hs_row_set (&job->van_id, move->from_id);
  return hs_job_row_save (store, job, error);
}

static gboolean
restore_order (HsStore *store, const UndoVan *van, HsDate day, GError **error)
{
  g_autofree char *now = NULL;
  g_autoptr (GPtrArray) stops = NULL;
  g_autoptr (HsPlanRow) plan = NULL;

  if (!describe_order (store, van->van_id, day, &now, error))
    return FALSE;
  if (!g_str_equal (now, van->became))
    return refuse (error, "Another order was accepted since the calls were shared, so that cannot be taken back");
  if (van->plan == NULL)
    return drop_order (store, van->van_id, day, error);
  plan = hs_plan_row_copy (van->plan);
  stops = copy_stops (van->stops);
  return hs_plan_row_accept (store, plan, stops, error);
}

static gboolean
restore (HsStore *store, const HsShareUndo *undo, GError **error)
{
  for (guint i = 0; i < undo->moves->len; i++)
    if (!restore_job (store, g_ptr_array_index (undo->moves, i), error))
      return FALSE;
  for (guint i = 0; i < undo->vans->len; i++)
    if (!restore_order (store, g_ptr_array_index (undo->vans, i), undo->day, error))
      return FALSE;
  return TRUE;
}

gboolean
hs_share_take_back (HsBook *book, const HsShareUndo *undo, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, restore (store, undo, error), error);
}
