// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-job-row.h"
#include "hs-money-row.h"

G_BEGIN_DECLS

/* hs_bill_banded: what a part of that cost sells for at the book's bands. */
gboolean hs_bill_banded (HsBook *book, gint64 cost_cents, gint64 *ret_price_cents, GError **error);

/* hs_bill_labor: what that many minutes on site come to. */
gboolean hs_bill_labor (HsBook *book, gint64 minutes, gint64 *ret_cents, GError **error);

/* hs_bill_tax: the tax of the invoice, shared out to the taxed lines. */
gboolean hs_bill_tax (HsBook *book, const gint64 *taxed_cents, gsize n_lines, gint64 *ret_line_tax_cents,
                      gint64 *ret_total_cents, GError **error);

/* hs_bill_tax_lines: shares the tax of the whole bill out to its lines (element-type HsLineRow), at the rate of now,
 * also what goodwill takes off again; nothing is saved. */
gboolean hs_bill_tax_lines (HsBook *book, GPtrArray *lines, GError **error);

/* hs_bill_tax_job: the same of the lines that a job has, and saves them. Needs a transaction. */
gboolean hs_bill_tax_job (HsBook *book, const char *job_id, GError **error);

/**
 * HsBillOwn:
 * @minutes: on site so far, over all visits
 * @own_minutes: of these what no option pays for
 * @cents: what they come to, with the call-out where no option has it
 * @past_minutes: how many are past what was agreed; they are not charged
 * @agreed: options on the bill say what work costs
 * @called_out: one of them has the call-out
 * @came: somebody was on site for a time that is known or not charged
 * @unclocked_at: some of @cents hangs on minutes that the clock does not have, since it was put back on the visit that
 *   arrived then; %HS_INSTANT_NONE: none does
 * @unclocked_left_at: when that was left; %HS_INSTANT_NONE: it is not over
 */
typedef struct
{
  gint64 minutes;
  gint64 own_minutes;
  gint64 cents;
  gint64 past_minutes;
  gboolean agreed;
  gboolean called_out;
  gboolean came;
  HsInstant unclocked_at;
  HsInstant unclocked_left_at;
} HsBillOwn;

/* hs_bill_own_work: the work by the clock beside what is agreed in @lines (element-type HsLineRow). */
gboolean hs_bill_own_work (HsBook *book, const char *job_id, GPtrArray *lines, HsInstant now, HsBillOwn *ret_own,
                           GError **error);

/**
 * HsBillClock:
 * @minutes: on site so far, over all visits
 * @more_cents: by how much the work by them is more than what the lines say; 0 once the job is priced
 * @past_minutes, @unclocked_at, @unclocked_left_at: as of #HsBillOwn
 */
typedef struct
{
  gint64 minutes;
  gint64 more_cents;
  gint64 past_minutes;
  HsInstant unclocked_at;
  HsInstant unclocked_left_at;
} HsBillClock;

/* hs_bill_refuse_unclocked: says of which visit of the job the minutes are not known, and what to do. Returns: FALSE */
gboolean hs_bill_refuse_unclocked (HsBook *book, const char *number, HsInstant arrived_at, HsInstant left_at,
                                   GError **error);

/* hs_bill_clock: what the clock adds to @lines (element-type HsLineRow) of a job now. */
gboolean hs_bill_clock (HsBook *book, const HsJobRow *job, GPtrArray *lines, HsInstant now, HsBillClock *ret_clock,
                        GError **error);

/* hs_bill_check_priced: refused where a line or the work by the clock has no price; nothing is written. */
gboolean hs_bill_check_priced (HsBook *book, const HsJobRow *job, GPtrArray *lines, const HsBillClock *clock,
                               GError **error);

/* hs_bill_drop_outrun: takes off labor that was priced before the clock went past it. Needs a transaction. */
gboolean hs_bill_drop_outrun (HsBook *book, const HsJobRow *job, HsInstant now, GError **error);

/* hs_call_off_drop_lines: takes off the bill what was not put in. Needs a transaction. */
gboolean hs_call_off_drop_lines (HsBook *book, const char *job_id, GError **error);

/* hs_call_off_drop_empty: takes off the bill the goodwill that nothing is left of. Needs a transaction. */
gboolean hs_call_off_drop_empty (HsStore *store, const char *job_id, GError **error);

/* hs_call_off_take_up: takes the fee of a job that was called off away and puts back on the bill what the customer said
 * yes to, on the house if it was. Needs a transaction. */
gboolean hs_call_off_take_up (HsBook *book, const HsJobRow *job, GError **error);

/* hs_bill_known_cost: what the part of the catalog costs this job: as it was quoted, else as the cheapest counter asked
 * last; 0: nobody knows. */
gboolean hs_bill_known_cost (HsStore *store, const char *job_id, const char *part_id, gint64 *ret_cents,
                             GError **error);

/* hs_bill_lacks_price: @line of @lines (element-type HsLineRow) is an installed part of which nobody said what it cost;
 * none is where all is on the house. */
gboolean hs_bill_lacks_price (HsStore *store, GPtrArray *lines, const HsLineRow *line, gboolean *ret_lacks,
                              GError **error);

/* hs_bill_find_unpriced: @ret_line: (transfer none) (nullable): the first such line. */
gboolean hs_bill_find_unpriced (HsStore *store, GPtrArray *lines, const HsLineRow **ret_line, GError **error);

/* hs_bill_set_cost: what an installed part cost, as it is typed: its price follows by the bands; 0: it is not charged;
 * blank: it has no price yet. Needs a transaction. */
gboolean hs_bill_set_cost (HsBook *book, const char *job_id, const char *part_id, const char *what, const char *text,
                           GError **error);

/* hs_bill_has_call_out: one that an option has is among @lines (element-type HsLineRow). */
gboolean hs_bill_has_call_out (GPtrArray *lines);

/* hs_bill_is_gift: takes off again what stands before it on the bill, since that is on the house; not the goodwill that
 * an option has. */
gboolean hs_bill_is_gift (const HsLineRow *line);

/* hs_bill_is_given: what stood on the bill was given for nothing: such a line is among @lines (element-type
 * HsLineRow). */
gboolean hs_bill_is_given (GPtrArray *lines);

/* hs_bill_is_work: labor or a call-out. */
gboolean hs_bill_is_work (const HsLineRow *line);
gboolean hs_bill_is_work_kind (const char *kind);

/* hs_bill_is_taxed: parts are taxed, work is not. */
gboolean hs_bill_is_taxed (const char *kind);

/* hs_bill_same_words: both name the same thing, however they are spelled. */
gboolean hs_bill_same_words (const char *one, const char *other);

/**
 * hs_bill_claim_line:
 * @part_id: (nullable): of the catalog
 * @what: the part in words
 * @ret_line: (out): (nullable): the line that a picked option put on the bill for this part before it was installed
 */
gboolean hs_bill_claim_line (HsStore *store, const char *job_id, const char *part_id, const char *what,
                             HsLineRow **ret_line, GError **error);

/* hs_bill_freeze: (transfer full): the JSON text of a job's invoice as it is handed over. */
char *hs_bill_freeze (HsBook *book, const HsJobRow *job, HsDate issued_on, HsDate due_on, GError **error);

G_END_DECLS
