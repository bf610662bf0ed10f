// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators by name, and how one is run: its words are read, then its own function works it out. */

#include "hs-calc-private.h"

static const HsCalc *const shelves[] = {
  hs_calc_battery, hs_calc_circuit, hs_calc_wheels, hs_calc_identity, hs_calc_money,
};

const HsCalc *
hs_calc_get_nth (guint nth)
{
  for (guint shelf = 0; shelf < G_N_ELEMENTS (shelves); shelf++)
    for (const HsCalc *calc = shelves[shelf]; calc->name != NULL; calc++)
      if (nth-- == 0)
        return calc;
  return NULL;
}

const HsCalc *
hs_calc_lookup (const char *name)
{
  const HsCalc *calc;

  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    if (g_str_equal (calc->name, name))
      return calc;
  return NULL;
}

const HsCalcKey *
hs_calc_find_key (const HsCalc *calc, const char *id)
{
  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    if (g_str_equal (key->id, id))
      return key;
  return NULL;
}

HsCalcResult *
hs_calc_run (const HsCalc *calc, const HsCalcScene *scene, const char *const *words, GError **error)
{
  g_autoptr (HsCalcInput) input = hs_calc_input_new (calc, scene, words, error);
  g_autoptr (HsCalcResult) result = NULL;

  if (input == NULL)
    return NULL;
  result = hs_calc_result_new (scene);
  if (!calc->run (scene, input, result, error))
    return NULL;
  return g_steal_pointer (&result);
}
