// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A path driven by the clock: when stops start, how long is waited, what is bought where, who is late. */

#include "hs-solve-write.h"

#include "plan-text-day.h"

/* @slacks: minutes of each stop in turn; @wait in minutes, @miles in thousandths, of all routes; @spare in minutes */
typedef struct
{
  const char *name;
  const char *day;
  gint32 trim;
  const char *path;
  const char *leaves;
  const char *routes;
  const char *slacks;
  gint32 wait;
  gint64 miles;
  const char *bought;
  const char *broken;
  const char *unserved;
  gint64 cost_cents;
  gint32 spare;
} Row;

#define ANY G_MAXINT32
#define LINE3 "minutes 0 10 20 / 10 0 10 / 20 10 0; miles 0 5 9 / 6 0 4 / 8 3 0; cost 100 10; "
#define VAN "van a 0 0 08:00-17:00; "
#define SHOP "counter C 1 10 08:00-12:00 12:45-17:00 sells x=500,y=70; counter D 2 5 08:00-17:00 sells x=300; "

static const Row rows[] = {
  { "nothing", LINE3 VAN, 0, "", "", "", "", 0, 0, "", "", "", 0, ANY },
  { "left-out", LINE3 VAN "call A 1 30", 0, "", "", "", "", 0, 0, "", "", "A 0", 0, ANY },
  { "one", LINE3 VAN "call A 1 30 09:00-10:00", 0, "A", "08:50", "a 08:50 A@09:00 =09:40", "60", 0, 11000, "", "", "",
    5000 + 110, 60 },
  { "waits", LINE3 VAN "call A 1 30 09:00-10:00", 0, "A", "08:00", "a 08:00 A@09:00 =09:40", "60", 50, 11000, "", "",
    "", 10000 + 110, 60 },
  { "in-the-window", LINE3 VAN "call A 1 30 09:00-10:00", 0, "A", "09:20", "a 09:20 A@09:30 =10:10", "30", 0, 11000, "",
    "", "", 5000 + 110, 30 },
  { "last-second", LINE3 VAN "call A 1 30 09:00-10:00", 0, "A", "09:50", "a 09:50 A@10:00 =10:40", "0", 0, 11000, "",
    "", "", 5000 + 110, 0 },
  { "late", LINE3 VAN "call A 1 30 09:00-10:00", 0, "A", "09:51", "a 09:51 A@10:01 =10:41", "-1", 0, 11000, "", "A 1",
    "", 5000 + 110, -1 },
  { "second-window", LINE3 VAN "call A 1 30 09:00-10:00 11:00-11:30", 0, "A", "09:51", "a 09:51 A@11:00 =11:40", "30",
    59, 11000, "", "", "", 10900 + 110, 30 },
  { "after-both-windows", LINE3 VAN "call A 1 30 09:00-10:00 11:00-11:30", 0, "A", "11:30", "a 11:30 A@11:40 =12:20",
    "-10", 0, 11000, "", "A 10", "", 5000 + 110, -10 },
  /* 09:45 is in both windows: the one that leaves more counts. */
  { "two-windows-at-once", LINE3 VAN "call A 1 30 09:00-10:00 09:30-11:00", 0, "A", "09:35", "a 09:35 A@09:45 =10:25",
    "75", 0, 11000, "", "", "", 5000 + 110, 75 },
  /* Only 15 min would be left at 09:45; with 30 asked it waits for the next. */
  { "asked-spare-waits", LINE3 VAN "call A 1 30 09:00-10:00 11:00-12:00", 30, "A", "09:35", "a 09:35 A@11:00 =11:40",
    "60", 75, 11000, "", "", "", 12500 + 110, 60 },
  { "two-in-turn", LINE3 VAN "call A 1 30 09:00-10:00; call B 2 20 09:00-11:00", 0, "A B", "08:50",
    "a 08:50 A@09:00 B@09:40 =10:20", "60 80", 0, 5000 + 4000 + 8000, "", "", "", 9000 + 170, 60 },
  { "the-other-way", LINE3 VAN "call A 1 30 09:00-10:00; call B 2 20 09:00-11:00", 0, "B A", "08:40",
    "a 08:40 B@09:00 A@09:30 =10:10", "120 30", 0, 9000 + 3000 + 6000, "", "", "", 9000 + 180, 30 },
  { "one-left-out", LINE3 VAN "call A 1 30 09:00-10:00; call B 2 20 09:00-11:00", 0, "B", "08:40",
    "a 08:40 B@09:00 =09:40", "120", 0, 17000, "", "", "A 0", 6000 + 170, 120 },

  { "buys", LINE3 VAN "call A 1 30 needs x; " SHOP, 0, "C A", "08:00", "a 08:00 C@08:10 A@08:20 =09:00", "220 940", 0,
    11000, "x C 500", "", "", 6000 + 110 + 500, 940 },
  { "buys-cheaper", LINE3 VAN "call A 1 30 needs x; " SHOP, 0, "C D A", "08:00",
    "a 08:00 C@08:10 D@08:30 A@08:45 =09:25", "220 505 915", 0, 5000 + 4000 + 3000 + 6000, "x D 300", "", "",
    8500 + 180 + 300, 915 },
  { "buys-where-it-was", LINE3 VAN "call A 1 30 needs x; call B 1 5 needs x,y; " SHOP, 0, "C A D B", "08:00",
    "a 08:00 C@08:10 A@08:20 D@09:00 B@09:15 =09:30", "220 940 475 885", 0, 5000 + 4000 + 3000 + 6000,
    "x C 500, x D 300, y C 70", "", "", 9000 + 180 + 870, 885 },
  { "lunch", LINE3 VAN "call A 1 30 needs x; " SHOP, 0, "C A", "11:45", "a 11:45 C@12:45 A@12:55 =13:35", "245 665", 50,
    11000, "x C 500", "", "", 11000 + 110 + 500, 665 },
  { "on-board", LINE3 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x; call B 1 5 needs x; " SHOP, 0, "A C B",
    "08:00", "a 08:00 A@08:10 C@08:40 B@08:50 =09:05", "950 190 910", 0, 11000, "x C 500", "", "", 6500 + 110 + 500,
    910 },
  { "enough-on-board", LINE3 "van a 0 0 08:00-17:00 carries x,x,x; call A 1 30 needs x; call B 1 5 needs x; " SHOP, 0,
    "A C B", "08:00", "a 08:00 A@08:10 C@08:40 B@08:50 =09:05", "950 190 910", 0, 11000, "", "", "", 6500 + 110, 910 },

  { "break", LINE3 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 30 11:10-11:30; call B 2 20", 0, "A break B",
    "11:00", "a 11:00 A@11:10 break@11:40 B@12:20 =13:00", "20 80 700", 0, 17000, "", "", "", 12000 + 170, 20 },
  { "break-waits", LINE3 "van a 0 0 08:00-17:00 break 30 11:30-13:30; call A 1 10 11:10-11:30; call B 2 20", 0,
    "A break B", "11:00", "a 11:00 A@11:10 break@11:30 B@12:10 =12:50", "20 90 710", 10, 17000, "", "", "", 11000 + 170,
    20 },

  { "two-vans", LINE3 VAN "van b 2 2 08:00-17:00; call A 1 30; call B 2 20 09:00-09:30", 0, "B / A", "09:00 08:30",
    "a 09:00 B@09:20 =10:00 | b 08:30 A@08:40 =09:20", "10 920", 0, 17000 + 7000, "", "", "", 6000 + 5000 + 240, 10 },
  { "second-van-only", LINE3 VAN "van b 2 2 08:00-17:00; call A 1 30", 0, "/ A", "00:00 08:30",
    "b 08:30 A@08:40 =09:20", "920", 0, 7000, "", "", "", 5000 + 70, 920 },
  /* The next van has seen nothing and has its own things on board. */
  { "own-shopping", LINE3 "van a 0 0 08:00-17:00 carries x; van b 2 2 08:00-17:00; call A 1 30 needs x; "
    "call B 2 20 needs x; " SHOP, 0, "C A / D B", "08:00 08:00",
    "a 08:00 C@08:10 A@08:20 =09:00 | b 08:00 D@08:00 B@08:05 =08:25", "220 940 535 955", 0, 11000, "x D 300", "", "",
    6000 + 2500 + 110 + 300, 940 },
};

