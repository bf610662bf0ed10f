// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Whom to ring on the day itself: customers whose promise can't be kept, and on a day that has begun those who are
 * reached in the last minutes of theirs, since the next red light breaks it. What is behind is not looked at.
 */

#include "hs-day-ring.h"

#include "hs-customer-row.h"
#include "hs-job-row.h"

void
hs_day_ring_free (HsDayRing *ring)
{
  g_free (ring->id);
  g_free (ring->who);
  g_free (ring->phone);
  g_free (ring->why);
  g_free (ring);
}

HsDayRing *
hs_day_ring_copy (const HsDayRing *ring)
{
  HsDayRing *copy = g_new0 (HsDayRing, 1);

  copy->id = g_strdup (ring->id);
  copy->who = g_strdup (ring->who);
  copy->phone = g_strdup (ring->phone);
  copy->spare_seconds = ring->spare_seconds;
  copy->why = g_strdup (ring->why);
  return copy;
}

static gboolean
find_phone (HsStore *store, const HsDayCall *call, char **ret_phone, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) phones = NULL;

  if (!hs_job_row_load (store, call->job_id, &job, error)
      || !hs_phone_row_list_of (store, job->customer_id, &phones, error))
    return FALSE;
  *ret_phone = phones->len > 0 ? g_strdup (((HsPhoneRow *) g_ptr_array_index (phones, 0))->shown) : NULL;
  return TRUE;
}

static const HsDayCall *
call_of (const HsDaySolved *solved, int stop)
{
  return stop >= 0 ? g_array_index (solved->build->refs, HsDayStopRef, stop).call : NULL;
}

static gboolean
add_phone (const HsDaySolved *solved, HsStore *store, HsPlanBroken *broken, GError **error)
{
  const HsDayCall *call = call_of (solved, broken->stop);
  g_autofree char *phone = NULL;
  g_autofree char *why = NULL;

  if (call == NULL)
    return TRUE;
  if (!find_phone (store, call, &phone, error))
    return FALSE;
  if (phone == NULL)
    return TRUE;
  why = g_steal_pointer (&broken->why);
  broken->why = g_strdup_printf ("%s; ring %s, %s", why, call->customer, phone);
  return TRUE;
}

static char *
dup_why (gint64 spare_seconds)
{
  gint64 minutes = spare_seconds / 60;

  if (minutes == 0)
    return g_strdup ("arrives just as the promise ends");
  return g_strdup_printf ("arrives %" G_GINT64_FORMAT " min before the promise ends", minutes);
}

/* Rings about @stop where it is reached in the last minutes of its promise, but not after it. */
static gboolean
add_ring (HsDaySolved *solved, HsStore *store, const HsPlanStop *stop, GError **error)
{
  const HsDayCall *call = call_of (solved, (int) stop->stop);
  HsInstant start = solved->facts->starts_at;
  gint64 spare;
  HsDayRing *ring;
  g_autofree char *phone = NULL;

  if (call == NULL || call->window_to == HS_INSTANT_NONE)
    return TRUE;
  spare = call->window_to - start - stop->arrive_seconds;
  if (spare >= HS_DAY_RING_SECONDS || call->window_to < start + stop->start_seconds)
    return TRUE;
  if (!find_phone (store, call, &phone, error))
    return FALSE;
  ring = g_new0 (HsDayRing, 1);
  ring->id = g_strdup (call->number);
  ring->who = g_strdup (call->customer);
  ring->phone = g_steal_pointer (&phone);
  ring->spare_seconds = spare;
  ring->why = dup_why (spare);
  g_ptr_array_add (solved->ring, ring);
  return TRUE;
}

gboolean
hs_day_ring_fill (HsDaySolved *solved, HsStore *store, gboolean begun, GError **error)
{
  for (guint i = 0; i < solved->plan->broken->len; i++)
    if (!add_phone (solved, store, g_ptr_array_index (solved->plan->broken, i), error))
      return FALSE;
  if (!begun)
    return TRUE;
  g_clear_pointer (&solved->ring, g_ptr_array_unref);
  solved->ring = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_day_ring_free);
  for (guint i = 0; i < solved->plan->stops->len; i++)
    if (!add_ring (solved, store, hs_plan_get_stop (solved->plan, i), error))
      return FALSE;
  return TRUE;
}
