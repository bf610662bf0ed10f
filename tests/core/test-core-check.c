// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The catalog: the shipped text is whole and useful, and a slip of the pen in it is refused by name. */

#include "check-test.h"

static void
test_groups (void)
{
  static const struct
  {
    const char *id;
    const char *name;
    const char *checks;
  } rows[] = {
    { "will_not_start", "Will not start",
      "battery_rest battery_strength cranking drop_feed drop_ground starter_draw key_turn dash_lamps trouble_codes" },
    { "drains", "Drains overnight",
      "battery_rest battery_strength charging ripple starter_draw sleeping_draw draw_unplugged draw_by_fuse "
      "battery_case_drain key_off_volts" },
    { "charging_lamp", "Battery lamp on",
      "charging charging_output ripple drop_charging_feed drop_charging_ground battery_rest battery_strength belt "
      "trouble_codes" },
    { "brakes", "Brakes",
      "pad_left rotor_thickness brake_fluid wheel_nuts pad_right pad_difference rotor_runout lining_riveted "
      "lining_bonded fluid_boiling" },
    { "overheats", "Overheats",
      "cooling_pressure_lost coolant_volts relay_feed coolant_freeze belt oil_level trouble_codes" },
    { "cuts_out", "Cuts out",
      "relay_feed relay_drop fuel_water fuel_pressure charging drop_ground trouble_codes relay_coil compression "
      "wet_test" },
    { "upkeep", "Booked upkeep",
      "battery_rest battery_health charging pad_left brake_fluid tread wheel_nuts pad_right tread_uneven tire_age "
      "tire_pressure oil_level belt coolant_freeze battery_label battery_code" },
    { "everything_dead", "Everything dead",
      "dash_lamps battery_look battery_rest main_fuse drop_joint fob_cell relay_feed" },
    { "other", "Something else",
      "battery_rest relay_feed drop_joint fuse_or_lead starts_good trouble_codes drop volts_through" },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheckGroup *group = hs_checks_get_nth_group (checks, i);
      g_autofree char *ids = NULL;

      g_assert_nonnull (group);
      ids = g_strjoinv (" ", (char **) group->check_ids);
      g_assert_cmpstr (group->id, ==, rows[i].id);
      g_assert_cmpstr (group->name, ==, rows[i].name);
      g_assert_cmpstr (ids, ==, rows[i].checks);
      g_assert_true (hs_checks_lookup_group (checks, rows[i].id) == group);
    }
  g_assert_null (hs_checks_get_nth_group (checks, G_N_ELEMENTS (rows)));
  g_assert_null (hs_checks_lookup_group (checks, "nothing"));
}

static void
test_shown (void)
{
  static const struct
  {
    const char *id;
    const char *name;
    const char *unit;
    guint decimals;
    gint64 most;
    HsCheckEntry entry;
    gboolean log_scale;
  } rows[] = {
    { "battery_rest", "Battery at rest", "V", 2, 1600, HS_CHECK_NUMBER, FALSE },
    { "battery_strength", "Battery strength", "A", 0, 1500, HS_CHECK_NUMBER, FALSE },
    { "sleeping_draw", "Sleeping draw", "A", 3, 5000, HS_CHECK_NUMBER, TRUE },
    { "ripple", "Charging ripple", "V AC", 2, 300, HS_CHECK_NUMBER, TRUE },
    { "charging_output", "Charging output", "A", 0, 500, HS_CHECK_PAIR, FALSE },
    { "starts_good", "Good starts", "count", 0, 99, HS_CHECK_PAIR, FALSE },
    { "pad_left", "Brake pad left", "mm", 1, 300, HS_CHECK_NUMBER, FALSE },
    { "cooling_pressure_lost", "Cooling pressure lost", "bar", 1, 30, HS_CHECK_NUMBER, FALSE },
  };
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = the_check (checks, rows[i].id);

      g_assert_cmpstr (check->id, ==, rows[i].id);
      g_assert_cmpstr (check->name, ==, rows[i].name);
      g_assert_cmpstr (check->unit, ==, rows[i].unit);
      g_assert_cmpuint (check->decimals, ==, rows[i].decimals);
      g_assert_cmpint (check->most, ==, rows[i].most);
      g_assert_cmpint (check->entry, ==, rows[i].entry);
      g_assert_cmpint (check->log_scale, ==, rows[i].log_scale);
    }
  g_assert_null (hs_checks_lookup (checks, "nothing"));
}

