// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A cause model with its words: what a reading of the book means in it, and whether all that is shown is there. */

#include "hs-cause-guide-private.h"

#include "hs-decimal.h"
#include "hs-ops-private.h"

/* What a file says nothing of: minutes of the check that chooses a model, and how many jobs its priors stand for. */
#define USUAL_WHEN_MINUTES 1
#define USUAL_COUNTS_AS 20

static void
clear_check (gpointer data)
{
  HsGuideCheck *check = data;

  g_clear_pointer (&check->sources, g_hash_table_unref);
  g_clear_pointer (&check->said, g_hash_table_unref);
}

HsCauseGuide *
hs_cause_guide_new (void)
{
  HsCauseGuide *self = g_new0 (HsCauseGuide, 1);

  self->words = g_string_chunk_new (2048);
  self->causes = g_array_new (FALSE, TRUE, sizeof (HsGuideCause));
  self->checks = g_array_new (FALSE, TRUE, sizeof (HsGuideCheck));
  g_array_set_clear_func (self->checks, clear_check);
  self->when_said = g_ptr_array_new ();
  self->when_minutes = USUAL_WHEN_MINUTES;
  self->share = 1;
  self->counts_as = USUAL_COUNTS_AS;
  return self;
}

void
hs_cause_guide_free (HsCauseGuide *self)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->model, hs_cause_model_free);
  g_array_unref (self->causes);
  g_array_unref (self->checks);
  g_ptr_array_unref (self->when_said);
  g_string_chunk_free (self->words);
  g_free (self);
}

const HsCauseModel *
hs_cause_guide_get_model (const HsCauseGuide *self)
{
  return self->model;
}

const char *
hs_cause_guide_get_id (const HsCauseGuide *self)
{
  return self->id;
}

const char *
hs_cause_guide_get_group (const HsCauseGuide *self)
{
  return self->group;
}

const char *
hs_cause_guide_get_name (const HsCauseGuide *self)
{
  return self->name;
}

const char *
hs_cause_guide_get_note (const HsCauseGuide *self)
{
  return self->note;
}

const char *
hs_cause_guide_get_when (const HsCauseGuide *self)
{
  return self->when;
}

gboolean
hs_cause_guide_is_for (const HsCauseGuide *self, guint answer)
{
  return answer >= 1 && answer <= HS_GUIDE_ANSWERS && (self->when_answers & 1u << answer) != 0;
}

gboolean
hs_cause_guide_is_for_said (const HsCauseGuide *self, const char *question, const char *answer)
{
  return self->when_question != NULL && g_strcmp0 (self->when_question, question) == 0
         && g_ptr_array_find_with_equal_func (self->when_said, answer, g_str_equal, NULL);
}

double
hs_cause_guide_get_when_minutes (const HsCauseGuide *self)
{
  return self->when_minutes;
}

double
hs_cause_guide_get_share (const HsCauseGuide *self)
{
  return self->share;
}

double
hs_cause_guide_get_counts_as (const HsCauseGuide *self)
{
  return self->counts_as;
}

const HsGuideCause *
hs_cause_guide_get_cause (const HsCauseGuide *self, guint cause)
{
  return &g_array_index (self->causes, HsGuideCause, cause);
}

const char *
hs_cause_guide_get_source (const HsCauseGuide *self, guint check, guint cause)
{
  const HsGuideCheck *one = &g_array_index (self->checks, HsGuideCheck, check);
  const char *own = one->sources == NULL
                      ? NULL
                      : g_hash_table_lookup (one->sources, hs_cause_model_get_cause (self->model, cause)->id);

  return own != NULL ? own : one->source;
}

const double *
hs_cause_guide_get_elsewhere (const HsCauseGuide *self, guint check)
{
  const HsGuideCheck *one = &g_array_index (self->checks, HsGuideCheck, check);

  return one->has_elsewhere ? one->elsewhere : NULL;
}

/* --- What a reading means -------------------------------------------------------------------------------------- */

