// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-roll-op.h"
#include "hs-way-op.h"

G_BEGIN_DECLS

/* hs_ask_way: (s): id of a job; answers an #HsWay. */
gpointer hs_ask_way (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_ask_roll: (si): id of a job, rolling or on site; answers an #HsRollOutlook. */
gpointer hs_ask_roll (HsBook *book, GVariant *args, HsInstant now, GError **error);

G_END_DECLS
