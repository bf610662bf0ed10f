// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The order that stands for a van, as a value that can be kept and put back. Ids and times are those of the book;
 * what is read of a van without an order is Nothing, and putting Nothing takes the order away.
 */

#include "hs-share-private.h"

#include "hs-plan-row.h"

static gboolean
find_order (HsStore *store, const char *van_id, HsDate day, HsPlanRow **ret_plan, GPtrArray **ret_stops,
            GError **error)
{
  return hs_plan_row_find (store, van_id, day, ret_plan, error)
         && (*ret_plan == NULL || hs_plan_stop_row_list_of (store, (*ret_plan)->id, ret_stops, error));
}

static const char *
or_none (const char *id)
{
  return id != NULL ? id : "";
}

GVariant *
hs_share_order_read (HsStore *store, const char *van_id, HsDate day, GError **error)
{
  g_autoptr (HsPlanRow) plan = NULL;
  g_autoptr (GPtrArray) stops = NULL;
  g_auto (GVariantBuilder) builder = G_VARIANT_BUILDER_INIT (G_VARIANT_TYPE ("a(ssbxxx)"));

  if (!find_order (store, van_id, day, &plan, &stops, error))
    return NULL;
  for (guint i = 0; stops != NULL && i < stops->len; i++)
    {
      const HsPlanStopRow *stop = g_ptr_array_index (stops, i);

      g_variant_builder_add (&builder, "(ssbxxx)", or_none (stop->job_id), or_none (stop->supplier_id), stop->locked,
                             stop->arrive_at, stop->start_at, stop->depart_at);
    }
  if (plan == NULL)
    return g_variant_ref_sink (g_variant_new_maybe (G_VARIANT_TYPE ("(xxa(ssbxxx))"), NULL));
  return g_variant_ref_sink (g_variant_new_maybe (
      NULL, g_variant_new ("(xxa(ssbxxx))", plan->leave_at, plan->home_at, &builder)));
}

char *
hs_share_order_describe (HsStore *store, const char *van_id, HsDate day, GError **error)
{
  g_autoptr (HsPlanRow) plan = NULL;
  g_autoptr (GPtrArray) stops = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  if (!find_order (store, van_id, day, &plan, &stops, error))
    return NULL;
  if (plan != NULL)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, plan->leave_at);
  for (guint i = 0; stops != NULL && i < stops->len; i++)
    {
      const HsPlanStopRow *stop = g_ptr_array_index (stops, i);

      g_string_append_printf (text, " %s%s", stop->job_id != NULL ? stop->job_id : stop->supplier_id,
                              stop->locked ? "!" : "");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

gboolean
hs_share_order_drop (HsStore *store, const char *van_id, HsDate day, GError **error)
{
  g_autoptr (HsPlanRow) plan = NULL;
  g_autoptr (GPtrArray) stops = NULL;

  if (!find_order (store, van_id, day, &plan, &stops, error))
    return FALSE;
  if (plan == NULL)
    return TRUE;
  for (guint i = 0; i < stops->len; i++)
    if (!hs_plan_stop_row_delete (store, ((HsPlanStopRow *) g_ptr_array_index (stops, i))->id, error))
      return FALSE;
  return hs_plan_row_delete (store, plan->id, error);
}

static HsPlanStopRow *
stop_row (GVariant *stop)
{
  HsPlanStopRow *row = hs_plan_stop_row_new ();
  const char *job_id, *supplier_id;

  g_variant_get (stop, "(&s&sbxxx)", &job_id, &supplier_id, &row->locked, &row->arrive_at, &row->start_at,
                 &row->depart_at);
  hs_row_set (&row->job_id, *job_id != '\0' ? job_id : NULL);
  hs_row_set (&row->supplier_id, *supplier_id != '\0' ? supplier_id : NULL);
  return row;
}

gboolean
hs_share_order_put (HsStore *store, const char *van_id, HsDate day, GVariant *order, GError **error)
{
  g_autoptr (GVariant) value = g_variant_get_maybe (order);
  g_autoptr (GVariant) stops = NULL;
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_plan_stop_row_free);
  g_autoptr (HsPlanRow) plan = hs_plan_row_new ();

  if (value == NULL)
    return hs_share_order_drop (store, van_id, day, error);
  g_variant_get (value, "(xx@a(ssbxxx))", &plan->leave_at, &plan->home_at, &stops);
  hs_row_set (&plan->van_id, van_id);
  plan->day = day;
  for (gsize i = 0; i < g_variant_n_children (stops); i++)
    {
      g_autoptr (GVariant) stop = g_variant_get_child_value (stops, i);

      g_ptr_array_add (rows, stop_row (stop));
    }
  return hs_plan_row_accept (store, plan, rows, error);
}
