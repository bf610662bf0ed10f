// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * One stage: a heading on a copper wire and the tags that hang from it, in as many columns as there is room for. Role
 * list, named by its heading. A stage without tags hangs no wire: leave it out.
 */
#define HS_TYPE_WIRE (hs_wire_get_type ())
G_DECLARE_FINAL_TYPE (HsWire, hs_wire, HS, WIRE, GtkWidget)

/** The least width of a column in designed pixels, and the gap between columns. */
#define HS_WIRE_COLUMN_PX 380
#define HS_WIRE_GAP_PX 20

GtkWidget *hs_wire_new (void);

/**
 * hs_wire_set_heading:
 * @stage: stage id, for the silhouette
 * @title: the stage in words
 * @count: (nullable): how many, or “2 today, 1 not paid”
 * @note: (nullable): at the right end, for example “by arrival” or a time
 */
void hs_wire_set_heading (HsWire *self, const char *stage, const char *title, const char *count, const char *note);

/** hs_wire_append: @tag: (transfer floating): usually an #HsTag. */
void hs_wire_append (HsWire *self, GtkWidget *tag);
void hs_wire_remove_all (HsWire *self);
guint hs_wire_get_n_tags (HsWire *self);

/** hs_wire_get_tag: Returns: (transfer none) (nullable): the tag at @index. */
GtkWidget *hs_wire_get_tag (HsWire *self, guint index);

G_END_DECLS
