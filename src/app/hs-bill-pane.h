// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/** What a job comes to: its lines, tax, payments and installed parts. */
#define HS_TYPE_BILL_PANE (hs_bill_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsBillPane, hs_bill_pane, HS, BILL_PANE, HsJobPane)

G_END_DECLS
