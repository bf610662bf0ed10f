// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What looks over the answers must see each thing that can be wrong with one: an answer that is right is spoiled in one
 * place at a time. */

#include "answer-check.h"

#include "plan-text-day.h"

/* Van a: C, A (the belt bought), break, B (the pump on board); van b: D, late. E can't be served. */
#define DAY "minutes 0 10 20 / 10 0 10 / 20 10 0; miles 0 5 9 / 6 0 4 / 8 3 0; cost 160 42; " \
            "van a 0 0 08:00-17:00 carries pump break 30 11:30-13:30; van b 2 2 08:00-12:00 skills gas; " \
            "call A 1 120 09:00-10:00 needs belt van a; call B 2 60 12:30-13:30 needs pump van a; " \
            "call D 2 30 07:00-07:50 skills gas; call E 1 10 needs tire; " \
            "counter C 1 10 08:00-12:00 sells belt=500; counter F 2 10 13:00-14:00 sells belt=400"

static HsRoute *
route (HsSolution *solution, guint index)
{
  return solution->routes->pdata[index];
}

static HsRouteStop *
stop (HsSolution *solution, guint index, guint position)
{
  return &g_array_index (route (solution, index)->stops, HsRouteStop, position);
}

static void
move_stop (HsSolution *solution, guint index, guint position, gint32 seconds)
{
  stop (solution, index, position)->start_seconds += seconds;
  stop (solution, index, position)->depart_seconds += seconds;
}

static void
add_trouble (GPtrArray *list, guint call, gint32 late)
{
  HsTrouble *trouble = g_new0 (HsTrouble, 1);

  trouble->call = call;
  trouble->late_seconds = late;
  trouble->conflicts = g_array_new (FALSE, FALSE, sizeof (guint));
  trouble->mends = g_ptr_array_new ();
  g_ptr_array_add (list, trouble);
}

static void
leave_early (HsProblem *problem, HsSolution *solution)
{
  ((HsVan *) problem->vans->pdata[0])->leave_from_seconds = route (solution, 0)->leave_seconds + 1;
}

static void
leave_late (HsProblem *problem, HsSolution *solution)
{
  ((HsVan *) problem->vans->pdata[0])->leave_to_seconds = route (solution, 0)->leave_seconds - 1;
}

static void
home_late (HsProblem *problem, HsSolution *solution)
{
  ((HsVan *) problem->vans->pdata[0])->home_by_seconds = route (solution, 0)->home_seconds - 1;
}

static void
leg_longer (HsProblem *problem, HsSolution *solution)
{
  hs_problem_set_leg (problem, 0, 1, 660, 5000);
}

static void
way_back_longer (HsProblem *problem, HsSolution *solution)
{
  hs_problem_set_leg (problem, 2, 0, 1260, 8000);
}

static void
more_miles (HsProblem *problem, HsSolution *solution)
{
  hs_problem_set_leg (problem, 0, 1, 600, 5001);
}

static void
more_work (HsProblem *problem, HsSolution *solution)
{
  ((HsCall *) problem->calls->pdata[0])->service_seconds += 60;
}

static void
longer_counter (HsProblem *problem, HsSolution *solution)
{
  ((HsCounter *) problem->counters->pdata[0])->service_seconds += 60;
}

static void
counter_shut (HsProblem *problem, HsSolution *solution)
{
  g_array_set_size (((HsCounter *) problem->counters->pdata[0])->hours, 0);
}

static void
longer_break (HsProblem *problem, HsSolution *solution)
{
  ((HsVan *) problem->vans->pdata[0])->break_seconds += 60;
}

static void
break_outside (HsProblem *problem, HsSolution *solution)
{
  ((HsVan *) problem->vans->pdata[0])->break_span.from_seconds = stop (solution, 0, 2)->start_seconds + 1;
}

static void
break_not_had (HsProblem *problem, HsSolution *solution)
{
  HsVan *van = problem->vans->pdata[1];

  van->break_seconds = 600;
  van->break_span = (HsDaySpan){ 8 * 3600, 8 * 3600 + 600 };
}

static void
other_van (HsProblem *problem, HsSolution *solution)
{
  ((HsCall *) problem->calls->pdata[0])->van = 1;
}

static void
no_skill (HsProblem *problem, HsSolution *solution)
{
  g_ptr_array_set_size (((HsVan *) problem->vans->pdata[1])->skills, 0);
}

static void
window_moved (HsProblem *problem, HsSolution *solution)
{
  g_array_index (((HsCall *) problem->calls->pdata[1])->windows, HsDaySpan, 0).to_seconds += 60;
}

static void
window_before (HsProblem *problem, HsSolution *solution)
{
  g_array_index (((HsCall *) problem->calls->pdata[1])->windows, HsDaySpan, 0) = (HsDaySpan){ 0, 60 };
}

