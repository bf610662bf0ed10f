// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-find.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** A vehicle that was found: plate, vehicle, owner, age of its battery. */
#define HS_TYPE_HIT_ROW (hs_hit_row_get_type ())
G_DECLARE_FINAL_TYPE (HsHitRow, hs_hit_row, HS, HIT_ROW, AdwBin)

GtkWidget *hs_hit_row_new (void);
void hs_hit_row_set (HsHitRow *self, HsLedger *ledger, const HsHit *hit);

/** hs_hit_row_say: Returns: (transfer full): the row in one sentence, for screen readers. */
char *hs_hit_row_say (HsLedger *ledger, const HsHit *hit);

G_END_DECLS
