// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A check button for those who use a switch or a voice: GTK 4.8 offers them no act on its own. An arrow key only moves
 * on from it: GtkCheckButton takes it for a choice within a group, and where there is none ticks itself.
 *
 * Use it instead of a GtkCheckButton. */

#include "hs-act-check.h"

struct _HsActCheck
{
  GtkCheckButton parent_instance;
};

G_DEFINE_FINAL_TYPE (HsActCheck, hs_act_check, GTK_TYPE_CHECK_BUTTON)

static void
toggle_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (gtk_widget_is_sensitive (widget))
    gtk_widget_activate (widget);
}

static gboolean
hs_act_check_focus (GtkWidget *widget, GtkDirectionType direction)
{
  if (gtk_widget_is_focus (widget))
    return FALSE;
  return gtk_widget_grab_focus (widget);
}

static void
hs_act_check_class_init (HsActCheckClass *klass)
{
  GTK_WIDGET_CLASS (klass)->focus = hs_act_check_focus;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "check.toggle", NULL, toggle_action);
}

static void
hs_act_check_init (HsActCheck *self)
{
}

GtkWidget *
hs_act_check_new (void)
{
  return g_object_new (HS_TYPE_ACT_CHECK, NULL);
}
