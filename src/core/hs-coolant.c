// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where a mixture of coolant and water freezes. Gives no figure above 60 %: more concentrate protects less. */

#include "hs-coolant.h"

#include "hs-calc.h"

#define FAHRENHEIT(degrees) (((degrees) - 32) / 1.8)

#define WATER { "water freezes at 0 °C", HS_SURE_OFFICIAL }
#define ARMY_TABLE { "US Army TM 9-6115-464-12 Table 2-1", HS_SURE_OFFICIAL }
#define ARMY_30 { "US Army TM 5-3895-382-24", HS_SURE_OFFICIAL }
#define TRACTOR { "Tractor maker's operator manual 2013", HS_SURE_SECONDARY }
#define HANDBOOK { "Handbook of chemistry, 15th ed., Table 5.13", HS_SURE_SECONDARY }

typedef struct
{
  double percent;
  double celsius;
  HsCoolantSource source;
} Row;

static const Row ethylene[] = {
  { 0, 0, WATER },
  { 18.75, FAHRENHEIT (20), ARMY_TABLE },
  { 25, FAHRENHEIT (10), ARMY_TABLE },
  { 30, -15, ARMY_30 },
  { 40, -24, TRACTOR },
  { 50, -37, TRACTOR },
  { 60, -52, TRACTOR },
};

static const Row propylene[] = {
  { 0, 0, WATER },
  { 10, -2.2, HANDBOOK },
  { 20, -6.7, HANDBOOK },
  { 30, -12.8, HANDBOOK },
  { 35, -16.1, HANDBOOK },
  { 40, -20.6, HANDBOOK },
  { 45, -26.7, HANDBOOK },
  { 50, -33.3, HANDBOOK },
  { 60, -49, TRACTOR },
};

/* The upper row of a stretch is the one that says how cold it may get, so its source is told. */
gboolean
hs_coolant_freezes (HsCoolantKind kind, double percent, double *ret_celsius, HsCoolantSource *ret_source)
{
  const Row *rows = kind == HS_COOLANT_EG ? ethylene : propylene;
  gsize last = (kind == HS_COOLANT_EG ? G_N_ELEMENTS (ethylene) : G_N_ELEMENTS (propylene)) - 1;
  gsize i = 1;

  if (!(percent >= 0 && percent <= HS_COOLANT_MOST_PERCENT))
    return FALSE;
  while (i < last && rows[i].percent < percent)
    i++;
  *ret_celsius = rows[i - 1].celsius
                 + (rows[i].celsius - rows[i - 1].celsius) * (percent - rows[i - 1].percent)
                     / (rows[i].percent - rows[i - 1].percent);
  if (ret_source != NULL)
    *ret_source = rows[i].source;
  return TRUE;
}
