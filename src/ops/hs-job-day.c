// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day by which people speak of a job: when she was there, else when she will be. Reads only. */

#include "hs-job-day.h"

#include "hs-visit-row.h"

gboolean
hs_job_day (HsBook *book, const HsJobRow *job, HsDate *ret_day, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  HsInstant at = HS_INSTANT_NONE;

  if (!hs_visit_row_list_of (hs_book_get_store (book), job->id, &visits, error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    at = MAX (at, ((HsVisitRow *) g_ptr_array_index (visits, i))->arrived_at);
  if (at == HS_INSTANT_NONE && job->day != HS_DATE_NONE)
    {
      *ret_day = job->day;
      return TRUE;
    }
  if (at == HS_INSTANT_NONE)
    at = job->called_at != HS_INSTANT_NONE ? job->called_at : job->changed_at;
  hs_instant_to_local (hs_book_get_zone (book), at, ret_day, NULL);
  return TRUE;
}
