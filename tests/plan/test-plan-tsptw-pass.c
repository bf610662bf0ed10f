// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One search through a way, forward and backward: exact where paths remember all, a bound where they do not, and its
 * ends and legs never shut out a tour. All is compared with trying every order. */

#include "hs-tsptw-pass.h"

#include "tsptw-orders.h"

/* A problem with what every order says about it. */
typedef struct
{
  HsTsptw *problem;
  HsTsptwFrame *frame;
  HsTsptwWay *forward;
  HsTsptwWay *backward;
  gint64 prize[HS_TSPTW_MAX_NODES];
  gint64 prizes;
  gint64 least[3];
  guint tours;
} Trial;

static void
take_least (const TsptwTour *tour, gpointer data)
{
  Trial *trial = data;

  for (guint i = 0; i < 3; i++)
    trial->least[i] = MIN (trial->least[i], tsptw_orders_cost (tour, (HsTsptwObjective) i));
}

/* One that no frame proves impossible, since such a frame is not searched. */
static void
make_possible (Trial *trial, GRand *rand, const TsptwShape *shape, gboolean leave_freely)
{
  do
    {
      g_clear_pointer (&trial->frame, hs_tsptw_frame_free);
      g_clear_pointer (&trial->problem, hs_tsptw_free);
      trial->problem = tsptw_orders_random (rand, shape);
      trial->frame = hs_tsptw_frame_new (trial->problem, trial->problem->to[0], leave_freely);
    }
  while (!trial->frame->possible);
}

static void
trial_start (Trial *trial, GRand *rand, const TsptwShape *shape, gboolean leave_freely, gint32 highest_prize)
{
  make_possible (trial, rand, shape, leave_freely);
  trial->forward = hs_tsptw_way_new (trial->frame, FALSE);
  trial->backward = hs_tsptw_way_new (trial->frame, TRUE);
  trial->prize[0] = trial->prizes = 0;
  for (guint i = 1; i < trial->problem->n_nodes; i++)
    {
      trial->prize[i] = highest_prize == 0 ? 0 : g_rand_int_range (rand, -highest_prize / 4, highest_prize + 1);
      trial->prizes += trial->prize[i];
    }
  for (guint i = 0; i < 3; i++)
    trial->least[i] = G_MAXINT64;
  trial->tours = tsptw_orders_each (trial->problem, leave_freely, take_least, trial);
}

static void
trial_end (Trial *trial)
{
  hs_tsptw_way_free (trial->forward);
  hs_tsptw_way_free (trial->backward);
  hs_tsptw_frame_free (trial->frame);
  hs_tsptw_free (trial->problem);
}

static HsTsptwAsk
ask_of (const Trial *trial)
{
  HsTsptwAsk ask = { 0 };

  ask.scale = 1;
  ask.prize = trial->prize;
  ask.budget = HS_TSPTW_FAR;
  ask.max_away = HS_TSPTW_FAR;
  ask.max_labels = 1000000;
  return ask;
}

/* What the found path costs when driven, by the judge that shares nothing with the search. */
static gint64
drive_found (const Trial *trial, const HsTsptwPass *pass, HsTsptwObjective objective)
{
  guint16 order[HS_TSPTW_MAX_NODES];

  g_assert_cmpint (hs_tsptw_pass_trace (pass, order, HS_TSPTW_MAX_NODES), ==, trial->problem->n_nodes - 1);
  return tsptw_trial_drive (trial->problem, objective, order);
}

/* Random sets of what is remembered where, each node itself always. */
static guint64 *
make_memory (const Trial *trial, GRand *rand, gint32 percent)
{
  guint words = trial->frame->words;
  guint64 *memory = g_new0 (guint64, trial->frame->n * words);

  for (guint node = 1; node < trial->frame->n; node++)
    for (guint other = 1; other < trial->frame->n; other++)
      if (node == other || g_rand_int_range (rand, 0, 100) < percent)
        hs_set_add (memory + node * words, other);
  return memory;
}

