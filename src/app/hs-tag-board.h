// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * The job board: boxes and wires (hs-wire.h) placed in rows of one, two or three columns. A wire spans as many columns
 * as it has tags; anything else spans one. Children keep their order.
 */
#define HS_TYPE_TAG_BOARD (hs_tag_board_get_type ())
G_DECLARE_FINAL_TYPE (HsTagBoard, hs_tag_board, HS, TAG_BOARD, GtkWidget)

GtkWidget *hs_tag_board_new (void);

/** hs_tag_board_append: @child: (transfer floating): a wire or a box. */
void hs_tag_board_append (HsTagBoard *self, GtkWidget *child);
void hs_tag_board_remove_all (HsTagBoard *self);

/** hs_tag_board_get_n_columns: Returns: the columns of the last layout. */
guint hs_tag_board_get_n_columns (HsTagBoard *self);

G_END_DECLS
