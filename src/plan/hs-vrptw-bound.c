// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Lower bounds that cost next to nothing. The distance is bounded by an assignment: every customer has one next stop, a
 * van in time for it, and what forbids short rings is left out. It is solved by shortest augmenting paths over prices
 * (H. W. Kuhn 1955; J. Munkres 1957); all numbers are whole, so that the bound holds exactly. */

#include "hs-vrptw-bound.h"

/* Beyond so many customers and vans together the assignment would take longer than it is worth. */
#define MOST_NODES 600
#define NO_LEG (-1)
#define NONE G_MAXUINT

/* Nodes 0 … n − 1 are the customers, those from n on a van at home each. */
typedef struct
{
  guint n;
  gint64 *leg;
  gint64 *row_price;
  gint64 *column_price;
  guint *row_of;
  gint64 *reach;
  guint *from;
  gboolean *done;
} Assignment;

/* Whether a van that serves @first as soon as it can is in time for @second. */
static gboolean
can_follow (const HsVrptw *problem, guint first, guint second)
{
  const HsVrptwStop *stops = problem->stops;
  gint64 start = MAX (stops[first].ready, stops[0].ready + hs_vrptw_leg (problem, 0, first));
  gint64 next = MAX (start + stops[first].service + hs_vrptw_leg (problem, first, second), stops[second].ready);

  return start <= stops[first].due && next <= stops[second].due
         && next + stops[second].service + hs_vrptw_leg (problem, second, 0) <= stops[0].due;
}

static gboolean
can_share (const HsVrptw *problem, guint a, guint b)
{
  return problem->stops[a].demand + problem->stops[b].demand <= problem->capacity
         && (can_follow (problem, a, b) || can_follow (problem, b, a));
}

/* How many customers, @seed among them, of whom no two can share a route; taken greedily, so it may be too few. */
static guint
apart_from (const HsVrptw *problem, guint seed, guint *apart)
{
  guint count = 0;

  apart[count++] = seed;
  for (guint stop = 1; stop <= problem->n; stop++)
    {
      gboolean alone = TRUE;

      for (guint i = 0; i < count && alone; i++)
        alone = stop != apart[i] && !can_share (problem, stop, apart[i]);
      if (alone)
        apart[count++] = stop;
    }
  return count;
}

static guint
vans_for_load (const HsVrptw *problem)
{
  gint64 load = 0;

  for (guint stop = 1; stop <= problem->n; stop++)
    load += problem->stops[stop].demand;
  if (load == 0)
    return 1;
  return (guint) ((load + problem->capacity - 1) / problem->capacity);
}

guint
hs_vrptw_least_vans (const HsVrptw *problem)
{
  g_autofree guint *apart = g_new (guint, problem->n + 1);
  guint least = vans_for_load (problem);

  for (guint seed = 1; seed <= problem->n; seed++)
    least = MAX (least, apart_from (problem, seed, apart));
  return least;
}

/* What it takes to go from one node to the next. A van may stay at home if there are more than needed. */
static gint64
next_leg (const HsVrptw *problem, guint from, guint to, guint least_vans)
{
  guint a = from < problem->n ? from + 1 : 0;
  guint b = to < problem->n ? to + 1 : 0;

  if (a == 0 && b == 0)
    return from == to && from - problem->n >= least_vans ? 0 : NO_LEG;
  if (a != 0 && b != 0
      && (a == b || problem->stops[a].demand + problem->stops[b].demand > problem->capacity
          || !can_follow (problem, a, b)))
    return NO_LEG;
  return hs_vrptw_leg (problem, a, b);
}