static char *
slacks_text (const HsSolution *solution)
{
  GString *text = g_string_new (NULL);

  for (guint r = 0; r < solution->routes->len; r++)
    for (guint k = 0; k < hs_solution_get_route (solution, r)->stops->len; k++)
      g_string_append_printf (
          text, "%s%d", text->len > 0 ? " " : "",
          g_array_index (hs_solution_get_route (solution, r)->stops, HsRouteStop, k).slack_seconds / 60);
  return g_string_free (text, FALSE);
}

static void
assert_sums (const Row *row, const HsSolution *solution)
{
  gint32 wait = 0;
  gint64 miles = 0;

  for (guint r = 0; r < solution->routes->len; r++)
    {
      const HsRoute *route = hs_solution_get_route (solution, r);
      gint32 under_way = route->drive_seconds + route->wait_seconds;

      wait += route->wait_seconds;
      miles += route->drive_millimiles;
      for (guint k = 0; k < route->stops->len; k++)
        {
          const HsRouteStop *stop = &g_array_index (route->stops, HsRouteStop, k);

          under_way += stop->depart_seconds - stop->start_seconds;
        }
      g_assert_cmpint (under_way, ==, route->home_seconds - route->leave_seconds);
    }
  g_assert_cmpint (wait, ==, row->wait * 60);
  g_assert_cmpint (miles, ==, row->miles);
}

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (HsProblem) problem = text_day (row->day);
  g_autoptr (HsSolveFrame) frame = text_frame (problem);
  g_autoptr (HsSolution) solution = hs_solution_new ();
  g_autofree char *routes = NULL;
  g_autofree char *slacks = NULL;
  g_autofree char *bought = NULL;
  g_autofree char *broken = NULL;
  g_autofree char *unserved = NULL;
  HsPath path;

  hs_solve_frame_trim (frame, row->trim * 60);
  text_path (frame, row->path, row->leaves, &path);
  hs_solution_write (solution, frame, &path);
  routes = text_routes (problem, solution);
  slacks = slacks_text (solution);
  bought = text_bought (problem, solution);
  broken = text_troubles (problem, solution->broken);
  unserved = text_troubles (problem, solution->unserved);
  g_assert_cmpstr (routes, ==, row->routes);
  g_assert_cmpstr (slacks, ==, row->slacks);
  g_assert_cmpstr (bought, ==, row->bought);
  g_assert_cmpstr (broken, ==, row->broken);
  g_assert_cmpstr (unserved, ==, row->unserved);
  g_assert_cmpint (solution->cost_cents, ==, row->cost_cents);
  g_assert_cmpint (solution->spare_seconds, ==, row->spare == ANY ? HS_PLAN_NO_LIMIT : row->spare * 60);
  assert_sums (row, solution);
}

