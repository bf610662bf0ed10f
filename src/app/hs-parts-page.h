// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

G_BEGIN_DECLS

/** Parts run: one slip a counter with what is picked up, dropped off and returned, ticked off one by one. */
#define HS_TYPE_PARTS_PAGE (hs_parts_page_get_type ())
G_DECLARE_FINAL_TYPE (HsPartsPage, hs_parts_page, HS, PARTS_PAGE, HsPage)

G_END_DECLS