static void
not_late (HsProblem *problem, HsSolution *solution)
{
  add_trouble (solution->broken, 0, 60);
}

static void
late_untold (HsProblem *problem, HsSolution *solution)
{
  g_ptr_array_set_size (solution->broken, 0);
}

static void
late_by_more (HsProblem *problem, HsSolution *solution)
{
  ((HsTrouble *) solution->broken->pdata[0])->late_seconds--;
}

static void
starts_before_it_arrives (HsProblem *problem, HsSolution *solution)
{
  stop (solution, 1, 0)->start_seconds--;
}

static void
late_and_waiting (HsProblem *problem, HsSolution *solution)
{
  move_stop (solution, 1, 0, 60);
  stop (solution, 1, 0)->slack_seconds -= 60;
  ((HsTrouble *) solution->broken->pdata[0])->late_seconds += 60;
}

static void
arrives_early (HsProblem *problem, HsSolution *solution)
{
  stop (solution, 0, 1)->arrive_seconds--;
}

static void
counter_slack (HsProblem *problem, HsSolution *solution)
{
  stop (solution, 0, 0)->slack_seconds += 24 * 3600;
}

static void
served_twice (HsProblem *problem, HsSolution *solution)
{
  HsCall *call = problem->calls->pdata[1];

  g_array_set_size (call->windows, 0);
  stop (solution, 0, 3)->index = 0;
}

static void
left_out_untold (HsProblem *problem, HsSolution *solution)
{
  g_ptr_array_set_size (solution->unserved, 0);
}

static void
served_and_left_out (HsProblem *problem, HsSolution *solution)
{
  add_trouble (solution->unserved, 0, 0);
}

static void
left_out_and_late (HsProblem *problem, HsSolution *solution)
{
  add_trouble (solution->broken, 3, 60);
}

static void
bought_too_dear (HsProblem *problem, HsSolution *solution)
{
  g_array_index (solution->bought, HsBought, 0).cents++;
}

static void
bought_elsewhere (HsProblem *problem, HsSolution *solution)
{
  g_array_index (solution->bought, HsBought, 0).counter = 1;
}

static void
bought_by_the_other (HsProblem *problem, HsSolution *solution)
{
  g_array_index (solution->bought, HsBought, 0).van = 1;
}

static void
bought_twice (HsProblem *problem, HsSolution *solution)
{
  HsBought bought = g_array_index (solution->bought, HsBought, 0);

  g_array_append_val (solution->bought, bought);
}

static void
bought_for_nobody (HsProblem *problem, HsSolution *solution)
{
  HsBought bought = g_array_index (solution->bought, HsBought, 0);

  bought.call = 3;
  g_array_append_val (solution->bought, bought);
}

static void
not_bought (HsProblem *problem, HsSolution *solution)
{
  g_array_set_size (solution->bought, 0);
}

static void
not_on_board (HsProblem *problem, HsSolution *solution)
{
  g_array_set_size (((HsVan *) problem->vans->pdata[0])->carries, 0);
}

static void
never_sold (HsProblem *problem, HsSolution *solution)
{
  g_array_set_size (((HsCounter *) problem->counters->pdata[0])->cents, 0);
}

static void
home_told_early (HsProblem *problem, HsSolution *solution)
{
  route (solution, 0)->home_seconds--;
}

static void
waits_less (HsProblem *problem, HsSolution *solution)
{
  route (solution, 0)->wait_seconds--;
}

static void
drives_less (HsProblem *problem, HsSolution *solution)
{
  route (solution, 0)->drive_seconds--;
}

static void
dearer_minutes (HsProblem *problem, HsSolution *solution)
{
  problem->minute_cents++;
}

static void
cents_off (HsProblem *problem, HsSolution *solution)
{
  solution->cost_cents++;
}

static void
bound_above (HsProblem *problem, HsSolution *solution)
{
  solution->bound_cents++;
}

static void
bound_below (HsProblem *problem, HsSolution *solution)
{
  solution->bound_cents--;
}

static void
more_spare (HsProblem *problem, HsSolution *solution)
{
  solution->spare_seconds++;
}

static void
called_optimal (HsProblem *problem, HsSolution *solution)
{
  solution->status = HS_PLAN_OPTIMAL;
}

static void
empty_route (HsProblem *problem, HsSolution *solution)
{
  g_array_set_size (route (solution, 1)->stops, 0);
}

static void
same_van (HsProblem *problem, HsSolution *solution)
{
  route (solution, 1)->van = 0;
}

