// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"
#include "hs-parts-run.h"

G_BEGIN_DECLS

/** One counter of the parts run: pick up, drop off, return, with sums, what is paid and comes back. Signal `ticked`. */
#define HS_TYPE_RUN_SLIP (hs_run_slip_get_type ())
G_DECLARE_FINAL_TYPE (HsRunSlip, hs_run_slip, HS, RUN_SLIP, AdwBin)

/**
 * hs_run_slip_new:
 * @place: (nullable): the name of the counter's area; %NULL shows its code
 */
GtkWidget *hs_run_slip_new (HsLedger *ledger, const HsPartsRun *run, const HsRunCounter *counter, const char *place,
                            gboolean narrow);

G_END_DECLS
