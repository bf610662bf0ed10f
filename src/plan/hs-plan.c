// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plans a day in four questions, each settled before the next is asked: how much can be kept at all; how much spare can
 * be had with that; which order and leave time is then cheapest; which of those comes first by ids. The first two need
 * no leave time (leaving first thing is never worse for them), so they run on plain times; only the third carries
 * arrival as a function of leaving. */

#include "hs-plan.h"

#include "hs-plan-drive.h"
#include "hs-plan-error.h"
#include "hs-plan-tune.h"
#include "hs-plan-why.h"
#include "hs-plan-words.h"

#include <string.h>

typedef struct
{
  HsSearch search;
  HsFrame *frame;
  HsBound *bound;
  HsTerms terms;
  HsFinish finish;
  guint order[HS_DAY_MAX_STOPS];
} HsSolve;

static char *
why_home (const HsPlan *plan, const HsDay *day)
{
  g_autofree char *home = hs_why_clock (day, plan->home_seconds);
  g_autofree char *asked = hs_why_clock (day, day->home_by_seconds);
  g_autofree char *late = hs_words_length (plan->home_seconds - day->home_by_seconds);

  return g_strdup_printf ("home only at %s, %s after the %s that was set", home, late, asked);
}

static void
add_home (HsPlan *plan, const HsDay *day)
{
  if (plan->stops->len > 0 && plan->home_seconds > day->home_by_seconds)
    hs_why_add (plan->broken, HS_DAY_NO_STOP, plan->home_seconds - day->home_by_seconds, why_home (plan, day));
}

static void
add_break (HsPlan *plan, const HsDay *day)
{
  g_autofree char *length = hs_words_length (day->break_seconds);
  g_autofree char *from = hs_why_clock (day, day->break_span.from_seconds);
  g_autofree char *to = hs_why_clock (day, day->break_span.to_seconds);

  if (plan->break_late_seconds > 0)
    hs_why_add (plan->broken, HS_DAY_BREAK, plan->break_late_seconds,
                g_strdup_printf ("no break of %s between %s and %s", length, from, to));
}

/* How much can be kept at all. */
static void
solve_keeping (HsSolve *solve)
{
  HsFrame *frame = solve->frame;
  HsFinish best = HS_FINISH_WORST;

  hs_frame_trim (frame, -HS_FRAME_FAR);
  solve->terms = (HsTerms) HS_TERMS_OPEN (frame->day->leave_from_seconds, frame->day->leave_from_seconds);
  solve->terms.flat = TRUE;
  if (!hs_tune_begin (frame, solve->order))
    {
      hs_frame_unlock (frame);
      hs_tune_begin (frame, solve->order);
    }
  hs_label_drive (frame, &solve->terms, solve->order, &best);
  hs_tune_order (&solve->search, frame, &solve->terms, &best, solve->order);
  if (best.broken > 0 || best.home_late > 0)
    hs_search_run (&solve->search, frame, solve->bound, &solve->terms, &best, solve->order);
  if (solve->search.bit)
    hs_tune_order (&solve->search, frame, &solve->terms, &best, solve->order);
  if (best.broken == 0 && best.home_late == 0)
    solve->search.bit = FALSE;
  solve->terms.broken = best.broken;
  solve->terms.late = best.late;
  solve->terms.home_late = best.home_late;
}

/* The least slack of an order that keeps the terms, leaving first thing or right after the break. */
static gint64
spare_of (const HsSolve *solve, const guint *order)
{
  const HsFrame *frame = solve->frame;
  const HsTerms *terms = &solve->terms;
  gint64 leaves[] = { terms->leave_from, MAX (terms->leave_from, frame->rested_from) };
  gint64 spare = -HS_FRAME_FAR;

  for (guint k = 0; k < G_N_ELEMENTS (leaves); k++)
    {
      HsDriven driven;

      if (leaves[k] > frame->day->leave_to_seconds)
        continue;
      hs_drive_place_break (frame, order, leaves[k], 0, HS_DRIVE_FOR_SPARE, &driven);
      if (driven.broken <= terms->broken && driven.late <= terms->late && driven.home_late <= terms->home_late)
        spare = MAX (spare, driven.spare);
    }
  return spare;
}

