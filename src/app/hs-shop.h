// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-application.h"
#include "hs-draft.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsShop:
 *
 * What stands behind one window: its ledger, its pages, and the place where the owner was. Made by hs_shop_fill (),
 * owned by the window.
 */
#define HS_TYPE_SHOP (hs_shop_get_type ())
G_DECLARE_FINAL_TYPE (HsShop, hs_shop, HS, SHOP, GObject)

/* hs_shop_fill: an HsApplicationFill: reads the options, fills the window with pages and opens the book. */
void hs_shop_fill (HsApplication *application, HsWindow *window, gpointer user_data);

/**
 * hs_shop_new:
 * @window: a window without pages; it owns the shop from now on
 *
 * Returns: (transfer none): the shop, without a book
 */
HsShop *hs_shop_new (HsWindow *window);

/* hs_shop_of: (transfer none) (nullable): the shop behind @window. */
HsShop *hs_shop_of (HsWindow *window);

/* hs_shop_open: opens @path; a page that says what is wrong and what to do stands in place of the views if it fails. */
void hs_shop_open (HsShop *shop, const char *path, HsLedgerOpen how);

/* hs_shop_welcome: no book is there yet: a page that offers to make one or to open the demo. */
void hs_shop_welcome (HsShop *shop);

/* hs_shop_open_job: @page_name: (nullable): one of its tabs; @field: (nullable): where to put the cursor; @text:
 * (nullable): what was typed there. */
void hs_shop_open_job (HsShop *shop, const char *job_id, const char *page_name, const char *field, const char *text);

HsLedger *hs_shop_get_ledger (HsShop *shop);
HsDraft *hs_shop_get_draft (HsShop *shop);

/* hs_shop_freeze: a clock that stands still from the moment the book is open; for pictures and tests. */
void hs_shop_freeze (HsShop *shop, const char *now);

G_END_DECLS
