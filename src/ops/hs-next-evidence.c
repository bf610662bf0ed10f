// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What a job says, check by check: readings before the repair (those taken during it where there are none), answers on
 * the phone and beside the vehicle, and findings that name a cause. Of one check in several places the worst counts.
 */

#include "hs-next-private.h"

#include "hs-installed-row.h"
#include "hs-interview-op.h"
#include "hs-ops-private.h"

#include <string.h>

/* Readings that show whether there is power, and the answer to the first that says there is none. */
#define POWER_CHECK "power_back"
#define POWER_NONE 4
#define REST_CHECK "battery_rest"
/* What is done once there is power again. */
#define ROUND_CHECK "walk_round"

void
hs_next_scene_clear (HsNextScene *scene)
{
  g_clear_pointer (&scene->job, hs_job_row_free);
  g_clear_pointer (&scene->readings, g_ptr_array_unref);
  g_clear_pointer (&scene->asked, g_ptr_array_unref);
  g_clear_pointer (&scene->findings, g_ptr_array_unref);
  g_clear_pointer (&scene->parts, g_ptr_array_unref);
  g_clear_pointer (&scene->judged, g_hash_table_unref);
  hs_reading_ground_clear (&scene->ground);
}

gboolean
hs_next_judge (HsNextScene *scene, const HsReadingRow *row, const HsReadingResult **ret_judged, GError **error)
{
  HsReadingScene around = { scene->book, scene->job->vehicle_id, scene->readings, &scene->ground };
  HsReadingResult *judged = g_hash_table_lookup (scene->judged, row);

  if (judged == NULL)
    {
      judged = hs_reading_judge_row (&around, row, error);
      if (judged == NULL)
        return FALSE;
      g_hash_table_insert (scene->judged, (gpointer) row, judged);
    }
  *ret_judged = judged;
  return TRUE;
}

/* @ret_shows: above 0 if the reading shows that there is power, below 0 if that there is none, else 0. */
static gboolean
shows_power (HsNextScene *scene, const HsReadingRow *row, int *ret_shows, GError **error)
{
  const HsCheck *check = hs_checks_lookup (scene->checks, row->check_id);
  const HsReadingResult *judged;
  HsReading reading;

  *ret_shows = 0;
  if (check == NULL || !hs_reading_of_row (check, row, &reading) || reading.kind != HS_READING_VALUE)
    return TRUE;
  if (g_str_equal (row->check_id, POWER_CHECK))
    *ret_shows = reading.value != POWER_NONE ? 1 : -1;
  if (!g_str_equal (row->check_id, REST_CHECK))
    return TRUE;
  if (!hs_next_judge (scene, row, &judged, error))
    return FALSE;
  *ret_shows = g_strcmp0 (judged->verdict, "within") == 0 || g_strcmp0 (judged->verdict, "watch") == 0;
  return TRUE;
}

static gboolean
find_power (HsNextScene *scene, GError **error)
{
  scene->power_at = -1;
  for (guint i = 0; i < scene->readings->len; i++)
    {
      int shows;

      if (!shows_power (scene, g_ptr_array_index (scene->readings, i), &shows, error))
        return FALSE;
      if (shows != 0)
        scene->power_at = shows > 0 ? (int) i : -1;
    }
  return TRUE;
}

gboolean
hs_next_scene_load (HsBook *book, const char *job_id, HsNextScene *ret_scene, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  HsNextScene scene = { .book = book, .in = hs_book_get_tongue (book), .checks = hs_book_get_checks (book) };

  scene.judged = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) hs_reading_result_free);
  if (hs_job_row_load (store, job_id, &scene.job, error)
      && hs_reading_row_list_of (store, job_id, &scene.readings, error)
      && hs_asked_row_list_of (store, job_id, &scene.asked, error)
      && hs_finding_row_list_of (store, job_id, &scene.findings, error)
      && hs_installed_row_list_of_job (store, job_id, &scene.parts, error)
      && (scene.interview = hs_book_get_interview (book, error)) != NULL
      && hs_book_get_proven_causes (book, &scene.proven, error) && find_power (&scene, error))
    {
      *ret_scene = scene;
      return TRUE;
    }
  hs_next_scene_clear (&scene);
  return FALSE;
}

/* --- Readings -------------------------------------------------------------------------------------------------- */

