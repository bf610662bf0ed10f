// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tongue.h"
#include "hs-travel.h"

G_BEGIN_DECLS

/**
 * hs_travel_leg_say:
 *
 * Where the minutes of a drive are known from: "6 own trips at that hour", "your table", "guess: 1 own trip".
 *
 * Returns: (transfer full): in the language of @in
 */
char *hs_travel_leg_say (const HsTravelLeg *leg, const HsTongue *in);

G_END_DECLS
