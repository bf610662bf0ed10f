// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What business miles may be put down for, by the dated rates of data/reference/mileage.ini. Refuses a day before the
 * first rate; for one after the last year of the table it says that the rate may be old. */

#include "hs-mileage.h"

#include "hs-core-error.h"
#include "hs-decimal.h"
#include "hs-money.h"

#define CENTICENTS_PER_CENT 100

static int
year_of (HsDate date)
{
  int year;

  hs_date_to_ymd (date, &year, NULL, NULL);
  return year;
}

const HsMileageRate *
hs_mileage_rate_on (const HsReference *reference, HsDate date, gboolean *ret_stale, GError **error)
{
  const HsMileageRate *found = NULL;
  const HsMileageRate *rate;
  guint nth = 0;

  for (; (rate = hs_reference_get_nth_rate (reference, nth)) != NULL && rate->from <= date; nth++)
    found = rate;
  if (found == NULL)
    {
      g_autofree char *first = rate == NULL ? NULL : hs_date_format (rate->from);

      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   first == NULL ? "there are no mileage rates" : "the first mileage rate is of %s; add older ones",
                   first);
      return NULL;
    }
  *ret_stale = rate == NULL && year_of (date) > year_of (found->from);
  return found;
}

gboolean
hs_mileage_cents (gint64 centicents, gint64 miles, guint decimals, gint64 *ret_cents, GError **error)
{
  return hs_money_ratio (miles, centicents, hs_decimal_power (decimals) * CENTICENTS_PER_CENT, ret_cents, error);
}