gboolean
hs_next_is_current (const HsNextScene *scene, guint at, const char *check_id, const char *phase)
{
  const HsReadingRow *row = g_ptr_array_index (scene->readings, at);

  if (!g_str_equal (row->check_id, check_id) || !g_str_equal (row->phase, phase))
    return FALSE;
  for (guint i = at + 1; i < scene->readings->len; i++)
    {
      const HsReadingRow *later = g_ptr_array_index (scene->readings, i);

      if (g_str_equal (later->check_id, check_id) && g_str_equal (later->phase, phase)
          && g_strcmp0 (later->place, row->place) == 0)
        return FALSE;
    }
  return TRUE;
}

/* What is worse says more; what can't be told says nothing. */
static guint
badness (HsVerdict verdict)
{
  static const guint of[HS_N_VERDICTS] = {
    [HS_VERDICT_CANNOT_TELL] = 0, [HS_VERDICT_WITHIN] = 1, [HS_VERDICT_WATCH] = 2,
    [HS_VERDICT_DEPENDS] = 3,     [HS_VERDICT_OUTSIDE] = 4,
  };

  return of[verdict];
}

/* One reading of the check: it takes the place of a better one. What was read and says nothing is not read again,
 * unless that was for want of power. */
static gboolean
mark_reading (HsNextScene *scene, const HsCauseGuide *guide, guint check, guint at, guint *ret_badness,
              HsNextMark *mark, GError **error)
{
  const HsReadingRow *row = g_ptr_array_index (scene->readings, at);
  const HsCheck *known = hs_checks_lookup (scene->checks, row->check_id);
  gboolean for_want_of_power = g_strcmp0 (row->not_measured_why, HS_WHY_NOT_POWER) == 0;
  HsVerdict verdict = HS_VERDICT_CANNOT_TELL;
  const HsReadingResult *judged;
  HsReading reading;
  guint result = 0;

  if (known == NULL || !hs_next_judge (scene, row, &judged, error))
    return known == NULL;
  hs_verdict_parse (judged->verdict, &verdict, NULL);
  if (hs_reading_of_row (known, row, &reading))
    result = hs_cause_guide_find_result (guide, check, known, &reading, verdict);
  if (result == 0)
    {
      mark->off = TRUE;
      mark->again = for_want_of_power && scene->power_at > (int) at;
    }
  if (mark->row != NULL && (result == 0 || (mark->result != 0 && badness (verdict) < *ret_badness)))
    return TRUE;
  mark->row = row;
  mark->judged = judged;
  mark->result = result;
  *ret_badness = badness (verdict);
  return TRUE;
}

static gboolean
mark_readings (HsNextScene *scene, const HsCauseGuide *guide, guint check, gboolean late, HsNextMark *mark,
               GError **error)
{
  static const char *const phases[] = { "before", "during", "after" };
  guint n_phases = late ? G_N_ELEMENTS (phases) : G_N_ELEMENTS (phases) - 1;
  const char *id = hs_cause_model_get_check_id (hs_cause_guide_get_model (guide), check);
  guint bad = 0;

  for (guint p = 0; p < n_phases && mark->result == 0; p++)
    for (guint i = 0; i < scene->readings->len; i++)
      if (hs_next_is_current (scene, i, id, phases[p]) && !mark_reading (scene, guide, check, i, &bad, mark, error))
        return FALSE;
  if (mark->result != 0)
    mark->again = FALSE;
  mark->off = mark->result == 0 && mark->off && !mark->again;
  return TRUE;
}

guint
hs_next_answer (HsNextScene *scene, const char *check_id)
{
  const HsCheck *known = hs_checks_lookup (scene->checks, check_id);

  for (guint i = scene->readings->len; known != NULL && i > 0; i--)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->readings, i - 1);
      HsReading reading;

      if (g_str_equal (row->check_id, check_id) && !g_str_equal (row->phase, "after")
          && hs_reading_of_row (known, row, &reading) && reading.kind == HS_READING_VALUE)
        return (guint) reading.value;
    }
  return 0;
}

gboolean
hs_next_is_barred (const HsNextScene *scene, const char *check_id)
{
  for (guint i = scene->readings->len; i > 0; i--)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->readings, i - 1);

      if (g_str_equal (row->check_id, check_id) && !g_str_equal (row->phase, "after"))
        return row->not_measured_why != NULL
               && !(g_str_equal (row->not_measured_why, HS_WHY_NOT_POWER) && scene->power_at > (int) (i - 1));
    }
  return FALSE;
}

