// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A table of what comes after each stop at each time, filled from the evening on.
 *
 * Time counts in steps. A cell holds no more than what is true at any second of its step: a stop that can be reached in
 * time from its first second counts as reached, waiting counts as from its last, and where what follows can begin in
 * two steps, the cheaper one counts. Driving and work count in full, whatever the step.
 *
 * No call is done within the block of steps in which it was set out for; so a block is filled at once, row by row. */

#include "hs-solve-outlook-private.h"

#include <string.h>

#define MAX_NEXT (HS_PROBLEM_MAX_CALLS + HS_PROBLEM_MAX_COUNTERS)

/* Filling ---------------------------------------------------------------------------------------------------------- */

/* A row that is being filled, from the step @from to @to. */
typedef struct
{
  guint node;
  guint room;
  guint set;
  gint32 *row;
  gint32 from;
  gint32 to;
} Part;

/* Goes on to a stop that starts in @start, for @service seconds. The steps are those of which some second is driven off
 * after @after. */
typedef struct
{
  const HsOutlookSpot *there;
  const gint32 *row;
  gint32 leg;
  gint32 after;
  HsStart start;
  gint32 service;
  gint64 units;
} Lead;

/* The lesser of what follows when free from second @first to @last. */
static gint32
follow (const HsOutlook *outlook, const Lead *lead, gint32 first, gint32 last)
{
  gint32 from = MAX (hs_outlook_floor_div (first, outlook->width) - lead->there->first, 0);
  gint32 to = MIN (hs_outlook_floor_div (last, outlook->width) - lead->there->first, lead->there->n_times - 1);
  gint32 least = HS_OUTLOOK_INFINITE;

  for (gint32 t = from; t <= to; t++)
    least = MIN (least, lead->row[t]);
  return least;
}

/* Where it waits in all seconds of a step, or in some. Returns the first step in which it does not. */
static gint32
lead_waiting (const HsOutlook *outlook, const Part *part, const Lead *lead, gint32 from, gint32 to)
{
  const HsOutlookSpot *here = &outlook->spots[part->node];
  gint32 width = outlook->width;
  gint64 second = outlook->frame->second_units;
  gint32 free_at = lead->start.first + lead->service;
  gint32 waited = follow (outlook, lead, free_at, free_at);
  gint32 t = from;

  for (; t <= to && t * width + lead->leg < lead->start.first; t++)
    {
      gint32 last = t * width + width - 1 + lead->leg;
      gint32 wait = MAX (0, lead->start.first - last);
      gint32 rest = wait > 0 ? waited : follow (outlook, lead, free_at, last + lead->service);

      part->row[t - here->first]
          = MIN (part->row[t - here->first],
                 rest + hs_outlook_to_cells (outlook, lead->units + (lead->leg + wait + lead->service) * second));
    }
  return t;
}

static void
lead_span (const HsOutlook *outlook, const Part *part, const Lead *lead)
{
  const HsOutlookSpot *here = &outlook->spots[part->node];
  gint32 width = outlook->width;
  gint32 from = MAX (part->from, hs_outlook_floor_div (lead->after - lead->leg - width + 1, width) + 1);
  gint32 to = MIN (part->to, hs_outlook_floor_div (lead->start.last - lead->leg, width));
  gint32 passed = lead->leg + lead->service;
  gint32 shift = hs_outlook_floor_div (passed, width) - lead->there->first;
  gint32 more = shift * width != passed - lead->there->first * width ? 1 : 0;
  gint32 cost = hs_outlook_to_cells (outlook, lead->units + passed * outlook->frame->second_units);
  gint32 t = lead_waiting (outlook, part, lead, from, to);

  for (; t <= to && t + shift < 0; t++)
    part->row[t - here->first] = MIN (part->row[t - here->first], lead->row[0] + cost);
  to = MIN (to, lead->there->n_times - 1 - shift);
  for (; t <= MIN (to, lead->there->n_times - 1 - shift - more); t++)
    {
      gint32 rest = MIN (lead->row[t + shift], lead->row[t + shift + more]);

      part->row[t - here->first] = MIN (part->row[t - here->first], rest + cost);
    }
  for (; t <= to; t++)
    part->row[t - here->first] = MIN (part->row[t - here->first], lead->row[t + shift] + cost);
}

