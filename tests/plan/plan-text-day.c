// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#include "plan-text-day.h"

#include "answer-check.h"
#include "hs-solve-write.h"

#include <stdlib.h>
#include <string.h>

gint32
text_clock (const char *text)
{
  gint32 seconds = 0;

  for (guint k = 0; k < 3; k++)
    {
      seconds = seconds * 60 + (g_ascii_isdigit (*text) ? (gint32) strtol (text, (char **) &text, 10) : 0);
      text += *text == ':';
    }
  return seconds;
}

static HsDaySpan
read_span (const char *text)
{
  const char *dash = strchr (text, '-');

  g_assert_nonnull (dash);
  return (HsDaySpan){ text_clock (text), text_clock (dash + 1) };
}

static HsProblem *
read_minutes (char **words)
{
  guint n = (guint) g_strv_length (words);
  guint side = 1;
  HsProblem *problem;
  guint cell = 0;

  while (side * side + side - 1 < n - 1)
    side++;
  g_assert_cmpuint (side * side + side - 1, ==, n - 1);
  problem = hs_problem_new (side);
  for (guint k = 1; k < n; k++)
    if (words[k][0] != '/')
      g_array_index (problem->drive_seconds, gint32, cell++) = text_clock (words[k]) / 60;
  return problem;
}

static void
read_miles (HsProblem *problem, char **words)
{
  guint cell = 0;

  for (guint k = 1; words[k] != NULL; k++)
    if (words[k][0] != '/')
      g_array_index (problem->drive_millimiles, gint64, cell++) = 1000 * atoi (words[k]);
  g_assert_cmpuint (cell, ==, problem->drive_millimiles->len);
}

static void
read_parts (HsProblem *problem, const char *list, GArray *parts)
{
  g_auto (GStrv) names = g_strsplit (list, ",", -1);

  for (guint k = 0; names[k] != NULL; k++)
    {
      guint part = hs_problem_part (problem, names[k]);

      g_array_append_val (parts, part);
    }
}

static void
read_skills (const char *list, GPtrArray *skills)
{
  g_auto (GStrv) names = g_strsplit (list, ",", -1);

  for (guint k = 0; names[k] != NULL; k++)
    g_ptr_array_add (skills, g_strdup (names[k]));
}

static void
read_van (HsProblem *problem, char **words)
{
  HsVan *van = hs_problem_add_van (problem, words[1]);
  HsDaySpan span = read_span (words[4]);

  van->start = (guint) atoi (words[2]);
  van->end = (guint) atoi (words[3]);
  van->leave_from_seconds = span.from_seconds;
  van->leave_to_seconds = van->home_by_seconds = span.to_seconds;
  for (guint k = 5; words[k] != NULL; k += 2)
    if (g_str_equal (words[k], "until"))
      van->leave_to_seconds = text_clock (words[k + 1]);
    else if (g_str_equal (words[k], "carries"))
      read_parts (problem, words[k + 1], van->carries);
    else if (g_str_equal (words[k], "skills"))
      read_skills (words[k + 1], van->skills);
    else
      {
        g_assert_cmpstr (words[k], ==, "break");
        van->break_seconds = 60 * atoi (words[k + 1]);
        van->break_span = read_span (words[k + 2]);
        k++;
      }
}

static int
find_van (const HsProblem *problem, const char *id)
{
  for (guint v = 0; v < problem->vans->len; v++)
    if (g_str_equal (hs_problem_get_van (problem, v)->id, id))
      return (int) v;
  g_assert_not_reached ();
}

static void
read_call (HsProblem *problem, char **words)
{
  HsCall *call = hs_problem_add_call (problem, words[1], (guint) atoi (words[2]), 60 * atoi (words[3]));

  for (guint k = 4; words[k] != NULL; k++)
    if (g_ascii_isdigit (words[k][0]))
      {
        HsDaySpan span = read_span (words[k]);

        g_array_append_val (call->windows, span);
      }
    else if (g_str_equal (words[k], "needs"))
      read_parts (problem, words[++k], call->needs);
    else if (g_str_equal (words[k], "van"))
      call->van = find_van (problem, words[++k]);
    else
      {
        g_assert_cmpstr (words[k], ==, "skills");
        read_skills (words[++k], call->skills);
      }
}