static void
check_exact (Trial *trial, HsTsptwWay *way)
{
  HsTsptwAsk ask = ask_of (trial);
  g_autoptr (HsTsptwPass) pass = hs_tsptw_pass_run (way, &ask);

  g_assert_true (pass->complete);
  g_assert_false (pass->cut);
  g_assert_cmpint (pass->last != 0, ==, trial->tours > 0);
  if (trial->tours == 0)
    return;
  g_assert_cmpint (pass->cost, ==, trial->least[HS_TSPTW_TRAVEL] - trial->prizes);
  g_assert_cmpint (drive_found (trial, pass, HS_TSPTW_TRAVEL), ==, trial->least[HS_TSPTW_TRAVEL]);
}

static void
check_budget (Trial *trial, HsTsptwWay *way)
{
  HsTsptwAsk ask = ask_of (trial);
  g_autoptr (HsTsptwPass) enough = NULL;
  g_autoptr (HsTsptwPass) too_little = NULL;

  if (trial->tours == 0)
    return;
  ask.budget = trial->least[HS_TSPTW_TRAVEL] - trial->prizes;
  enough = hs_tsptw_pass_run (way, &ask);
  g_assert_cmpint (enough->last, !=, 0);
  g_assert_cmpint (enough->cost, ==, ask.budget);
  ask.budget--;
  too_little = hs_tsptw_pass_run (way, &ask);
  g_assert_true (too_little->complete);
  g_assert_cmpint (too_little->last, ==, 0);
}

/* Where driving is free the first to be home is found. */
static void
check_earliest (Trial *trial)
{
  HsTsptwAsk ask = ask_of (trial);
  static const gint64 nothing[HS_TSPTW_MAX_NODES];
  g_autoptr (HsTsptwPass) pass = NULL;

  ask.scale = 0;
  ask.prize = nothing;
  pass = hs_tsptw_pass_run (trial->forward, &ask);
  g_assert_cmpint (pass->last != 0, ==, trial->tours > 0);
  if (trial->tours == 0)
    return;
  g_assert_cmpint (pass->home_time, ==, trial->least[HS_TSPTW_MAKESPAN]);
  g_assert_cmpint (pass->cost, ==, 0);
  g_assert_cmpint (drive_found (trial, pass, HS_TSPTW_MAKESPAN), ==, trial->least[HS_TSPTW_MAKESPAN]);
}

/* What is remembered in part bounds from below, the more the closer. */
static void
check_memory (Trial *trial, GRand *rand, HsTsptwWay *way)
{
  gint64 last = G_MININT64;
  g_autofree guint64 *memory = make_memory (trial, rand, 0);
  guint words = trial->frame->words;

  for (guint step = 0; step < 4; step++)
    {
      HsTsptwAsk ask = ask_of (trial);
      g_autoptr (HsTsptwPass) pass = NULL;

      ask.memory = memory;
      pass = hs_tsptw_pass_run (way, &ask);
      g_assert_true (pass->complete);
      if (trial->tours > 0)
        {
          g_assert_cmpint (pass->last, !=, 0);
          g_assert_cmpint (pass->cost, <=, trial->least[HS_TSPTW_TRAVEL] - trial->prizes);
        }
      if (pass->last != 0)
        {
          g_assert_cmpint (pass->cost, >=, last);
          last = pass->cost;
        }
      for (guint node = 1; node < trial->frame->n; node++)
        hs_set_add (memory + node * words, (guint) g_rand_int_range (rand, 1, (gint32) trial->frame->n));
    }
}

static void
test_travel (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (71);
  guint with_tours = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      Trial trial = { 0 };

      trial_start (&trial, rand, shape, FALSE, i % 2 == 0 ? 0 : shape->side);
      check_exact (&trial, trial.forward);
      check_exact (&trial, trial.backward);
      check_budget (&trial, trial.forward);
      check_budget (&trial, trial.backward);
      check_earliest (&trial);
      check_memory (&trial, rand, trial.forward);
      check_memory (&trial, rand, trial.backward);
      with_tours += trial.tours > 0;
      trial_end (&trial);
    }
  g_assert_cmpint (with_tours, >, shape->problems / 4);
}