/* Going on from a row to node @node; its span is still to be set. */
static Lead
lead_to (const HsOutlook *outlook, guint from, guint set, guint node, guint room)
{
  const HsSolveFrame *frame = outlook->frame;
  Lead lead = {
    .there = &outlook->spots[node],
    .row = hs_outlook_row (outlook, node, room, hs_outlook_map (outlook, from, node)[set]),
    .leg = hs_solve_frame_seconds (frame, from, node),
    .after = -HS_SOLVE_FAR,
    .service = frame->nodes[node].service,
    .units = hs_solve_frame_units (frame, from, node),
  };

  if (node < frame->n_calls)
    lead.units += outlook->parts[room * frame->n_calls + node] - outlook->prizes[node];
  return lead;
}

static void
lead_on (const HsOutlook *outlook, const Part *part, guint node, guint room)
{
  const HsNode *it = &outlook->frame->nodes[node];
  Lead lead = lead_to (outlook, part->node, part->set, node, room);

  for (guint k = 0; k < it->n_open && lead.there->n_times > 0; k++)
    {
      lead.start = it->open[k];
      lead_span (outlook, part, &lead);
      lead.after = MAX (lead.after, it->open[k].last);
    }
}

static void
lead_home (const HsOutlook *outlook, const Part *part)
{
  const HsSolveFrame *frame = outlook->frame;
  const HsVan *van = hs_problem_get_van (frame->problem, outlook->van);
  guint end = hs_solve_frame_end (frame, outlook->van);
  gint32 leg = hs_solve_frame_seconds (frame, part->node, end);
  gint64 units = hs_solve_frame_units (frame, part->node, end) + leg * frame->second_units;
  gint32 cost = hs_outlook_to_cells (outlook, units);
  gint32 home_by = outlook->home_by;

  if (outlook->owes && part->room >> outlook->n_counters == 0)
    home_by = MIN (home_by, van->break_span.to_seconds - van->break_seconds);
  for (gint32 t = part->from; t <= part->to; t++)
    part->row[t - outlook->spots[part->node].first] = t * outlook->width + leg > home_by ? HS_OUTLOOK_INFINITE : cost;
}

/* FALSE if there is no break to be had. */
static gboolean
lead_to_break (const HsOutlook *outlook, const Part *part, Lead *ret_lead)
{
  const HsVan *van = hs_problem_get_van (outlook->frame->problem, outlook->van);
  guint had = 1u << outlook->n_counters;

  if (!outlook->owes || (part->room & had) != 0)
    return FALSE;
  *ret_lead = (Lead){
    .there = &outlook->spots[part->node],
    .row = hs_outlook_row (outlook, part->node, part->room | had, part->set),
    .after = -HS_SOLVE_FAR,
    .start = { van->break_span.from_seconds, van->break_span.to_seconds - van->break_seconds },
    .service = van->break_seconds,
  };
  return TRUE;
}

/* Which nodes can come next, and what was seen then, into @ret_nodes and @ret_rooms. */
static guint
list_next (const HsOutlook *outlook, const Part *part, guint *ret_nodes, guint *ret_rooms)
{
  const HsSolveFrame *frame = outlook->frame;
  const HsOutlookSpot *spot = &outlook->spots[part->node];
  gboolean done[HS_PROBLEM_MAX_CALLS] = { FALSE };
  guint n = 0;

  for (guint k = 0; k < spot->n_near; k++)
    done[spot->near[k]] = (part->set >> k & 1) != 0;
  for (guint k = 0; k < outlook->n_counters; k++)
    if ((part->room >> k & 1) == 0)
      {
        ret_nodes[n] = frame->n_calls + outlook->counters[k];
        ret_rooms[n++] = part->room | 1u << k;
      }
  for (guint i = 0; i < frame->n_calls; i++)
    if (i != part->node && !done[i] && outlook->parts[part->room * frame->n_calls + i] < HS_SOLVE_NO_UNITS)
      {
        ret_nodes[n] = i;
        ret_rooms[n++] = part->room;
      }
  return n;
}

