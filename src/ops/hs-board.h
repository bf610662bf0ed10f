// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-day-plan.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/**
 * HsBoardRow: one job tag.
 * @attention: it wants attention: dog-ear and act line
 * @act: what to do now ("27 days after A-0016: decide why"), may be %NULL
 * @waits_for: "starter, Larch & Weir, 38 % sure", may be %NULL
 * @note: one more fact ("In the van: battery 55 Ah"), may be %NULL
 * @stop_number: place in the standing plan of @arrive's day, 0 if none
 * @unpaid_cents: of a squared job
 * @settled: nothing is wanted of it any more; see hs_board_unfold()
 * @van_id: the van that has it, may be %NULL
 */
typedef struct
{
  char *job_id;
  char *number;
  HsStage stage;
  char *plate;
  char *vehicle;
  char *words;
  char *customer;
  char *area;
  char *signal;
  HsDate day;
  HsInstant window_from;
  HsInstant window_to;
  HsInstant arrive;
  guint stop_number;
  int minutes;
  gint64 unpaid_cents;
  HsDate unpaid_since;
  gboolean high_voltage;
  gboolean attention;
  char *act;
  char *waits_for;
  char *note;
  char *van_id;
  gboolean settled;
} HsBoardRow;

void hs_board_row_free (HsBoardRow *row);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsBoardRow, hs_board_row_free)

/**
 * HsBoard:
 * @rows: (element-type HsBoardRow): every open job and every squared one that still wants something, in board order
 * @settled: how many squared, called off or passed on jobs are folded away
 */
typedef struct
{
  GPtrArray *rows;
  guint64 settled;
} HsBoard;

void hs_board_free (HsBoard *board);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsBoard, hs_board_free)

/** hs_board_load: @plan: the standing plan of the day, or %NULL. */
HsBoard *hs_board_load (HsBook *book, const HsDayPlan *plan, HsInstant now, GError **error);

/** hs_board_unfold: puts settled jobs behind the others, newest first: those among the @most newest closed ones. */
gboolean hs_board_unfold (HsBook *book, HsBoard *board, guint most, HsInstant now, GError **error);

/* HS_NO_PRICE_YET: in place of a price. */
#define HS_NO_PRICE_YET "no price yet"

/**
 * HsLineCost: what the price of a line of the bill is made of, for the owner's eyes.
 * @cost_cents: of a part; 0: not known, or no part
 */
typedef struct
{
  gint64 cost_cents;
  gint64 price_cents;
} HsLineCost;

/** HsJobView: all of one job, for its page and for `halfshaft-cli job`. */
typedef struct
{
  HsBoardRow *tag;
  char *kind;
  char *group;
  char *phone;
  char *street;
  char *access_note;
  char *follows_number;
  char *return_why;
  GPtrArray *asked;     /* (element-type utf8) question, answer, question, answer … */
  GPtrArray *findings;  /* (element-type utf8) in words */
  GPtrArray *because;   /* (element-type utf8) "effect ← cause (proof)" */
  GPtrArray *readings;  /* (element-type HsReadingResult) from hs-job-op.h */
  GPtrArray *advice;    /* (element-type utf8) */
  GPtrArray *go_aheads; /* (element-type utf8) */
  GPtrArray *lines;     /* (element-type utf8) "what<TAB>price", or HS_NO_PRICE_YET as price */
  GArray *costs;        /* (element-type HsLineCost) one for each of lines */
  GPtrArray *installed; /* (element-type utf8) */
  char *unpriced;       /* what the first installed part without a price is called, %NULL: there is none */
  char *unpriced_id;    /* that part */
  guint n_unpriced;     /* how many there are */
  gint64 clock_minutes; /* on site so far, as far as it is not priced yet */
  gint64 clock_cents;   /* what they add to the lines; it is in net_cents */
  gint64 past_minutes;  /* on site past what was agreed; they are not charged */
  /* The minutes of the visit that arrived then are not known, since the machine's clock was put back, and so not on
   * the bill; HS_INSTANT_NONE: all are known. When it was left; HS_INSTANT_NONE: it is not over. */
  HsInstant unclocked_at;
  HsInstant unclocked_left_at;
  gint64 net_cents;
  gint64 tax_cents;
  gint64 paid_cents;
  HsInstant rolling_at;
  HsInstant arrived_at;
  HsInstant left_at;
} HsJobView;

void hs_job_view_free (HsJobView *view);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsJobView, hs_job_view_free)
HsJobView *hs_job_view_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

/** HsMoneyRow: one invoice as a plain line. */
typedef struct
{
  char *job_id;
  char *number;
  char *customer;
  char *plate;
  HsDate issued_on;
  HsDate due_on;
  gint64 total_cents;
  gint64 paid_cents;
} HsMoneyRow;

void hs_money_row_free (HsMoneyRow *row);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsMoneyRow, hs_money_row_free)

/** hs_money_list: (element-type HsMoneyRow): newest first; @unpaid_only: only those with something open. */
GPtrArray *hs_money_list (HsBook *book, gboolean unpaid_only, guint limit, GError **error);

G_END_DECLS
