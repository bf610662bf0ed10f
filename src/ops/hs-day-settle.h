// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-problem.h"

G_BEGIN_DECLS

/* What hs_day_hours_settle () is for the order of one van, for who serves which call and what is bought where: a
 * problem is solved, its routes are driven with each drive at its hour, and it is solved again with drives of those
 * hours, until the same routes come out; some rounds at most. The best of what came up, all driven at their own hours,
 * is kept. */

/**
 * HsDaySettle:
 * @problem: with the drives to begin with
 * @rules: (array): of each van of the problem, the day with its rules; under way, it begins with where it is
 * @solve: solves a problem like it
 * @finish: (nullable): changes a solution before it is driven, as locks do
 * @give_up: (nullable): asked between rounds whether what there is has to do
 */
typedef struct
{
  const HsDayProblem *problem;
  const HsDay **rules;
  gboolean (*solve) (const HsProblem *problem, gpointer user_data, HsSolution **ret_solution, GError **error);
  gboolean (*finish) (HsSolution *solution, gpointer user_data, GError **error);
  HsPlanGiveUp give_up;
  gpointer user_data;
} HsDaySettle;

/**
 * hs_day_settle:
 * @ret_solution: (out) (transfer full): the plan; all its times are those of the hours
 *
 * Where the hours matter it is proven only if it is as good as the best would be with each drive at its fastest hour;
 * its bound is then that of such drives, and 0 where it keeps less than they would.
 */
gboolean hs_day_settle (const HsDaySettle *settle, HsSolution **ret_solution, GError **error);

/* hs_day_settle_is_better: whether @a keeps more than @b, is less late, has more of the asked spare, or is cheaper. */
gboolean hs_day_settle_is_better (const HsDaySettle *settle, const HsSolution *a, const HsSolution *b);

/* hs_day_settle_time: drives all routes of @solution, each drive at its hour. Nothing where the hours do not matter. */
gboolean hs_day_settle_time (const HsDaySettle *settle, HsSolution *solution, guint8 *left, GError **error);

G_END_DECLS
