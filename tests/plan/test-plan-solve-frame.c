// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A day of several vans as the search sees it: when stops may start, legs, who sells what, what is on board. */

#include "hs-solve-frame.h"

#include "hs-solve.h"
#include "plan-text-day.h"

#define M(minutes) ((minutes) * 60)
#define VAN "van a 0 0 08:00-17:00; "

/* @all, @open: "from-to from-to" in minutes; @spare, @last, @open_last in minutes */
typedef struct
{
  const char *stop;
  gint32 spare;
  const char *all;
  const char *open;
  gint32 last;
  gint32 open_last;
} Starts;

#define NEVER (-HS_SOLVE_FAR / 60)

static const Starts starts[] = {
  { "call A 0 20 08:00-09:00", 0, "480-540", "480-540", 540, 540 },
  { "call A 0 20 08:00-09:00", 30, "480-540", "480-510", 540, 510 },
  { "call A 0 20 08:00-09:00", 60, "480-540", "480-480", 540, 480 },
  { "call A 0 20 08:00-09:00", 61, "480-540", "", 540, NEVER },
  { "call A 0 20 08:00-09:00", -30, "480-540", "480-540", 540, 540 },
  { "call A 0 20 08:00-08:00", 0, "480-480", "480-480", 480, 480 },
  { "call A 0 20 10:00-11:00 08:00-09:00", 0, "480-540 600-660", "480-540 600-660", 660, 660 },
  { "call A 0 20 10:00-11:00 08:00-09:00", 60, "480-540 600-660", "480-480 600-600", 660, 600 },
  { "call A 0 20 08:00-08:30 09:00-10:00", 31, "480-510 540-600", "540-569", 600, 569 },
  { "call A 0 20 08:00-10:00 09:00-11:00", 0, "480-600 540-660", "480-660", 660, 660 },
  { "call A 0 20 08:00-10:00 09:00-09:30", 0, "480-600 540-570", "480-600", 600, 600 },
  { "call A 0 20 08:00-10:00 10:00-11:00", 0, "480-600 600-660", "480-660", 660, 660 },
  /* Two that touch are one, but the last minutes of the first are not had with spare. */
  { "call A 0 20 08:00-10:00 10:00-11:00", 30, "480-600 600-660", "480-570 600-630", 660, 630 },
  { "call A 0 20", 0, "0-1440", "0-1440", 1440, 1440 },
  { "call A 0 20", 40, "0-1440", "0-1400", 1440, 1400 },
  { "counter C 0 20 08:00-09:00", 0, "480-520", "480-520", 520, 520 },
  { "counter C 0 20 08:00-09:00", 45, "480-520", "480-520", 520, 520 },
  { "counter C 0 60 08:00-09:00", 0, "480-480", "480-480", 480, 480 },
  { "counter C 0 61 08:00-09:00", 0, "", "", NEVER, NEVER },
  { "counter C 0 20 13:00-17:00 08:00-12:00", 0, "480-700 780-1000", "480-700 780-1000", 1000, 1000 },
  { "counter C 0 20 08:00-08:10 09:00-10:00", 0, "540-580", "540-580", 580, 580 },
  { "counter C 0 20", 0, "", "", NEVER, NEVER },
};

static char *
starts_text (const HsStart *list, guint n)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < n; k++)
    g_string_append_printf (text, "%s%d-%d", k > 0 ? " " : "", list[k].first / 60, list[k].last / 60);
  return g_string_free (text, FALSE);
}

static void
test_starts (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (starts); i++)
    {
      g_autofree char *day = g_strconcat ("minutes 0;", VAN, starts[i].stop, NULL);
      g_autoptr (HsProblem) problem = text_day (day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      const HsNode *node = &frame->nodes[0];
      g_autofree char *all = starts_text (node->all, node->n_all);
      g_autofree char *open = NULL;

      hs_solve_frame_trim (frame, M (starts[i].spare));
      open = starts_text (node->open, node->n_open);
      g_assert_cmpstr (all, ==, starts[i].all);
      g_assert_cmpstr (open, ==, starts[i].open);
      g_assert_cmpint (node->last / 60, ==, starts[i].last);
      g_assert_cmpint (node->open_last / 60, ==, starts[i].open_last);
      g_assert_cmpint (frame->spare, ==, MAX (0, M (starts[i].spare)));
    }
}

