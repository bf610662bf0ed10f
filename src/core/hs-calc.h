// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-check.h"
#include "hs-date.h"
#include "hs-decimal.h"
#include "hs-reference.h"

G_BEGIN_DECLS

/* The calculators: the trade's arithmetic, each with named inputs, named results, a verdict where there is one, and
 * who says so. The command line and the "Work it out" sheet are both made from what stands here, so that a calculator
 * is written once. The formulas are in the files of their subject (hs-battery.h, hs-cable.h …); a calculator only
 * joins them to names. */

/**
 * HsCalcKind:
 * @HS_CALC_NUMBER: a decimal number of at most %HS_DECIMAL_MOST decimals
 * @HS_CALC_NUMBERS: decimal numbers with commas between, one or more
 * @HS_CALC_MONEY: an amount, 0 to the currency's decimals
 * @HS_CALC_AMOUNTS: amounts with commas between
 * @HS_CALC_DATE: YYYY-MM-DD
 * @HS_CALC_CHOICE: one of a few words
 * @HS_CALC_TEXT: read by the calculator itself: a VIN, a code
 *
 * What an input is.
 */
typedef enum
{
  HS_CALC_NUMBER,
  HS_CALC_NUMBERS,
  HS_CALC_MONEY,
  HS_CALC_AMOUNTS,
  HS_CALC_DATE,
  HS_CALC_CHOICE,
  HS_CALC_TEXT,
} HsCalcKind;

/**
 * HsCalcKey:
 * @id: `volts`; ends the list if %NULL
 * @label: as it is shown
 * @kind: what it is
 * @unit: (nullable): shown behind it
 * @decimals: for a number: places that the number pad fills from the right; more may be typed
 * @least: smallest number taken (each of several)
 * @most: largest number taken
 * @below: (nullable): what it means if the number is below @least, "leads swapped or battery reversed: stop"
 * @choices: (nullable): for a choice: `flooded|EFB|AGM`
 * @either: 0, or the number of a group of keys of which exactly one is given
 * @optional: may be left out
 * @usual: (nullable): what is taken when it is left out, as it would be typed; `today` for a date
 *
 * One input of a calculator.
 */
typedef struct
{
  const char *id;
  const char *label;
  HsCalcKind kind;
  const char *unit;
  guint decimals;
  double least;
  double most;
  const char *below;
  const char *choices;
  guint either;
  gboolean optional;
  const char *usual;
} HsCalcKey;

/**
 * HsCalcScene:
 * @checks: the catalog: a calculator takes its limits from there
 * @reference: (nullable): tables that are data: makers, trouble codes, mileage rates; see hs-reference.h
 * @currency: of amounts, ISO 4217
 * @today: what `today` means
 *
 * What a calculator may look at besides its inputs.
 */
typedef struct
{
  HsChecks *checks;
  HsReference *reference;
  const char *currency;
  HsDate today;
} HsCalcScene;

typedef struct _HsCalcInput HsCalcInput;
typedef struct _HsCalcResult HsCalcResult;

/* HsCalcRun: works it out. All inputs are present or optional and in their range; it refuses what only it can see
 * (no such fuse), with %HS_CORE_ERROR_BAD_VALUE naming the key. */
typedef gboolean (*HsCalcRun) (const HsCalcScene *scene, const HsCalcInput *input, HsCalcResult *result,
                               GError **error);

/**
 * HsCalc:
 * @name: `charge`
 * @title: as it is shown: "State of charge"
 * @subject: heading it stands under: "Battery", "Circuits", "Engine and wheels", "Identity", "Money"
 * @help: one sentence: what it works out
 * @example: its inputs as they would be typed, `kind=flooded volts=12.35`
 * @caution: (nullable): what to mind before the meter goes on
 * @check: (nullable): check of the catalog whose reading @check_key is
 * @check_key: (nullable): that input
 * @keys: up to an entry whose id is %NULL
 */
typedef struct
{
  const char *name;
  const char *title;
  const char *subject;
  const char *help;
  const char *example;
  const char *caution;
  const char *check;
  const char *check_key;
  const HsCalcKey *keys;
  HsCalcRun run;
} HsCalc;