/* Only the calls of the frame: their indexes are those of the problem. */
static void
test_subset (void)
{
  static const guint calls[] = { 2, 1 };
  g_autoptr (HsProblem) problem = text_day (LINE3 VAN "call A 1 30; call B 1 20 07:00-08:00 needs x; call C 2 10; "
                                            "counter D 1 5 08:00-17:00 sells x=90");
  g_autoptr (HsSolveFrame) frame = hs_solve_frame_new (problem, calls, 2);
  g_autoptr (HsSolution) solution = hs_solution_new ();
  HsPath path;

  text_path (frame, "D B", "08:00", &path);
  hs_solution_write (solution, frame, &path);
  g_assert_cmpuint (solution->broken->len, ==, 1);
  g_assert_cmpuint (hs_solution_get_broken (solution, 0)->call, ==, 1);
  g_assert_cmpint (hs_solution_get_broken (solution, 0)->late_seconds, ==, 15 * 60);
  g_assert_cmpuint (solution->unserved->len, ==, 1);
  g_assert_cmpuint (hs_solution_get_unserved (solution, 0)->call, ==, 2);
  g_assert_cmpuint (solution->bought->len, ==, 1);
  g_assert_cmpuint (g_array_index (solution->bought, HsBought, 0).call, ==, 1);
}

/* Half a cent rounds up: a minute is 1 cent, the way is 30 s or a second less. */
static void
test_rounding (void)
{
  static const struct
  {
    const char *day;
    gint64 units;
    gint64 cents;
  } rounds[] = {
    { "minutes 0 0:15 / 0:15 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 0", 1500, 1 },
    { "minutes 0 0:15 / 0:14 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 0", 1450, 0 },
    { "minutes 0 0:45 / 0:45 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 0", 4500, 2 },
    { "minutes 0 0:45 / 0:44 0; cost 1 0; van a 0 0 08:00-17:00; call A 1 0", 4450, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rounds); i++)
    {
      g_autoptr (HsProblem) problem = text_day (rounds[i].day);
      g_autoptr (HsSolveFrame) frame = text_frame (problem);
      g_autoptr (HsSolution) solution = hs_solution_new ();
      HsPath path;

      text_path (frame, "A", "08:00", &path);
      hs_solution_write (solution, frame, &path);
      g_assert_cmpint (solution->cost_units, ==, rounds[i].units);
      g_assert_cmpint (solution->cost_cents, ==, rounds[i].cents);
    }
  hs_solution_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-write/%s", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_row);
    }
  g_test_add_func ("/plan/solve-write/subset", test_subset);
  g_test_add_func ("/plan/solve-write/rounding", test_rounding);
  return g_test_run ();
}
