// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Choosing a file. GtkFileChooserNative is deprecated in GTK 4.10, so this file is the only one that knows it. */

#include "hs-compat-file.h"

#include <glib/gi18n.h>

typedef struct
{
  HsCompatFile done;
  HsCompatFiles done_all;
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
responded_all (GtkNativeDialog *dialog,
               int              response,
               gpointer         data)
{
  Choice *choice = data;
  g_autoptr (GListModel) files = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    files = gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog));
  choice->done_all (files, choice->user_data);
  g_object_unref (dialog);
}

static void
free_choice (gpointer  data,
             GClosure *closure)
{
  g_free (data);
}

static GtkFileChooserNative *
dialog_new (GtkWindow  *parent,
            const char *title,
            gboolean    save,
            const char *pattern,
            const char *pattern_title)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (title, parent, save ? GTK_FILE_CHOOSER_ACTION_SAVE : GTK_FILE_CHOOSER_ACTION_OPEN,
                                     save ? _("_Save") : _("_Open"), _("_Cancel"));

  if (pattern != NULL)
    {
      g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

      gtk_file_filter_add_pattern (filter, pattern);
      gtk_file_filter_set_name (filter, pattern_title);
      gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
    }
  return dialog;
}

static void
show_choice (GtkFileChooserNative *dialog,
             Choice               *choice)
{
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_data (dialog, "response", choice->done != NULL ? G_CALLBACK (responded) : G_CALLBACK (responded_all),
                         choice, free_choice, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
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
  Choice *choice;

  g_return_if_fail (done != NULL);

  choice = g_new0 (Choice, 1);
  choice->done = done;
  choice->user_data = user_data;
  show_choice (dialog_new (parent, title, save, pattern, pattern_title), choice);
}

void
hs_compat_save_file (GtkWindow    *parent,
                     const char   *title,
                     const char   *name,
                     const char   *pattern,
                     const char   *pattern_title,
                     HsCompatFile  done,
                     gpointer      user_data)
{
  GtkFileChooserNative *dialog;
  Choice *choice;

  g_return_if_fail (done != NULL);

  choice = g_new0 (Choice, 1);
  choice->done = done;
  choice->user_data = user_data;
  dialog = dialog_new (parent, title, TRUE, pattern, pattern_title);
  if (name != NULL)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  show_choice (dialog, choice);
}

void
hs_compat_choose_photos (GtkWindow     *parent,
                         const char    *title,
                         HsCompatFiles  done,
                         gpointer       user_data)
{
  static const char *const ends[] = { "jpg", "jpeg", "png", "webp" };
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (title, parent, GTK_FILE_CHOOSER_ACTION_OPEN, _("_Add"),
                                                              _("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  Choice *choice = g_new0 (Choice, 1);

  choice->done_all = done;
  choice->user_data = user_data;
  gtk_file_filter_set_name (filter, _("Photos"));
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    gtk_file_filter_add_suffix (filter, ends[i]);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (dialog), TRUE);
  show_choice (dialog, choice);
}

void
hs_compat_choose_folder (GtkWindow    *parent,
                         const char   *title,
                         GFile        *start,
                         HsCompatFile  done,
                         gpointer      user_data)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (title, parent, GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
                                                              _("_Open"), _("_Cancel"));
  Choice *choice = g_new0 (Choice, 1);

  choice->done = done;
  choice->user_data = user_data;
  if (start != NULL)
    gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (dialog), start, NULL);
  show_choice (dialog, choice);
}
