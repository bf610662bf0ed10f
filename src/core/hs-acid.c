// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Density of battery acid: corrected to 80 °F, its spread between cells, where it freezes, what it loses by standing.
 * Refuses temperatures for which the manuals have no row. */

#include "hs-acid.h"

#define TABLE_FAHRENHEIT 80
#define GRAVITY_PER_10_FAHRENHEIT 0.004
#define VOLTS_PER_10_FAHRENHEIT 0.024
#define CELLS 6

typedef struct
{
  double at;
  double value;
} Row;

/* US Army TM 5-3820-256-24-4 Table 2; its °F column misprints +15 for −15.0 °C. */
static const Row freezing_by_percent[] = { { 0, -9.4 }, { 25, -15.0 }, { 50, -26.1 }, { 75, -37.2 }, { 100, -59.5 } };
static const Row freezing_by_gravity[] = {
  { 1.120, -9.4 }, { 1.155, -15.0 }, { 1.190, -26.1 }, { 1.225, -37.2 }, { 1.265, -59.5 },
};

static const Row percent_by_gravity[] = { { 1.120, 0 }, { 1.155, 25 }, { 1.190, 50 }, { 1.225, 75 }, { 1.265, 100 } };

static const Row lost_by_fahrenheit[] = { { 50, 0.0003 }, { 80, 0.001 }, { 100, 0.0025 } };
static const Row cranking_by_fahrenheit[] = { { 0, 40 }, { 30, 65 }, { 80, 100 } };

/* Straight line between rows; the first and last row hold beyond them. */
static double
interpolate (const Row *rows, gsize n_rows, double at)
{
  gsize i = 1;

  if (at <= rows[0].at)
    return rows[0].value;
  if (at >= rows[n_rows - 1].at)
    return rows[n_rows - 1].value;
  while (at > rows[i].at)
    i++;
  return rows[i - 1].value
         + (rows[i].value - rows[i - 1].value) * (at - rows[i - 1].at) / (rows[i].at - rows[i - 1].at);
}

double
hs_acid_fahrenheit (double celsius)
{
  return celsius * 1.8 + 32;
}

double
hs_acid_gravity_at_80_fahrenheit (double gravity, double fahrenheit)
{
  return gravity + GRAVITY_PER_10_FAHRENHEIT * (fahrenheit - TABLE_FAHRENHEIT) / 10;
}

double
hs_acid_volts_of_gravity (double gravity)
{
  return CELLS * (gravity + 0.84);
}

double
hs_acid_volts_at_80_fahrenheit (double volts, double fahrenheit)
{
  return volts + VOLTS_PER_10_FAHRENHEIT * (fahrenheit - TABLE_FAHRENHEIT) / 10;
}

gint64
hs_acid_spread (const gint64 *cells, gsize n_cells, gint64 *ret_least)
{
  gint64 least = cells[0];
  gint64 most = cells[0];

  for (gsize i = 1; i < n_cells; i++)
    {
      least = MIN (least, cells[i]);
      most = MAX (most, cells[i]);
    }
  if (ret_least != NULL)
    *ret_least = least;
  return most - least;
}

double
hs_acid_freezes_at_percent (double percent)
{
  return interpolate (freezing_by_percent, G_N_ELEMENTS (freezing_by_percent), percent);
}

double
hs_acid_freezes_at_gravity (double gravity)
{
  return interpolate (freezing_by_gravity, G_N_ELEMENTS (freezing_by_gravity), gravity);
}

double
hs_acid_percent_of_gravity (double gravity)
{
  return interpolate (percent_by_gravity, G_N_ELEMENTS (percent_by_gravity), gravity);
}

gboolean
hs_acid_lost_a_day (double fahrenheit, double *ret_lost)
{
  const Row *rows = lost_by_fahrenheit;
  gsize last = G_N_ELEMENTS (lost_by_fahrenheit) - 1;

  if (!(fahrenheit >= rows[0].at && fahrenheit <= rows[last].at))
    return FALSE;
  *ret_lost = interpolate (rows, last + 1, fahrenheit);
  return TRUE;
}

gboolean
hs_acid_cranking_percent (double fahrenheit, double *ret_percent)
{
  if (!(fahrenheit >= cranking_by_fahrenheit[0].at))
    return FALSE;
  *ret_percent = interpolate (cranking_by_fahrenheit, G_N_ELEMENTS (cranking_by_fahrenheit), fahrenheit);
  return TRUE;
}
