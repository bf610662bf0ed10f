// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Whether the book knows a caller. Fails where the book does. */

#include "hs-call-find.h"

#include "hs-job-row.h"
#include "hs-ops-private.h"

/* The vehicle of that job, of that customer, and of no other job. */
static gboolean
is_of_slip (HsStore *store, const HsJobRow *job, const HsHit *hit, gboolean *ret_is, GError **error)
{
  g_autoptr (GPtrArray) jobs = NULL;

  *ret_is = FALSE;
  if (hit->vehicle_id == NULL || g_strcmp0 (hit->vehicle_id, job->vehicle_id) != 0
      || g_strcmp0 (hit->customer_id, job->customer_id) != 0)
    return TRUE;
  if (!hs_job_row_list_of_vehicle (store, job->vehicle_id, &jobs, error))
    return FALSE;
  *ret_is = jobs->len == 1;
  return TRUE;
}

GPtrArray *
hs_call_find (HsBook *book, const char *job_id, const char *words, guint limit, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) hits = hs_find (book, words, job_id != NULL ? limit + 1 : limit, now, error);
  g_autoptr (HsJobRow) job = NULL;

  if (hits == NULL || job_id == NULL)
    return g_steal_pointer (&hits);
  if (!hs_job_row_load (store, job_id, &job, error))
    return NULL;
  for (guint i = hits->len; i > 0; i--)
    {
      gboolean own;

      if (!is_of_slip (store, job, g_ptr_array_index (hits, i - 1), &own, error))
        return NULL;
      if (own)
        g_ptr_array_remove_index (hits, i - 1);
    }
  if (hits->len > limit)
    g_ptr_array_set_size (hits, (int) limit);
  return g_steal_pointer (&hits);
}
