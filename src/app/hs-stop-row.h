// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** A stop in the list of the day: the wire in its gutter, when, which, why. For a GtkListView; one call fills it. */
#define HS_TYPE_STOP_ROW (hs_stop_row_get_type ())
G_DECLARE_FINAL_TYPE (HsStopRow, hs_stop_row, HS, STOP_ROW, GtkWidget)

/**
 * HsStopFace:
 * @number: the stop's number
 * @counter: whether it is a parts counter
 * @first: whether the wire starts here
 * @last: whether it ends here
 * @drive: minutes of driving to this stop; 0 shows none
 * @time: arrival
 * @plate: number plate of a call; %NULL for a counter
 * @name: the caller's words, or the counter's name
 * @window: the promised window, shown when narrow; %NULL for a counter
 * @note: what matters there
 * @spare: minutes of spare as text; %NULL for a counter
 * @tightest: whether the spare is the day's least: it is boxed
 * @locked: whether the owner locked it
 * @stage: (nullable): id of a call's stage once it has begun
 * @chosen: whether it is the chosen stop
 */
typedef struct
{
  guint number;
  gboolean counter;
  gboolean first;
  gboolean last;
  int drive;
  const char *time;
  const char *plate;
  const char *name;
  const char *window;
  const char *note;
  const char *spare;
  gboolean tightest;
  gboolean locked;
  const char *stage;
  gboolean chosen;
} HsStopFace;

GtkWidget *hs_stop_row_new (void);
void hs_stop_row_set_face (HsStopRow *self, const HsStopFace *face);

/** hs_stop_row_set_narrow: two lines instead of one. */
void hs_stop_row_set_narrow (HsStopRow *self, gboolean narrow);

G_END_DECLS
