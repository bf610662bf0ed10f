// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Brakes: how evenly the linings of an axle have worn, and at what a fluid may boil. A rotor's least thickness is cast
 * on it and nowhere else. */

#include "hs-brake.h"

static const HsBrakeFluid fluids[] = {
  { "dot3", "DOT 3", 205, 140, FALSE },
  { "dot4", "DOT 4", 230, 155, TRUE },
  { "dot5", "DOT 5", 260, 180, FALSE },
  { "dot5.1", "DOT 5.1", 260, 180, FALSE },
};

HsBrakePads
hs_brake_pads (const gint64 *values, gsize n)
{
  HsBrakePads pads = { 0 };
  gint64 most = values[0];

  for (gsize i = 1; i < n; i++)
    {
      pads.thinnest = values[i] < values[pads.thinnest] ? i : pads.thinnest;
      most = MAX (most, values[i]);
    }
  pads.spread = most - values[pads.thinnest];
  return pads;
}

const HsBrakeFluid *
hs_brake_fluid_get_nth (guint nth)
{
  return nth < G_N_ELEMENTS (fluids) ? &fluids[nth] : NULL;
}
