// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * A calculator as a sheet: its inputs, and under them what comes out, what it means and who says so, worked out anew
 * with every key.
 *
 * Signals: worked-out (there is a result, or there is none any more).
 */
#define HS_TYPE_CALC_SHEET (hs_calc_sheet_get_type ())
G_DECLARE_FINAL_TYPE (HsCalcSheet, hs_calc_sheet, HS, CALC_SHEET, AdwBin)

/** hs_calc_sheet_new: works with or without an open book; of a ledger with one it takes today, currency and catalog. */
GtkWidget *hs_calc_sheet_new (const HsCalc *calc, HsLedger *ledger);
const HsCalc *hs_calc_sheet_get_calc (HsCalcSheet *self);

/** hs_calc_sheet_get_result: (transfer none) (nullable): %NULL while something is missing or wrong. */
const HsCalcResult *hs_calc_sheet_get_result (HsCalcSheet *self);

/** hs_calc_sheet_dup_words: (transfer full): what is filled in, `key=value` each. */
char **hs_calc_sheet_dup_words (HsCalcSheet *self);

/** hs_calc_sheet_fill: sets one field, as if it were typed. */
void hs_calc_sheet_fill (HsCalcSheet *self, const char *key, const char *text);

/** hs_calc_sheet_dup_sentence: (transfer full) (nullable): the result in words with who says so, for a job. */
char *hs_calc_sheet_dup_sentence (HsCalcSheet *self);

G_END_DECLS
