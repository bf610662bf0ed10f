// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why a promise can't be kept: which calls nobody can serve at all, which ones stand in each other's way, and what
 * would mend it. Each day is worked out by hand. */

#include "hs-solve-why.h"

#include "hs-solve-write.h"
#include "plan-text-day.h"

#define LINE2 "minutes 0 10 / 10 0; "
#define EVEN3 "minutes 0 30 30 / 30 0 30 / 30 30 0; "
#define EVEN4 "minutes 0 30 30 30 / 30 0 30 30 / 30 30 0 30 / 30 30 30 0; "
#define VAN "van a 0 0 08:00-17:00; "
#define NO_SELLER "nobody sells “x”, and no van that may go carries it"
#define NO_SKILL "no van has the skills that it needs"
#define NOT_KNOWN "the search ended before it was known what is in its way"

/* @why: of the call that is not in play, or NULL where all are */
static const struct
{
  const char *day;
  const char *in_play;
  const char *why;
} triage[] = {
  { LINE2 VAN, "", NULL },
  { LINE2 VAN "call A 1 30; call B 1 30", "A B", NULL },
  { LINE2 VAN "call A 1 30 needs x; call B 1 30", "B", NO_SELLER },
  { LINE2 VAN "call A 1 30; call B 1 30 needs x; call C 1 30", "A C", NO_SELLER },
  { LINE2 VAN "call A 1 30 needs y,x; counter C 1 5 08:00-17:00 sells y=5", "", NO_SELLER },
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 08:00-17:00 sells x=5", "A", NULL },
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 08:00-17:00 sells x=0", "A", NULL },
  /* Shut all day, or never open long enough for a stop. */
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 sells x=5", "",
    "C, which sells “x”, is shut all day, and no van that may go carries it" },
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 08:00-08:04 12:00-12:01 sells x=5", "",
    "C, which sells “x”, is never open long enough for a stop, and no van that may go carries it" },
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 sells x=5; counter D 1 5 08:00-08:04 sells x=5", "",
    "nobody who sells “x” is open long enough for a stop, and no van that may go carries it" },
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 sells x=5; counter D 1 5 08:00-17:00 sells y=5", "",
    "C, which sells “x”, is shut all day, and no van that may go carries it" },
  { LINE2 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x,x; counter C 1 5 sells x=5", "",
    "van a carries 1 of the 2 “x” that it needs, and C, which sells it, is shut all day" },
  { LINE2 VAN "call A 1 30 needs x; counter C 1 5 08:00-08:04 12:00-12:05 sells x=5", "A", NULL },
  { LINE2 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x", "A", NULL },
  /* One on board, two needed. */
  { LINE2 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x,x", "",
    "van a carries 1 of the 2 “x” that it needs, and nobody sells it" },
  { LINE2 "van a 0 0 08:00-17:00 carries x,y,x; call A 1 30 needs x,x", "A", NULL },
  { LINE2 "van a 0 0 08:00-17:00 carries x; call A 1 30 needs x,x; counter C 1 5 08:00-17:00 sells x=5", "A", NULL },
  /* On board of a van that may not go. */
  { LINE2 VAN "van b 0 0 08:00-17:00 carries x; call A 1 30 needs x", "A", NULL },
  { LINE2 VAN "van b 0 0 08:00-17:00 carries x; call A 1 30 needs x van a", "", NO_SELLER },
  { LINE2 VAN "van b 0 0 08:00-17:00 carries x; call A 1 30 needs x van b", "A", NULL },
  { LINE2 VAN "call A 1 30 skills gas; call B 1 30", "B", NO_SKILL },
  { LINE2 "van a 0 0 08:00-17:00 skills gas; call A 1 30 skills gas", "A", NULL },
  { LINE2 "van a 0 0 08:00-17:00 skills gas; call A 1 30 skills gas,hybrid", "", NO_SKILL },
  { LINE2 VAN "van b 0 0 08:00-17:00 skills gas; call A 1 30 skills gas", "A", NULL },
  { LINE2 VAN "van b 0 0 08:00-17:00 skills gas; call A 1 30 skills gas van a", "",
    "van a has not the skills that it needs, and no other van may go" },
  /* Each van lacks something else. */
  { LINE2 "van a 0 0 08:00-17:00 carries x; van b 0 0 08:00-17:00 carries y; call A 1 30 needs x,y", "",
    "van a carries no “y”, and nobody sells it; van b carries no “x”, and nobody sells it" },
  { LINE2 VAN "van b 0 0 08:00-17:00 skills gas; call A 1 30 skills gas needs x", "", NO_SELLER },
  { LINE2 "van a 0 0 08:00-17:00 carries x; van b 0 0 08:00-17:00 skills gas; call A 1 30 skills gas needs x", "",
    NO_SELLER },
};

