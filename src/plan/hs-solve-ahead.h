// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-solve-bound.h"
#include "hs-solve-step.h"

G_BEGIN_DECLS

/* What is sure to come after a step (private to this layer): states, which are all that what comes depends on besides
 * times and money, and what they still cost, miss and take at the least. */

#define HS_STATES_NONE G_MAXUINT32

/**
 * HsState: calls done by anybody, and where the van is with what behind it.
 * @first: for the user: the first of a list, %HS_STATES_NONE at first
 * @rest: for the user: what the rest costs at the least
 */
typedef struct
{
  guint64 calls;
  guint64 stock;
  guint32 seen;
  guint8 van;
  guint8 last;
  guint32 first;
  HsRest rest;
} HsState;

/* A set of states, empty where it is all zeros. @states: (element-type HsState) (nullable) */
typedef struct
{
  GArray *states;
  guint32 *slots;
  guint n_slots;
} HsStates;

static inline HsState
hs_state_of (guint64 calls, const HsStep *step)
{
  return (HsState){ calls, step->stock, step->seen, step->van, step->last, HS_STATES_NONE, { 0, 0 } };
}

/* The state that @key names, a copy of @key where it is new; stays where it is until the next call. */
HsState *hs_states_find (HsStates *states, const HsState *key, gboolean *ret_new);
void hs_states_clear (HsStates *states);

/**
 * HsAhead: a day looked at for what is to come. It keeps the pointers.
 * @bound: (nullable): without it the rest costs nothing
 * @all: all calls
 * @later: which calls a van after each could still serve in time; with promises that may be broken: serve at all
 */
typedef struct
{
  const HsSolveFrame *frame;
  const HsSolveBound *bound;
  const HsSolveTerms *terms;
  guint64 all;
  guint64 later[HS_PROBLEM_MAX_VANS];
} HsAhead;

/* For up to 60 calls. */
void hs_ahead_init (HsAhead *ahead, const HsSolveFrame *frame, const HsSolveBound *bound, const HsSolveTerms *terms);

/* What the rest costs from @state on if all calls are served; there must be a bound. */
HsRest hs_ahead_rest (const HsAhead *ahead, const HsState *state);

/* What is sure to come for the calls left after @calls: adds how many can't be in time any more, and how late, and
 * gives when the van can be home at the earliest. FALSE where the terms can't be kept. */
gboolean hs_ahead_look (const HsAhead *ahead, const HsStep *step, guint64 calls, guint *missed, gint64 *late,
                        gint32 *ret_home);

/* No plan that goes on from @step costs less; @home: as hs_ahead_look () has it. */
gint64 hs_ahead_floor (const HsAhead *ahead, const HsStep *step, const HsRest *rest, gint32 home);

/* The same by a closer look, where the bound has one; else 0. */
gint64 hs_ahead_outlook (const HsAhead *ahead, const HsStep *step, guint64 calls);

G_END_DECLS
