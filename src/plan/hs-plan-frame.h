// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day.h"

G_BEGIN_DECLS

/* The day as the search sees it (private to this layer): only the stops in play, opening times turned into the times
 * at which a stop may start, legs from stop to stop, costs as whole numbers. Node n is the start, node n + 1 the end.
 * The break starts from break_first to break_last; whoever leaves at rested_from or later has had it.
 */

#define HS_FRAME_FAR (G_GINT64_CONSTANT (1) << 40)
#define HS_FRAME_BIT(i) (G_GUINT64_CONSTANT (1) << (i))

/* The first and the last second at which a stop may start. */
typedef struct
{
  gint64 first;
  gint64 last;
} HsFrameRange;

typedef struct
{
  guint day_stop;
  gboolean is_call;
  gboolean forgiving;
  gint64 service;
  guint64 after;
  guint n_ranges;
  HsFrameRange ranges[HS_DAY_MAX_SPANS];
  guint n_open;
  HsFrameRange open[HS_DAY_MAX_SPANS];
  gint64 last;
  gint64 open_last;
  guint id_rank;
  guint number;
} HsFrameStop;

typedef struct
{
  const HsDay *day;
  guint n;
  guint64 all;
  HsFrameStop *stops;
  guint *by_id;
  gint64 *seconds;
  gint64 *units;
  gint64 *reach;
  gint64 second_units;
  gint64 home_by;
  gint64 spare;
  gint64 break_seconds;
  gint64 break_first;
  gint64 break_last;
  gint64 rested_from;
  guint n_locked;
  int locked_at[HS_DAY_MAX_STOPS];
} HsFrame;

/* The spans of @stop sorted and merged into @ret_spans (room for %HS_DAY_MAX_SPANS). Returns how many. */
guint hs_frame_merge_spans (const HsDayStop *stop, HsDaySpan *ret_spans);

/* Whether a counter can be stopped at on this day at all. */
gboolean hs_frame_is_open (const HsDayStop *stop);

/* A frame of the stops in @in_play (bits by day index); precedences inside a ring are left out. */
HsFrame *hs_frame_new (const HsDay *day, guint64 in_play);
void hs_frame_free (HsFrame *frame);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsFrame, hs_frame_free)

/* No break is owed. */
void hs_frame_drop_break (HsFrame *frame);

/* Asks for @spare seconds before the end of each window in which a call starts. Zero or below trims nothing; below
 * zero it is how late a call may be. */
void hs_frame_trim (HsFrame *frame, gint64 spare);

/* When stop @i starts if reached at @arrival; FALSE if it may not under the spare asked. */
gboolean hs_frame_start (const HsFrame *frame, guint i, gint64 arrival, gint64 *ret_start, gint64 *ret_late);

/* What is sure to be broken if the van is free at @node at @time with @done behind it: adds to both; FALSE if the spare
 * asked cannot be had any more. */
gboolean hs_frame_doom (const HsFrame *frame, guint64 done, guint node, gint64 time, guint *broken, gint64 *late);

/* Transitive closure of the day's precedences: ret_before[i] = all that must come before i. */
void hs_frame_before (const HsDay *day, guint64 *ret_before);

/* Takes the day's locks over; two locks on one place, or one beyond the last, leave all of them out. Returns whether
 * they were taken. */
gboolean hs_frame_lock (HsFrame *frame);
void hs_frame_unlock (HsFrame *frame);

/* Whether stop @i may come next with @done behind it: what it waits for is done, and no lock speaks against it. */
static inline gboolean
hs_frame_may_follow (const HsFrame *frame, guint64 done, guint i)
{
  int owner;

  if ((frame->stops[i].after & ~done) != 0)
    return FALSE;
  if (frame->n_locked == 0)
    return TRUE;
  owner = frame->locked_at[__builtin_popcountll (done)];
  return owner == (int) i || (owner < 0 && frame->stops[i].number == 0);
}

static inline gint64
hs_frame_seconds (const HsFrame *frame, guint from, guint to)
{
  return frame->seconds[from * (frame->n + 2) + to];
}

static inline gint64
hs_frame_units (const HsFrame *frame, guint from, guint to)
{
  return frame->units[from * (frame->n + 2) + to];
}

G_END_DECLS
