// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-reference.h"

G_BEGIN_DECLS

/**
 * hs_deposit_last_day:
 * @rule: the state's
 * @sold: the day of the sale, which is not counted
 *
 * Returns: the last day on which the law gives the deposit back for an old battery; %HS_DATE_NONE if the rule names
 *   none
 */
HsDate hs_deposit_last_day (const HsDepositRule *rule, HsDate sold);

G_END_DECLS
