// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-condition.h"
#include "hs-verdict.h"

G_BEGIN_DECLS

/**
 * HsChecks:
 *
 * The catalog of checks: what can be measured, how, and where the limits lie. Made from the text of
 * `data/checks/checks.ini`. Never changes once made, so it can be read from any thread.
 */
typedef struct _HsChecks HsChecks;

/**
 * HsCheckEntry:
 * @HS_CHECK_NUMBER: one number
 * @HS_CHECK_PAIR: so many of so many: starts good of starts tried, amps of rated amps
 * @HS_CHECK_CHOICE: one of a few answers, a digit each: silent, one click, fast clicks
 * @HS_CHECK_CODES: trouble codes, or none
 * @HS_CHECK_TEXT: words as they are: what stands on a plate
 */
typedef enum
{
  HS_CHECK_NUMBER,
  HS_CHECK_PAIR,
  HS_CHECK_CHOICE,
  HS_CHECK_CODES,
  HS_CHECK_TEXT,
} HsCheckEntry;

/* Longest answer in words, in letters, and how many codes one answer may list. */
#define HS_CHECK_TEXT_MOST 500
#define HS_CHECK_CODES_MOST 60

/**
 * HsCheck:
 * @id: as in the book
 * @name: as it is shown
 * @hint: the few words under the name: the state to measure in
 * @how: how to measure, in plain steps
 * @unit: `V`, `A`, `mm`, `%`, `bar`, `ohm`, `count` …; `answer`, `codes` or `words` where there is no number
 * @decimals: places of a value; digits typed without a point fill them from the right
 * @least: smallest value that is likely, scaled by @decimals: beyond it whoever types is asked once
 * @most: largest one
 * @asked_below: what is keyed below it is asked about too; @least where the check has no such value
 * @entry: what is typed
 * @log_scale: its limits span decades
 * @caution: (nullable): what to mind before the meter goes on
 * @answers: (nullable) (array zero-terminated=1): of a choice; the first is typed as 1
 * @asks: (array length=n_asks): the conditions that its limits rest on, in the order in which they are asked
 *
 * One check. Fields are (transfer none) and belong to the catalog.
 */
typedef struct
{
  const char *id;
  const char *name;
  const char *hint;
  const char *how;
  const char *unit;
  guint decimals;
  gint64 least;
  gint64 most;
  gint64 asked_below;
  HsCheckEntry entry;
  gboolean log_scale;
  const char *caution;
  const char *const *answers;
  const HsConditionKey *asks;
  guint n_asks;
} HsCheck;

/* hs_check_has_number: it gives a number or a pair, not words. */
gboolean hs_check_has_number (const HsCheck *check);

/**
 * HsCheckGroup:
 * @id: complaint group, `will_not_start` …
 * @name: as it is shown
 * @check_ids: (array zero-terminated=1): checks in the order in which they are done
 */
typedef struct
{
  const char *id;
  const char *name;
  const char *const *check_ids;
} HsCheckGroup;

/**
 * hs_checks_new_from_data:
 * @data: UTF-8 text of the catalog
 * @length: bytes, or −1 if zero-terminated
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the section, the key and what is wrong
 *
 * Refuses keys and sections that mean nothing, so that a slip of the pen never switches a limit off unseen.
 *
 * Returns: (transfer full): free with hs_checks_unref()
 */
HsChecks *hs_checks_new_from_data (const char *data, gssize length, GError **error);

/**
 * hs_checks_new_edited:
 * @builtin: UTF-8 text of the catalog that is compiled in
 * @edited: UTF-8 text of the owner's: a copy with changes, or only what is new or other
 * @ret_changes: (out) (transfer full) (array zero-terminated=1): "changed [limit drop ground]", "added [check smoke]";
 *   untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the section, the key and what is wrong
 *
 * A section of @edited stands for the one of its name; what it does not name stays. A new limit for a check that is
 * built in goes before the limit that @edited names next behind it, else before all but those that say when the test is
 * not valid. A judgment by a limit that is new or other says so in its source.
 *
 * Returns: (transfer full): free with hs_checks_unref()
 */
HsChecks *hs_checks_new_edited (const char *builtin, gsize builtin_length, const char *edited, gsize edited_length,
                                char ***ret_changes, GError **error);
HsChecks *hs_checks_ref (HsChecks *checks);
void hs_checks_unref (HsChecks *checks);

/* hs_checks_lookup: (transfer none) (nullable): the check of that id. */
const HsCheck *hs_checks_lookup (HsChecks *checks, const char *id);

/* hs_checks_get_nth: (transfer none) (nullable): in the order of the file; %NULL behind the last. */
const HsCheck *hs_checks_get_nth (HsChecks *checks, guint nth);

/* hs_checks_lookup_group: (transfer none) (nullable) */
const HsCheckGroup *hs_checks_lookup_group (HsChecks *checks, const char *id);

