// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-choice-card.h"
#include "hs-choice-op.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* From what the book says of choices to what the page shows; all texts are new (transfer full). */

/* hs_choice_face_card: (transfer floating): an option as a card. */
GtkWidget *hs_choice_face_card (HsLedger *ledger, const HsChoice *choice);

/* hs_choice_face_dup_line: "drive belt · 2 × · 24.00", without the price. */
char *hs_choice_face_dup_line (const HsChoiceLine *line);

/* hs_choice_face_dup_shares: (nullable): what the price of a part is made of, for the owner alone; %NULL: nobody knows
 * what it cost. */
char *hs_choice_face_dup_shares (HsLedger *ledger, gint64 cost_cents, gint64 price_cents, gint64 tax_cents);

/* hs_choice_face_dup_declined: what was declined earlier and what both visits come to, in sentences. */
char *hs_choice_face_dup_declined (HsLedger *ledger, const HsDeclined *declined);

/* hs_choice_face_dup_room: "room for 8.99", "short by 11.01", "no go-ahead yet". */
char *hs_choice_face_dup_room (HsLedger *ledger, const HsGoAheadRoom *room);

/* hs_choice_face_list_go_aheads: fills @box with every yes that was given, a signed one with what was drawn. */
void hs_choice_face_list_go_aheads (GtkBox *box, HsLedger *ledger, const HsJobChoices *job);

G_END_DECLS
