// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The problem with one vehicle and windows as it is written down: made, checked, and an order of its stops driven. */

#include "hs-tsptw.h"

#include "hs-plan-error.h"

HsTsptw *
hs_tsptw_new (guint n_nodes)
{
  HsTsptw *problem;

  g_return_val_if_fail (n_nodes >= 1 && n_nodes <= HS_TSPTW_MAX_NODES, NULL);
  problem = g_new0 (HsTsptw, 1);
  problem->n_nodes = n_nodes;
  problem->drive = g_new0 (gint64, n_nodes * n_nodes);
  problem->from = g_new0 (gint64, n_nodes);
  problem->to = g_new0 (gint64, n_nodes);
  problem->before = g_array_new (FALSE, FALSE, sizeof (HsTsptwPair));
  return problem;
}

void
hs_tsptw_free (HsTsptw *problem)
{
  if (problem == NULL)
    return;
  g_free (problem->drive);
  g_free (problem->from);
  g_free (problem->to);
  g_array_unref (problem->before);
  g_free (problem);
}

gint64
hs_tsptw_get_drive (const HsTsptw *problem, guint from, guint to)
{
  return problem->drive[from * problem->n_nodes + to];
}

void
hs_tsptw_add_before (HsTsptw *problem, guint first, guint then)
{
  HsTsptwPair pair = { first, then };

  g_array_append_val (problem->before, pair);
}

static gboolean
refuse (GError **error, const char *field, guint index, const char *reason)
{
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "%s[%u]: %s", field, index, reason);
  return FALSE;
}

static gboolean
is_value (gint64 value)
{
  return value >= 0 && value <= HS_TSPTW_MAX_VALUE;
}

gboolean
hs_tsptw_check (const HsTsptw *problem, GError **error)
{
  guint n = problem->n_nodes;

  for (guint i = 0; i < n * n; i++)
    if (!is_value (problem->drive[i]) && problem->drive[i] != HS_TSPTW_NO_LEG)
      return refuse (error, "drive", i, "must be from 0 to the largest value");
  for (guint i = 0; i < n; i++)
    {
      if (!is_value (problem->from[i]) || !is_value (problem->to[i]))
        return refuse (error, "window", i, "must be from 0 to the largest value");
      if (problem->to[i] < problem->from[i])
        return refuse (error, "window", i, "ends before it begins");
    }
  for (guint i = 0; i < problem->before->len; i++)
    {
      const HsTsptwPair *pair = &g_array_index (problem->before, HsTsptwPair, i);

      if (pair->first == 0 || pair->first >= n || pair->then == 0 || pair->then >= n || pair->first == pair->then)
        return refuse (error, "before", i, "must name two stops");
    }
  return TRUE;
}

/* Drives one leg; @leave is the latest leave time that does not come home later for it. */
static gboolean
drive_leg (const HsTsptw *problem, guint from, guint to, gint64 *time, gint64 *leave, gint64 *driven)
{
  gint64 leg = hs_tsptw_get_drive (problem, from, to);

  if (leg == HS_TSPTW_NO_LEG)
    return FALSE;
  *time += leg;
  *driven += leg;
  if (to != 0 && *time < problem->from[to])
    *time = problem->from[to];
  *leave = MIN (*leave, problem->to[to] - *driven);
  return *time <= problem->to[to];
}

gboolean
hs_tsptw_drive_order (const HsTsptw *problem, HsTsptwObjective objective, const guint16 *order, gint64 *ret_cost)
{
  gint64 time = problem->from[0];
  gint64 leave = problem->to[0];
  gint64 driven = 0;
  guint last = 0;
  gboolean kept = TRUE;

  for (guint i = 0; i + 1 < problem->n_nodes && kept; i++)
    {
      kept = drive_leg (problem, last, order[i], &time, &leave, &driven);
      last = order[i];
    }
  if (problem->n_nodes > 1)
    kept = kept && drive_leg (problem, last, 0, &time, &leave, &driven);
  if (!kept)
    return FALSE;
  if (objective == HS_TSPTW_TRAVEL)
    *ret_cost = driven;
  else if (objective == HS_TSPTW_MAKESPAN)
    *ret_cost = time;
  else
    *ret_cost = MAX (time - leave, driven);
  return TRUE;
}
