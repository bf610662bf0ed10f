// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** hs_line_list_clear: takes every line out of @box. */
void hs_line_list_clear (GtkBox *box);

/**
 * hs_line_list_add:
 * @figure: (nullable): a sum at the end of the line
 * @css: (nullable): a class for the words
 */
void hs_line_list_add (GtkBox *box, const char *text, const char *figure, const char *css);

/** hs_line_list_add_all: @heading, then a line for each of @texts (nullable) (element-type utf8), or @none. */
void hs_line_list_add_all (GtkBox *box, const char *heading, GPtrArray *texts, const char *none);

G_END_DECLS
