// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* On the way to a job: where to, when she is there, what comes first and who has to be rung. */

#include "hs-way-op.h"

void
hs_way_free (HsWay *way)
{
  if (way == NULL)
    return;
  hs_job_view_free (way->view);
  g_ptr_array_unref (way->before);
  g_free (way->ring);
  hs_day_plan_free (way->plan);
  g_free (way);
}

/* Counters right before the call, as far as the van has not left them. */
static void
find_before (HsWay *way, guint at, HsInstant now)
{
  guint from = at;

  while (from > 0 && ((const HsPlannedStop *) g_ptr_array_index (way->plan->stops, from - 1))->is_counter)
    from--;
  for (guint i = from; i < at; i++)
    {
      HsPlannedStop *stop = g_ptr_array_index (way->plan->stops, i);

      if (stop->depart > now)
        g_ptr_array_add (way->before, stop);
    }
}

/* A promise that cannot be kept any more says so itself. */
static void
find_ring (HsWay *way)
{
  const char *number = way->view->tag->number;

  for (guint i = 0; way->ring == NULL && i < way->plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (way->plan->broken, i);

      if (g_strcmp0 (broken->id, number) == 0)
        way->ring = g_strdup (broken->why);
    }
  for (guint i = 0; way->ring == NULL && i < way->plan->ring->len; i++)
    {
      const HsDayRing *ring = g_ptr_array_index (way->plan->ring, i);

      if (g_strcmp0 (ring->id, number) == 0)
        way->ring = g_strdup (ring->why);
    }
}

HsWay *
hs_way_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsWay) way = g_new0 (HsWay, 1);
  guint at;

  way->before = g_ptr_array_new ();
  way->view = hs_job_view_load (book, job_id, now, error);
  if (way->view == NULL)
    return NULL;
  way->plan = hs_day_plan_of_job (book, job_id, now, NULL);
  if (way->plan == NULL)
    return g_steal_pointer (&way);
  at = hs_day_plan_find_stop (way->plan, job_id);
  if (at < way->plan->stops->len)
    {
      way->stop = g_ptr_array_index (way->plan->stops, at);
      find_before (way, at, now);
    }
  find_ring (way);
  return g_steal_pointer (&way);
}
