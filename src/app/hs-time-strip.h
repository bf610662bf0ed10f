// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-strip-day.h"

G_BEGIN_DECLS

/**
 * HsStripForm:
 * @HS_STRIP_FORM_FULL: all windows, the van, the counters
 * @HS_STRIP_FORM_TIGHT: only the windows of the chosen and of the tightest stop
 * @HS_STRIP_FORM_COMPACT: 66 px: axis and van only
 */
typedef enum
{
  HS_STRIP_FORM_FULL,
  HS_STRIP_FORM_TIGHT,
  HS_STRIP_FORM_COMPACT,
} HsStripForm;

/**
 * The day as a strip of time. Every stop is a focusable child that says its sentence; Left and Right choose, F8 asks to
 * lock, + and − ask to move it later or earlier, Enter opens.
 *
 * Signals, each with the id of the stop: `chosen`, `opened`, `lock`, and `move` with the step (−1 earlier, 1 later).
 */
#define HS_TYPE_TIME_STRIP (hs_time_strip_get_type ())
G_DECLARE_FINAL_TYPE (HsTimeStrip, hs_time_strip, HS, TIME_STRIP, GtkWidget)

GtkWidget *hs_time_strip_new (void);

/** hs_time_strip_set_day: @day: (nullable): copied; %NULL empties the strip. */
void hs_time_strip_set_day (HsTimeStrip *self, const HsStripDay *day);
void hs_time_strip_set_now (HsTimeStrip *self, int minute);
void hs_time_strip_set_form (HsTimeStrip *self, HsStripForm form);

/**
 * hs_time_strip_choose:
 * @id: (nullable): the stop to show as chosen, without a signal
 */
void hs_time_strip_choose (HsTimeStrip *self, const char *id);
const char *hs_time_strip_get_chosen (HsTimeStrip *self);

G_END_DECLS
