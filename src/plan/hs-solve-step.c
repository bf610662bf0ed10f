// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How a van gets on, one stop at a time, for all leave times at once. */

#include "hs-solve-step.h"

/* Leaving from @from on; flat means that it leaves then and at no other time. */
static HsStep
begin_at (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, gint32 from, gint32 to)
{
  return (HsStep){
    .ready = from,
    .drive = terms->flat ? -HS_SOLVE_FAR : 0,
    .leave_max = terms->flat ? from : to,
    .last = (guint8) hs_solve_frame_start (frame, van),
    .van = (guint8) van,
  };
}

guint
hs_step_begin (const HsSolveFrame *frame, const HsSolveTerms *terms, guint van, HsStep *ret_steps)
{
  const HsVan *it = hs_problem_get_van (frame->problem, van);
  gint32 to = MIN (it->leave_to_seconds, it->home_by_seconds);
  gint32 rested = MAX (it->leave_from_seconds, it->break_span.from_seconds + it->break_seconds);

  ret_steps[0] = begin_at (frame, terms, van, it->leave_from_seconds, to);
  if (it->break_seconds == 0 || rested > to)
    return 1;
  ret_steps[1] = begin_at (frame, terms, van, rested, to);
  ret_steps[1].seen = HS_SOLVE_HAD_BREAK;
  return 2;
}

/* @at has got to where it stops, for @service seconds from a second in one of @starts on. A later span than the first
 * that can be had is only worth while if it lets the van leave later. */
static guint
step_start (const HsStep *at, const HsStart *starts, guint n_starts, gint32 service, HsStep *ret_next)
{
  guint n = 0;

  for (guint k = 0; k < n_starts; k++)
    {
      HsStep *next = &ret_next[n];

      if (at->ready > starts[k].last)
        continue;
      *next = *at;
      next->ready = MAX (at->ready, starts[k].first) + service;
      next->drive += service;
      next->leave_max = MIN (at->leave_max, starts[k].last - at->drive);
      n++;
      if (next->leave_max == at->leave_max)
        break;
    }
  return n;
}

static HsStep
step_drive (const HsSolveFrame *frame, const HsStep *step, guint to)
{
  HsStep at = *step;
  gint32 leg = hs_solve_frame_seconds (frame, step->last, to);

  at.ready += leg;
  at.drive += leg;
  at.units += hs_solve_frame_units (frame, step->last, to);
  at.last = (guint8) to;
  return at;
}

/* Lateness counts at its least, which is that of leaving first thing; so leaving may be put off only as long as a late
 * stop does not start later for it. */
static guint
step_late (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsStep *at, guint call, HsStep *ret_next)
{
  const HsNode *node = &frame->nodes[call];
  gint32 late = at->ready - node->last;

  if (late <= 0 || late > terms->late_each || at->broken + 1u > terms->missed || at->late + late > terms->late)
    return 0;
  *ret_next = *at;
  ret_next->broken++;
  ret_next->late += late;
  ret_next->leave_max = MIN (at->leave_max, at->ready - at->drive);
  ret_next->ready += node->service;
  ret_next->drive += node->service;
  return 1;
}

guint
hs_step_call (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsStep *step, guint call, HsStep *ret_next)
{
  const HsNode *node = &frame->nodes[call];
  HsStep at;
  gint64 price;

  if ((node->vans >> step->van & 1) == 0)
    return 0;
  at = step_drive (frame, step, call);
  price = node->n_needs == 0 ? 0 : hs_solve_frame_buy (frame, at.van, call, at.seen, &at.stock);
  if (price == HS_SOLVE_NO_UNITS)
    return 0;
  at.units += price;
  if (at.ready > node->open_last)
    return step_late (frame, terms, &at, call, ret_next);
  return step_start (&at, node->open, node->n_open, node->service, ret_next);
}

guint
hs_step_counter (const HsSolveFrame *frame, const HsStep *step, guint counter, HsStep *ret_next)
{
  const HsNode *node = &frame->nodes[frame->n_calls + counter];
  HsStep at;

  if ((step->seen >> counter & 1) != 0)
    return 0;
  at = step_drive (frame, step, frame->n_calls + counter);
  at.seen |= 1u << counter;
  return step_start (&at, node->open, node->n_open, node->service, ret_next);
}

guint
hs_step_break (const HsSolveFrame *frame, const HsStep *step, HsStep *ret_next)
{
  const HsVan *van = hs_problem_get_van (frame->problem, step->van);
  HsStart start = { van->break_span.from_seconds, van->break_span.to_seconds - van->break_seconds };
  HsStep at = *step;

  if (van->break_seconds == 0 || (step->seen & HS_SOLVE_HAD_BREAK) != 0 || step->last >= frame->n_nodes)
    return 0;
  at.seen |= HS_SOLVE_HAD_BREAK;
  return step_start (&at, &start, 1, van->break_seconds, ret_next);
}

gboolean
hs_step_close (const HsSolveFrame *frame, const HsSolveTerms *terms, const HsStep *step, HsClose *ret_close)
{
  const HsVan *van = hs_problem_get_van (frame->problem, step->van);
  gint32 home_by = van->home_by_seconds;
  gint32 leave_max;
  HsStep at;

  if (step->last >= frame->n_nodes)
    {
      *ret_close = (HsClose){ step->units, van->leave_from_seconds, van->leave_from_seconds, step->late, step->broken };
      return TRUE;
    }
  if (van->break_seconds > 0 && (step->seen & HS_SOLVE_HAD_BREAK) == 0)
    home_by = MIN (home_by, van->break_span.to_seconds - van->break_seconds);
  at = step_drive (frame, step, hs_solve_frame_end (frame, step->van));
  leave_max = MIN (at.leave_max, home_by - at.drive);
  if (at.ready > home_by)
    return FALSE;
  ret_close->late = at.late;
  ret_close->broken = at.broken;
  ret_close->leave = MIN (at.ready - at.drive, leave_max);
  ret_close->home = MAX (at.ready, ret_close->leave + at.drive);
  ret_close->units = terms->flat ? 0 : at.units + (ret_close->home - ret_close->leave) * frame->second_units;
  return TRUE;
}
