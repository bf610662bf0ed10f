// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * Few readings over time: hollow squares are the part before, a dashed line is the swap, dots are the part that is in
 * now, a dotted line is the limit. Role img; its name lists the readings.
 */
#define HS_TYPE_SPARKLINE (hs_sparkline_get_type ())
G_DECLARE_FINAL_TYPE (HsSparkline, hs_sparkline, HS, SPARKLINE, GtkWidget)

/**
 * HsSparkPoint:
 * @when: position in time, any unit
 * @value: the reading
 * @old: whether it was taken on the part before the swap
 * @spoken: the reading in words
 */
typedef struct
{
  double when;
  double value;
  gboolean old;
  const char *spoken;
} HsSparkPoint;

GtkWidget *hs_sparkline_new (void);

/**
 * hs_sparkline_set:
 * @title: what is measured, for screen readers
 * @points: (array length=n_points): in the order of time
 * @limit: (nullable): how the limit is written at its right end; %NULL for no limit
 * @limit_value: the limit
 */
void hs_sparkline_set (HsSparkline *self, const char *title, const HsSparkPoint *points, guint n_points,
                       const char *limit, double limit_value);

G_END_DECLS
