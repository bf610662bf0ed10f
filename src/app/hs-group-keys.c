// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The complaint groups as buttons, each with its digit. Use it wherever what the vehicle does, or does not do, is
 * chosen; what follows from the choice is the owner's. */

#include "hs-group-keys.h"

#include "hs-key-button.h"
#include "hs-show.h"
#include "hs-spoken.h"

#define NTH_KEY "nth"
#define N_DIGITS 9

void
hs_group_keys_fill (GtkFlowBox *box, HsChecks *checks, GCallback clicked, GObject *owner)
{
  const HsCheckGroup *group;

  g_return_if_fail (GTK_IS_FLOW_BOX (box) && G_IS_OBJECT (owner));

  if (checks == NULL || gtk_flow_box_get_child_at_index (box, 0) != NULL)
    return;
  for (guint i = 0; (group = hs_checks_get_nth_group (checks, i)) != NULL; i++)
    {
      g_autofree char *key = i < N_DIGITS ? g_strdup_printf ("%u", i + 1) : NULL;
      GtkWidget *button = hs_key_button_new (key, hs_show_data (group->name), NULL);

      hs_key_button_set_wraps (HS_KEY_BUTTON (button), TRUE);
      hs_key_button_keep_words (HS_KEY_BUTTON (button));
      g_object_set_data (G_OBJECT (button), NTH_KEY, GUINT_TO_POINTER (i));
      g_signal_connect_object (button, "clicked", clicked, owner, G_CONNECT_SWAPPED);
      gtk_flow_box_append (box, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
      hs_spoken_name (gtk_widget_get_parent (button), hs_show_data (group->name));
    }
}

guint
hs_group_keys_get_nth (GtkButton *button)
{
  g_return_val_if_fail (GTK_IS_BUTTON (button), 0);

  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), NTH_KEY));
}
