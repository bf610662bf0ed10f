// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-travel.h"

G_BEGIN_DECLS

/* What own trips say about a drive: the steps of hs_travel_fill(), and the trial of its figures on trips held out. */

/**
 * hs_travel_median:
 * @values: (element-type gint64): sorted in place; not empty, none below zero
 *
 * Returns: the middle one, of an even count the middle between both, halves up
 */
gint64 hs_travel_median (GArray *values);

/**
 * HsTravelOwn: trips by the places they join. One list a cell of the tables, linked through @next.
 * @held_out: a trip that is left out of account, or %G_MAXUINT
 */
typedef struct
{
  const HsTravelKnown *known;
  const HsTravelRules *rules;
  guint *head;
  guint *next;
  guint held_out;
} HsTravelOwn;

/* hs_travel_own_init: @known and @rules must stay and must have been checked. */
void hs_travel_own_init (HsTravelOwn *own, const HsTravelKnown *known, const HsTravelRules *rules);
void hs_travel_own_clear (HsTravelOwn *own);

/**
 * hs_travel_own_blend:
 * @band: the time of day, or %HS_TRAVEL_ANY_BAND
 * @before: (nullable): what would be said without own trips
 * @tabled: (nullable): the owner's table, whose samples weigh as trips
 * @ret_leg: (out): what is said with them
 *
 * Returns: %FALSE if there are neither trips nor @before
 */
gboolean hs_travel_own_blend (const HsTravelOwn *own, guint from, guint to, int band, const HsTravelLeg *before,
                              const HsTravelPair *tabled, HsTravelLeg *ret_leg);

/**
 * HsTravelScore:
 * @errors: (element-type gint64): for each #HsTravelSource, the seconds by which it was off, one a trip
 *
 * Own trips are judged without the one that is foretold: %HS_TRAVEL_OWN where enough others are there, %HS_TRAVEL_FEW
 * where only some are.
 */
typedef struct
{
  GArray *errors[HS_TRAVEL_OWN + 1];
} HsTravelScore;

void hs_travel_score_init (HsTravelScore *score);
void hs_travel_score_clear (HsTravelScore *score);

/**
 * hs_travel_score_add:
 * @known: places, pairs and trips; its band is not looked at
 *
 * Foretells each trip in its own band from all that is known but itself, and notes how far off each source was that has
 * something to say. Refuses what hs_travel_fill() refuses, but for a drive that nobody knows.
 */
gboolean hs_travel_score_add (HsTravelScore *score, const HsTravelKnown *known, const HsTravelRules *rules,
                              GError **error);

G_END_DECLS
