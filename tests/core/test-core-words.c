// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The closed lists: every id reads back, every label too, and no word means two things. */

#include "hs-words.h"

#include "core-test.h"

static void
test_lists (void)
{
  /* What each list must hold, in this order, as files and books are written. */
  static const struct
  {
    HsWords words;
    const char *ids;
  } rows[] = {
    { HS_WORDS_JOB_KIND, "repair upkeep look_over return_visit" },
    { HS_WORDS_CUSTOMER_KIND, "private trade" },
    { HS_WORDS_FUEL, "gas diesel hybrid electric other" },
    { HS_WORDS_BATTERY_KIND, "flooded EFB AGM lithium unknown" },
    { HS_WORDS_KNOWN_BY, "we_installed_it receipt date_stamp customer_says not_known" },
    { HS_WORDS_CORE_PLACE, "on_the_vehicle in_the_van at_base handed_in credited customer_kept_it lost" },
    { HS_WORDS_SIGNAL, "good patchy none" },
    { HS_WORDS_PHASE, "before during after" },
    { HS_WORDS_RETURN_WHY,
      "our_work part_failed cause_missed declined_earlier cheaper_choice unrelated not_decided" },
    { HS_WORDS_MEANS, "signed_on_screen in_person text phone email" },
    { HS_WORDS_CHOICE, "open yes no later" },
    { HS_WORDS_RANK, "best enough least" },
    { HS_WORDS_NEED_STATE, "wanted asked_for laid_aside in_the_van installed going_back dropped" },
    { HS_WORDS_SAFE_TO_DRIVE, "yes no told_not_to" },
    { HS_WORDS_LINE_KIND, "labor part call_out core_deposit discount sundry goodwill" },
    { HS_WORDS_PAID_HOW, "cash card transfer check account" },
    { HS_WORDS_STOCK_WHY, "bought installed returned moved_van count_fix scrapped" },
    { HS_WORDS_FOLLOW_UP,
      "declined_work aging_battery upkeep_due unpaid retorque how_is_it_running core_deposit part_return" },
    { HS_WORDS_FINDING_ROLE, "complaint seen cause customer_said ruled_out" },
    { HS_WORDS_SURE, "suspected proven not_known" },
    { HS_WORDS_WEIGHT, "do_not_drive fix_this_visit plan_it watch_it sound" },
    { HS_WORDS_PURPOSE, "job parts supplies private other_business" },
    { HS_WORDS_ODOMETER_UNIT, "mi km" },
    { HS_WORDS_STAGE, "called_in penciled promised rolling on_site waiting_part waiting_yes proven squared called_off "
                      "turned_away" },
    { HS_WORDS_VERDICT, "within watch outside cannot_tell depends" },
    { HS_WORDS_DROP_PLACE, "connection short-cable cable mechanical-switch solenoid-switch magnetic-switch ground "
                           "starter-positive starter-negative charging-positive charging-negative" },
    { HS_WORDS_ENGINE, "off cranking idling raised" },
    { HS_WORDS_METER_AT, "battery stud" },
    { HS_WORDS_BRAKE_FLUID, "DOT3 DOT4 DOT5 DOT5.1" },
    { HS_WORDS_COOLANT, "EG PG" },
    { HS_WORDS_ENDED, "cured chosen outside_told not_known_told" },
    { HS_WORDS_PROOF, "reading photo seen said" },
    { HS_WORDS_SAFETY_ANSWER, "done not_here refused" },
    { HS_WORDS_SAW_IT, "yes no" },
    { HS_WORDS_CALLED_OFF_HOW, "canceled no_show gone_on_arrival" },
    { HS_WORDS_OLD_PART, "shown kept handed_over core" },
    { HS_WORDS_NOTE_TOPIC, "place knack part_name caution" },
    { HS_WORDS_REPLACED_WHY, "failed due none_before not_known" },
  };

  g_assert_cmpuint (G_N_ELEMENTS (rows), ==, HS_N_WORDS);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) ids = g_strsplit (rows[i].ids, " ", -1);
      gsize n_words;
      const HsWord *words = hs_words_get (rows[i].words, &n_words);

      g_assert_cmpuint (n_words, ==, g_strv_length (ids));
      for (gsize j = 0; j < n_words; j++)
        {
          g_assert_cmpstr (words[j].id, ==, ids[j]);
          g_assert_cmpint (hs_words_index (rows[i].words, ids[j]), ==, (int) j);
          g_assert_cmpstr (hs_words_label (rows[i].words, ids[j]), ==, words[j].label);
        }
    }
}