static void
fill_part (const HsOutlook *outlook, const Part *part)
{
  guint nodes[MAX_NEXT];
  guint rooms[MAX_NEXT];
  guint n = list_next (outlook, part, nodes, rooms);
  Lead lead;

  lead_home (outlook, part);
  if (lead_to_break (outlook, part, &lead))
    lead_span (outlook, part, &lead);
  for (guint k = 0; k < n; k++)
    lead_on (outlook, part, nodes[k], rooms[k]);
}

static void
fill_block (const HsOutlook *outlook, guint room, guint node, gint32 from, gint32 to)
{
  const HsOutlookSpot *spot = &outlook->spots[node];
  Part part = { .node = node, .room = room };

  part.from = MAX (from, spot->first);
  part.to = MIN (to, spot->first + spot->n_times - 1);
  if (part.from > part.to)
    return;
  for (part.set = 0; part.set < 1u << spot->n_near; part.set++)
    {
      part.row = hs_outlook_row (outlook, node, room, part.set);
      fill_part (outlook, &part);
    }
}

static void
fill_leasts (HsOutlook *outlook, guint node)
{
  const HsOutlookSpot *spot = &outlook->spots[node];

  for (guint room = 0; room < outlook->n_rooms; room++)
    for (guint set = 0; set < 1u << spot->n_near; set++)
      {
        const gint32 *row = hs_outlook_row (outlook, node, room, set);
        gsize at = hs_outlook_row_index (spot, room, set) * (gsize) hs_outlook_strides (spot);
        gint32 *leasts = &outlook->leasts[spot->least_at + at];

        for (gint32 t = 0; t < spot->n_times; t++)
          {
            gint32 *least = &leasts[t / HS_OUTLOOK_STRIDE];

            *least = t % HS_OUTLOOK_STRIDE == 0 ? row[t] : MIN (*least, row[t]);
          }
      }
}

gboolean
hs_solve_outlook_fill (HsOutlook *outlook, HsExact *exact, const gint64 *prizes)
{
  gint32 last = hs_outlook_floor_div (outlook->home_by, outlook->width);
  gint32 first = hs_outlook_floor_div (outlook->base, outlook->width);

  memcpy (outlook->prizes, prizes, outlook->frame->n_calls * sizeof (gint64));
  hs_outlook_choose_quantum (outlook);
  for (gint32 to = last; to >= first; to -= outlook->block)
    for (guint room = outlook->n_rooms; room-- > 0;)
      for (guint node = 0; node < outlook->frame->n_nodes; node++)
        {
          if (hs_exact_gives_up (exact))
            return FALSE;
          fill_block (outlook, room, node, to - outlook->block + 1, to);
        }
  for (guint node = 0; node < outlook->frame->n_nodes; node++)
    fill_leasts (outlook, node);
  return TRUE;
}

/* Asking ----------------------------------------------------------------------------------------------------------- */

/* The least of a row between two steps. */
static gint32
least_of (const HsOutlook *outlook, const HsOutlookSpot *spot, gsize row_at, gint32 from, gint32 to)
{
  const gint32 *row = &outlook->cells[spot->at + row_at * (gsize) spot->n_times];
  const gint32 *leasts = &outlook->leasts[spot->least_at + row_at * (gsize) hs_outlook_strides (spot)];
  gint32 least = HS_OUTLOOK_INFINITE;

  for (gint32 t = from; t <= to;)
    if (t % HS_OUTLOOK_STRIDE == 0 && t + HS_OUTLOOK_STRIDE - 1 <= to)
      {
        least = MIN (least, leasts[t / HS_OUTLOOK_STRIDE]);
        t += HS_OUTLOOK_STRIDE;
      }
    else
      {
        least = MIN (least, row[t]);
        t++;
      }
  return least;
}

