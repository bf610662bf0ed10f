// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where a drive is known from, in words. */

#include "hs-travel-say.h"

static char *
as_it_is (const char *text)
{
  return (char *) text;
}

static char *
one_or_many (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

static char *
in_capitals (const char *text)
{
  return (char *) (g_str_equal (text, "roads") ? "ROADS" : "GUESS: %s");
}

static void
test_say (void)
{
  static const struct
  {
    HsTravelSource source, base;
    guint trips, hour_trips;
    gboolean guess;
    const char *says;
  } rows[] = {
    { HS_TRAVEL_OWN, HS_TRAVEL_OWN, 20, HS_TRAVEL_SURE_SAMPLES, FALSE, "5 own trips at that hour" },
    { HS_TRAVEL_OWN, HS_TRAVEL_OWN, 20, HS_TRAVEL_SURE_SAMPLES - 1, FALSE, "20 own trips, of them at that hour 4" },
    { HS_TRAVEL_OWN, HS_TRAVEL_OWN, 20, 2, FALSE, "20 own trips, of them at that hour 2" },
    { HS_TRAVEL_OWN, HS_TRAVEL_OWN, 20, 1, FALSE, "20 own trips" },
    { HS_TRAVEL_OWN, HS_TRAVEL_OWN, 1, 0, FALSE, "1 own trip" },
    { HS_TRAVEL_FEW, HS_TRAVEL_OWN, 3, 3, FALSE, "3 own trips" },
    { HS_TRAVEL_FEW, HS_TRAVEL_TABLED, 1, 0, FALSE, "1 own trip and your table" },
    { HS_TRAVEL_FEW, HS_TRAVEL_TABLED, 2, 0, FALSE, "2 own trips and your table" },
    { HS_TRAVEL_FEW, HS_TRAVEL_ROADS, 1, 0, FALSE, "1 own trip and roads" },
    { HS_TRAVEL_FEW, HS_TRAVEL_ROADS, 3, 0, FALSE, "3 own trips and roads" },
    { HS_TRAVEL_FEW, HS_TRAVEL_GUESS, 1, 0, FALSE, "1 own trip and the estimate" },
    { HS_TRAVEL_FEW, HS_TRAVEL_GUESS, 4, 0, TRUE, "guess: 4 own trips and the estimate" },
    { HS_TRAVEL_TABLED, HS_TRAVEL_TABLED, 0, 0, FALSE, "your table" },
    { HS_TRAVEL_TABLED, HS_TRAVEL_TABLED, 0, 0, TRUE, "guess: your table" },
    { HS_TRAVEL_ROADS, HS_TRAVEL_ROADS, 0, 0, FALSE, "roads" },
    { HS_TRAVEL_GUESS, HS_TRAVEL_GUESS, 0, 0, TRUE, "guess" },
  };
  const HsTongue english = { as_it_is, one_or_many };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsTravelLeg leg = { .source = rows[i].source, .base = rows[i].base, .trips = rows[i].trips,
                                .hour_trips = rows[i].hour_trips, .guess = rows[i].guess };
      g_autofree char *says = hs_travel_leg_say (&leg, &english);

      g_assert_cmpstr (says, ==, rows[i].says);
    }
}

/* Every part of it is in the language that is handed in. */
static void
test_tongue (void)
{
  const HsTongue other = { in_capitals, one_or_many };
  const HsTravelLeg leg = { .source = HS_TRAVEL_ROADS, .base = HS_TRAVEL_ROADS, .guess = TRUE };
  g_autofree char *says = hs_travel_leg_say (&leg, &other);

  g_assert_cmpstr (says, ==, "GUESS: ROADS");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/travel-say/say", test_say);
  g_test_add_func ("/plan/travel-say/tongue", test_tongue);
  return g_test_run ();
}