/* hs_calc_lookup: (transfer none) (nullable): the calculator of that name. */
const HsCalc *hs_calc_lookup (const char *name);

/* hs_calc_get_nth: (transfer none) (nullable): in the order in which they are shown; %NULL behind the last. */
const HsCalc *hs_calc_get_nth (guint nth);

/* hs_calc_find_key: (transfer none) (nullable) */
const HsCalcKey *hs_calc_find_key (const HsCalc *calc, const char *id);

/* hs_calc_key_dup_range: (transfer full): what the key takes, in words: "0 to 20 V". */
char *hs_calc_key_dup_range (const HsCalcKey *key);

/**
 * hs_calc_key_dup_typed:
 * @typed: what was typed on a number pad
 *
 * Digits without a point fill the key's decimals from the right, `1242` with two is 12.42; with a point they stand as
 * written. Between the numbers of a list a blank, `+`, `/` or `;` will do as well as a comma. What is no number is left
 * as it is, to be refused by its own name.
 *
 * Returns: (transfer full): as hs_calc_run() takes it
 */
char *hs_calc_key_dup_typed (const HsCalcKey *key, const char *typed);

/**
 * hs_calc_run:
 * @words: (array zero-terminated=1): `key=value` each; an empty value counts as left out
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the key, what is wrong and what it takes;
 *   %HS_CORE_ERROR_REFUSED if a key is unknown, given twice or missing
 *
 * Numbers are read exactly and never by the locale: a decimal comma, an exponent, a unit behind the number, NaN and a
 * number out of range are refused, each with its own reason.
 *
 * Returns: (transfer full): free with hs_calc_result_free(), or %NULL
 */
HsCalcResult *hs_calc_run (const HsCalc *calc, const HsCalcScene *scene, const char *const *words, GError **error);

/* What a calculator reads. An id that the calculator has not declared is a programming error. */

/* hs_calc_has: given, or left out but with a usual value. */
gboolean hs_calc_has (const HsCalcInput *input, const char *id);

/* hs_calc_number: the number; 0 if it was left out. */
double hs_calc_number (const HsCalcInput *input, const char *id);

/* hs_calc_scaled: the same, exactly, × 10^%HS_DECIMAL_MOST; for an amount, minor units. */
gint64 hs_calc_scaled (const HsCalcInput *input, const char *id);

/* hs_calc_numbers: (transfer none) (array length=ret_length): for amounts use hs_calc_scaled_list(). */
const double *hs_calc_numbers (const HsCalcInput *input, const char *id, gsize *ret_length);
const gint64 *hs_calc_scaled_list (const HsCalcInput *input, const char *id, gsize *ret_length);

/* hs_calc_choice: which of the choices, from 0; −1 if it was left out. */
int hs_calc_choice (const HsCalcInput *input, const char *id);

/* hs_calc_text: (transfer none) (nullable): as typed, without blanks around it. */
const char *hs_calc_text (const HsCalcInput *input, const char *id);

/* hs_calc_date: %HS_DATE_NONE if it was left out. */
HsDate hs_calc_date (const HsCalcInput *input, const char *id);

/* What a calculator writes: results in the order in which they are shown. */

/* hs_calc_put_number: @value unrounded; @decimals is for the eye only. A value that is not finite becomes none. */
void hs_calc_put_number (HsCalcResult *result, const char *id, const char *label, double value, const char *unit,
                         guint decimals);
void hs_calc_put_integer (HsCalcResult *result, const char *id, const char *label, gint64 value, const char *unit);
/* hs_calc_put_money: minor units of the scene's currency. */
void hs_calc_put_money (HsCalcResult *result, const char *id, const char *label, gint64 minor);
void hs_calc_put_boolean (HsCalcResult *result, const char *id, const char *label, gboolean value);
/* hs_calc_put_text: @text %NULL is none. */
void hs_calc_put_text (HsCalcResult *result, const char *id, const char *label, const char *text);
void hs_calc_put_date (HsCalcResult *result, const char *id, const char *label, HsDate date);
void hs_calc_put_texts (HsCalcResult *result, const char *id, const char *label, const char *const *texts);
void hs_calc_put_integers (HsCalcResult *result, const char *id, const char *label, const gint64 *values, gsize n);
/* hs_calc_put_none: nothing can be said about it. */
void hs_calc_put_none (HsCalcResult *result, const char *id, const char *label);

