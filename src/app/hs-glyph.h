// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HS_TYPE_GLYPH (hs_glyph_get_type ())
G_DECLARE_FINAL_TYPE (HsGlyph, hs_glyph, HS, GLYPH, GtkWidget)

/**
 * hs_glyph_new:
 * @name: a stage id of the book (`promised`), or one of `jobs` `today` `parts` `vehicles` `money` `splice` `plus`
 *   `minus` `search` `menu` `close` `back` `turn` `lock` `map` `photo` `reading` `seen` `said` `arrow`
 *
 * A drawing of 24 units in the color of the text around it. It has no accessible name: the word beside it says it.
 */
GtkWidget *hs_glyph_new (const char *name);

void hs_glyph_set_name (HsGlyph *self, const char *name);
const char *hs_glyph_get_name (HsGlyph *self);

/**
 * hs_glyph_known:
 *
 * Returns: whether there is a drawing called @name
 */
gboolean hs_glyph_known (const char *name);

/**
 * hs_glyph_draw:
 * @size: edge in pixels
 *
 * Draws @name with its top left corner at @x, @y; nothing when the name is unknown.
 */
void hs_glyph_draw (cairo_t *cr, const char *name, const GdkRGBA *color, double x, double y, double size);

G_END_DECLS
