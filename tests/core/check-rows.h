// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* Rows of readings and what they mean, for tables by the shipped catalog. */

#include "check-test.h"

/* Short names for the columns of the tables below. */
#define W HS_VERDICT_WITHIN
#define A HS_VERDICT_WATCH
#define O HS_VERDICT_OUTSIDE
#define C HS_VERDICT_CANNOT_TELL
#define D HS_VERDICT_DEPENDS

typedef struct
{
  const char *check;
  const char *text;
  HsConditions conditions;
  HsVerdict verdict;
  const char *word;
  const char *figure;
} JudgeRow;

static inline void
judge_rows (const JudgeRow *rows, gsize n_rows)
{
  g_autoptr (HsChecks) checks = shipped_checks ();

  for (gsize i = 0; i < n_rows; i++)
    {
      g_auto (HsJudgment) judgment = { 0 };

      judge_text (checks, rows[i].check, rows[i].text, &rows[i].conditions, NULL, &judgment);
      if (judgment.verdict != rows[i].verdict)
        g_test_message ("%s %s: %s", rows[i].check, rows[i].text, judgment.why);
      g_assert_cmpstr (hs_verdict_id (judgment.verdict), ==, hs_verdict_id (rows[i].verdict));
      g_assert_cmpstr (judgment.word, ==, rows[i].word != NULL ? rows[i].word : hs_verdict_word (rows[i].verdict));
      g_assert_cmpstr (judgment.figure, ==, rows[i].figure);
    }
}

#define FLOODED { .battery_kind = HS_BATTERY_FLOODED }
#define EFB { .battery_kind = HS_BATTERY_EFB }
#define AGM { .battery_kind = HS_BATTERY_AGM }
#define LITHIUM { .battery_kind = HS_BATTERY_LITHIUM }
#define UNKNOWN { .battery_kind = HS_BATTERY_UNKNOWN }
#define AT_C(degrees) { .has_temperature = TRUE, .celsius = degrees }
#define ENGINE(kind, degrees) { .fuel = kind, .has_temperature = TRUE, .celsius = degrees }
#define AT(where) { .battery_kind = HS_BATTERY_UNKNOWN, .place = where }
