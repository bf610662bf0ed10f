// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-safety.h"
#include "hs-stage.h"

G_BEGIN_DECLS

/* Arriving and making safe: the safety list of a visit, answered item by item and then as a whole. */

/** hs_data_load_safety: (transfer full): the lists that are compiled in. It needs no book. */
HsSafety *hs_data_load_safety (GError **error);

/**
 * HsSafetyLine: an item of the list and, if it was answered on this visit, its answer.
 * @words, @brief, @caution, @source, @sure, @high_voltage: as in HsSafetyItem
 * @answer: (nullable): `done`, `not_here`, `refused`
 * @why: (nullable): of a refusal
 * @not_so: refused by itself, not along with the work
 * @asked: it is open, or was refused along with the work, which is asked once more
 * @at: when, or %HS_INSTANT_NONE
 */
typedef struct
{
  char *id;
  char *words;
  char *brief;
  char *caution;
  char *source;
  char *sure;
  gboolean high_voltage;
  char *answer;
  char *why;
  gboolean not_so;
  gboolean asked;
  HsInstant at;
} HsSafetyLine;

/**
 * HsSafetySheet: the safety list of a job's latest visit.
 * @lines: (element-type HsSafetyLine): in the order of asking; behind them what was answered on this visit before the
 *   complaint was told
 * @visit_id: (nullable): the visit that is answered for; %NULL before anybody arrived
 * @note: (nullable): how it came out: "safe here", "moved: …", "refused because …", "not gone through"
 * @passed: nobody went through it, and that was written down
 * @high_voltage: nothing is measured or found before its own items are answered
 * @n_open: how many items are not answered; one of high voltage is answered by `done`, or refused with the whole list
 * @n_not_so: how many are not so, and nobody refused the work for it: no work is done on there
 * @n_high_voltage_open: how many of both are asked of high-voltage vehicles alone; they keep the findings shut
 */
typedef struct
{
  GPtrArray *lines;
  char *visit_id;
  char *note;
  gboolean passed;
  gboolean high_voltage;
  guint n_open;
  guint n_not_so;
  guint n_high_voltage_open;
} HsSafetySheet;

void hs_safety_sheet_free (HsSafetySheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSafetySheet, hs_safety_sheet_free)

/** hs_safety_sheet_load: (transfer full) (nullable): reads only. */
HsSafetySheet *hs_safety_sheet_load (HsBook *book, const char *job_id, GError **error);

/**
 * hs_safety_answer:
 * @item: its id
 * @answer: `done`, `not_here`, `not_so` or, the same, `refused`; %NULL takes the answer back
 * @why: (nullable): needed with `refused`
 *
 * One item of the list. A later answer takes the place of an earlier one. To an item of high voltage `not_here` is no
 * answer.
 */
gboolean hs_safety_answer (HsBook *book, const char *job_id, const char *item, const char *answer, const char *why,
                           HsInstant now, GError **error);

/**
 * hs_safety_answer_down_to:
 * @item: its id
 *
 * All that nobody answered yet down to @item is done, @item too, in one step. An item of high voltage above it is
 * answered by itself first.
 */
gboolean hs_safety_answer_down_to (HsBook *book, const char *job_id, const char *item, HsInstant now, GError **error);

/**
 * HsSafetyEnd:
 * @HS_SAFETY_SAFE: it is safe to work here
 * @HS_SAFETY_MOVED: the vehicle was moved first
 * @HS_SAFETY_REFUSED: no work here
 */
typedef enum
{
  HS_SAFETY_SAFE,
  HS_SAFETY_MOVED,
  HS_SAFETY_REFUSED,
} HsSafetyEnd;

/**
 * hs_safety_finish:
 * @why: (nullable): where to, or why it is refused; that one is needed
 *
 * How it came out. The first time, items that are not answered yet are done by it; those that come to the list later,
 * with the complaint, and the items of a high-voltage vehicle have to be answered one by one before it is safe or
 * moved, and none may be not so. Of what was refused along with the work only high voltage has to. Refused, all that is
 * open is refused for the same reason, which is neither "not so" nor what was said of an item that is not. A list that
 * was begun on the visit that is under way keeps the job from being tested good while any of it is open, or not so.
 */
gboolean hs_safety_finish (HsBook *book, const char *job_id, HsSafetyEnd end, const char *why, HsInstant now,
                           GError **error);

/**
 * hs_safety_check_read:
 * @to: where the job is to go
 *
 * For whoever moves a job at the vehicle, not for one that is typed up later: %HS_OPS_ERROR_UNREAD if it would be
 * tested good on a visit whose safety list nobody began or passed.
 */
gboolean hs_safety_check_read (HsBook *book, const char *job_id, HsStage to, GError **error);

/** hs_safety_pass: the list of the visit is not gone through, and that is written down with it. Refused for a
 * high-voltage vehicle, and once it was begun. */
gboolean hs_safety_pass (HsBook *book, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
