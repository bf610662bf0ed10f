// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The list of questions that is shipped, what a list may hold, and what counts as an answer. */

#include "hs-interview.h"

#include "core-test.h"
#include "hs-check.h"
#include "hs-text.h"

static char *
read_file (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  g_assert_no_error (error);
  return text;
}

static HsInterview *
shipped (void)
{
  g_autofree char *text = read_file (HS_TEST_QUESTIONS_INI);
  g_autoptr (GError) error = NULL;
  HsInterview *interview = hs_interview_new_from_data (text, -1, &error);

  g_assert_no_error (error);
  return interview;
}

/* "a b c" */
static char *
ids_of (GPtrArray *questions)
{
  g_autoptr (GString) ids = g_string_new (NULL);

  for (guint i = 0; i < questions->len; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? " " : "",
                            ((const HsInterviewQuestion *) g_ptr_array_index (questions, i))->id);
  return g_strdup (ids->str);
}

static void
test_shipped (void)
{
  static const struct
  {
    const char *group;
    HsInterviewWhen when;
    const char *ids;
  } rows[] = {
    { "will_not_start", HS_INTERVIEW_PHONE,
      "key_turn dash_lamps last_ran parked boosted lately battery_which key_lamp refueled spot key_holder says_yes "
      "pays_how" },
    { "everything_dead", HS_INTERVIEW_PHONE,
      "key_turn dash_lamps last_ran parked boosted lately battery_which spot key_holder says_yes pays_how" },
    { "drains", HS_INTERVIEW_PHONE,
      "dash_lamps last_ran parked boosted lately battery_which spot key_holder says_yes pays_how" },
    { "charging_lamp", HS_INTERVIEW_PHONE,
      "boosted lately battery_which lamp_when belt_noise spot key_holder says_yes pays_how" },
    { "overheats", HS_INTERVIEW_PHONE,
      "belt_noise coolant_ground heater still_driving topped_up spot key_holder says_yes pays_how" },
    { "brakes", HS_INTERVIEW_PHONE,
      "lately still_driving brake_signs wheel_hot nut_key spot key_holder says_yes pays_how" },
    { "cuts_out", HS_INTERVIEW_PHONE,
      "last_ran lately cuts_out_when refueled spot key_holder says_yes pays_how" },
    { "upkeep", HS_INTERVIEW_PHONE, "nut_key upkeep_plate spot key_holder says_yes pays_how" },
    { "other", HS_INTERVIEW_PHONE, "lately spot key_holder says_yes pays_how" },
    { NULL, HS_INTERVIEW_PHONE, "spot key_holder says_yes pays_how" },
    { "brakes", HS_INTERVIEW_AGAIN, "parked boosted other_hands lately topped_up left_on towed flooded" },
    { NULL, HS_INTERVIEW_AGAIN, "parked boosted other_hands lately topped_up left_on towed flooded" },
  };
  g_autoptr (HsInterview) interview = shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) list = hs_interview_list (interview, rows[i].group, rows[i].when);
      g_autofree char *ids = ids_of (list);

      g_assert_cmpstr (ids, ==, rows[i].ids);
    }
}

/* Every group that a question names is one of the catalog of checks, and every group is asked something of its own. */
static void
test_groups (void)
{
  g_autofree char *text = read_file (HS_TEST_CHECKS_INI);
  HsChecks *checks = hs_checks_new_from_data (text, -1, NULL);
  g_autoptr (HsInterview) interview = shipped ();
  g_autoptr (GPtrArray) always = hs_interview_list (interview, NULL, HS_INTERVIEW_PHONE);
  const HsInterviewQuestion *question;
  const HsCheckGroup *group;
  const char *id;

  for (guint i = 0; (question = hs_interview_get_nth (interview, i)) != NULL; i++)
    for (int when = HS_INTERVIEW_PHONE; when <= HS_INTERVIEW_AGAIN; when++)
      for (guint k = 0; (id = hs_interview_get_nth_group (interview, question, (HsInterviewWhen) when, k)) != NULL; k++)
        if (hs_checks_lookup_group (checks, id) == NULL)
          g_error ("%s names the group %s", question->id, id);
  for (guint i = 0; (group = hs_checks_get_nth_group (checks, i)) != NULL; i++)
    {
      g_autoptr (GPtrArray) list = hs_interview_list (interview, group->id, HS_INTERVIEW_PHONE);

      g_test_message ("%s", group->id);
      g_assert_cmpuint (list->len, >, always->len);
    }
  hs_checks_unref (checks);
}

