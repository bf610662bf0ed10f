// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-advice-row.h"
#include "hs-choice-op.h"
#include "hs-job-row.h"
#include "hs-money-row.h"

G_BEGIN_DECLS

/* What the parts of "told and picked" share: pricing in hs-choice-price.c, the bill in hs-choice-bill.c, since
 * when work is agreed in hs-choice-agreed.c, what was declined earlier in hs-declined.c. All within a transaction. */

/* How it begins where an option was left for another one and no risk was told of it. */
#define HS_CHOICE_NO_RISK "none: “"

/* hs_choice_price_line: fills a new line of an option; labor gets its price by hs_choice_reprice(). */
gboolean hs_choice_price_line (HsBook *book, const HsChoiceLineEntry *entry, HsAdviceLineRow *row, GError **error);

/* hs_choice_reprice: labor by the minutes of all lines, the tax rounded once over the option; saves and the sum. */
gboolean hs_choice_reprice (HsBook *book, HsAdviceRow *row, GError **error);

/* hs_choice_on_bill: puts an option's lines on the bill and its parts among the needs. */
gboolean hs_choice_on_bill (HsBook *book, const HsAdviceRow *row, GError **error);

/* hs_choice_off_bill: takes them away again; refused for a part that is on the vehicle. */
gboolean hs_choice_off_bill (HsBook *book, const HsAdviceRow *row, GError **error);

/* hs_choice_put_call_out: where none of an option is on the bill, that of another one with a yes, which was left out
 * because there was one. */
gboolean hs_choice_put_call_out (HsBook *book, const char *job_id, GError **error);

/* hs_choice_ousts: a yes to an option that @works takes @line of @bill (element-type HsLineRow) off: what was priced
 * before work was agreed is priced anew beside it. What is on the house stays as it was given, and once it tested good
 * (@proven) what was told of the work before stands. */
gboolean hs_choice_ousts (GPtrArray *bill, gboolean works, gboolean proven, const HsLineRow *line);

/* hs_choice_becomes: @line, which is on the bill because the part was installed first, becomes the option's line of
 * that kind and words; it is not charged twice. */
gboolean hs_choice_becomes (const HsLineRow *line, const char *kind, const char *what);

/* hs_choice_is_proven: its priced work stands, whatever is picked then. */
gboolean hs_choice_is_proven (const HsJobRow *job);

/* hs_choice_called_out: an option's call-out is on the bill, or that of the priced work which stands. */
gboolean hs_choice_called_out (GPtrArray *lines, gboolean proven);

/* hs_choice_agreed_at: since when the work of @row's group is agreed: its own yes, or that of the option with work that
 * @row is picked instead of, before @at; else @at stays. */
gboolean hs_choice_agreed_at (HsStore *store, const HsAdviceRow *row, HsInstant *at, GError **error);

/* HsChoiceSpan: how long a yes stood that was taken back. */
typedef struct
{
  HsInstant from;
  HsInstant to;
} HsChoiceSpan;

/* hs_choice_note_taken_back: keeps for how long @row, which has its yes still, was agreed, if work was. */
gboolean hs_choice_note_taken_back (HsStore *store, const HsAdviceRow *row, HsInstant now, GError **error);

/* hs_choice_list_taken_back: adds to @spans (element-type HsChoiceSpan) those of @row and of its group of which nobody
 * undid the step; they may overlap. */
gboolean hs_choice_list_taken_back (HsStore *store, const HsAdviceRow *row, GArray *spans, GError **error);

/* hs_choice_call: somebody to call about it on its day, instead of @old_day; either may be %HS_DATE_NONE. */
gboolean hs_choice_call (HsBook *book, const HsAdviceRow *row, HsDate old_day, HsInstant now, GError **error);

/* hs_go_ahead_weigh: fills in the sums of @room, whose go-ahead is there, for @lines (element-type HsLineRow) and one
 * more as in hs_go_ahead_check(). */
gboolean hs_go_ahead_weigh (HsBook *book, const HsJobRow *job, GPtrArray *lines, const char *kind, gint64 net_cents,
                            HsInstant now, HsGoAheadRoom *room, GError **error);

/* hs_go_ahead_short: by how much the job passes its go-ahead now; 0 also where nobody gave one. */
gboolean hs_go_ahead_short (HsBook *book, const char *job_id, HsInstant now, gint64 *ret_cents, GError **error);

/* hs_go_ahead_check_past: refused with %HS_OPS_ERROR_PAST_CEILING, by how much, if the job passes its go-ahead by more
 * than @before_cents now that @what stands on the bill. */
gboolean hs_go_ahead_check_past (HsBook *book, const char *job_id, const char *what, gint64 before_cents,
                                 HsInstant now, GError **error);

/* hs_go_ahead_read_means: how an answer came, never guessed but by a signature; refused if nothing says so. */
gboolean hs_go_ahead_read_means (const char *text, GBytes *signature, const char **ret_means, GError **error);

/* hs_go_ahead_check_signature: it can be drawn again, and is there exactly where the answer was signed. */
gboolean hs_go_ahead_check_signature (GBytes *bytes, const char *means, GError **error);

void hs_declined_free (HsDeclined *declined);
gboolean hs_declined_list (HsBook *book, const HsJobRow *job, HsInstant now, GPtrArray **ret_declined, GError **error);

G_END_DECLS
