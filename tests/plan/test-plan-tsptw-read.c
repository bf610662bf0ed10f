// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The text format with one vehicle and windows: what is read, and where and why the rest is refused. */

#include "hs-plan-error.h"
#include "hs-tsptw-read.h"

#include <string.h>

typedef struct
{
  const char *text;
  guint decimals;
  gint64 leg;
  gint64 from;
  gint64 to;
} Accepted;

/* The leg from 0 to 1 and the window of 1. */
static void
test_accepted (void)
{
  static const Accepted rows[] = {
    { "2\n0 7\n8 0\n0 99\n3 5\n", 0, 7, 3, 5 },
    { "2\n0 7\n8 0\n0 99\n3 5", 0, 7, 3, 5 },
    { "2\r\n0\t7 \r\n 8 0\r\n0 99\r\n3 5\r\n", 0, 7, 3, 5 },
    { "# a note\n\n2 # nodes\n0 7 # first\n8 0\n#\n0 99\n3 5\n", 0, 7, 3, 5 },
    { "2\n0\n7\n8 0\n0 99\n3 5\n", 0, 7, 3, 5 },
    { "2\n0 7\n8 0\n0 99 10 extra\n3 5 0 0\n999 0 0\nwhatever \xff\n", 0, 7, 3, 5 },
    { "2\n0 7.5\n8 0\n0 99\n3 5.25\n", 2, 750, 300, 525 },
    { "2\n0 7.0\n8.000 0\n0 99.00\n3.0 5\n", 0, 7, 3, 5 },
    { "2\n0 0.123456789\n8 0\n0 99\n3 5\n", 9, 123456789, 3000000000, 5000000000 },
    { "2.0\n0 7\n8 0\n0 99\n3 3\n", 0, 7, 3, 3 },
    { "2\n0 1000000000000000\n8 0\n0 99\n3 5\n", 0, 1000000000000000, 3, 5 },
    { "2\n0 .5\n8 0\n0 99\n3 5\n", 1, 5, 30, 50 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsTsptw) problem = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_tsptw_read (rows[i].text, strlen (rows[i].text), &problem, &error));
      g_assert_no_error (error);
      g_assert_cmpint (problem->n_nodes, ==, 2);
      g_assert_cmpint (problem->decimals, ==, rows[i].decimals);
      g_assert_cmpint (hs_tsptw_get_drive (problem, 0, 1), ==, rows[i].leg);
      g_assert_cmpint (problem->from[1], ==, rows[i].from);
      g_assert_cmpint (problem->to[1], ==, rows[i].to);
      g_assert_cmpint (problem->from[0], ==, 0);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *text;
    const char *where;
    const char *why;
  } rows[] = {
    { "", "line 1: number of nodes", "the file ends" },
    { "\n\n# only a note", "line 3: number of nodes", "the file ends" },
    { "two\n", "line 1: number of nodes", "not a number" },
    { "0\n", "line 1: number of nodes", "from 1 to 512" },
    { "-3\n", "line 1: number of nodes", "below zero" },
    { "513\n", "line 1: number of nodes", "from 1 to 512" },
    { "2.5\n", "line 1: number of nodes", "whole numbers" },
    { "2 2\n0 7\n8 0\n0 99\n3 5\n", "line 1: number of nodes", "alone" },
    { "2\n0 7\n8 0\n0 99\n", "window of 1", "the file ends" },
    { "2\n0 7\n8\n", "leg from 1 to 1", "the file ends" },
    { "2\n0 7 1\n8 0\n0 99\n3 5\n", "line 2: legs from 0", "more numbers" },
    { "3\n0 7 1\n8 0\n2 3 0\n0 99\n3 5\n1 9\n", "line 3: legs from 1", "the row has only 2 of 3 numbers" },
    { "2\n0 7\n8\n0 99\n3 5\n", "line 3: legs from 1", "the row has only 1 of 2 numbers" },
    { "2\n0 7\n8 0\n0 99\n3 5\n4 6\n", "line 6: end", "nothing may stand behind the last window" },
    { "2\n0 7\n8 0\n0 99\n3 5\n\n# so\n7\n", "line 8: end", "nothing may stand behind the last window" },
    { "2\n0 7\n8 0\n0 99\n3 5\n9990 0 0\n", "line 6: end", "nothing may stand behind the last window" },
    { "2\n0 7\n8 0\n0 99\n3 5\nnotes\n999\n", "line 6: end", "nothing may stand behind the last window" },
    { "2\n0 x\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "“x”" },
    { "2\n0 -7\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "below zero" },
    { "2\n0 nan\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "plain numbers" },
    { "2\n0 1e3\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "exponent" },
    { "2\n0 1,5\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "point" },
    { "2\n0 7\xc3\xa9\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "is not a number" },
    { "2\n0 00000000000000000000000000000000000000000007\n8 0\n0 99\n3 5\n", "leg from 0 to 1", "is not a number" },
    { "2\n0 1000000000000001\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "too large" },
    { "2\n0 7\n8 0.123456789\n0 99\n3 99999999\n", "line 5: window of 1", "too large" },
    { "2\n0 0.1234567891\n8 0\n0 99\n3 5\n", "line 2: leg from 0 to 1", "decimals" },
    { "2\n0 7\n8 0\n0 99\n3\n", "line 5: window of 1", "begin without an end" },
    { "2\n0 7\n8 0\n0 99\n3 # 5\n", "line 5: window of 1", "begin without an end" },
    { "2\n0 7\n8 0\n0 99\n5 3\n", "line 5: window of 1", "ends before it begins" },
    { "2\n0 7\n8 0\n0 99\n-5 3\n", "line 5: window of 1", "below zero" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsTsptw *problem = NULL;
      g_autoptr (GError) error = NULL;

      g_test_message ("row %u", i);
      g_assert_false (hs_tsptw_read (rows[i].text, strlen (rows[i].text), &problem, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
      g_assert_null (problem);
      g_assert_nonnull (strstr (error->message, rows[i].where));
      g_assert_nonnull (strstr (error->message, rows[i].why));
    }
}

/* Every beginning of a good file, and bytes of 0 in it, are refused without a crash. */
static void
test_hostile (void)
{
  static const char text[] = "3\n0 7 1.5\n8 0 2\n4 4 0\n0 99\n3 5\n6 12.75";
  gsize least = strlen ("3\n0 7 1.5\n8 0 2\n4 4 0\n0 99\n3 5\n6 12");

  for (gsize length = 0; length < sizeof text; length++)
    {
      g_autoptr (HsTsptw) problem = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *exact = g_memdup2 (text, length);

      g_assert_cmpint (hs_tsptw_read (exact, length, &problem, &error), ==,
                       length >= least && length < sizeof text);
      g_assert_cmpint (error == NULL, ==, problem != NULL);
    }
  for (gsize at = 0; at < least; at++)
    {
      g_autoptr (HsTsptw) problem = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *holed = g_memdup2 (text, sizeof text);

      holed[at] = '\0';
      g_assert_false (hs_tsptw_read (holed, sizeof text - 1, &problem, &error));
      g_assert_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tsptw-read/accepted", test_accepted);
  g_test_add_func ("/tsptw-read/refused", test_refused);
  g_test_add_func ("/tsptw-read/hostile", test_hostile);
  return g_test_run ();
}
