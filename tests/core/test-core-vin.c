// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a VIN says. The sums and check digits are worked out by hand from tables III to V of 49 CFR 565.15; VIN-3 is the
 * sample of the regulation itself. */

#include "reference-test.h"

#include "hs-vin.h"

static const struct
{
  const char *id;
  const char *vin;
  guint sum;
  char digit;
  HsVinCheck check;
} checks[] = {
  { "VIN-1", "1M8GDM9AXKP042788", 351, 'X', HS_VIN_VALID },
  { "VIN-2", "11111111111111111", 89, '1', HS_VIN_VALID },
  { "VIN-3", "1G4AH59H45G118341", 411, '4', HS_VIN_VALID },
  { "VIN-3, position 9 not read", "1G4AH59H?5G118341", 411, '4', HS_VIN_WRONG },
  { "VIN-4", "LJCPCBLCX11000237", 186, 'X', HS_VIN_VALID },
  { "VIN-5", "5GZCZ43D13S812715", 408, '1', HS_VIN_VALID },
  { "VIN-7", "1M8GDM9AXKP042778", 348, '7', HS_VIN_WRONG },
  { "VIN-8", "WVWZZZ1JZ3W386752", 460, '9', HS_VIN_NOT_USED },
  { "European with a right one", "WVWZZZ1J93W386752", 460, '9', HS_VIN_VALID },
  { "Chinese with a wrong one", "LJCPCBLC111000237", 186, 'X', HS_VIN_WRONG },
  { "a letter where the digit stands", "1M8GDM9AAKP042788", 351, 'X', HS_VIN_WRONG },
};

static void
test_checks (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (checks); i++)
    {
      g_test_message ("%s", checks[i].id);
      g_assert_cmpuint (hs_vin_sum (checks[i].vin), ==, checks[i].sum);
      g_assert_cmpint (hs_vin_check_digit (checks[i].vin), ==, checks[i].digit);
      g_assert_cmpint (hs_vin_check (checks[i].vin), ==, checks[i].check);
    }
  g_assert_cmpstr (hs_vin_check_id (HS_VIN_VALID), ==, "valid");
  g_assert_cmpstr (hs_vin_check_id (HS_VIN_WRONG), ==, "wrong");
  g_assert_cmpstr (hs_vin_check_id (HS_VIN_NOT_USED), ==, "not_used");
}

/* Table III of 49 CFR 565.15: each letter's value, seen through a VIN of ones with the letter at position 17, whose
 * weight is 2: 89 − 2 + 2 × value. */
static void
test_letters (void)
{
  static const struct
  {
    char letter;
    guint value;
  } rows[] = {
    { 'A', 1 }, { 'B', 2 }, { 'C', 3 }, { 'D', 4 }, { 'E', 5 }, { 'F', 6 }, { 'G', 7 }, { 'H', 8 },
    { 'J', 1 }, { 'K', 2 }, { 'L', 3 }, { 'M', 4 }, { 'N', 5 }, { 'P', 7 }, { 'R', 9 },
    { 'S', 2 }, { 'T', 3 }, { 'U', 4 }, { 'V', 5 }, { 'W', 6 }, { 'X', 7 }, { 'Y', 8 }, { 'Z', 9 },
    { '0', 0 }, { '9', 9 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      char vin[] = "11111111111111111";

      vin[16] = rows[i].letter;
      g_assert_cmpuint (hs_vin_sum (vin), ==, 87 + 2 * rows[i].value);
    }
}

/* A single wrong digit anywhere but at position 9 always shows: no weight is a multiple of 11. */
static void
test_one_digit_off (void)
{
  for (guint place = 0; place < HS_VIN_LENGTH; place++)
    for (char digit = '1'; digit <= '5'; digit++)
      {
        char vin[] = "11111111111111111";

        if (digit == '1')
          continue;
        vin[place] = digit;
        g_assert_cmpint (hs_vin_check (vin), ==, HS_VIN_WRONG);
      }
}

static void
test_read (void)
{
  static const char *const typed[] = {
    "1M8GDM9AXKP042788", "1m8gdm9axkp042788", " 1M8 GDM9A XKP0 42788 ", "1M8-GDM9AXKP-042788", "1M8GDM9AXKP042788\n",
  };

  for (guint i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *vin = NULL;

      g_assert_true (hs_vin_read (typed[i], &vin, &error));
      g_assert_cmpstr (vin, ==, "1M8GDM9AXKP042788");
    }
}

static void
test_read_refused (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "", "it has 0 characters, a VIN has 17: count them again" },
    { "1M8GDM9AXKP04278", "it has 16 characters" },                                    /* VIN-10 */
    { "1M8GDM9AXKP04278", "before 1981" },
    { "1M8GDM9AXKP0427888", "it has 18 characters, a VIN has 17: there is one too many" },
    { "1M8GDM9AXKPO42788", "read I as 1, O and Q as 0: 1M8GDM9AXKP042788" },            /* VIN-9 */
    { "IM8GDM9AXKPQ42788", "1M8GDM9AXKP042788, whose check digit is right" },
    { "1M8GDM9AXKPO42778", "1M8GDM9AXKP042778" },
    { "1M8GDM9A_KP042788", "letters A to Z and digits only" },
    { "1M8GDM?AXKP042788", "letters A to Z and digits only" },
    { "1M8GDM9AÉKP042788", "letters A to Z and digits only" },
    { "\xff" "M8GDM9AXKP042788", "letters A to Z and digits only" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      char *vin = (char *) "untouched";

      assert_bad_value (hs_vin_read (rows[i].text, &vin, &error), &error, rows[i].words);
      g_assert_cmpstr (vin, ==, "untouched");
    }
}