typedef void (*Visit) (HsChecks *checks, const HsCheck *check, const HsConditions *conditions);

/* Every condition that can be set, in all mixtures of the few that matter together. */
static void
each_condition (Visit visit, HsChecks *checks, const HsCheck *check)
{
  static const char *const fuels[] = { NULL, "gas", "diesel", "hybrid", "electric", "other" };
  static const int temperatures[] = { -40, -24, -23, -19, -18, -8, -7, 0, 9, 10, 21, 27, 45 };

  for (int kind = 0; kind < HS_N_BATTERY_KINDS; kind++)
    for (gsize fuel = 0; fuel < G_N_ELEMENTS (fuels); fuel++)
      for (gsize i = 0; i <= G_N_ELEMENTS (temperatures); i++)
        for (int known = HS_NOT_KNOWN; known <= HS_YES; known++)
          {
            HsConditions conditions = {
              .battery_kind = (HsBatteryKind) kind, .fuel = fuels[fuel], .rated_cca = 540,
              .has_temperature = i < G_N_ELEMENTS (temperatures),
              .celsius = i < G_N_ELEMENTS (temperatures) ? temperatures[i] : 0,
              .just_charged = (HsKnown) known, .full_charge = (HsKnown) known, .smart_charging = (HsKnown) known,
              .loaded = (HsKnown) known,
            };

            visit (checks, check, &conditions);
          }
}

/* Whatever is known, the catalog has an answer: a sentence, a word, who says so and how sure that is. */
static void
judge_some (HsChecks *checks, const HsCheck *check, const HsConditions *conditions)
{
  for (int i = 0; i <= 8; i++)
    {
      gint64 value = check->least + (check->most - check->least) * i / 8;
      HsReading reading = { HS_READING_VALUE, value, check->entry == HS_CHECK_PAIR ? MAX (value, 1) : 0 };
      g_auto (HsJudgment) judgment = { 0 };

      hs_check_judge (checks, check, conditions, NULL, &reading, &judgment);
      g_assert_cmpuint (judgment.verdict, <, HS_N_VERDICTS);
      g_assert_cmpstr (judgment.word, !=, "");
      g_assert_true (g_str_has_suffix (judgment.why, "."));
      g_assert_cmpstr (judgment.source, !=, "");
      g_assert_cmpstr (judgment.tag, !=, "");
      g_assert_nonnull (judgment.limit);
      g_assert_nonnull (judgment.next);
      if (judgment.verdict == HS_VERDICT_OUTSIDE)
        g_assert_cmpstr (judgment.next, !=, "");
    }
}

static void
test_whole (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  const HsCheck *check;
  guint nth = 0;

  while ((check = hs_checks_get_nth (checks, nth)) != NULL)
    {
      g_assert_true (hs_checks_lookup (checks, check->id) == check);
      g_assert_cmpstr (check->name, !=, "");
      g_assert_cmpstr (check->hint, !=, "");
      g_assert_true (g_str_has_suffix (check->how, "."));
      each_condition (judge_some, checks, check);
      nth++;
    }
  g_assert_cmpuint (nth, >=, 30);
}

/* The scale that is drawn is the scale that is judged: the middle of each band has the band's verdict. */
static void
bands_agree (HsChecks *checks, const HsCheck *check, const HsConditions *conditions)
{
  g_autoptr (GArray) bands = hs_check_dup_bands (checks, check, conditions, NULL);
  gint64 before = G_MININT64;

  for (guint i = 0; i < bands->len; i++)
    {
      HsCheckBand band = g_array_index (bands, HsCheckBand, i);
      HsReading reading = { HS_READING_VALUE, 0, 0 };
      g_auto (HsJudgment) judgment = { 0 };

      g_assert_cmpint (band.low, ==, before);
      before = band.high;
      reading.value = band.low == G_MININT64 ? band.high - 1 : band.low + 1;
      if (band.low == G_MININT64 && band.high == G_MAXINT64)
        reading.value = 0;
      if (reading.value <= band.low || reading.value >= band.high)
        continue;
      hs_check_judge (checks, check, conditions, NULL, &reading, &judgment);
      g_assert_cmpint (judgment.verdict, ==, band.verdict);
    }
  g_assert_true (bands->len == 0 || before == G_MAXINT64);
}

