// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-build.h"
#include "hs-solve.h"

G_BEGIN_DECLS

/* What hs_day_problem_find_need () says of parts in which there is no choice. */
#define HS_DAY_NO_NEED G_MAXUINT

/**
 * HsDayProblem: a built day for hs_solve ().
 * @calls: (element-type guint): the stop of the day behind each call
 * @counters: (element-type guint): the stop of the day behind each counter
 * @without: (nullable): the counter that is left out
 * @pooled: needs for the same part at the same prices draw on the same stock
 * @carried: (element-type guint): parts that some van has on board
 */
typedef struct
{
  const HsDayBuild *build;
  HsProblem *problem;
  GArray *calls;
  GArray *counters;
  const char *without;
  gboolean pooled;
  GHashTable *carried;
} HsDayProblem;

/**
 * hs_day_problem_new:
 * @build: (transfer none): has to outlive it
 * @without: (nullable): id of a counter that is left out
 * @pooled: for several vans, which have their own stock of what each need could be bought as
 *
 * The day with its counters and no van and call yet. Add vans, then stock, then calls.
 */
HsDayProblem *hs_day_problem_new (const HsDayBuild *build, const char *without, gboolean pooled);
void hs_day_problem_free (HsDayProblem *problem);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDayProblem, hs_day_problem_free)

/* hs_day_problem_add_van: (transfer none): one more van that keeps the rules of @day. */
HsVan *hs_day_problem_add_van (HsDayProblem *problem, const char *id, const HsDay *day);

/**
 * hs_day_problem_add_stock:
 * @stock: (element-type HsStockRow): of that van; what is promised to a need is taken off
 *
 * Loads what the van could use of its stock, for the calls in their order. A need is served whole or not at all. Only
 * for a pooled problem.
 */
void hs_day_problem_add_stock (HsDayProblem *problem, HsVan *van, GPtrArray *stock);

/**
 * hs_day_problem_add_calls:
 *
 * Adds the calls of the day that have not begun, for any van. A need with a counter of its own is fetched there, for
 * nothing; one that may be bought at several has their prices; one that the day's van has is none. A counter that the
 * day can't stop at sells nothing; a part that is neither sold nor on board is not asked for.
 */
void hs_day_problem_add_calls (HsDayProblem *problem);

/* hs_day_problem_token: (transfer full): what the part of a need that may be bought is called. */
char *hs_day_problem_token (const HsDayProblem *problem, guint need);

/* hs_day_problem_find_need: the need of @call that @part stands for, or %HS_DAY_NO_NEED. */
guint hs_day_problem_find_need (const HsDayProblem *problem, guint part, guint call);

/* hs_day_problem_call_of: (transfer none): what the book knows of a call. */
const HsDayCall *hs_day_problem_call_of (const HsDayProblem *problem, guint call);

/* hs_day_problem_counter_of: (transfer none): and of a counter. */
const HsDayCounter *hs_day_problem_counter_of (const HsDayProblem *problem, guint counter);

/* hs_day_problem_keeps_more: whether plan @a keeps more promises than @b, or is less late. */
gboolean hs_day_problem_keeps_more (const HsSolution *a, const HsSolution *b);

/**
 * hs_day_problem_solve:
 * @how: as of hs_solve ()
 * @again: (nullable): told, with the user data of @how, of the plan that is home in time before a later one is looked
 *   for; the time may then be given anew
 *
 * Solves with all vans home in time, unless promises can only be kept by coming home late: the owner would rather.
 */
gboolean hs_day_problem_solve (const HsProblem *problem, const HsSolveHow *how, HsSolveFound again,
                               HsSolution **ret_solution, GError **error);

G_END_DECLS
