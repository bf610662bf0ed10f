// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-problem.h"
#include "hs-day-share.h"
#include "hs-day-solve.h"

G_BEGIN_DECLS

/* Where a part came from under the plans that stand, besides a counter of the problem. */
#define HS_SHARE_STOCK G_MAXUINT
#define HS_SHARE_NOWHERE (G_MAXUINT - 1)

/* How late a call is that is in no plan at all. */
#define HS_SHARE_UNSERVED G_MAXINT32

/** HsShareRules: what the owner set for a van, before the hour and where it is come into it. */
typedef struct
{
  gint32 leave_from_seconds;
  gint32 leave_to_seconds;
  gint32 home_by_seconds;
  gint32 break_seconds;
  gint32 break_from_seconds;
  gint32 break_to_seconds;
} HsShareRules;

/**
 * HsShareVan:
 * @begun: it is under way
 * @place, @time: where and from when the rest of its day is driven, if it has begun; seconds of the day
 * @rolled_at: when it left, if it has begun
 * @past: (element-type HsPlanStopRow): the calls that it has begun, in order
 * @day: the day with the rules of this van, from where it is
 * @standing: (nullable): the order that was accepted
 * @order: (element-type guint): what stands and is still ahead, as stops of the day
 * @leave: when it leaves for that
 * @plan: (nullable): that order driven; %NULL for none
 */
typedef struct
{
  char *id;
  char *letter;
  gboolean begun;
  guint place;
  gint32 time;
  HsInstant rolled_at;
  GPtrArray *past;
  HsShareRules rules;
  HsDay *day;
  HsDayStanding *standing;
  GArray *order;
  gint32 leave;
  HsPlan *plan;
} HsShareVan;

/**
 * HsShareCase:
 * @problem: its calls are those of the day that are ahead, and behind them one for each van that has begun
 * @vans: (element-type HsShareVan)
 * @van_of: (element-type guint): the van that has each call now
 * @late: (element-type gint32): how late each is under the plans that stand, or %HS_SHARE_UNSERVED
 * @was: (element-type guint): where each need's part came from: a counter of the problem, %HS_SHARE_STOCK, or
 *   %HS_SHARE_NOWHERE
 * @digest: of all that a proposal depends on but the hour
 */
struct _HsShareCase
{
  HsDayFacts *facts;
  HsDayBuild *build;
  HsDayProblem *problem;
  GPtrArray *vans;
  GArray *van_of;
  GArray *late;
  GArray *was;
  GPtrArray *stays;
  HsShareSum standing;
  char *digest;
};

/* hs_share_case_meet: what stands for each van, and its rules. */
gboolean hs_share_case_meet (HsShareCase *of, HsBook *book, HsInstant now, GError **error);

/* hs_share_case_stand: drives the plans that stand: fills their times, sums and lateness. */
gboolean hs_share_case_stand (HsShareCase *of, GError **error);

/* hs_share_case_find_past: what each van has begun at @now, as HsPlanStopRow, and where it is. */
gboolean hs_share_case_find_past (HsShareCase *of, HsBook *book, GPtrArray *jobs, HsInstant now, GError **error);

/* hs_share_case_digest: (transfer full): of everything in the case that is not a matter of the hour. */
char *hs_share_case_digest (const HsShareCase *of);

/* hs_share_case_row_id: (transfer none): job or supplier behind a stop of the day. */
const char *hs_share_case_row_id (const HsShareCase *of, guint stop);

/* hs_share_case_is_locked: whether that row is locked in the order that stands for @van. */
gboolean hs_share_case_is_locked (const HsShareVan *van, const char *row_id);

/* hs_share_call_index: the call of the problem behind a stop of the day, or -1. */
int hs_share_call_index (const HsShareCase *of, guint stop);

/* hs_share_keep_locks: puts locked stops of @solution at their places where they are not; what is then driven is no
 * longer proven. */
gboolean hs_share_keep_locks (const HsShareCase *of, HsSolution *solution, GError **error);

/* hs_share_describe: (transfer full): a solution in instants and words. */
HsSharePlan *hs_share_describe (const HsShareCase *of, const HsSolution *solution);

/* hs_share_check_day: refuses a day that is over at @now. */
gboolean hs_share_check_day (HsBook *book, HsDate day, HsInstant now, GError **error);

/* hs_share_order_read: (transfer full): m(xxa(ssbxxx)): the order that stands for a van: leave, home, stops, each with
 * the id of its job or its supplier, whether it is locked, and its times. */
GVariant *hs_share_order_read (HsStore *store, const char *van_id, HsDate day, GError **error);

/* hs_share_order_put: lets @order stand, which is what hs_share_order_read () gave. */
gboolean hs_share_order_put (HsStore *store, const char *van_id, HsDate day, GVariant *order, GError **error);

gboolean hs_share_order_drop (HsStore *store, const char *van_id, HsDate day, GError **error);

/* hs_share_order_describe: (transfer full): the order that stands in one text, without the times at its stops; "" for
 * none. */
char *hs_share_order_describe (HsStore *store, const char *van_id, HsDate day, GError **error);

/* hs_share_undo_keep: writes down what hs_share_take_back () needs. @moves: a(ssss): job, number, its van before (""
 * for none), its van now; @vans: a(sm(xxa(ssbxxx))s): van, its order before, its order now as described. */
gboolean hs_share_undo_keep (HsStore *store, HsDate day, GVariantBuilder *moves, GVariantBuilder *vans,
                             GError **error);

void hs_share_move_free (gpointer move);

HsShareNote *hs_share_note_new (const char *number, const char *what);
void hs_share_note_free (HsShareNote *note);

G_END_DECLS
