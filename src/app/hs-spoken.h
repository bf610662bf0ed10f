// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * hs_spoken_name:
 *
 * Gives @widget the name that a screen reader speaks.
 */
void hs_spoken_name (GtkWidget *widget, const char *name);

/**
 * hs_spoken_name_item:
 * @item: a bound list item with a child
 *
 * Names the row that holds @item's child: GTK before 4.12 leaves it without a name.
 */
void hs_spoken_name_item (GtkListItem *item, const char *name);

/**
 * hs_spoken_name_drop_down:
 *
 * Names @drop_down and the button inside it, which otherwise goes by its class.
 */
void hs_spoken_name_drop_down (GtkDropDown *drop_down, const char *name);

/**
 * hs_spoken_stack:
 *
 * Says of the pages of @stack that lie behind the shown one that they are hidden: GTK 4.8 tells them as if they could
 * be seen, all at once.
 */
void hs_spoken_stack (GtkStack *stack);

G_END_DECLS
