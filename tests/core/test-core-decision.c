// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What an answer decides, out of the sentences of the shipped questions and of made-up ones. */

#include "hs-decision.h"

#include "core-test.h"

static HsInterview *
shipped (void)
{
  g_autofree char *text = NULL;
  HsInterview *interview;

  g_assert_true (g_file_get_contents (HS_TEST_QUESTIONS_INI, &text, NULL, NULL));
  interview = hs_interview_new_from_data (text, -1, NULL);
  g_assert_nonnull (interview);
  return interview;
}

static void
test_shipped (void)
{
  static const struct
  {
    const char *question;
    const char *answer;
    const char *decision;
  } rows[] = {
    { "key_turn", "silent", "Silent and no lamps: battery, main feeds, clamps, main fuses." },
    { "key_turn", "one click", "One click and bright lamps: starter, its relay and leads." },
    { "key_turn", "fast clicking", "Fast clicking: flat battery." },
    { "key_turn", "turns slowly", NULL },
    { "key_turn", "turns well, does not fire",
      "Turns well: fuel, spark, immobilizer: bring scan tool, fuel gauge, spare fuel." },
    { "dash_lamps", "dim", "Dim: flat battery or a bad joint." },
    { "coolant_ground", "yes", "Yes: stop driving. Bring pressure tester, hoses, clips, coolant." },
    { "coolant_ground", "no", NULL },
    { "heater", "cold", "Cold: low on coolant, or it does not go round." },
    { "still_driving", "yes", "Yes with no coolant or a soft pedal: say to stop driving now." },
    { "wheel_hot", "yes", "Yes: a seized caliper or hose; bring both." },
    { "nut_key", "no", "No key: do not go yet." },
    { "nut_key", "yes", NULL },
    { "key_lamp", "it flashes", "Flashing: refer to a key specialist before driving there." },
    { "last_ran", "yesterday", "Under a day ago: charging or a failure." },
  };
  g_autoptr (HsInterview) interview = shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsInterviewQuestion *question = hs_interview_find (interview, rows[i].question);
      g_autofree char *decision = hs_decision_of_answer (question->decides, question->answers, rows[i].answer);

      g_test_message ("%s: %s", rows[i].question, rows[i].answer);
      g_assert_cmpstr (decision, ==, rows[i].decision);
    }
}

static void
test_made_up (void)
{
  static const char *const answers[] = { "hot", "cold", NULL };
  static const struct
  {
    const char *decides;
    const char *answer;
    const char *decision;
  } rows[] = {
    { NULL, "hot", NULL },
    { "  ", "hot", NULL },
    { "Bring gloves.", "hot", "Bring gloves." },
    { "HOT: one. Two. Cold: three. Hot again: four.", "hot", "HOT: one. Two. Hot again: four." },
    { "Hot: one. Cold: two", "cold", "Cold: two." },
    { "Hot: one. Cold: two.", "lukewarm", "Hot: one. Cold: two." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *decision = hs_decision_of_answer (rows[i].decides, answers, rows[i].answer);

      g_assert_cmpstr (decision, ==, rows[i].decision);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/decision/shipped", test_shipped);
  g_test_add_func ("/decision/made-up", test_made_up);
  return g_test_run ();
}
