// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-travel.h"

G_BEGIN_DECLS

/* hs_travel_check: refuses what hs_travel_fill() cannot work with. */
gboolean hs_travel_check (const HsTravelKnown *known, const HsTravelRules *rules, GError **error);

/* hs_travel_pair_leg: a tabled or routed pair as a leg. */
HsTravelLeg hs_travel_pair_leg (const HsTravelPair *pair);

/* hs_travel_guess_leg: the estimate; %FALSE if a place has no position. */
gboolean hs_travel_guess_leg (const HsTravelPlace *places, guint from, guint to, const HsTravelRules *rules,
                              HsTravelLeg *ret_leg);

G_END_DECLS
