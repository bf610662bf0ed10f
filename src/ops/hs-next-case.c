// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * A job held against one cause model. The model's weights are its priors, brought to the number of jobs that they stand
 * for, with own jobs counted on top; what somebody only said moves them a little less than a check would. Checks that
 * cannot be done are left out, so that nothing is built on them.
 */

#include "hs-next-private.h"

#include "hs-installed-row.h"
#include "hs-next-ahead.h"

#include <string.h>

/* How much of what a check tells is left when somebody only said it; the rest says nothing. */
#define SAID_WEIGHT 0.8
/* States that adding up a fixed list may open. */
#define LIST_STATES 60000
/* First steps that are weighed to the end, and the states that each of them may open. */
#define STEPS_AHEAD 5
#define AHEAD_STATES 20000

void
hs_next_case_free (HsNextCase *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->model, hs_cause_model_free);
  for (guint i = 0; i < HS_CAUSE_MODEL_MAX_CAUSES; i++)
    g_clear_pointer (&self->after[i], g_ptr_array_unref);
  g_free (self);
}

/* Whether a part was put in for it: one that names the finding as what failed, or a new battery for a worn one. */
static gboolean
is_replaced (const HsNextScene *scene, const char *cause_id, const HsFindingRow *finding)
{
  static const char *const worn[] = { HS_NEXT_WORN_CAUSE, "battery", "battery_open", NULL };

  for (guint i = 0; finding != NULL && i < scene->parts->len; i++)
    if (g_strcmp0 (((const HsInstalledRow *) g_ptr_array_index (scene->parts, i))->replaced_finding_id, finding->id)
        == 0)
      return TRUE;
  return g_strv_contains (worn, cause_id) && hs_next_has_battery (scene);
}

static void
settle (HsNextCase *self, HsNextScene *scene, guint cause)
{
  const char *id = hs_cause_model_get_cause (hs_cause_guide_get_model (self->guide), cause)->id;
  const HsFindingRow *finding = hs_next_finding (scene, id);

  self->findings[cause] = finding;
  if (finding != NULL && g_str_equal (finding->role, "ruled_out"))
    self->settled[cause] = HS_NEXT_RULED_OUT + 1;
  else if (is_replaced (scene, id, finding))
    self->settled[cause] = HS_NEXT_REPAIRED + 1;
  else if (finding == NULL)
    return;
  else if (g_str_equal (finding->sure, "proven"))
    self->settled[cause] = (g_strcmp0 (finding->ended, "cured") == 0 ? HS_NEXT_REPAIRED : HS_NEXT_PROVEN) + 1;
}

/* While a cause is proven and not repaired the others wait; once it is repaired, they are what is left, unless it is
 * gone with it. */
static void
rule_out (HsNextCase *self)
{
  guint n_causes = hs_cause_model_get_n_causes (hs_cause_guide_get_model (self->guide));
  guint32 proven = 0;

  for (guint i = 0; i < n_causes; i++)
    {
      if (self->settled[i] == HS_NEXT_PROVEN + 1)
        proven |= 1u << i;
      else if (self->settled[i] != 0)
        self->seen.ruled_out |= 1u << i;
    }
  if (proven != 0)
    self->seen.ruled_out = ~proven;
  if (self->gone != 0)
    self->seen.ruled_out = ~self->gone;
}

static void
weigh (HsNextCase *self)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  guint n_causes = hs_cause_model_get_n_causes (model);
  double sum = 0;

  for (guint i = 0; i < n_causes; i++)
    sum += hs_cause_model_get_cause (model, i)->weight;
  for (guint i = 0; i < n_causes; i++)
    self->weights[i] = hs_cause_guide_get_counts_as (self->guide) * hs_cause_model_get_cause (model, i)->weight / sum
                       + self->own[i];
}

/* How likely what is known of @check was where @row is how likely its results are; 1 where nothing is known. */
static double
known_chance (const HsNextCase *self, guint check, const double *row)
{
  const HsNextMark *mark = &self->marks[check];
  guint n_results = hs_cause_model_get_n_results (hs_cause_guide_get_model (self->guide), check);

  if (mark->result != 0)
    return row[mark->result - 1];
  return mark->said != 0 ? SAID_WEIGHT * row[mark->said - 1] + (1 - SAID_WEIGHT) / n_results : 1;
}

