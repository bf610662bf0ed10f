// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where a job may go: the whole table of moves, and each rule that can refuse one. */

#include "hs-stage.h"

#include "core-test.h"

static const HsStageFacts all_well = {
  .has_after_reading = TRUE, .charges_cents = 20000, .ceiling_cents = 20000, .has_leaving_reason = TRUE,
  .currency = "USD",
};

static void
test_words (void)
{
  static const struct
  {
    HsStage stage;
    const char *id;
    const char *label;
    gboolean open;
  } rows[] = {
    { HS_STAGE_CALLED_IN, "called_in", "Just called", TRUE },
    { HS_STAGE_PENCILED, "penciled", "Penciled in", TRUE },
    { HS_STAGE_PROMISED, "promised", "Time given", TRUE },
    { HS_STAGE_ROLLING, "rolling", "Rolling", TRUE },
    { HS_STAGE_ON_SITE, "on_site", "At the vehicle", TRUE },
    { HS_STAGE_WAITING_PART, "waiting_part", "Needs a part", TRUE },
    { HS_STAGE_WAITING_YES, "waiting_yes", "Needs a yes", TRUE },
    { HS_STAGE_PROVEN, "proven", "Tested good", TRUE },
    { HS_STAGE_SQUARED, "squared", "Squared up", FALSE },
    { HS_STAGE_CALLED_OFF, "called_off", "Called off", FALSE },
    { HS_STAGE_TURNED_AWAY, "turned_away", "Passed on", FALSE },
  };

  g_assert_cmpuint (G_N_ELEMENTS (rows), ==, HS_N_STAGES);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsStage back = (HsStage) 4711;
      g_autofree char *shape = g_strconcat ("stage-", rows[i].id, NULL);

      g_assert_cmpstr (hs_stage_id (rows[i].stage), ==, rows[i].id);
      g_assert_cmpstr (hs_stage_label (rows[i].stage), ==, rows[i].label);
      g_assert_cmpstr (hs_stage_shape (rows[i].stage), ==, shape);
      g_assert_cmpint (hs_stage_is_open (rows[i].stage), ==, rows[i].open);
      g_assert_true (hs_stage_parse (rows[i].id, &back, NULL));
      g_assert_cmpint (back, ==, rows[i].stage);
    }
}

static void
test_parse_refuses (void)
{
  HsStage stage = HS_STAGE_ROLLING;
  g_autoptr (GError) error = NULL;

  assert_bad_value (hs_stage_parse ("done", &stage, &error), &error, "“done” is not a stage of a job: write called_in");
  g_assert_cmpint (stage, ==, HS_STAGE_ROLLING);
}

static void
test_next (void)
{
  static const struct
  {
    HsStage from;
    int next;
  } rows[] = {
    { HS_STAGE_CALLED_IN, HS_STAGE_PENCILED },
    { HS_STAGE_PENCILED, HS_STAGE_PROMISED },
    { HS_STAGE_PROMISED, HS_STAGE_ROLLING },
    { HS_STAGE_ROLLING, HS_STAGE_ON_SITE },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN },
    { HS_STAGE_WAITING_PART, HS_STAGE_ROLLING },
    { HS_STAGE_WAITING_YES, HS_STAGE_ON_SITE },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED },
    { HS_STAGE_SQUARED, -1 },
    { HS_STAGE_CALLED_OFF, -1 },
    { HS_STAGE_TURNED_AWAY, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsStage next = HS_STAGE_SQUARED;

      if (rows[i].next < 0)
        {
          g_assert_false (hs_stage_next (rows[i].from, &next));
          continue;
        }
      g_assert_true (hs_stage_next (rows[i].from, &next));
      g_assert_cmpint (next, ==, rows[i].next);
      g_assert_true (hs_stage_may_move (rows[i].from, next));
    }
}

