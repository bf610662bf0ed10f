// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-build.h"

G_BEGIN_DECLS

/* Drives between the places of a day. A place is an area, or the position of a call that has one of its own. What the
 * owner drove or tabled between two areas holds for every place in them; else a road between the two positions, else
 * one between the areas, else the estimate. */

/* hs_day_drives_known: whether anything is known of the drive between two places. */
gboolean hs_day_drives_known (const HsDayFacts *facts, const char *a, const char *b);

/**
 * hs_day_drives_fill:
 * @build: with its stops and places
 *
 * Fills the tables to begin with, in which each place is driven to at the time of day that the windows of its calls
 * agree on; and those for each time of day, which differ where own trips were begun then: fewer than
 * %HS_TRAVEL_SURE_SAMPLES of them lean on those of the whole day, see hs_travel_fill ().
 */
gboolean hs_day_drives_fill (HsDayBuild *build, GError **error);

/* hs_day_drives_tell_hours: whether the time of day makes any difference. */
gboolean hs_day_drives_tell_hours (const HsDayBuild *build);

/**
 * hs_day_drives_set:
 * @left: (array): a place each: the times of day, as bits of hs_travel_band (), at which it is left; 0: not known
 *
 * Makes tables in which each drive takes what it takes when its first place is left: the longest of several times of
 * day, the ones to begin with where none is known. Sets the day's drives, if there is a day yet.
 */
void hs_day_drives_set (HsDayBuild *build, const guint8 *left);

/**
 * hs_day_drives_set_fastest:
 * @left: (array): a place each: the times of day at which it may be left; none: it is not left at all
 *
 * Likewise, each drive at that of them at which it takes least. No plan that leaves its places then is better than the
 * best with these.
 */
void hs_day_drives_set_fastest (HsDayBuild *build, const guint8 *left);

G_END_DECLS
