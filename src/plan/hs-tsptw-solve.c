// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Finds a good tour, then bounds what any tour can cost, and lets an exact search look only where the bound leaves
 * room. What paths remember grows from stage to stage until the two meet. */

#include "hs-tsptw-beam.h"
#include "hs-tsptw-bound.h"
#include "hs-tsptw-caps.h"
#include "hs-tsptw-few.h"
#include "hs-tsptw-leave.h"
#include "hs-tsptw-local.h"
#include "hs-tsptw-quick.h"

#define FIRST_CLIMB 3
#define MOST_STAGES 100
/* Prices moved in the first stage, and in those after it, which have the best prices of the one before. */
#define FIRST_ROUNDS 60
#define LATER_ROUNDS 25
/* Rounds at once. A round takes as long as one of a search's states for every so many nodes, or as these at least. */
#define FEWEST_ROUNDS 10000
#define MOST_ROUNDS 100000
#define NODES_EACH_STATE 4
#define LEAST_STATES_EACH_ROUND 20
#define ROUNDS_EACH_KICK 15

const HsTsptwCaps hs_tsptw_caps_usual = {
  .labels = 3000000,
  .bound_labels = 600000,
  .first_labels = 20000,
  .enough_labels = 50000,
  .beam = 300,
  .first_kicks = 40,
  .later_kicks = 400,
  .first_quick_kicks = 80,
  .later_quick_kicks = 1000,
  .leaves = TRUE,
  .few_paths = 16000000,
};

/**
 * Search: one objective under way.
 * @scale: cost units for each unit of driving; 0 where driving doesn't count
 * @lower: in cost units; it is proven that no tour costs less
 * @rounds: so many times the best tour was rebuilt already
 * @least: what every tour costs at least, as far as can be seen without a search
 */
typedef struct
{
  const HsTsptw *problem;
  const HsTsptwHow *how;
  const HsTsptwCaps *caps;
  HsTsptwAnswer *answer;
  HsTsptwFrame *frame;
  HsTsptwWay *forward;
  HsTsptwWay *backward;
  HsTsptwLocal *local;
  HsTsptwQuick *quick;
  HsTsptwBound *bound;
  gint64 scale;
  gint64 least;
  gint64 lower;
  guint64 rounds;
  guint stage;
  gboolean proven;
  gboolean cut;
} Search;

static gboolean
keeps_orders (const HsTsptw *problem, const guint16 *order)
{
  guint at[HS_TSPTW_MAX_NODES];

  for (guint i = 0; i + 1 < problem->n_nodes; i++)
    at[order[i]] = i;
  for (guint i = 0; i < problem->before->len; i++)
    {
      const HsTsptwPair *pair = &g_array_index (problem->before, HsTsptwPair, i);

      if (at[pair->first] > at[pair->then])
        return FALSE;
    }
  return TRUE;
}

/* Takes a tour that may be better; FALSE when it breaks a rule. */
static gboolean
take_tour (Search *search, const guint16 *order)
{
  HsTsptwAnswer *answer = search->answer;
  gint64 cost;

  if (!keeps_orders (search->problem, order)
      || !hs_tsptw_drive_order (search->problem, search->how->objective, order, &cost))
    return FALSE;
  if (answer->found && cost >= answer->cost)
    return TRUE;
  answer->found = TRUE;
  answer->cost = cost;
  memcpy (answer->order, order, (search->problem->n_nodes - 1) * sizeof (guint16));
  return TRUE;
}

/* Weighs lateness and all objectives. */
static void
look_widely (Search *search, guint kicks)
{
  guint16 order[HS_TSPTW_MAX_NODES];
  gint64 cost;

  if (search->answer->found)
    hs_tsptw_local_start_from (search->local, search->answer->order);
  if (!hs_tsptw_local_run (search->local, kicks))
    search->cut = TRUE;
  if (hs_tsptw_local_get_best (search->local, order, &cost))
    take_tour (search, order);
}

/* From the best tour, which is in time. */
static void
look_quickly (Search *search, guint kicks, guint rounds)
{
  guint16 order[HS_TSPTW_MAX_NODES];

  hs_tsptw_quick_start_from (search->quick, search->answer->order);
  if (!hs_tsptw_quick_run (search->quick, kicks) || !hs_tsptw_quick_rebuild (search->quick, rounds))
    search->cut = TRUE;
  search->rounds += rounds;
  hs_tsptw_quick_get_best (search->quick, order);
  take_tour (search, order);
}

