// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-hand-off-op.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* hs_ask_hand_off: (s): id of a job; answers an #HsHandOff. */
gpointer hs_ask_hand_off (HsBook *book, GVariant *args, HsInstant now, GError **error);

G_END_DECLS