/* by_number: a number on a cut belongs above it. */
static guint
by_number (const HsGuideFrom *from, const HsCheck *known, const HsReading *reading)
{
  double number = (double) reading->value / (double) hs_decimal_power (known->decimals + reading->finer);
  guint result = 1;

  for (guint i = 0; i < from->n_cuts; i++)
    result += number >= from->cuts[i];
  return result;
}

guint
hs_cause_guide_find_result (const HsCauseGuide *self, guint check, const HsCheck *known, const HsReading *reading,
                            HsVerdict verdict)
{
  const HsGuideFrom *from = &g_array_index (self->checks, HsGuideCheck, check).from;

  if (reading->kind == HS_READING_OVER_RANGE)
    return from->over_range;
  if (reading->kind != HS_READING_VALUE || verdict == HS_VERDICT_CANNOT_TELL)
    return 0;
  switch (from->by)
    {
    case HS_GUIDE_BY_VERDICT:
      if (from->of_verdict[verdict] == 0 && verdict == HS_VERDICT_DEPENDS && from->n_cuts > 0)
        return by_number (from, known, reading);
      return from->of_verdict[verdict];
    case HS_GUIDE_BY_ANSWER:
      return reading->value >= 1 && reading->value <= from->n_answers ? from->of_answer[reading->value - 1] : 0;
    case HS_GUIDE_BY_NUMBER:
      return by_number (from, known, reading);
    case HS_GUIDE_BY_NOTHING:
    default:
      return 0;
    }
}

guint
hs_cause_guide_find_said (const HsCauseGuide *self, guint check, const char *question, const char *answer)
{
  const HsGuideCheck *one = &g_array_index (self->checks, HsGuideCheck, check);

  if (one->said == NULL || g_strcmp0 (one->question, question) != 0)
    return 0;
  return GPOINTER_TO_UINT (g_hash_table_lookup (one->said, answer));
}

/* --- Whether all is there -------------------------------------------------------------------------------------- */

/* proof_is_known: whether what is called the proof of a cause is a check of the model and one of its results. */
static gboolean
proof_is_known (const HsCauseGuide *self, guint nth, GError **error)
{
  const HsGuideCause *cause = hs_cause_guide_get_cause (self, nth);

  if (cause->proof_check == NULL)
    return TRUE;
  for (guint k = 0; k < hs_cause_model_get_n_checks (self->model); k++)
    if (g_str_equal (hs_cause_model_get_check_id (self->model, k), cause->proof_check))
      {
        for (guint r = 0; r < hs_cause_model_get_n_results (self->model, k); r++)
          if (g_str_equal (hs_cause_model_get_result (self->model, k, r), cause->proof_result))
            return TRUE;
        return hs_ops_refuse (error, "causes[%u].proof.result: “%s” is none of the results of “%s”", nth,
                              cause->proof_result, cause->proof_check);
      }
  return hs_ops_refuse (error, "causes[%u].proof.check: “%s” is none of the checks", nth, cause->proof_check);
}

static gboolean
causes_are_whole (const HsCauseGuide *self, GError **error)
{
  for (guint i = 0; i < self->causes->len; i++)
    {
      const HsGuideCause *cause = hs_cause_guide_get_cause (self, i);
      const char *missing = cause->name == NULL ? "name" : cause->source == NULL ? "source" : "repair";

      if (cause->name == NULL || cause->source == NULL || cause->repair == NULL)
        return hs_ops_refuse (error, "causes[%u].%s: is missing", i, missing);
      if (!proof_is_known (self, i, error))
        return FALSE;
    }
  return TRUE;
}

