// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of choices share. */

#include "ops-choice.h"

#include "hs-job-op.h"
#include "hs-settings-op.h"

OpsChoice
ops_choice_start (void)
{
  OpsChoice choice = { .test = hs_ops_test_open () };
  g_autoptr (GError) error = NULL;

  hs_ops_test_fill (choice.test);
  choice.book = choice.test->book;
  hs_ops_test_import_ok (choice.test, "prices", "supplier,part,cost\nKingpost Parts Counter,BW-55,62.00\n", 1, 0, 0);
  hs_ops_test_import_ok (choice.test, "jobs",
                         "number,customer_phone,words,plate,day\nA-0001,555-0115,lamp on,TDM 5508,2026-03-10\n"
                         "A-0002,555-0117,no crank,TDM 7717,2026-03-10\n", 2, 0, 0);
  hs_settings_set (choice.book, "tax_percent", "8", OPS_CHOICE_NOW, &error);
  choice.job = hs_job_find (choice.book, "A-0001", &error);
  hs_job_move_stage (choice.book, choice.job, HS_STAGE_ON_SITE, NULL, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
  return choice;
}

void
ops_choice_clear (OpsChoice *choice)
{
  hs_ops_test_close (choice->test);
  g_free (choice->job);
}

static char *
add (OpsChoice *choice, const HsChoiceEntry *entry, const HsChoiceLineEntry *lines, gsize n_lines)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_choice_add (choice->book, choice->job, entry, lines, n_lines, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  return id;
}

char *
ops_choice_add_belt (OpsChoice *choice)
{
  const HsChoiceEntry entry = { .group = "cure", .rank = "enough", .wording = "Belt only" };
  const HsChoiceLineEntry lines[] = {
    { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .minutes = 60, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .what = "drive belt", .cost_cents = 2400, .price_cents = HS_INT_NONE },
  };

  return add (choice, &entry, lines, G_N_ELEMENTS (lines));
}

char *
ops_choice_add_cure (OpsChoice *choice)
{
  const HsChoiceEntry entry = { .group = "cure", .rank = "best", .wording = "Water pump, belt and coolant" };
  const HsChoiceLineEntry lines[] = {
    { .kind = "call_out", .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .minutes = 165, .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE },
    { .what = "water pump", .cost_cents = 8800, .price_cents = HS_INT_NONE },
    { .what = "drive belt", .cost_cents = 2400, .price_cents = HS_INT_NONE },
    { .what = "coolant 6 L", .cost_cents = 2700, .price_cents = HS_INT_NONE },
  };

  return add (choice, &entry, lines, G_N_ELEMENTS (lines));
}

void
ops_choice_answer (OpsChoice *choice, const char *id, const char *answer, const char *risk)
{
  HsChoiceAnswer given = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GError) error = NULL;

  given.choice = answer;
  given.by = "Teo Calloway";
  given.means = "phone";
  given.risk = risk;
  hs_choice_decide (choice->book, id, &given, OPS_CHOICE_NOW, &error);
  g_assert_no_error (error);
}

void
ops_choice_refused (OpsChoice *choice, const char *id, const HsChoiceAnswer *answer, const char *said)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_choice_decide (choice->book, id, answer, OPS_CHOICE_NOW, &error));
  hs_ops_test_refused (&error, said);
}

HsJobChoices *
ops_choice_load (OpsChoice *choice)
{
  g_autoptr (GError) error = NULL;
  HsJobChoices *choices = hs_job_choices_load (choice->book, choice->job, OPS_CHOICE_NOW, &error);

  g_assert_no_error (error);
  return choices;
}

HsJobView *
ops_choice_view_at (OpsChoice *choice, HsInstant now)
{
  g_autoptr (GError) error = NULL;
  HsJobView *view = hs_job_view_load (choice->book, choice->job, now, &error);

  g_assert_no_error (error);
  return view;
}
