// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ask-arrive.h"
#include "hs-board.h"
#include "hs-chain-shot.h"
#include "hs-choice-op.h"
#include "hs-day-mend.h"
#include "hs-day-others.h"
#include "hs-day-share.h"
#include "hs-deed-repair.h"
#include "hs-history.h"
#include "hs-job-op.h"
#include "hs-ledger.h"
#include "hs-map-place.h"
#include "hs-own-limit.h"
#include "hs-parts-run.h"
#include "hs-photo-op.h"

G_BEGIN_DECLS

/* The questions of the pages, for hs_question_new (): each is an HsLedgerFunc, with the form of its arguments and what
 * it answers. All days are HsDate, all clock times minutes of the day. */

/**
 * HsBoardShot:
 * @board: the jobs
 * @plan: (nullable): the plan that stands for @today; %NULL if it cannot be made
 * @trouble: (nullable): why it cannot be made
 * @today: the day that was asked for
 */
typedef struct
{
  HsBoard *board;
  HsDayPlan *plan;
  char *trouble;
  HsDate today;
} HsBoardShot;

void hs_board_shot_free (HsBoardShot *shot);

/* hs_ask_board: no arguments, or (u): with the settled ones among so many newest closed jobs; answers an
 * #HsBoardShot. */
gpointer hs_ask_board (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_day: (ib): day, and whether to plan anew instead of showing what stands; answers an #HsDayPlan. */
gpointer hs_ask_day (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_others: (i): day; answers a #GPtrArray of #HsDayOther. */
gpointer hs_ask_others (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_mends: (ib): as hs_ask_day (); answers a #GPtrArray of #HsDayMend. */
gpointer hs_ask_mends (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_share: (i): day; answers an #HsShareCase, which needs no book any more. */
gpointer hs_ask_share (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_share_undo: (i): day; answers whether a shared plan of it can be taken back, as an integer in a pointer. */
gpointer hs_ask_share_undo (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_run: (i): day; answers an #HsPartsRun. */
gpointer hs_ask_run (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_find: (su): words and how many at most; answers a #GPtrArray of #HsHit. */
gpointer hs_ask_find (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_look_up: (su): as hs_ask_find(), behind the jobs whose number the words are. */
gpointer hs_ask_look_up (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_history: (s): id of a vehicle; answers an #HsHistory. */
gpointer hs_ask_history (HsBook *book, GVariant *args, HsInstant now, GError **error);

/**
 * HsJobShot:
 * @view: the job
 * @vehicle_id: (nullable): its vehicle
 * @battery: (nullable): what is known of the battery in it
 * @limits: (nullable) (element-type HsOwnLimit): the vehicle's own limits
 * @sheets: one array of #HsReadingResult for each of before, during and after
 * @why: why it failed
 * @repair: what was installed, disturbed and is still to do
 * @photos: (element-type HsPhotoCard): of the job, oldest first
 * @photo_subjects: (element-type HsPhotoSubject): what they may show
 * @nexts: (element-type HsJobNext): what to check next, for each complaint of the job; see hs-ask-next.h
 * @arrival: made safe, identified, asked, noted, and its visits
 * @choices: what was told and picked, and how far the go-ahead reaches
 */
typedef struct
{
  HsJobView *view;
  char *vehicle_id;
  HsBatteryFact *battery;
  GPtrArray *limits;
  GPtrArray *sheets[3];
  HsChainShot *why;
  HsRepairShot *repair;
  GPtrArray *photos;
  GPtrArray *photo_subjects;
  GPtrArray *nexts;
  HsArrival *arrival;
  HsJobChoices *choices;
} HsJobShot;

void hs_job_shot_free (HsJobShot *shot);

/* The phases of a job's readings in their order, as the book spells them; %NULL at the end. */
extern const char *const hs_ask_phases[];

/* hs_ask_job: (s): id of a job; answers an #HsJobShot. */
gpointer hs_ask_job (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_job_number: (s): a number such as "A-0021"; answers the job's id as text. */
gpointer hs_ask_job_number (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_judge: (ssssms): id of a job, phase, check, what was keyed, conditions that were told; answers an
 * #HsReadingResult; stores nothing. */
gpointer hs_ask_judge (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_money: (bu): only what is unpaid, and how many at most; answers a #GPtrArray of #HsMoneyRow. */
gpointer hs_ask_money (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_offers: (isiiib): day, area's code, minutes of work, window from and to, also re-planned days; answers a
 * #GPtrArray of #HsOffer. */
gpointer hs_ask_offers (HsBook *book, GVariant *args, HsInstant now, GError **error);

/**
 * HsPlace:
 * @code: as in the book
 * @name: as it is shown
 * @signal: (nullable): `good`, `patchy`, `none`
 */
typedef struct
{
  char *code;
  char *name;
  char *signal;
} HsPlace;

void hs_place_free (HsPlace *place);

/* hs_ask_places: no arguments; answers a #GPtrArray of #HsPlace in the owner's order. */
gpointer hs_ask_places (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_map: no arguments; answers a #GPtrArray of #HsMapPlace. */
gpointer hs_ask_map (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_accuracy: no arguments; answers an #HsTravelAccuracy, freed by g_free(). */
gpointer hs_ask_accuracy (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_where: no arguments; answers an #HsWhere, or %NULL if nothing was interrupted. */
gpointer hs_ask_where (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_drafts: (ms): a job, or nothing for call slips that are no job yet; answers a #GPtrArray of #HsWhere, one a
 * field, oldest first. */
gpointer hs_ask_drafts (HsBook *book, GVariant *args, HsInstant now, GError **error);

G_END_DECLS
