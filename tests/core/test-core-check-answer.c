// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Readings that are words: what is taken on the number pad and from a file, what is kept, and what it then means. */

#include "check-test.h"

static const char catalog[] =
  "[check turn]\nname=Key turned\nhow=Turn it.\nentry=choice\n"
  "answer1=silent\nanswer2=one click\nanswer3=turns well\n"
  "[check codes]\nname=Codes\nhow=Read them.\nentry=codes\n"
  "[check plate]\nname=Plate\nhow=Read it.\nentry=text\n"
  "[check volts]\nname=Volts\nhow=Read them.\nunit=V\ndecimals=1\nleast=0\nmost=20\n"
  "[limit turn electric]\nwhen=fuel:electric\nverdicts=cannot_tell cannot_tell cannot_tell\n"
  "why1=None.\nwhy2=None.\nwhy3=None.\nsource=We\ntag=memory\n"
  "[limit turn any]\nverdicts=outside watch within\nwhy1=Dead.\nnext1=Volts.\nthen1=volts; codes\nword1=dead\n"
  "drive1=no\nwhy2=Weak.\nthen2=volts\nwhy3=Good.\nsource=We\ntag=memory\n"
  "[limit codes any]\nbands=within 0 watch 3 outside\nwhy1=None.\nwhy2=Some.\nwhy3=Many.\nlimit=none\nsource=We\n"
  "tag=memory\n";

static HsChecks *
small_checks (void)
{
  g_autoptr (GError) error = NULL;
  HsChecks *checks = hs_checks_new_from_data (catalog, -1, &error);

  g_assert_no_error (error);
  return checks;
}

static void
test_taken (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    gint64 value;
    const char *answer;
  } rows[] = {
    { "turn", "1", 1, "silent" },
    { "turn", " 3 ", 3, "turns well" },
    { "turn", "silent", 1, "silent" },
    { "turn", "One-Click", 2, "one click" },
    { "turn", "TURNS  WELL", 3, "turns well" },
    { "codes", "P0133", 1, "P0133" },
    { "codes", "p0133, u0100", 2, "P0133 U0100" },
    { "codes", " P0562;C0133  B1000 ", 3, "P0562 C0133 B1000" },
    { "codes", "P0133 P0133", 1, "P0133" },
    { "codes", "p0133 P0133 P0420", 2, "P0133 P0420" },
    { "codes", "none", 0, "none" },
    { "codes", "None", 0, "none" },
    { "codes", "no codes", 0, "none" },
    { "codes", "0", 0, "none" },
    { "plate", "  C5, 540 A  ", 1, "C5, 540 A" },
    { "plate", "0", 1, "0" },
    { "plate", "/", 1, "/" },
    { "plate", "12 of 5", 1, "12 of 5" },
  };
  g_autoptr (HsChecks) checks = small_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = the_check (checks, rows[i].check);
      g_autoptr (GError) error = NULL;
      g_autofree char *answer = hs_check_dup_answer (check, rows[i].text, &error);
      HsReading keyed = { 0 };
      HsReading written = { 0 };
      HsReading again = { 0 };

      g_assert_no_error (error);
      g_assert_cmpstr (answer, ==, rows[i].answer);
      g_assert_true (hs_check_read_pad (check, rows[i].text, &keyed, &error));
      g_assert_true (hs_check_parse (check, rows[i].text, &written, &error));
      g_assert_true (hs_check_parse (check, answer, &again, &error));
      g_assert_no_error (error);
      g_assert_cmpint (keyed.kind, ==, HS_READING_VALUE);
      g_assert_cmpint (keyed.value, ==, rows[i].value);
      g_assert_cmpint (written.value, ==, rows[i].value);
      g_assert_cmpint (again.value, ==, rows[i].value);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    const char *words;
  } rows[] = {
    { "turn", "", "Key turned: “” is no answer; there are: 1 silent, 2 one click, 3 turns well" },
    { "turn", "0", "“0” is no answer" },
    { "turn", "4", "“4” is no answer" },
    { "turn", "12", "“12” is no answer" },
    { "turn", "-1", "“-1” is no answer" },
    { "turn", "1.0", "“1.0” is no answer" },
    { "turn", "clicks", "“clicks” is no answer" },
    { "turn", "/", "“/” is no answer" },
    { "turn", "over range", "“over range” is no answer" },
    { "codes", "", "Codes: type the codes with blanks between them, or 0 for none" },
    { "codes", " , ", "or 0 for none" },
    { "codes", "P4133", "Codes: " },
    { "codes", "P013", "Codes: " },
    { "codes", "X0133", "Codes: " },
    { "codes", "P0133 nonsense", "Codes: " },
    { "codes", "P01333", "Codes: " },
    { "plate", "", "Plate: write it down in 1 to 500 letters" },
    { "plate", "   ", "Plate: write it down" },
    { "plate", "\xff\xfe", "Plate: write it down" },
  };
  g_autoptr (HsChecks) checks = small_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = the_check (checks, rows[i].check);
      HsReading untouched = { HS_READING_OVER_RANGE, 7, 8 };
      g_autoptr (GError) error = NULL;
      g_autofree char *answer = hs_check_dup_answer (check, rows[i].text, &error);

      assert_bad_value (answer != NULL, &error, rows[i].words);
      assert_bad_value (hs_check_read_pad (check, rows[i].text, &untouched, &error), &error, rows[i].words);
      g_assert_cmpint (untouched.kind, ==, HS_READING_OVER_RANGE);
      g_assert_cmpint (untouched.value, ==, 7);
    }
}

