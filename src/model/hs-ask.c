// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the pages ask the book. Each function runs in the worker thread and answers with a struct of the ops layer, or
 * with a few of them that belong on one page together, so that a page never shows two moments at once. */

#include "hs-ask.h"

#include "hs-area-row.h"
#include "hs-ask-next.h"
#include "hs-ask-photo.h"
#include "hs-day-plan.h"
#include "hs-draft-row.h"
#include "hs-job-row.h"
#include "hs-travel-op.h"

const char *const hs_ask_phases[] = { "before", "during", "after", NULL };

void
hs_board_shot_free (HsBoardShot *shot)
{
  if (shot == NULL)
    return;
  hs_board_free (shot->board);
  g_clear_pointer (&shot->plan, hs_day_plan_free);
  g_free (shot->trouble);
  g_free (shot);
}

void
hs_job_shot_free (HsJobShot *shot)
{
  if (shot == NULL)
    return;
  hs_job_view_free (shot->view);
  g_free (shot->vehicle_id);
  g_clear_pointer (&shot->battery, hs_battery_fact_free);
  g_clear_pointer (&shot->limits, g_ptr_array_unref);
  for (guint i = 0; i < G_N_ELEMENTS (shot->sheets); i++)
    g_clear_pointer (&shot->sheets[i], g_ptr_array_unref);
  hs_chain_shot_free (shot->why);
  hs_repair_shot_free (shot->repair);
  g_clear_pointer (&shot->photos, g_ptr_array_unref);
  g_clear_pointer (&shot->photo_subjects, g_ptr_array_unref);
  g_clear_pointer (&shot->nexts, g_ptr_array_unref);
  g_clear_pointer (&shot->arrival, hs_arrival_free);
  hs_job_choices_free (shot->choices);
  g_free (shot);
}

gpointer
hs_ask_board (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate today;
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (GError) trouble = NULL;
  guint most_closed = 0;
  HsBoard *board;
  HsBoardShot *shot;

  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  /* A day that cannot be planned is no reason to hide the board; it shows its tags without arrival times. */
  plan = hs_day_plan_standing (book, today, NULL, now, &trouble);
  board = hs_board_load (book, plan, now, error);
  if (board == NULL)
    return NULL;
  if (args != NULL)
    g_variant_get (args, "(u)", &most_closed);
  if (most_closed > 0 && !hs_board_unfold (book, board, most_closed, now, error))
    {
      hs_board_free (board);
      return NULL;
    }

  shot = g_new0 (HsBoardShot, 1);
  shot->board = board;
  shot->plan = g_steal_pointer (&plan);
  shot->trouble = trouble != NULL ? g_strdup (trouble->message) : NULL;
  shot->today = today;
  return shot;
}

gpointer
hs_ask_day (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  gboolean anew;

  g_variant_get (args, "(ib)", &day, &anew);
  return anew ? hs_day_plan_make (book, day, NULL, now, error) : hs_day_plan_standing (book, day, NULL, now, error);
}

gpointer
hs_ask_others (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;

  g_variant_get (args, "(i)", &day);
  return hs_day_others (book, day, NULL, now, error);
}

gpointer
hs_ask_mends (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  gboolean anew;

  g_variant_get (args, "(ib)", &day, &anew);
  return hs_day_mends (book, day, NULL, anew, now, error);
}

gpointer
hs_ask_share (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;

  g_variant_get (args, "(i)", &day);
  return hs_share_case_load (book, day, now, error);
}

gpointer
hs_ask_share_undo (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  gboolean can = FALSE;

  g_variant_get (args, "(i)", &day);
  hs_share_can_take_back (book, day, &can, error);
  return GINT_TO_POINTER (can);
}

gpointer
hs_ask_run (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;

  g_variant_get (args, "(i)", &day);
  return hs_parts_run_make (book, day, NULL, now, error);
}

gpointer
hs_ask_find (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *words;
  guint limit;

  g_variant_get (args, "(&su)", &words, &limit);
  return hs_find (book, words, limit, now, error);
}

gpointer
hs_ask_look_up (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) vehicles = NULL;
  GPtrArray *hits;
  const char *words;
  guint limit;

  g_variant_get (args, "(&su)", &words, &limit);
  vehicles = hs_find (book, words, limit, now, error);
  if (vehicles == NULL)
    return NULL;
  hits = hs_find_jobs (book, words, now, error);
  if (hits != NULL)
    g_ptr_array_extend_and_steal (hits, g_steal_pointer (&vehicles));
  return hits;
}

gpointer
hs_ask_history (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *vehicle_id;

  g_variant_get (args, "(&s)", &vehicle_id);
  return hs_history_load (book, vehicle_id, now, error);
}

