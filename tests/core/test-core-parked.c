// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Answers to "parked how long", and whether they fit the draw. */

#include "hs-parked.h"

#include "core-test.h"
#include "hs-drain.h"

#include <math.h>

static void
test_parse (void)
{
  static const struct
  {
    const char *text;
    double days;
    double give;
  } rows[] = {
    { "10 days", 10, 0.5 },
    { "1 day", 1, 0.5 },
    { "16 hours", 16 / 24.0, 0.5 / 24 },
    { "16h", 16 / 24.0, 0.5 / 24 },
    { "16 hrs.", 16 / 24.0, 0.5 / 24 },
    { "90 minutes", 90 / 1440.0, 0.5 / 1440 },
    { "two weeks", 14, 1 },
    { "a week", 7, 1 },
    { "About a week, I think", 7, 1 },
    { "a fortnight", 14, 1 },
    { "fortnight", 14, 1 },
    { "Parked for three nights", 3, 0.5 },
    { "1.5 days", 1.5, 0.5 },
    { "half a day", 0.5, 0.5 },
    { "a couple of days", 2, 0.5 },
    { "half an hour", 0.5 / 24, 0.5 / 24 },
    { "a half day", 0.5, 0.5 },
    { "a few days", 3, 1.5 },
    { "for a few weeks", 21, 8 },
    { "two and a half weeks", 17.5, 1 },
    { "2 and a half days", 2.5, 0.5 },
    { "one and a half hours", 1.5 / 24, 0.5 / 24 },
    { "a day or two", 1.5, 1 },
    { "a week or two, I think", 10.5, 4.5 },
    { "a week or two months", 7, 1 },
    { "two or so weeks", 14, 1 },
    { "and a half day", 0.5, 0.5 },
    { "a couple or three days", 2.5, 1 },
    { "a week or", 7, 1 },
    { "a week - two", 10.5, 4.5 },
    { "two hours or three", 2.5 / 24, 1.0 / 24 },
    { "10 to 14 days", 12, 2.5 },
    { "10-14 days", 12, 2.5 },
    { "two or three weeks", 17.5, 4.5 },
    { "over winter, 4 months", 120, 5 },
    { "a year", 365, 30 },
    { "overnight", 0.5, 0.2 },
    { "all weekend", 2.5, 0.5 },
    { "12", 12, 0.5 },
    { " 12 ", 12, 0.5 },
    { "0.5", 0.5, 0.5 },
    { "3 d", 3, 0.5 },
    { "2 weeks, ran 10 minutes yesterday", 14, 1 },
    { "TDM 4409 stood 3 weeks", 21, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsParked parked = { -1, -1 };

      g_test_message ("%s", rows[i].text);
      g_assert_true (hs_parked_parse (rows[i].text, &parked));
      g_assert_cmpfloat_with_epsilon (parked.days, rows[i].days, 1e-9);
      g_assert_cmpfloat_with_epsilon (parked.give, rows[i].give, 1e-9);
    }
}

static void
test_parse_refuses (void)
{
  static const char *const rows[] = {
    "",        " ",           "since Friday", "a while",   "days",  "not long", "a",         "one",
    "no idea", "last winter", "5550112",      "12 345 67", "today", "hours",    "3 bananas", "99999999999999999999",
    "- -",     "to",          "-3",           "Ω 三",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsParked parked = { -1, -1 };

      g_test_message ("%s", rows[i]);
      g_assert_false (hs_parked_parse (rows[i], &parked));
      g_assert_cmpfloat (parked.days, ==, -1);
    }
  g_assert_false (hs_parked_parse (NULL, NULL));
}

/* 60 Ah × 0.4 = 24 Ah; at 0.31 A they last 3.2 days, at 0.024 A 41.7. */
static void
test_judge (void)
{
  static const struct
  {
    const char *answer;
    double amps;
    double amp_hours;
    HsParkedVerdict verdict;
    double days;
    const char *words;
  } rows[] = {
    { "10 days", 0.31, 60, HS_PARKED_FITS, 3.2258,
      "fits: 10.0 days at 0.31 A take 74.4 Ah of the 24.0 Ah that start it; they are gone after 3.2 days" },
    { "3 days", 0.31, 60, HS_PARKED_FITS, 3.2258, "gone after 3.2 days" },
    { "2 days", 0.31, 60, HS_PARKED_DOES_NOT_FIT, 3.2258,
      "does not fit: would take 3.2 days; 2.0 days at 0.31 A take 14.9 Ah of the 24.0 Ah that start it, unless the "
      "battery is worn or was not full" },
    { "10 days", 0.024, 60, HS_PARKED_DOES_NOT_FIT, 41.6667, "does not fit: would take 41.7 days" },
    { "6 weeks", 0.024, 60, HS_PARKED_FITS, 41.6667, "gone after 41.7 days" },
    { "16 hours", 0.031, 45, HS_PARKED_DOES_NOT_FIT, 24.1935, "would take 24.2 days; 0.7 days at 0.031 A" },
    { "10 days", 1e-9, 60, HS_PARKED_DOES_NOT_FIT, 1e9, "would take more than 9999 days" },
    { "since Friday", 0.31, 60, HS_PARKED_CANNOT_TELL, 3.2258, "can't tell: the answer names no time" },
    { "10 days", 0, 60, HS_PARKED_CANNOT_TELL, 0, "can't tell: no sleeping draw was measured" },
    { "10 days", -0.3, 60, HS_PARKED_CANNOT_TELL, 0, "can't tell: no sleeping draw was measured" },
    { "10 days", NAN, 60, HS_PARKED_CANNOT_TELL, 0, "can't tell: no sleeping draw was measured" },
    { "10 days", 0.31, 0, HS_PARKED_CANNOT_TELL, 0, "can't tell: the battery's amp-hours are not known" },
    { "10 days", 0.31, NAN, HS_PARKED_CANNOT_TELL, 0, "can't tell: the battery's amp-hours are not known" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsParked parked;
      gboolean read = hs_parked_parse (rows[i].answer, &parked);
      HsParkedCase given = { read ? &parked : NULL, rows[i].amps, rows[i].amp_hours, HS_DRAIN_USUAL_SHARE };
      g_autoptr (HsParkedResult) result = hs_parked_judge (&given);

      g_test_message ("%s: %s", rows[i].answer, result->words);
      g_assert_cmpint (result->verdict, ==, rows[i].verdict);
      g_assert_cmpfloat_with_epsilon (result->days, rows[i].days, 1e-3 + rows[i].days * 1e-6);
      g_assert_nonnull (strstr (result->words, rows[i].words));
      g_assert_true (g_str_has_prefix (result->words, hs_parked_verdict_label (result->verdict)));
    }
  hs_parked_result_free (NULL);
}

/* The more is drawn and the longer it stood, the better it fits; more amp-hours take longer. */
static void
test_grows (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20);
  guint n_fits = 0;

  for (guint i = 0; i < 2000; i++)
    {
      HsParked parked = { g_rand_double_range (rand, 0.1, 60), 0 };
      HsParked longer = { parked.days * 1.1, 0 };
      HsParkedCase given = { &parked, g_rand_double_range (rand, 0.01, 1), g_rand_double_range (rand, 30, 110), 0.4 };
      HsParkedCase more = { &longer, given.amps * 1.1, given.amp_hours, 0.4 };
      g_autoptr (HsParkedResult) result = hs_parked_judge (&given);
      g_autoptr (HsParkedResult) better = hs_parked_judge (&more);

      g_assert_true ((parked.days * 24 * given.amps >= given.amp_hours * 0.4 * (1 - 1e-12))
                     == (result->verdict == HS_PARKED_FITS));
      g_assert_true (result->verdict != HS_PARKED_FITS || better->verdict == HS_PARKED_FITS);
      g_assert_cmpfloat (better->days, <, result->days);
      n_fits += result->verdict == HS_PARKED_FITS;
    }
  g_assert_cmpuint (n_fits, >, 200);
  g_assert_cmpuint (n_fits, <, 1990);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/parked/parse", test_parse);
  g_test_add_func ("/parked/parse-refuses", test_parse_refuses);
  g_test_add_func ("/parked/judge", test_judge);
  g_test_add_func ("/parked/grows", test_grows);
  return g_test_run ();
}
