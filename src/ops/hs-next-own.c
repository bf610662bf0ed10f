// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What the owner's own jobs say about how often it is which cause: each squared job on which a finding proved a cause
 * counts one for it. Of several models for one group a job counts for the one that fitted it.
 */

#include "hs-next-private.h"
#include "hs-ops-private.h"
#include "hs-proven-cause.h"

#include <string.h>

static int
find_cause (const HsCauseGuide *guide, const char *id)
{
  const HsCauseModel *model = hs_cause_guide_get_model (guide);

  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    if (g_str_equal (hs_cause_model_get_cause (model, i)->id, id))
      return (int) i;
  return -1;
}

/* What was read to @check on a squared job, which never changes: it is read once for each. */
static gboolean
find_answer (HsBook *book, const char *job_id, const char *check, guint *ret_answer, GError **error)
{
  HsNextScene scene = { .book = book, .checks = hs_book_get_checks (book) };
  g_autofree char *key = g_strdup_printf ("%s %s", job_id, check);
  gpointer known;

  if (g_hash_table_lookup_extended (hs_book_get_own_answers (book), key, NULL, &known))
    {
      *ret_answer = GPOINTER_TO_UINT (known);
      return TRUE;
    }
  if (!hs_reading_row_list_of (hs_book_get_store (book), job_id, &scene.readings, error))
    return FALSE;
  *ret_answer = hs_next_answer (&scene, check);
  g_hash_table_insert (hs_book_get_own_answers (book), g_steal_pointer (&key), GUINT_TO_POINTER (*ret_answer));
  hs_next_scene_clear (&scene);
  return TRUE;
}

/* Whether the model fitted that job; one on which the check that chooses was never done fitted all. */
static gboolean
fitted (HsBook *book, const HsCauseGuide *guide, const char *job_id, gboolean *ret_fitted, GError **error)
{
  const char *when = hs_cause_guide_get_when (guide);
  guint answer;

  *ret_fitted = TRUE;
  if (when == NULL)
    return TRUE;
  if (!find_answer (book, job_id, when, &answer, error))
    return FALSE;
  *ret_fitted = answer == 0 || hs_cause_guide_is_for (guide, answer);
  return TRUE;
}

gboolean
hs_next_own_count (HsBook *book, GPtrArray *proven, const HsCauseGuide *guide, guint *ret_counts, guint *ret_jobs,
                   GError **error)
{
  const char *last_job = NULL;
  guint n_causes = hs_cause_model_get_n_causes (hs_cause_guide_get_model (guide));

  memset (ret_counts, 0, n_causes * sizeof *ret_counts);
  *ret_jobs = 0;
  for (guint i = 0; i < proven->len; i++)
    {
      const HsProvenCause *one = g_ptr_array_index (proven, i);
      int cause = g_strcmp0 (one->group, hs_cause_guide_get_group (guide)) == 0 ? find_cause (guide, one->cause) : -1;
      gboolean fits;

      if (cause < 0)
        continue;
      if (!fitted (book, guide, one->job_id, &fits, error))
        return FALSE;
      if (!fits)
        continue;
      ret_counts[cause]++;
      *ret_jobs += g_strcmp0 (last_job, one->job_id) != 0;
      last_job = one->job_id;
    }
  return TRUE;
}
