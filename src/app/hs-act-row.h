// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** A row of a list box that can be activated without a key or a pointer, too: through AT-SPI. */
#define HS_TYPE_ACT_ROW (hs_act_row_get_type ())
G_DECLARE_FINAL_TYPE (HsActRow, hs_act_row, HS, ACT_ROW, GtkListBoxRow)

GtkWidget *hs_act_row_new (void);

G_END_DECLS
