// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-verdict.h"

G_BEGIN_DECLS

/*
 * What is turned round to the customer, and nothing else: this vehicle, its readings, the choices, the sum. The page
 * that shows it is given this snapshot alone, so that it cannot show what is not in here. Lint keeps the words of what
 * does not belong here out of this file.
 */

/**
 * HsCustomerBand: a part of a scale, up to @to, in the unit of the reading
 * @limit: (nullable): how that end is written; %NULL at the end of the scale
 */
typedef struct
{
  HsVerdict verdict;
  double to;
  char *limit;
} HsCustomerBand;

/**
 * HsCustomerScale:
 * @bands: (element-type HsCustomerBand): from low to high
 * @now: the reading afterwards, or the only one; @before: the one before that, if @has_before
 *
 * A reading on its limits, to be drawn.
 */
typedef struct
{
  double from;
  double to;
  gboolean logarithmic;
  GArray *bands;
  double now;
  gboolean has_before;
  double before;
} HsCustomerScale;

/**
 * HsCustomerReading:
 * @name: of the check
 * @place: (nullable): where on the vehicle
 * @before, @after: (nullable): "0.31 A"
 * @before_verdict, @after_verdict: (nullable): ids
 * @before_word, @after_word: (nullable): what to show
 * @before_note, @after_note: (nullable): "3.2 days to no-start"
 * @scale: (nullable): it on its limits
 */
typedef struct
{
  char *name;
  char *place;
  char *before;
  char *before_verdict;
  char *before_word;
  char *before_note;
  char *after;
  char *after_verdict;
  char *after_word;
  char *after_note;
  HsCustomerScale *scale;
} HsCustomerReading;

/**
 * HsCustomerChoice:
 * @number: the digit that picks it
 * @rank: (nullable): `best`, `enough`, `least`
 * @risk: (nullable): in one sentence
 * @asked_cents: what is asked for it, with tax
 * @choice: `open`, `yes`, `no`, `later`
 * @would_cents: what the job would come to with it, with tax
 * @would_short_cents: by how much that would pass what was agreed to
 */
typedef struct
{
  guint number;
  char *id;
  char *rank;
  char *wording;
  char *risk;
  gint64 asked_cents;
  char *choice;
  gint64 would_cents;
  gint64 would_short_cents;
} HsCustomerChoice;

/**
 * HsCustomerShot:
 * @words: the complaint as it was said
 * @readings: (element-type HsCustomerReading)
 * @why: (element-type utf8): why it failed, in sentences
 * @choices: (element-type HsCustomerChoice)
 * @total_cents: what the job comes to so far, with tax
 * @n_unpriced: how many parts are not in it, for nobody said their price yet
 * @ceiling_cents: what was agreed to, or %HS_INT_NONE
 * @short_cents: by how much the first passes the second
 * @signer: who signs
 * @may_sign: nothing is frozen yet
 */
typedef struct
{
  char *number;
  char *plate;
  char *vehicle;
  char *words;
  HsDate day;
  GPtrArray *readings;
  GPtrArray *why;
  GPtrArray *choices;
  gint64 total_cents;
  guint n_unpriced;
  gint64 ceiling_cents;
  gint64 short_cents;
  char *signer;
  gboolean may_sign;
} HsCustomerShot;

void hs_customer_shot_free (HsCustomerShot *shot);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCustomerShot, hs_customer_shot_free)

/** hs_customer_shot_load: (transfer full) (nullable): reads only. */
HsCustomerShot *hs_customer_shot_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