static void
test_triage (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (triage); i++)
    {
      g_autoptr (HsProblem) problem = text_day (triage[i].day);
      g_autoptr (GPtrArray) unserved = g_ptr_array_new_with_free_func (hs_trouble_free);
      g_autoptr (GArray) in_play = g_array_new (FALSE, FALSE, sizeof (guint));
      g_autofree char *ids = NULL;
      guint calls[HS_PROBLEM_MAX_CALLS];
      guint n = hs_solve_why_in_play (problem, unserved, calls);

      g_array_append_vals (in_play, calls, n);
      ids = text_calls (problem, in_play);
      g_assert_cmpstr (ids, ==, triage[i].in_play);
      g_assert_cmpuint (n + unserved->len, ==, problem->calls->len);
      g_assert_cmpuint (unserved->len, ==, triage[i].why != NULL ? 1 : 0);
      if (triage[i].why != NULL)
        g_assert_cmpstr (((const HsTrouble *) unserved->pdata[0])->why, ==, triage[i].why);
    }
}

/* @troubles: the late and then the unserved ones; @conflicts and @mends: of the first */
typedef struct
{
  const char *name;
  const char *day;
  const char *troubles;
  const char *why;
  const char *conflicts;
  const char *mends;
} Row;

static const Row rows[] = {
  { "too-early-promise", LINE2 VAN "call A 1 30 07:00-08:00", "A 10",
    "even as the only call work can start at 08:10 at the earliest, and the promise ends at 08:00", "",
    "move A 10 minutes later; start 10 minutes earlier" },
  /* Of two windows the one that ends last counts. */
  { "two-windows", LINE2 VAN "call A 1 30 07:30-08:05 06:00-07:00", "A 5",
    "even as the only call work can start at 08:10 at the earliest, and the promise ends at 08:05", "",
    "move A 5 minutes later; start 5 minutes earlier" },
  { "needs-the-counter-first", LINE2 VAN "call A 1 30 08:00-09:00 needs x; counter C 1 5 10:00-17:00 sells x=7", "A 65",
    "even as the only call work can start at 10:05 at the earliest, and the promise ends at 09:00", "",
    "move A 65 minutes later" },
  { "never-home", LINE2 "van a 0 0 08:00-08:45; call A 1 30", "A 0",
    "even as the only call no van can serve it and be home in time", "", "start 5 minutes earlier" },
  { "after-the-break", LINE2 "van a 0 0 08:00-18:00 break 60 12:00-13:00; call A 1 120 11:00-11:00", "A 130",
    "even as the only call work can start at 13:10 at the earliest, and the promise ends at 11:00", "",
    "move A 130 minutes later" },
  { "no-room-for-the-break", LINE2 "van a 0 0 08:00-15:19 break 60 12:00-13:00; call A 1 120 11:00-11:00", "A 0",
    "even as the only call no van can serve it and be home in time", "", "" },
  /* A first makes B 50 min late; the windows are single minutes, so that starting earlier does not help. */
  { "two", EVEN3 VAN "call A 1 30 08:30-08:30; call B 2 30 08:40-08:40", "B 50",
    "A and B can't both be met: with both of them work starts at least 50 min late", "A",
    "drop A; move B 50 minutes later" },
  { "start-earlier", EVEN3 VAN "call A 1 30 08:00-08:30; call B 2 30 08:00-09:10", "B 20",
    "A and B can't both be met: with both of them work starts at least 20 min late", "A",
    "drop A; move B 20 minutes later; start 20 minutes earlier" },
  /* C has nothing to do with it. */
  { "bystander", EVEN4 VAN "call A 1 30 08:30-08:30; call B 2 30 08:40-08:40; call C 3 30", "B 50",
    "A and B can't both be met: with both of them work starts at least 50 min late", "A",
    "drop A; move B 50 minutes later" },
  /* Any two of them can be met: 08:30 and 09:10; the third is 09:50. */
  { "three", EVEN4 VAN "call A 1 10 08:00-09:15; call B 2 10 08:00-09:15; call C 3 10 08:00-09:20", "C 30",
    "A, B and C can't all be met: with all of them work starts at least 30 min late", "A B",
    "drop A; drop B; move C 30 minutes later; start 30 minutes earlier" },
  /* Room for four of five; the afternoon has nothing to do with it. */
  { "five", LINE2 "cost 100 0; van a 0 0 08:00-20:00; call A 1 60 08:10-11:10; call B 1 60 08:10-11:10; "
    "call C 1 60 08:10-11:10; call D 1 60 08:10-11:10; call E 1 60 08:10-11:10; call F 1 10 15:00-16:00; "
    "call G 1 10 15:00-16:00", "E 60",
    "A, B, C, D and E can't all be met: with all of them work starts at least 1 h late", "A B C D",
    "drop A; drop B; drop C; drop D; move E 60 minutes later" },
  /* 170 min of a day of 120. */
  { "home-too-late", EVEN3 "cost 100 0; van a 0 0 08:00-10:00; call A 1 60; call B 2 20", "A 0",
    "A and B can't both be met: with both of them no van is home in time", "B", "drop B; start 50 minutes earlier" },
  /* Each van can meet one. */
  { "two-vans-are-enough-for-two", EVEN4 VAN "van b 0 0 08:00-17:00; call A 1 30 08:30-08:30; call B 2 30 08:30-08:30; "
    "call C 3 30 08:35-08:35", "C 55", "A, B and C can't all be met: with all of them work starts at least 55 min late",
    "A B", "drop A; drop B; move C 55 minutes later" },
  { "kept-for-one-van", EVEN4 VAN "van b 0 0 08:00-17:00; call A 1 30 08:30-08:30 van a; "
    "call B 2 30 08:30-08:35 van a; call C 3 30 08:30-08:30", "B 55",
    "A and B can't both be met: with both of them work starts at least 55 min late", "A",
    "drop A; move B 55 minutes later" },
  /* One on board for two calls, and nobody sells it. */
  { "last-one-on-board", LINE2 "cost 100 0; van a 0 0 08:00-17:00 carries x; call A 1 40 needs x; call B 1 30 needs x",
    "A 0", "A and B can't both be met: they need 2 of “x”, nobody sells it and 1 is on board", "B", "drop B" },
  { "last-one-in-another-van", LINE2 "cost 100 0; van a 0 0 08:00-17:00 carries x; van b 0 0 08:00-17:00 carries x; "
    "call A 1 40 needs x; call B 1 30 needs x; call C 1 20 needs x", "A 0",
    "A, B and C can't all be met: they need 3 of “x”, nobody sells it and 2 are on board", "B C", "drop B; drop C" },
  { "nobody-sells", LINE2 VAN "call A 1 30 needs x", "A 0", NO_SELLER, "", "" },
  { "no-skill", LINE2 VAN "call A 1 30 skills gas", "A 0", NO_SKILL, "", "" },
};

