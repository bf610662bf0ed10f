// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-problem.h"

/* The best that a small day allows, found by trying everything: who serves what, every order, every counter at every
 * place, every window, every leave time that can matter. It knows the problem only from its plain words and uses
 * nothing of the planner. */

/* @spare: capped at the asked spare */
typedef struct
{
  guint missed;
  guint dropped;
  gint64 late;
  gint64 spare;
  gint64 units;
  gint64 homes;
  gint64 leaves;
} Trial;

/* Up to 7 calls, 3 counters. */
Trial trial_best (const HsProblem *problem);

int trial_compare (const Trial *a, const Trial *b);
