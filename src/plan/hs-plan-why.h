// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan-search.h"

G_BEGIN_DECLS

/* Why a day cannot be kept, in plain words (private to this layer). */

/* What the clocks of @day show, as hs_words_clock () says it. */
char *hs_why_clock (const HsDay *day, gint64 seconds);

/* Adds a broken promise; takes over @why. */
void hs_why_add (GPtrArray *broken, int stop, gint64 late_seconds, char *why);
void hs_why_free (gpointer broken);

/* Adds those of the stops in @among, as a bit set, that cannot be stopped at on this day at all, and those that need
 * their parts. Returns the former. */
guint64 hs_why_add_shut (const HsDay *day, guint64 among, GPtrArray *broken);

/* Finds what cannot be stopped at on this day at all; returns the others as a bit set, and adds the shut counters, the
 * calls that need them, and rings of precedence to @broken. */
guint64 hs_why_in_play (const HsDay *day, GPtrArray *broken);

/* Why @stop is @late_seconds late whatever is done: alone, against one other, or just too much. */
char *hs_why_late (HsSearch *search, const HsDay *day, guint64 in_play, guint stop);

G_END_DECLS
