// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * The tabs of a GtkStack: icon and word, copper under the chosen one. Properties: stack, bottom (icon over word, equal
 * widths, copper above). A page's icon-name is the name of one of our drawings (see hs-glyph.h), not of a theme icon.
 * CSS class inline for tabs inside a page.
 */
#define HS_TYPE_TABS (hs_tabs_get_type ())
G_DECLARE_FINAL_TYPE (HsTabs, hs_tabs, HS, TABS, GtkWidget)

GtkWidget *hs_tabs_new (GtkStack *stack);

/**
 * hs_tabs_set_stack:
 * @stack: (nullable): whose pages are shown; it is held while set
 */
void hs_tabs_set_stack (HsTabs *self, GtkStack *stack);
void hs_tabs_set_bottom (HsTabs *self, gboolean bottom);

/** hs_tabs_set_words: %FALSE where no word has room: the icons alone, each still named for those who hear it. */
void hs_tabs_set_words (HsTabs *self, gboolean words);

G_END_DECLS
