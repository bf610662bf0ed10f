// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The problem of many customers and like vans as plain data. hs_vrptw_check () refuses what is no problem; what is one
 * but cannot be done is the solver's business. */

#include "hs-vrptw.h"

#include "hs-plan-error.h"

__extension__ typedef unsigned __int128 Wide;

HsVrptw *
hs_vrptw_new (guint n)
{
  HsVrptw *problem = g_new0 (HsVrptw, 1);
  gsize side = (gsize) n + 1;

  problem->name = g_strdup ("");
  problem->n = n;
  problem->vans = 1;
  problem->stops = g_new0 (HsVrptwStop, side);
  problem->legs = g_new0 (gint64, side * side);
  return problem;
}

void
hs_vrptw_free (HsVrptw *problem)
{
  if (problem == NULL)
    return;
  g_free (problem->name);
  g_free (problem->stops);
  g_free (problem->legs);
  g_free (problem);
}

/* The least whole number whose square is @square or more. The floating-point root only says where to begin. */
static gint64
root_up (Wide square)
{
  guint64 root = (guint64) sqrt ((double) square);

  while (root > 0 && (Wide) (root - 1) * (root - 1) >= square)
    root--;
  while ((Wide) root * root < square)
    root++;
  return (gint64) root;
}

static gint64
measure_leg (const HsVrptwStop *a, const HsVrptwStop *b)
{
  Wide across = (Wide) ABS (a->x - b->x);
  Wide along = (Wide) ABS (a->y - b->y);

  return root_up (across * across + along * along);
}

void
hs_vrptw_measure (HsVrptw *problem)
{
  gsize side = (gsize) problem->n + 1;

  for (gsize from = 0; from < side; from++)
    for (gsize to = 0; to < side; to++)
      problem->legs[from * side + to] = measure_leg (&problem->stops[from], &problem->stops[to]);
}

static gboolean
check_stop (const HsVrptw *problem, guint index, GError **error)
{
  const HsVrptwStop *stop = &problem->stops[index];
  const char *why = NULL;

  if (ABS (stop->x) > HS_VRPTW_MOST || ABS (stop->y) > HS_VRPTW_MOST || stop->demand > HS_VRPTW_MOST
      || stop->due > HS_VRPTW_MOST || stop->service > HS_VRPTW_MOST)
    why = "a number is above a million";
  else if (stop->demand < 0 || stop->ready < 0 || stop->service < 0)
    why = "a number is below zero";
  else if (stop->due < stop->ready)
    why = "the window ends before it starts";
  else if (index == 0 && (stop->demand != 0 || stop->service != 0))
    why = "home takes neither load nor service";
  if (why == NULL)
    return TRUE;
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "stops[%u]: %s", index, why);
  return FALSE;
}

gboolean
hs_vrptw_check (const HsVrptw *problem, GError **error)
{
  const char *why = NULL;

  if (problem->n > HS_VRPTW_MAX_CUSTOMERS)
    why = "more than 1000 customers";
  else if (problem->vans < 1)
    why = "there is no van";
  else if (problem->capacity < 0 || problem->capacity > HS_VRPTW_MOST)
    why = "the capacity is below zero or above a million";
  if (why != NULL)
    {
      g_set_error_literal (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, why);
      return FALSE;
    }
  for (guint i = 0; i <= problem->n; i++)
    if (!check_stop (problem, i, error))
      return FALSE;
  return TRUE;
}
