// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-chain.h"

G_BEGIN_DECLS

/** How an end of a why-chain is settled, as a wire's end: ring lug, fork, cap, frayed; loose while it is open. It has
 * no accessible name: the word beside it says it. */
#define HS_TYPE_END_MARK (hs_end_mark_get_type ())
G_DECLARE_FINAL_TYPE (HsEndMark, hs_end_mark, HS, END_MARK, GtkWidget)

GtkWidget *hs_end_mark_new (HsChainEnd end);

/** hs_end_mark_draw: in the area at @x, @y, twice as wide as @height. */
void hs_end_mark_draw (cairo_t *cr, HsChainEnd end, const GdkRGBA *color, double x, double y, double height);

G_END_DECLS
