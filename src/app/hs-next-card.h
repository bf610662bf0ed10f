// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ask.h"

G_BEGIN_DECLS

/** What comes next today: the time in large figures, where to, what to mind, and the key that starts it. */
#define HS_TYPE_NEXT_CARD (hs_next_card_get_type ())
G_DECLARE_FINAL_TYPE (HsNextCard, hs_next_card, HS, NEXT_CARD, AdwBin)

GtkWidget *hs_next_card_new (void);

/** hs_next_card_set_narrow: without the keycaps, and with the buttons under each other. */
void hs_next_card_set_narrow (HsNextCard *self, gboolean narrow);

/** hs_next_card_set_key_is_elsewhere: F4 acts on a tag that has the focus, and is printed there and not here. */
void hs_next_card_set_key_is_elsewhere (HsNextCard *self, gboolean elsewhere);

/** hs_next_card_set: @shot: (nullable): %NULL or without a plan: nothing is promised today. */
void hs_next_card_set (HsNextCard *self, HsLedger *ledger, const HsBoardShot *shot);

/* hs_next_card_find_row: (transfer none) (nullable): a job of the board; @shot: (nullable). */
const HsBoardRow *hs_next_card_find_row (const HsBoardShot *shot, const char *job_id);

/**
 * hs_next_card_find_job:
 *
 * Returns: (transfer none) (nullable): the job that F4 moves when no tag is chosen: the one that is driven to or
 *   worked on, else the first promised one in the plan's order, else one that only has to be priced
 */
const HsBoardRow *hs_next_card_find_job (const HsBoardShot *shot);

G_END_DECLS
