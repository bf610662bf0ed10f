// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives a path that the search found, and writes down what happens. It uses nothing of how the search got there, so
 * that a fault there shows here. */

#include "hs-solve-write.h"

typedef struct
{
  HsSolution *solution;
  const HsSolveFrame *frame;
  HsRoute *route;
  guint van;
  guint at;
  gint32 time;
  guint32 seen;
  guint64 stock;
} Pen;

static void
route_free (gpointer data)
{
  HsRoute *route = data;

  g_array_unref (route->stops);
  g_free (route);
}

HsTrouble *
hs_trouble_new (guint call, gint32 late_seconds)
{
  HsTrouble *trouble = g_new0 (HsTrouble, 1);

  trouble->call = call;
  trouble->late_seconds = late_seconds;
  trouble->conflicts = g_array_new (FALSE, FALSE, sizeof (guint));
  trouble->mends = g_ptr_array_new_with_free_func (g_free);
  return trouble;
}

void
hs_trouble_free (gpointer data)
{
  HsTrouble *trouble = data;

  g_free (trouble->why);
  g_array_unref (trouble->conflicts);
  g_ptr_array_unref (trouble->mends);
  g_free (trouble);
}

HsSolution *
hs_solution_new (void)
{
  HsSolution *solution = g_new0 (HsSolution, 1);

  solution->routes = g_ptr_array_new_with_free_func (route_free);
  solution->bought = g_array_new (FALSE, FALSE, sizeof (HsBought));
  solution->unserved = g_ptr_array_new_with_free_func (hs_trouble_free);
  solution->broken = g_ptr_array_new_with_free_func (hs_trouble_free);
  solution->spare_seconds = HS_PLAN_NO_LIMIT;
  return solution;
}

void
hs_solution_free (HsSolution *solution)
{
  if (solution == NULL)
    return;
  g_ptr_array_unref (solution->routes);
  g_array_unref (solution->bought);
  g_ptr_array_unref (solution->unserved);
  g_ptr_array_unref (solution->broken);
  g_free (solution);
}

static gpointer
copy_route (gconstpointer data, gpointer unused)
{
  HsRoute *route = g_memdup2 (data, sizeof (HsRoute));

  route->stops = g_array_copy (route->stops);
  return route;
}

static gpointer
copy_text (gconstpointer text, gpointer unused)
{
  return g_strdup (text);
}

static gpointer
copy_trouble (gconstpointer data, gpointer unused)
{
  HsTrouble *trouble = g_memdup2 (data, sizeof (HsTrouble));

  trouble->why = g_strdup (trouble->why);
  trouble->conflicts = g_array_copy (trouble->conflicts);
  trouble->mends = g_ptr_array_copy (trouble->mends, copy_text, NULL);
  return trouble;
}

HsSolution *
hs_solution_copy (const HsSolution *solution)
{
  HsSolution *copy = g_memdup2 (solution, sizeof *solution);

  copy->routes = g_ptr_array_copy (solution->routes, (GCopyFunc) copy_route, NULL);
  copy->bought = g_array_copy (solution->bought);
  copy->unserved = g_ptr_array_copy (solution->unserved, (GCopyFunc) copy_trouble, NULL);
  copy->broken = g_ptr_array_copy (solution->broken, (GCopyFunc) copy_trouble, NULL);
  return copy;
}

void
hs_solution_set_late (HsSolution *solution, guint call, gint32 late_seconds)
{
  for (guint i = 0; i < solution->broken->len; i++)
    {
      HsTrouble *trouble = g_ptr_array_index (solution->broken, i);

      if (trouble->call != call)
        continue;
      trouble->late_seconds = late_seconds;
      if (late_seconds == 0)
        g_ptr_array_remove_index (solution->broken, i);
      return;
    }
  if (late_seconds > 0)
    g_ptr_array_add (solution->broken, hs_trouble_new (call, late_seconds));
}

const HsRoute *
hs_solution_get_route (const HsSolution *solution, guint index)
{
  return g_ptr_array_index (solution->routes, index);
}

const HsTrouble *
hs_solution_get_broken (const HsSolution *solution, guint index)
{
  return g_ptr_array_index (solution->broken, index);
}

const HsTrouble *
hs_solution_get_unserved (const HsSolution *solution, guint index)
{
  return g_ptr_array_index (solution->unserved, index);
}

/* The most time left in any of the spans that @start lies in; below zero how late it is. */
static gint32
slack_at (const HsNode *node, gint32 start)
{
  gint32 slack = -1;

  for (guint k = 0; k < node->n_all; k++)
    if (start >= node->all[k].first && start <= node->all[k].last)
      slack = MAX (slack, node->all[k].last - start);
  return slack >= 0 ? slack : node->last - start;
}

static void
buy_parts (Pen *pen, guint call)
{
  const HsNode *node = &pen->frame->nodes[call];

  for (guint k = 0; k < node->n_needs; k++)
    {
      const HsPart *part = &pen->frame->parts[node->needs[k]];
      HsBought bought = { node->needs[k], 0, pen->van, node->index, 0 };
      guint s = 0;

      if (part->counted[pen->van]
          && ((pen->stock >> part->shift[pen->van]) & part->mask[pen->van]) < part->carried[pen->van])
        {
          pen->stock += G_GUINT64_CONSTANT (1) << part->shift[pen->van];
          continue;
        }
      if (part->carried[pen->van] > 0 && !part->counted[pen->van])
        continue;
      while (s + 1 < part->n_sellers && (pen->seen >> part->sellers[s] & 1) == 0)
        s++;
      bought.counter = part->sellers[s];
      bought.cents = part->units[s] / HS_COST_UNITS;
      pen->solution->cost_units += part->units[s];
      g_array_append_val (pen->solution->bought, bought);
    }
}

