// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-problem.h"

/* The best that a small day allows, found by trying everything: who serves what, every order, every counter at every
 * place, every window, every leave time that can matter. It knows the problem only from its plain words and uses
 * nothing of the planner. */

#define TRIAL_MAX_WORDS 40
#define TRIAL_HOME 255

/* @spare: capped at the asked spare
 * @stops: calls, counters and breaks on the way
 * @words: the whole plan, van after van in the order of their ids: each stop as the place of its id among all ids, and
 *   %TRIAL_HOME where a van has no further stop */
typedef struct
{
  guint missed;
  guint dropped;
  gint64 late;
  gint64 spare;
  gint64 units;
  gint64 homes;
  gint64 leaves;
  guint stops;
  guint n_words;
  guint8 words[TRIAL_MAX_WORDS];
} Trial;

/* Up to 7 calls, 3 counters. */
Trial trial_best (const HsProblem *problem);

/* By all figures but @stops. */
int trial_compare (const Trial *a, const Trial *b);

/* By @stops and @words, for plans whose figures are equal. */
int trial_compare_words (const Trial *a, const Trial *b);

/* The place of @id among the ids of all calls and counters and "break". */
guint8 trial_word (const HsProblem *problem, const char *id);

/* (transfer full): the indexes of the vans in the order of their ids. */
guint *trial_vans (const HsProblem *problem);
