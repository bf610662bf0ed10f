// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The shelves of calculators by subject, each ended by one without a name, and what reading and writing share. */

#include "hs-calc.h"

G_BEGIN_DECLS

extern const HsCalc hs_calc_battery[];
extern const HsCalc hs_calc_circuit[];
extern const HsCalc hs_calc_wheels[];
extern const HsCalc hs_calc_identity[];
extern const HsCalc hs_calc_money[];

/* The end of a table of keys, and of a shelf. */
#define HS_CALC_KEYS_END { .id = NULL }
#define HS_CALC_SHELF_END { .name = NULL }

/* hs-calc-input.c: reads the words; %NULL with the error of hs_calc_run(). */
HsCalcInput *hs_calc_input_new (const HsCalc *calc, const HsCalcScene *scene, const char *const *words,
                                GError **error);
void hs_calc_input_free (HsCalcInput *input);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCalcInput, hs_calc_input_free)

/* hs-calc-result.c */
HsCalcResult *hs_calc_result_new (const HsCalcScene *scene);

/* hs_calc_rounded_text: (transfer full): for a sentence: rounded, with all of its decimals and a point. */
char *hs_calc_rounded_text (double number, guint decimals);

/* hs_calc_number_text: (transfer full): as short as it can be told, with a point: "0.005", "1500". */
char *hs_calc_number_text (double number);

G_END_DECLS