static char *
mends_text (const HsTrouble *trouble)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < trouble->mends->len; k++)
    g_string_append_printf (text, "%s%s", k > 0 ? "; " : "", (const char *) trouble->mends->pdata[k]);
  return g_string_free (text, FALSE);
}

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (HsProblem) problem = text_day (row->day);
  g_autoptr (HsSolution) solution = text_solve (problem, TRUE);
  g_autoptr (HsSolution) short_one = text_solve (problem, FALSE);
  GPtrArray *list = solution->broken->len > 0 ? solution->broken : solution->unserved;
  GPtrArray *short_list = solution->broken->len > 0 ? short_one->broken : short_one->unserved;
  const HsTrouble *trouble = list->pdata[0];
  const HsTrouble *unexplained = short_list->pdata[0];
  g_autofree char *troubles = text_troubles (problem, list);
  g_autofree char *conflicts = text_calls (problem, trouble->conflicts);
  g_autofree char *mends = mends_text (trouble);

  g_assert_cmpint (solution->status, ==, HS_PLAN_IMPOSSIBLE);
  g_assert_cmpstr (troubles, ==, row->troubles);
  g_assert_cmpstr (trouble->why, ==, row->why);
  g_assert_cmpstr (conflicts, ==, row->conflicts);
  g_assert_cmpstr (mends, ==, row->mends);
  /* Only when asked for; what nobody can do at all is said anyway. */
  g_assert_cmpuint (unexplained->mends->len + unexplained->conflicts->len, ==, 0);
  if (!g_str_equal (row->why, NO_SELLER) && !g_str_equal (row->why, NO_SKILL))
    g_assert_null (unexplained->why);
  else
    g_assert_cmpstr (unexplained->why, ==, row->why);
}

static gboolean
always (gpointer data)
{
  return TRUE;
}

