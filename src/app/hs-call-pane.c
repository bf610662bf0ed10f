// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The first face of a job's page. Its cards are panes of their own under this one, which hands each answer on to them;
 * beside the slip where there is room, else below it. */

#include "hs-call-pane.h"

#include <glib/gi18n.h>

#include "hs-call-form.h"
#include "hs-deed.h"
#include "hs-field-row.h"
#include "hs-identify-card.h"
#include "hs-intake-card.h"
#include "hs-key-button.h"
#include "hs-note-card.h"
#include "hs-visit-card.h"

#define CARDS_MARGIN 12

enum
{
  CARD_VISITS,
  CARD_IDENTIFY,
  CARD_INTAKE,
  CARD_NOTES,
  N_CARDS,
};

struct _HsCallPane
{
  HsJobPane parent_instance;

  GtkBox *columns;
  AdwBin *form_bin;
  GtkBox *cards_box;

  HsCallForm *form;
  HsJobPane *cards[N_CARDS];
  GtkWidget *back_to; /* weak: what had the focus before the questions */
};

G_DEFINE_FINAL_TYPE (HsCallPane, hs_call_pane, HS_TYPE_JOB_PANE)

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsCallPane *self = HS_CALL_PANE (pane);
  const char *job_id = hs_job_pane_get_job_id (pane);
  HsDraft *draft = hs_job_pane_get_draft (pane);

  gtk_widget_set_sensitive (GTK_WIDGET (self->form), !hs_job_pane_is_frozen (pane));
  hs_call_form_set_draft (self->form, draft);
  hs_call_form_set_job (self->form, hs_job_pane_get_snapshot (pane));
  for (guint i = 0; i < N_CARDS; i++)
    {
      hs_job_pane_set_job (self->cards[i], job_id, draft);
      hs_job_pane_show (self->cards[i], hs_job_pane_get_snapshot (pane));
    }
}

static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsCallPane *self = HS_CALL_PANE (pane);

  if (field != NULL && g_str_has_prefix (field, HS_INTAKE_FIELD))
    hs_job_pane_go (self->cards[CARD_INTAKE], field, text);
  else if (field != NULL && g_str_has_prefix (field, HS_IDENTIFY_FIELD))
    hs_job_pane_go (self->cards[CARD_IDENTIFY], field, text);
  else if (g_strcmp0 (field, HS_NOTE_FIELD) == 0)
    hs_job_pane_go (self->cards[CARD_NOTES], field, text);
  else if (field != NULL || hs_page_get_narrow (HS_PAGE (pane))
           || !gtk_widget_activate_action (GTK_WIDGET (self), "page.point", NULL))
    hs_call_form_go (self->form, field, text);
}

static char *
dup_field (HsJobPane *pane, GtkWidget *focus)
{
  static const char *const lead[N_CARDS] = { [CARD_IDENTIFY] = HS_IDENTIFY_FIELD, [CARD_INTAKE] = HS_INTAKE_FIELD };
  HsCallPane *self = HS_CALL_PANE (pane);
  GtkWidget *row = gtk_widget_get_ancestor (focus, HS_TYPE_FIELD_ROW);

  if (row == NULL)
    return hs_call_form_dup_field (self->form, focus);
  for (guint i = 0; i < N_CARDS; i++)
    if (lead[i] != NULL && gtk_widget_is_ancestor (row, GTK_WIDGET (self->cards[i])))
      return g_strconcat (lead[i], hs_field_row_get_id (HS_FIELD_ROW (row)), NULL);
  return g_strdup (HS_NOTE_FIELD);
}

static void
group_set_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsCallPane) self = data;
  g_autoptr (GError) error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      hs_intake_card_accept (HS_INTAKE_CARD (self->cards[CARD_INTAKE]));
      return;
    }
  hs_intake_card_refuse (HS_INTAKE_CARD (self->cards[CARD_INTAKE]));
  hs_page_tell (HS_PAGE (self), error->message);
}

static void
group_chosen_cb (HsCallPane *self, const char *group)
{
  hs_deed_set_group (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)), group,
                     group_set_cb, g_object_ref (self));
}