/* The whole day lasts as long as the last van is out. */
static void
test_whole_day (void)
{
  static const struct
  {
    const char *vans;
    gint32 last;
  } rows[] = {
    { "van a 0 0 08:00-17:00", 24 * 3600 },
    { "van a 0 0 08:00-24:00", 24 * 3600 },
    { "van a 0 0 20:00-26:00", 26 * 3600 },
    { "van a 0 0 08:00-17:00; van b 0 0 20:00-27:30; van c 0 0 20:00-26:00", 27 * 3600 + 1800 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *day = g_strconcat ("minutes 0;", rows[i].vans, "; call A 0 10", NULL);
      g_autoptr (HsProblem) problem = text_day (day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);

      g_assert_cmpint (frame->nodes[0].last, ==, rows[i].last);
    }
}

/* Nodes: A at 1, C at 2, then a's start 0 and end 1, b's start 2 and end 0. */
static void
test_legs (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 1 10 50 / 20 2 30 / 5 60 3; "
                                            "miles 7 1 2 / 3 8 4 / 5 6 9; cost 100 42;"
                                            "van a 0 1 08:00-17:00; van b 2 0 08:00-17:00; call A 1 20; "
                                            "counter C 2 5 08:00-17:00");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  static const guint places[] = { 1, 2, 0, 1, 2, 0 };
  static const gint32 minutes[3][3] = { { 1, 10, 50 }, { 20, 2, 30 }, { 5, 60, 3 } };
  static const gint64 miles[3][3] = { { 7, 1, 2 }, { 3, 8, 4 }, { 5, 6, 9 } };
  /* 0 → 1 → 2 is 40 and 2 → 0 → 1 is 15. */
  static const gint32 ways[3][3] = { { 1, 10, 40 }, { 20, 2, 30 }, { 5, 15, 3 } };

  g_assert_cmpuint (frame->dim, ==, 6);
  g_assert_cmpuint (frame->n_nodes, ==, 2);
  g_assert_cmpuint (hs_solve_frame_start (frame, 0), ==, 2);
  g_assert_cmpuint (hs_solve_frame_end (frame, 0), ==, 3);
  g_assert_cmpuint (hs_solve_frame_start (frame, 1), ==, 4);
  g_assert_cmpuint (hs_solve_frame_end (frame, 1), ==, 5);
  g_assert_cmpint (frame->second_units * 60, ==, 100 * HS_COST_UNITS);
  for (guint i = 0; i < 6; i++)
    for (guint j = 0; j < 6; j++)
      {
        g_assert_cmpint (hs_solve_frame_seconds (frame, i, j), ==, M (minutes[places[i]][places[j]]));
        g_assert_cmpint (hs_solve_frame_units (frame, i, j), ==, miles[places[i]][places[j]] * 42 * HS_COST_UNITS);
        g_assert_cmpint (hs_solve_frame_reach (frame, i, j), ==, i == j ? 0 : M (ways[places[i]][places[j]]));
      }
}

/* Only the calls asked for, in the order asked; the rest of the day does not count. */
static void
test_subset (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0 10 / 10 0; van a 0 0 08:00-17:00; "
                                            "van b 0 0 08:00-17:00 skills s; "
                                            "call A 0 1; call B 1 2 skills s; call C 1 3; call D 0 4 van b; "
                                            "counter E 1 5 08:00-17:00");
  static const guint calls[] = { 3, 1, 2 };
  static const struct
  {
    guint index;
    guint place;
    gint32 service;
    guint32 vans;
  } nodes[] = { { 3, 0, M (4), 2 }, { 1, 1, M (2), 2 }, { 2, 1, M (3), 3 }, { 0, 1, M (5), 3 } };
  g_autoptr (HsSolveFrame) frame = hs_solve_frame_new (problem, calls, 3);

  g_assert_cmpuint (frame->n_calls, ==, 3);
  g_assert_cmpuint (frame->n_counters, ==, 1);
  g_assert_cmpuint (frame->n_vans, ==, 2);
  for (guint i = 0; i < G_N_ELEMENTS (nodes); i++)
    {
      g_assert_cmpuint (frame->nodes[i].index, ==, nodes[i].index);
      g_assert_cmpuint (frame->nodes[i].place, ==, nodes[i].place);
      g_assert_cmpint (frame->nodes[i].service, ==, nodes[i].service);
      g_assert_cmpuint (frame->nodes[i].vans, ==, nodes[i].vans);
    }
  hs_solve_frame_free (NULL);
}