/* Once there is a tour in time, only what is driven can be made less quickly. */
static void
look_around (Search *search, guint kicks, guint quick_kicks)
{
  gboolean travels = search->how->objective == HS_TSPTW_TRAVEL;
  guint16 order[HS_TSPTW_MAX_NODES];
  gint64 cost;

  if (travels && !search->answer->found && hs_tsptw_local_get_best (search->local, order, &cost))
    take_tour (search, order);
  if (!travels || !search->answer->found)
    look_widely (search, kicks);
  if (travels && search->answer->found && !search->cut)
    look_quickly (search, quick_kicks, 0);
}

/* About as long as was searched for bounds and proofs. */
static void
look_as_long (Search *search)
{
  guint64 states = search->answer->states + search->bound->states;
  guint64 wanted = states / MAX (search->problem->n_nodes / NODES_EACH_STATE, LEAST_STATES_EACH_ROUND);

  while (!search->cut && search->rounds + FEWEST_ROUNDS <= wanted)
    {
      guint rounds = (guint) MIN (wanted - search->rounds, MOST_ROUNDS);

      look_quickly (search, rounds / ROUNDS_EACH_KICK, rounds);
    }
}

static void
lay_ways (Search *search)
{
  g_clear_pointer (&search->forward, hs_tsptw_way_free);
  g_clear_pointer (&search->backward, hs_tsptw_way_free);
  search->forward = hs_tsptw_way_new (search->frame, FALSE);
  search->backward = hs_tsptw_way_new (search->frame, TRUE);
}

/* Being home earlier is asked for as a time, and then every tour costs nothing. */
static void
set_target (Search *search)
{
  HsTsptwBound *bound = search->bound;

  if (search->how->objective == HS_TSPTW_MAKESPAN && search->answer->found
      && search->frame->home_by >= search->answer->cost)
    {
      search->frame->home_by = search->answer->cost - 1;
      hs_tsptw_frame_tighten (search->frame);
      search->proven = !search->frame->possible;
      lay_ways (search);
    }
  bound->target = bound->aim = (search->answer->cost - 1) * search->scale;
  if (search->scale == 0 || search->answer->found)
    return;
  bound->target = HS_TSPTW_FAR;
  bound->aim = MAX (bound->units, 0) + MAX (bound->units / 50, search->scale);
}

/* Takes away the legs that no better tour can hold. */
static void
drop_legs (Search *search, const HsTsptwPass *back)
{
  HsTsptwFrame *frame = search->frame;
  guint n = frame->n;
  guint kept = 0;

  for (guint to = 1; to < n; to++)
    for (guint from = 0; from < n; from++)
      if (frame->drive[from * n + to] < HS_TSPTW_FAR)
        {
          if (!hs_set_has (back->used + to * frame->words, from))
            frame->drive[from * n + to] = HS_TSPTW_FAR;
          else
            kept++;
        }
  for (guint from = 1; from < n; from++)
    if (!hs_set_has (back->used, from))
      frame->drive[from * n] = HS_TSPTW_FAR;
  hs_tsptw_frame_tighten (frame);
  if (!frame->possible)
    search->proven = TRUE;
  else
    lay_ways (search);
}

static void
take_path (Search *search, const HsTsptwPass *pass)
{
  guint16 order[HS_TSPTW_MAX_NODES];

  if (pass->last != 0 && hs_tsptw_pass_trace (pass, order, G_N_ELEMENTS (order)) + 1 == search->problem->n_nodes)
    take_tour (search, order);
}

static HsTsptwAsk
make_ask (const Search *search, const HsTsptwTails *tails, gint64 limit, gsize max_labels)
{
  return (HsTsptwAsk){
    .scale = search->scale,
    .prize = search->bound->prize,
    .tails = tails,
    .budget = limit - hs_tsptw_bound_sum (search->bound),
    .max_away = search->answer->found ? search->answer->cost - 1 : HS_TSPTW_FAR,
    .measure_away = search->how->objective == HS_TSPTW_DURATION,
    .max_labels = max_labels,
    .give_up = search->how->give_up,
    .user_data = search->how->user_data,
  };
}

static void
search_narrowly (Search *search, const HsTsptwTails *tails, gint64 limit)
{
  HsTsptwAsk ask = make_ask (search, tails, limit, 0);
  guint16 order[HS_TSPTW_MAX_NODES];

  if (hs_tsptw_beam_run (search->forward, &ask, search->caps->beam, order))
    take_tour (search, order);
}

/* Whether a tour beyond @limit can't be better than the one that was found. The limit is one of driving; where the time
 * away counts, a tour that drives more may still be away for less. */
