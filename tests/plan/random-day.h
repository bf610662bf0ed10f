// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-problem.h"

/* Small random days of all shapes. @step_minutes is of the windows, @break_percent of the vans that owe one; where
 * tables are no metric, a way round may be shorter. A night goes on past midnight. */
typedef struct
{
  const char *name;
  guint days;
  guint calls;
  guint counters;
  guint vans;
  gint32 step_minutes;
  guint window_minutes;
  guint break_percent;
  gboolean metric;
  gboolean skills;
  gboolean night;
} RandomKind;

HsProblem *random_day (GRand *rand, const RandomKind *kind);