/* --- What was said --------------------------------------------------------------------------------------------- */

static const char *
question_id (const HsNextScene *scene, const HsAskedRow *asked)
{
  const HsInterviewQuestion *question = hs_interview_find (scene->interview, asked->question);

  return question != NULL ? question->id : NULL;
}

gboolean
hs_next_is_said_for (HsNextScene *scene, const HsCauseGuide *guide)
{
  for (guint i = 0; i < scene->asked->len; i++)
    {
      const HsAskedRow *asked = g_ptr_array_index (scene->asked, i);

      if (asked->answer != NULL && hs_cause_guide_is_for_said (guide, question_id (scene, asked), asked->answer))
        return TRUE;
    }
  return FALSE;
}

static void
mark_said (HsNextScene *scene, const HsCauseGuide *guide, guint check, HsNextMark *mark)
{
  for (guint i = 0; i < scene->asked->len; i++)
    {
      const HsAskedRow *asked = g_ptr_array_index (scene->asked, i);
      guint said = asked->answer == NULL
                     ? 0
                     : hs_cause_guide_find_said (guide, check, question_id (scene, asked), asked->answer);

      if (said == 0)
        continue;
      mark->said = said;
      mark->asked = asked;
    }
}

gboolean
hs_next_mark (HsNextScene *scene, const HsCauseGuide *guide, guint check, gboolean late, HsNextMark *ret_mark,
              GError **error)
{
  HsNextMark mark = { 0 };

  if (!mark_readings (scene, guide, check, late, &mark, error))
    return FALSE;
  if (mark.result == 0)
    mark_said (scene, guide, check, &mark);
  *ret_mark = mark;
  return TRUE;
}

/* --- What was found -------------------------------------------------------------------------------------------- */

const HsFindingRow *
hs_next_finding (HsNextScene *scene, const char *cause_id)
{
  for (guint i = scene->findings->len; i > 0; i--)
    {
      const HsFindingRow *row = g_ptr_array_index (scene->findings, i - 1);

      if (g_strcmp0 (row->cause, cause_id) == 0)
        return row;
    }
  return NULL;
}

/* --- What power has to do with it ------------------------------------------------------------------------------ */

static void
offer_free (gpointer data)
{
  HsNextOffer *offer = data;

  g_free (offer->check);
  g_free (offer->name);
  g_free (offer->why);
  g_free (offer);
}

static void
offer (HsNextScene *scene, GPtrArray *offers, const char *check_id, const char *why)
{
  const HsCheck *check = hs_checks_lookup (scene->checks, check_id);
  HsNextOffer *one;

  for (guint i = 0; i < offers->len; i++)
    if (g_str_equal (((HsNextOffer *) g_ptr_array_index (offers, i))->check, check_id))
      return;
  if (check == NULL)
    return;
  one = g_new0 (HsNextOffer, 1);
  one->check = g_strdup (check_id);
  one->name = g_strdup (check->name);
  one->why = g_strdup (why);
  g_ptr_array_add (offers, one);
}

/* Whether the walk round was done since there is power. */
static gboolean
is_walked_round (const HsNextScene *scene)
{
  for (guint i = (guint) scene->power_at; i < scene->readings->len; i++)
    if (g_str_equal (((HsReadingRow *) g_ptr_array_index (scene->readings, i))->check_id, ROUND_CHECK))
      return TRUE;
  return FALSE;
}

GPtrArray *
hs_next_offers (HsNextScene *scene)
{
  GPtrArray *offers = g_ptr_array_new_with_free_func (offer_free);
  gboolean waits = FALSE;

  for (guint i = 0; i < scene->readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->readings, i);

      if (g_strcmp0 (row->not_measured_why, HS_WHY_NOT_POWER) != 0
          || !hs_next_is_current (scene, i, row->check_id, row->phase))
        continue;
      if (scene->power_at > (int) i)
        offer (scene, offers, row->check_id,
               scene->in->gettext ("It could not be measured without power; there is power now."));
      else
        waits = TRUE;
    }
  if (offers->len > 0 && !is_walked_round (scene))
    offer (scene, offers, ROUND_CHECK,
           scene->in->gettext ("There is power again: see what stays on with the key off."));
  if (waits)
    offer (scene, offers, POWER_CHECK,
           scene->in->gettext ("Something could not be measured without power: say when there is some."));
  return offers;
}
