// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-road-maker.h"

G_BEGIN_DECLS

/** The map of roads: what there is, a button that makes it from an extract on disk, how far that is, and a stop. */
#define HS_TYPE_ROAD_CARD (hs_road_card_get_type ())
G_DECLARE_FINAL_TYPE (HsRoadCard, hs_road_card, HS, ROAD_CARD, AdwBin)

/* hs_road_card_set_ledger: whose roads; call it once. */
void hs_road_card_set_ledger (HsRoadCard *self, HsLedger *ledger);

G_END_DECLS
