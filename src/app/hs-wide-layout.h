// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** Lays its one child out over the whole widget, and knows how low it can be at any width: for a GtkGrid with words
 * that wrap. */
#define HS_TYPE_WIDE_LAYOUT (hs_wide_layout_get_type ())
G_DECLARE_FINAL_TYPE (HsWideLayout, hs_wide_layout, HS, WIDE_LAYOUT, GtkLayoutManager)

G_END_DECLS
