// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A field that was not touched follows the book; what is being typed stays.
 *
 * Use it for every field that is filled when the book has answered: the cursor may be in it before that. */

#include "hs-follow.h"

#define FOLLOWS "hs-follow"

static const char *
last_of (GtkEditable *entry)
{
  const char *last = g_object_get_data (G_OBJECT (entry), FOLLOWS);

  return last != NULL ? last : "";
}

static gboolean
has_cursor (GtkEditable *entry)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (entry));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && (focus == GTK_WIDGET (entry) || gtk_widget_is_ancestor (focus, GTK_WIDGET (entry)));
}

void
hs_follow_fill (GtkEditable *entry, const char *stored)
{
  gboolean typed;

  g_return_if_fail (GTK_IS_EDITABLE (entry) && stored != NULL);

  typed = has_cursor (entry) && hs_follow_is_touched (entry);
  g_object_set_data_full (G_OBJECT (entry), FOLLOWS, g_strdup (stored), g_free);
  if (!typed && g_strcmp0 (gtk_editable_get_text (entry), stored) != 0)
    gtk_editable_set_text (entry, stored);
}

gboolean
hs_follow_is_touched (GtkEditable *entry)
{
  g_return_val_if_fail (GTK_IS_EDITABLE (entry), FALSE);

  return g_strcmp0 (gtk_editable_get_text (entry), last_of (entry)) != 0;
}
