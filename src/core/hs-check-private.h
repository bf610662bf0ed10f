// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the catalog keeps behind HsCheck: shared by its reader and its judge, by nobody else. */

#include "hs-check.h"

G_BEGIN_DECLS

/* Places kept of a percentage that a reading is turned into. */
#define HS_CHECK_PERCENT_DECIMALS 1

/* On what the limits of a check are laid: the value itself, a share that is worked out from it, or what the first
 * number of a pair has less than the second. */
typedef enum
{
  HS_CHECK_BY_VALUE,
  HS_CHECK_BY_RATED_CCA,
  HS_CHECK_BY_SHARE,
  HS_CHECK_BY_LOSS,
} HsCheckBy;

/* What is worked out beside the verdict. */
typedef enum
{
  HS_CHECK_FIGURE_NONE,
  HS_CHECK_FIGURE_CHARGE,
  HS_CHECK_FIGURE_PERCENT,
  HS_CHECK_FIGURE_DAYS,
  HS_CHECK_FIGURE_LOSS,
} HsCheckFigure;

/* hs_check_is_in_unit: its limits are in the unit and with the decimals of its readings, not percent. */
gboolean hs_check_is_in_unit (HsCheckBy by);

/* One condition. For words and yes-or-no @mask has a bit for each that is meant; for numbers @low to @high are. */
typedef struct
{
  HsConditionKey key;
  guint mask;
  gboolean unknown;
  gint64 low;
  gint64 high;
} HsWhen;

/* Whether it holds: it does; it does because nobody knows; nobody knows and it wants to know; it does not. */
typedef enum
{
  HS_WHEN_HOLDS,
  HS_WHEN_HOLDS_UNKNOWN,
  HS_WHEN_OPEN,
  HS_WHEN_FAILS,
} HsWhenState;

/* One stretch of the scale and what is said about it. */
typedef struct
{
  HsVerdict verdict;
  char *word;
  char *why;
  char *next;
  char **then;
  gboolean do_not_drive;
} HsLimitBand;

/* One row of a table by temperature. */
typedef struct
{
  gint64 celsius;
  gint64 value;
} HsLimitStep;

/* Where a cut lies: at @value, or where the table by temperature puts it. */
typedef enum
{
  HS_CUT_VALUE,
  HS_CUT_STEP,
  HS_CUT_LINE,
} HsCutKind;

typedef struct
{
  HsCutKind kind;
  gint64 value;
} HsLimitCut;

/* The scale that holds when all of @when do: @bands has one more than @cuts, both from low to high; of a choice it has
 * one for each answer and no cuts. @invalid: the test says nothing then, also by the vehicle's own limits.
 * @changed: the owner's file says so, not what is built in. */
typedef struct
{
  char *name;
  GArray *when;
  GArray *cuts;
  GArray *bands;
  GArray *steps;
  GArray *makers;
  char *limit;
  char *source;
  char *tag;
  gboolean invalid;
  gboolean changed;
} HsLimit;

/* A check and what the public part does not show. @shown comes first, so that one is found from the other. */
typedef struct
{
  HsCheck shown;
  HsCheckBy by;
  HsCheckFigure figure;
  HsVerdict over_range;
  char *over_range_why;
  char *over_range_next;
  char *asks_text;
  GPtrArray *limits;
} HsCheckRecord;

struct _HsChecks
{
  gatomicrefcount ref_count;
  GPtrArray *checks;
  GHashTable *by_id;
  GPtrArray *groups;
};

/* Places of the scale on which a check's limits lie. */
guint hs_check_scale_decimals (const HsCheckRecord *record);

/* The catalog's own record of a check. */
const HsCheckRecord *hs_check_record (HsChecks *checks, const HsCheck *check);

void hs_limit_free (HsLimit *limit);
void hs_check_record_free (HsCheckRecord *record);

/* hs-check-limit.c: reads one `[limit …]` section. */
HsLimit *hs_limit_new_from_key_file (GKeyFile *file, const char *section, const HsCheckRecord *record, GError **error);

/* Whether all checks that a limit suggests are there. */
gboolean hs_limit_check_then (const HsLimit *limit, HsChecks *checks, GError **error);

/* hs-check-ask.c: fills in the conditions that the limits of a check rest on, in the order of @asks (nullable), which
 * may only name such. */
gboolean hs_check_fill_asks (HsCheckRecord *record, const char *asks, GError **error);

/* hs-check-judge.c: the band of @limit that a reading lies in; %NULL if what it is a share of is not known. */
const HsLimitBand *hs_limit_band (const HsLimit *limit, const HsCheckRecord *record, const HsConditions *conditions,
                                  const HsReading *reading);

/* hs-check-answer.c: a reading that is words. */
gboolean hs_check_read_answer (const HsCheck *check, const char *text, HsReading *ret_reading, GError **error);

/* hs-check-when.c: reads `when=` and asks whether it holds. */
GArray *hs_when_parse (const char *text, GError **error);
gboolean hs_when_holds (const GArray *when, const HsConditions *conditions);
HsWhenState hs_when_state (const HsWhen *when, const HsConditions *conditions);

/* A table in the form of data/checks/checks.ini; %NULL if it cannot be read as @what or a name stands twice in it. */
GKeyFile *hs_key_file_read (const char *data, gsize length, const char *what, GError **error);
/* hs-check-own.c: "12.40 V or more", "13.5 to 14.7 V"; empty if both are open. */
char *hs_range_text (const char *unit, guint decimals, const gint64 *low, const gint64 *high);

/* Whether there is a limit at all; %NULL has none. */
gboolean hs_own_limits_say_something (const HsOwnLimits *own);

/* Below 0 if the reading is under the vehicle's own limits, above 0 if over them. */
int hs_own_limits_side (const HsOwnLimits *own, const HsReading *reading);
const char *hs_own_limits_why (const HsOwnLimits *own, int side);

/* `a; b; c` without blanks and empty ends. */
char **hs_ids_split (const char *text);

/* hs-check.c: the catalog of a file that was read; every section is understood or named. */
HsChecks *hs_checks_new_from_key_file (GKeyFile *file, GError **error);

/* Reads a key that must be there, or one that may; blanks around the text go. */
char *hs_key_file_dup_needed (GKeyFile *file, const char *section, const char *key, GError **error);
char *hs_key_file_dup_text (GKeyFile *file, const char *section, const char *key);

/* FALSE with the key's name if @section has a key that @known (NULL at the end) does not list; a `#` at the end of a
 * known name stands for a number from 1 to @most_number. */
gboolean hs_key_file_only (GKeyFile *file, const char *section, const char *const *known, guint most_number,
                           GError **error);

/* Sets an error that starts with the section. */
gboolean hs_key_file_refuse (GError **error, const char *section, const char *format, ...) G_GNUC_PRINTF (3, 4);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsLimit, hs_limit_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCheckRecord, hs_check_record_free)

G_END_DECLS
