// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * Known callers who may be meant; not shown while there are none.
 *
 * #HsCallerList::picked: the id of the vehicle that was picked.
 * #HsCallerList::typed: somebody goes on writing while a row has the focus; what was typed.
 */
#define HS_TYPE_CALLER_LIST (hs_caller_list_get_type ())
G_DECLARE_FINAL_TYPE (HsCallerList, hs_caller_list, HS, CALLER_LIST, AdwBin)

/**
 * hs_caller_list_set_hits:
 * @hits: (nullable): a #GPtrArray of #HsHit; whoever keeps no vehicle now is left out
 */
void hs_caller_list_set_hits (HsCallerList *self, HsLedger *ledger, GPtrArray *hits);

/** hs_caller_list_count: how many may be meant. */
guint hs_caller_list_count (HsCallerList *self);

/** hs_caller_list_pick_first: Returns: %FALSE where nobody may be meant. */
gboolean hs_caller_list_pick_first (HsCallerList *self);

G_END_DECLS
