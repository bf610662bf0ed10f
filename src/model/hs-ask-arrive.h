// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-identify-op.h"
#include "hs-interview-op.h"
#include "hs-ledger.h"
#include "hs-model-note-op.h"
#include "hs-safety-op.h"
#include "hs-visit-view.h"

G_BEGIN_DECLS

/* What is asked of the book on arriving; questions as in hs-ask.h. */

/**
 * HsArrival: a job from its call to the moment in which the work begins.
 * @safety: the safety list of its latest visit
 * @identity: the vehicle as it stands there and on record
 * @visits: (element-type HsVisitView): with the labor clock at @now
 * @questions: (element-type HsAnswerLine): of the phone and of the interview, with their answers
 * @notes: (element-type HsModelNote): on the vehicle's model
 * @now: the moment that it was read at
 */
typedef struct
{
  HsSafetySheet *safety;
  HsIdentity *identity;
  GPtrArray *visits;
  GPtrArray *questions;
  GPtrArray *notes;
  HsInstant now;
} HsArrival;

void hs_arrival_free (HsArrival *arrival);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsArrival, hs_arrival_free)

/** hs_arrival_load: (transfer full) (nullable): for hs_ask_job(), in the worker thread. */
HsArrival *hs_arrival_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

/** hs_arrival_open_visit: (transfer none) (nullable): the visit on which somebody is at the vehicle now. */
const HsVisitView *hs_arrival_open_visit (const HsArrival *arrival);

/* hs_ask_arrival: (s): id of a job; answers an #HsArrival. */
gpointer hs_ask_arrival (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_interview: no arguments; answers an #HsInterview, the questions that are compiled in. */
gpointer hs_ask_interview (HsBook *book, GVariant *args, HsInstant now, GError **error);

/**
 * HsCallOffFees: what the settings ask for, in cents, in the order of the words of HS_WORDS_CALLED_OFF_HOW.
 */
typedef struct
{
  gint64 cents[3];
} HsCallOffFees;

/* hs_ask_call_off_fees: no arguments; answers an #HsCallOffFees, freed by g_free(). */
gpointer hs_ask_call_off_fees (HsBook *book, GVariant *args, HsInstant now, GError **error);

G_END_DECLS
