// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsNameCard:
 *
 * Says that a caller gave another name than the book knows, and renames the customer by one key; not shown otherwise.
 */
#define HS_TYPE_NAME_CARD (hs_name_card_get_type ())
G_DECLARE_FINAL_TYPE (HsNameCard, hs_name_card, HS, NAME_CARD, AdwBin)

/* hs_name_card_set_job: looks the names of that job up again. */
void hs_name_card_set_job (HsNameCard *self, HsLedger *ledger, const char *job_id);

/* hs_name_card_press: takes Insert while it is shown. */
gboolean hs_name_card_press (HsNameCard *self, guint keyval);

G_END_DECLS
