// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-stage.h"
#include "hs-store.h"

G_BEGIN_DECLS

/* hs_visit_follow_move: opens, stamps, pauses or closes the visit that a move of stage means. Needs a transaction. */
gboolean hs_visit_follow_move (HsStore *store, const char *job_id, HsStage from, HsStage to, HsInstant now,
                               GError **error);

G_END_DECLS