/* Nobody is named or blamed, and each says what it is good for. */
static void
test_neutral (void)
{
  static const char *const blaming[] = { "you", "your", "fault", "why", "broke", "forgot", "forget", "mistake",
                                         "wrong", "blame", "admit", "careless" };
  g_autoptr (HsInterview) interview = shipped ();
  const HsInterviewQuestion *question;

  for (guint i = 0; (question = hs_interview_get_nth (interview, i)) != NULL; i++)
    {
      g_auto (GStrv) words = hs_text_words (question->words);

      g_assert_true (g_str_has_suffix (question->words, "?"));
      g_assert_cmpuint (strlen (question->brief), <=, 20);
      g_assert_false (hs_text_is_blank (question->decides));
      for (guint k = 0; k < G_N_ELEMENTS (blaming); k++)
        if (g_strv_contains ((const char *const *) words, blaming[k]))
          g_error ("“%s” says “%s”", question->words, blaming[k]);
    }
  g_assert_cmpuint (hs_interview_get_n_questions (interview), ==, 28);
}

static void
test_find (void)
{
  static const struct
  {
    const char *text;
    const char *id;
  } rows[] = {
    { "parked", "parked" },
    { "PARKED", "parked" },
    { "key_turn", "key_turn" },
    { "Parked how long?", "parked" },
    { "parked how long", "parked" },
    { "How long was it parked?", "parked" },
    { "Topped up with anything?", "topped_up" },
    { "Has anyone tried to start it or charge it?", "boosted" },
    { "Turn the key: what happens?", "key_turn" },
    { "What color is it?", NULL },
    { "", NULL },
    { NULL, NULL },
  };
  g_autoptr (HsInterview) interview = shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsInterviewQuestion *question = hs_interview_find (interview, rows[i].text);

      g_assert_cmpstr (question == NULL ? NULL : question->id, ==, rows[i].id);
    }
}

static void
test_answer (void)
{
  static const struct
  {
    const char *id;
    const char *text;
    const char *answer;
    const char *refusal;
  } rows[] = {
    { "key_turn", "1", "silent", NULL },
    { "key_turn", "5", "turns well, does not fire", NULL },
    { "key_turn", " 2 ", "one click", NULL },
    { "key_turn", "grinds", "grinds", NULL },
    { "key_turn", "12", "12", NULL },
    { "key_turn", "6", NULL, "“Turn the key: what happens?” has the answers 1 to 5, and other words" },
    { "key_turn", "0", NULL, "has the answers 1 to 5" },
    { "coolant_ground", "1", "yes", NULL },
    { "coolant_ground", "2", "no", NULL },
    { "coolant_ground", "a puddle", "a puddle", NULL },
    { "coolant_ground", "3", NULL, "has the answers 1 to 2" },
    { "parked", "9", "9 days", NULL },
    { "parked", "1", "1 day", NULL },
    { "parked", "12 ", "12 days", NULL },
    { "parked", "12 hours", "12 hours", NULL },
    { "parked", "two weeks ", "two weeks", NULL },
    { "spot", "2", "2", NULL },
    { "spot", "", NULL, "“Street, level, slope, height bar, gate code, traffic?” needs an answer" },
    { "spot", " \n", NULL, "needs an answer" },
    { "spot", NULL, NULL, "needs an answer" },
  };
  g_autoptr (HsInterview) interview = shipped ();
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsInterviewQuestion *question = hs_interview_find (interview, rows[i].id);
      g_autofree char *answer = hs_interview_dup_answer (question, rows[i].text, &error);

      g_assert_cmpstr (answer, ==, rows[i].answer);
      if (rows[i].refusal != NULL)
        assert_bad_value (answer != NULL, &error, rows[i].refusal);
      g_assert_no_error (error);
    }
}

