// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-exact.h"
#include "hs-solve.h"

/* Days of several vans in a few words, so that a test can be a table of them, and answers in a few words again.
 *
 * A day is a list of statements with ";" between them:
 *   minutes 0 10 / 10 0           the table of drives, row by row; comes first
 *   miles 0 5 / 5 0               in whole miles; without it all are 0
 *   cost 160 42                   cents a minute and a mile; without it both are 0
 *   spare 30                      minutes
 *   van a 0 0 08:00-17:00 [until 09:00] [carries x,x,y] [skills s,t] [break 30 11:30-13:30]
 *   call A 1 45 [08:00-09:00 …] [needs x,y] [van a] [skills s]
 *   counter C 1 10 [08:00-12:00 …] [sells x=500,y=700]
 * Vans come before the calls that name them. */

HsProblem *text_day (const char *text);

/* Seconds of "HH:MM" or "HH:MM:SS". */
gint32 text_clock (const char *text);

/* (transfer full): each moving van as "a 08:00 A@08:30 break@12:00 C@13:00 =14:00", with " | " between them. */
char *text_routes (const HsProblem *problem, const HsSolution *solution);

/* (transfer full): "x C 500, y D 700" in the order of buying. */
char *text_bought (const HsProblem *problem, const HsSolution *solution);

/* (transfer full): "A 12, B 0" for each of @troubles, in minutes late. */
char *text_troubles (const HsProblem *problem, const GPtrArray *troubles);

/* (transfer full): the ids of @calls, "A B C". */
char *text_calls (const HsProblem *problem, const GArray *calls);

/* Plans the day; it must succeed and the answer be one. */
HsSolution *text_solve (const HsProblem *problem, gboolean explain);

/* A day that takes some searching: so many calls all over the place, with windows, parts, and a break for one van of
 * two. */
HsProblem *text_busy_day (guint n_calls, guint32 seed);

/* Writes the day down in another order: vans, calls, counters and parts. */
void text_shuffle (GRand *rand, HsProblem *problem);

/* A frame of all calls of the day. */
HsSolveFrame *text_frame (const HsProblem *problem);

/* The path "C A break / B": stops by id, "/" ends a van's day. @leaves: "08:00 09:00", one a van. */
void text_path (const HsSolveFrame *frame, const char *text, const char *leaves, HsPath *ret_path);

/* (transfer full): the path in the same words, "/" for each van that ends. */
char *text_path_words (const HsSolveFrame *frame, const HsPath *path);

/* What a search counted must be what comes out when its path is driven by the clock. */
void text_assert_score (const HsSolveFrame *frame, const HsScore *score, const HsPath *path);