static void
test_bands_agree (void)
{
  g_autoptr (HsChecks) checks = shipped_checks ();
  const HsCheck *check;

  for (guint i = 0; (check = hs_checks_get_nth (checks, i)) != NULL; i++)
    if (!g_str_equal (check->id, "battery_strength"))
      each_condition (bands_agree, checks, check);
}

static void
test_ref (void)
{
  HsChecks *checks = shipped_checks ();
  HsChecks *again = hs_checks_ref (checks);

  hs_checks_unref (checks);
  g_assert_nonnull (hs_checks_lookup (again, "battery_rest"));
  hs_checks_unref (again);
  hs_checks_unref (NULL);
}

#define CHECK "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\nmost=20\n"
#define CHOICE "[check a]\nname=A\nhow=Do it.\nentry=choice\nanswer1=yes\nanswer2=no\n"
#define LIMIT "[limit a x]\nbands=within 0.50 outside\nwhy1=Good.\nwhy2=Bad.\nsource=We\ntag=memory\n"

static void
test_accepts (void)
{
  static const char *const rows[] = {
    "",
    "# nothing but a remark\n",
    CHECK,
    CHECK LIMIT,
    CHECK "hint=\ncaution=Mind it.\nentry=number\nby=value\nfigure=none\nscale=straight\nover_range=outside\n",
    CHECK LIMIT "[group g]\nname=G\nchecks=a;\n",
    CHECK LIMIT "[group g]\nname=G\nchecks= a ; a \n",
    CHECK "[limit a]\nbands=depends\nwhy1=So.\nsource=We\ntag=derived\n",
    CHECK "[limit a x]\nwhen=\nbands=depends\nwhy1=So.\nsource=We\ntag=derived\n",
    CHECK "[limit a x]\nwhen=battery_kind:AGM; fuel:gas,diesel,unknown; temperature:-7..9; rest:..12.39; loaded:no\n"
          "bands=depends\nwhy1=So.\nsource=We\ntag=official text\n",
    CHECK "[limit a x]\nwhen=just_charged:yes,unknown; full_charge:no; smart_charging:yes; temperature:..; rest:1..\n"
          "bands=depends\nwhy1=So.\nsource=We\ntag=secondary text\n",
    CHECK "[limit a x]\nwhen=temperature:-18..\nbands=outside step watch line within\nsteps=-18 8.5;0 9.0;\n"
          "why1=A.\nwhy2=B.\nwhy3=C.\nsource=We\ntag=common practice\n",
    CHECK "[limit a x]\nbands=within 1 outside\nwhy1=A.\nnext1=B.\nword1=C\nwhy2=D.\ndrive2=no\nmakers=0.1; 0.2;\n"
          "limit=one volt\nsource=We\ntag=memory\n",
    CHOICE "[limit a x]\nverdicts=within outside\nwhy1=A.\nwhy2=B.\nthen2=a\nsource=We\ntag=memory\n",
    "[check c]\nname=C\nhow=Do it.\nentry=codes\n[limit c x]\nbands=within 0 watch\nwhy1=A.\nwhy2=B.\nthen2=d; d;\n"
    "source=We\ntag=memory\n[check d]\nname=D\nhow=Do it.\nentry=text\n",
    CHECK "asks=temperature; fuel\n[limit a x]\nwhen=fuel:gas;temperature:1..;loaded:no\nbands=cannot_tell\nwhy1=A.\n"
    "invalid=yes\nsource=We\ntag=memory\n",
    "[check p]\nname=P\nhow=Do it.\nunit=A\ndecimals=0\nleast=-5\nmost=20\nentry=pair\nby=share\nfigure=percent\n",
    "[check p]\nname=P\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\nmost=20\nentry=pair\nby=loss\nfigure=loss\n",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (rows[i], -1, &error);

      g_assert_no_error (error);
      g_assert_nonnull (checks);
    }
}

