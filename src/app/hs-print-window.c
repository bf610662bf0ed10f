// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The proof sheet on its way out: by the print dialog, or into a file that a thread writes. What goes wrong is said
 * here, where one looks, and both can be tried again.
 *
 *   hs_ask_proof ─▶ HsProofSheet ─▶ HsPaper ─▶ GtkPrintOperation
 *                              └─▶ thread: HsPaper ─▶ PDF ─▶ file */

#include "hs-print-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-compat-file.h"
#include "hs-deed-repair.h"
#include "hs-key-button.h"
#include "hs-pad-key.h"
#include "hs-paper.h"
#include "hs-print-operation.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsPrintWindow
{
  AdwWindow parent_instance;

  GtkLabel *what;
  GtkLabel *said;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsProofSheet *sheet; /* stays as it was asked for; a thread may read it */
  char *name;
  GCancellable *writing;
};

G_DEFINE_FINAL_TYPE (HsPrintWindow, hs_print_window, ADW_TYPE_WINDOW)

static const HsTongue tongue = { gettext, ngettext };

static void
say (HsPrintWindow *self, const char *text)
{
  gtk_label_set_label (self->said, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->said), text != NULL);
}

static void
update (HsPrintWindow *self)
{
  gboolean ready = self->sheet != NULL && self->writing == NULL;

  gtk_widget_action_set_enabled (GTK_WIDGET (self), "print.print", ready);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "print.save", ready);
}

static void
show_sheet (HsPrintWindow *self)
{
  const HsProofSheet *sheet = self->sheet;
  g_autofree char *what = NULL;

  what = hs_show_joined (sheet->number, sheet->plate != NULL ? sheet->plate : "",
                         sheet->vehicle != NULL ? sheet->vehicle : "", NULL);
  gtk_label_set_label (self->what, what);
  self->name = hs_proof_sheet_dup_file_name (sheet);
  update (self);
}

static void
gathered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsPrintWindow) self = data;
  g_autoptr (GError) error = NULL;
  gpointer answer = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, &answer, &error))
    {
      say (self, error->message);
      return;
    }
  self->sheet = answer;
  show_sheet (self);
}

static void
tell_and_close (HsPrintWindow *self, const char *text)
{
  if (self->page != NULL)
    hs_page_tell (self->page, text);
  gtk_window_close (GTK_WINDOW (self));
}

/* Into a file ------------------------------------------------------------------------------------------------------ */

typedef struct
{
  const HsProofSheet *sheet; /* of the window, which whoever waits for the answer holds */
  GFile *file;
} Order;

static void
order_free (gpointer data)
{
  g_object_unref (((Order *) data)->file);
  g_free (data);
}

/* In a thread. A file that is there already stays whole until the new one is. Once it is begun it is not stopped: half
 * of a file would stay behind. */
static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Order *order = data;
  const HsProofSheet *sheet = order->sheet;
  g_autoptr (HsPaper) paper = hs_paper_proof_new (sheet, hs_paper_size_parse (sheet->paper_size), &tongue);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = hs_paper_dup_pdf (paper, NULL, &error);

  if (bytes != NULL && !g_cancellable_set_error_if_cancelled (cancellable, &error)
      && g_file_replace_contents (order->file, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), NULL, FALSE,
                                  G_FILE_CREATE_NONE, NULL, NULL, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

/* What the system says ends without a period, what the program says with one. */
static char *
dup_ended (const GError *error)
{
  const char *text = error != NULL ? error->message : "";

  return g_strconcat (text, *text == '\0' || g_str_has_suffix (text, ".") ? "" : ".", NULL);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsPrintWindow) self = data;
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autofree char *name = g_file_get_basename (order->file);
  g_autofree char *text = NULL;
  g_autofree char *why = NULL;
  g_autoptr (GError) error = NULL;
  gboolean written = g_task_propagate_boolean (G_TASK (result), &error);

  g_clear_object (&self->writing);
  if (gtk_widget_in_destruction (GTK_WIDGET (self)) || self->page == NULL)
    return;
  update (self);
  if (written)
    {
      text = g_strdup_printf (_("Saved: %s"), name);
      tell_and_close (self, text);
    }
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    say (self, _("Stopped. Nothing was written."));
  else
    {
      /* Translators: the name of a file, and what the system says about it. */
      why = dup_ended (error);
      text = g_strdup_printf (_("%s was not written: %s Choose another place."), name, why);
      say (self, text);
    }
}

void
hs_print_window_save (HsPrintWindow *self, GFile *file)
{
  g_autoptr (GTask) task = NULL;
  Order *order;

  g_return_if_fail (HS_IS_PRINT_WINDOW (self) && G_IS_FILE (file));

  if (self->sheet == NULL || self->writing != NULL)
    return;
  self->writing = g_cancellable_new ();
  order = g_new0 (Order, 1);
  order->sheet = self->sheet;
  order->file = g_object_ref (file);
  /* Not its source: the thread may be the last to hold that, and a widget ends where it began. */
  task = g_task_new (NULL, self->writing, written_cb, g_object_ref (self));
  g_task_set_task_data (task, order, order_free);
  /* A file that is written is there, even if it was to be stopped. */
  g_task_set_check_cancellable (task, FALSE);
  say (self, _("Writing. Esc stops it."));
  update (self);
  g_task_run_in_thread (task, write_thread);
}

