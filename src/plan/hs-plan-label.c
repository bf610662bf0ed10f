// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Labels: how a part of a day is continued, finished and compared. Everything here is exact whole-number arithmetic;
 * only hs_label_drive () may forget labels (beyond PATH_LABELS of one order), and then its finish is still one that
 * can be driven. */

#include "hs-plan-label.h"

#define PATH_LABELS 64

int
hs_finish_compare (const HsFinish *a, const HsFinish *b)
{
  if (a->broken != b->broken)
    return a->broken < b->broken ? -1 : 1;
  if (a->late != b->late)
    return a->late < b->late ? -1 : 1;
  if (a->home_late != b->home_late)
    return a->home_late < b->home_late ? -1 : 1;
  if (a->units != b->units)
    return a->units < b->units ? -1 : 1;
  if (a->home != b->home)
    return a->home < b->home ? -1 : 1;
  if (a->leave != b->leave)
    return a->leave > b->leave ? -1 : 1;
  return 0;
}

guint
hs_label_begin (const HsFrame *frame, const HsTerms *terms, HsLabel *ret_labels)
{
  gint64 leave_to = terms->flat ? frame->day->leave_to_seconds : terms->leave_to;

  ret_labels[0] = (HsLabel){
    .drive = terms->flat ? -HS_FRAME_FAR : 0,
    .ready = terms->leave_from,
    .leave_max = terms->leave_to,
    .owes = terms->leave_from < frame->rested_from,
    .last = (int) frame->n,
    .parent = -1,
    .next = -1,
  };
  if (!ret_labels[0].owes || frame->rested_from > leave_to)
    return 1;
  ret_labels[1] = ret_labels[0];
  ret_labels[1].owes = FALSE;
  ret_labels[1].ready = frame->rested_from;
  ret_labels[1].leave_max = leave_to;
  return 2;
}

/* Lateness counts at its least, which is that of leaving first thing; so leaving may be put off only as long as a late
 * stop does not start later for it. */
static guint
extend_late (const HsFrame *frame, const HsTerms *terms, HsLabel at, guint i, HsLabel *ret_next)
{
  gint64 start;
  gint64 late;

  if (!hs_frame_start (frame, i, at.ready, &start, &late))
    return 0;
  at.broken += late > 0;
  at.late += late;
  if (at.broken > terms->broken || at.late > terms->late)
    return 0;
  if (late > 0)
    at.leave_max = MIN (at.leave_max, MAX (terms->leave_from, at.ready - at.drive));
  at.ready += frame->stops[i].service;
  at.drive += frame->stops[i].service;
  *ret_next = at;
  return 1;
}

/* Each of the @n labels that owes the break, once more with the break taken there. */
static guint
extend_rested (const HsFrame *frame, HsLabel *labels, guint n)
{
  guint all = n;

  for (guint k = 0; k < n; k++)
    {
      HsLabel *rested = &labels[all];

      if (!labels[k].owes || labels[k].ready > frame->break_last)
        continue;
      *rested = labels[k];
      rested->owes = FALSE;
      rested->leave_max = MIN (rested->leave_max, frame->break_last - rested->drive);
      rested->ready = MAX (rested->ready, frame->break_first) + frame->break_seconds;
      rested->drive += frame->break_seconds;
      all++;
    }
  return all;
}

guint
hs_label_extend (const HsFrame *frame, const HsTerms *terms, const HsLabel *label, guint i, HsLabel *ret_next)
{
  const HsFrameStop *stop = &frame->stops[i];
  gint64 leg = hs_frame_seconds (frame, (guint) label->last, i);
  HsLabel at = *label;
  guint n = 0;

  at.drive += leg;
  at.ready += leg;
  if (!terms->flat)
    at.units += hs_frame_units (frame, (guint) label->last, i);
  at.done |= HS_FRAME_BIT (i);
  at.last = (int) i;
  if (at.ready > stop->open_last)
    return extend_rested (frame, ret_next, extend_late (frame, terms, at, i, ret_next));
  for (guint k = 0; k < stop->n_open; k++)
    {
      const HsFrameRange *range = &stop->open[k];
      HsLabel *next = &ret_next[n];

      if (at.ready > range->last)
        continue;
      *next = at;
      next->ready = MAX (at.ready, range->first) + stop->service;
      next->drive += stop->service;
      next->leave_max = MIN (at.leave_max, range->last - at.drive);
      n++;
      if (next->leave_max == at.leave_max)
        break;
    }
  return extend_rested (frame, ret_next, n);
}

