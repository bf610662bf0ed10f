// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store-private.h"

G_BEGIN_DECLS

/* hs_session_announce: writes the row that tells others who has the book open; %FALSE if it cannot be written now. */
gboolean hs_session_announce (HsStore *store, HsInstant now, GError **error);

/* hs_session_forget_all: nobody else has the book open, so rows that are left come from programs that were killed. */
gboolean hs_session_forget_all (HsStore *store, GError **error);

/* hs_session_leave: takes the row away, if that is possible without waiting. */
void hs_session_leave (HsStore *store);

G_END_DECLS
