// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is left to do on a job, in sentences. What must be done is for the book to refuse; this says it before. */

#include "hs-job-left.h"

#include <glib/gi18n.h>

char *
hs_job_left_dup_open (const HsJobShot *shot)
{
  static const HsTongue tongue = { gettext, ngettext };
  const HsRepair *repair = shot->repair != NULL ? shot->repair->repair : NULL;
  g_autofree char *first = NULL;
  HsStage to;

  if (repair == NULL || repair->missing->len == 0 || repair->n_must > 0 || repair->unproved_why != NULL
      || !hs_stage_next (shot->view->tag->stage, &to) || to != HS_STAGE_PROVEN)
    return NULL;
  first = hs_prove_say (g_ptr_array_index (repair->missing, 0), &tongue);
  if (repair->missing->len == 1)
    return g_strdup_printf (_("Left open: %s F4 once more goes on all the same."), first);
  return g_strdup_printf (ngettext ("Left open: %s And %u more, under Before and after. F4 once more goes on all "
                                    "the same.",
                                    "Left open: %s And %u more, under Before and after. F4 once more goes on all "
                                    "the same.",
                                    repair->missing->len - 1),
                          first, repair->missing->len - 1);
}

/* The list of the visit that is under way, if it has anything to answer. */
static const HsSafetySheet *
find_open_sheet (const HsJobShot *shot)
{
  HsStage stage = shot->view->tag->stage;

  if (stage < HS_STAGE_ON_SITE || stage >= HS_STAGE_SQUARED || hs_arrival_open_visit (shot->arrival) == NULL
      || (shot->arrival->safety->n_open == 0 && shot->arrival->safety->n_not_so == 0))
    return NULL;
  return shot->arrival->safety;
}

char *
hs_job_left_dup_unsafe (const HsJobShot *shot)
{
  const HsSafetySheet *sheet;

  g_return_val_if_fail (shot != NULL, NULL);

  sheet = find_open_sheet (shot);
  if (sheet == NULL)
    return NULL;
  /* Short, or a reading in large type does not fit beneath. */
  if (sheet->n_not_so > 0)
    return g_strdup (_("Not safe here"));
  if (sheet->note == NULL || sheet->passed)
    return g_strdup (_("Safety list open"));
  /* Translators: so many items of the safety list came to it since it was gone through. */
  return g_strdup_printf (ngettext ("Safety: %u more", "Safety: %u more", sheet->n_open), sheet->n_open);
}

gboolean
hs_job_left_is_shut (const HsJobShot *shot)
{
  const HsSafetySheet *sheet;

  g_return_val_if_fail (shot != NULL, FALSE);

  sheet = find_open_sheet (shot);
  return sheet != NULL && sheet->n_high_voltage_open > 0;
}

char *
hs_job_left_dup_off (const HsJobShot *shot)
{
  HsStage stage;

  g_return_val_if_fail (shot != NULL, NULL);

  stage = shot->view->tag->stage;
  /* Translators: the number of a job. */
  if (stage == HS_STAGE_CALLED_OFF)
    return g_strdup_printf (_("%s was called off: nothing is measured on it. F4 takes it up again."),
                            shot->view->tag->number);
  /* Translators: the number of a job. */
  if (stage == HS_STAGE_TURNED_AWAY)
    return g_strdup_printf (_("%s was passed on: nothing is measured on it. F4 takes it up again."),
                            shot->view->tag->number);
  return NULL;
}

char *
hs_job_left_dup_shut (const HsJobShot *shot)
{
  if (!hs_job_left_is_shut (shot))
    return hs_job_left_dup_off (shot);
  return g_strdup (_("High voltage. Nothing is measured or found before its safety list is answered, or the work is "
                     "refused and why."));
}