static gboolean
is_within (const Search *search, gint64 limit)
{
  return search->how->objective != HS_TSPTW_DURATION || search->answer->cost * search->scale <= limit;
}

/* Looks for the best tour within @limit; whether the search went to its end. */
static gboolean
search_exactly (Search *search, const HsTsptwTails *tails, gint64 limit, gsize max_labels)
{
  HsTsptwAsk ask = make_ask (search, tails, limit, max_labels);
  g_autoptr (HsTsptwPass) exact = hs_tsptw_pass_run (search->forward, &ask);

  search->answer->states += exact->n_labels;
  search->cut |= exact->cut;
  take_path (search, exact);
  if (exact->complete)
    search->lower = MAX (search->lower, limit);
  if (exact->complete && (limit >= search->bound->target || (exact->last != 0 && is_within (search, limit))))
    search->proven = TRUE;
  return exact->complete;
}

/* Done: the limit is settled. Open: the exact search had to stop. Too much: there was no room to begin it. */
typedef enum
{
  WITHIN_DONE,
  WITHIN_OPEN,
  WITHIN_TOO_MUCH,
} Within;

/* Both ways at the best prizes, then narrowly, then exactly. */
static Within
search_within (Search *search, gint64 limit, gsize max_labels)
{
  HsTsptwBound *bound = search->bound;
  g_autoptr (HsTsptwPass) back = NULL;
  g_autoptr (HsTsptwTails) tails = NULL;

  hs_tsptw_bound_back_to_best (bound);
  back = hs_tsptw_bound_climb (bound, search->backward, search->forward, limit);
  search->cut |= back->cut;
  if (!back->complete)
    return WITHIN_TOO_MUCH;
  if (back->last == 0)
    {
      search->lower = MAX (search->lower, limit);
      search->proven = limit >= bound->target;
      return WITHIN_DONE;
    }
  tails = hs_tsptw_pass_make_tails (back);
  if (limit >= bound->target && bound->target < HS_TSPTW_FAR)
    drop_legs (search, back);
  g_clear_pointer (&back, hs_tsptw_pass_free);
  if (!search->proven)
    search_narrowly (search, tails, limit);
  if (search->proven || search_exactly (search, tails, limit, max_labels))
    return WITHIN_DONE;
  return WITHIN_OPEN;
}

/* First all that could be better, to see which legs are left, or as much of it as can be searched. Later on also from
 * the bound upward. */
static void
close_gap (Search *search, gsize max_labels)
{
  HsTsptwBound *bound = search->bound;
  gint64 lower = MAX (bound->units, search->lower);
  gint64 step = MAX (search->scale, (bound->target - lower) / 6);
  gint64 limit = bound->target;
  Within end = search_within (search, limit, max_labels);

  while (end == WITHIN_TOO_MUCH && limit < HS_TSPTW_FAR && limit - lower > step && !search->cut)
    {
      limit = lower + (limit - lower) / 2;
      end = search_within (search, limit, max_labels);
    }
  if (search->stage < FIRST_CLIMB || search->scale == 0)
    return;
  for (limit = lower; !search->proven && !search->cut && limit < bound->target; )
    {
      limit = MIN (limit + step, bound->target);
      if (limit < bound->target && search->scale > 1)
        limit -= limit % search->scale;
      if (search_within (search, limit, max_labels) != WITHIN_DONE)
        return;
    }
}

/* Looks for a tour that is home by the time that is asked for, in one direction and led by what is left to do in the
 * other. Where there is none it is proven; returns whether there is one. */
static gboolean
search_home (Search *search, gboolean backward, gsize max_labels)
{
  HsTsptwWay *way = backward ? search->backward : search->forward;
  HsTsptwWay *other = backward ? search->forward : search->backward;
  g_autoptr (HsTsptwPass) rest = NULL;
  g_autoptr (HsTsptwPass) exact = NULL;
  g_autoptr (HsTsptwTails) tails = NULL;
  HsTsptwAsk ask;

  hs_tsptw_bound_back_to_best (search->bound);
  rest = hs_tsptw_bound_climb (search->bound, other, way, 0);
  search->cut |= rest->cut;
  search->proven = rest->complete && rest->last == 0;
  if (search->proven || !rest->complete)
    return FALSE;
  tails = hs_tsptw_pass_make_tails (rest);
  g_clear_pointer (&rest, hs_tsptw_pass_free);
  ask = make_ask (search, tails, 0, max_labels);
  exact = hs_tsptw_pass_run (way, &ask);
  search->answer->states += exact->n_labels;
  search->cut |= exact->cut;
  search->proven = exact->complete && exact->last == 0;
  take_path (search, exact);
  return exact->last != 0;
}