/* Out of time it still says something, and makes nothing up. */
static void
test_out_of_time (void)
{
  g_autoptr (HsProblem) problem = text_day (EVEN3 VAN "call A 1 30 08:30-08:30; call B 2 30 08:40-08:40");
  g_autoptr (HsSolution) solution = hs_solution_new ();
  HsExact exact = { always, NULL, 1000, FALSE, FALSE, 0 };
  const HsTrouble *trouble;

  g_ptr_array_add (solution->broken, hs_trouble_new (1, 3000));
  hs_solve_why_explain (&exact, problem, solution);
  trouble = hs_solution_get_broken (solution, 0);
  g_assert_cmpstr (trouble->why, ==, NOT_KNOWN);
  g_assert_cmpuint (trouble->conflicts->len, ==, 0);
  g_assert_cmpuint (trouble->mends->len, ==, 0);
}

static gboolean
count_down (gpointer data)
{
  guint *left = data;

  return *left == 0 || --*left == 0;
}

/* Cut at any moment it claims nothing that it has not found out: either who is in the way, or that it does not know. */
static void
test_cut (void)
{
  g_autoptr (HsProblem) problem = text_day (EVEN4 VAN "call A 1 10 08:00-09:15; call B 2 10 08:00-09:15; "
                                            "call C 3 10 08:00-09:20");
  guint n_known = 0;
  guint n_unknown = 0;

  for (guint asks = 1; asks < 60; asks++)
    {
      g_autoptr (HsSolution) solution = hs_solution_new ();
      guint left = asks;
      HsExact exact = { count_down, &left, 1000, FALSE, FALSE, 0 };
      const HsTrouble *trouble;

      g_ptr_array_add (solution->broken, hs_trouble_new (2, 1800));
      hs_solve_why_explain (&exact, problem, solution);
      trouble = hs_solution_get_broken (solution, 0);
      n_unknown += g_str_equal (trouble->why, NOT_KNOWN);
      n_known += g_str_has_prefix (trouble->why, "A, B and C can't all be met");
      g_assert_cmpuint (trouble->conflicts->len, ==, g_str_equal (trouble->why, NOT_KNOWN) ? 0 : 2);
    }
  g_assert_cmpuint (n_known + n_unknown, ==, 59);
  g_assert_cmpuint (n_known, >, 0);
  g_assert_cmpuint (n_unknown, >, 0);
}

/* Times before the midnight that the day starts with are those of the day before. */
static void
test_day_before (void)
{
  g_autoptr (HsProblem) problem = text_day (LINE2 "van a 0 0 00:00-17:00; call A 1 30 00:00-00:10");
  g_autoptr (HsSolution) solution = NULL;

  g_array_index (hs_problem_get_call (problem, 0)->windows, HsDaySpan, 0) = (HsDaySpan){ -3600, -1800 };
  solution = text_solve (problem, TRUE);
  g_assert_cmpstr (hs_solution_get_broken (solution, 0)->why, ==,
                   "even as the only call work can start at 00:10 at the earliest, and the promise ends at 23:30 the "
                   "day before");
}

/* What has its reason keeps it. */
static void
test_keeps_reasons (void)
{
  g_autoptr (HsProblem) problem = text_day (EVEN3 VAN "call A 1 30 08:30-08:30; call B 2 30 08:40-08:40");
  g_autoptr (HsSolution) solution = hs_solution_new ();
  HsExact exact = { NULL, NULL, 1000, FALSE, FALSE, 0 };

  g_ptr_array_add (solution->unserved, hs_trouble_new (0, 0));
  g_ptr_array_add (solution->broken, hs_trouble_new (1, 3000));
  ((HsTrouble *) solution->broken->pdata[0])->why = g_strdup ("so it is");
  hs_solve_why_explain (&exact, problem, solution);
  g_assert_cmpstr (hs_solution_get_broken (solution, 0)->why, ==, "so it is");
  /* A alone can be met, as nothing that is kept stands against it. */
  g_assert_cmpstr (hs_solution_get_unserved (solution, 0)->why, ==, "no room was found for it");
  g_assert_cmpuint (hs_solution_get_unserved (solution, 0)->conflicts->len, ==, 0);
  g_assert_cmpuint (hs_solution_get_unserved (solution, 0)->mends->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/solve-why/triage", test_triage);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/plan/solve-why/%s", rows[i].name);

      g_test_add_data_func (path, &rows[i], test_row);
    }
  g_test_add_func ("/plan/solve-why/out-of-time", test_out_of_time);
  g_test_add_func ("/plan/solve-why/cut", test_cut);
  g_test_add_func ("/plan/solve-why/day-before", test_day_before);
  g_test_add_func ("/plan/solve-why/keeps-reasons", test_keeps_reasons);
  return g_test_run ();
}