/* Rows: from; columns: to; in the order of the stages. x = may move. */
static void
test_table (void)
{
  static const char *const table[HS_N_STAGES] = {
    [HS_STAGE_CALLED_IN] = "-xxxx....xx",
    [HS_STAGE_PENCILED] = "x-xxx....xx",
    [HS_STAGE_PROMISED] = "xx-xx....xx",
    [HS_STAGE_ROLLING] = "xxx-x....xx",
    [HS_STAGE_ON_SITE] = "xxxx-xxx.xx",
    [HS_STAGE_WAITING_PART] = "xxxxx-xx.xx",
    [HS_STAGE_WAITING_YES] = "xxxxxx-x.xx",
    [HS_STAGE_PROVEN] = "xxxxxxx-x..",
    [HS_STAGE_SQUARED] = "........-..",
    [HS_STAGE_CALLED_OFF] = "xxxxx...x-.",
    [HS_STAGE_TURNED_AWAY] = "xxxxx.....-",
  };

  for (int from = 0; from < HS_N_STAGES; from++)
    for (int to = 0; to < HS_N_STAGES; to++)
      {
        HsStageWhyNot why_not = hs_stage_why_not ((HsStage) from, (HsStage) to, &all_well);
        gboolean may = table[from][to] == 'x';

        g_assert_cmpint (hs_stage_may_move ((HsStage) from, (HsStage) to), ==, may);
        g_assert_cmpint (why_not == HS_STAGE_MAY_MOVE, ==, may);
        if (from == to)
          g_assert_cmpint (why_not, ==, HS_STAGE_SAME);
        else if (from == HS_STAGE_SQUARED)
          g_assert_cmpint (why_not, ==, HS_STAGE_SHUT_FOR_GOOD);
        else if (!may)
          g_assert_cmpint (why_not, ==, HS_STAGE_NO_SUCH_MOVE);
      }
}

typedef struct
{
  HsStage from;
  HsStage to;
  HsStageFacts facts;
  HsStageWhyNot why_not;
  const char *words;
} Rule;

static void
assert_rule (const Rule *rule)
{
  g_autoptr (GError) error = NULL;
  gboolean accepted = hs_stage_check_move (rule->from, rule->to, &rule->facts, &error);

  g_assert_cmpint (hs_stage_why_not (rule->from, rule->to, &rule->facts), ==, rule->why_not);
  if (rule->words != NULL)
    assert_refused (accepted, &error, HS_CORE_ERROR_REFUSED, rule->words);
  else
    g_assert_true (accepted);
  g_assert_no_error (error);
}