double
hs_next_case_chance (const HsNextCase *self, guint check, guint cause)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  guint n_results = hs_cause_model_get_n_results (model, check);

  return known_chance (self, check, hs_cause_model_get_chances (model, check) + cause * n_results);
}

/* How likely all that this model has a check for was to come out under it. */
static void
put_chance (HsNextCase *self)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  double before = 0;
  double after = 0;

  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    {
      double weight = self->weights[i];

      before += weight;
      for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
        weight *= hs_next_case_chance (self, k, i);
      after += weight;
    }
  self->chance = hs_cause_guide_get_share (self->guide) * after / before;
}

/* --- Beside the other models ----------------------------------------------------------------------------------- */

/* Whether anything is known of @check of the guide. */
static gboolean
is_known (const HsNextCase *self, guint check)
{
  return self->marks[check].result != 0 || self->marks[check].said != 0;
}

/* The check of the guide that is the check @id and of which something is known; -1 if there is none. */
static int
find_known (const HsNextCase *self, const char *id)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);

  for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
    if (is_known (self, k) && g_str_equal (hs_cause_model_get_check_id (model, k), id))
      return (int) k;
  return -1;
}

/* How likely what is known of @check was if it is none of the causes of this model. A model that does not say takes the
 * mean of its own causes, so that the check does not choose between models. */
static double
chance_elsewhere (const HsNextCase *self, guint check)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  const double *row = hs_cause_guide_get_elsewhere (self->guide, check);
  double mean = 0;
  double sum = 0;

  if (row != NULL)
    return known_chance (self, check, row);
  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    {
      mean += self->weights[i] * hs_next_case_chance (self, check, i);
      sum += self->weights[i];
    }
  return mean / sum;
}

/* What the models that know of the check @id say of a car that is none of theirs, by their shares; 1 if none does. */
static double
chance_by_others (GPtrArray *cases, const char *id)
{
  double chance = 0;
  double shares = 0;

  for (guint i = 0; i < cases->len; i++)
    {
      const HsNextCase *one = g_ptr_array_index (cases, i);
      int check = find_known (one, id);

      if (check < 0)
        continue;
      chance += hs_cause_guide_get_share (one->guide) * chance_elsewhere (one, (guint) check);
      shares += hs_cause_guide_get_share (one->guide);
    }
  return shares > 0 ? chance / shares : 1;
}

/* @ids: (inout): gets those of the checks of @self of which something is known. */
static void
add_known (const HsNextCase *self, GHashTable *ids)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);

  for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
    if (is_known (self, k))
      g_hash_table_add (ids, (gpointer) hs_cause_model_get_check_id (model, k));
}

void
hs_next_cases_weigh (GPtrArray *cases)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean gone = FALSE;
  GHashTableIter iter;
  gpointer id;
  double sum = 0;

  for (guint i = 0; i < cases->len; i++)
    gone = gone || ((const HsNextCase *) g_ptr_array_index (cases, i))->gone != 0;
  for (guint i = 0; cases->len > 1 && i < cases->len; i++)
    add_known (g_ptr_array_index (cases, i), ids);
  for (guint i = 0; i < cases->len; i++)
    {
      HsNextCase *one = g_ptr_array_index (cases, i);

      g_hash_table_iter_init (&iter, ids);
      while (g_hash_table_iter_next (&iter, &id, NULL))
        if (find_known (one, id) < 0)
          one->chance *= chance_by_others (cases, id);
      if (gone && one->gone == 0)
        one->chance = 0;
      sum += one->fits ? one->chance : 0;
    }
  for (guint i = 0; i < cases->len; i++)
    {
      HsNextCase *one = g_ptr_array_index (cases, i);

      one->chance = one->fits && sum > 0 ? one->chance / sum : 0;
    }
}

/* --- The model of this job ------------------------------------------------------------------------------------- */

static gboolean
build_model (HsNextCase *self, GError **error)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  guint n_causes = hs_cause_model_get_n_causes (model);
  HsCause causes[HS_CAUSE_MODEL_MAX_CAUSES];

  for (guint i = 0; i < n_causes; i++)
    {
      causes[i] = *hs_cause_model_get_cause (model, i);
      causes[i].weight = self->weights[i];
      for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
        if (self->marks[k].result == 0 && self->marks[k].said != 0)
          causes[i].weight *= hs_next_case_chance (self, k, i);
    }
  self->model = hs_cause_model_new (causes, n_causes, error);
  return self->model != NULL;
}

