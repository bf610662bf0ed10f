// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A catalog that its owner has edited: what it adds and changes counts and is named, what it leaves out stays, and a
 * slip in it is refused by section and key. */

#include "check-test.h"

#define A "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=1\nleast=0\nmost=20\n"
#define A_GATE "[limit a no load]\nwhen=loaded:no\nbands=cannot_tell\ninvalid=yes\nwhy1=Idle.\nsource=We\ntag=memory\n"
#define A_GAS "[limit a gas]\nwhen=fuel:gas\nbands=within 5.0 outside\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n"
#define A_ANY "[limit a any]\nbands=within 8.0 outside\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n"
#define GROUP "[group g]\nname=G\nchecks=a\n"
#define BUILTIN A A_GATE A_GAS A_ANY GROUP

#define B "[check b]\nname=B\nhow=Do it.\nunit=mm\ndecimals=0\nleast=0\nmost=9\n"
#define B_ANY "[limit b any]\nbands=outside 3 within\nwhy1=Thin.\nnext1=Say so.\nwhy2=Thick.\nsource=Them\ntag=memory\n"
#define NEW_COLD \
  "[limit a cold]\nwhen=temperature:..0\nbands=within 2.0 outside\nwhy1=A.\nwhy2=B.\nsource=Me\ntag=memory\n"

static HsChecks *
edit (const char *edited, char ***ret_changes)
{
  g_autoptr (GError) error = NULL;
  HsChecks *checks
      = hs_checks_new_edited (BUILTIN, strlen (BUILTIN), edited, strlen (edited), ret_changes, &error);

  g_assert_no_error (error);
  return checks;
}

static void
test_changes (void)
{
  static const struct
  {
    const char *edited;
    const char *changes;
  } rows[] = {
    { "", "" },
    { "# nothing\n", "" },
    { BUILTIN, "" },
    { A_ANY, "" },
    { "[limit a any]\ntag = memory\nsource= We\nwhy2=B.\nwhy1=A.\nbands=within 8.0 outside\n", "" },
    { B B_ANY, "added [check b]; added [limit b any]" },
    { BUILTIN B B_ANY, "added [check b]; added [limit b any]" },
    { B_ANY B, "added [check b]; added [limit b any]" },
    { "[limit a any]\nbands=within 9.0 outside\nwhy1=A.\nwhy2=B.\nsource=Me\ntag=memory\n", "changed [limit a any]" },
    { NEW_COLD, "added [limit a cold]" },
    { "[group g]\nname=G\nchecks=a; b\n" B, "added [check b]; changed [group g]" },
    { "[group h]\nname=H\nchecks=a\n", "added [group h]" },
    { "[check a]\nname=Another\nhow=Do it.\nunit=V\ndecimals=1\nleast=0\nmost=30\n", "changed [check a]" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) changes = NULL;
      g_autoptr (HsChecks) checks = edit (rows[i].edited, &changes);
      g_autofree char *found = g_strjoinv ("; ", changes);

      g_assert_cmpstr (found, ==, rows[i].changes);
      g_assert_nonnull (hs_checks_lookup (checks, "a"));
      g_assert_nonnull (hs_checks_lookup_group (checks, "g"));
    }
}

