// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * The paper of a parts-run slip: torn along the top, one edge around, its child inside. Property child.
 */
#define HS_TYPE_SLIP (hs_slip_get_type ())
G_DECLARE_FINAL_TYPE (HsSlip, hs_slip, HS, SLIP, GtkWidget)

GtkWidget *hs_slip_new (GtkWidget *child);
void hs_slip_set_child (HsSlip *self, GtkWidget *child);

/**
 * A counter's opening hours as a rail, with the arrival as a wedge. Role img; its name says hours and arrival in words.
 */
#define HS_TYPE_OPEN_RAIL (hs_open_rail_get_type ())
G_DECLARE_FINAL_TYPE (HsOpenRail, hs_open_rail, HS, OPEN_RAIL, GtkWidget)

GtkWidget *hs_open_rail_new (void);

/**
 * hs_open_rail_set:
 * @spans: (array length=n_spans): pairs of minutes of the day, from and to
 * @arrive: minute of the day; -1 when nobody comes
 *
 * Without spans the rail says that the counter is shut.
 */
void hs_open_rail_set (HsOpenRail *self, const int *spans, guint n_spans, int arrive);

G_END_DECLS