/* hs_checks_get_nth_group: (transfer none) (nullable): in the order of the file; %NULL behind the last. */
const HsCheckGroup *hs_checks_get_nth_group (HsChecks *checks, guint nth);

/**
 * HsReadingKind:
 * @HS_READING_VALUE: a number, or a pair
 * @HS_READING_OVER_RANGE: the meter shows over range (open circuit): a reading of its own, not a zero
 * @HS_READING_NOT_MEASURED: it could not be measured
 */
typedef enum
{
  HS_READING_VALUE,
  HS_READING_OVER_RANGE,
  HS_READING_NOT_MEASURED,
} HsReadingKind;

/**
 * HsReading:
 * @kind: what was found
 * @value: scaled by the check's decimals; of a choice which answer, from 1; of codes how many; of a text 1. 0 unless
 *   @kind is %HS_READING_VALUE
 * @of: for a pair, the second number, scaled alike; 0 otherwise
 * @finer: places that both numbers have more than the check's decimals, for a value that was worked out and must not
 *   be rounded before it is judged; 0 for what a meter shows. Decimals and @finer together are at most
 *   %HS_DECIMAL_MOST
 */
typedef struct
{
  HsReadingKind kind;
  gint64 value;
  gint64 of;
  guint finer;
} HsReading;

/**
 * hs_check_read_pad:
 * @check: what is measured
 * @keys: what was typed on the number pad before Enter
 * @ret_reading: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * `1242` with two decimals is 12.42; `12.4` with a point says itself where it stands; `/` over range; `*` could not
 * measure. What hs_check_parse() takes in words, `5 of 5` or `over range`, is taken too. A minus in front is taken
 * where the check allows values below zero. For a pair: an even number of digits is
 * cut in half (`55` is 5 of 5, `6190` is 61 of 90), or both numbers are typed with a point between them (`9.12`).
 *
 * Returns: %TRUE if it can be stored
 */
gboolean hs_check_read_pad (const HsCheck *check, const char *keys, HsReading *ret_reading, GError **error);

/* hs_check_read_pad_sure: the same of somebody who was asked about a figure beyond @least and @most, and keeps it: it
 * is refused only if it has more digits than are kept. */
gboolean hs_check_read_pad_sure (const HsCheck *check, const char *keys, HsReading *ret_reading, GError **error);

/* hs_check_is_likely: it lies between @asked_below and @most; what has no number always does. */
gboolean hs_check_is_likely (const HsCheck *check, const HsReading *reading);

/**
 * hs_check_parse:
 * @text: as in a file: `12.42`, `5 of 5`, `5/5`, `over range`, `not measured`
 * @ret_reading: (out): untouched on failure
 *
 * Unlike the number pad, a number stands as written: `12` volts are 12.00.
 *
 * Returns: %TRUE if it can be stored
 */
gboolean hs_check_parse (const HsCheck *check, const char *text, HsReading *ret_reading, GError **error);

/**
 * hs_check_dup_answer:
 * @text: what hs_check_read_pad() or hs_check_parse() took, of a check that gives words
 *
 * The words that a book keeps: the answer of a choice spelled out, codes as `P0133 U0100` or `none`, a text without
 * blanks around it.
 *
 * Returns: (transfer full) (nullable): %NULL with %HS_CORE_ERROR_BAD_VALUE if it is no answer to @check
 */
char *hs_check_dup_answer (const HsCheck *check, const char *text, GError **error);

/* hs_check_format: (transfer full): without the unit, as hs_check_parse() reads it: `12.42`, `5 of 5`, `over range`.
 * Of codes it tells how many, of a text nothing: their words are not in a reading. */
char *hs_check_format (const HsCheck *check, const HsReading *reading);

/**
 * HsLimitWhose:
 * @HS_LIMIT_OWNER: set by the owner for this vehicle
 * @HS_LIMIT_MAKER: the vehicle maker's value: it wins over every other
 * @HS_LIMIT_CATALOG: of the list of checks, for every vehicle
 *
 * Whose limit a verdict rests on.
 */
typedef enum
{
  HS_LIMIT_OWNER,
  HS_LIMIT_MAKER,
  HS_LIMIT_CATALOG,
} HsLimitWhose;

/* hs_limit_whose_id: (transfer none): `owner`, `maker` as in the book, `catalog`. */
const char *hs_limit_whose_id (HsLimitWhose whose);

/* hs_limit_whose_word: (transfer none): as it is shown: "owner's limit", "maker's value", "list of checks". */
const char *hs_limit_whose_word (HsLimitWhose whose);

/**
 * HsOwnLimits:
 * @has_low: @low counts
 * @low: least that is within, scaled by the check's decimals
 * @has_high: @high counts
 * @high: most that is within
 * @source: who says so, e.g. "maker's manual p. 12"
 * @whose: %HS_LIMIT_OWNER or %HS_LIMIT_MAKER
 *
 * A vehicle's own limits. They outrank the catalog; where both are written down, hand in the maker's.
 */