/* Ids, labels and their spellings with blanks, dashes and capitals lead to the same word. */
static void
test_spellings (void)
{
  for (int list = 0; list < HS_N_WORDS; list++)
    {
      gsize n_words;
      const HsWord *words = hs_words_get ((HsWords) list, &n_words);

      for (gsize i = 0; i < n_words; i++)
        {
          g_autofree char *capitals = g_ascii_strup (words[i].id, -1);
          g_autofree char *dashed = g_strdelimit (g_strdup (words[i].id), "_", '-');
          g_autofree char *spaced = g_strdelimit (g_strconcat (" ", words[i].id, " ", NULL), "_", ' ');
          const char *spellings[] = { words[i].id, words[i].label, capitals, dashed, spaced };

          for (gsize j = 0; j < G_N_ELEMENTS (spellings); j++)
            {
              const char *id = NULL;
              g_autoptr (GError) error = NULL;

              g_assert_true (hs_words_parse ((HsWords) list, spellings[j], &id, &error));
              g_assert_no_error (error);
              g_assert_cmpstr (id, ==, words[i].id);
            }
        }
    }
}

static void
test_aliases (void)
{
  static const struct
  {
    HsWords words;
    const char *text;
    const char *id;
  } rows[] = {
    { HS_WORDS_FUEL, "petrol", "gas" },
    { HS_WORDS_FUEL, "Gasoline", "gas" },
    { HS_WORDS_JOB_KIND, "look-over", "look_over" },
    { HS_WORDS_JOB_KIND, "comeback", "return_visit" },
    { HS_WORDS_BATTERY_KIND, "agm", "AGM" },
    { HS_WORDS_BATTERY_KIND, "efb", "EFB" },
    { HS_WORDS_BATTERY_KIND, "not known", "unknown" },
    { HS_WORDS_KNOWN_BY, "we fitted it", "we_installed_it" },
    { HS_WORDS_KNOWN_BY, "customer says", "customer_says" },
    { HS_WORDS_CORE_PLACE, "in van", "in_the_van" },
    { HS_WORDS_MEANS, "e-mail", "email" },
    { HS_WORDS_MEANS, "SMS", "text" },
    { HS_WORDS_NEED_STATE, "fitted", "installed" },
    { HS_WORDS_LINE_KIND, "labour", "labor" },
    { HS_WORDS_PAID_HOW, "cheque", "check" },
    { HS_WORDS_STAGE, "pencilled", "penciled" },
    { HS_WORDS_STAGE, "Just called", "called_in" },
    { HS_WORDS_ODOMETER_UNIT, "kilometres", "km" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const char *id = NULL;

      g_assert_true (hs_words_parse (rows[i].words, rows[i].text, &id, NULL));
      g_assert_cmpstr (id, ==, rows[i].id);
    }
}

static void
test_refuses (void)
{
  static const struct
  {
    HsWords words;
    const char *text;
    const char *message;
  } rows[] = {
    { HS_WORDS_JOB_KIND, "mend", "“mend” is not a kind of job: write repair, upkeep, look_over or return_visit" },
    { HS_WORDS_CUSTOMER_KIND, "", "“” is not a kind of customer: write private or trade" },
    { HS_WORDS_FUEL, "gas!oil", "“gas!oil” is not a fuel: write gas, diesel, hybrid, electric or other" },
    { HS_WORDS_SIGNAL, "goo", "“goo” is not a phone signal: write good, patchy or none" },
    { HS_WORDS_PHASE, "befores", "“befores” is not a phase of a reading: write before, during or after" },
    { HS_WORDS_VERDICT, "ok", "“ok” is not a verdict: write within, watch, outside, cannot_tell or depends" },
    { HS_WORDS_KNOWN_BY, "|", "“|” is not a way to know a date: write we_installed_it, receipt" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const char *id = "untouched";
      int index = 4711;
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_words_parse (rows[i].words, rows[i].text, &id, &error), &error, rows[i].message);
      assert_bad_value (hs_words_parse_index (rows[i].words, rows[i].text, &index, &error), &error, rows[i].message);
      g_assert_cmpstr (id, ==, "untouched");
      g_assert_cmpint (index, ==, 4711);
    }
}

static void
test_lookups_that_fail (void)
{
  g_assert_cmpint (hs_words_index (HS_WORDS_FUEL, "petrol"), ==, -1);
  g_assert_cmpint (hs_words_index (HS_WORDS_FUEL, "GAS"), ==, -1);
  g_assert_cmpint (hs_words_index (HS_WORDS_FUEL, ""), ==, -1);
  g_assert_cmpint (hs_words_index (HS_WORDS_FUEL, NULL), ==, -1);
  g_assert_cmpstr (hs_words_label (HS_WORDS_FUEL, "steam"), ==, "steam");
  g_assert_cmpstr (hs_words_label (HS_WORDS_FUEL, NULL), ==, NULL);
}

static void
test_titles (void)
{
  for (int list = 0; list < HS_N_WORDS; list++)
    {
      const char *title = hs_words_title ((HsWords) list);

      /* Messages put “a” in front. */
      g_assert_nonnull (title);
      g_assert_null (strchr ("aeio", title[0]));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/lists", test_lists);
  g_test_add_func ("/words/spellings", test_spellings);
  g_test_add_func ("/words/aliases", test_aliases);
  g_test_add_func ("/words/refuses", test_refuses);
  g_test_add_func ("/words/lookups-that-fail", test_lookups_that_fail);
  g_test_add_func ("/words/titles", test_titles);
  return g_test_run ();
}
