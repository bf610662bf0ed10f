// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib-object.h>

G_BEGIN_DECLS

/**
 * HsStripStop:
 * @id: what the caller knows the stop by; given back in signals
 * @number: its number in the order
 * @counter: whether it is a parts counter rather than a call
 * @label: the short name under the number, for example 21
 * @arrive: arrival, minutes of the day; before @start when the van waits there
 * @start: start of work, minutes of the day
 * @end: end of work, minutes of the day
 * @window_from: start of the promised window, minutes of the day; -1 when there is none
 * @window_to: its end
 * @rail: for a counter, the index of its rail; -1 when it has none
 * @locked: whether the owner locked it in place
 * @spoken: one sentence for screen readers; it says everything about the stop
 * @done: whether the van is there or has been: its window has nothing more to spare
 */
typedef struct
{
  const char *id;
  guint number;
  gboolean counter;
  const char *label;
  int arrive;
  int start;
  int end;
  int window_from;
  int window_to;
  int rail;
  gboolean locked;
  const char *spoken;
  gboolean done;
} HsStripStop;

/**
 * HsStripRail:
 * @name: the counter's short name
 * @spans: when it is open, minutes of the day, pairs from and to (gint); nothing between two spans is shut
 */
typedef struct
{
  char *name;
  GArray *spans;
} HsStripRail;

/**
 * HsStripDay:
 * @from: left end of the strip, minutes of the day
 * @to: right end
 * @leave: when the van leaves, minutes of the day; -1 when it does not
 * @home: when it is back
 * @now: the minute it is; -1 on another day
 * @break_from: start of the break on the road, minutes of the day; -1 when there is none
 * @break_to: its end
 * @van: what the van's row is called
 * @stops: (element-type HsStripStop): in the order of the day
 * @rails: (element-type HsStripRail): the counters that are visited
 *
 * A day as the time strip draws it: minutes of the day, no instants, no money.
 */
typedef struct
{
  int from;
  int to;
  int leave;
  int home;
  int now;
  int break_from;
  int break_to;
  char *van;
  GPtrArray *stops;
  GPtrArray *rails;
} HsStripDay;

HsStripDay *hs_strip_day_new (void);
HsStripDay *hs_strip_day_copy (const HsStripDay *day);
void hs_strip_day_free (HsStripDay *day);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsStripDay, hs_strip_day_free)

/** hs_strip_day_add_stop: copies @stop. */
void hs_strip_day_add_stop (HsStripDay *day, const HsStripStop *stop);

/**
 * hs_strip_day_add_rail:
 * @spans: (array length=n_spans): pairs of minutes, from and to
 *
 * Returns: the index of the rail, for #HsStripStop
 */
int hs_strip_day_add_rail (HsStripDay *day, const char *name, const int *spans, guint n_spans);

/**
 * hs_strip_day_get_spare:
 *
 * Returns: minutes from the start of work to the end of its window; -1 without a window
 */
int hs_strip_day_get_spare (const HsStripStop *stop);

/**
 * hs_strip_day_find_tightest:
 *
 * Returns: the index of the stop with the least spare; -1 when no stop ahead has a window
 */
int hs_strip_day_find_tightest (const HsStripDay *day);

/**
 * hs_strip_day_pack:
 * @drawn: (nullable) (array): a pair of minutes a stop, from and to, that its lane keeps free for it: its window and
 *   what is written beside it; %NULL: the windows alone
 * @ret_lanes: (out caller-allocates) (array): room for one lane number a stop; -1 for a stop without a window
 *
 * Packs the windows into as few lanes as possible, in the order of their starts; windows that only touch share a lane.
 *
 * Returns: the number of lanes
 */
guint hs_strip_day_pack (const HsStripDay *day, const int *drawn, int *ret_lanes);

G_END_DECLS
