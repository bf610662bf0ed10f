// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-after.h"
#include "hs-board.h"
#include "hs-chain-op.h"
#include "hs-tongue.h"

G_BEGIN_DECLS

/*
 * The repair and its proof: parts that were installed (hs_part_install() of hs-job-life.h puts one in), what was
 * disturbed and is looked after, what is still to do before a job is tested good, and handing the vehicle over. Each
 * step is one transaction and can be taken back; a squared job takes none.
 */

/**
 * hs_part_set:
 * @field: `what`, `place`, `serial`, `date_code`, `maker`, `bill`, `months`, `miles`, `odometer`, `why`, `old`, `cost`
 * @text: as it is typed; blank takes it away where it may be missing. For `why`: `failed`, `due`, `none_before`,
 *   `not_known` (told now), or the words or id of the finding that says why it failed. For `cost`: what it cost, and
 *   its price on the bill follows; 0: it is not charged
 *
 * One field of a part that this job installed. A cost whose price would pass the go-ahead is refused, by how much, with
 * %HS_OPS_ERROR_PAST_CEILING.
 */
gboolean hs_part_set (HsBook *book, const char *part_id, const char *field, const char *text, HsInstant now,
                      GError **error);

/** hs_part_set_past_ceiling: the same once that was told. */
gboolean hs_part_set_past_ceiling (HsBook *book, const char *part_id, const char *field, const char *text,
                                   HsInstant now, GError **error);

/* hs_part_fields: (array zero-terminated=1): the fields of hs_part_set() in the order in which they are filled in. */
extern const char *const hs_part_fields[];

/** hs_part_remove: a part that was not put in after all: its line of the bill goes, its stock and its need come back,
 * and what it took off is on the vehicle again. */
gboolean hs_part_remove (HsBook *book, const char *part_id, HsInstant now, GError **error);

/**
 * hs_disturbed_add:
 * @what: a place of the list, by its id, name or number, or words of the owner's own
 * @ret_n_added: (out) (optional): how many lines came onto the list
 *
 * Refused if all of it is there already.
 */
gboolean hs_disturbed_add (HsBook *book, const char *job_id, const char *what, HsInstant now, guint *ret_n_added,
                           GError **error);

/** hs_disturbed_tick: @words: (nullable): what was found; @done %FALSE takes the tick away. */
gboolean hs_disturbed_tick (HsBook *book, const char *disturbed_id, gboolean done, const char *words, HsInstant now,
                            GError **error);

/** hs_disturbed_remove: it was not disturbed after all. Somebody who was to be called because of it is not. */
gboolean hs_disturbed_remove (HsBook *book, const char *disturbed_id, HsInstant now, GError **error);

/** hs_job_set_unproved: why it could not be proven; blank takes it away unless nothing else proves the job. */
gboolean hs_job_set_unproved (HsBook *book, const char *job_id, const char *why, HsInstant now, GError **error);

/* hs_unproved_reason: (transfer none) (nullable): a usual reason, as it is shown and stored; %NULL behind the last. */
const char *hs_unproved_reason (guint nth, const HsTongue *in);

/** hs_job_set_safe: @safe: `yes`, `no`, `told_not_to`; blank: not said. */
gboolean hs_job_set_safe (HsBook *book, const char *job_id, const char *safe, HsInstant now, GError **error);

/** hs_job_leave: what the odometer showed when the vehicle was handed back. */
gboolean hs_job_leave (HsBook *book, const char *job_id, gint64 odometer, HsInstant now, GError **error);

/**
 * HsFittedPart: a part that the job installed.
 * @made: (nullable): when it was made, read out of a battery's date code: "March 2025"
 * @why: (nullable): id of why the old one went; @why_said: (nullable): in words, with the finding
 * @cover: how long it is covered, in a sentence
 * @cover_until: last day by date, or %HS_DATE_NONE
 * @cover_odometer: last reading that is covered, or −1
 * @cover_expected: the earlier of both, by the pace of the vehicle; %HS_DATE_NONE without any
 * @old_part: (nullable): id of what became of the old one
 * @swap: it stands in for one that failed under warranty
 * @cost_cents: what it cost, @price_cents: what the bill asks for it, without tax
 * @unpriced: nobody said yet what it cost
 */
typedef struct
{
  char *id;
  char *what;
  char *number;
  char *place;
  char *serial;
  char *date_stamp;
  char *made;
  char *maker;
  char *bill;
  char *kind;
  gint64 odometer;
  gint64 months;
  gint64 millimiles;
  char *why;
  char *why_said;
  char *cover;
  HsDate cover_from;
  HsDate cover_until;
  gint64 cover_odometer;
  HsDate cover_expected;
  char *old_part;
  gboolean swap;
  gint64 cost_cents;
  gint64 price_cents;
  gboolean unpriced;
} HsFittedPart;

/**
 * HsAfterLine: one line of what is looked after before leaving.
 * @check: (nullable): id of the check that shows it; @check_name: (nullable): its name
 * @place: (nullable): id of what was disturbed; %NULL for the owner's own words
 * @caution: (nullable): of that place
 * @done_at: when it was looked after, or %HS_INSTANT_NONE; @done_words: (nullable): what was found
 */