static void
read_counter (HsProblem *problem, char **words)
{
  HsCounter *counter = hs_problem_add_counter (problem, words[1], (guint) atoi (words[2]), 60 * atoi (words[3]));

  for (guint k = 4; words[k] != NULL; k++)
    if (g_str_equal (words[k], "sells"))
      {
        g_auto (GStrv) prices = g_strsplit (words[++k], ",", -1);

        for (guint p = 0; prices[p] != NULL; p++)
          {
            g_auto (GStrv) pair = g_strsplit (prices[p], "=", 2);

            hs_counter_sell (counter, hs_problem_part (problem, pair[0]), atoi (pair[1]));
          }
      }
    else
      {
        HsDaySpan span = read_span (words[k]);

        g_array_append_val (counter->hours, span);
      }
}

static void
read_statement (HsProblem *problem, char **words)
{
  if (g_str_equal (words[0], "miles"))
    read_miles (problem, words);
  else if (g_str_equal (words[0], "van"))
    read_van (problem, words);
  else if (g_str_equal (words[0], "call"))
    read_call (problem, words);
  else if (g_str_equal (words[0], "counter"))
    read_counter (problem, words);
  else if (g_str_equal (words[0], "spare"))
    problem->spare_seconds = 60 * atoi (words[1]);
  else
    {
      g_assert_cmpstr (words[0], ==, "cost");
      problem->minute_cents = atoi (words[1]);
      problem->mile_cents = atoi (words[2]);
    }
}

/* The words of one statement, without empty ones. */
static char **
split_words (const char *statement)
{
  g_auto (GStrv) all = g_strsplit (statement, " ", -1);
  GPtrArray *words = g_ptr_array_new ();

  for (guint k = 0; all[k] != NULL; k++)
    if (all[k][0] != '\0')
      g_ptr_array_add (words, g_strdup (all[k]));
  g_ptr_array_add (words, NULL);
  return (char **) g_ptr_array_free (words, FALSE);
}

HsProblem *
text_day (const char *text)
{
  g_auto (GStrv) statements = g_strsplit (text, ";", -1);
  HsProblem *problem = NULL;

  for (guint s = 0; statements[s] != NULL; s++)
    {
      g_auto (GStrv) words = split_words (statements[s]);

      if (words[0] == NULL)
        continue;
      if (problem != NULL)
        read_statement (problem, words);
      else
        {
          g_assert_cmpstr (words[0], ==, "minutes");
          problem = read_minutes (words);
        }
    }
  return problem;
}

static void
add_clock (GString *text, gint32 seconds)
{
  g_string_append_printf (text, "%02d:%02d", seconds / 3600, seconds / 60 % 60);
  if (seconds % 60 != 0)
    g_string_append_printf (text, ":%02d", seconds % 60);
}

static const char *
stop_id (const HsProblem *problem, const HsRouteStop *stop)
{
  if (stop->kind == HS_ROUTE_BREAK)
    return "break";
  return stop->kind == HS_ROUTE_CALL ? hs_problem_get_call (problem, stop->index)->id
                                     : hs_problem_get_counter (problem, stop->index)->id;
}

char *
text_routes (const HsProblem *problem, const HsSolution *solution)
{
  GString *text = g_string_new (NULL);

  for (guint r = 0; r < solution->routes->len; r++)
    {
      const HsRoute *route = hs_solution_get_route (solution, r);

      g_string_append_printf (text, "%s%s ", r > 0 ? " | " : "", hs_problem_get_van (problem, route->van)->id);
      add_clock (text, route->leave_seconds);
      for (guint k = 0; k < route->stops->len; k++)
        {
          const HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, k);

          g_string_append_printf (text, " %s@", stop_id (problem, stop));
          add_clock (text, stop->start_seconds);
        }
      g_string_append (text, " =");
      add_clock (text, route->home_seconds);
    }
  return g_string_free (text, FALSE);
}

char *
text_bought (const HsProblem *problem, const HsSolution *solution)
{
  GString *text = g_string_new (NULL);

  for (guint b = 0; b < solution->bought->len; b++)
    {
      const HsBought *bought = &g_array_index (solution->bought, HsBought, b);

      g_string_append_printf (text, "%s%s %s %d", b > 0 ? ", " : "",
                              (const char *) g_ptr_array_index (problem->parts, bought->part),
                              hs_problem_get_counter (problem, bought->counter)->id, (int) bought->cents);
    }
  return g_string_free (text, FALSE);
}

