// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain-op.h"
#include "hs-job-op.h"

G_BEGIN_DECLS

/*
 * The rest of a job's life on site, each one transaction: what was told and picked, go-aheads, parts installed, lines,
 * squaring and payment; findings and why it failed are in hs-chain-op.h. This cut serves the demo business and the
 * command line; the window's pages for it come with their own issue.
 */

/** hs_asked_add: a question of the call and its answer; asking again replaces the answer. */
gboolean hs_asked_add (HsBook *book, const char *job_id, const char *question, const char *answer, HsInstant now,
                       GError **error);

/** HsAdviceLineEntry: one line of an option; cost, price and tax are of the whole line. */
typedef struct
{
  const char *kind; /* labor, part, call_out, core_deposit, discount, sundry, goodwill; %NULL: labor */
  const char *what;
  gint64 quantity_milli; /* 0: one */
  gint64 cost_cents;
  gint64 price_cents;
  gint64 tax_cents;
} HsAdviceLineEntry;

typedef struct
{
  const char *group;
  int rank;
  const char *wording;
  gint64 price_cents; /* with tax; beside lines 0, or what they come to */
  const char *choice; /* open, yes, no, later */
  const char *risk;
  const char *by;
  const char *means;
  HsInstant at;
  HsDate chase_on;
  const HsAdviceLineEntry *lines;
  gsize n_lines;
} HsAdviceEntry;

/** hs_advice_add: refused if its price is not that of its lines. Returns the option's id. */
char *hs_advice_add (HsBook *book, const char *job_id, const HsAdviceEntry *entry, HsInstant now, GError **error);
gboolean hs_go_ahead_add (HsBook *book, const char *job_id, gint64 ceiling_cents, const char *by, const char *means,
                          HsInstant at, GError **error);

typedef struct
{
  const char *what;
  const char *part_number; /* of the catalog, may be %NULL */
  const char *place;
  const char *maker;
  const char *battery_kind;
  double ah;
  double cca;
  int warranty_months;
  gint64 cost_cents; /* 0: as the catalog knows it; of a part that is not in it the bill then has no price yet */
  const char *why;            /* failed, due, none_before, not_known (told now); %NULL with a finding: failed */
  const char *why_finding_id; /* why the old one failed */
  const char *serial;
  const char *date_stamp;     /* of a battery, as it is stamped: hs_battery_code_parse() reads it where it can */
  const char *supplier_bill;
  gint64 warranty_millimiles; /* 0: what the catalog says */
  gint64 odometer;            /* as read today; 0: not read, or read on this job already */
  const char *old_part;       /* shown, kept, handed_over, core; may be %NULL */
  gboolean looks;             /* what it disturbed goes onto the list that is gone through before leaving */
  gboolean warranty_swap;     /* stands in for the one in this place and keeps its first date */
  gboolean from_van;          /* taken out of the van's stock */
  gboolean past_ceiling;      /* also where its price passes the go-ahead; without it that is refused, by how much */
} HsInstallEntry;

char *hs_part_install (HsBook *book, const char *job_id, const HsInstallEntry *entry, HsInstant now, GError **error);

/**
 * hs_job_estimate:
 * @minutes: on site
 * @costs: (array length=n_costs): cost of each part
 * @ret_net_cents: (out) (optional): labor and banded parts
 * @ret_tax_cents: (out) (optional): tax on the parts, rounded once
 *
 * What a job of this size comes to at the book's rates; nothing is written.
 */
gboolean hs_job_estimate (HsBook *book, gint64 minutes, const gint64 *costs, gsize n_costs, gint64 *ret_net_cents,
                          gint64 *ret_tax_cents, GError **error);

/** hs_job_price: writes the labor line from the visits, banded part lines and the tax; @goodwill: why nothing is
 * charged, or %NULL. */
gboolean hs_job_price (HsBook *book, const char *job_id, const char *goodwill, HsInstant now, GError **error);

/** hs_job_square: squares a proven job and freezes its invoice. */
gboolean hs_job_square (HsBook *book, const char *job_id, HsInstant now, GError **error);
gboolean hs_payment_add (HsBook *book, const char *job_id, gint64 cents, const char *how, HsInstant at,
                         GError **error);

G_END_DECLS