static void
test_away (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (72);

  for (guint i = 0; i < shape->problems; i++)
    {
      Trial trial = { 0 };
      HsTsptwAsk ask;
      g_autoptr (HsTsptwPass) pass = NULL;
      g_autoptr (HsTsptwPass) shorter = NULL;

      trial_start (&trial, rand, shape, TRUE, 0);
      ask = ask_of (&trial);
      ask.measure_away = TRUE;
      pass = hs_tsptw_pass_run (trial.forward, &ask);
      g_assert_cmpint (pass->last != 0, ==, trial.tours > 0);
      if (trial.tours > 0)
        {
          g_assert_cmpint (pass->cost, ==, trial.least[HS_TSPTW_DURATION]);
          g_assert_cmpint (drive_found (&trial, pass, HS_TSPTW_DURATION), ==, trial.least[HS_TSPTW_DURATION]);
          ask.max_away = pass->cost - 1;
          shorter = hs_tsptw_pass_run (trial.forward, &ask);
          g_assert_cmpint (shorter->complete && (shorter->last == 0 || shorter->cost > ask.max_away), ==, TRUE);
        }
      trial_end (&trial);
    }
}

/* Tails and the legs that are used, against one tour. */
typedef struct
{
  const Trial *trial;
  const HsTsptwTails *tails;
  const HsTsptwPass *back;
  gint64 budget;
  guint within;
} Through;

static void
check_tails (const TsptwTour *tour, gpointer data)
{
  Through *through = data;
  gint64 later = 0;

  for (guint i = tour->n - 1; i >= 1; i--)
    {
      guint node = tour->stops[i];
      gint64 rest = tour->driven[tour->n] - tour->driven[i] - later;
      guint32 tail;

      g_assert_true (hs_tsptw_tails_reach (through->tails, node, tour->start[i], rest, &tail));
      g_assert_cmpint (through->tails->tails[tail].latest, >=, tour->start[i]);
      g_assert_cmpint (through->tails->tails[tail].cost, <=, rest - through->trial->prize[node]);
      g_assert_false (hs_tsptw_tails_reach (through->tails, node, through->trial->problem->to[0] + 1, rest, &tail));
      g_assert_false (hs_tsptw_tails_reach (through->tails, node, tour->start[i], -HS_TSPTW_FAR, &tail));
      later += through->trial->prize[node];
    }
}

static void
check_used (const TsptwTour *tour, gpointer data)
{
  Through *through = data;
  guint words = through->trial->frame->words;

  if (tour->driven[tour->n] - through->trial->prizes > through->budget)
    return;
  through->within++;
  for (guint i = 0; i < tour->n; i++)
    g_assert_true (hs_set_has (through->back->used + tour->stops[i + 1] * words, tour->stops[i]));
}

/* First one way with little remembered, then the other with more and cut by what the first one knows, then exactly. */
static void
test_both_ways (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (73);
  guint within = 0;

  for (guint i = 0; i < shape->problems; i++)
    {
      Trial trial = { 0 };
      HsTsptwAsk ask;
      g_autofree guint64 *few = NULL;
      g_autofree guint64 *more = NULL;
      g_autoptr (HsTsptwPass) first = NULL;
      g_autoptr (HsTsptwPass) back = NULL;
      g_autoptr (HsTsptwPass) exact = NULL;
      g_autoptr (HsTsptwTails) first_tails = NULL;
      g_autoptr (HsTsptwTails) back_tails = NULL;

      trial_start (&trial, rand, shape, FALSE, shape->side);
      few = make_memory (&trial, rand, 20);
      more = make_memory (&trial, rand, 60);
      ask = ask_of (&trial);
      ask.memory = few;
      first = hs_tsptw_pass_run (trial.forward, &ask);
      first_tails = hs_tsptw_pass_make_tails (first);
      ask.memory = more;
      ask.tails = first_tails;
      if (trial.tours > 0)
        ask.budget = trial.least[HS_TSPTW_TRAVEL] - trial.prizes + (gint64) (i % 5);
      back = hs_tsptw_pass_run (trial.backward, &ask);
      if (trial.tours > 0)
        {
          Through through = { &trial, NULL, back, ask.budget, 0 };

          tsptw_orders_each (trial.problem, FALSE, check_used, &through);
          g_assert_cmpint (through.within, >, 0);
          within += through.within;
          back_tails = hs_tsptw_pass_make_tails (back);
          ask.memory = NULL;
          ask.tails = back_tails;
          exact = hs_tsptw_pass_run (trial.forward, &ask);
          g_assert_cmpint (exact->cost, ==, trial.least[HS_TSPTW_TRAVEL] - trial.prizes);
          g_assert_cmpint (drive_found (&trial, exact, HS_TSPTW_TRAVEL), ==, trial.least[HS_TSPTW_TRAVEL]);
        }
      trial_end (&trial);
    }
  g_assert_cmpint (within, >, shape->problems / 4);
}

