// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-undo-op.h"

G_BEGIN_DECLS

/* Taking back what was done last in the book; see hs-undo-op.h. */

/* hs_ask_undo_mark: no arguments; answers a gint64 (g_free()): the place of the latest step. */
gpointer hs_ask_undo_mark (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_take_back: answers an HsTakenBack (transfer full) (nullable): %NULL if there is none after @after. */
void hs_deed_take_back (HsLedger *ledger, gint64 after, gint64 asked, GAsyncReadyCallback callback,
                        gpointer user_data);

/* hs_deed_do_again: answers an HsTakenBack (transfer full) (nullable): %NULL if there is nothing to do again. */
void hs_deed_do_again (HsLedger *ledger, GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