/* The words for how sure something is, from the surest; the catalog uses the same. */
#define HS_SURE_OFFICIAL "official text"
#define HS_SURE_DERIVED "derived"
#define HS_SURE_SECONDARY "secondary text"
#define HS_SURE_PRACTICE "common practice"
#define HS_SURE_MEMORY "memory"

/* hs_calc_cite: who says so and how sure that is. Each is told once; of several the least sure counts. */
void hs_calc_cite (HsCalcResult *result, const char *source, const char *sure);

/* hs_calc_say: the sentence; each further one is added behind. */
void hs_calc_say (HsCalcResult *result, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_calc_advise: what to do next; each further sentence is added behind. */
void hs_calc_advise (HsCalcResult *result, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_calc_verdict: a verdict of the calculator's own; @word %NULL is the verdict's word. */
void hs_calc_verdict (HsCalcResult *result, HsVerdict verdict, const char *word);

/**
 * hs_calc_judge:
 * @check: id of a check of the catalog
 * @value: in the check's unit, unrounded
 * @conditions: what is known
 *
 * Takes verdict, sentence, limit, source and next step from the catalog, so that a limit stands in one place.
 */
void hs_calc_judge (const HsCalcScene *scene, HsCalcResult *result, const char *check, double value,
                    const HsConditions *conditions);

/* hs_calc_judge_pair: the same for a check that takes two numbers, "61 of 90": @value and @of × 10^%HS_DECIMAL_MOST. */
void hs_calc_judge_pair (const HsCalcScene *scene, HsCalcResult *result, const char *check, gint64 value, gint64 of,
                         const HsConditions *conditions);

/* What the sheet and the command line read. */

/**
 * HsCalcShape:
 *
 * How a result is kept: @HS_CALC_IS_NONE has no value, the others what hs_calc_put_… of that name was given.
 */
typedef enum
{
  HS_CALC_IS_NONE,
  HS_CALC_IS_NUMBER,
  HS_CALC_IS_INTEGER,
  HS_CALC_IS_MONEY,
  HS_CALC_IS_BOOLEAN,
  HS_CALC_IS_TEXT,
  HS_CALC_IS_TEXTS,
  HS_CALC_IS_INTEGERS,
} HsCalcShape;

/**
 * HsCalcItem:
 * @shape: which of the values counts
 * @number: unrounded
 * @integer: a whole number, minor units, or 0 and 1
 * @texts: (nullable) (array zero-terminated=1)
 * @integers: (nullable) (element-type gint64)
 * @shown: for the eye, rounded, with its unit; "–" if there is no value
 *
 * One result. Its strings belong to it.
 */
typedef struct
{
  const char *id;
  const char *label;
  HsCalcShape shape;
  double number;
  gint64 integer;
  char **texts;
  GArray *integers;
  char *shown;
} HsCalcItem;

guint hs_calc_result_get_length (const HsCalcResult *result);
const HsCalcItem *hs_calc_result_get_nth (const HsCalcResult *result, guint nth);

/* hs_calc_result_lookup: (transfer none) (nullable): the result of that id. */
const HsCalcItem *hs_calc_result_lookup (const HsCalcResult *result, const char *id);

/* hs_calc_result_get_verdict: %FALSE if nothing was judged, only worked out. */
gboolean hs_calc_result_get_verdict (const HsCalcResult *result, HsVerdict *ret_verdict);

/* Each (transfer none); "" if there is nothing to say. */
const char *hs_calc_result_get_word (const HsCalcResult *result);
const char *hs_calc_result_get_because (const HsCalcResult *result);
const char *hs_calc_result_get_limit (const HsCalcResult *result);
const char *hs_calc_result_get_next (const HsCalcResult *result);
const char *hs_calc_result_get_source (const HsCalcResult *result);
const char *hs_calc_result_get_sure (const HsCalcResult *result);

void hs_calc_result_free (HsCalcResult *result);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCalcResult, hs_calc_result_free)

G_END_DECLS