/* To the questions, and back to where the cursor was. */
static void
ask_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsCallPane *self = HS_CALL_PANE (widget);
  HsIntakeCard *intake = HS_INTAKE_CARD (self->cards[CARD_INTAKE]);

  if (!hs_intake_card_has_focus (intake))
    {
      g_set_weak_pointer (&self->back_to, hs_page_get_focus (HS_PAGE (self)));
      hs_intake_card_ask (intake);
    }
  else if (self->back_to == NULL || !gtk_widget_grab_focus (self->back_to))
    hs_call_form_go (self->form, NULL, NULL);
}

void
hs_call_pane_go_on (HsCallPane *self)
{
  g_return_if_fail (HS_IS_CALL_PANE (self));

  if (!hs_identify_card_go_on (HS_IDENTIFY_CARD (self->cards[CARD_IDENTIFY])))
    hs_intake_card_ask (HS_INTAKE_CARD (self->cards[CARD_INTAKE]));
}

/* F12, which prints elsewhere, has nothing to print here. */
static void
visit_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_widget_activate_action (widget, "page.visit", NULL);
}

/* Beside the slip, or below it. */
static void
room_changed (HsPage *page)
{
  HsCallPane *self = HS_CALL_PANE (page);
  gboolean narrow = hs_page_get_narrow (page);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_homogeneous (self->columns, !narrow);
  gtk_widget_set_margin_end (GTK_WIDGET (self->cards_box), narrow ? 0 : CARDS_MARGIN);
}

static void
add_card (HsCallPane *self, guint nth, GType type)
{
  HsPage *card = g_object_new (type, "ledger", hs_page_get_ledger (HS_PAGE (self)), NULL);
  GtkWidget *paper = adw_bin_new ();

  self->cards[nth] = HS_JOB_PANE (card);
  gtk_widget_add_css_class (paper, "hs-paper");
  gtk_widget_add_css_class (paper, "hs-pad");
  adw_bin_set_child (ADW_BIN (paper), GTK_WIDGET (card));
  gtk_box_append (self->cards_box, paper);
}

static void
hs_call_pane_constructed (GObject *object)
{
  HsCallPane *self = HS_CALL_PANE (object);

  G_OBJECT_CLASS (hs_call_pane_parent_class)->constructed (object);
  self->form = g_object_new (HS_TYPE_CALL_FORM, "ledger", hs_page_get_ledger (HS_PAGE (self)), NULL);
  /* Nothing is typed over a job that is not read yet: blank fields would be taken for its own. */
  gtk_widget_set_sensitive (GTK_WIDGET (self->form), FALSE);
  hs_call_form_stand (self->form);
  adw_bin_set_child (self->form_bin, GTK_WIDGET (self->form));
  g_object_bind_property (self, "narrow", self->form, "narrow", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "cramped", self->form, "cramped", G_BINDING_SYNC_CREATE);
  add_card (self, CARD_VISITS, HS_TYPE_VISIT_CARD);
  add_card (self, CARD_IDENTIFY, HS_TYPE_IDENTIFY_CARD);
  add_card (self, CARD_INTAKE, HS_TYPE_INTAKE_CARD);
  add_card (self, CARD_NOTES, HS_TYPE_NOTE_CARD);
  hs_intake_card_set_ask (HS_INTAKE_CARD (self->cards[CARD_INTAKE]), "page.side");
  g_signal_connect_object (self->cards[CARD_INTAKE], "group-chosen", G_CALLBACK (group_chosen_cb), self,
                           G_CONNECT_SWAPPED);
  room_changed (HS_PAGE (self));
}

static void
hs_call_pane_dispose (GObject *object)
{
  g_clear_weak_pointer (&HS_CALL_PANE (object)->back_to);
  G_OBJECT_CLASS (hs_call_pane_parent_class)->dispose (object);
}

static void
hs_call_pane_class_init (HsCallPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_call_pane_constructed;
  G_OBJECT_CLASS (klass)->dispose = hs_call_pane_dispose;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  HS_JOB_PANE_CLASS (klass)->dup_field = dup_field;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-call-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCallPane, columns);
  gtk_widget_class_bind_template_child (widget_class, HsCallPane, form_bin);
  gtk_widget_class_bind_template_child (widget_class, HsCallPane, cards_box);
  gtk_widget_class_install_action (widget_class, "page.side", NULL, ask_action);
  gtk_widget_class_install_action (widget_class, "page.print", NULL, visit_action);
}

static void
hs_call_pane_init (HsCallPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