/* A name without an ending gets one, so that others know what it is. */
static void
chosen_cb (GFile *file, gpointer data)
{
  g_autoptr (HsPrintWindow) self = data;
  g_autofree char *name = file != NULL ? g_file_get_basename (file) : NULL;
  g_autoptr (GFile) parent = file != NULL ? g_file_get_parent (file) : NULL;
  g_autoptr (GFile) ended = NULL;

  if (file == NULL || self->page == NULL)
    return;
  if (strchr (name, '.') == NULL && parent != NULL)
    {
      g_autofree char *longer = g_strconcat (name, ".pdf", NULL);

      ended = g_file_get_child (parent, longer);
    }
  hs_print_window_save (self, ended != NULL ? ended : file);
}

static void
save_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPrintWindow *self = HS_PRINT_WINDOW (widget);

  hs_compat_save_file (GTK_WINDOW (self), _("Save the Sheet"), self->name, "*.pdf", _("PDF pages"), chosen_cb,
                       g_object_ref (self));
}

/* On paper --------------------------------------------------------------------------------------------------------- */

GtkPrintOperation *
hs_print_window_dup_operation (HsPrintWindow *self)
{
  const HsProofSheet *sheet;

  g_return_val_if_fail (HS_IS_PRINT_WINDOW (self), NULL);

  sheet = self->sheet;
  if (sheet == NULL)
    return NULL;
  return hs_print_operation_new (hs_paper_proof_new (sheet, hs_paper_size_parse (sheet->paper_size), &tongue));
}

static void
printed_cb (HsPrintWindow *self, GtkPrintOperationResult result, GtkPrintOperation *operation)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  g_autofree char *why = NULL;

  /* It may have gone to a file as well. */
  if (result == GTK_PRINT_OPERATION_RESULT_APPLY)
    tell_and_close (self, _("The sheet was handed over."));
  if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
    return;
  gtk_print_operation_get_error (operation, &error);
  why = dup_ended (error);
  text = g_strdup_printf (_("It was not printed: %s Save it as a PDF instead."), why);
  say (self, text);
}

static void
print_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPrintWindow *self = HS_PRINT_WINDOW (widget);
  g_autoptr (GtkPrintOperation) operation = hs_print_window_dup_operation (self);

  if (operation == NULL)
    return;
  say (self, NULL);
  g_signal_connect_object (operation, "done", G_CALLBACK (printed_cb), self, G_CONNECT_SWAPPED);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (self), NULL);
}

/* The window ------------------------------------------------------------------------------------------------------- */

/* Esc stops what is written before it goes back. */
static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPrintWindow *self = HS_PRINT_WINDOW (widget);

  if (self->writing != NULL)
    g_cancellable_cancel (self->writing);
  else
    gtk_window_close (GTK_WINDOW (self));
}

static gboolean
key_cb (HsPrintWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || (sign != '1' && sign != '2'))
    return GDK_EVENT_PROPAGATE;
  gtk_widget_activate_action (GTK_WIDGET (self), sign == '1' ? "print.print" : "print.save", NULL);
  return GDK_EVENT_STOP;
}

static void
hs_print_window_dispose (GObject *object)
{
  HsPrintWindow *self = HS_PRINT_WINDOW (object);

  if (self->writing != NULL)
    g_cancellable_cancel (self->writing);
  g_clear_weak_pointer (&self->page);
  G_OBJECT_CLASS (hs_print_window_parent_class)->dispose (object);
}

static void
hs_print_window_finalize (GObject *object)
{
  HsPrintWindow *self = HS_PRINT_WINDOW (object);

  hs_proof_sheet_free (self->sheet);
  g_free (self->name);
  G_OBJECT_CLASS (hs_print_window_parent_class)->finalize (object);
}

static void
hs_print_window_class_init (HsPrintWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_print_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_print_window_finalize;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-print-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsPrintWindow, what);
  gtk_widget_class_bind_template_child (widget_class, HsPrintWindow, said);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "print.print", NULL, print_action);
  gtk_widget_class_install_action (widget_class, "print.save", NULL, save_action);
  gtk_widget_class_install_action (widget_class, "print.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "print.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F12, 0, "print.close", NULL);
}

static void
hs_print_window_init (HsPrintWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsPrintWindow *
hs_print_window_present (HsPage *page, const char *job_id)
{
  HsPrintWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page) && job_id != NULL, NULL);

  self = g_object_new (HS_TYPE_PRINT_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  update (self);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  hs_ledger_ask_async (hs_page_get_ledger (page), hs_ask_proof,
                       g_variant_new ("(st)", job_id, (guint64) GPOINTER_TO_SIZE (&tongue)),
                       (GDestroyNotify) hs_proof_sheet_free, gathered_cb, g_object_ref (self));
  return self;
}

gboolean
hs_print_window_is_ready (HsPrintWindow *self)
{
  g_return_val_if_fail (HS_IS_PRINT_WINDOW (self), FALSE);

  return self->sheet != NULL;
}

const char *
hs_print_window_get_name (HsPrintWindow *self)
{
  g_return_val_if_fail (HS_IS_PRINT_WINDOW (self), NULL);

  return self->name;
}