/* The check digit of a corrected reading is praised only where it is right. */
static void
test_read_praise (void)
{
  g_autoptr (GError) error = NULL;
  char *vin = NULL;

  g_assert_false (hs_vin_read ("1M8GDM9AXKPO42778", &vin, &error));
  g_assert_null (strstr (error->message, "is right"));
}

static const struct
{
  const char *id;
  const char *vin;
  const char *region;
  const char *country;
  gboolean needs;
} places[] = {
  { "REG-1", "7FA11111111111111", "North America", "USA", TRUE },
  { "REG-2", "7A511111111111111", "Oceania", "New Zealand", FALSE },
  { "REG-3", "WVW11111111111111", "Europe", "Germany", FALSE },
  { "7E is the last of New Zealand", "7E111111111111111", "Oceania", "New Zealand", FALSE },
  { "70 is the last of 7", "70111111111111111", "North America", "USA", TRUE },
  { "71 too", "71111111111111111", "North America", "USA", TRUE },
  { "1", "1M8GDM9AXKP042788", "North America", "USA", TRUE },
  { "2", "2T111111111111111", "North America", "Canada", TRUE },
  { "3", "3VW11111111111111", "North America", "Mexico", TRUE },
  { "3, not Mexico", "38111111111111111", "North America", "", TRUE },
  { "4", "4T111111111111111", "North America", "USA", TRUE },
  { "5", "5GZ11111111111111", "North America", "USA", TRUE },
  { "6", "6G111111111111111", "Oceania", "Australia", FALSE },
  { "8", "8AF11111111111111", "South America", "Argentina", FALSE },
  { "9", "9BW11111111111111", "South America", "Brazil", FALSE },
  { "93", "93111111111111111", "South America", "Brazil", FALSE },
  { "A", "AFA11111111111111", "Africa", "South Africa", FALSE },
  { "G", "GA111111111111111", "Africa", "", FALSE },
  { "H is China's", "HA111111111111111", "Asia", "China", TRUE },
  { "J", "JTD11111111111111", "Asia", "Japan", FALSE },
  { "KL", "KL111111111111111", "Asia", "South Korea", FALSE },
  { "KF", "KF111111111111111", "Asia", "Israel", FALSE },
  { "L", "LJC11111111111111", "Asia", "China", TRUE },
  { "ML", "ML111111111111111", "Asia", "Thailand", FALSE },
  { "R", "RF111111111111111", "Asia", "Taiwan", FALSE },
  { "S", "SAL11111111111111", "Europe", "United Kingdom", FALSE },
  { "SU", "SU111111111111111", "Europe", "Poland", FALSE },
  { "TW to T1", "T1111111111111111", "Europe", "Portugal", FALSE },
  { "VF", "VF111111111111111", "Europe", "France", FALSE },
  { "VS", "VS111111111111111", "Europe", "Spain", FALSE },
  { "X", "XL111111111111111", "Europe", "Netherlands", FALSE },
  { "Y", "YV111111111111111", "Europe", "Sweden", FALSE },
  { "Z", "ZFA11111111111111", "Europe", "Italy", FALSE },
  { "0 is nobody's", "01111111111111111", "", "", FALSE },
};

