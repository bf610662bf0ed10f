// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-ask.h"
#include "hs-snapshot.h"

G_BEGIN_DECLS

/**
 * The book's places on a map that needs no net, and a pin to set on it.
 *
 * Pointer: drag moves the map, the wheel and two fingers zoom, a click or a tap sets the pin. Keys: arrows move the
 * crosshair (Shift: little, Ctrl: far), Enter or Space sets the pin there, + and − zoom, Home shows all places. A pin
 * that is set on a place takes that place.
 *
 * #HsMapView::moved: the crosshair is elsewhere. #HsMapView::pinned: the pin is elsewhere, by hand. #HsMapView::taken:
 * Enter once more on the pin.
 */
#define HS_TYPE_MAP_VIEW (hs_map_view_get_type ())
G_DECLARE_FINAL_TYPE (HsMapView, hs_map_view, HS, MAP_VIEW, GtkWidget)

GtkWidget *hs_map_view_new (void);

/* hs_map_view_set_places: @places: (nullable): a #GPtrArray of #HsMapPlace; the first that come are shown all. */
void hs_map_view_set_places (HsMapView *self, HsSnapshot *places);

/* hs_map_view_set_legs: @codes: (nullable): codes of places in the order in which they are driven to; those that are
 * not on the map are left out. */
void hs_map_view_set_legs (HsMapView *self, const char *const *codes);

/* hs_map_view_set_pin: puts pin and crosshair there, and shows it. */
void hs_map_view_set_pin (HsMapView *self, double latitude, double longitude);

/* hs_map_view_get_pin: whether there is a pin; outputs untouched if not. */
gboolean hs_map_view_get_pin (HsMapView *self, double *ret_latitude, double *ret_longitude);

/* hs_map_view_get_place: (transfer none) (nullable): the place that the pin stands on; until the next places. */
const HsMapPlace *hs_map_view_get_place (HsMapView *self);
void hs_map_view_get_crosshair (HsMapView *self, double *ret_latitude, double *ret_longitude);

/* hs_map_view_get_spot: where a position is drawn, in pixels of the widget. */
void hs_map_view_get_spot (HsMapView *self, double latitude, double longitude, double *ret_x, double *ret_y);

void hs_map_view_show_all (HsMapView *self);

/* hs_map_view_zoom: shows everything @times as large, about the crosshair. */
void hs_map_view_zoom (HsMapView *self, double times);

/* hs_map_view_click: what a click or a tap at @x, @y does. */
void hs_map_view_click (HsMapView *self, double x, double y);

G_END_DECLS