/* Who judges, by its source, at 4.0 of which each limit says something of its own. */
static void
test_who_judges (void)
{
  static const struct
  {
    const char *edited;
    const char *known;
    const char *text;
    HsVerdict verdict;
    const char *source;
  } rows[] = {
    { "", "", "7.0", HS_VERDICT_WITHIN, "We" },
    { "", "fuel:gas", "7.0", HS_VERDICT_OUTSIDE, "We" },
    { "", "loaded:no", "7.0", HS_VERDICT_CANNOT_TELL, "We" },
    /* A limit of the same name keeps its place. */
    { "[limit a any]\nbands=within 6.0 outside\nwhy1=A.\nwhy2=B.\nsource=Me\ntag=memory\n", "", "7.0",
      HS_VERDICT_OUTSIDE, "Me (from checks.ini)" },
    { "[limit a any]\nbands=within 6.0 outside\nwhy1=A.\nwhy2=B.\nsource=Me\ntag=memory\n", "fuel:gas", "4.0",
      HS_VERDICT_WITHIN, "We" },
    /* A new one goes before the built-in ones, but not before what says when the test is not valid. */
    { NEW_COLD, "temperature:-5", "4.0", HS_VERDICT_OUTSIDE, "Me (from checks.ini)" },
    { NEW_COLD, "temperature:-5; fuel:gas", "4.0", HS_VERDICT_OUTSIDE, "Me (from checks.ini)" },
    { NEW_COLD, "temperature:5; fuel:gas", "4.0", HS_VERDICT_WITHIN, "We" },
    { NEW_COLD, "temperature:-5; loaded:no", "4.0", HS_VERDICT_CANNOT_TELL, "We" },
    /* In a copy it stands where it was put. */
    { A A_GATE A_GAS NEW_COLD A_ANY, "temperature:-5; fuel:gas", "4.0", HS_VERDICT_WITHIN, "We" },
    { A A_GATE A_GAS NEW_COLD A_ANY, "temperature:-5", "4.0", HS_VERDICT_OUTSIDE, "Me (from checks.ini)" },
    /* Left out is not switched off. */
    { A A_ANY, "loaded:no", "4.0", HS_VERDICT_CANNOT_TELL, "We" },
    { A A_ANY, "fuel:gas", "7.0", HS_VERDICT_OUTSIDE, "We" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (GStrv) changes = NULL;
      g_autoptr (HsChecks) checks = edit (rows[i].edited, &changes);
      HsConditions conditions = HS_CONDITIONS_INIT;
      g_auto (HsJudgment) judgment = { 0 };

      g_assert_true (hs_conditions_put (rows[i].known, &conditions, NULL));
      judge_text (checks, "a", rows[i].text, &conditions, NULL, &judgment);
      g_assert_cmpint (judgment.verdict, ==, rows[i].verdict);
      g_assert_cmpstr (judgment.source, ==, rows[i].source);
    }
}

/* A check of the owner's own works as one that is built in. */
static void
test_new_check (void)
{
  g_auto (GStrv) changes = NULL;
  g_autoptr (HsChecks) checks = edit (B B_ANY "[group h]\nname=H\nchecks=b; a\n", &changes);
  static const HsConditions nothing_known = { .battery_kind = HS_BATTERY_UNKNOWN };
  const HsCheckGroup *group = hs_checks_lookup_group (checks, "h");
  g_auto (HsJudgment) thin = { 0 };
  g_auto (HsJudgment) thick = { 0 };

  judge_text (checks, "b", "2", &nothing_known, NULL, &thin);
  judge_text (checks, "b", "3", &nothing_known, NULL, &thick);
  g_assert_cmpint (thin.verdict, ==, HS_VERDICT_OUTSIDE);
  g_assert_cmpstr (thin.next, ==, "Say so.");
  g_assert_cmpint (thick.verdict, ==, HS_VERDICT_WITHIN);
  g_assert_cmpstr (thick.limit, ==, "3 mm or more");
  g_assert_cmpstr (group->check_ids[0], ==, "b");
}

static void
test_refuses (void)
{
  static const struct
  {
    const char *edited;
    const char *words;
  } rows[] = {
    { "nonsense\n", "the file cannot be read" },
    { "\xff\xfe", "the file cannot be read" },
    { B B, "[check b] stands twice" },
    { "[check a]\nname=A\nhow=Do it.\nunit=mV\ndecimals=1\nleast=0\nmost=20\n", "[check a] “unit” stays as it is" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\nmost=20\n", "[check a] “decimals” stays" },
    { "[check a]\nname=A\nhow=Do it.\nentry=text\n", "[check a] “unit” stays" },
    { "[check b]\nname=B\nhow=Do it.\nunit=mm\ndecimals=0\nleast=0\n", "[check b] there must be a line “most=”" },
    { "[limit c any]\nbands=within\nwhy1=A.\nsource=We\ntag=memory\n", "[limit c any] there is no [check c]" },
    { "[limit a any]\nbands=within\nwhy1=A.\ntag=memory\n", "[limit a any] there must be a line “source=”" },
    { "[limit a any]\nbands=within\nwhy1=A.\nsource=We\ntag=sure\n", "[limit a any] “tag” must be" },
    { "[limit a any]\nbands=within\nwhy1=A.\nthen1=c\nsource=We\ntag=memory\n", "“then1”: there is no [check c]" },
    { "[limit a any]\n", "[limit a any] there must be a line “bands=”" },
    { "[limit a any]\nband=within\n", "there must be a line “bands=”" },
    { "[limit a any]\nbands=within\nwhy1=A.\nsource=We\ntag=memory\ncolour=red\n", "“colour” means nothing here" },
    { "[thing]\n", "[thing] a section is a check, a limit or a group" },
    { "[thing]\nx=1\n", "[thing] a section is a check, a limit or a group" },
    { "[group g]\nname=G\nchecks=a; c\n", "[group g] there is no [check c]" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      char *untouched[] = { NULL };
      char **changes = untouched;
      g_autoptr (HsChecks) checks = hs_checks_new_edited (BUILTIN, strlen (BUILTIN), rows[i].edited,
                                                          strlen (rows[i].edited), &changes, &error);

      assert_bad_value (checks != NULL, &error, rows[i].words);
      g_assert_true (changes == untouched);
    }
}

/* The shipped catalog laid over itself is itself. */
static void
test_shipped (void)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) changes = NULL;
  g_autoptr (HsChecks) checks = NULL;
  g_autoptr (HsChecks) shipped = shipped_checks ();
  const HsCheck *check;
  gsize length;

  g_assert_true (g_file_get_contents (HS_TEST_CHECKS_INI, &text, &length, NULL));
  checks = hs_checks_new_edited (text, length, text, length, &changes, NULL);
  g_assert_nonnull (checks);
  g_assert_null (changes[0]);
  for (guint i = 0; (check = hs_checks_get_nth (shipped, i)) != NULL; i++)
    g_assert_cmpstr (hs_checks_get_nth (checks, i)->id, ==, check->id);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-edit/changes", test_changes);
  g_test_add_func ("/check-edit/who-judges", test_who_judges);
  g_test_add_func ("/check-edit/new-check", test_new_check);
  g_test_add_func ("/check-edit/refuses", test_refuses);
  g_test_add_func ("/check-edit/shipped", test_shipped);
  return g_test_run ();
}
