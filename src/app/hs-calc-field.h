// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-calc.h"

G_BEGIN_DECLS

/**
 * One input of a calculator: a number, a date, a code, or one of a few words by its digit. Digits without a point fill
 * the decimals, and what they were read as stands beside them.
 *
 * Signals: changed; entered (Enter was pressed, or a word chosen).
 */
#define HS_TYPE_CALC_FIELD (hs_calc_field_get_type ())
G_DECLARE_FINAL_TYPE (HsCalcField, hs_calc_field, HS, CALC_FIELD, AdwBin)

GtkWidget *hs_calc_field_new (const HsCalcKey *key);
const HsCalcKey *hs_calc_field_get_key (HsCalcField *self);

/** hs_calc_field_dup_word: (transfer full) (nullable): `volts=12.42`, or %NULL while nothing is typed. */
char *hs_calc_field_dup_word (HsCalcField *self);

/** hs_calc_field_set_text: as if it were typed; for a choice, its word. */
void hs_calc_field_set_text (HsCalcField *self, const char *text);

/** hs_calc_field_set_trouble: @text: (nullable): what is wrong with it, under the field. */
void hs_calc_field_set_trouble (HsCalcField *self, const char *text);

G_END_DECLS
