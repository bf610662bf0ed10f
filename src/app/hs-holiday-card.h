// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * The days on which counters do not keep the hours of their week, in the set-up window.
 *
 * #HsHolidayCard::told: (text, good): a change was written, or refused with this reason.
 */
#define HS_TYPE_HOLIDAY_CARD (hs_holiday_card_get_type ())
G_DECLARE_FINAL_TYPE (HsHolidayCard, hs_holiday_card, HS, HOLIDAY_CARD, AdwBin)

/* hs_holiday_card_set_ledger: an open book; once. */
void hs_holiday_card_set_ledger (HsHolidayCard *self, HsLedger *ledger);

/* hs_holiday_card_flush: adds what was typed and not added yet. */
void hs_holiday_card_flush (HsHolidayCard *self);

/* hs_holiday_card_get_entry: (transfer none) (nullable): @name: `day`, `opens`, `shuts` or `words`. */
GtkEditable *hs_holiday_card_get_entry (HsHolidayCard *self, const char *name);

G_END_DECLS
