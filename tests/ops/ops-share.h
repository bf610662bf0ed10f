// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day-share.h"
#include "ops-town.h"

/* Two vans in the town, both of which start at Tannery Row, and what the tests of sharing ask. The day is Tuesday,
 * 2026-03-10; vans leave from 07:00 to 11:00, at 1.60 a minute and 0.42 a mile. */

#define SHARE_DAY "2026-03-10"
#define SHARE_JOBS "number,customer_phone,words,kind,stage,area,day,window_from,window_to,minutes\n"
#define SHARE_NEEDS "job,part,quantity,supplier,quoted\n"
#define SHARE_STOCK "van,part,quantity,keep,bin\n"
#define SHARE_K "Kingpost Parts Counter"

OpsTown *share_town (void);

/* The case of the day at a clock time. */
HsShareCase *share_case (OpsTown *town, const char *clock);

/* Shared with all the time in the world. */
HsSharePlan *share_at (OpsTown *town, const char *clock);

/* (transfer full): "A 08:51 A-0001@09:00 K@10:00 =09:39 | B stays": each van's leave, stops with their starts, home. A
 * call that changes vans has a "+" before it, a counter is its first letter. */
char *share_routes (OpsTown *town, const HsSharePlan *plan);

/* (transfer full): "A-0001: what; A-0002: what" of notes. */
char *share_notes (GPtrArray *notes);

/* (transfer full): the same of broken promises. */
char *share_promises (GPtrArray *broken);

/* Accepts the order of a van as it is planned anew. */
void share_accept_order (OpsTown *town, const char *van);
