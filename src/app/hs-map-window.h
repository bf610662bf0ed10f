// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"
#include "hs-map-view.h"

G_BEGIN_DECLS

/**
 * Where something is, picked on the map of the book's places or typed as a position; Esc shuts it without a pick.
 *
 * #HsMapWindow::picked (place, position): @place is what the book takes as a place: the code of an area, or a position;
 * @position is latitude and longitude of it in any case. The window shuts itself.
 */
#define HS_TYPE_MAP_WINDOW (hs_map_window_get_type ())
G_DECLARE_FINAL_TYPE (HsMapWindow, hs_map_window, HS, MAP_WINDOW, AdwWindow)

/**
 * hs_map_window_present:
 * @what: whose place it is, for the title: "Base", "Lock Parts"
 * @place: (nullable): where it is now: a code or a position
 * @day: whose drives are drawn
 *
 * Returns: (transfer none): the window, shown over @parent
 */
HsMapWindow *hs_map_window_present (GtkWindow *parent, HsLedger *ledger, const char *what, const char *place,
                                    HsDate day);

/* hs_map_window_get_view: (transfer none): the map in it. */
HsMapView *hs_map_window_get_view (HsMapWindow *self);

/* hs_map_window_get_entry: (transfer none): where a position is typed. */
GtkEditable *hs_map_window_get_entry (HsMapWindow *self);

G_END_DECLS
