// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-settings-op.h"

G_BEGIN_DECLS

/* What a new book wants before its first day can be planned: settings, places and the drives between them. Deeds as in
 * hs-deed.h. */

/* hs_ask_settings: no arguments; answers a GPtrArray of #HsSetting. */
gpointer hs_ask_settings (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_set: answers nothing. */
void hs_deed_set (HsLedger *ledger, const char *key, const char *value, GAsyncReadyCallback callback,
                  gpointer user_data);

/* hs_deed_add_place: @code: short, as Q; the same code again gives it another name; @position: (nullable): as
 * hs_geo_parse() reads it; empty leaves the one that is there. Answers nothing. */
void hs_deed_add_place (HsLedger *ledger, const char *code, const char *name, const char *position,
                        GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_place_counter: @name: of a counter, a new one if it is not known; @place: code of a place, or a position.
 * Answers nothing. */
void hs_deed_place_counter (HsLedger *ledger, const char *name, const char *place, GAsyncReadyCallback callback,
                            gpointer user_data);

/* hs_deed_add_drive: @from, @to: codes; the same twice is a hop inside it; @minutes, @miles: as keyed. Both ways.
 * Answers nothing. */
void hs_deed_add_drive (HsLedger *ledger, const char *from, const char *to, const char *minutes, const char *miles,
                        GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
