// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A question with one act and Cancel. AdwMessageDialog is deprecated in libadwaita 1.6, so this file is the only one
 * that knows it. */

#include "hs-compat-ask.h"

#include <adwaita.h>
#include <glib/gi18n.h>

typedef struct
{
  HsCompatAnswer answer;
  gpointer user_data;
} Question;

static void
answered (AdwMessageDialog *dialog,
          const char       *response,
          gpointer          data)
{
  Question *question = data;

  question->answer (g_strcmp0 (response, "act") == 0, question->user_data);
}

static void
free_question (gpointer  data,
               GClosure *closure)
{
  g_free (data);
}

void
hs_compat_ask (GtkWindow      *parent,
               const char     *heading,
               const char     *body,
               const char     *act,
               gboolean        destructive,
               HsCompatAnswer  answer,
               gpointer        user_data)
{
  AdwMessageDialog *dialog;
  Question *question;

  g_return_if_fail (answer != NULL);

  question = g_new (Question, 1);
  question->answer = answer;
  question->user_data = user_data;
  dialog = ADW_MESSAGE_DIALOG (adw_message_dialog_new (parent, heading, body));
  adw_message_dialog_add_responses (dialog, "cancel", _("_Cancel"), "act", act, NULL);
  adw_message_dialog_set_response_appearance (dialog, "act",
                                              destructive ? ADW_RESPONSE_DESTRUCTIVE : ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (dialog, destructive ? "cancel" : "act");
  adw_message_dialog_set_close_response (dialog, "cancel");
  g_signal_connect_data (dialog, "response", G_CALLBACK (answered), question, free_question, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}
