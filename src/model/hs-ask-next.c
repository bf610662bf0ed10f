// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What to check next on the job that a page shows: for its own complaint, and for each other one that it has. */

#include "hs-ask-next.h"

#include "hs-job-next.h"

static gboolean
is_over (HsStage stage)
{
  return stage == HS_STAGE_SQUARED || stage == HS_STAGE_CALLED_OFF || stage == HS_STAGE_TURNED_AWAY;
}

static gboolean
add_next (HsBook *book, HsJobShot *shot, const char *job_id, const char *group, HsInstant now, GError **error)
{
  HsJobNext *next = hs_job_next_load (book, job_id, group, now, error);

  if (next == NULL)
    return FALSE;
  hs_job_next_add_lines (book, next, shot->sheets[0]);
  g_ptr_array_add (shot->nexts, next);
  return TRUE;
}

gboolean
hs_ask_job_next (HsBook *book, HsJobShot *shot, const char *job_id, HsInstant now, GError **error)
{
  const HsJobNext *first;

  shot->nexts = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_job_next_free);
  if (is_over (shot->view->tag->stage))
    return TRUE;
  if (!add_next (book, shot, job_id, NULL, now, error))
    return FALSE;
  first = g_ptr_array_index (shot->nexts, 0);
  hs_chain_offers_rank (shot->why->offers, first, hs_book_get_tongue (book));
  for (guint i = 1; first->groups[0] != NULL && first->groups[i] != NULL; i++)
    if (!add_next (book, shot, job_id, first->groups[i], now, error))
      return FALSE;
  return TRUE;
}
