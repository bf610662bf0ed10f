// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Bring a doubtful part or leave it. The expected figures were worked out as fractions. */

#include "core-test.h"

#include "hs-bring.h"

static const struct
{
  const char *what;
  HsBringQuestion question;
  double p;
  double line;
  gboolean bring;
  double vain_cents;
  double trip_cents;
  gint64 gain_cents;
} rows[] = {
  { "the starter: needed in 3 of 7, guessed at 0.35",
    { 0.35, 10, 3, 7, 11800, 15, 6, 38, 9, 160, 42 }, 6.5 / 17, 2730.0 / 9188, TRUE, 2730, 6458, 783 },
  { "the same, never needed in 5, guessed at 0.2",
    { 0.2, 10, 0, 5, 11800, 15, 6, 38, 9, 160, 42 }, 2.0 / 15, 2730.0 / 9188, FALSE, 2730, 6458, -1505 },
  { "in the van already: nothing lost, always brought",
    { 0.5, 1, 0, 0, 0, 0, 0, 10, 0, 160, 42 }, 0.5, 0, TRUE, 0, 1600, 800 },
  { "a loss of 742.5 cents is rounded away from nothing",
    { 0.1, 4, 1, 6, 4000, 20, 5, 25, 12.5, 160, 42 }, 0.14, 1600.0 / 6125, FALSE, 1600, 4525, -743 },
  { "a gain of half a cent is one",
    { 0.5, 1, 0, 0, 100, 2, 0, 3, 0, 1, 0 }, 0.5, 0.4, TRUE, 2, 3, 1 },
  { "the next door: a second trip costs nothing",
    { 0.9, 1, 0, 0, 10000, 10, 0, 0, 0, 160, 42 }, 0.9, 1, FALSE, 1000, 0, -100 },
  { "even: p on the line is left",
    { 0.5, 1, 0, 0, 1000, 100, 0, 10, 0, 100, 0 }, 0.5, 0.5, FALSE, 1000, 1000, 0 },
  { "only counted, no guess",
    { 0, 0, 3, 4, 1000, 100, 0, 10, 0, 100, 0 }, 0.75, 0.5, TRUE, 1000, 1000, 500 },
};

static void
test_rows (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      HsBringAnswer answer;

      g_test_message ("%s", rows[i].what);
      g_assert_true (hs_bring_weigh (&rows[i].question, &answer, &error));
      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (answer.p, rows[i].p, 1e-12);
      g_assert_cmpfloat_with_epsilon (answer.line, rows[i].line, 1e-12);
      g_assert_cmpint (answer.bring, ==, rows[i].bring);
      g_assert_cmpfloat_with_epsilon (answer.vain_cents, rows[i].vain_cents, 1e-9);
      g_assert_cmpfloat_with_epsilon (answer.trip_cents, rows[i].trip_cents, 1e-9);
      g_assert_cmpint (answer.gain_cents, ==, rows[i].gain_cents);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    HsBringQuestion question;
    const char *words;
  } refused[] = {
    { { 0.5, 1, 4, 3, 100, 10, 1, 1, 1, 160, 42 }, "hits: " },
    { { 0.5, 0, 0, 0, 100, 10, 1, 1, 1, 160, 42 }, "weight: " },
    { { 0.5, 1, 0, 0, 0, 10, 0, 0, 0, 160, 42 }, "trip_minutes: " },
    { { 0.5, 1, 0, 0, 1e18, 100, 0, 1, 1, 160, 42 }, "cost: " },
  };
  HsBringAnswer answer = { .gain_cents = 99 };

  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_bring_weigh (&refused[i].question, &answer, &error), &error, refused[i].words);
    }
  g_assert_cmpint (answer.gain_cents, ==, 99);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bring/rows", test_rows);
  g_test_add_func ("/bring/refused", test_refused);
  return g_test_run ();
}