/* The fee for what was called off needs no proof, what was put in or told does. */
static void
test_called_off (void)
{
  static const Rule rows[] = {
    { HS_STAGE_CALLED_OFF, HS_STAGE_SQUARED, { 0 }, HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_CALLED_OFF, HS_STAGE_SQUARED, { .open_ends = "Open at “draw”." }, HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_CALLED_OFF, HS_STAGE_SQUARED, { .parts_without_reason = 1 }, HS_STAGE_PART_WITHOUT_REASON,
      "1 installed part does not say why" },
    { HS_STAGE_CALLED_OFF, HS_STAGE_SQUARED, { .open_choices = 1 }, HS_STAGE_OPEN_CHOICE,
      "1 recommendation has no answer" },
    { HS_STAGE_CALLED_OFF, HS_STAGE_SQUARED, { .charges_cents = 100, .currency = "USD" }, HS_STAGE_OVER_CEILING,
      "short by 1.00" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_rule (&rows[i]);
}

static void
test_rules (void)
{
  static const Rule rows[] = {
    /* What is not safe yet comes first; waiting it may. */
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .open_safety = "“Traffic”" }, HS_STAGE_OPEN_SAFETY,
      "The safety list of this visit is not done: “Traffic”." },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .open_safety = "“Traffic”", .has_after_reading = TRUE },
      HS_STAGE_OPEN_SAFETY, "Answer each by itself" },
    { HS_STAGE_ON_SITE, HS_STAGE_WAITING_PART, { .open_safety = "“Traffic”" }, HS_STAGE_MAY_MOVE, NULL },
    /* No proof: refused; a reason typed: accepted. */
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { 0 }, HS_STAGE_NO_PROOF, "no reading after the repair" },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_after_reading = TRUE }, HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_unproven_reason = TRUE }, HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { 0 }, HS_STAGE_NO_PROOF, "no reading after the repair" },
    /* A complaint that is still there is not tested good; who leaves it so says why. Squaring is not held up by it. */
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_after_reading = TRUE, .complaint_stays = "4 of 5" },
      HS_STAGE_COMPLAINT_STAYS, "is still there: 4 of 5 good" },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN,
      { .has_after_reading = TRUE, .has_unproven_reason = TRUE, .complaint_stays = "4 of 5" }, HS_STAGE_MAY_MOVE,
      NULL },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .has_after_reading = TRUE, .complaint_stays = "4 of 5" },
      HS_STAGE_MAY_MOVE, NULL },
    /* An open end of the why-chain stops both, also when it could not be tested. */
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_after_reading = TRUE, .open_ends = "Open at “draw”." },
      HS_STAGE_OPEN_END, "Open at “draw”." },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_unproven_reason = TRUE, .open_ends = "Open at “draw”." },
      HS_STAGE_OPEN_END, "Open at “draw”." },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .has_after_reading = TRUE, .open_ends = "Open at “draw”.",
                                           .open_choices = 1 },
      HS_STAGE_OPEN_END, "Open at “draw”." },
    { HS_STAGE_PROVEN, HS_STAGE_ON_SITE, { .open_ends = "Open at “draw”." }, HS_STAGE_MAY_MOVE, NULL },
    /* A part without a reason stops both; open choices and the ceiling only squaring. */
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_after_reading = TRUE, .parts_without_reason = 1 },
      HS_STAGE_PART_WITHOUT_REASON, "1 installed part does not say why" },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .has_after_reading = TRUE, .parts_without_reason = 2 },
      HS_STAGE_PART_WITHOUT_REASON, "2 installed parts do not say why" },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN, { .has_after_reading = TRUE, .open_choices = 3 }, HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .has_after_reading = TRUE, .open_choices = 1 }, HS_STAGE_OPEN_CHOICE,
      "1 recommendation has no answer" },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .has_after_reading = TRUE, .open_choices = 2 }, HS_STAGE_OPEN_CHOICE,
      "2 recommendations have no answer" },
    /* Ceiling 200.00, charges 211.01: short by 11.01; a new go-ahead of 220.00 lets it go. */
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED,
      { .has_after_reading = TRUE, .charges_cents = 21101, .ceiling_cents = 20000, .currency = "USD" },
      HS_STAGE_OVER_CEILING, "come to 211.01 and the go-ahead covers 200.00: short by 11.01" },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED,
      { .has_after_reading = TRUE, .charges_cents = 21101, .ceiling_cents = 22000, .currency = "USD" },
      HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_ON_SITE, HS_STAGE_PROVEN,
      { .has_after_reading = TRUE, .charges_cents = 21101, .ceiling_cents = 20000, .currency = "USD" },
      HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED,
      { .has_after_reading = TRUE, .charges_cents = 1101, .ceiling_cents = 0, .currency = "JPY" },
      HS_STAGE_OVER_CEILING, "come to 1,101 and the go-ahead covers 0: short by 1,101" },
    /* An over-run goes with a go-ahead, never without one. */
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED,
      { .has_after_reading = TRUE, .charges_cents = 21101, .ceiling_cents = 20000, .overrun_cents = 1101,
        .currency = "USD" },
      HS_STAGE_MAY_MOVE, NULL },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED,
      { .has_after_reading = TRUE, .charges_cents = 21101, .ceiling_cents = 20000, .overrun_cents = 1000,
        .currency = "USD" },
      HS_STAGE_OVER_CEILING, "the go-ahead covers 200.00 with 10.00 to spare: short by 1.01" },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED,
      { .has_after_reading = TRUE, .charges_cents = 500, .overrun_cents = 1000, .currency = "USD" },
      HS_STAGE_OVER_CEILING, "the go-ahead covers 0.00: short by 5.00" },
    { HS_STAGE_PROVEN, HS_STAGE_SQUARED, { .has_after_reading = TRUE }, HS_STAGE_MAY_MOVE, NULL },
    /* Leaving needs a reason. */
    { HS_STAGE_PROMISED, HS_STAGE_CALLED_OFF, { 0 }, HS_STAGE_NO_LEAVING_REASON, "“Called off” needs a reason" },
    { HS_STAGE_CALLED_IN, HS_STAGE_TURNED_AWAY, { 0 }, HS_STAGE_NO_LEAVING_REASON, "“Passed on” needs a reason" },
    { HS_STAGE_CALLED_IN, HS_STAGE_TURNED_AWAY, { .has_leaving_reason = TRUE }, HS_STAGE_MAY_MOVE, NULL },
    /* Going back asks nothing. */
    { HS_STAGE_PROVEN, HS_STAGE_ON_SITE, { .open_choices = 1, .parts_without_reason = 1 }, HS_STAGE_MAY_MOVE, NULL },
    /* Moves that do not exist say what to do instead. */
    { HS_STAGE_SQUARED, HS_STAGE_PROVEN, { .has_after_reading = TRUE }, HS_STAGE_SHUT_FOR_GOOD,
      "Open a return visit" },
    { HS_STAGE_ON_SITE, HS_STAGE_SQUARED, { .has_after_reading = TRUE }, HS_STAGE_NO_SUCH_MOVE,
      "from “At the vehicle” to “Squared up”. It has to be tested good first." },
    { HS_STAGE_PROMISED, HS_STAGE_PROVEN, { .has_after_reading = TRUE }, HS_STAGE_NO_SUCH_MOVE,
      "Arrive at the vehicle first" },
    { HS_STAGE_CALLED_OFF, HS_STAGE_TURNED_AWAY, { .has_leaving_reason = TRUE }, HS_STAGE_NO_SUCH_MOVE,
      "Take it back to an earlier stage first" },
    { HS_STAGE_PROVEN, HS_STAGE_CALLED_OFF, { .has_leaving_reason = TRUE }, HS_STAGE_NO_SUCH_MOVE,
      "Take it back to an earlier stage first" },
    { HS_STAGE_CALLED_OFF, HS_STAGE_PROVEN, { .has_after_reading = TRUE }, HS_STAGE_NO_SUCH_MOVE,
      "Take it back to an earlier stage first" },
    { HS_STAGE_ROLLING, HS_STAGE_ROLLING, { 0 }, HS_STAGE_SAME, "at “Rolling” already" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_rule (&rows[i]);
}

static void
test_short (void)
{
  static const gint64 rows[][3] = {
    { 21101, 20000, 1101 }, { 20000, 20000, 0 }, { 19999, 20000, 0 }, { 1, 0, 1 }, { 0, 0, 0 }, { -500, 0, 0 },
    { G_MAXINT64, -1, G_MAXINT64 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsStageFacts facts = { .charges_cents = rows[i][0], .ceiling_cents = rows[i][1] };

      g_assert_cmpint (hs_stage_short_cents (&facts), ==, rows[i][2]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stage/words", test_words);
  g_test_add_func ("/stage/parse-refuses", test_parse_refuses);
  g_test_add_func ("/stage/next", test_next);
  g_test_add_func ("/stage/table", test_table);
  g_test_add_func ("/stage/rules", test_rules);
  g_test_add_func ("/stage/called-off", test_called_off);
  g_test_add_func ("/stage/short", test_short);
  return g_test_run ();
}
