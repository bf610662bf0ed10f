// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

G_BEGIN_DECLS

/** Today, or any day: the planned order with its times, what it costs, and where one more call fits. */
#define HS_TYPE_TODAY_PAGE (hs_today_page_get_type ())
G_DECLARE_FINAL_TYPE (HsTodayPage, hs_today_page, HS, TODAY_PAGE, HsPage)

/** hs_today_page_set_day: %HS_DATE_NONE follows the clock. */
void hs_today_page_set_day (HsTodayPage *self, HsDate day);
HsDate hs_today_page_get_day (HsTodayPage *self);

G_END_DECLS
