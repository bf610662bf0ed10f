// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Choosing a file. GtkFileChooserNative is deprecated in GTK 4.10, so this file is the only one that knows it. */

#include "hs-compat-file.h"

#include <glib/gi18n.h>

typedef struct
{
  HsCompatFile done;
  gpointer user_data;
} Choice;

static void
responded (GtkNativeDialog *dialog,
           int              response,
           gpointer         data)
{
  Choice *choice = data;
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  choice->done (file, choice->user_data);
  g_object_unref (dialog);
}

static void
free_choice (gpointer  data,
             GClosure *closure)
{
  g_free (data);
}

void
hs_compat_choose_file (GtkWindow    *parent,
                       const char   *title,
                       gboolean      save,
                       const char   *pattern,
                       const char   *pattern_title,
                       HsCompatFile  done,
                       gpointer      user_data)
{
  GtkFileChooserNative *dialog;
  Choice *choice;

  g_return_if_fail (done != NULL);

  choice = g_new (Choice, 1);
  choice->done = done;
  choice->user_data = user_data;
  dialog = gtk_file_chooser_native_new (title, parent,
                                        save ? GTK_FILE_CHOOSER_ACTION_SAVE : GTK_FILE_CHOOSER_ACTION_OPEN,
                                        save ? _("_Save") : _("_Open"), _("_Cancel"));
  if (pattern != NULL)
    {
      g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

      gtk_file_filter_add_pattern (filter, pattern);
      gtk_file_filter_set_name (filter, pattern_title);
      gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_data (dialog, "response", G_CALLBACK (responded), choice, free_choice, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
