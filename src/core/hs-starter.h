// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsStarterDraw:
 * @usual_below: a sound engine usually draws less, amps
 * @low_most: the smaller of the two largest figures that sources print, amps
 * @high_most: the larger one, amps; above it every source calls it too much
 *
 * What a warm gas engine may draw while it is cranked. Sources conflict: a textbook page prints 150 to 185, 160 to 200
 * and 185 to 250 A for four, six and eight cylinders (usually below 100, 125 and 150 A), another page 100 to 200, 150
 * to 250 and 300 A or more.
 */
typedef struct
{
  int usual_below;
  int low_most;
  int high_most;
} HsStarterDraw;

/* hs_starter_draw: (transfer none) (nullable): %NULL for anything but 4, 6 and 8 cylinders. */
const HsStarterDraw *hs_starter_draw (int cylinders);

/**
 * HsStarterCrank:
 *
 * How it turned, in the order of %HS_STARTER_CRANKS.
 */
typedef enum
{
  HS_STARTER_CRANK_NORMAL,
  HS_STARTER_CRANK_SLOW,
  HS_STARTER_CRANK_NONE,
} HsStarterCrank;

/* As HsCalcKey.choices. */
#define HS_STARTER_CRANKS "normal|slow|none"

/**
 * HsStarterFinding:
 * @HS_STARTER_NORMAL: it turns and draws what it should
 * @HS_STARTER_MUCH: it turns well, but draws more than one source or all allow
 * @HS_STARTER_BINDS: much current, little movement: engine or starter drags, or the starter is shorted
 * @HS_STARTER_RESISTANCE: little current, little movement: resistance in the circuit
 * @HS_STARTER_BATTERY: the battery gives way at a small current
 * @HS_STARTER_CONTROL: nothing flows and the battery stays up: the control circuit
 * @HS_STARTER_OPEN: neither high nor low: more must be measured
 *
 * Where to look next.
 */
typedef enum
{
  HS_STARTER_NORMAL,
  HS_STARTER_MUCH,
  HS_STARTER_BINDS,
  HS_STARTER_RESISTANCE,
  HS_STARTER_BATTERY,
  HS_STARTER_CONTROL,
  HS_STARTER_OPEN,
} HsStarterFinding;

/* Below this while cranking a gas engine the battery or the starter is at fault; at or above the other one, and nothing
 * turns, the control circuit is (carmaker manual 2004, cold cranking test). */
#define HS_STARTER_LOW_VOLTS 9.6
#define HS_STARTER_IDLE_VOLTS 12.5

/**
 * hs_starter_find:
 * @draw: of its engine
 * @amps: steady, while cranking
 * @volts: across the posts while cranking; NaN if it was not measured
 *
 * High and slow is mechanical drag or a shorted starter; low and slow is resistance (textbook page).
 *
 * Returns: where to look
 */
HsStarterFinding hs_starter_find (const HsStarterDraw *draw, HsStarterCrank crank, double amps, double volts);

G_END_DECLS