static gboolean
gives_up (Search *search)
{
  if (search->how->give_up != NULL && search->how->give_up (search->how->user_data))
    search->cut = TRUE;
  return search->cut;
}

/* Asks for a tour that is home earlier until there is none. From the end backward first, for it is there that time is
 * short. */
static void
close_home (Search *search)
{
  gsize max_labels = MIN ((gsize) search->caps->first_labels << (2 * MIN (search->stage, 8)), search->caps->labels);
  gboolean backward = TRUE;

  while (!search->proven && !gives_up (search))
    if (search_home (search, backward, max_labels))
      set_target (search);
    else if (backward)
      backward = FALSE;
    else
      return;
}

/* What paths remember in this stage. */
static void
set_memory (Search *search)
{
  static const guint counts[] = { 3, 5, 8 };

  hs_tsptw_bound_deepen (search->bound, search->frame, counts[MIN (search->stage, G_N_ELEMENTS (counts) - 1)]);
}

/* The cheapest path is a tour. For travel it is a best one. */
static void
take_bound_tour (Search *search)
{
  gboolean taken = search->bound->n_order + 1 == search->problem->n_nodes && take_tour (search, search->bound->order);

  if (search->how->objective == HS_TSPTW_TRAVEL)
    search->proven = taken;
}

/* The better the best tour, the less there is to search. */
static void
aim_lower (Search *search)
{
  if (search->how->objective != HS_TSPTW_TRAVEL || !search->answer->found)
    return;
  look_as_long (search);
  set_target (search);
  search->proven = search->bound->units > search->bound->target;
}

/* A search may cost a part of what was spent before it. */
static gsize
allow_labels (const Search *search)
{
  guint64 part = (search->answer->states + search->bound->states) / 6;

  return MIN (MAX (part, search->caps->first_labels), search->caps->labels);
}

/* Raises the bound, then searches what is left below the best tour. The first bound is often enough for a whole search,
 * later ones less often. */
static void
close_drive (Search *search)
{
  gsize max_labels = allow_labels (search);
  HsTsptwBoundEnd end;

  end = hs_tsptw_bound_improve (search->bound, search->forward, search->backward,
                                search->stage == 0 ? FIRST_ROUNDS : LATER_ROUNDS);
  if (end == HS_TSPTW_BOUND_TOUR)
    take_bound_tour (search);
  else if (end == HS_TSPTW_BOUND_PROVEN)
    search->proven = TRUE;
  else if (end == HS_TSPTW_BOUND_CUT)
    search->cut = TRUE;
  if (!search->proven && !search->cut)
    aim_lower (search);
  if (!search->proven && !search->cut)
    close_gap (search, search->stage == 0 ? allow_labels (search) : max_labels);
}

/* Goes through all sets of a few stops. */
static void
close_few (Search *search)
{
  HsTsptwFew few = {
    .budget = search->answer->found ? search->answer->cost - 1 : HS_TSPTW_FAR - 1,
    .max_paths = search->caps->few_paths,
    .give_up = search->how->give_up,
    .user_data = search->how->user_data,
  };

  search->proven = hs_tsptw_few_run (search->forward, &few);
  search->answer->states += few.states;
  if (few.found)
    take_tour (search, few.order);
}

/* After the first stage, what goes beyond it. */
static void
go_beyond (Search *search)
{
  HsTsptwObjective objective = search->how->objective;

  if (objective == HS_TSPTW_DURATION && search->caps->leaves)
    search->proven = hs_tsptw_leave_close (search->problem, search->how, search->answer);
  else if (objective == HS_TSPTW_TRAVEL && search->caps->few_paths > 0
           && search->problem->n_nodes <= HS_TSPTW_FEW_STOPS + 1)
    close_few (search);
}

static void
run_stage (Search *search)
{
  set_memory (search);
  set_target (search);
  if (search->proven)
    return;
  if (search->how->objective == HS_TSPTW_MAKESPAN && search->answer->found)
    close_home (search);
  else
    close_drive (search);
  if (!search->proven && !search->cut)
    look_around (search, search->caps->later_kicks, search->caps->later_quick_kicks);
  search->bound->enough_labels = MIN (search->bound->enough_labels * 5 / 4, search->caps->labels / 6);
  search->stage++;
}

/* Costs are scaled for the prizes, and sums of them have to stay exact. */
static gint64
find_scale (const HsTsptwFrame *frame)
{
  gint64 most = 1;
  gint64 scale = 1024;

  for (guint i = 0; i < frame->n * frame->n; i++)
    if (frame->drive[i] < HS_TSPTW_FAR)
      most = MAX (most, frame->drive[i]);
  while (scale > 1 && most > G_MAXINT64 / 64 / HS_TSPTW_MAX_NODES / scale)
    scale /= 2;
  return scale;
}

