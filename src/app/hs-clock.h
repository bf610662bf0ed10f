// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * The one source of time in the window. Property now (Unix seconds, notified about once a minute and when set),
 * property demo (whether this is not the wall's time). Everything below the window gets `now` from here.
 */
#define HS_TYPE_CLOCK (hs_clock_get_type ())
G_DECLARE_FINAL_TYPE (HsClock, hs_clock, HS, CLOCK, GObject)

/**
 * hs_clock_new:
 * @zone: (transfer none): the zone of the book
 *
 * Returns: (transfer full): a clock that shows the time of the wall
 */
HsClock *hs_clock_new (GTimeZone *zone);

/**
 * hs_clock_start_at:
 * @instant: Unix seconds
 *
 * From now on the clock runs from @instant at the wall's pace.
 */
void hs_clock_start_at (HsClock *self, gint64 instant);

/**
 * hs_clock_freeze_at:
 * @instant: Unix seconds
 *
 * From now on the clock stands at @instant, for pictures and tests.
 */
void hs_clock_freeze_at (HsClock *self, gint64 instant);

/** hs_clock_get_now: Returns: Unix seconds. */
gint64 hs_clock_get_now (HsClock *self);
gboolean hs_clock_get_demo (HsClock *self);
GTimeZone *hs_clock_get_zone (HsClock *self);
void hs_clock_set_zone (HsClock *self, GTimeZone *zone);

/** hs_clock_dup_time_text: Returns: (transfer full): 07:52. */
char *hs_clock_dup_time_text (HsClock *self);

/** hs_clock_dup_date_text: Returns: (transfer full): Tue, Mar 10; a demo clock says that it is one. */
char *hs_clock_dup_date_text (HsClock *self);

G_END_DECLS