/* Cheapest first, the first of two alike; those that are shut or not open long enough don't sell. */
static void
test_sellers (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0;" VAN "call A 0 1 needs x,y,z; "
                                            "counter C 0 5 08:00-17:00 sells x=500,z=1; "
                                            "counter D 0 5 08:00-17:00 sells x=300; "
                                            "counter E 0 5 sells x=100,y=100; "
                                            "counter F 0 5 08:00-08:04 sells x=200,y=100; "
                                            "counter G 0 5 08:00-08:05 sells x=300,z=0; "
                                            "counter H 0 5 08:00-17:00 sells x=900");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  static const guint sellers[] = { 1, 4, 0, 5 };
  static const gint64 cents[] = { 300, 300, 500, 900 };

  g_assert_cmpuint (frame->parts[0].n_sellers, ==, 4);
  for (guint s = 0; s < 4; s++)
    {
      g_assert_cmpuint (frame->parts[0].sellers[s], ==, sellers[s]);
      g_assert_cmpint (frame->parts[0].units[s], ==, cents[s] * HS_COST_UNITS);
    }
  g_assert_cmpuint (frame->parts[1].n_sellers, ==, 0);
  g_assert_cmpuint (frame->parts[2].n_sellers, ==, 2);
  g_assert_cmpuint (frame->parts[2].sellers[0], ==, 4);
}

/* Van a has 2 x (of 3 wanted: counted) and 1 y (of 1 wanted: enough); b has 1 z (of 2 wanted: counted). */
#define BUY_DAY "minutes 0; van a 0 0 08:00-17:00 carries x,y,x; van b 0 0 08:00-17:00 carries z; " \
                "call A 0 1 needs x,x; call B 0 1 needs x,y; call C 0 1 needs z; call D 0 1 needs z,w; call E 0 1; " \
                "counter P 0 5 08:00-17:00 sells x=500,z=70; counter Q 0 5 08:00-17:00 sells x=300,w=9; "

/* @cents: −1 where it is not to be had; @seen: bit 0 P, bit 1 Q */
static const struct
{
  guint van;
  guint call;
  guint32 seen;
  guint64 stock;
  gint64 cents;
  guint64 after;
} buys[] = {
  { 0, 0, 0, 0, 0, 2 },     { 0, 0, 0, 1, -1, 0 },    { 0, 0, 1, 1, 500, 2 },  { 0, 0, 3, 1, 300, 2 },
  { 0, 0, 1, 2, 1000, 2 },  { 0, 0, 2, 2, 600, 2 },   { 0, 1, 0, 0, 0, 1 },    { 0, 1, 0, 1, 0, 2 },
  { 0, 1, 1, 2, 500, 2 },   { 0, 1, 0, 2, -1, 0 },    { 0, 2, 0, 0, -1, 0 },   { 0, 2, 1, 0, 70, 0 },
  { 0, 2, 2, 0, -1, 0 },    { 0, 3, 1, 0, -1, 0 },    { 0, 3, 3, 0, 79, 0 },   { 0, 4, 0, 2, 0, 2 },
  { 1, 0, 0, 0, -1, 0 },    { 1, 0, 1, 0, 1000, 0 },  { 1, 1, 3, 0, -1, 0 },   { 1, 2, 0, 0, 0, 1 },
  { 1, 2, 0, 1, -1, 0 },    { 1, 2, 1, 1, 70, 1 },    { 1, 3, 2, 0, 9, 1 },    { 1, 3, 3, 1, 79, 1 },
  { 1, 3, 3 | HS_SOLVE_HAD_BREAK, 1, 79, 1 },
};

static void
test_buy (void)
{
  g_autoptr (HsProblem) problem = text_day (BUY_DAY);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);

  g_assert_true (frame->parts[0].counted[0]);
  g_assert_false (frame->parts[1].counted[0]);
  g_assert_false (frame->parts[0].counted[1]);
  for (guint i = 0; i < G_N_ELEMENTS (buys); i++)
    {
      guint64 stock = buys[i].stock;
      gint64 units = hs_solve_frame_buy (frame, buys[i].van, buys[i].call, buys[i].seen, &stock);

      g_assert_cmpint (units, ==, buys[i].cents < 0 ? HS_SOLVE_NO_UNITS : buys[i].cents * HS_COST_UNITS);
      if (buys[i].cents >= 0)
        g_assert_cmpuint (stock, ==, buys[i].after);
    }
}

/* As many different parts on board as a van may have, one of each, and two calls that want them all: each is counted by
 * itself, so that the first call takes them all and the second gets none. */