/* For every stop the shortest way there and home. */
static gint64
find_least (const Search *search)
{
  const HsTsptwFrame *frame = search->frame;
  gboolean makespan = search->how->objective == HS_TSPTW_MAKESPAN;
  gint64 least = makespan ? frame->from[0] : 0;

  for (guint i = 1; i < frame->n; i++)
    least = MAX (least, (makespan ? frame->from[i] : frame->near[i]) + frame->near[i * frame->n]);
  return least;
}

static void
finish (Search *search)
{
  HsTsptwAnswer *answer = search->answer;
  gint64 units = search->bound == NULL ? 0 : MAX (search->bound->units, search->lower);

  if (search->bound != NULL)
    answer->states += search->bound->states;
  if (search->proven)
    {
      answer->status = answer->found ? HS_PLAN_OPTIMAL : HS_PLAN_IMPOSSIBLE;
      answer->bound = answer->found ? answer->cost : 0;
      return;
    }
  answer->status = HS_PLAN_BEST_FOUND;
  answer->bound = search->least;
  if (units > 0 && search->scale > 0)
    answer->bound = MAX (search->least, (units + search->scale - 1) / search->scale);
}

/* Each stop is first worth half of the legs to and from it in the best tour. */
static void
set_first_prizes (Search *search)
{
  const guint16 *order = search->answer->order;
  guint stops = search->problem->n_nodes - 1;

  for (guint i = 0; i < stops && search->answer->found; i++)
    {
      gint64 in = hs_tsptw_get_drive (search->problem, i == 0 ? 0 : order[i - 1], order[i]);
      gint64 out = hs_tsptw_get_drive (search->problem, order[i], i + 1 == stops ? 0 : order[i + 1]);

      search->bound->best_prize[order[i]] = (in + out) * search->scale / 2;
    }
}

static gboolean
is_done (Search *search)
{
  if (search->answer->found && search->answer->cost <= search->least)
    search->proven = TRUE;
  return search->proven || search->cut;
}

static void
clear (Search *search)
{
  hs_tsptw_frame_free (search->frame);
  hs_tsptw_way_free (search->forward);
  hs_tsptw_way_free (search->backward);
  hs_tsptw_local_free (search->local);
  hs_tsptw_quick_free (search->quick);
  hs_tsptw_bound_free (search->bound);
}

gboolean
hs_tsptw_solve_capped (const HsTsptw *problem, const HsTsptwHow *how, const HsTsptwCaps *caps,
                       HsTsptwAnswer *ret_answer, GError **error)
{
  HsTsptwAnswer answer = { .status = HS_PLAN_BEST_FOUND };
  Search search = { .problem = problem, .how = how, .caps = caps, .answer = &answer };

  if (!hs_tsptw_check (problem, error))
    return FALSE;
  search.frame = hs_tsptw_frame_new (problem, problem->to[0], how->objective == HS_TSPTW_DURATION);
  search.scale = how->objective == HS_TSPTW_MAKESPAN ? 0 : find_scale (search.frame);
  search.proven = !search.frame->possible;
  if (!search.proven)
    {
      search.local = hs_tsptw_local_new (problem, search.frame, how);
      search.least = find_least (&search);
      if (problem->n_nodes == 1)
        search.proven = take_tour (&search, answer.order);
      search.quick = hs_tsptw_quick_new (problem, search.frame, how);
      look_around (&search, caps->first_kicks, caps->first_quick_kicks);
      lay_ways (&search);
      search.bound = hs_tsptw_bound_new (search.frame, search.scale);
      set_first_prizes (&search);
      search.bound->max_labels = caps->bound_labels;
      search.bound->enough_labels = caps->enough_labels;
      search.bound->give_up = how->give_up;
      search.bound->user_data = how->user_data;
    }
  while (!is_done (&search) && search.stage < MOST_STAGES)
    {
      run_stage (&search);
      if (search.stage == 1 && !is_done (&search))
        go_beyond (&search);
    }
  finish (&search);
  clear (&search);
  *ret_answer = answer;
  return TRUE;
}

gboolean
hs_tsptw_solve (const HsTsptw *problem, const HsTsptwHow *how, HsTsptwAnswer *ret_answer, GError **error)
{
  return hs_tsptw_solve_capped (problem, how, &hs_tsptw_caps_usual, ret_answer, error);
}