/* A yes is sure even when the budget bit on the way to it; a no is not. */
static gboolean
can_spare (HsSolve *solve, gint64 spare, guint *order)
{
  HsFinish finish = HS_FINISH_WORST;
  gboolean bit = solve->search.bit;

  hs_frame_trim (solve->frame, spare);
  if (hs_label_drive (solve->frame, &solve->terms, order, &finish))
    return TRUE;
  if (!hs_search_run (&solve->search, solve->frame, solve->bound, &solve->terms, &finish, order))
    return FALSE;
  solve->search.bit = bit;
  return TRUE;
}

/* How much spare can be had: the asked one, or else the most, by halving; what can be spared is monotone. */
static void
solve_spare (HsSolve *solve)
{
  gint64 high = solve->frame->day->spare_seconds;
  gint64 low = MIN (spare_of (solve, solve->order), high);
  guint trial[HS_DAY_MAX_STOPS];

  memcpy (trial, solve->order, sizeof trial);
  if (low < high && can_spare (solve, high, trial))
    {
      memcpy (solve->order, trial, sizeof trial);
      low = high;
    }
  while (high - low > 1)
    {
      gint64 middle = low + (high - low) / 2;

      memcpy (trial, solve->order, sizeof trial);
      if (can_spare (solve, middle, trial))
        {
          memcpy (solve->order, trial, sizeof trial);
          low = MIN (spare_of (solve, trial), high - 1);
        }
      else
        {
          high = middle;
        }
    }
  hs_frame_trim (solve->frame, low);
}

/* Which order and leave time is cheapest. */
static void
solve_cost (HsSolve *solve)
{
  HsFinish best = HS_FINISH_WORST;

  solve->terms.flat = FALSE;
  solve->terms.leave_to = solve->frame->day->leave_to_seconds;
  hs_label_drive (solve->frame, &solve->terms, solve->order, &best);
  hs_tune_order (&solve->search, solve->frame, &solve->terms, &best, solve->order);
  hs_search_run (&solve->search, solve->frame, solve->bound, &solve->terms, &best, solve->order);
  if (solve->search.bit)
    hs_tune_order (&solve->search, solve->frame, &solve->terms, &best, solve->order);
  solve->finish = best;
}

/* What is late itself is in nobody's way: to leave it out would not keep another promise. */
static guint64
without_late_calls (const HsPlan *plan, const HsDay *day, guint64 in_play)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);

      if (stop->late_seconds > 0 && hs_day_get_stop (day, stop->stop)->kind == HS_DAY_STOP_CALL)
        in_play &= ~HS_FRAME_BIT (stop->stop);
    }
  return in_play;
}

static void
add_late (HsSolve *solve, HsPlan *plan, guint64 in_play)
{
  guint64 kept = without_late_calls (plan, solve->frame->day, in_play);

  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);

      if (stop->late_seconds > 0)
        hs_why_add (plan->broken, (int) stop->stop, stop->late_seconds,
                    hs_why_late (&solve->search, solve->frame->day, kept | HS_FRAME_BIT (stop->stop), stop->stop));
    }
}

/* Says which locks could not be kept. */
static void
add_unlocked (HsPlan *plan, const HsDay *day)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);
      guint number = hs_day_get_stop (day, stop->stop)->number;

      if (number > 0 && number != k + 1)
        hs_why_add (plan->broken, (int) stop->stop, 0,
                    g_strdup_printf ("locked as stop %u, which does not go with what must come before it; "
                                     "planned without locks",
                                     number));
    }
}

static void
add_broken (HsSolve *solve, HsPlan *plan, guint64 in_play)
{
  add_late (solve, plan, in_play);
  add_unlocked (plan, solve->frame->day);
  add_break (plan, solve->frame->day);
  add_home (plan, solve->frame->day);
}

/* What the search settled, driven. */
static HsPlan *
solve_drive (const HsSolve *solve)
{
  HsDriven driven;
  int break_after
      = hs_drive_place_break (solve->frame, solve->order, solve->finish.leave, 0, HS_DRIVE_FOR_HOME, &driven);

  return hs_drive_plan (solve->frame, solve->order, solve->finish.leave, break_after);
}

static HsPlan *
solve_stops (HsSolve *solve)
{
  HsPlan *plan;

  hs_frame_lock (solve->frame);
  solve->bound = hs_bound_new (solve->frame);
  solve_keeping (solve);
  solve_spare (solve);
  solve_cost (solve);
  hs_ties_settle (&solve->search, solve->frame, solve->bound, &solve->finish, solve->order);
  hs_bound_free (solve->bound);
  plan = solve_drive (solve);
  plan->proven = !solve->search.cut && !solve->search.bit;
  plan->states = solve->search.states;
  return plan;
}