/* As long as it may be, and one letter more; as many codes, and one more. */
static void
test_longest (void)
{
  g_autoptr (HsChecks) checks = small_checks ();
  g_autofree char *full = g_strnfill (HS_CHECK_TEXT_MOST, 'x');
  g_autofree char *longer = g_strnfill (HS_CHECK_TEXT_MOST + 1, 'x');
  g_autoptr (GString) codes = g_string_new (NULL);
  g_autofree char *kept = hs_check_dup_answer (the_check (checks, "plate"), full, NULL);
  g_autoptr (GError) error = NULL;
  HsReading reading;

  g_assert_cmpstr (kept, ==, full);
  assert_bad_value (hs_check_parse (the_check (checks, "plate"), longer, &reading, &error), &error, "500 letters");
  for (guint i = 0; i < HS_CHECK_CODES_MOST; i++)
    g_string_append_printf (codes, "P%04u ", i + 100);
  g_assert_true (hs_check_parse (the_check (checks, "codes"), codes->str, &reading, NULL));
  g_assert_cmpint (reading.value, ==, HS_CHECK_CODES_MOST);
  g_string_append (codes, "U0100");
  assert_bad_value (hs_check_parse (the_check (checks, "codes"), codes->str, &reading, &error), &error, "more codes");
}

/* A star says that it was not to be had, as for any check; a number has no answer in words. */
static void
test_not_measured (void)
{
  static const char *const ids[] = { "turn", "codes", "plate" };
  g_autoptr (HsChecks) checks = small_checks ();
  g_autoptr (GError) error = NULL;
  g_autofree char *answer = hs_check_dup_answer (the_check (checks, "volts"), "12", &error);
  HsReading reading;

  assert_bad_value (answer != NULL, &error, "Volts: its answer is a number");
  g_assert_true (hs_check_has_number (the_check (checks, "volts")));
  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_assert_false (hs_check_has_number (the_check (checks, ids[i])));
      g_assert_true (hs_check_read_pad (the_check (checks, ids[i]), "*", &reading, NULL));
      g_assert_cmpint (reading.kind, ==, HS_READING_NOT_MEASURED);
      g_assert_true (hs_check_parse (the_check (checks, ids[i]), "not measured", &reading, NULL));
      g_assert_cmpint (reading.kind, ==, HS_READING_NOT_MEASURED);
    }
}

