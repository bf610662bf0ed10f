// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Small random days. */

#include "random-day.h"

static gint32
pick (GRand *rand, gint32 from, gint32 to)
{
  return g_rand_int_range (rand, from, to + 1);
}

static void
fill_tables (HsProblem *problem, GRand *rand, const RandomKind *kind)
{
  guint n = problem->n_places;
  gint32 x[16];
  gint32 y[16];

  for (guint i = 0; i < n; i++)
    {
      x[i] = pick (rand, 0, 25);
      y[i] = pick (rand, 0, 25);
    }
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        gint32 minutes = kind->metric ? ABS (x[i] - x[j]) + ABS (y[i] - y[j]) + (i == j ? 2 : 0) : pick (rand, 0, 40);

        hs_problem_set_leg (problem, i, j, minutes * 60, kind->metric ? minutes * 500 : pick (rand, 0, 200) * 100);
      }
}

static void
add_windows (GArray *windows, GRand *rand, const RandomKind *kind)
{
  guint n = pick (rand, 0, 5) == 0 ? 2 : 1;

  if (pick (rand, 0, 6) == 0)
    return;
  for (guint i = 0; i < n; i++)
    {
      gint32 from = pick (rand, 7 * 12, 16 * 12) * 300;
      HsDaySpan span = { from, from + pick (rand, 0, (gint32) kind->window_minutes / 5) * 300 };

      g_array_append_val (windows, span);
    }
}

/* Some of three skills. */
static void
add_skills (GPtrArray *skills, GRand *rand, gint32 percent)
{
  static const char *const names[] = { "gas", "diesel", "keys" };

  for (guint k = 0; k < G_N_ELEMENTS (names); k++)
    if (pick (rand, 1, 100) <= percent)
      g_ptr_array_add (skills, g_strdup (names[k]));
}

static void
add_vans (HsProblem *problem, GRand *rand, const RandomKind *kind, guint n_parts)
{
  for (guint v = 0; v < kind->vans; v++)
    {
      g_autofree char *id = g_strdup_printf ("van %u", v);
      HsVan *van = hs_problem_add_van (problem, id);

      van->start = (guint) pick (rand, 0, (gint32) problem->n_places - 1);
      van->end = pick (rand, 0, 2) == 0 ? (guint) pick (rand, 0, (gint32) problem->n_places - 1) : van->start;
      van->leave_from_seconds = pick (rand, 7 * 4, 9 * 4) * 900;
      van->home_by_seconds = pick (rand, 13 * 4, 19 * 4) * 900;
      van->leave_to_seconds = pick (rand, 0, 1) == 0 ? van->home_by_seconds : van->leave_from_seconds + 3600;
      for (gint32 k = pick (rand, 0, 2); k > 0; k--)
        {
          guint part = (guint) pick (rand, 0, (gint32) n_parts - 1);

          g_array_append_val (van->carries, part);
        }
      if (kind->skills)
        add_skills (van->skills, rand, 70);
      if (pick (rand, 1, 100) > (gint32) kind->break_percent)
        continue;
      van->break_seconds = pick (rand, 2, 9) * 300;
      van->break_span.from_seconds = pick (rand, 10 * 12, 13 * 12) * 300;
      van->break_span.to_seconds = van->break_span.from_seconds + van->break_seconds + pick (rand, 0, 18) * 300;
    }
}

static void
add_calls (HsProblem *problem, GRand *rand, const RandomKind *kind, guint n_parts)
{
  for (guint i = 0; i < kind->calls; i++)
    {
      g_autofree char *id = g_strdup_printf ("call %u", i);
      HsCall *call = hs_problem_add_call (problem, id, (guint) pick (rand, 0, (gint32) problem->n_places - 1),
                                          pick (rand, 1, 18) * 300);

      add_windows (call->windows, rand, kind);
      for (gint32 k = pick (rand, 0, 5) - 3; k > 0; k--)
        {
          guint part = (guint) pick (rand, 0, (gint32) n_parts - 1);

          g_array_append_val (call->needs, part);
        }
      if (kind->vans > 1 && pick (rand, 0, 4) == 0)
        call->van = pick (rand, 0, (gint32) kind->vans - 1);
      if (kind->skills)
        add_skills (call->skills, rand, 15);
    }
}

static void
add_counters (HsProblem *problem, GRand *rand, const RandomKind *kind, guint n_parts)
{
  for (guint c = 0; c < kind->counters; c++)
    {
      g_autofree char *id = g_strdup_printf ("counter %u", c);
      HsCounter *counter = hs_problem_add_counter (
          problem, id, (guint) pick (rand, 0, (gint32) problem->n_places - 1), pick (rand, 1, 3) * 300);
      gint32 noon = pick (rand, 11 * 4, 13 * 4) * 900;
      HsDaySpan morning = { pick (rand, 7 * 4, 9 * 4) * 900, noon };
      HsDaySpan evening = { noon + pick (rand, 0, 6) * 900, pick (rand, 15 * 4, 18 * 4) * 900 };

      g_array_append_val (counter->hours, morning);
      g_array_append_val (counter->hours, evening);
      for (guint part = 0; part < n_parts; part++)
        if (pick (rand, 0, 3) > 0)
          hs_counter_sell (counter, part, pick (rand, 10, 60) * 100);
    }
}

static void
shift_spans (GArray *spans, gint32 seconds)
{
  for (guint i = 0; i < spans->len; i++)
    {
      g_array_index (spans, HsDaySpan, i).from_seconds += seconds;
      g_array_index (spans, HsDaySpan, i).to_seconds += seconds;
    }
}

/* The same day so much later, past midnight. */
static void
shift_day (HsProblem *problem, gint32 seconds)
{
  for (guint v = 0; v < problem->vans->len; v++)
    {
      HsVan *van = g_ptr_array_index (problem->vans, v);

      van->leave_from_seconds += seconds;
      van->leave_to_seconds += seconds;
      van->home_by_seconds += seconds;
      van->break_span.from_seconds += seconds;
      van->break_span.to_seconds += seconds;
    }
  for (guint i = 0; i < problem->calls->len; i++)
    shift_spans (hs_problem_get_call (problem, i)->windows, seconds);
  for (guint c = 0; c < problem->counters->len; c++)
    shift_spans (hs_problem_get_counter (problem, c)->hours, seconds);
}

HsProblem *
random_day (GRand *rand, const RandomKind *kind)
{
  HsProblem *problem = hs_problem_new ((guint) pick (rand, 3, 6));
  guint n_parts = 3;

  for (guint part = 0; part < n_parts; part++)
    {
      g_autofree char *name = g_strdup_printf ("part %u", part);

      hs_problem_part (problem, name);
    }
  problem->minute_cents = pick (rand, 0, 8) == 0 ? 0 : 160;
  problem->mile_cents = pick (rand, 0, 8) == 0 ? 0 : 42;
  problem->spare_seconds = pick (rand, 0, 1) * pick (rand, 0, 12) * 300;
  fill_tables (problem, rand, kind);
  add_vans (problem, rand, kind, n_parts);
  add_calls (problem, rand, kind, n_parts);
  add_counters (problem, rand, kind, n_parts);
  if (kind->night)
    shift_day (problem, 11 * 3600);
  return problem;
}