typedef struct
{
  gboolean has_low;
  gint64 low;
  gboolean has_high;
  gint64 high;
  const char *source;
  HsLimitWhose whose;
} HsOwnLimits;

/* hs_own_limits_text: (transfer full): "12.20 to 15.50 V", "0.030 A or less". */
char *hs_own_limits_text (const HsCheck *check, const HsOwnLimits *own);

/**
 * HsJudgment:
 * @verdict: in which box it stands
 * @word: what stands in the box: "within", "charge", "charge first" …
 * @figure: (nullable): what was worked out: "71 %", "3.2 days to no-start"
 * @why: one sentence
 * @limit: the limit in words, "12.40 V or more"
 * @source: who says so
 * @tag: how sure that is: "common practice", "official text", "secondary text" …; for a vehicle's own limits
 *   hs_limit_whose_word()
 * @whose: whose limit it is
 * @next: what to do next, may be empty
 * @then: (nullable) (array zero-terminated=1): checks that the result suggests next, by their ids
 * @do_not_drive: beside the verdict
 *
 * What a reading means. Strings belong to it; clear with hs_judgment_clear().
 */
typedef struct
{
  HsVerdict verdict;
  char *word;
  char *figure;
  char *why;
  char *limit;
  char *source;
  char *tag;
  char *next;
  char **then;
  gboolean do_not_drive;
  HsLimitWhose whose;
} HsJudgment;

void hs_judgment_clear (HsJudgment *judgment);

/**
 * hs_check_judge:
 * @checks: the catalog
 * @check: one of its checks
 * @conditions: what is known
 * @own: (nullable): the vehicle's own limits
 * @reading: what was read
 * @ret_judgment: (out caller-allocates): set whatever the verdict is; hs_judgment_clear() when done
 *
 * A reading exactly on a limit counts as the better of both sides.
 */
void hs_check_judge (HsChecks *checks, const HsCheck *check, const HsConditions *conditions, const HsOwnLimits *own,
                     const HsReading *reading, HsJudgment *ret_judgment);

/**
 * hs_check_verdict:
 *
 * The verdict of hs_check_judge() alone, without the words: no memory is taken.
 */
HsVerdict hs_check_verdict (HsChecks *checks, const HsCheck *check, const HsConditions *conditions,
                            const HsOwnLimits *own, const HsReading *reading);

/**
 * hs_check_dup_wanted:
 * @conditions: what is known already
 * @own: (nullable): the vehicle's own limits
 * @reading: (nullable): what was read, if it was
 *
 * The conditions that nobody has told and that could change the verdict: of the limits that may still apply, or, with
 * a reading, only where such a limit would judge it otherwise. In the order of the check's asks.
 *
 * Returns: (transfer container) (element-type HsCondition): empty if the verdict stands whatever else is known
 */
GPtrArray *hs_check_dup_wanted (HsChecks *checks, const HsCheck *check, const HsConditions *conditions,
                                const HsOwnLimits *own, const HsReading *reading);

/**
 * HsCheckBand:
 * @verdict: between @low and @high
 * @low: scaled by the check's decimals, %G_MININT64 if open
 * @high: %G_MAXINT64 if open
 */
typedef struct
{
  HsVerdict verdict;
  gint64 low;
  gint64 high;
} HsCheckBand;

/**
 * hs_check_dup_bands:
 * @own: (nullable): the vehicle's own limits
 *
 * The scale that a reading under these conditions is judged on, in the unit of the check, for drawing.
 *
 * Returns: (transfer full) (element-type HsCheckBand): from low to high; empty if a condition is missing to draw it
 */
GArray *hs_check_dup_bands (HsChecks *checks, const HsCheck *check, const HsConditions *conditions,
                            const HsOwnLimits *own);

/**
 * hs_check_get_scale:
 * @bands: (element-type HsCheckBand): of hs_check_dup_bands()
 * @shown: (nullable): a reading that is to be on it, in the unit of the check
 *
 * The ends of the scale: the limits and the reading, with as much room outside the limits as between them. A reading
 * far off stands at the end: drawn in, it would leave the limits no room to be read.
 *
 * Returns: %FALSE, with nothing written for certain, if there is no limit to draw
 */
gboolean hs_check_get_scale (const HsCheck *check, const GArray *bands, const double *shown, double *ret_from,
                             double *ret_to);

/**
 * hs_check_dup_makers:
 *
 * Returns: (transfer full) (element-type gint64): limits that single makers print, scaled by the check's decimals
 */
GArray *hs_check_dup_makers (HsChecks *checks, const HsCheck *check, const HsConditions *conditions);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsChecks, hs_checks_unref)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HsJudgment, hs_judgment_clear)

G_END_DECLS