/* Nothing to do: the van does not move. */
static HsPlan *
plan_at_home (const HsFrame *frame)
{
  HsPlan *plan = hs_drive_plan (frame, NULL, frame->day->leave_from_seconds, HS_PLAN_NO_BREAK);

  plan->proven = TRUE;
  return plan;
}

gboolean
hs_plan_solve (const HsDay *day, HsPlanGiveUp give_up, gpointer user_data, HsPlan **ret_plan, GError **error)
{
  HsSolve solve = { .search = { give_up, user_data } };
  HsPlan *plan;
  GPtrArray *broken;
  guint64 in_play;

  if (!hs_day_check (day, error))
    return FALSE;
  broken = g_ptr_array_new_with_free_func (hs_why_free);
  in_play = hs_why_in_play (day, broken);
  solve.frame = hs_frame_new (day, in_play);
  plan = solve.frame->n > 0 ? solve_stops (&solve) : plan_at_home (solve.frame);
  g_ptr_array_extend_and_steal (plan->broken, broken);
  add_broken (&solve, plan, in_play);
  plan->status = plan->broken->len > 0 ? HS_PLAN_IMPOSSIBLE : plan->proven ? HS_PLAN_OPTIMAL : HS_PLAN_BEST_FOUND;
  hs_frame_free (solve.frame);
  *ret_plan = plan;
  return TRUE;
}

static gboolean
check_order (const HsDay *day, const guint *order, guint n_order, GError **error)
{
  guint64 in_play = 0;

  if (!hs_day_check (day, error))
    return FALSE;
  for (guint k = 0; k < n_order; k++)
    {
      if (order[k] >= day->stops->len || (in_play & HS_FRAME_BIT (order[k])) != 0)
        {
          g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "order[%u]: %s", k,
                       order[k] >= day->stops->len ? "no such stop" : "stands twice in the order");
          return FALSE;
        }
      in_play |= HS_FRAME_BIT (order[k]);
    }
  return TRUE;
}

static void
add_minutes_late (HsPlan *plan, const HsDay *day)
{
  for (guint k = 0; k < plan->stops->len; k++)
    {
      const HsPlanStop *stop = hs_plan_get_stop (plan, k);
      g_autofree char *length = hs_words_length (stop->late_seconds);

      if (stop->late_seconds > 0)
        hs_why_add (plan->broken, (int) stop->stop, stop->late_seconds, g_strdup_printf ("%s late", length));
    }
  add_break (plan, day);
  add_home (plan, day);
}

HsPlan *
hs_plan_drive (const HsDay *day, const guint *order, guint n_order, gint32 leave_seconds, int break_after)
{
  g_autoptr (HsFrame) frame = NULL;
  guint inner[HS_DAY_MAX_STOPS];
  guint64 in_play = 0;
  HsPlan *plan;
  HsDriven driven;

  for (guint k = 0; k < n_order; k++)
    in_play |= HS_FRAME_BIT (order[k]);
  frame = hs_frame_new (day, in_play);
  for (guint k = 0; k < n_order; k++)
    for (guint i = 0; i < frame->n; i++)
      if (frame->stops[i].day_stop == order[k])
        inner[k] = i;
  if (break_after == HS_PLAN_PLACE_BREAK)
    break_after = hs_drive_place_break (frame, inner, leave_seconds, day->under_way ? HS_PLAN_BREAK_FIRST : 0,
                                        HS_DRIVE_FOR_HOME, &driven);
  else if (break_after >= HS_PLAN_BREAK_FIRST && !hs_drive_measure (frame, inner, leave_seconds, break_after, &driven))
    break_after = HS_PLAN_NO_BREAK;
  plan = hs_drive_plan (frame, inner, leave_seconds, break_after);
  hs_why_add_shut (day, in_play, plan->broken);
  add_minutes_late (plan, day);
  plan->status = plan->broken->len > 0 ? HS_PLAN_IMPOSSIBLE : HS_PLAN_BEST_FOUND;
  return plan;
}

gboolean
hs_plan_drive_order (const HsDay *day, const guint *order, guint n_order, gint32 leave_seconds, HsPlan **ret_plan,
                     GError **error)
{
  if (!check_order (day, order, n_order, error))
    return FALSE;
  *ret_plan = hs_plan_drive (day, order, n_order, leave_seconds, HS_PLAN_PLACE_BREAK);
  return TRUE;
}