char *
text_troubles (const HsProblem *problem, const GPtrArray *troubles)
{
  GString *text = g_string_new (NULL);

  for (guint t = 0; t < troubles->len; t++)
    {
      const HsTrouble *trouble = g_ptr_array_index (troubles, t);

      g_assert_cmpint (trouble->late_seconds % 60, ==, 0);
      g_string_append_printf (text, "%s%s %d", t > 0 ? ", " : "", hs_problem_get_call (problem, trouble->call)->id,
                              trouble->late_seconds / 60);
    }
  return g_string_free (text, FALSE);
}

char *
text_calls (const HsProblem *problem, const GArray *calls)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < calls->len; k++)
    g_string_append_printf (text, "%s%s", k > 0 ? " " : "",
                            hs_problem_get_call (problem, g_array_index (calls, guint, k))->id);
  return g_string_free (text, FALSE);
}

HsSolution *
text_solve (const HsProblem *problem, gboolean explain)
{
  HsSolveHow how = { NULL, NULL, 1, explain };
  HsSolution *solution = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *fault = NULL;

  g_assert_true (hs_solve (problem, &how, &solution, &error));
  g_assert_no_error (error);
  fault = answer_fault (problem, solution);
  g_assert_cmpstr (fault, ==, NULL);
  return solution;
}

HsProblem *
text_busy_day (guint n_calls, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  HsProblem *problem = text_day ("minutes 0 10 20 30 / 10 0 10 20 / 20 10 0 10 / 30 20 10 0; cost 160 42; spare 20; "
                                 "van a 0 0 08:00-17:00 break 30 11:30-13:30; "
                                 "van b 3 3 08:00-16:00 carries x; counter C 1 5 08:00-12:00 sells x=900,y=50; "
                                 "counter D 2 10 07:00-17:00 sells x=400");

  for (guint i = 0; i < n_calls; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %02u", i);
      HsCall *call = hs_problem_add_call (problem, id, (guint) g_rand_int_range (rand, 0, 4),
                                          60 * g_rand_int_range (rand, 5, 60));
      gint32 from = 900 * g_rand_int_range (rand, 32, 60);
      HsDaySpan window = { from, from + 900 * g_rand_int_range (rand, 0, 8) };
      guint part = (guint) g_rand_int_range (rand, 0, 4);

      g_array_append_val (call->windows, window);
      if (part < problem->parts->len)
        g_array_append_val (call->needs, part);
    }
  return problem;
}

static void
shuffle (GRand *rand, guint *order, guint n)
{
  for (guint i = 0; i < n; i++)
    order[i] = i;
  for (guint i = n; i > 1; i--)
    {
      guint j = (guint) g_rand_int_range (rand, 0, (gint32) i);
      guint swap = order[i - 1];

      order[i - 1] = order[j];
      order[j] = swap;
    }
}

static void
shuffle_rows (GRand *rand, GPtrArray *rows, guint *ret_places)
{
  g_autofree guint *order = g_new (guint, rows->len + 1);
  g_autofree gpointer *before = g_memdup2 (rows->pdata, rows->len * sizeof (gpointer));

  shuffle (rand, order, rows->len);
  for (guint i = 0; i < rows->len; i++)
    {
      rows->pdata[i] = before[order[i]];
      ret_places[order[i]] = i;
    }
}

static void
move_parts (GArray *list, const guint *places)
{
  for (guint k = 0; k < list->len; k++)
    g_array_index (list, guint, k) = places[g_array_index (list, guint, k)];
}

static void
move_prices (HsCounter *counter, guint n_parts, const guint *places)
{
  g_autoptr (GArray) before = counter->cents;

  counter->cents = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint part = 0; part < n_parts && part < before->len; part++)
    hs_counter_sell (counter, places[part], g_array_index (before, gint64, part));
}