/* fits_catalog: whether the entry of the check and what the guide makes of it go together. */
static gboolean
fits_catalog (const HsGuideFrom *from, const HsCheck *known, guint check, GError **error)
{
  guint n_answers = known->answers != NULL ? g_strv_length ((char **) known->answers) : 0;

  if (from->by == HS_GUIDE_BY_ANSWER && from->n_answers != n_answers)
    return hs_ops_refuse (error, "checks[%u].from.answers: has %u, where the check “%s” has %u", check, from->n_answers,
                          known->id, n_answers);
  if (from->n_cuts > 0 && known->entry != HS_CHECK_NUMBER)
    return hs_ops_refuse (error, "checks[%u].from.cuts: the check “%s” gives no number", check, known->id);
  return TRUE;
}

/* reaches_all: whether each result of the check can come out of some reading. */
static gboolean
reaches_all (const HsCauseGuide *self, guint check, GError **error)
{
  const HsGuideFrom *from = &g_array_index (self->checks, HsGuideCheck, check).from;
  guint reached = from->over_range != 0 ? 1u << from->over_range : 0;

  for (guint i = 0; i < HS_N_VERDICTS; i++)
    reached |= 1u << from->of_verdict[i];
  for (guint i = 0; i < HS_GUIDE_ANSWERS; i++)
    reached |= 1u << from->of_answer[i];
  for (guint i = 0; i < hs_cause_model_get_n_results (self->model, check); i++)
    if (from->n_cuts == 0 && (reached & 1u << (i + 1)) == 0)
      return hs_ops_refuse (error, "checks[%u].from: nothing is read as “%s”", check,
                            hs_cause_model_get_result (self->model, check, i));
  return TRUE;
}

static gboolean
checks_are_whole (const HsCauseGuide *self, HsChecks *checks, GError **error)
{
  for (guint i = 0; i < self->checks->len; i++)
    {
      const HsGuideCheck *check = &g_array_index (self->checks, HsGuideCheck, i);
      const char *id = hs_cause_model_get_check_id (self->model, i);
      const HsCheck *known = hs_checks_lookup (checks, id);

      if (known == NULL)
        return hs_ops_refuse (error, "checks[%u].id: there is no check “%s”; halfshaft-cli check lists them", i, id);
      if (check->source == NULL)
        return hs_ops_refuse (error, "checks[%u].source: is missing", i);
      if (check->from.by == HS_GUIDE_BY_NOTHING)
        return hs_ops_refuse (error, "checks[%u].from: is missing", i);
      if (!fits_catalog (&check->from, known, i, error) || !reaches_all (self, i, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hs_cause_guide_check (const HsCauseGuide *self, HsChecks *checks, GError **error)
{
  const HsCheck *when = self->when != NULL ? hs_checks_lookup (checks, self->when) : NULL;

  if (self->id == NULL || self->group == NULL || self->name == NULL)
    return hs_ops_refuse (error, "%s: is missing", self->id == NULL ? "id" : self->group == NULL ? "group" : "name");
  if (hs_checks_lookup_group (checks, self->group) == NULL)
    return hs_ops_refuse (error, "group: there is no group “%s”", self->group);
  if (self->when != NULL && (when == NULL || when->entry != HS_CHECK_CHOICE))
    return hs_ops_refuse (error, "when.check: there is no check “%s” with answers", self->when);
  return causes_are_whole (self, error) && checks_are_whole (self, checks, error);
}

GPtrArray *
hs_cause_guides_load (GError **error)
{
  static const char *const names[]
    = { "will_not_start_silent", "will_not_start_clicks", "will_not_start_cranks", "drains", "charging_lamp", "brakes",
        "overheats", "cuts_out", "everything_dead" };
  g_autoptr (GPtrArray) guides = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_cause_guide_free);

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_strdup_printf ("causes/%s.json", names[i]);
      g_autoptr (GBytes) bytes = hs_ops_load_data (path, error);
      HsCauseGuide *guide;

      if (bytes == NULL)
        return NULL;
      guide = hs_cause_guide_parse (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), error);
      if (guide == NULL)
        {
          g_prefix_error (error, "%s: ", path);
          return NULL;
        }
      g_ptr_array_add (guides, guide);
    }
  return g_steal_pointer (&guides);
}
