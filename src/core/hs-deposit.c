// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Until when a battery deposit goes back by law. A counter may be kinder: that is asked there, not here. */

#include "hs-deposit.h"

HsDate
hs_deposit_last_day (const HsDepositRule *rule, HsDate sold)
{
  return rule->days == 0 ? HS_DATE_NONE : hs_date_add_days (sold, rule->days);
}
