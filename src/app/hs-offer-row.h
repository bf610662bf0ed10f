// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-day-plan.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/** One thing to weigh against what stands: one place in a day where a call could go, another order, a stop. */
#define HS_TYPE_OFFER_ROW (hs_offer_row_get_type ())
G_DECLARE_FINAL_TYPE (HsOfferRow, hs_offer_row, HS, OFFER_ROW, AdwBin)

/**
 * HsOfferFace:
 * @start: (nullable): the time at the left
 * @title: what it is
 * @verdict: (nullable): a word that is boxed
 * @detail: (nullable): what goes with it
 * @cost: (nullable): the figure at the right
 */
typedef struct
{
  const char *start;
  const char *title;
  const char *verdict;
  const char *detail;
  const char *cost;
} HsOfferFace;

GtkWidget *hs_offer_row_new_with_face (const HsOfferFace *face);

/** hs_offer_row_append: shows @face as a row of @list that is read, not pressed, and @list with it. */
void hs_offer_row_append (GtkListBox *list, const HsOfferFace *face);

/** hs_offer_row_new: when, after whom, and what it adds; or which promise it would break. */
GtkWidget *hs_offer_row_new (HsLedger *ledger, const HsOffer *offer);

/** hs_offer_row_say: (transfer full): the same as a sentence. */
char *hs_offer_row_say (HsLedger *ledger, const HsOffer *offer);

/** hs_offer_row_has_free: whether there is a window, of at least a minute, to be said to the caller. */
gboolean hs_offer_row_has_free (const HsOffer *offer);

G_END_DECLS