static void
test_places (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_test_message ("%s", places[i].id);
      g_assert_cmpstr (hs_vin_region (places[i].vin), ==, places[i].region);
      g_assert_cmpstr (hs_vin_country (places[i].vin), ==, places[i].country);
      g_assert_cmpint (hs_vin_needs_check_digit (places[i].vin), ==, places[i].needs);
    }
}

static void
test_wmi (void)
{
  g_autofree char *plain = hs_vin_dup_wmi ("1M8GDM9AXKP042788");
  g_autofree char *small = hs_vin_dup_wmi ("1A9BE20201N753123");

  g_assert_cmpstr (plain, ==, "1M8");
  g_assert_cmpstr (small, ==, "1A9753");
}

/* Whose position 7 tells: cars and multipurpose vehicles from North America, or with a right check digit. */
static void
test_era (void)
{
  static const struct
  {
    const char *vin;
    HsMakerType type;
    HsVinEra era;
  } rows[] = {
    { "5GZCZ43D13S812715", HS_MAKER_MPV, HS_VIN_ERA_EARLY },      /* VIN-5: position 7 is 3 */
    { "1G4AH59H45G118341", HS_MAKER_CAR, HS_VIN_ERA_EARLY },
    { "1G4AH5AH45G118341", HS_MAKER_CAR, HS_VIN_ERA_LATE },
    { "1M8GDM9AXKP042788", HS_MAKER_BUS, HS_VIN_ERA_OPEN },       /* VIN-1 */
    { "1M8GDM9AXKP042788", HS_MAKER_NO_TYPE, HS_VIN_ERA_OPEN },
    { "1M8GDM9AXKP042788", HS_MAKER_TRUCK, HS_VIN_ERA_OPEN },
    { "LJCPCBLCX11000237", HS_MAKER_MOTORCYCLE, HS_VIN_ERA_OPEN },
    { "WVWZZZ1JZ3W386752", HS_MAKER_CAR, HS_VIN_ERA_OPEN },       /* VIN-8 */
    { "WVWZZZ1J93W386752", HS_MAKER_CAR, HS_VIN_ERA_EARLY },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_vin_era (rows[i].vin, rows[i].type), ==, rows[i].era);
}

static const struct
{
  char code;
  HsVinEra era;
  guint n_years;
  gint64 first;
  gint64 second;
} years[] = {
  { 'K', HS_VIN_ERA_OPEN, 2, 1989, 2019 },                        /* VIN-1 */
  { 'K', HS_VIN_ERA_EARLY, 1, 1989, 0 },
  { 'K', HS_VIN_ERA_LATE, 1, 2019, 0 },
  { 'A', HS_VIN_ERA_OPEN, 2, 1980, 2010 },
  { 'Y', HS_VIN_ERA_EARLY, 1, 2000, 0 },
  { '1', HS_VIN_ERA_EARLY, 1, 2001, 0 },
  { '9', HS_VIN_ERA_EARLY, 1, 2009, 0 },
  { 'V', HS_VIN_ERA_OPEN, 2, 1997, 2027 },                        /* next year's model is sold this year */
  { 'W', HS_VIN_ERA_OPEN, 1, 1998, 0 },                           /* 2028 is not yet built */
  { '3', HS_VIN_ERA_OPEN, 1, 2003, 0 },                           /* VIN-8 */
  { 'Y', HS_VIN_ERA_LATE, 1, 2030, 0 },                           /* no other reading is possible: kept */
  { '0', HS_VIN_ERA_OPEN, 0, 0, 0 },                              /* A22 */
  { 'U', HS_VIN_ERA_OPEN, 0, 0, 0 },
  { 'Z', HS_VIN_ERA_LATE, 0, 0, 0 },
};

static void
test_years (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (years); i++)
    {
      char vin[] = "11111111111111111";
      gint64 found[2] = { 0, 0 };

      vin[9] = years[i].code;
      g_test_message ("row %u", i);
      g_assert_cmpuint (hs_vin_years (vin, years[i].era, 2027, found), ==, years[i].n_years);
      if (years[i].n_years > 0)
        g_assert_cmpint (found[0], ==, years[i].first);
      if (years[i].n_years > 1)
        g_assert_cmpint (found[1], ==, years[i].second);
    }
}

