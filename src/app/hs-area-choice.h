// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ask.h"
#include "hs-snapshot.h"

G_BEGIN_DECLS

/**
 * One of the owner's areas, or none yet. Whoever shows it asks hs_ask_places() and hands each answer over.
 *
 * #HsAreaChoice::chosen: another one was picked, by hand or by hs_area_choice_choose(); not while a list is handed
 * over.
 */
#define HS_TYPE_AREA_CHOICE (hs_area_choice_get_type ())
G_DECLARE_FINAL_TYPE (HsAreaChoice, hs_area_choice, HS, AREA_CHOICE, AdwBin)

/**
 * hs_area_choice_set_places:
 * @places: (nullable): a #GPtrArray of #HsPlace
 *
 * What was picked, or waits to be, is picked again by its code or name; none is if the list has it no more.
 */
void hs_area_choice_set_places (HsAreaChoice *self, HsSnapshot *places);

/**
 * hs_area_choice_choose:
 * @area: (nullable): a code or a name; %NULL for none
 *
 * Picks it now, or with the first list that has it. A position is picked now, whether or not the list has it.
 */
void hs_area_choice_choose (HsAreaChoice *self, const char *area);

/* hs_area_choice_get_place: (transfer none) (nullable): what is picked; valid until the next list. */
const HsPlace *hs_area_choice_get_place (HsAreaChoice *self);

/* hs_area_choice_offer_map: @ledger: (nullable): lets the place be picked on the map of this book. */
void hs_area_choice_offer_map (HsAreaChoice *self, HsLedger *ledger);

/* hs_area_choice_set_words: for a choice of something else that has a code and a name: @name: what is chosen, for who
 * hears it; @none: what the first line says. */
void hs_area_choice_set_words (HsAreaChoice *self, const char *name, const char *none);

/** hs_area_choice_set_stacked: its parts stand below each other, where even two of them are too wide. */
void hs_area_choice_set_stacked (HsAreaChoice *self, gboolean stacked);

G_END_DECLS