gint64
hs_solve_outlook_least (const HsOutlook *outlook, guint node, const guint64 *memory, guint32 seen, gint32 ready,
                        gint64 flat, gint64 slope)
{
  const HsOutlookSpot *spot = &outlook->spots[node];
  gint64 second = outlook->frame->second_units;
  gint64 equal = second == 0 ? ready : (flat - slope + second - 1) / second;
  gint32 latest = MAX (ready, (gint32) MIN (equal, outlook->home_by));
  gint32 from = MAX (hs_outlook_floor_div (ready, outlook->width) - spot->first, 0);
  gint32 to = MIN (MAX (hs_outlook_floor_div (latest, outlook->width) - spot->first, from), spot->n_times - 1);
  guint set = 0;
  gint32 least;

  for (guint k = 0; k < MIN (spot->n_near, G_N_ELEMENTS (spot->near)); k++)
    set |= (guint) (memory[spot->near[k] / 64] >> spot->near[k] % 64 & 1) << k;
  least = least_of (outlook, spot, hs_outlook_row_index (spot, hs_outlook_room (outlook, seen), set), from, to);
  return least >= HS_OUTLOOK_FINITE ? HS_SOLVE_NO_UNITS : flat + least * outlook->quantum;
}

/* The whole day ---------------------------------------------------------------------------------------------------- */

/* Where a way through the table stands; @least: what it still costs. */
typedef struct
{
  guint node;
  guint room;
  guint set;
  gint32 t;
  gint32 least;
} Stand;

/* The cheapest first stop at node @node for a van that leaves at second @from to @to. */
static void
begin_at (const HsOutlook *outlook, guint node, guint room, gint32 from, gint32 to, gint64 *least, Stand *stand)
{
  const HsSolveFrame *frame = outlook->frame;
  const HsNode *it = &frame->nodes[node];
  const HsOutlookSpot *spot = &outlook->spots[node];
  guint start = hs_solve_frame_start (frame, outlook->van);
  gint32 leg = hs_solve_frame_seconds (frame, start, node);
  gint64 units = hs_solve_frame_units (frame, start, node) + (leg + it->service) * frame->second_units;

  if (node < frame->n_calls)
    units += outlook->parts[room * frame->n_calls + node] - outlook->prizes[node];
  for (guint k = 0; k < it->n_open; k++)
    {
      gint32 wait = MAX (0, it->open[k].first - to - leg);
      gint32 first = MAX (from + leg, it->open[k].first) + it->service;
      gint32 last = MIN (to + leg + wait, it->open[k].last) + it->service;

      if (first > last)
        continue;
      for (gint32 t = MAX (hs_outlook_floor_div (first, outlook->width), spot->first);
           t <= MIN (hs_outlook_floor_div (last, outlook->width), spot->first + spot->n_times - 1); t++)
        {
          gint32 cell = hs_outlook_row (outlook, node, room, 0)[t - spot->first];
          gint64 whole = units + wait * frame->second_units + cell * outlook->quantum;

          if (cell >= HS_OUTLOOK_FINITE || whole >= *least)
            continue;
          *least = whole;
          *stand = (Stand){ node, room, 0, t, cell };
        }
    }
}