/* All 30 codes in a row, as several copies of the regulation's table print them. */
static void
test_year_cycle (void)
{
  static const char codes[] = "ABCDEFGHJKLMNPRSTVWXY123456789";

  for (gint64 i = 0; i < 30; i++)
    {
      char vin[] = "11111111111111111";
      gint64 found[2];

      vin[9] = codes[i];
      g_assert_cmpuint (hs_vin_years (vin, HS_VIN_ERA_OPEN, 9999, found), ==, 2);
      g_assert_cmpint (found[0], ==, 1980 + i);
      g_assert_cmpint (found[1], ==, 2010 + i);
    }
}

/* What was typed, what was meant (the likeliest), and how many readings have a right check digit; counted by hand. */
static const struct
{
  const char *typed;
  const char *meant;
  guint n;
} slips[] = {
  { "5GZCZ43D13S812751", "5GZCZ43D13S812715", 1 },       /* neighbors swapped */
  { "5GZC243D13S812715", "5GZCZ43D13S812715", 2 },       /* 2 for Z, a known maker first */
  { "5GZCZ43DL3S812715", "5GZCZ43D13S812715", 1 },       /* L for 1, in the check digit itself */
  { "5GZCZ43D135812715", "5GZCZ43D13S812715", 2 },       /* 5 for S; SGZ, also right by its sum, is nobody's */
  { "1M8GDM9AXKPD42788", "1M8GDM9AXKP042788", 5 },       /* D for 0 */
  { "1G4AH59H?5G118341", "1G4AH59H45G118341", 1 },       /* VIN-3: the digit that cannot be read */
  { "SGZCZ43D13S812715", "5GZCZ43D13S812715", 1 },       /* S for 5 made it European */
  { "1M8GDM9AXKP042788", NULL, 0 },
  { "WVWZZZ1JZ3W386752", NULL, 0 },
};

static void
test_suggest (void)
{
  g_autoptr (HsReference) reference = shipped_reference ();

  for (guint i = 0; i < G_N_ELEMENTS (slips); i++)
    {
      g_auto (GStrv) found = hs_vin_suggest (slips[i].typed, reference);

      g_test_message ("%s", slips[i].typed);
      g_assert_cmpuint (g_strv_length (found), ==, slips[i].n);
      g_assert_cmpstr (found[0], ==, slips[i].meant);
      for (guint j = 0; found[j] != NULL; j++)
        g_assert_cmpint (hs_vin_check (found[j]), ==, HS_VIN_VALID);
    }
}

/* Without a table of makers the look alone decides, and a European VIN stays what it is. */
static void
test_suggest_without_makers (void)
{
  g_auto (GStrv) swapped = hs_vin_suggest ("5GZCZ43D13S812751", NULL);
  g_auto (GStrv) european = hs_vin_suggest ("SGZCZ43D13S812715", NULL);

  g_assert_cmpstr (swapped[0], ==, "5GZCZ43D13S812715");
  g_assert_null (european[0]);
}

/* Each pair of lookalikes, both ways, is found again. */
static void
test_suggest_pairs (void)
{
  static const char pairs[][2] = {
    { '5', 'S' }, { '8', 'B' }, { '2', 'Z' }, { '0', 'D' }, { '1', 'L' }, { '6', 'G' }, { 'U', 'V' },
  };

  for (guint i = 0; i < 2 * G_N_ELEMENTS (pairs); i++)
    {
      char meant[] = "1A11C111111E11117";
      char typed[] = "1A11C111111E11117";
      g_auto (GStrv) found = NULL;

      meant[5] = pairs[i / 2][i % 2];
      meant[8] = hs_vin_check_digit (meant);
      memcpy (typed, meant, sizeof typed);
      typed[5] = pairs[i / 2][1 - i % 2];
      found = hs_vin_suggest (typed, NULL);
      g_assert_true (g_strv_contains ((const char *const *) found, meant));
    }
}

