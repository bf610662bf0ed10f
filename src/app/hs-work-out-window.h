// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-calc-sheet.h"
#include "hs-ledger.h"
#include "hs-window.h"

G_BEGIN_DECLS

/** Every calculator, without a job and without a book: a list by subject, then the one that is chosen. With a job
 * behind it, the result can be sent there. = opens it over anything but a field, Esc goes back. */
#define HS_TYPE_WORK_OUT_WINDOW (hs_work_out_window_get_type ())
G_DECLARE_FINAL_TYPE (HsWorkOutWindow, hs_work_out_window, HS, WORK_OUT_WINDOW, AdwWindow)

/**
 * hs_work_out_window_present:
 * @job_id: (nullable): the open job
 * @job_number: (nullable): as it is shown
 * @phase: (nullable): of the readings that are sent there
 *
 * Returns: (transfer none): the window; one that is open already comes forward
 */
HsWorkOutWindow *hs_work_out_window_present (HsWindow *parent, HsLedger *ledger, const char *job_id,
                                             const char *job_number, const char *phase);

/** hs_work_out_window_choose: (transfer none) (nullable): opens the calculator of that name. */
HsCalcSheet *hs_work_out_window_choose (HsWorkOutWindow *self, const char *name);

G_END_DECLS