static Assignment *
assignment_new (const HsVrptw *problem, guint n, guint least_vans)
{
  Assignment *assignment = g_new0 (Assignment, 1);

  assignment->n = n;
  assignment->leg = g_new (gint64, n * n);
  assignment->row_price = g_new0 (gint64, n);
  assignment->column_price = g_new0 (gint64, n);
  assignment->row_of = g_new (guint, n);
  assignment->reach = g_new (gint64, n);
  assignment->from = g_new (guint, n);
  assignment->done = g_new (gboolean, n);
  for (guint i = 0; i < n; i++)
    {
      assignment->row_of[i] = NONE;
      for (guint j = 0; j < n; j++)
        assignment->leg[i * n + j] = next_leg (problem, i, j, least_vans);
    }
  return assignment;
}

static void
assignment_free (Assignment *assignment)
{
  g_free (assignment->leg);
  g_free (assignment->row_price);
  g_free (assignment->column_price);
  g_free (assignment->row_of);
  g_free (assignment->reach);
  g_free (assignment->from);
  g_free (assignment->done);
  g_free (assignment);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Assignment, assignment_free)

/* Reaches on from @row, which itself is @length away; the nearest column that is not done yet, or NONE. */
static guint
reach_on (Assignment *assignment, guint row, gint64 length)
{
  const gint64 *leg = assignment->leg + (gsize) row * assignment->n;
  guint nearest = NONE;

  for (guint j = 0; j < assignment->n; j++)
    {
      gint64 way = length + leg[j] - assignment->row_price[row] - assignment->column_price[j];

      if (assignment->done[j])
        continue;
      if (leg[j] != NO_LEG && way < assignment->reach[j])
        {
          assignment->reach[j] = way;
          assignment->from[j] = row;
        }
      if (assignment->reach[j] < (nearest == NONE ? G_MAXINT64 : assignment->reach[nearest]))
        nearest = j;
    }
  return nearest;
}

/* Prices move so that what is assigned stays cheapest. */
static void
move_prices (Assignment *assignment, guint row, gint64 length)
{
  assignment->row_price[row] += length;
  for (guint j = 0; j < assignment->n; j++)
    if (assignment->done[j])
      {
        assignment->row_price[assignment->row_of[j]] += length - assignment->reach[j];
        assignment->column_price[j] -= length - assignment->reach[j];
      }
}

/* Gives every column on the way to @column the row that it was reached from. */
static void
assign_back (Assignment *assignment, guint row, guint column)
{
  for (guint by = assignment->from[column];; by = assignment->from[column])
    {
      guint before = NONE;

      for (guint j = 0; j < assignment->n && by != row; j++)
        if (assignment->row_of[j] == by && assignment->done[j])
          before = j;
      assignment->row_of[column] = by;
      if (by == row)
        return;
      column = before;
    }
}

static gboolean
assign_row (Assignment *assignment, guint row)
{
  guint now = row;
  gint64 length = 0;

  for (guint j = 0; j < assignment->n; j++)
    {
      assignment->reach[j] = G_MAXINT64;
      assignment->done[j] = FALSE;
    }
  for (;;)
    {
      guint column = reach_on (assignment, now, length);

      if (column == NONE)
        return FALSE;
      length = assignment->reach[column];
      if (assignment->row_of[column] == NONE)
        {
          move_prices (assignment, row, length);
          assign_back (assignment, row, column);
          return TRUE;
        }
      assignment->done[column] = TRUE;
      now = assignment->row_of[column];
    }
}

gint64
hs_vrptw_least_distance (const HsVrptw *problem, guint least_vans, HsPlanGiveUp give_up, gpointer user_data)
{
  guint n = problem->n + MIN (problem->vans, problem->n);
  g_autoptr (Assignment) assignment = NULL;
  gint64 least = 0;

  if (n > MOST_NODES)
    return 0;
  assignment = assignment_new (problem, n, least_vans);
  for (guint row = 0; row < n; row++)
    if ((give_up != NULL && give_up (user_data)) || !assign_row (assignment, row))
      return 0;
  for (guint i = 0; i < n; i++)
    least += assignment->row_price[i] + assignment->column_price[i];
  return MAX (least, 0);
}