/* Where the stop that @lead leads to from step @t is left, as cheap as can be. */
static gint32
step_after (const HsOutlook *outlook, const Lead *lead, gint32 t)
{
  gint32 first = MAX (t * outlook->width + lead->leg, lead->start.first) + lead->service;
  gint32 last = MAX (t * outlook->width + outlook->width - 1 + lead->leg, lead->start.first) + lead->service;
  gint32 best = MAX (hs_outlook_floor_div (first, outlook->width), lead->there->first);
  gint32 to = MIN (hs_outlook_floor_div (last, outlook->width), lead->there->first + lead->there->n_times - 1);

  for (gint32 k = best + 1; k <= to; k++)
    if (lead->row[k - lead->there->first] < lead->row[best - lead->there->first])
      best = k;
  return best;
}

/* Whether the way goes on like this; then @stand does. */
static gboolean
goes_on (const HsOutlook *outlook, const Part *part, const Lead *lead, guint node, guint room, Stand *stand)
{
  gint32 *cell = &part->row[stand->t - outlook->spots[part->node].first];

  *cell = HS_OUTLOOK_INFINITE;
  lead_span (outlook, part, lead);
  if (*cell != stand->least)
    return FALSE;
  if (node != part->node)
    stand->set = hs_outlook_map (outlook, part->node, node)[part->set];
  stand->t = step_after (outlook, lead, stand->t);
  stand->least = lead->row[stand->t - lead->there->first];
  stand->node = node;
  stand->room = room;
  return TRUE;
}

/* Follows the way by one stop; FALSE at its end. */
static gboolean
follow_on (const HsOutlook *outlook, gint32 *scratch, Stand *stand)
{
  Part part = { stand->node, stand->room, stand->set, scratch, stand->t, stand->t };
  guint nodes[MAX_NEXT];
  guint rooms[MAX_NEXT];
  guint n = list_next (outlook, &part, nodes, rooms);
  Lead lead;

  if (lead_to_break (outlook, &part, &lead)
      && goes_on (outlook, &part, &lead, stand->node, stand->room | 1u << outlook->n_counters, stand))
    return TRUE;
  for (guint k = 0; k < n; k++)
    {
      const HsNode *it = &outlook->frame->nodes[nodes[k]];

      lead = lead_to (outlook, part.node, part.set, nodes[k], rooms[k]);
      for (guint m = 0; m < it->n_open && lead.there->n_times > 0; m++)
        {
          lead.start = it->open[m];
          if (goes_on (outlook, &part, &lead, nodes[k], rooms[k], stand))
            return TRUE;
          lead.after = MAX (lead.after, it->open[m].last);
        }
    }
  return FALSE;
}

gint64
hs_solve_outlook_root (const HsOutlook *outlook, guint *ret_visits)
{
  const HsSolveFrame *frame = outlook->frame;
  const HsSolveTerms strict = HS_SOLVE_TERMS_STRICT;
  g_autofree gint32 *scratch = g_new (gint32, outlook->home_by / outlook->width + 2);
  gint64 least = HS_SOLVE_NO_UNITS;
  HsStep begin[2];
  guint n = hs_step_begin (frame, &strict, outlook->van, begin);
  Stand stand;

  memset (ret_visits, 0, frame->n_calls * sizeof (guint));
  for (guint b = 0; b < n; b++)
    for (guint node = 0; node < frame->n_nodes; node++)
      {
        guint room = hs_outlook_room (outlook, begin[b].seen);

        for (guint k = 0; k < outlook->n_counters; k++)
          if (node == frame->n_calls + outlook->counters[k])
            room |= 1u << k;
        if (outlook->spots[node].n_times > 0 && (node >= frame->n_calls
            || outlook->parts[room * frame->n_calls + node] < HS_SOLVE_NO_UNITS))
          begin_at (outlook, node, room, begin[b].ready, begin[b].leave_max, &least, &stand);
      }
  if (least == HS_SOLVE_NO_UNITS)
    return least;
  for (guint before = frame->dim; stand.node != frame->dim;)
    {
      if (stand.node < frame->n_calls && stand.node != before)
        ret_visits[stand.node]++;
      before = stand.node;
      if (!follow_on (outlook, scratch, &stand))
        break;
    }
  return least;
}
