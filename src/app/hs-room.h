// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * How much room there is, for one child: properties narrow (below 980 px), cramped (below 1180 px wide or 660 px high)
 * and slim (below 300 px: large text in the hand), all growing with the text size, and style classes of the same names
 * on the widget itself. It lets the window
 * shrink to what the narrow layout needs although the child is still laid out wide; the new layout follows one frame
 * later.
 */
#define HS_TYPE_ROOM (hs_room_get_type ())
G_DECLARE_FINAL_TYPE (HsRoom, hs_room, HS, ROOM, GtkWidget)

#define HS_ROOM_NARROW_PX 980
#define HS_ROOM_SLIM_PX 300
#define HS_ROOM_CRAMPED_PX 1180
#define HS_ROOM_CRAMPED_HEIGHT_PX 660

GtkWidget *hs_room_new (GtkWidget *child);
void hs_room_set_child (HsRoom *self, GtkWidget *child);
gboolean hs_room_get_narrow (HsRoom *self);
gboolean hs_room_get_cramped (HsRoom *self);
gboolean hs_room_get_slim (HsRoom *self);

G_END_DECLS