/* Each tour's ends are known from the search the other way, whatever is remembered. */
static void
test_tails (gconstpointer data)
{
  const TsptwShape *shape = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (74);

  for (guint i = 0; i < shape->problems; i++)
    {
      Trial trial = { 0 };
      HsTsptwAsk ask;
      g_autofree guint64 *memory = NULL;
      g_autoptr (HsTsptwPass) pass = NULL;
      g_autoptr (HsTsptwTails) tails = NULL;
      Through through = { &trial, NULL, NULL, 0, 0 };

      trial_start (&trial, rand, shape, FALSE, i % 3 == 0 ? 0 : shape->side);
      memory = make_memory (&trial, rand, 40);
      ask = ask_of (&trial);
      ask.memory = i % 2 == 0 ? NULL : memory;
      pass = hs_tsptw_pass_run (trial.backward, &ask);
      through.tails = tails = hs_tsptw_pass_make_tails (pass);
      tsptw_orders_each (trial.problem, FALSE, check_tails, &through);
      trial_end (&trial);
    }
}

static gboolean
count_questions (gpointer data)
{
  guint *left = data;

  if (*left == 0)
    return TRUE;
  (*left)--;
  return FALSE;
}

/* A search that is full or told to stop says so, and says which of the two. */
static void
test_ends (void)
{
  static const TsptwShape shape = { "big", 40, 30, 600, 1, FALSE, FALSE, FALSE, 0, 0 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (75);
  g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, &shape);
  g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
  g_autoptr (HsTsptwWay) way = hs_tsptw_way_new (frame, FALSE);
  static const gint64 prize[HS_TSPTW_MAX_NODES];
  HsTsptwAsk ask = { .scale = 1, .prize = prize, .budget = HS_TSPTW_FAR, .max_away = HS_TSPTW_FAR };

  for (guint labels = 1; labels <= 10000; labels *= 10)
    {
      g_autoptr (HsTsptwPass) pass = NULL;

      ask.max_labels = labels;
      pass = hs_tsptw_pass_run (way, &ask);
      g_assert_false (pass->complete);
      g_assert_false (pass->cut);
      g_assert_cmpint (pass->n_labels, >=, labels);
      g_assert_cmpint (pass->n_labels, <=, labels + problem->n_nodes + 1);
    }
  for (guint questions = 0; questions < 5; questions++)
    {
      g_autoptr (HsTsptwPass) pass = NULL;
      guint left = questions;

      ask.max_labels = 1000000;
      ask.give_up = count_questions;
      ask.user_data = &left;
      pass = hs_tsptw_pass_run (way, &ask);
      g_assert_false (pass->complete);
      g_assert_true (pass->cut);
      g_assert_cmpint (left, ==, 0);
    }
}

