// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A known caller under another name. The book keeps its own name, and this says so: what was said is never laid aside
 * in silence. */

#include "hs-name-card.h"

#include <glib/gi18n.h>

#include "hs-deed-merge.h"
#include "hs-key-button.h"
#include "hs-question.h"

struct _HsNameCard
{
  AdwBin parent_instance;

  GtkLabel *words;
  HsKeyButton *rename;

  HsLedger *ledger;
  HsQuestion *ask;
  char *job_id;
};

G_DEFINE_FINAL_TYPE (HsNameCard, hs_name_card, ADW_TYPE_BIN)

static void
answered_cb (HsNameCard *self)
{
  const HsCallName *name = hs_question_get (self->ask);
  g_autofree char *words = NULL, *rename = NULL;

  gtk_widget_set_visible (GTK_WIDGET (self), name != NULL);
  if (name == NULL)
    return;
  /* Translators: what the book calls a customer, and what the caller said. */
  words = g_strdup_printf (_("The book knows this caller as %s and keeps that name; “%s” stands beside the job."),
                           name->known, name->given);
  /* Translators: a new name for a customer. */
  rename = g_strdup_printf (_("Rename the Customer to %s"), name->given);
  gtk_label_set_label (self->words, words);
  hs_key_button_set_text (self->rename, rename);
}

static void
renamed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsNameCard) self = data;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    gtk_label_set_label (self->words, error->message);
}

static void
rename_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsNameCard *self = HS_NAME_CARD (widget);

  if (self->job_id != NULL)
    hs_deed_take_call_name (self->ledger, self->job_id, renamed_cb, g_object_ref (self));
}

static void
hs_name_card_dispose (GObject *object)
{
  HsNameCard *self = HS_NAME_CARD (object);

  g_clear_object (&self->ask);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->job_id, g_free);
  G_OBJECT_CLASS (hs_name_card_parent_class)->dispose (object);
}

static void
hs_name_card_class_init (HsNameCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_name_card_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-name-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsNameCard, words);
  gtk_widget_class_bind_template_child (widget_class, HsNameCard, rename);
  gtk_widget_class_install_action (widget_class, "name.rename", NULL, rename_action);
}

static void
hs_name_card_init (HsNameCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_key_button_set_wraps (self->rename, TRUE);
}

void
hs_name_card_set_job (HsNameCard *self, HsLedger *ledger, const char *job_id)
{
  g_return_if_fail (HS_IS_NAME_CARD (self));
  g_return_if_fail (job_id != NULL);

  if (self->ask == NULL)
    {
      self->ledger = g_object_ref (ledger);
      self->ask = hs_question_new (ledger, hs_ask_call_name, (GDestroyNotify) hs_call_name_free);
      g_signal_connect_object (self->ask, "answered", G_CALLBACK (answered_cb), self, G_CONNECT_SWAPPED);
    }
  if (g_strcmp0 (job_id, self->job_id) == 0)
    return;
  g_free (self->job_id);
  self->job_id = g_strdup (job_id);
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
}

gboolean
hs_name_card_press (HsNameCard *self, guint keyval)
{
  g_return_val_if_fail (HS_IS_NAME_CARD (self), FALSE);

  if ((keyval != GDK_KEY_Insert && keyval != GDK_KEY_KP_Insert) || !gtk_widget_get_visible (GTK_WIDGET (self)))
    return FALSE;
  return gtk_widget_activate_action (GTK_WIDGET (self), "name.rename", NULL);
}