/* A VIN that could be, with a right check digit; the same ones each time. */
static void
make_vin (GRand *rand, char vin[HS_VIN_LENGTH + 1])
{
  static const char signs[] = "ABCDEFGHJKLMNPRSTUVWXYZ0123456789";
  static const char codes[] = "ABCDEFGHJKLMNPRSTVWXY123456789";

  for (guint place = 0; place < HS_VIN_LENGTH; place++)
    vin[place] = place < 12 ? signs[g_rand_int_range (rand, 0, 33)] : (char) ('0' + g_rand_int_range (rand, 0, 10));
  vin[HS_VIN_LENGTH] = '\0';
  vin[0] = (char) ('1' + g_rand_int_range (rand, 0, 5));
  vin[9] = codes[g_rand_int_range (rand, 0, 30)];
  vin[8] = hs_vin_check_digit (vin);
}

/* Any two neighbors that differ and change the sum: swapped, they are found again, unless five likelier readings are
 * in front. A swap that leaves the remainder as it was cannot be seen by anybody. */
static void
test_suggest_swaps (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);
  guint n_found = 0, n_crowded = 0, n_unseen = 0;

  for (guint round = 0; round < 400; round++)
    {
      char meant[HS_VIN_LENGTH + 1];
      char typed[HS_VIN_LENGTH + 1];
      guint place = (guint) g_rand_int_range (rand, 1, HS_VIN_LENGTH - 1);
      g_auto (GStrv) found = NULL;

      make_vin (rand, meant);
      memcpy (typed, meant, sizeof typed);
      typed[place] = meant[place + 1];
      typed[place + 1] = meant[place];
      found = hs_vin_suggest (typed, NULL);
      if (hs_vin_check (typed) == HS_VIN_VALID)
        n_unseen++;
      else if (g_strv_contains ((const char *const *) found, meant))
        n_found++;
      else
        n_crowded += g_strv_length (found) == HS_VIN_MOST_SUGGESTIONS;
    }
  g_assert_cmpuint (n_found + n_crowded + n_unseen, ==, 400);
  g_assert_cmpuint (n_found, >, 300);
}

/* No reading is told twice, none is what was typed, and all have digits at the end and a model year. */
static void
test_suggest_sound (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (18);
  g_autoptr (HsReference) reference = shipped_reference ();

  for (guint round = 0; round < 400; round++)
    {
      char typed[HS_VIN_LENGTH + 1];
      g_auto (GStrv) found = NULL;

      make_vin (rand, typed);
      typed[g_rand_int_range (rand, 1, HS_VIN_LENGTH)] = "58201UVG6"[round % 9];
      found = hs_vin_suggest (typed, reference);
      g_assert_cmpuint (g_strv_length (found), <=, HS_VIN_MOST_SUGGESTIONS);
      for (guint i = 0; found[i] != NULL; i++)
        {
          gint64 model_years[2];

          g_assert_cmpstr (found[i], !=, typed);
          g_assert_false (g_strv_contains ((const char *const *) found + i + 1, found[i]));
          g_assert_cmpint (hs_vin_check (found[i]), ==, HS_VIN_VALID);
          g_assert_cmpuint (hs_vin_years (found[i], HS_VIN_ERA_OPEN, 9999, model_years), ==, 2);
          g_assert_cmpuint (strspn (found[i] + 13, "0123456789"), ==, 4);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/vin/checks", test_checks);
  g_test_add_func ("/vin/letters", test_letters);
  g_test_add_func ("/vin/one-digit-off", test_one_digit_off);
  g_test_add_func ("/vin/read", test_read);
  g_test_add_func ("/vin/read-refused", test_read_refused);
  g_test_add_func ("/vin/read-praise", test_read_praise);
  g_test_add_func ("/vin/places", test_places);
  g_test_add_func ("/vin/wmi", test_wmi);
  g_test_add_func ("/vin/era", test_era);
  g_test_add_func ("/vin/years", test_years);
  g_test_add_func ("/vin/year-cycle", test_year_cycle);
  g_test_add_func ("/vin/suggest", test_suggest);
  g_test_add_func ("/vin/suggest-without-makers", test_suggest_without_makers);
  g_test_add_func ("/vin/suggest-pairs", test_suggest_pairs);
  g_test_add_func ("/vin/suggest-swaps", test_suggest_swaps);
  g_test_add_func ("/vin/suggest-sound", test_suggest_sound);
  return g_test_run ();
}
