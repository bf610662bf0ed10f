// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

G_BEGIN_DECLS

/** Money: what is not paid, and the invoices, as plain lines. Enter opens the job. */
#define HS_TYPE_MONEY_PAGE (hs_money_page_get_type ())
G_DECLARE_FINAL_TYPE (HsMoneyPage, hs_money_page, HS, MONEY_PAGE, HsPage)

G_END_DECLS
