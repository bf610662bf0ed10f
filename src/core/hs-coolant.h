// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsCoolantKind:
 * @HS_COOLANT_EG: ethylene glycol
 * @HS_COOLANT_PG: propylene glycol
 */
typedef enum
{
  HS_COOLANT_EG,
  HS_COOLANT_PG,
} HsCoolantKind;

/* As HsCalcKey.choices. */
#define HS_COOLANT_KINDS "eg|pg"

/* Below this share there is no protection from corrosion (US Army TM 5-3820-245-14&P), above the other one no figure:
 * it freezes sooner again and carries less heat (tractor maker 2013: never over 60 %). */
#define HS_COOLANT_LEAST_PERCENT 30
#define HS_COOLANT_MOST_PERCENT 60

/**
 * HsCoolantSource:
 * @text: who printed the rows
 * @sure: how sure that is, one of the HS_SURE_… words
 */
typedef struct
{
  const char *text;
  const char *sure;
} HsCoolantSource;

/**
 * hs_coolant_freezes:
 * @percent: of the concentrate by volume, 0 to 100
 * @ret_celsius: (out): straight line between the rows; untouched on failure
 * @ret_source: (out) (optional): of the rows that were used
 *
 * Ethylene glycol: 18.75 % 20 °F and 25 % 10 °F (US Army TM 9-6115-464-12 Table 2-1: lowest weather for it), 30 %
 * −15 °C (US Army TM 5-3895-382-24), 40 % −24, 50 % −37, 60 % −52 °C (tractor maker 2013). Propylene glycol: 10 %
 * −2.2 to 50 % −33.3 °C (handbook of chemistry, 15th ed., Table 5.13), 60 % −49 °C (tractor maker 2013). Left out on
 * purpose: rows that promise more cold (50 % ethylene −46 °C, 50 % propylene −37 °C), for they err on the unsafe side.
 *
 * Returns: %FALSE above 60 %
 */
gboolean hs_coolant_freezes (HsCoolantKind kind, double percent, double *ret_celsius, HsCoolantSource *ret_source);

G_END_DECLS
