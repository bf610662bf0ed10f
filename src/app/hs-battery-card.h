// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-history.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** The battery in a vehicle now: months in large figures, how that is known, what it is, its age against its cover. */
#define HS_TYPE_BATTERY_CARD (hs_battery_card_get_type ())
G_DECLARE_FINAL_TYPE (HsBatteryCard, hs_battery_card, HS, BATTERY_CARD, AdwBin)

/**
 * hs_battery_card_set:
 * @fact: (nullable): nothing is known
 * @entries: (element-type HsHistoryEntry): for the latest readings of it
 */
void hs_battery_card_set (HsBatteryCard *self, HsLedger *ledger, const HsBatteryFact *fact, GPtrArray *entries);
void hs_battery_card_set_room (HsBatteryCard *self, gboolean narrow, gboolean cramped);

G_END_DECLS
