// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the tests of the calculators share: a row is what is typed and what must come out of it. */

#include "check-test.h"
#include "hs-calc.h"
#include "reference-test.h"

#include <math.h>

#define CALC_TODAY "2026-11-25"

/* Short names for the column of verdicts; %CALC_NO is a calculator that judges nothing. */
#define CALC_NO (-1)
#define CALC_W HS_VERDICT_WITHIN
#define CALC_A HS_VERDICT_WATCH
#define CALC_O HS_VERDICT_OUTSIDE
#define CALC_C HS_VERDICT_CANNOT_TELL
#define CALC_D HS_VERDICT_DEPENDS

/* A result that must be none. */
#define CALC_NONE ((double) NAN)

/**
 * CalcRow:
 * @id: of the worked test, or what the row is about
 * @line: calculator and its words, `drop volts=0.2 place=cable`; ~ stands for a blank inside of a word
 * @key: (nullable): result that is looked at
 * @value: what it must be, %CALC_NONE if it must be none
 * @within: how far it may be off: printed figures are rounded
 * @verdict: what it must mean
 * @words: (nullable): must stand in the word, the sentence, the next step or the source
 */
typedef struct
{
  const char *id;
  const char *line;
  const char *key;
  double value;
  double within;
  int verdict;
  const char *words;
} CalcRow;

/* The shipped tables, read once for all rows. */
static inline HsReference *
calc_reference (void)
{
  static HsReference *reference = NULL;

  if (reference == NULL)
    reference = shipped_reference ();
  return reference;
}

static inline HsChecks *
calc_checks (void)
{
  static HsChecks *checks = NULL;

  if (checks == NULL)
    checks = shipped_checks ();
  return checks;
}

static inline HsCalcResult *
calc_run (const char *line, GError **error)
{
  HsCalcScene scene = {
    .checks = calc_checks (), .reference = calc_reference (), .currency = "USD", .today = day (CALC_TODAY),
  };
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  const HsCalc *calc = hs_calc_lookup (words[0]);

  if (calc == NULL)
    g_error ("there is no calculator “%s”", words[0]);
  for (guint i = 1; words[i] != NULL; i++)
    g_strdelimit (words[i], "~", ' ');
  return hs_calc_run (calc, &scene, (const char *const *) words + 1, error);
}

static inline double
calc_number_of (const HsCalcItem *item)
{
  return item->shape == HS_CALC_IS_INTEGER ? (double) item->integer : item->number;
}

static inline void
assert_calc_item (const HsCalcResult *result, const CalcRow *row)
{
  const HsCalcItem *item = hs_calc_result_lookup (result, row->key);

  if (item == NULL)
    g_error ("there is no result “%s”", row->key);
  if (isnan (row->value))
    {
      g_assert_cmpint (item->shape, ==, HS_CALC_IS_NONE);
      return;
    }
  g_assert_true (item->shape == HS_CALC_IS_NUMBER || item->shape == HS_CALC_IS_INTEGER);
  g_assert_cmpfloat (calc_number_of (item), >=, row->value - row->within);
  g_assert_cmpfloat (calc_number_of (item), <=, row->value + row->within);
}

static inline void
assert_calc_row (const CalcRow *row)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCalcResult) result = calc_run (row->line, &error);
  HsVerdict verdict = HS_VERDICT_WITHIN;
  gboolean judged;
  g_autofree char *said = NULL;

  g_test_message ("%s: %s", row->id, row->line);
  g_assert_no_error (error);
  if (row->key != NULL)
    assert_calc_item (result, row);
  judged = hs_calc_result_get_verdict (result, &verdict);
  g_assert_cmpstr (judged ? hs_verdict_id (verdict) : "none", ==,
                   row->verdict == CALC_NO ? "none" : hs_verdict_id ((HsVerdict) row->verdict));
  said = g_strdup_printf ("%s | %s | %s | %s", hs_calc_result_get_word (result), hs_calc_result_get_because (result),
                          hs_calc_result_get_next (result), hs_calc_result_get_source (result));
  if (row->words != NULL && strstr (said, row->words) == NULL)
    g_error ("“%s” does not say “%s”", said, row->words);
  g_assert_cmpstr (hs_calc_result_get_source (result), !=, "");
  g_assert_cmpstr (hs_calc_result_get_sure (result), !=, "");
}

static inline void
assert_calc_rows (const CalcRow *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    assert_calc_row (&rows[i]);
}

/* What is typed, a result, and how it is shown; "–" if it must be none. */
typedef struct
{
  const char *id, *line, *key, *shown;
} CalcShown;

static inline void
assert_calc_shown (const CalcShown *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, &error);

      g_test_message ("%s: %s", rows[i].id, rows[i].line);
      g_assert_no_error (error);
      g_assert_nonnull (hs_calc_result_lookup (result, rows[i].key));
      g_assert_cmpstr (hs_calc_result_lookup (result, rows[i].key)->shown, ==, rows[i].shown);
    }
}

/* What is refused, and what the reason must hold. */
typedef struct
{
  const char *line;
  const char *words;
} CalcRefusal;

static inline void
assert_calc_refusals (const CalcRefusal *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, &error);

      g_test_message ("%s", rows[i].line);
      assert_refused (result != NULL, &error, (HsCoreError) (error == NULL ? 0 : error->code), rows[i].words);
    }
}

/* What is typed, and how sure its answer is. */
typedef struct
{
  const char *line;
  const char *sure;
} CalcSure;

static inline void
assert_calc_sure (const CalcSure *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autoptr (HsCalcResult) result = calc_run (rows[i].line, NULL);

      g_test_message ("%s", rows[i].line);
      g_assert_nonnull (result);
      g_assert_cmpstr (hs_calc_result_get_sure (result), ==, rows[i].sure);
    }
}

/* Which words one calculator takes and which results it gives, each joined by a blank: others are written against
 * these names. */
typedef struct
{
  const char *name, *keys, *results;
} CalcNames;

static inline void
assert_calc_names (const CalcNames *row)
{
  const HsCalc *calc = hs_calc_lookup (row->name);
  g_autoptr (GString) keys = g_string_new (NULL);
  g_autoptr (GString) results = g_string_new (NULL);
  g_autoptr (HsCalcResult) result = NULL;
  g_autofree char *line = NULL;

  g_assert_nonnull (calc);
  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    g_string_append_printf (keys, "%s%s", keys->len > 0 ? " " : "", key->id);
  line = g_strdup_printf ("%s %s", calc->name, calc->example);
  result = calc_run (line, NULL);
  for (guint i = 0; i < hs_calc_result_get_length (result); i++)
    g_string_append_printf (results, "%s%s", i > 0 ? " " : "", hs_calc_result_get_nth (result, i)->id);
  g_assert_cmpstr (keys->str, ==, row->keys);
  g_assert_cmpstr (results->str, ==, row->results);
}

/* Whoever reads the list can try each: every example of the shelf works, and each key it names is its own. */
static inline void
assert_calc_examples (const HsCalc *shelf)
{
  for (const HsCalc *calc = shelf; calc->name != NULL; calc++)
    {
      g_autofree char *line = g_strdup_printf ("%s %s", calc->name, calc->example);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsCalcResult) result = calc_run (line, &error);

      g_test_message ("%s", line);
      g_assert_no_error (error);
      g_assert_true (hs_calc_result_get_length (result) > 0 || hs_calc_result_get_verdict (result, NULL));
      g_assert_cmpstr (hs_calc_result_get_source (result), !=, "");
    }
}
