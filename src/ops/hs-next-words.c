// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How causes stand, in words: never a bare chance, but a word by stated bands, with what speaks for and against. */

#include "hs-next-private.h"

/* Bands of what is believed; data/causes/MODEL.md tells them. */
#define MOST_LIKELY 0.5
#define POSSIBLE 0.1
/* What is so many times likelier under a cause than under the others speaks for it. */
#define SPEAKS 2.0
/* A result less likely than this is not worth a word beforehand. */
#define WORTH_A_WORD 0.02

static const struct
{
  const char *id;
  const char *word;
} standings[] = {
  [HS_NEXT_MOST_LIKELY] = { "most_likely", "most likely" }, [HS_NEXT_POSSIBLE] = { "possible", "possible" },
  [HS_NEXT_UNLIKELY] = { "unlikely", "unlikely" },          [HS_NEXT_RULED_OUT] = { "ruled_out", "ruled out" },
  [HS_NEXT_PROVEN] = { "proven", "proven" },                [HS_NEXT_REPAIRED] = { "repaired", "repaired" },
};

const char *
hs_next_standing_id (HsNextStanding standing)
{
  return standings[standing].id;
}

const char *
hs_next_standing_word (HsNextStanding standing)
{
  return standings[standing].word;
}

HsNextStanding
hs_next_standing_of (double weight)
{
  if (weight <= 0)
    return HS_NEXT_RULED_OUT;
  return weight >= MOST_LIKELY ? HS_NEXT_MOST_LIKELY : weight >= POSSIBLE ? HS_NEXT_POSSIBLE : HS_NEXT_UNLIKELY;
}

/* How many times likelier what is known of @check is under @cause than under the others; 1 says nothing. */
static double
ratio (const HsNextCase *self, guint check, guint cause)
{
  guint n_causes = hs_cause_model_get_n_causes (hs_cause_guide_get_model (self->guide));
  double others = 0;
  double sum = 0;

  for (guint i = 0; i < n_causes; i++)
    if (i != cause)
      {
        others += self->weights[i] * hs_next_case_chance (self, check, i);
        sum += self->weights[i];
      }
  if (sum <= 0)
    return 1;
  return others > 0 ? hs_next_case_chance (self, check, cause) / (others / sum) : G_MAXDOUBLE;
}

gboolean
hs_next_speaks_for (const HsNextCase *self, guint check, guint cause)
{
  return ratio (self, check, cause) >= SPEAKS;
}

/* "Battery at rest 11.42 V: flat", or as somebody said it. */
static char *
dup_evidence (const HsNextCase *self, const HsNextScene *scene, guint check)
{
  const HsCauseModel *model = hs_cause_guide_get_model (self->guide);
  const HsNextMark *mark = &self->marks[check];
  const HsReadingResult *judged = mark->judged;
  const HsTongue *in = scene->in;

  if (mark->result == 0)
    {
      const HsInterviewQuestion *question = hs_interview_find (scene->interview, mark->asked->question);

      return g_strdup_printf ("%s: “%s”", question != NULL ? in->gettext (question->brief) : mark->asked->question,
                              mark->asked->answer);
    }
  if (judged->answer != NULL)
    return g_strdup_printf ("%s: %s", in->gettext (judged->name), in->gettext (judged->answer));
  return g_strdup_printf ("%s%s%s %s: %s", in->gettext (judged->name), judged->place != NULL ? ", " : "",
                          judged->place != NULL ? judged->place : "", judged->value_text,
                          in->gettext (hs_cause_model_get_result (model, check, mark->result - 1)));
}

/* "After the repair, good: Battery at rest 12.60 V". */
static char *
dup_after (const HsReadingResult *judged, gboolean is_good, const HsTongue *in)
{
  g_autofree char *read
    = g_strdup_printf ("%s%s%s %s", in->gettext (judged->name), judged->place != NULL ? ", " : "",
                       judged->place != NULL ? judged->place : "",
                       judged->answer != NULL ? in->gettext (judged->answer) : judged->value_text);

  return is_good ? g_strdup_printf (in->gettext ("After the repair, good: %s"), read)
                 : g_strdup_printf (in->gettext ("After the repair, not good: %s"), read);
}

static void
add_after (const HsNextCase *self, guint cause, const HsTongue *in, GStrvBuilder *speaks_for, GStrvBuilder *against)
{
  GPtrArray *after = self->after[cause];

  for (guint i = 0; after != NULL && i < after->len; i++)
    {
      const HsReadingResult *judged = g_ptr_array_index (after, i);
      gboolean is_good = g_strcmp0 (judged->verdict, "within") == 0;
      g_autofree char *words = dup_after (judged, is_good, in);

      g_strv_builder_add (is_good ? speaks_for : against, words);
    }
}

