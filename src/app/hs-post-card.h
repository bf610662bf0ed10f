// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * Posting to the owner's own endpoint, in the set-up window: where to, with which secret, what is told, and whether
 * this machine does it.
 *
 * #HsPostCard::told (const char *, gboolean): what came of a change, and whether it was taken
 */
#define HS_TYPE_POST_CARD (hs_post_card_get_type ())
G_DECLARE_FINAL_TYPE (HsPostCard, hs_post_card, HS, POST_CARD, AdwBin)

/** hs_post_card_set_ledger: once. */
void hs_post_card_set_ledger (HsPostCard *self, HsLedger *ledger);

/** hs_post_card_flush: what is typed is saved as if it was left. */
void hs_post_card_flush (HsPostCard *self);

/** hs_post_card_has: whether the setting @key is shown here. */
gboolean hs_post_card_has (const char *key);

/** hs_post_card_get: (transfer none) (nullable): what changes the setting @key; `on`, `secret`: those two. */
GtkWidget *hs_post_card_get (HsPostCard *self, const char *key);

G_END_DECLS