static void
drive_to (Pen *pen, guint node)
{
  const HsProblem *problem = pen->frame->problem;
  const HsVan *van = hs_problem_get_van (problem, pen->van);
  guint from = pen->at < pen->frame->n_nodes ? pen->frame->nodes[pen->at].place : van->start;
  guint to = node < pen->frame->n_nodes ? pen->frame->nodes[node].place : van->end;
  guint cell = from * problem->n_places + to;

  pen->time += g_array_index (problem->drive_seconds, gint32, cell);
  pen->route->drive_seconds += g_array_index (problem->drive_seconds, gint32, cell);
  pen->route->drive_millimiles += g_array_index (problem->drive_millimiles, gint64, cell);
  pen->at = node;
}

static void
write_stop (Pen *pen, const HsStart *starts, guint n_starts, gint32 service, HsRouteStop *stop)
{
  guint k = 0;

  stop->arrive_seconds = stop->start_seconds = pen->time;
  while (k < n_starts && pen->time > starts[k].last)
    k++;
  if (k < n_starts)
    stop->start_seconds = MAX (pen->time, starts[k].first);
  stop->depart_seconds = pen->time = stop->start_seconds + service;
  pen->route->wait_seconds += stop->start_seconds - stop->arrive_seconds;
}

static void
write_break (Pen *pen)
{
  const HsVan *van = hs_problem_get_van (pen->frame->problem, pen->van);
  HsStart start = { van->break_span.from_seconds, van->break_span.to_seconds - van->break_seconds };
  HsRouteStop stop = { .kind = HS_ROUTE_BREAK };

  write_stop (pen, &start, 1, van->break_seconds, &stop);
  stop.slack_seconds = start.last - stop.start_seconds;
  g_array_append_val (pen->route->stops, stop);
}

static void
write_node (Pen *pen, guint i)
{
  const HsNode *node = &pen->frame->nodes[i];
  gboolean is_call = i < pen->frame->n_calls;
  HsRouteStop stop = { is_call ? HS_ROUTE_CALL : HS_ROUTE_COUNTER, node->index, 0, 0, 0, 0 };

  drive_to (pen, i);
  write_stop (pen, node->open, node->n_open, node->service, &stop);
  stop.slack_seconds = slack_at (node, stop.start_seconds);
  if (is_call)
    {
      buy_parts (pen, i);
      pen->solution->spare_seconds = MIN (pen->solution->spare_seconds, stop.slack_seconds);
      if (stop.slack_seconds < 0)
        g_ptr_array_add (pen->solution->broken, hs_trouble_new (node->index, -stop.slack_seconds));
    }
  else
    {
      pen->seen |= 1u << (i - pen->frame->n_calls);
    }
  g_array_append_val (pen->route->stops, stop);
}

/* Writes one van's day from path position @from on; returns where the next van's begins. */
static guint
write_route (Pen *pen, const HsPath *path, guint from)
{
  guint k = from;

  pen->route = g_new0 (HsRoute, 1);
  pen->route->stops = g_array_new (FALSE, FALSE, sizeof (HsRouteStop));
  pen->route->van = pen->van;
  pen->route->leave_seconds = pen->time = path->leave[pen->van];
  pen->at = hs_solve_frame_start (pen->frame, pen->van);
  pen->seen = 0;
  pen->stock = 0;
  for (; k < path->n_stops && path->stops[k] != HS_PATH_CLOSE; k++)
    if (path->stops[k] == HS_PATH_BREAK)
      write_break (pen);
    else
      write_node (pen, path->stops[k]);
  if (k == from)
    {
      route_free (pen->route);
      return k + 1;
    }
  drive_to (pen, hs_solve_frame_end (pen->frame, pen->van));
  pen->route->home_seconds = pen->time;
  pen->solution->cost_units += (gint64) (pen->time - path->leave[pen->van]) * pen->frame->second_units
                               + pen->route->drive_millimiles * pen->frame->problem->mile_cents
                                     * (HS_COST_UNITS / 1000);
  g_ptr_array_add (pen->solution->routes, pen->route);
  return k + 1;
}

void
hs_solution_write (HsSolution *solution, const HsSolveFrame *frame, const HsPath *path)
{
  Pen pen = { solution, frame };
  g_autofree gboolean *served = g_new0 (gboolean, frame->n_calls + 1);
  guint at = 0;

  for (guint k = 0; k < path->n_stops; k++)
    if (path->stops[k] < frame->n_calls)
      served[path->stops[k]] = TRUE;
  for (pen.van = 0; pen.van < frame->n_vans; pen.van++)
    if (at < path->n_stops)
      at = write_route (&pen, path, at);
  for (guint i = 0; i < frame->n_calls; i++)
    if (!served[i])
      g_ptr_array_add (solution->unserved, hs_trouble_new (frame->nodes[i].index, 0));
  solution->cost_cents = hs_cost_cents (solution->cost_units);
}
