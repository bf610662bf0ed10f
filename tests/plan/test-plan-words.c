// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Clock times on either side of midnight, and lengths. */

#include "hs-plan-mend.h"
#include "hs-plan-words.h"

#define CLOCK(hour, minute) ((hour) * 3600 + (minute) * 60)

static void
test_clock (void)
{
  static const struct
  {
    gint64 seconds;
    const char *clock;
  } rows[] = {
    { 0, "00:00" },
    { 59, "00:00" },
    { CLOCK (9, 12), "09:12" },
    { CLOCK (23, 59) + 59, "23:59" },
    { CLOCK (24, 0), "00:00 the next day" },
    { CLOCK (47, 59), "23:59 the next day" },
    { CLOCK (48, 0), "00:00 days later" },
    { -1, "23:59 the day before" },
    { -60, "23:59 the day before" },
    { -61, "23:58 the day before" },
    { -CLOCK (0, 30), "23:30 the day before" },
    { -CLOCK (24, 0), "00:00 the day before" },
    { -CLOCK (24, 0) - 1, "23:59 days before" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_words_clock (rows[i].seconds);

      g_assert_cmpstr (text, ==, rows[i].clock);
    }
}

static void
test_length (void)
{
  static const struct
  {
    gint64 seconds;
    const char *length;
  } rows[] = {
    { 0, "0 s" },       { 40, "40 s" },        { 60, "1 min" },     { 61, "2 min" },
    { 480, "8 min" },   { 3540, "59 min" },    { 3541, "1 h" },     { 3600, "1 h" },
    { 3660, "1 h 1 min" }, { 7200, "2 h" },    { 9000, "2 h 30 min" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_words_length (rows[i].seconds);

      g_assert_cmpstr (text, ==, rows[i].length);
    }
}

static void
test_mends (void)
{
  const struct
  {
    char *said;
    const char *wanted;
  } rows[] = {
    { hs_mend_drop ("A-0021"), "drop A-0021" },
    { hs_mend_move ("A-0021", 1), "move A-0021 1 minute later" },
    { hs_mend_move ("A-0021", 2), "move A-0021 2 minutes later" },
    { hs_mend_start (1), "start 1 minute earlier" },
    { hs_mend_start (45), "start 45 minutes earlier" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_cmpstr (rows[i].said, ==, rows[i].wanted);
      g_free (rows[i].said);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/words/clock", test_clock);
  g_test_add_func ("/plan/words/length", test_length);
  g_test_add_func ("/plan/words/mends", test_mends);
  return g_test_run ();
}
