// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A day as the time strip shows it, and the little arithmetic that the drawing needs.
 *
 * Use it to fill an HsTimeStrip. It refuses to plan: starts, windows and order come from elsewhere. */

#include "hs-strip-day.h"

static void
free_stop (gpointer data)
{
  HsStripStop *stop = data;

  g_free ((char *) stop->id);
  g_free ((char *) stop->label);
  g_free ((char *) stop->spoken);
  g_free (stop);
}

static void
free_rail (gpointer data)
{
  HsStripRail *rail = data;

  g_free (rail->name);
  g_array_unref (rail->spans);
  g_free (rail);
}

HsStripDay *
hs_strip_day_new (void)
{
  HsStripDay *day = g_new0 (HsStripDay, 1);

  day->from = 7 * 60 + 30;
  day->to = 18 * 60;
  day->leave = day->home = day->now = day->break_from = day->break_to = -1;
  day->stops = g_ptr_array_new_with_free_func (free_stop);
  day->rails = g_ptr_array_new_with_free_func (free_rail);
  return day;
}

HsStripDay *
hs_strip_day_copy (const HsStripDay *day)
{
  HsStripDay *copy = hs_strip_day_new ();

  copy->from = day->from;
  copy->to = day->to;
  copy->leave = day->leave;
  copy->home = day->home;
  copy->now = day->now;
  copy->break_from = day->break_from;
  copy->break_to = day->break_to;
  copy->van = g_strdup (day->van);
  for (guint i = 0; i < day->stops->len; i++)
    hs_strip_day_add_stop (copy, g_ptr_array_index (day->stops, i));
  for (guint i = 0; i < day->rails->len; i++)
    {
      const HsStripRail *rail = g_ptr_array_index (day->rails, i);

      hs_strip_day_add_rail (copy, rail->name, (const int *) (void *) rail->spans->data, rail->spans->len / 2);
    }
  return copy;
}

void
hs_strip_day_free (HsStripDay *day)
{
  if (day == NULL)
    return;
  g_free (day->van);
  g_ptr_array_unref (day->stops);
  g_ptr_array_unref (day->rails);
  g_free (day);
}

void
hs_strip_day_add_stop (HsStripDay        *day,
                       const HsStripStop *stop)
{
  HsStripStop *copy = g_new (HsStripStop, 1);

  *copy = *stop;
  copy->id = g_strdup (stop->id);
  copy->label = g_strdup (stop->label);
  copy->spoken = g_strdup (stop->spoken);
  g_ptr_array_add (day->stops, copy);
}

int
hs_strip_day_add_rail (HsStripDay *day,
                       const char *name,
                       const int  *spans,
                       guint       n_spans)
{
  HsStripRail *rail = g_new (HsStripRail, 1);

  rail->name = g_strdup (name);
  rail->spans = g_array_new (FALSE, FALSE, sizeof (int));
  if (n_spans > 0)
    g_array_append_vals (rail->spans, spans, 2 * n_spans);
  g_ptr_array_add (day->rails, rail);
  return (int) day->rails->len - 1;
}

int
hs_strip_day_get_spare (const HsStripStop *stop)
{
  return stop->counter || stop->window_from < 0 ? -1 : stop->window_to - stop->start;
}

int
hs_strip_day_find_tightest (const HsStripDay *day)
{
  int tightest = -1, least = G_MAXINT;

  for (guint i = 0; i < day->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (day->stops, i);

      if (stop->counter || stop->done || stop->window_from < 0 || hs_strip_day_get_spare (stop) >= least)
        continue;
      least = hs_strip_day_get_spare (stop);
      tightest = (int) i;
    }
  return tightest;
}

static int
drawn_end (const HsStripDay *day,
           const int        *drawn,
           guint             index,
           gboolean          to)
{
  const HsStripStop *stop = g_ptr_array_index (day->stops, index);

  if (drawn != NULL)
    return drawn[2 * index + (to ? 1 : 0)];
  return to ? stop->window_to : stop->window_from;
}

static int
next_by_start (const HsStripDay *day,
               const int        *drawn,
               const int        *lanes)
{
  int next = -1;

  for (guint i = 0; i < day->stops->len; i++)
    {
      if (lanes[i] != -2)
        continue;
      if (next < 0 || drawn_end (day, drawn, i, FALSE) < drawn_end (day, drawn, (guint) next, FALSE))
        next = (int) i;
    }
  return next;
}

guint
hs_strip_day_pack (const HsStripDay *day,
                   const int        *drawn,
                   int              *ret_lanes)
{
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (int));
  int next;

  for (guint i = 0; i < day->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (day->stops, i);

      ret_lanes[i] = stop->counter || stop->window_from < 0 ? -1 : -2;
    }
  while ((next = next_by_start (day, drawn, ret_lanes)) >= 0)
    {
      int from = drawn_end (day, drawn, (guint) next, FALSE), to = drawn_end (day, drawn, (guint) next, TRUE);
      guint lane = 0;

      while (lane < ends->len && g_array_index (ends, int, lane) > from)
        lane++;
      if (lane == ends->len)
        g_array_append_val (ends, to);
      else
        g_array_index (ends, int, lane) = to;
      ret_lanes[next] = (int) lane;
    }
  return ends->len;
}