static void
test_list_refuses (void)
{
  static const struct
  {
    const char *text;
    const char *words;
  } rows[] = {
    { "[ask a]\nwords=A?", "[ask a] a section here is [question ID]" },
    { "[question ]\nwords=A?", "a section here is [question ID]" },
    { "[question a]\nphone=all\nentry=words", "[question a] there must be a line “words=”" },
    { "[question a]\nwords=A?\nphone=all", "[question a] there must be a line “entry=”" },
    { "[question a]\nwords=A?\nentry=words", "say when it is asked: “phone=” or “again=”" },
    { "[question a]\nwords=A?\nentry=words\nphone= ; ", "say when it is asked" },
    { "[question a]\nwords=A?\nentry=digit\nphone=all", "“entry” must be choice, yes_no, time or words, not “digit”" },
    { "[question a]\nwords=A?\nentry=words\nphone=all\ncolor=red", "“color” means nothing here" },
    { "[question a]\nwords=A?\nentry=choice\nphone=all", "a choice needs two answers or more" },
    { "[question a]\nwords=A?\nentry=choice\nphone=all\nanswer1=x", "a choice needs two answers or more" },
    { "[question a]\nwords=A?\nentry=choice\nphone=all\nanswer1=x\nanswer3=y", "“answer3” has no answer before it" },
    { "[question a]\nwords=A?\nentry=choice\nphone=all\nanswer10=x", "“answer10” means nothing here" },
    { "[question a]\nwords=A?\nentry=yes_no\nphone=all\nanswer1=x", "only a choice has answers" },
    { "[question a]\nwords=A?\nentry=words\nphone=all\n[question b]\nwords=a\nentry=words\nphone=all",
      "[question b] “a” is asked by [question a] already" },
    { "[question a]\nwords=A?\nentry=words\nphone=all\n[question b]\nwords=B?\nalso=C|A\nentry=words\nphone=all",
      "“A” is asked by [question a] already" },
    { "words=A?", "the list of questions cannot be read" },
    { "[question a]\nwords=A?\nentry=words\nphone=all\n[question a]\nwords=B?\nentry=words\nphone=all", "twice" },
  };
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].text);
      assert_bad_value (hs_interview_new_from_data (rows[i].text, -1, &error) != NULL, &error, rows[i].words);
    }
}

static void
test_small_list (void)
{
  static const char text[] = "[question a]\nwords=A?\nentry=choice\nanswer1=x\nanswer2=y\nagain=brakes; drains\n"
                             "[question b]\nwords=B?\nentry=time\nphone=all\n";
  g_autoptr (HsInterview) interview = hs_interview_new_from_data (text, strlen (text), NULL);
  g_autoptr (HsInterview) other = hs_interview_ref (interview);
  const HsInterviewQuestion *a = hs_interview_get_nth (other, 0);
  const HsInterviewQuestion *b = hs_interview_get_nth (other, 1);

  g_assert_cmpstr (a->brief, ==, "A?");
  g_assert_null (a->decides);
  g_assert_cmpstr (a->answers[1], ==, "y");
  g_assert_null (b->answers);
  g_assert_cmpint (b->entry, ==, HS_INTERVIEW_TIME);
  g_assert_cmpstr (hs_interview_get_nth_group (other, a, HS_INTERVIEW_AGAIN, 1), ==, "drains");
  g_assert_null (hs_interview_get_nth_group (other, a, HS_INTERVIEW_AGAIN, 2));
  g_assert_null (hs_interview_get_nth_group (other, a, HS_INTERVIEW_PHONE, 0));
  g_assert_null (hs_interview_get_nth_group (other, b, HS_INTERVIEW_PHONE, 0));
  g_assert_null (hs_interview_get_nth (other, 2));
  hs_interview_unref (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/interview/shipped", test_shipped);
  g_test_add_func ("/interview/groups", test_groups);
  g_test_add_func ("/interview/neutral", test_neutral);
  g_test_add_func ("/interview/find", test_find);
  g_test_add_func ("/interview/answer", test_answer);
  g_test_add_func ("/interview/list-refuses", test_list_refuses);
  g_test_add_func ("/interview/small-list", test_small_list);
  return g_test_run ();
}
