// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What Ctrl+Z takes back: the last thing that was done in the window, whatever is shown now.
 *
 * Whoever lets something be done says so by hs_window_did(). A field that has the focus takes back its own typing
 * instead. It refuses to guess: what cannot be taken back is named, and nothing older is taken back in its place. */

#include "hs-window-private.h"

#include <glib/gi18n.h>

#define KEY "hs-window-did"

typedef struct
{
  char *what;
  HsUndoFunc undo;
  gpointer data;
  GDestroyNotify free_data;
} Done;

static void
done_free (gpointer data)
{
  Done *done = data;

  if (done->free_data != NULL)
    done->free_data (done->data);
  g_free (done->what);
  g_free (done);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Done, done_free)

void
hs_window_did (HsWindow *self, const char *what, HsUndoFunc undo, gpointer data, GDestroyNotify free_data)
{
  Done *done;

  g_return_if_fail (HS_IS_WINDOW (self));

  if (what == NULL)
    {
      g_object_set_data (G_OBJECT (self), KEY, NULL);
      return;
    }
  done = g_new0 (Done, 1);
  done->what = g_strdup (what);
  done->undo = undo;
  done->data = data;
  done->free_data = free_data;
  g_object_set_data_full (G_OBJECT (self), KEY, done, done_free);
}

void
hs_window_undo (HsWindow *self)
{
  GtkWidget *focus;
  g_autoptr (Done) done = NULL;
  g_autofree char *text = NULL;

  g_return_if_fail (HS_IS_WINDOW (self));

  focus = gtk_root_get_focus (GTK_ROOT (self));
  if (GTK_IS_TEXT (focus))
    {
      gtk_widget_activate_action (focus, "text.undo", NULL);
      return;
    }
  done = g_object_steal_data (G_OBJECT (self), KEY);
  if (done != NULL && done->undo != NULL)
    {
      done->undo (self, done->data);
      return;
    }
  /* Translators: what was done, as it was said then. */
  text = done != NULL ? g_strdup_printf (_("“%s” can’t be taken back by a key."), done->what)
                      : g_strdup (_("Nothing was done that a key can take back."));
  hs_window_toast (self, text, NULL, NULL);
}

void
hs_window_tell_undone (HsWindow *self, const char *what, const GError *error)
{
  g_autofree char *text = NULL;

  g_return_if_fail (HS_IS_WINDOW (self));

  text = error != NULL ? g_strdup (error->message) : g_strdup_printf (_("Taken back: %s"), what);
  hs_window_toast (self, text, NULL, NULL);
}
