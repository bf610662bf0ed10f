// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve.h"

G_BEGIN_DECLS

/* A problem with its vans, calls, counters and parts in the order of their ids (private to this layer), so that it does
 * not matter in which order a day was written down. */

/**
 * HsSorted:
 * @problem: the sorted one
 * @vans, @calls, @counters, @parts: where each one stood before
 */
typedef struct
{
  HsProblem *problem;
  guint *vans;
  guint *calls;
  guint *counters;
  guint *parts;
} HsSorted;

/* For a problem that hs_problem_check () lets pass. */
HsSorted *hs_sorted_new (const HsProblem *problem);
void hs_sorted_free (HsSorted *sorted);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSorted, hs_sorted_free)

/* Makes a solution of the sorted problem one of the problem as it was, or the other way round. Its lists stay in the
 * order of ids. */
void hs_sorted_restore (const HsSorted *sorted, HsSolution *solution);
void hs_sorted_apply (const HsSorted *sorted, HsSolution *solution);

G_END_DECLS