static void
test_judged (void)
{
  static const struct
  {
    const char *check;
    const char *text;
    HsVerdict verdict;
    const char *word;
    const char *why;
    const char *limit;
    const char *then;
  } rows[] = {
    { "turn", "1", HS_VERDICT_OUTSIDE, "dead", "Dead.", "turns well", "volts codes" },
    { "turn", "2", HS_VERDICT_WATCH, "watch", "Weak.", "turns well", "volts" },
    { "turn", "3", HS_VERDICT_WITHIN, "within", "Good.", "turns well", "" },
    { "codes", "none", HS_VERDICT_WITHIN, "within", "None.", "none", "" },
    { "codes", "P0133", HS_VERDICT_WATCH, "watch", "Some.", "none", "" },
    { "codes", "P0133 P0134 P0135", HS_VERDICT_WATCH, "watch", "Some.", "none", "" },
    { "codes", "P0133 P0134 P0135 P0136", HS_VERDICT_OUTSIDE, "outside", "Many.", "none", "" },
    { "plate", "540 A", HS_VERDICT_CANNOT_TELL, "cannot tell", "It is written down; there is nothing to judge it by.",
      "", "" },
  };
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  g_autoptr (HsChecks) checks = small_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (HsJudgment) judgment = { 0 };
      g_autofree char *then = NULL;

      judge_text (checks, rows[i].check, rows[i].text, &nothing_known, NULL, &judgment);
      then = judgment.then == NULL ? g_strdup ("") : g_strjoinv (" ", judgment.then);
      g_assert_cmpint (judgment.verdict, ==, rows[i].verdict);
      g_assert_cmpstr (judgment.word, ==, rows[i].word);
      g_assert_cmpstr (judgment.why, ==, rows[i].why);
      g_assert_cmpstr (judgment.limit, ==, rows[i].limit);
      g_assert_cmpstr (then, ==, rows[i].then);
      g_assert_cmpint (judgment.do_not_drive, ==, g_str_equal (rows[i].word, "dead"));
    }
}

/* Conditions pick the limit as for numbers; limits of a vehicle's own say nothing about words; nothing is drawn. */
static void
test_beside_numbers (void)
{
  static const HsConditions electric = { .battery_kind = HS_BATTERY_UNKNOWN, .fuel = "electric" };
  static const HsOwnLimits own = { TRUE, 3, TRUE, 3, "we", HS_LIMIT_MAKER };
  g_autoptr (HsChecks) checks = small_checks ();
  const HsCheck *check = the_check (checks, "turn");
  g_auto (HsJudgment) judgment = { 0 };
  g_auto (HsJudgment) by_own = { 0 };
  g_autoptr (GArray) bands = hs_check_dup_bands (checks, check, &electric, NULL);
  g_autoptr (GArray) own_bands = hs_check_dup_bands (checks, check, &electric, &own);
  HsReading reading = { HS_READING_VALUE, 2 };
  g_autofree char *shown = hs_check_format (check, &reading);

  judge_text (checks, "turn", "silent", &electric, NULL, &judgment);
  judge_text (checks, "turn", "silent", &electric, &own, &by_own);
  g_assert_cmpint (judgment.verdict, ==, HS_VERDICT_CANNOT_TELL);
  g_assert_cmpint (by_own.whose, ==, HS_LIMIT_CATALOG);
  g_assert_cmpuint (bands->len, ==, 0);
  g_assert_cmpuint (own_bands->len, ==, 0);
  g_assert_cmpstr (shown, ==, "one click");
  g_assert_cmpstr (check->unit, ==, "answer");
  g_assert_cmpint (check->least, ==, 1);
  g_assert_cmpint (check->most, ==, 3);
  g_assert_cmpuint (g_strv_length ((char **) check->answers), ==, 3);
  g_assert_null (the_check (checks, "volts")->answers);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-answer/taken", test_taken);
  g_test_add_func ("/check-answer/refused", test_refused);
  g_test_add_func ("/check-answer/longest", test_longest);
  g_test_add_func ("/check-answer/not-measured", test_not_measured);
  g_test_add_func ("/check-answer/judged", test_judged);
  g_test_add_func ("/check-answer/beside-numbers", test_beside_numbers);
  return g_test_run ();
}