static char *
dup_finding (const HsFindingRow *row)
{
  return row->place != NULL ? g_strdup_printf ("%s (%s)", row->what, row->place) : g_strdup (row->what);
}

void
hs_next_evidence (const HsNextCase *self, const HsNextScene *scene, guint cause, HsNextCause *ret_cause)
{
  g_autoptr (GStrvBuilder) speaks_for = g_strv_builder_new ();
  g_autoptr (GStrvBuilder) against = g_strv_builder_new ();
  const HsReadingRow *proof = NULL;
  const HsReadingRow *disproof = NULL;
  double most = SPEAKS;
  double least = 1 / SPEAKS;

  if (self->settled[cause] != 0 && self->findings[cause] != NULL)
    {
      g_autofree char *found = dup_finding (self->findings[cause]);

      if (!g_str_equal (self->findings[cause]->what, hs_cause_guide_get_cause (self->guide, cause)->name))
        g_strv_builder_add (self->settled[cause] == HS_NEXT_RULED_OUT + 1 ? against : speaks_for, found);
    }
  for (guint k = 0; k < hs_cause_model_get_n_checks (hs_cause_guide_get_model (self->guide)); k++)
    {
      const HsNextMark *mark = &self->marks[k];
      double times = mark->result != 0 || mark->said != 0 ? ratio (self, k, cause) : 1;
      g_autofree char *words = NULL;

      if (times < SPEAKS && times > 1 / SPEAKS)
        continue;
      words = dup_evidence (self, scene, k);
      g_strv_builder_add (times >= SPEAKS ? speaks_for : against, words);
      if (mark->result != 0 && times >= most)
        {
          most = times;
          proof = mark->row;
        }
      if (mark->result != 0 && times <= least)
        {
          least = times;
          disproof = mark->row;
        }
    }
  add_after (self, cause, scene->in, speaks_for, against);
  ret_cause->speaks_for = g_strv_builder_end (speaks_for);
  ret_cause->speaks_against = g_strv_builder_end (against);
  ret_cause->reading_id = proof != NULL ? g_strdup (proof->id) : NULL;
  ret_cause->against_id = disproof != NULL ? g_strdup (disproof->id) : NULL;
}

/* The cause that @result of @check would make likeliest. */
static guint
likeliest (const HsNextCase *self, guint check, guint result)
{
  guint n_results = hs_cause_model_get_n_results (self->model, check);
  const double *chances = hs_cause_model_get_chances (self->model, check);
  double most = -1;
  guint found = 0;

  for (guint i = 0; i < hs_cause_model_get_n_causes (self->model); i++)
    {
      double weight = self->next.beliefs[i] * chances[i * n_results + result];

      if (weight <= most)
        continue;
      most = weight;
      found = i;
    }
  return found;
}

char **
hs_next_dup_tells (const HsNextCase *self, guint check, const HsTongue *in)
{
  guint n_results = hs_cause_model_get_n_results (self->model, check);
  g_autoptr (GStrvBuilder) tells = g_strv_builder_new ();
  g_autofree gboolean *told = g_new0 (gboolean, n_results);

  for (guint r = 0; r < n_results; r++)
    {
      guint cause = likeliest (self, check, r);
      g_autoptr (GString) text = g_string_new (NULL);

      for (guint s = r; s < n_results; s++)
        if (!told[s] && likeliest (self, check, s) == cause
            && hs_next_chance (self->model, &self->next, check, s) >= WORTH_A_WORD)
          {
            g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "",
                                    in->gettext (hs_cause_model_get_result (self->model, check, s)));
            told[s] = TRUE;
          }
      if (text->len == 0)
        continue;
      g_string_append_printf (text, ": %s", in->gettext (hs_cause_guide_get_cause (self->guide, cause)->name));
      g_strv_builder_add (tells, text->str);
    }
  return g_strv_builder_end (tells);
}

char *
hs_next_dup_source (const HsCauseGuide *guide, guint check)
{
  g_autoptr (GPtrArray) sources = g_ptr_array_new ();

  for (guint i = 0; i < hs_cause_model_get_n_causes (hs_cause_guide_get_model (guide)); i++)
    {
      const char *source = hs_cause_guide_get_source (guide, check, i);

      if (source != NULL && !g_ptr_array_find_with_equal_func (sources, source, g_str_equal, NULL))
        g_ptr_array_add (sources, (gpointer) source);
    }
  g_ptr_array_add (sources, NULL);
  return g_strjoinv ("; ", (char **) sources->pdata);
}