void
text_shuffle (GRand *rand, HsProblem *problem)
{
  guint vans[HS_PROBLEM_MAX_VANS];
  guint parts[HS_PROBLEM_MAX_PARTS];
  guint places[HS_PROBLEM_MAX_CALLS];

  shuffle_rows (rand, problem->vans, vans);
  shuffle_rows (rand, problem->calls, places);
  shuffle_rows (rand, problem->counters, places);
  shuffle_rows (rand, problem->parts, parts);
  for (guint v = 0; v < problem->vans->len; v++)
    move_parts (((HsVan *) problem->vans->pdata[v])->carries, parts);
  for (guint i = 0; i < problem->calls->len; i++)
    {
      HsCall *call = problem->calls->pdata[i];

      move_parts (call->needs, parts);
      if (call->van != HS_PROBLEM_ANY_VAN)
        call->van = (int) vans[call->van];
    }
  for (guint c = 0; c < problem->counters->len; c++)
    move_prices (problem->counters->pdata[c], problem->parts->len, parts);
}

HsSolveFrame *
text_frame (const HsProblem *problem)
{
  guint calls[HS_PROBLEM_MAX_CALLS];

  for (guint i = 0; i < problem->calls->len; i++)
    calls[i] = i;
  return hs_solve_frame_new (problem, calls, problem->calls->len);
}

static const char *
node_id (const HsSolveFrame *frame, guint node)
{
  if (node == HS_PATH_CLOSE)
    return "/";
  if (node == HS_PATH_BREAK)
    return "break";
  return node < frame->n_calls ? hs_problem_get_call (frame->problem, frame->nodes[node].index)->id
                               : hs_problem_get_counter (frame->problem, frame->nodes[node].index)->id;
}

static guint8
find_node (const HsSolveFrame *frame, const char *id)
{
  for (guint node = 0; node < frame->n_nodes; node++)
    if (g_str_equal (node_id (frame, node), id))
      return (guint8) node;
  g_assert_true (id[0] == '/' || g_str_equal (id, "break"));
  return id[0] == '/' ? HS_PATH_CLOSE : HS_PATH_BREAK;
}

void
text_path (const HsSolveFrame *frame, const char *text, const char *leaves, HsPath *ret_path)
{
  g_auto (GStrv) stops = split_words (text);
  g_auto (GStrv) times = split_words (leaves);

  memset (ret_path, 0, sizeof *ret_path);
  for (guint k = 0; stops[k] != NULL; k++)
    ret_path->stops[ret_path->n_stops++] = find_node (frame, stops[k]);
  for (guint v = 0; times[v] != NULL; v++)
    ret_path->leave[v] = text_clock (times[v]);
}

char *
text_path_words (const HsSolveFrame *frame, const HsPath *path)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < path->n_stops; k++)
    g_string_append_printf (text, "%s%s", k > 0 ? " " : "", node_id (frame, path->stops[k]));
  return g_string_free (text, FALSE);
}

void
text_assert_score (const HsSolveFrame *frame, const HsScore *score, const HsPath *path)
{
  g_autoptr (HsSolution) solution = hs_solution_new ();
  gint64 homes = 0;
  gint64 leaves = 0;
  gint64 late = 0;
  guint stops = 0;

  hs_solution_write (solution, frame, path);
  for (guint r = 0; r < solution->routes->len; r++)
    {
      homes += hs_solution_get_route (solution, r)->home_seconds;
      leaves += hs_solution_get_route (solution, r)->leave_seconds;
      g_assert_cmpint (hs_solution_get_route (solution, r)->home_seconds, ==,
                       path->home[hs_solution_get_route (solution, r)->van]);
    }
  for (guint k = 0; k < solution->broken->len; k++)
    late += hs_solution_get_broken (solution, k)->late_seconds;
  g_assert_cmpint (solution->cost_units, ==, score->units);
  g_assert_cmpint (homes, ==, score->homes);
  g_assert_cmpint (leaves, ==, score->leaves);
  g_assert_cmpint (late, ==, score->late);
  for (guint r = 0; r < solution->routes->len; r++)
    stops += hs_solution_get_route (solution, r)->stops->len;
  g_assert_cmpuint (stops, ==, score->stops);
  g_assert_cmpuint (solution->unserved->len, ==, score->dropped);
  g_assert_cmpuint (solution->unserved->len + solution->broken->len, ==, score->missed);
}
