// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the tests of the catalog share: the shipped catalog, and small ones made for a row. */

#include "core-test.h"
#include "hs-check.h"

/* The catalog that is shipped. */
static inline HsChecks *
shipped_checks (void)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  HsChecks *checks;

  g_file_get_contents (HS_TEST_CHECKS_INI, &text, NULL, &error);
  g_assert_no_error (error);
  checks = hs_checks_new_from_data (text, -1, &error);
  g_assert_no_error (error);
  return checks;
}

static inline const HsCheck *
the_check (HsChecks *checks, const char *id)
{
  const HsCheck *check = hs_checks_lookup (checks, id);

  if (check == NULL)
    g_error ("there is no check “%s”", id);
  return check;
}

/* Judges what would be written as @text; the verdict is the same without the words, and with zeros behind the value. */
static inline void
judge_text (HsChecks *checks, const char *id, const char *text, const HsConditions *conditions, const HsOwnLimits *own,
            HsJudgment *ret_judgment)
{
  const HsCheck *check = the_check (checks, id);
  HsReading reading;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_check_parse (check, text, &reading, &error));
  g_assert_no_error (error);
  hs_check_judge (checks, check, conditions, own, &reading, ret_judgment);
  g_assert_cmpint (hs_check_verdict (checks, check, conditions, own, &reading), ==, ret_judgment->verdict);
  reading.finer = 3;
  reading.value *= 1000;
  reading.of *= 1000;
  g_assert_cmpint (hs_check_verdict (checks, check, conditions, own, &reading), ==, ret_judgment->verdict);
}
