// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long a part is covered: for what is said to a caller and for claims on a supplier. A swap under warranty
 * keeps the first clock. Makes no promise where neither months nor miles were agreed. */

#include "hs-warranty.h"

HsDate
hs_warranty_last_day (const HsWarranty *warranty)
{
  if (warranty->months <= 0)
    return HS_DATE_NONE;
  return hs_date_add_months (warranty->from, warranty->months);
}

gint64
hs_warranty_last_odometer (const HsWarranty *warranty)
{
  gint64 last;

  if (warranty->miles <= 0 || warranty->start_odometer < 0
      || __builtin_add_overflow (warranty->start_odometer, warranty->miles, &last))
    return -1;
  return last;
}

HsWarrantyState
hs_warranty_state (const HsWarranty *warranty, HsDate today, gint64 odometer)
{
  HsDate last_day = hs_warranty_last_day (warranty);
  gint64 last_odometer = hs_warranty_last_odometer (warranty);

  if (warranty->months <= 0 && warranty->miles <= 0)
    return HS_WARRANTY_NONE;
  if (last_day != HS_DATE_NONE && today > last_day)
    return HS_WARRANTY_ENDED_BY_DATE;
  if (last_odometer >= 0 && odometer > last_odometer)
    return HS_WARRANTY_ENDED_BY_DISTANCE;
  return HS_WARRANTY_IN_COVER;
}

HsDate
hs_warranty_from (HsDate installed_on, HsDate stands_in_for_from)
{
  return stands_in_for_from == HS_DATE_NONE ? installed_on : stands_in_for_from;
}
