// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour.h"

/* Small rounds tried in every order, as a check that shares nothing with the solver. */

#define TOUR_TRIAL_MOST 9

typedef enum
{
  TOUR_ALIKE,
  TOUR_ONE_WAY,
  TOUR_ORDERED,
  TOUR_WAY,
} TourKind;

typedef void (*TourTrialFunc) (const HsTourProblem *problem, const guint *order, gpointer data);

/* Legs from 0 to @most; orders that can be kept where the kind has any. */
HsTourProblem *tour_trial_problem (GRand *rand, guint n, TourKind kind, gint32 most);

gboolean tour_trial_keeps_orders (const HsTourProblem *problem, const guint *order);

/* The cost of the closed round. */
gint64 tour_trial_add_up (const HsTourProblem *problem, const guint *order);

/* Every round that keeps the orders, of up to TOUR_TRIAL_MOST nodes. */
void tour_trial_each (const HsTourProblem *problem, TourTrialFunc func, gpointer data);
gint64 tour_trial_cheapest (const HsTourProblem *problem);
