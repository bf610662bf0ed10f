// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A list box's row for those who use a switch or a voice: GTK offers them no act on its own rows.
 *
 * Use it wherever a list box acts on row-activated. */

#include "hs-act-row.h"

struct _HsActRow
{
  GtkListBoxRow parent_instance;
};

G_DEFINE_FINAL_TYPE (HsActRow, hs_act_row, GTK_TYPE_LIST_BOX_ROW)

static void
activate_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (gtk_list_box_row_get_activatable (GTK_LIST_BOX_ROW (widget)))
    gtk_widget_activate (widget);
}

static void
hs_act_row_class_init (HsActRowClass *klass)
{
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "row.activate", NULL, activate_action);
}

static void
hs_act_row_init (HsActRow *self)
{
}

GtkWidget *
hs_act_row_new (void)
{
  return g_object_new (HS_TYPE_ACT_ROW, NULL);
}