/* Whoever still owes the break has it at home, late or not. Lateness counts at its least here too. */
static void
finish_rested (const HsFrame *frame, const HsTerms *terms, gint64 ready, gint64 drive, HsFinish *finish,
               gint64 *leave_max)
{
  gint64 late = MAX (0, ready - frame->break_last);

  finish->broken += late > 0;
  finish->late += late;
  *leave_max = MIN (*leave_max, MAX (terms->leave_from, frame->break_last + late - drive));
}

gboolean
hs_label_finish (const HsFrame *frame, const HsTerms *terms, const HsLabel *label, HsFinish *ret_finish)
{
  gint64 leg = hs_frame_seconds (frame, (guint) label->last, frame->n + 1);
  gint64 drive = label->drive + leg;
  gint64 ready = label->ready + leg;
  HsFinish finish = { label->broken, label->late, MAX (0, ready - frame->home_by), 0, 0, 0 };
  gint64 leave_max = label->leave_max;

  if (label->owes)
    finish_rested (frame, terms, ready, drive, &finish, &leave_max);
  if (finish.broken > terms->broken || finish.late > terms->late || finish.home_late > terms->home_late)
    return FALSE;
  leave_max = MIN (leave_max, MAX (terms->leave_from, frame->home_by + finish.home_late - drive));
  finish.leave = CLAMP (ready - drive, terms->leave_from, leave_max);
  finish.home = MAX (finish.leave + drive, ready);
  if (!terms->flat)
    finish.units = label->units + hs_frame_units (frame, (guint) label->last, frame->n + 1)
                   + (finish.home - finish.leave) * frame->second_units;
  *ret_finish = finish;
  return TRUE;
}

gboolean
hs_label_dominates (const HsLabel *a, const HsLabel *b)
{
  return a->ready <= b->ready && a->units <= b->units && a->leave_max >= b->leave_max && a->broken <= b->broken
         && a->late <= b->late && a->owes <= b->owes
         && (a->drive <= b->drive || b->leave_max + a->drive <= b->ready);
}

static guint
path_insert (HsLabel *labels, guint n, const HsLabel *label)
{
  guint kept = 0;

  for (guint i = 0; i < n; i++)
    if (hs_label_dominates (&labels[i], label))
      return n;
  for (guint i = 0; i < n; i++)
    if (!hs_label_dominates (label, &labels[i]))
      labels[kept++] = labels[i];
  if (kept < PATH_LABELS)
    labels[kept++] = *label;
  return kept;
}

static guint
path_step (const HsFrame *frame, const HsTerms *terms, HsLabel *labels, guint n, guint i)
{
  HsLabel old[PATH_LABELS];
  HsLabel next[HS_LABEL_MAX_NEXT];
  guint kept = 0;

  for (guint k = 0; k < n; k++)
    old[k] = labels[k];
  for (guint k = 0; k < n; k++)
    {
      guint n_next = hs_label_extend (frame, terms, &old[k], i, next);

      for (guint m = 0; m < n_next; m++)
        kept = path_insert (labels, kept, &next[m]);
    }
  return kept;
}

gboolean
hs_label_drive (const HsFrame *frame, const HsTerms *terms, const guint *order, HsFinish *ret_finish)
{
  HsLabel labels[PATH_LABELS];
  HsFinish best = HS_FINISH_WORST;
  gboolean found = FALSE;
  guint n = hs_label_begin (frame, terms, labels);

  for (guint k = 0; k < frame->n && n > 0; k++)
    n = path_step (frame, terms, labels, n, order[k]);
  for (guint k = 0; k < n; k++)
    {
      HsFinish finish;

      if (!hs_label_finish (frame, terms, &labels[k], &finish))
        continue;
      found = TRUE;
      if (hs_finish_compare (&finish, &best) < 0)
        best = finish;
    }
  if (found)
    *ret_finish = best;
  return found;
}