static gboolean
add_checks (HsNextCase *self, GError **error)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);

  for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
    {
      const char *results[HS_CAUSE_MODEL_MAX_RESULTS + 1] = { NULL };
      guint at = hs_cause_model_get_n_checks (self->model);

      if (self->marks[k].off)
        continue;
      for (guint r = 0; r < hs_cause_model_get_n_results (model, k); r++)
        results[r] = hs_cause_model_get_result (model, k, r);
      if (!hs_cause_model_add_check (self->model, hs_cause_model_get_check_id (model, k),
                                     hs_cause_model_get_check_minutes (model, k), results,
                                     hs_cause_model_get_chances (model, k), error))
        return FALSE;
      self->of[at] = k;
      self->seen.results[at] = (guint8) self->marks[k].result;
    }
  return TRUE;
}

/* What is believed of each cause, what is proven beside the others: one cause that is found need not explain it all.
 * One that was repaired is believed until a reading after it says that it was not that. */
static void
put_beliefs (HsNextCase *self)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  double sum = 0;

  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    {
      gboolean repaired = self->settled[i] == HS_NEXT_REPAIRED + 1 && (self->failed & 1u << i) == 0;
      gboolean stands = self->gone != 0
                          ? (self->gone & 1u << i) != 0
                          : repaired || self->settled[i] == 0 || self->settled[i] == HS_NEXT_PROVEN + 1;

      self->beliefs[i] = stands ? self->weights[i] : 0;
      for (guint k = 0; k < hs_cause_model_get_n_checks (model); k++)
        self->beliefs[i] *= hs_next_case_chance (self, k, i);
      sum += self->beliefs[i];
    }
  for (guint i = 0; i < hs_cause_model_get_n_causes (model) && sum > 0; i++)
    self->beliefs[i] /= sum;
}

static gboolean
mark_all (HsNextCase *self, HsNextScene *scene, gboolean late, GError **error)
{
  for (guint k = 0; k < hs_cause_model_get_n_checks (hs_cause_guide_get_model (self->guide)); k++)
    if (!hs_next_mark (scene, self->guide, k, late, &self->marks[k], error))
      return FALSE;
  return TRUE;
}

/* All that the job says. */
static gboolean
read_job (HsNextCase *self, HsNextScene *scene, GError **error)
{
  if (!hs_next_own_count (scene->book, scene->proven, self->guide, self->own, &self->n_own, error)
      || !mark_all (self, scene, FALSE, error))
    return FALSE;
  weigh (self);
  for (guint i = 0; i < hs_cause_model_get_n_causes (hs_cause_guide_get_model (self->guide)); i++)
    settle (self, scene, i);
  return hs_next_take_after (self, scene, error) && (self->failed == 0 || mark_all (self, scene, TRUE, error));
}

HsNextCase *
hs_next_case_new (HsNextScene *scene, const HsCauseGuide *guide, guint max_states, GError **error)
{
  HsNextCase *self = g_new0 (HsNextCase, 1);

  self->guide = guide;
  if (!read_job (self, scene, error) || !build_model (self, error) || !add_checks (self, error))
    {
      hs_next_case_free (self);
      return NULL;
    }
  rule_out (self);
  put_chance (self);
  self->fits = hs_next_check (self->model, &self->seen, max_states, &self->next, NULL);
  if (self->fits)
    hs_next_look_ahead (self->model, &self->seen, STEPS_AHEAD, AHEAD_STATES, &self->next);
  put_beliefs (self);
  return self;
}

double
hs_next_case_list_minutes (const HsNextCase *self)
{
  guint list[HS_CAUSE_MODEL_MAX_CHECKS];
  guint n_list = 0;

  for (guint k = 0; k < hs_cause_model_get_n_checks (self->model); k++)
    if (self->seen.results[k] == 0)
      list[n_list++] = k;
  return self->fits ? hs_next_list_minutes (self->model, &self->seen, list, n_list, LIST_STATES) : -1;
}

int
hs_next_case_check (const HsNextCase *self, const char *id)
{
  for (guint k = 0; k < hs_cause_model_get_n_checks (self->model); k++)
    if (self->seen.results[k] == 0 && g_str_equal (hs_cause_model_get_check_id (self->model, k), id))
      return (int) k;
  return -1;
}
