// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/** One child whose words stay on one line as long as a telephone has room for it; see the head of hs-line-layout.c. */
#define HS_TYPE_LINE_LAYOUT (hs_line_layout_get_type ())
G_DECLARE_FINAL_TYPE (HsLineLayout, hs_line_layout, HS, LINE_LAYOUT, GtkLayoutManager)

GtkLayoutManager *hs_line_layout_new (void);

/** hs_line_layout_set_wraps: @wraps: the words go on in a second line wherever there is less room. */
void hs_line_layout_set_wraps (HsLineLayout *self, gboolean wraps);

G_END_DECLS