typedef struct
{
  const char *text;
  const char *words;
} Refused;

static void
refuse_all (const Refused *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (rows[i].text, -1, &error);

      assert_bad_value (checks != NULL, &error, rows[i].words);
    }
}

static void
test_refuses (void)
{
  static const Refused rows[] = {
    { "name=A\n", "the list of checks cannot be read" },
    { "[check a\n", "the list of checks cannot be read" },
    { "[check a]\nnonsense\n", "the list of checks cannot be read" },
    { "[thing a]\nname=A\n", "[thing a] a section is a check, a limit or a group" },
    { "[check]\nname=A\n", "a section is a check" },
    { "[check A]\nname=A\n", "[check A] an id has small letters" },
    { "[check a b]\nname=A\n", "[check a b] an id has small letters" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\n", "[check a] there must be a line “most=”" },
    { "[check a]\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\nmost=1\n", "there must be a line “name=”" },
    { "[check a]\nname=\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\nmost=1\n", "there must be a line “name=”" },
    { "[check a]\nname=A\nunit=V\ndecimals=2\nleast=0\nmost=1\n", "there must be a line “how=”" },
    { "[check a]\nname=A\nhow=Do it.\ndecimals=2\nleast=0\nmost=1\n", "there must be a line “unit=”" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\nleast=0\nmost=1\n", "there must be a line “decimals=”" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nmost=1\n", "there must be a line “least=”" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=5\nleast=0\nmost=1\n", "“decimals” must be 0 to 4" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=-1\nleast=0\nmost=1\n", "“decimals” must be 0 to 4" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nleast=2\nmost=1\n", "“least” must be smaller than “most”" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nleast=1\nmost=2\nasked_below=2\n",
      "“asked_below” must lie between “least” and “most”" },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=2\nleast=0\nmost=1,5\n", "[check a] “most”: " },
    { "[check a]\nname=A\nhow=Do it.\nunit=V\ndecimals=1\nleast=0.25\nmost=1\n", "only 1 decimal" },
    { CHECK "colour=red\n", "[check a] “colour” means nothing here" },
    { CHECK "[limit a x]\nbands=within\nverdicts=within\nwhy1=A.\nsource=We\ntag=memory\n",
      "a choice has “verdicts”" },
    { CHECK "by=weight\n", "“by” must be one of value, rated_cca, share, loss" },
    { CHECK "figure=age\n", "“figure” must be one of none, charge, percent, days, loss" },
    { CHECK "scale=round\n", "“scale” must be one of straight, log" },
    { CHECK "entry=pair\n", "belong together" },
    { CHECK "by=share\n", "belong together" },
    { CHECK "by=loss\n", "belong together" },
    { CHECK "over_range=bad\n", "[check a] “over_range”: “bad” is not a verdict" },
    { CHECK "unit=A\n", "[check a] unit stands twice" },
    { CHECK CHECK, "[check a] stands twice" },
    { LIMIT, "[limit a x] there is no [check a] above it" },
    { LIMIT CHECK, "there is no [check a] above it" },
    { CHECK "[limit b x]\nbands=depends\n", "there is no [check b] above it" },
    { CHECK "[limit a x]\nwhy1=A.\nsource=We\ntag=memory\n", "[limit a x] there must be a line “bands=”" },
    { CHECK "[limit a x]\nbands=fine\nwhy1=A.\nsource=We\ntag=memory\n", "“bands”: “fine” is not a verdict" },
    { CHECK "[limit a x]\nbands=within 1\nwhy1=A.\nsource=We\ntag=memory\n", "start and end with a verdict" },
    { CHECK "[limit a x]\nbands=1 within\nwhy1=A.\nsource=We\ntag=memory\n", "“1” is not a verdict" },
    { CHECK "[limit a x]\nbands=within outside\nwhy1=A.\nsource=We\ntag=memory\n", "only digits" },
    { CHECK "[limit a x]\nbands=within 0,5 outside\nwhy1=A.\nsource=We\ntag=memory\n", "write a point" },
    { CHECK "[limit a x]\nbands=within 0.555 outside\nwhy1=A.\nsource=We\ntag=memory\n", "only 2 decimals" },
    { CHECK "[limit a x]\nbands=within 2 watch 1 outside\nsource=We\ntag=memory\n", "must rise from left to right" },
    { CHECK "[limit a x]\nbands=within 2 watch 2 outside\nsource=We\ntag=memory\n", "and 2 does not" },
    { CHECK "[limit a x]\nbands=within 1 outside\nwhy1=A.\nsource=We\ntag=memory\n", "must be a sentence “why2”" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n", "“why2” means nothing here" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nnext0=B.\nsource=We\ntag=memory\n", "“next0” means nothing here" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nwhy=B.\nsource=We\ntag=memory\n", "“why” means nothing here" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nwen=loaded:no\nsource=We\ntag=memory\n", "“wen” means nothing" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\ndrive1=yes\nsource=We\ntag=memory\n", "“drive1” may only be “no”" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nsource=We\n", "there must be a line “tag=”" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nsource=We\ntag=sure\n", "not “sure”" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\nmakers=1;x\nsource=We\ntag=memory\n", "“makers”: " },
    { CHECK "[limit a x]\nbands=outside step within\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n", "must be “steps”" },
    { CHECK "[limit a x]\nbands=depends\nsteps=0 1\nwhy1=A.\nsource=We\ntag=memory\n", "“steps” need a “when”" },
    { CHECK "[limit a x]\nwhen=temperature:unknown\nbands=depends\nsteps=0 1\nwhy1=A.\nsource=We\ntag=memory\n",
      "“steps” need a “when”" },
    { CHECK "[limit a x]\nbands=depends\nsteps=0\nwhy1=A.\nsource=We\ntag=memory\n", "“steps”: “0” is not a row" },
    { CHECK "[limit a x]\nbands=depends\nsteps=0 1; 0 2\nwhy1=A.\nsource=We\ntag=memory\n", "the degrees must rise" },
    { CHECK "[limit a x]\nwhen=loaded\nbands=depends\nwhy1=A.\n", "“when”: “loaded” is not a condition" },
    { CHECK "[limit a x]\nwhen=mood:good\nbands=depends\nwhy1=A.\n", "“mood:good” is not a condition" },
    { CHECK "[limit a x]\nwhen=loaded:maybe\nbands=depends\nwhy1=A.\n", "“maybe” is not a condition" },
    { CHECK "[limit a x]\nwhen=fuel:steam\nbands=depends\nwhy1=A.\n", "“steam” is not a fuel" },
    { CHECK "[limit a x]\nwhen=battery_kind:wet\nbands=depends\nwhy1=A.\n", "“wet” is not a kind of battery" },
    { CHECK "[limit a x]\nwhen=temperature:10\nbands=depends\nwhy1=A.\n", "“10” is not a condition" },
    { CHECK "[limit a x]\nwhen=temperature:1.5..\nbands=depends\nwhy1=A.\n", "only whole numbers" },
    { CHECK "[limit a x]\nwhen=rest:low..\nbands=depends\nwhy1=A.\n", "only digits" },
    { "[group g]\nname=G\nchecks=a\n", "[group g] there is no [check a] above it" },
    { CHECK "[group g]\nchecks=a\n", "[group g] there must be a line “name=”" },
    { CHECK "[group g]\nname=G\n", "[group g] there must be a line “checks=”" },
    { CHECK "[group G]\nname=G\nchecks=a\n", "an id has small letters" },
    { CHECK "[group g]\nname=G\nchecks=a\norder=1\n", "“order” means nothing here" },
  };

  refuse_all (rows, G_N_ELEMENTS (rows));
}

/* Answers in words, what a result suggests, tests that are not valid, and what is asked. */
static void
test_refuses_words (void)
{
  static const Refused rows[] = {
    { CHECK "entry=picture\n", "“entry” must be one of number, pair, choice, codes, text, not “picture”" },
    { CHECK "entry=text\n", "[check a] “unit” is for numbers, and the answer is none" },
    { CHECK "answer1=yes\n", "“answer1” is for “entry=choice”" },
    { "[check a]\nname=A\nhow=Do it.\nentry=codes\nover_range=outside\n", "“over_range” is for numbers" },
    { "[check a]\nname=A\nhow=Do it.\nentry=choice\n", "two answers or more" },
    { "[check a]\nname=A\nhow=Do it.\nentry=choice\nanswer1=yes\n", "two answers or more" },
    { "[check a]\nname=A\nhow=Do it.\nentry=choice\nanswer1=yes\nanswer3=no\n", "numbered from 1 without a gap" },
    { "[check a]\nname=A\nhow=Do it.\nentry=choice\nanswer2=yes\nanswer3=no\n", "numbered from 1 without a gap" },
    { "[check a]\nname=A\nhow=Do it.\nentry=choice\nanswer10=no\n", "“answer10” means nothing here" },
    { CHOICE "[limit a x]\nbands=within\nwhy1=A.\nsource=We\ntag=memory\n", "there must be a line “verdicts=”" },
    { CHOICE "[limit a x]\nverdicts=within\nwhy1=A.\nsource=We\ntag=memory\n", "there are 2 answers" },
    { CHOICE "[limit a x]\nverdicts=within good\nwhy1=A.\nsource=We\ntag=memory\n", "“good” is not a verdict" },
    { CHOICE "[limit a x]\nverdicts=within outside\nwhy1=A.\nsource=We\ntag=memory\n", "sentence “why2”" },
    { CHOICE "[limit a x]\nverdicts=within outside\nbands=within\nwhy1=A.\nwhy2=B.\nsource=We\ntag=memory\n",
      "a choice has “verdicts”" },
    { "[check a]\nname=A\nhow=Do it.\nentry=text\n[limit a x]\nbands=within 1 outside\nwhy1=A.\nwhy2=B.\n"
      "source=We\ntag=memory\n", "one verdict without a number" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\nthen1=b\nsource=We\ntag=memory\n",
      "[limit a x] “then1”: there is no [check b]" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\nthen1=a; c\nsource=We\ntag=memory\n", "there is no [check c]" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\nthen2=a\nsource=We\ntag=memory\n", "“then2” means nothing here" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\ninvalid=no\nsource=We\ntag=memory\n",
      "“invalid” may only be “yes”" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\ninvalid=yes\nsource=We\ntag=memory\n", "cannot_tell alone" },
    { CHECK "asks=fuel\n", "[check a] “asks”: “fuel” is not a condition that one of its limits rests on" },
    { CHECK "asks=weather\n", "“weather” is not a condition" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\ntag=memory\n", "[limit a x] there must be a line “source=”" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\nsource= \ntag=memory\n", "there must be a line “source=”" },
    { CHECK "[limit a x]\nbands=within\nwhy1=A.\nsource=We\ntag=hearsay\n", "“tag” must be official text" },
    { CHECK "[limit a x]\nbands=depends\nwhy1=A.\ntag=memory\n", "there must be a line “source=”" },
  };

  refuse_all (rows, G_N_ELEMENTS (rows));
}

/* A text that was cut off anywhere is read or refused, never half understood without a word. */
static void
test_torn (void)
{
  static const char text[] = CHECK LIMIT "[group g]\nname=G\nchecks=a\n";

  for (gsize length = 0; length < sizeof text; length++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsChecks) checks = hs_checks_new_from_data (text, (gssize) length, &error);

      g_assert_true ((checks == NULL) == (error != NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/groups", test_groups);
  g_test_add_func ("/check/shown", test_shown);
  g_test_add_func ("/check/whole", test_whole);
  g_test_add_func ("/check/bands-agree", test_bands_agree);
  g_test_add_func ("/check/ref", test_ref);
  g_test_add_func ("/check/accepts", test_accepts);
  g_test_add_func ("/check/refuses", test_refuses);
  g_test_add_func ("/check/refuses-words", test_refuses_words);
  g_test_add_func ("/check/torn", test_torn);
  return g_test_run ();
}
