// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-safety-op.h"

G_BEGIN_DECLS

/*
 * Usual jobs: a jump start, a spare wheel, a can of fuel. From the call to the receipt by digits alone, with a fixed
 * price and the usual reasons ready, so that the rules of proof cost a key and not a sentence. Each is one setting of
 * the book (`usual_1` …), which the owner words:
 *
 *     NAME; PRICE; MINUTES; COMPLAINT GROUP; PROOF; WHY / WHY / WHY; CAUTION
 *
 * PROOF is a check and what is keyed for it, `key_turn 7`, or the check alone where a figure is measured. A WHY ends
 * with `=cured` or `=chosen` where it is not an outside influence. The price has no tax, as labor has none.
 */

#define HS_USUAL_MOST 6
#define HS_USUAL_PARTS 7

/**
 * HsUsual:
 * @nth: its digit, 1 to %HS_USUAL_MOST
 * @group: (nullable): complaint group
 * @check: (nullable): what proves it, measured afterwards
 * @keyed: (nullable): what is keyed for that; %NULL: it is measured each time
 * @whys: (array zero-terminated=1): usual reasons
 * @ends: (array zero-terminated=1): for each how the chain ends there, as in HsFindingEntry
 * @caution: (nullable): what is said before
 */
typedef struct
{
  guint nth;
  char *name;
  gint64 price_cents;
  int minutes;
  char *group;
  char *check;
  char *keyed;
  char **whys;
  char **ends;
  char *caution;
} HsUsual;

void hs_usual_free (HsUsual *usual);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsUsual, hs_usual_free)

/** hs_usual_parse: @text as above; refused with what is wrong with it. */
HsUsual *hs_usual_parse (HsBook *book, const char *text, GError **error);

/** hs_usual_list: (transfer full) (element-type HsUsual): those that the book has, by their digits. */
GPtrArray *hs_usual_list (HsBook *book, GError **error);

/** hs_usual_reasons: (array zero-terminated=1): why a usual job is not proven, by digits. */
extern const char *const hs_usual_reasons[];

/**
 * hs_usual_agree:
 * @nth: which one
 * @means: how the customer said yes to its price: `phone` or `in_person`
 *
 * Its group and its minutes, where the job has none, and the go-ahead over its price.
 */
gboolean hs_usual_agree (HsBook *book, const char *job_id, guint nth, const char *means, HsInstant now,
                         GError **error);

/**
 * hs_usual_answer_safe:
 * @item: an item of the safety list
 * @answer: `done`, `not_here`, `not_so`; %NULL: open again; `down_to`: done, and so is all above that nobody answered
 * @end: how it comes out once nothing is open or not so
 *
 * Arrived if it is not yet, and an answer to the safety list; with the last one it is over. Both or nothing.
 */
gboolean hs_usual_answer_safe (HsBook *book, const char *job_id, const char *item, const char *answer, HsSafetyEnd end,
                               HsInstant now, GError **error);

/**
 * hs_usual_finish_safe:
 * @why: (nullable): needed where it is refused
 *
 * The same with the list as a whole; see hs_safety_finish().
 */
gboolean hs_usual_finish_safe (HsBook *book, const char *job_id, HsSafetyEnd end, const char *why, HsInstant now,
                               GError **error);

/**
 * HsUsualEnd:
 * @nth: which one
 * @why: index into its reasons; -1: not known, and the customer was told so
 * @keyed: (nullable): the reading afterwards, as it is keyed; %NULL with @unproven
 * @unproven: (nullable): why there is none
 * @paid: (nullable): `cash`, `card`, `transfer`, `check`; %NULL: it goes on account
 */
typedef struct
{
  guint nth;
  int why;
  const char *keyed;
  const char *unproven;
  const char *paid;
} HsUsualEnd;

/**
 * hs_usual_finish:
 *
 * Arrived if it is not yet, why it failed, the reading afterwards or why there is none, the price, tested good, squared
 * up and paid: all in one transaction. It refuses what each of these refuses, and then nothing of it is kept.
 */
gboolean hs_usual_finish (HsBook *book, const char *job_id, const HsUsualEnd *end, HsInstant now, GError **error);

G_END_DECLS
