// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the page of why it failed shows, read in one go, so that the drawing, the ends, the sentences and the questions
 * are of one moment. */

#include "hs-chain-shot.h"

#include "hs-finding-row.h"
#include "hs-job-op.h"
#include "hs-job-row.h"

void
hs_chain_shot_free (HsChainShot *shot)
{
  if (shot == NULL)
    return;
  hs_job_chain_free (shot->chain);
  g_clear_pointer (&shot->told_at, g_array_unref);
  hs_chain_offers_free (shot->offers);
  g_clear_pointer (&shot->answers, g_ptr_array_unref);
  g_free (shot->not_yet);
  g_free (shot);
}

/* The chain has its findings in the order of the book. */
static gboolean
load_told (HsStore *store, const char *job_id, HsChainShot *shot, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_finding_row_list_of (store, job_id, &rows, error))
    return FALSE;
  shot->told_at = g_array_new (FALSE, FALSE, sizeof (HsInstant));
  for (guint i = 0; i < rows->len; i++)
    g_array_append_val (shot->told_at, ((HsFindingRow *) g_ptr_array_index (rows, i))->told_at);
  return TRUE;
}

static gboolean
load_stage (HsBook *book, const char *job_id, HsChainShot *shot, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GError) why = NULL;

  if (!hs_job_row_load (hs_book_get_store (book), job_id, &job, error)
      || !hs_stage_parse (job->stage, &shot->stage, error))
    return FALSE;
  if (shot->stage != HS_STAGE_PROVEN && shot->stage != HS_STAGE_SQUARED
      && !hs_job_check_move (book, job_id, HS_STAGE_PROVEN, NULL, &why))
    shot->not_yet = g_strdup (why->message);
  return TRUE;
}

HsChainShot *
hs_chain_shot_load (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsChainShot) shot = g_new0 (HsChainShot, 1);

  shot->chain = hs_job_chain_load (book, job_id, error);
  if (shot->chain == NULL || !load_told (store, job_id, shot, error))
    return NULL;
  shot->offers = hs_chain_offers_load (book, job_id, error);
  if (shot->offers == NULL)
    return NULL;
  shot->answers = hs_job_interview_load (book, job_id, error);
  if (shot->answers == NULL || !load_stage (book, job_id, shot, error))
    return NULL;
  return g_steal_pointer (&shot);
}
