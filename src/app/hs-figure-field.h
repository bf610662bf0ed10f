// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** The box of a figure that keys fill from outside; holds what draws it, in a row. */
#define HS_TYPE_FIGURE_FIELD (hs_figure_field_get_type ())
G_DECLARE_FINAL_TYPE (HsFigureField, hs_figure_field, HS, FIGURE_FIELD, GtkWidget)

/**
 * hs_figure_field_set_text:
 *
 * Tells those who do not see it what is typed. Emits nothing.
 */
void hs_figure_field_set_text (HsFigureField *self, const char *text);

G_END_DECLS