static gboolean
hs_ask_job_vehicle (HsBook *book, HsJobShot *shot, HsInstant now, GError **error)
{
  g_autoptr (GError) failure = NULL;
  g_autoptr (HsJobRow) job = NULL;
  HsDate today;

  if (!hs_job_row_load (hs_book_get_store (book), shot->view->tag->job_id, &job, error))
    return FALSE;
  shot->vehicle_id = g_strdup (job->vehicle_id);
  if (shot->vehicle_id == NULL)
    return TRUE;
  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  shot->limits = hs_own_limit_list (book, shot->vehicle_id, error);
  if (shot->limits == NULL)
    return FALSE;
  shot->battery = hs_battery_fact_load (book, shot->vehicle_id, today, &failure);
  if (failure == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

gpointer
hs_ask_job (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;
  HsJobShot *shot;

  g_variant_get (args, "(&s)", &job_id);
  shot = g_new0 (HsJobShot, 1);
  shot->view = hs_job_view_load (book, job_id, now, error);
  if (shot->view == NULL || !hs_ask_job_vehicle (book, shot, now, error)
      || !hs_job_shot_load_photos (book, shot, job_id, error)
      || (shot->arrival = hs_arrival_load (book, job_id, now, error)) == NULL)
    {
      hs_job_shot_free (shot);
      return NULL;
    }
  for (guint i = 0; i < G_N_ELEMENTS (shot->sheets); i++)
    {
      shot->sheets[i] = hs_job_sheet (book, job_id, hs_ask_phases[i], now, error);
      if (shot->sheets[i] == NULL)
        {
          hs_job_shot_free (shot);
          return NULL;
        }
    }
  shot->why = hs_chain_shot_load (book, job_id, error);
  shot->repair = shot->why == NULL ? NULL : hs_repair_shot_load (book, job_id, shot->view, now, error);
  if (shot->repair != NULL)
    hs_prove_add_lines (book, shot->repair->repair, shot->sheets[2]);
  shot->choices = shot->repair == NULL ? NULL : hs_job_choices_load (book, job_id, now, error);
  if (shot->choices == NULL || !hs_ask_job_next (book, shot, job_id, now, error))
    g_clear_pointer (&shot, hs_job_shot_free);
  return shot;
}

gpointer
hs_ask_job_number (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *number;

  g_variant_get (args, "(&s)", &number);
  return hs_job_find (book, number, error);
}

gpointer
hs_ask_judge (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsReadingEntry entry = { .at = HS_INSTANT_NONE };
  const char *job_id;

  g_variant_get (args, "(&s&s&s&sm&s)", &job_id, &entry.phase, &entry.check, &entry.keyed, &entry.conditions);
  return hs_reading_try (book, job_id, &entry, now, error);
}

gpointer
hs_ask_money (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  gboolean unpaid_only;
  guint limit;

  g_variant_get (args, "(bu)", &unpaid_only, &limit);
  return hs_money_list (book, unpaid_only, limit, error);
}

gpointer
hs_ask_offers (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  const char *area;
  int minutes, window_from, window_to;
  gboolean replan;

  g_variant_get (args, "(i&siiib)", &day, &area, &minutes, &window_from, &window_to, &replan);
  return hs_day_squeeze (book, day, NULL, area, minutes * 60, window_from, window_to, replan, now, error);
}

void
hs_place_free (HsPlace *place)
{
  if (place == NULL)
    return;
  g_free (place->code);
  g_free (place->name);
  g_free (place->signal);
  g_free (place);
}

gpointer
hs_ask_places (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  GPtrArray *places;

  if (!hs_area_row_list (hs_book_get_store (book), &rows, error))
    return NULL;
  places = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_place_free);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAreaRow *row = g_ptr_array_index (rows, i);
      HsPlace *place = g_new0 (HsPlace, 1);

      place->code = g_strdup (row->id);
      place->name = g_strdup (row->name);
      place->signal = g_strdup (row->signal);
      g_ptr_array_add (places, place);
    }
  return places;
}

gpointer
hs_ask_map (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_map_places (book, error);
}

gpointer
hs_ask_accuracy (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autofree HsTravelAccuracy *accuracy = g_new0 (HsTravelAccuracy, 1);

  return hs_travel_accuracy (book, accuracy, error) ? g_steal_pointer (&accuracy) : NULL;
}

gpointer
hs_ask_where (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_where_load (book, error);
}

gpointer
hs_ask_drafts (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  const char *job_id;
  GPtrArray *drafts;

  g_variant_get (args, "(m&s)", &job_id);
  if (!hs_draft_row_list_of (hs_book_get_store (book), job_id, &rows, error))
    return NULL;
  drafts = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_where_free);
  for (guint i = 0; i < rows->len; i++)
    {
      const HsDraftRow *row = g_ptr_array_index (rows, i);
      HsWhere *draft = g_new0 (HsWhere, 1);

      draft->job_id = g_strdup (row->job_id);
      draft->page = g_strdup (row->page);
      draft->field = g_strdup (row->field);
      draft->text = g_strdup (row->text);
      draft->at = row->at;
      g_ptr_array_add (drafts, draft);
    }
  return drafts;
}
