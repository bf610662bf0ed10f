// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-day-plan.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** One place in a day where a call could go: when, after whom, and what it adds; or which promise it would break. */
#define HS_TYPE_OFFER_ROW (hs_offer_row_get_type ())
G_DECLARE_FINAL_TYPE (HsOfferRow, hs_offer_row, HS, OFFER_ROW, AdwBin)

GtkWidget *hs_offer_row_new (HsLedger *ledger, const HsOffer *offer);

/** hs_offer_row_say: (transfer full): the same as a sentence. */
char *hs_offer_row_say (HsLedger *ledger, const HsOffer *offer);

G_END_DECLS
