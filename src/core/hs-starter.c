// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the current of a cranking starter tells, together with how it turned and what the battery had left. For gas
 * engines with 4, 6 or 8 cylinders: no figure for others was found, the maker's figure decides there. */

#include "hs-starter.h"

/* A starter that gets nothing but its solenoid's current. */
#define NEXT_TO_NOTHING 10

static const struct
{
  int cylinders;
  HsStarterDraw draw;
} draws[] = {
  { 4, { 100, 185, 200 } }, { 6, { 125, 200, 250 } }, { 8, { 150, 250, 300 } },
};

const HsStarterDraw *
hs_starter_draw (int cylinders)
{
  for (guint i = 0; i < G_N_ELEMENTS (draws); i++)
    if (draws[i].cylinders == cylinders)
      return &draws[i].draw;
  return NULL;
}

static HsStarterFinding
find_stuck (const HsStarterDraw *draw, double amps, double volts)
{
  if (amps > draw->low_most)
    return HS_STARTER_BINDS;
  if (amps < NEXT_TO_NOTHING && volts >= HS_STARTER_IDLE_VOLTS)
    return HS_STARTER_CONTROL;
  if (amps < draw->usual_below)
    return volts < HS_STARTER_LOW_VOLTS ? HS_STARTER_BATTERY : HS_STARTER_RESISTANCE;
  return HS_STARTER_OPEN;
}

HsStarterFinding
hs_starter_find (const HsStarterDraw *draw, HsStarterCrank crank, double amps, double volts)
{
  if (crank != HS_STARTER_CRANK_NORMAL)
    return find_stuck (draw, amps, volts);
  return amps > draw->low_most ? HS_STARTER_MUCH : HS_STARTER_NORMAL;
}
