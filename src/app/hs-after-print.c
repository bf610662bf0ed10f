// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The proof sheet as a file: the same page that the command line prints, in the size of paper of the book. */

#include "hs-after-pane-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-compat-file.h"
#include "hs-paper.h"

static const HsTongue tongue = { gettext, ngettext };

typedef struct
{
  HsAfterPane *self;
  GFile *file;
} Print;

static gboolean
write_paper (const HsProofSheet *sheet, GFile *file, GError **error)
{
  g_autoptr (HsPaper) paper = hs_paper_proof_new (sheet, hs_paper_size_parse (sheet->paper_size), &tongue);
  g_autoptr (GBytes) bytes = hs_paper_dup_pdf (paper, NULL, error);

  return bytes != NULL
         && g_file_replace_contents (file, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), NULL, FALSE,
                                     G_FILE_CREATE_NONE, NULL, NULL, error);
}

static void
gathered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Print *print = data;
  g_autoptr (HsAfterPane) self = print->self;
  g_autoptr (GFile) file = print->file;
  g_autoptr (HsProofSheet) sheet = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *text = NULL;
  gpointer answer = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, &answer, &error))
    sheet = answer;
  if (sheet == NULL || !write_paper (sheet, file, &error))
    {
      hs_after_pane_say (self, error->message);
      return;
    }
  text = g_strdup_printf (_("Printed: %s"), name);
  hs_page_tell (HS_PAGE (self), text);
}

void
hs_after_pane_save (HsAfterPane *self, GFile *file)
{
  Print *print;

  g_return_if_fail (HS_IS_AFTER_PANE (self) && G_IS_FILE (file));

  print = g_new0 (Print, 1);
  print->self = g_object_ref (self);
  print->file = g_object_ref (file);
  hs_ledger_ask_async (hs_page_get_ledger (HS_PAGE (self)), hs_ask_proof,
                       g_variant_new ("(st)", hs_job_pane_get_job_id (HS_JOB_PANE (self)),
                                      (guint64) GPOINTER_TO_SIZE (&tongue)),
                       (GDestroyNotify) hs_proof_sheet_free, gathered_cb, print);
}

/* A name without an ending gets one, so that others know what it is. */
static void
chosen_cb (GFile *file, gpointer data)
{
  g_autoptr (HsAfterPane) self = data;
  g_autofree char *name = file != NULL ? g_file_get_basename (file) : NULL;
  g_autoptr (GFile) parent = file != NULL ? g_file_get_parent (file) : NULL;
  g_autoptr (GFile) ended = NULL;

  if (file == NULL)
    return;
  if (strchr (name, '.') == NULL && parent != NULL)
    {
      g_autofree char *longer = g_strconcat (name, ".pdf", NULL);

      ended = g_file_get_child (parent, longer);
    }
  hs_after_pane_save (self, ended != NULL ? ended : file);
}

void
hs_after_pane_print (HsAfterPane *self)
{
  g_return_if_fail (HS_IS_AFTER_PANE (self));

  if (hs_job_pane_get_job_id (HS_JOB_PANE (self)) == NULL)
    return;
  hs_compat_choose_file (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), _("Print the Proof Sheet"), TRUE,
                         "*.pdf", _("PDF pages"), chosen_cb, g_object_ref (self));
}