/* What is proven impossible is not gone through: its times may lie outside the day. */
static void
test_impossible (void)
{
  static const TsptwShape shape = { "late", 6, 20, 30, 400, TRUE, TRUE, TRUE, 10, 1 };
  static const gint64 prize[HS_TSPTW_MAX_NODES];
  g_autoptr (GRand) rand = g_rand_new_with_seed (76);
  HsTsptwAsk ask = { .scale = 1, .prize = prize, .budget = HS_TSPTW_FAR, .max_away = HS_TSPTW_FAR,
                     .max_labels = 100000 };
  guint impossible = 0;

  for (guint i = 0; i < shape.problems; i++)
    {
      g_autoptr (HsTsptw) problem = tsptw_orders_random (rand, &shape);
      g_autoptr (HsTsptwFrame) frame = hs_tsptw_frame_new (problem, problem->to[0] * (gint64) (i % 4 + 1) / 4, FALSE);

      for (guint backward = 0; backward < 2 && !frame->possible; backward++)
        {
          g_autoptr (HsTsptwWay) way = hs_tsptw_way_new (frame, backward == 1);
          g_autoptr (HsTsptwPass) pass = hs_tsptw_pass_run (way, &ask);
          g_autoptr (HsTsptwTails) tails = hs_tsptw_pass_make_tails (pass);

          g_assert_true (pass->complete);
          g_assert_cmpint (pass->last, ==, 0);
          g_assert_cmpint (pass->n_labels, ==, 2);
          g_assert_cmpint (tails->first[problem->n_nodes], ==, 1);
          impossible++;
        }
    }
  g_assert_cmpint (impossible, >, shape.problems / 10);
}

/* Stops that can only be had in turn: an exact search finds the one tour, however many there are. */
static void
test_many (void)
{
  static const guint sizes[] = { 2, 255, 256, 257, 258, 511, HS_TSPTW_MAX_NODES };
  static const gint64 prize[HS_TSPTW_MAX_NODES];
  HsTsptwAsk ask = { .scale = 1, .prize = prize, .budget = HS_TSPTW_FAR, .max_away = HS_TSPTW_FAR,
                     .max_labels = 100000 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint backward = 0; backward < 2; backward++)
      {
        guint n = sizes[i];
        g_autoptr (HsTsptw) problem = hs_tsptw_new (n);
        g_autoptr (HsTsptwFrame) frame = NULL;
        g_autoptr (HsTsptwWay) way = NULL;
        g_autoptr (HsTsptwPass) pass = NULL;
        guint16 order[HS_TSPTW_MAX_NODES];

        for (guint cell = 0; cell < n * n; cell++)
          problem->drive[cell] = 3;
        for (guint node = 1; node < n; node++)
          problem->from[node] = problem->to[node] = 10 * node;
        problem->to[0] = 10 * n;
        frame = hs_tsptw_frame_new (problem, problem->to[0], FALSE);
        way = hs_tsptw_way_new (frame, backward == 1);
        pass = hs_tsptw_pass_run (way, &ask);
        g_assert_true (pass->complete);
        g_assert_cmpint (pass->last, !=, 0);
        g_assert_cmpint (pass->cost, ==, 3 * n);
        g_assert_cmpuint (hs_tsptw_pass_trace (pass, order, HS_TSPTW_MAX_NODES), ==, n - 1);
        for (guint node = 1; node < n; node++)
          g_assert_cmpint (order[node - 1], ==, node);
      }
}

int
main (int argc, char **argv)
{
  static const TsptwShape shapes[] = {
    { "narrow", 6, 20, 40, 40, FALSE, FALSE, FALSE, 0, 0 },
    { "asymmetric", 5, 20, 80, 40, FALSE, TRUE, FALSE, 0, 0 },
    { "no-triangle", 5, 20, 60, 60, TRUE, TRUE, TRUE, 0, 0 },
    { "missing-legs", 5, 12, 60, 60, FALSE, TRUE, TRUE, 15, 0 },
    { "orders", 5, 15, 70, 40, FALSE, TRUE, FALSE, 0, 2 },
    { "short-legs", 6, 2, 14, 40, FALSE, TRUE, TRUE, 0, 0 },
  };
  static const struct
  {
    const char *name;
    GTestDataFunc run;
  } tests[] = {
    { "travel", test_travel },
    { "away", test_away },
    { "both-ways", test_both_ways },
    { "tails", test_tails },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    for (guint j = 0; j < G_N_ELEMENTS (shapes); j++)
      {
        g_autofree char *path = g_strdup_printf ("/tsptw-pass/%s/%s", tests[i].name, shapes[j].name);

        g_test_add_data_func (path, &shapes[j], tests[i].run);
      }
  g_test_add_func ("/tsptw-pass/ends", test_ends);
  g_test_add_func ("/tsptw-pass/impossible", test_impossible);
  g_test_add_func ("/tsptw-pass/many", test_many);
  return g_test_run ();
}