static void
test_full_van (void)
{
  for (guint n = 1; n <= 64; n++)
    {
      g_autoptr (HsProblem) problem = text_day ("minutes 0;" VAN "call A 0 1; call B 0 1");
      g_autoptr (HsSolveFrame) frame = NULL;
      guint64 stock = 0;

      for (guint part = 0; part < n; part++)
        {
          g_autofree char *name = g_strdup_printf ("part %u", part);
          guint index = hs_problem_part (problem, name);

          g_array_append_val (hs_problem_get_van (problem, 0)->carries, index);
          g_array_append_val (hs_problem_get_call (problem, 0)->needs, index);
          g_array_append_val (hs_problem_get_call (problem, 1)->needs, index);
        }
      frame = text_frame (problem);
      g_assert_cmpint (hs_solve_frame_buy (frame, 0, 0, 0, &stock), ==, 0);
      g_assert_cmpint (__builtin_popcountll (stock), ==, (int) n);
      g_assert_cmpint (hs_solve_frame_buy (frame, 0, 1, 0, &stock), ==, HS_SOLVE_NO_UNITS);
    }
}

/* Many units of a few parts: used up one by one. */
static void
test_many_units (void)
{
  g_autoptr (HsProblem) problem = text_day ("minutes 0; van a 0 0 08:00-17:00 carries x,x,x,x,x,x,x,y,y,y,y,z; "
                                            "call A 0 1 needs x; call B 0 1 needs x,y; call C 0 1 needs z,y,x; "
                                            "call D 0 1 needs x,x,x,x,x,x,x,x,y,y,y,y,y,z,z");
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  static const gboolean had[] = { TRUE, TRUE, TRUE, TRUE, TRUE, TRUE, TRUE, FALSE };
  guint64 stock = 0;

  for (guint k = 0; k < G_N_ELEMENTS (had); k++)
    g_assert_cmpint (hs_solve_frame_buy (frame, 0, 0, 0, &stock), ==, had[k] ? 0 : HS_SOLVE_NO_UNITS);
  stock = 0;
  for (guint k = 0; k < 4; k++)
    g_assert_cmpint (hs_solve_frame_buy (frame, 0, 1, 0, &stock), ==, 0);
  g_assert_cmpint (hs_solve_frame_buy (frame, 0, 1, 0, &stock), ==, HS_SOLVE_NO_UNITS);
  stock = 0;
  g_assert_cmpint (hs_solve_frame_buy (frame, 0, 2, 0, &stock), ==, 0);
  g_assert_cmpint (hs_solve_frame_buy (frame, 0, 2, 0, &stock), ==, HS_SOLVE_NO_UNITS);
}

/* A frame made like another of the same tables is the one that is made alone. */
static void
test_like (void)
{
  g_autoptr (HsProblem) problem = text_busy_day (9, 5);
  g_autoptr (HsSolveFrame) none = hs_solve_frame_new (problem, NULL, 0);
  const guint calls[] = { 7, 2, 3 };
  g_autoptr (HsSolveFrame) alone = hs_solve_frame_new (problem, calls, 3);
  g_autoptr (HsSolveFrame) like = hs_solve_frame_new_like (none, problem, calls, 3);

  g_clear_pointer (&none, hs_solve_frame_free);
  g_assert_cmpuint (like->dim, ==, alone->dim);
  g_assert_cmpuint (like->short_cuts, ==, alone->short_cuts);
  for (guint from = 0; from < alone->dim; from++)
    for (guint to = 0; to < alone->dim; to++)
      {
        g_assert_cmpint (hs_solve_frame_reach (like, from, to), ==, hs_solve_frame_reach (alone, from, to));
        g_assert_cmpint (hs_solve_frame_seconds (like, from, to), ==, hs_solve_frame_seconds (alone, from, to));
        g_assert_cmpint (hs_solve_frame_units (like, from, to), ==, hs_solve_frame_units (alone, from, to));
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-frame/starts", test_starts);
  g_test_add_func ("/plan/solve-frame/whole-day", test_whole_day);
  g_test_add_func ("/plan/solve-frame/legs", test_legs);
  g_test_add_func ("/plan/solve-frame/subset", test_subset);
  g_test_add_func ("/plan/solve-frame/sellers", test_sellers);
  g_test_add_func ("/plan/solve-frame/buy", test_buy);
  g_test_add_func ("/plan/solve-frame/full-van", test_full_van);
  g_test_add_func ("/plan/solve-frame/many-units", test_many_units);
  g_test_add_func ("/plan/solve-frame/like", test_like);
  return g_test_run ();
}
