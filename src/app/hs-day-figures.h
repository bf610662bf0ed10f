// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ask.h"

G_BEGIN_DECLS

/** The day in five figures: when to leave, when one is home, the drive, the least spare time and what it costs. */
#define HS_TYPE_DAY_FIGURES (hs_day_figures_get_type ())
G_DECLARE_FINAL_TYPE (HsDayFigures, hs_day_figures, HS, DAY_FIGURES, AdwBin)

void hs_day_figures_set_plan (HsDayFigures *self, HsLedger *ledger, const HsDayPlan *plan);

/** hs_day_figures_set_narrow: only when to leave and when one is home. */
void hs_day_figures_set_narrow (HsDayFigures *self, gboolean narrow);

G_END_DECLS