typedef struct
{
  char *id;
  char *what;
  char *check;
  char *check_name;
  char *place;
  char *caution;
  char *source;
  HsInstant done_at;
  char *done_words;
} HsAfterLine;

/**
 * HsProveKind: what is still to do.
 * @HS_PROVE_TAKE_ONE: there is neither a reading after the repair nor a reason
 * @HS_PROVE_READ_AGAIN: a reading that was outside before was not taken again
 * @HS_PROVE_STILL_OUTSIDE: a reading is outside after the repair, too
 * @HS_PROVE_TRY: the complaint was not tried again
 * @HS_PROVE_COMPLAINT_STAYS: it was, and is still there
 * @HS_PROVE_PART_WHY: a part does not say why the old one went
 * @HS_PROVE_OPEN_END: an end of the why-chain is not settled
 * @HS_PROVE_NOT_DONE: an end is called cured, and nothing says what was done
 * @HS_PROVE_LOOK: something that was disturbed was not looked after
 * @HS_PROVE_SAFE: nobody said yet whether it is safe to drive
 */
typedef enum
{
  HS_PROVE_TAKE_ONE,
  HS_PROVE_COMPLAINT_STAYS,
  HS_PROVE_PART_WHY,
  HS_PROVE_OPEN_END,
  HS_PROVE_READ_AGAIN,
  HS_PROVE_STILL_OUTSIDE,
  HS_PROVE_TRY,
  HS_PROVE_NOT_DONE,
  HS_PROVE_LOOK,
  HS_PROVE_SAFE,
} HsProveKind;

/**
 * HsProveItem:
 * @must: without it the job is not tested good; the others are asked for and told on the sheet
 * @what: what it is about: a check with its value, a part, a finding, a line
 * @check: (nullable): id of the check to read; @place: (nullable): where
 * @row_id: (nullable): of the part, the finding or the line
 */
typedef struct
{
  HsProveKind kind;
  gboolean must;
  char *what;
  char *check;
  char *place;
  char *row_id;
} HsProveItem;

/** hs_prove_say: (transfer full): a whole sentence that says what to do. */
char *hs_prove_say (const HsProveItem *item, const HsTongue *in);

/* hs_prove_id: (transfer none): for JSON: `read_again` … */
const char *hs_prove_id (HsProveKind kind);

/**
 * HsRepair: all that is known of the repair of a job; never changes once loaded.
 * @parts: (element-type HsFittedPart)
 * @looks: (element-type HsAfterLine)
 * @missing: (element-type HsProveItem): what is still to do before it is tested good; those that must be first
 * @n_must: how many of them must be
 * @try_check: id of the check by which the complaint is tried again
 * @tried: (nullable): how that went last: "5 of 5"; @tried_good: every try was good
 * @unproved_why: (nullable): why it could not be proven
 * @safe: (nullable): id of whether it is safe to drive
 * @odometer_unit: `mi` or `km`
 */
typedef struct
{
  GPtrArray *parts;
  GPtrArray *looks;
  GPtrArray *missing;
  guint n_must;
  const char *try_check;
  char *tried;
  gboolean tried_good;
  char *unproved_why;
  char *safe;
  char *odometer_unit;
} HsRepair;

void hs_repair_free (HsRepair *repair);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsRepair, hs_repair_free)

/**
 * HsProveStanding: how far a job is from tested good.
 * @HS_PROVE_OFF_ROAD: called off or passed on; nothing is to be proven
 * @HS_PROVE_BARRED: something is still to do without which it is not
 * @HS_PROVE_ASKED: it may be, and something is still asked for
 * @HS_PROVE_READY: nothing is left to do
 * @HS_PROVE_PROVEN: it is, or squared up
 */
typedef enum
{
  HS_PROVE_OFF_ROAD,
  HS_PROVE_BARRED,
  HS_PROVE_ASKED,
  HS_PROVE_READY,
  HS_PROVE_PROVEN,
} HsProveStanding;

/* hs_prove_standing: whoever says how a job stands asks this, so that no two pages say different things. */
HsProveStanding hs_prove_standing (const HsRepair *repair, HsStage stage);

/** hs_prove_dup_left: (transfer full): what is still to do: the first @most sentences, and how many there are beyond
 * them; "" if nothing is. */
char *hs_prove_dup_left (const HsRepair *repair, guint most, const HsTongue *in);

/**
 * hs_prove_add_lines:
 * @sheet: (element-type HsReadingResult): of the readings after the repair
 *
 * Gives each reading that is to be taken again its line, with the place where it was taken.
 */
void hs_prove_add_lines (HsBook *book, const HsRepair *repair, GPtrArray *sheet);

/** hs_repair_load: @view: (nullable): the job, if it was loaded already. Reads only. */
HsRepair *hs_repair_load (HsBook *book, const char *job_id, const HsJobView *view, HsInstant now, GError **error);

/** hs_complaint_stays: (transfer full) (nullable): "4 of 5" where the complaint was tried again last and not every try
 * was good. */
gboolean hs_complaint_stays (HsBook *book, const char *job_id, char **ret_tries, GError **error);

/** hs_data_load_after: what a repair may disturb, as it is compiled in. */
HsAfterList *hs_data_load_after (GError **error);

G_END_DECLS
