// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-board.h"
#include "hs-chase-row.h"
#include "hs-job-glance.h"

G_BEGIN_DECLS

/**
 * hs_board_row_make:
 * @plan: (nullable): the standing plan of its day
 * @chase: (nullable): an open follow-up of the job that is due
 *
 * One tag: what it waits for, one more fact, and what to do now.
 */
HsBoardRow *hs_board_row_make (HsBook *book, const HsJobGlance *glance, const HsDayPlan *plan,
                               const HsChaseRow *chase, HsInstant now, GError **error);

G_END_DECLS
