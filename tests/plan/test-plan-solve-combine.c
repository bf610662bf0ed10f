// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Trips put together: against all choices there are. */

#include "hs-solve-combine.h"

#include <string.h>

#define N_CALLS 6

static void
add_trip (GArray *trips, guint kind, gint64 units, const char *calls, const gint64 *prizes)
{
  HsTrip trip = { .van = kind, .units = units, .over = units };

  for (; *calls != '\0'; calls++)
    {
      trip.calls[trip.n_calls++] = (guint8) (*calls - 'a');
      trip.over -= prizes[*calls - 'a'];
    }
  g_array_append_val (trips, trip);
}

static const struct
{
  const char *name;
  guint n_calls;
  guint members[2];
  const char *calls[5];
  guint kinds[5];
  gint64 units[5];
  gint64 below;
  const char *chosen;
} rows[] = {
  { "one trip", 2, { 1, 0 }, { "ab" }, { 0 }, { 9 }, 10, "0" },
  { "not cheaper", 2, { 1, 0 }, { "ab" }, { 0 }, { 9 }, 9, "" },
  { "nobody serves it", 2, { 1, 0 }, { "a" }, { 0 }, { 1 }, 10, "" },
  { "two trips, one van", 2, { 1, 0 }, { "a", "b" }, { 0, 0 }, { 1, 1 }, 10, "" },
  { "two trips, two vans", 2, { 2, 0 }, { "a", "b", "ab" }, { 0, 0, 0 }, { 1, 1, 3 }, 10, "01" },
  { "one of each kind", 2, { 1, 1 }, { "a", "b", "b" }, { 0, 0, 1 }, { 1, 1, 5 }, 10, "02" },
  { "overlapping", 3, { 2, 0 }, { "ab", "bc", "c", "a" }, { 0, 0, 0, 0 }, { 1, 1, 7, 8 }, 100, "02" },
  { "a call twice", 2, { 1, 0 }, { "aba", "ab" }, { 0, 0 }, { 1, 5 }, 100, "1" },
};

static void
test_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GArray) trips = g_array_new (FALSE, FALSE, sizeof (HsTrip));
      const gint64 prizes[N_CALLS] = { 2, 3, 4, 0, 0, 0 };
      HsExact exact = { 0 };
      HsCombine combine = { &exact, rows[i].n_calls, 2, trips, rows[i].members, prizes, rows[i].below };
      guint chosen[HS_PROBLEM_MAX_VANS];
      guint n;
      guint32 marks = 0;

      g_test_message ("%s", rows[i].name);
      for (guint t = 0; t < 5 && rows[i].calls[t] != NULL; t++)
        add_trip (trips, rows[i].kinds[t], rows[i].units[t], rows[i].calls[t], prizes);
      n = hs_solve_combine (&combine, chosen);
      g_assert_cmpuint (n, ==, strlen (rows[i].chosen));
      for (guint k = 0; k < n; k++)
        marks |= 1u << chosen[k];
      for (const char *at = rows[i].chosen; *at != '\0'; at++)
        g_assert_cmpuint (marks >> (*at - '0') & 1, ==, 1);
    }
}

static gint64
try_choices (const GArray *trips, guint from, guint32 done, guint left)
{
  gint64 best = done == (1u << N_CALLS) - 1 ? 0 : G_MAXINT32;

  for (guint t = from; t < trips->len && left > 0; t++)
    {
      const HsTrip *trip = &g_array_index (trips, HsTrip, t);
      guint32 calls = 0;

      for (guint k = 0; k < trip->n_calls; k++)
        calls |= 1u << trip->calls[k];
      if ((calls & done) == 0)
        best = MIN (best, trip->units + try_choices (trips, t + 1, done | calls, left - 1));
    }
  return best;
}

/* Whatever the prizes, and some are far off. */
static void
test_random (void)
{
  guint n_found = 0;

  for (guint32 seed = 0; seed < 200; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autoptr (GArray) trips = g_array_new (FALSE, FALSE, sizeof (HsTrip));
      guint members = (guint) g_rand_int_range (rand, 1, 5);
      gint64 prizes[N_CALLS];
      HsExact exact = { 0 };
      HsCombine combine = { &exact, N_CALLS, 1, trips, &members, prizes, G_MAXINT32 };
      guint chosen[HS_PROBLEM_MAX_VANS];
      gint64 best;
      gint64 units = 0;
      guint n;

      for (guint i = 0; i < N_CALLS; i++)
        prizes[i] = g_rand_int_range (rand, 0, 50);
      for (guint t = 0; t < 14; t++)
        {
          char calls[N_CALLS + 1] = "";

          for (guint i = 0; i < N_CALLS; i++)
            if (g_rand_int_range (rand, 0, 3) == 0)
              calls[strlen (calls)] = (char) ('a' + i);
          if (calls[0] != '\0')
            add_trip (trips, 0, g_rand_int_range (rand, 1, 100), calls, prizes);
        }
      best = try_choices (trips, 0, 0, members);
      n = hs_solve_combine (&combine, chosen);
      for (guint k = 0; k < n; k++)
        units += g_array_index (trips, HsTrip, chosen[k]).units;
      g_assert_cmpint (n > 0, ==, best < G_MAXINT32);
      g_assert_cmpint (units, ==, n > 0 ? best : 0);
      n_found += n > 0;
    }
  g_assert_cmpuint (n_found, >, 20);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-combine/rows", test_rows);
  g_test_add_func ("/plan/solve-combine/random", test_random);
  return g_test_run ();
}