/* @fault: how the answer's fault begins */
static const struct
{
  void (*spoil) (HsProblem *problem, HsSolution *solution);
  const char *fault;
} spoils[] = {
  { leave_early, "broken: route->leave_seconds >= van" },
  { leave_late, "broken: route->leave_seconds <= van" },
  { home_late, "broken: route->home_seconds <= van" },
  { leg_longer, "broken: stop->arrive_seconds == walk->time" },
  { way_back_longer, "broken: route->home_seconds == walk->time" },
  { more_miles, "broken: route->drive_millimiles == " },
  { more_work, "broken: stop->depart_seconds == stop->start_seconds + call" },
  { longer_counter, "broken: stop->depart_seconds == stop->start_seconds + counter" },
  { counter_shut, "broken: is_inside (counter->hours, stop->start_seconds, " },
  { longer_break, "broken: stop->depart_seconds == stop->start_seconds + walk->van->break" },
  { break_outside, "broken: stop->start_seconds >= walk->van->break_span" },
  { break_not_had, "broken: van->break_seconds == 0 || " },
  { other_van, "broken: may_go" },
  { no_skill, "broken: may_go" },
  { window_moved, "broken: stop->slack_seconds == room" },
  { window_before, "broken: stop->slack_seconds == room" },
  { not_late, "broken: (room < 0) == (trouble != NULL)" },
  { late_untold, "broken: (room < 0) == (trouble != NULL)" },
  { late_by_more, "broken: trouble == NULL || trouble->late_seconds" },
  { starts_before_it_arrives, "broken: stop->start_seconds >= stop->arrive_seconds" },
  { late_and_waiting, "broken: room >= 0 || stop->start_seconds == stop->arrive_seconds" },
  { arrives_early, "broken: stop->arrive_seconds == walk->time" },
  { counter_slack, "broken: is_inside (counter->hours, stop->start_seconds + stop->slack" },
  { left_out_untold, "broken: (served == 0) == " },
  { served_and_left_out, "broken: (served == 0) == " },
  { left_out_and_late, "broken: served == 1 || " },
  { served_twice, "broken: stop->" },
  { bought_too_dear, "broken: bought->cents" },
  { bought_elsewhere, "broken: (walk->seen >> bought->counter & 1) != 0" },
  { bought_by_the_other, "broken: bought->van == " },
  { bought_twice, "broken: --wanted" },
  { bought_for_nobody, "broken: g_array_index (check->times_served, " },
  { not_bought, "broken: g_array_index (walk->units_used" },
  { not_on_board, "broken: g_array_index (walk->units_used" },
  { never_sold, "broken: bought->cents" },
  { home_told_early, "broken: route->home_seconds == walk->time" },
  { waits_less, "broken: route->wait_seconds == walk->wait" },
  { drives_less, "broken: route->drive_seconds == walk->drive" },
  { dearer_minutes, "broken: solution->cost_units == check->units" },
  { cents_off, "broken: solution->cost_cents == " },
  { bound_above, "broken: solution->bound_cents <= " },
  { bound_below, "broken: !solution->proven || " },
  { more_spare, "broken: solution->spare_seconds == check->spare" },
  { called_optimal, "broken: solution->status != HS_PLAN_OPTIMAL" },
  { empty_route, "broken: route->stops->len > 0" },
  { same_van, "a van has two routes" },
};

static void
test_spoiled (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (spoils); i++)
    {
      g_autoptr (HsProblem) problem = text_day (DAY);
      g_autoptr (HsSolution) solution = text_solve (problem, FALSE);
      g_autofree char *fault = NULL;

      spoils[i].spoil (problem, solution);
      fault = answer_fault (problem, solution);
      if (fault == NULL || !g_str_has_prefix (fault, spoils[i].fault))
        g_test_message ("row %u: %s", i, fault);
      g_assert_nonnull (fault);
      g_assert_true (g_str_has_prefix (fault, spoils[i].fault));
    }
}

/* The answer that is spoiled above is the one that is meant. */
static void
test_right (void)
{
  g_autoptr (HsProblem) problem = text_day (DAY);
  g_autoptr (HsSolution) solution = text_solve (problem, FALSE);
  g_autofree char *routes = text_routes (problem, solution);
  g_autofree char *broken = text_troubles (problem, solution->broken);
  g_autofree char *unserved = text_troubles (problem, solution->unserved);

  g_assert_cmpstr (routes, ==, "a 09:30 C@09:40 A@09:50 break@11:50 B@12:30 =13:50 | b 08:00 D@08:00 =08:30");
  g_assert_cmpstr (broken, ==, "D 10");
  g_assert_cmpstr (unserved, ==, "E 0");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/answer-check/right", test_right);
  g_test_add_func ("/plan/answer-check/spoiled", test_spoiled);
  return g_test_run ();
}
