// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsWarranty:
 * @from: first day of cover; for a warranty swap the first day of the part it stands in for
 * @months: 0 = no cover by date
 * @start_odometer: when it was installed, −1 = not known
 * @miles: cover by distance, 0 = none asked; in the unit of the odometer
 */
typedef struct
{
  HsDate from;
  int months;
  gint64 start_odometer;
  gint64 miles;
} HsWarranty;

/**
 * HsWarrantyState:
 * @HS_WARRANTY_NONE: never had cover
 * @HS_WARRANTY_IN_COVER: as far as date and odometer are known
 * @HS_WARRANTY_ENDED_BY_DATE: the last day is past
 * @HS_WARRANTY_ENDED_BY_DISTANCE: the odometer is past the last mile
 */
typedef enum
{
  HS_WARRANTY_NONE,
  HS_WARRANTY_IN_COVER,
  HS_WARRANTY_ENDED_BY_DATE,
  HS_WARRANTY_ENDED_BY_DISTANCE,
} HsWarrantyState;

/**
 * hs_warranty_last_day:
 *
 * Returns: @from + months, the last day that is covered (31 August + 6 months is the last of February);
 *   %HS_DATE_NONE without cover by date
 */
HsDate hs_warranty_last_day (const HsWarranty *warranty);

/* hs_warranty_last_odometer: the last reading that is covered; −1 if distance does not end it or is not known. */
gint64 hs_warranty_last_odometer (const HsWarranty *warranty);

/**
 * hs_warranty_state:
 * @today: the day asked about
 * @odometer: now, −1 = not known (then only the date decides)
 *
 * Whichever end comes first counts; both at once is told as the date.
 */
HsWarrantyState hs_warranty_state (const HsWarranty *warranty, HsDate today, gint64 odometer);

/**
 * hs_warranty_from:
 * @installed_on: the day this part went on
 * @stands_in_for_from: first day of cover of the part it replaces under warranty, %HS_DATE_NONE if it is none
 *
 * Returns: the first day of cover: a swap keeps the first clock
 */
HsDate hs_warranty_from (HsDate installed_on, HsDate stands_in_for_from);

G_END_DECLS
