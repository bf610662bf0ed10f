// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-share.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsSharing:
 *
 * Sharing the calls of one day among the vans while the window goes on: the day is read by the ledger's worker,
 * searched in a thread of its own that never touches the book, and written by the worker again.
 */
#define HS_TYPE_SHARING (hs_sharing_get_type ())
G_DECLARE_FINAL_TYPE (HsSharing, hs_sharing, HS, SHARING, GObject)

/**
 * HsSharingState:
 * @HS_SHARING_LOADING: the day is being read
 * @HS_SHARING_SEARCHING: the plan, if there is one yet, is the best so far
 * @HS_SHARING_FOUND: the search is over
 * @HS_SHARING_WRITING: it is being accepted or taken back
 * @HS_SHARING_ACCEPTED: it stands, and can be taken back
 * @HS_SHARING_FAILED: there is nothing to show but the trouble
 */
typedef enum
{
  HS_SHARING_LOADING,
  HS_SHARING_SEARCHING,
  HS_SHARING_FOUND,
  HS_SHARING_WRITING,
  HS_SHARING_ACCEPTED,
  HS_SHARING_FAILED,
} HsSharingState;

/* hs_sharing_new: (transfer full): for a day; it waits for hs_sharing_begin(). */
HsSharing *hs_sharing_new (HsLedger *ledger, HsDate day);

/* hs_sharing_begin: reads the day and searches, whatever was found before. */
void hs_sharing_begin (HsSharing *sharing);

/* hs_sharing_stop: ends the search with the best so far. */
void hs_sharing_stop (HsSharing *sharing);

/* hs_sharing_accept: lets the best so far stand. A refusal shows as trouble, and the plan stays. */
void hs_sharing_accept (HsSharing *sharing);

/* hs_sharing_take_back: puts back what stood before a plan of that day was accepted last: here, in a sharing before, or
 * by another program. It is found then, or searched for again if something was found meanwhile. With nothing to take
 * back that is refused. */
void hs_sharing_take_back (HsSharing *sharing);

/* hs_sharing_can_take_back: whether a plan of that day was accepted and not taken back, as of the latest beginning,
 * accepting or taking back. */
gboolean hs_sharing_can_take_back (HsSharing *sharing);

HsSharingState hs_sharing_get_state (HsSharing *sharing);
HsLedger *hs_sharing_get_ledger (HsSharing *sharing);
HsDate hs_sharing_get_day (HsSharing *sharing);

/* hs_sharing_get_plan: (transfer none) (nullable): the best so far; valid until the next #HsSharing::changed. */
const HsSharePlan *hs_sharing_get_plan (HsSharing *sharing);

/* hs_sharing_get_trouble: (transfer none) (nullable): why the last thing asked for was refused. */
const char *hs_sharing_get_trouble (HsSharing *sharing);

G_END_DECLS
