// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What was read after the repair. In the model a repair is seen at once to have cured the complaint or not (MODEL.md,
 * "What is assumed", 4): cured, and its cause was the one; not, and it is out. What shows that on a job are the
 * readings that spoke for the cause, taken again, and the complaint tried again.
 */

#include "hs-next-private.h"

/* Trying the complaint itself; whatever the cause was. */
static const char *const tries[] = { "tried_again", "starts_good", NULL };

/* Those that are said to be cured; while there are none, those that are proven. */
static guint32
find_repaired (const HsNextCase *self)
{
  guint32 repaired = 0;
  guint32 proven = 0;

  for (guint i = 0; i < G_N_ELEMENTS (self->settled); i++)
    {
      if (self->settled[i] == HS_NEXT_REPAIRED + 1)
        repaired |= 1u << i;
      if (self->settled[i] == HS_NEXT_PROVEN + 1)
        proven |= 1u << i;
    }
  return repaired != 0 ? repaired : proven;
}

/* Of which of @repaired a reading of the check says whether it was cured: of those that it spoke for before. */
static guint32
speaks_of (const HsNextCase *self, const char *check_id, guint32 repaired)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  guint32 spoken = 0;

  if (g_strv_contains (tries, check_id))
    return repaired;
  for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
    for (guint i = 0; g_str_equal (hs_cause_model_get_check_id (model, k), check_id)
                      && i < hs_cause_model_get_n_causes (model); i++)
      if (self->marks[k].result != 0 && hs_next_speaks_for (self, k, i))
        spoken |= 1u << i;
  return spoken & repaired;
}

/* One reading after the repair. */
static gboolean
take (HsNextCase *self, HsNextScene *scene, guint at, guint32 repaired, GError **error)
{
  const HsReadingRow *row = g_ptr_array_index (scene->readings, at);
  guint32 spoken = speaks_of (self, row->check_id, repaired);
  const HsReadingResult *judged;

  if (spoken == 0)
    return TRUE;
  if (!hs_next_judge (scene, row, &judged, error))
    return FALSE;
  if (g_strcmp0 (judged->verdict, "within") == 0)
    self->cured |= spoken;
  else if (g_strcmp0 (judged->verdict, "outside") == 0)
    self->failed |= spoken;
  else
    return TRUE;
  for (guint i = 0; i < HS_CAUSE_MODEL_MAX_CAUSES; i++)
    if (spoken & 1u << i)
      {
        if (self->after[i] == NULL)
          self->after[i] = g_ptr_array_new ();
        g_ptr_array_add (self->after[i], (gpointer) judged);
      }
  return TRUE;
}

gboolean
hs_next_take_after (HsNextCase *self, HsNextScene *scene, GError **error)
{
  guint32 repaired = find_repaired (self);

  for (guint i = 0; repaired != 0 && i < scene->readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->readings, i);

      if (hs_next_is_current (scene, i, row->check_id, "after") && !take (self, scene, i, repaired, error))
        return FALSE;
    }
  self->gone = self->failed == 0 && self->cured != 0 ? self->cured : 0;
  for (guint i = 0; i < hs_cause_model_get_n_causes (hs_cause_guide_get_model (self->guide)); i++)
    if (self->failed & 1u << i)
      self->settled[i] = HS_NEXT_REPAIRED + 1;
  return TRUE;
}
