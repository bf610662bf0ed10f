// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-history.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** One entry of a vehicle's history: day, what it was, before and after. */
#define HS_TYPE_HISTORY_ROW (hs_history_row_get_type ())
G_DECLARE_FINAL_TYPE (HsHistoryRow, hs_history_row, HS, HISTORY_ROW, AdwBin)

GtkWidget *hs_history_row_new (HsLedger *ledger, const HsHistoryEntry *entry, gboolean narrow);

/** hs_history_row_get_job_id: (transfer none) (nullable): the job that a click opens. */
const char *hs_history_row_get_job_id (HsHistoryRow *self);

G_END_DECLS
