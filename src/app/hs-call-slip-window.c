// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The window of a call slip. It is modal, so that digits typed during a ring never land in a reading; what lies beneath
 * keeps its cursor. Shutting it saves; there is nothing to confirm and nothing to lose. */

#include "hs-call-slip-window.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-deed.h"
#include "hs-hand-off-window.h"
#include "hs-intake-card.h"
#include "hs-key-button.h"
#include "hs-usual-window.h"

struct _HsCallSlipWindow
{
  AdwWindow parent_instance;

  AdwBin *form_bin;
  HsCallForm *form;
  HsIntakeCard *intake;
  GtkWidget *back_to; /* weak: what had the focus before the questions */
  char *goes_to;      /* (nullable): the field that was interrupted */
  HsLedger *ledger;
  HsDraft *draft;
  HsQuestion *drafts;
  HsWindow *behind; /* weak: it may go while an answer to us is on its way */
  gboolean warned;
  gboolean giving;
  gboolean taken;
};

G_DEFINE_FINAL_TYPE (HsCallSlipWindow, hs_call_slip_window, ADW_TYPE_WINDOW)

#define SLIP_KEY "hs-call-slip"

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* The next call gets a slip of its own. */
static void
step_aside (HsCallSlipWindow *self)
{
  if (self->behind != NULL && g_object_get_data (G_OBJECT (self->behind), SLIP_KEY) == self)
    g_object_set_data (G_OBJECT (self->behind), SLIP_KEY, NULL);
}

/* A slip that is a job already has no draft of its own any more; killed here, it goes on in that job, at this field. */
static void
visit (HsCallSlipWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  const char *job_id = hs_call_form_get_job_id (self->form);
  g_autofree char *field = focus != NULL ? hs_call_form_dup_field (self->form, focus) : NULL;

  if (self->draft != NULL && job_id != NULL)
    hs_draft_visit (self->draft, job_id, "call", field != NULL ? field : HS_WHERE_HERE);
}

/* A slip that cannot be written stays, once: what is typed is nowhere else. One whose time is being given shuts by
 * itself when it is given, or else shows why not. */
static gboolean
close_request_cb (HsCallSlipWindow *self)
{
  if (self->giving)
    return TRUE;
  if (!hs_call_form_finish (self->form) && !self->warned)
    {
      self->warned = TRUE;
      hs_call_form_tell (self->form, _("Not saved, so it stays here. Esc again throws it away."));
      return TRUE;
    }
  g_signal_handlers_disconnect_by_func (self, visit, NULL);
  /* What became a job is interrupted no more. */
  if (self->draft != NULL && hs_call_form_get_job_id (self->form) != NULL)
    hs_draft_leave (self->draft, hs_call_form_get_job_id (self->form), FALSE);
  step_aside (self);
  return FALSE;
}

typedef struct
{
  HsCallSlipWindow *self;
  HsStage to;
} Giving;

/* A refusal leaves the slip open: what is to be mended stands in it. */
static void
moved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Giving *giving = data;
  g_autoptr (HsCallSlipWindow) self = giving->self;
  g_autoptr (GError) error = NULL;
  g_autofree char *done = NULL;

  self->giving = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      hs_call_form_tell (self->form, error->message);
      return;
    }
  if (self->behind == NULL)
    return;
  /* Translators: a call's time was given or penciled in; then the caller's words. */
  done = g_strdup_printf (_("%s: “%s”"), _(hs_stage_label (giving->to)), hs_call_form_get_words (self->form));
  hs_window_toast (self->behind, done, NULL, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
give_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  /* Keys go on during the wait; whatever they shut stays until the answer is here. */
  g_autoptr (HsCallSlipWindow) self = g_object_ref (HS_CALL_SLIP_WINDOW (widget));
  Giving *giving;

  if (self->giving)
    return;
  self->giving = TRUE;
  if (!hs_call_form_settle_caller (self->form))
    {
      self->giving = FALSE;
      return;
    }
  hs_call_form_flush (self->form);
  hs_ledger_wait (self->ledger);
  if (hs_call_form_get_job_id (self->form) == NULL)
    {
      self->giving = FALSE;
      hs_call_form_point_at_missing (self->form);
      return;
    }
  if (g_str_equal (name, "slip.promise") && hs_call_form_point_at_untimed (self->form))
    {
      self->giving = FALSE;
      return;
    }
  giving = g_new0 (Giving, 1);
  giving->self = g_object_ref (self);
  giving->to = g_str_equal (name, "slip.promise") ? HS_STAGE_PROMISED : HS_STAGE_PENCILED;
  hs_deed_move_stage (self->ledger, hs_call_form_get_job_id (self->form), giving->to, NULL, moved_cb, giving);
}

/* A call that was taken is not untaken; it is called off. */
static void
saved_cb (HsCallSlipWindow *self)
{
  g_autofree char *done = NULL;

  if (!self->taken)
    visit (self);
  if (self->taken || self->behind == NULL)
    return;
  self->taken = TRUE;
  /* Translators: a call slip was written down; then the caller's words. */
  done = g_strdup_printf (_("Call slip: “%s”"), hs_call_form_get_words (self->form));
  hs_window_did (self->behind, done, NULL, NULL, NULL);
}

/* A usual job: its name is what the caller says, unless he said more. */
static const char *
get_usual_job (const HsUsual *usual, gpointer data)
{
  HsCallSlipWindow *self = data;
  HsCallSlip proposal = { .day = HS_DATE_NONE, .window_from = -1, .window_to = -1, .minutes = usual->minutes };

  if (*hs_call_form_get_words (self->form) == '\0')
    hs_call_form_go (self->form, "words", usual->name);
  hs_call_form_propose (self->form, &proposal);
  hs_call_form_flush (self->form);
  hs_ledger_wait (self->ledger);
  if (hs_call_form_get_job_id (self->form) == NULL)
    hs_call_form_point_at_missing (self->form);
  return hs_call_form_get_job_id (self->form);
}

static gboolean
close_later_cb (gpointer data)
{
  gtk_window_close (GTK_WINDOW (data));
  return G_SOURCE_REMOVE;
}

/* Behind it, for it goes with us and is still closing. */
static void
usual_done_cb (HsCallSlipWindow *self)
{
  g_idle_add_full (G_PRIORITY_DEFAULT, close_later_cb, g_object_ref (self), g_object_unref);
}

static void
usual_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (HsCallSlipWindow) self = g_object_ref (HS_CALL_SLIP_WINDOW (widget));
  HsUsualWindow *usual;

  if (self->giving || self->behind == NULL || !hs_call_form_settle_caller (self->form) || self->behind == NULL)
    return;
  usual = hs_usual_window_present (GTK_WINDOW (self), self->behind, self->ledger, self->draft,
                                   hs_call_form_get_job_id (self->form), get_usual_job, self);
  g_signal_connect_object (usual, "done", G_CALLBACK (usual_done_cb), self, G_CONNECT_SWAPPED);
}

/* What stands in the slip is saved first, so that the code knows it; a number alone is enough to call. */
static void
phone_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsCallSlipWindow *self = HS_CALL_SLIP_WINDOW (widget);

  if (self->giving)
    return;
  hs_call_form_flush (self->form);
  hs_ledger_wait (self->ledger);
  hs_hand_off_window_present (GTK_WINDOW (self), self->ledger, hs_call_form_get_job_id (self->form),
                              hs_call_form_get_phone (self->form));
}

static void
set_group (HsCallSlipWindow *self, const char *group)
{
  hs_call_form_set_group (self->form, group);
  hs_intake_card_set_group (self->intake, group);
}

/* To the questions, and back to where the cursor was. */
static void
ask_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsCallSlipWindow *self = HS_CALL_SLIP_WINDOW (widget);

  if (!hs_intake_card_has_focus (self->intake))
    {
      g_set_weak_pointer (&self->back_to, hs_page_get_focus (HS_PAGE (self->form)));
      hs_intake_card_ask (self->intake);
    }
  else if (self->back_to == NULL || !gtk_widget_grab_focus (self->back_to))
    hs_call_form_go_on (self->form);
}

/* Where somebody was interrupted, or else where the slip is empty. */
static void
go_on (HsCallSlipWindow *self)
{
  if (self->goes_to == NULL)
    hs_call_form_go_on (self->form);
  else if (g_str_has_prefix (self->goes_to, HS_INTAKE_FIELD))
    hs_job_pane_go (HS_JOB_PANE (self->intake), self->goes_to, NULL);
  else if (g_str_equal (self->goes_to, HS_CALL_FORM_GROUP))
    hs_intake_card_ask (self->intake);
  else
    hs_call_form_go (self->form, self->goes_to, NULL);
  g_clear_pointer (&self->goes_to, g_free);
}

static void
drafts_cb (HsCallSlipWindow *self)
{
  GPtrArray *drafts = hs_question_get (self->drafts);
  gboolean touched = hs_call_form_is_touched (self->form), found = FALSE;

  /* Digits typed already belong to the ring of now. */
  for (guint i = 0; drafts != NULL && !touched && i < drafts->len; i++)
    {
      const HsWhere *draft = g_ptr_array_index (drafts, i);

      if (g_strcmp0 (draft->page, "slip") != 0)
        continue;
      found = TRUE;
      if (g_strcmp0 (draft->field, HS_CALL_FORM_GROUP) == 0)
        set_group (self, draft->text);
      else if (g_str_has_prefix (draft->field, HS_INTAKE_FIELD))
        hs_intake_card_keep (self->intake, draft->field, draft->text);
      else
        hs_call_form_go (self->form, draft->field, draft->text);
    }
  if (found)
    go_on (self);
  g_clear_object (&self->drafts);
}

static void
hs_call_slip_window_dispose (GObject *object)
{
  HsCallSlipWindow *self = HS_CALL_SLIP_WINDOW (object);

  step_aside (self);
  g_clear_weak_pointer (&self->behind);
  g_clear_weak_pointer (&self->back_to);
  g_clear_pointer (&self->goes_to, g_free);
  g_clear_object (&self->drafts);
  g_clear_object (&self->draft);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_call_slip_window_parent_class)->dispose (object);
}

static void
hs_call_slip_window_class_init (HsCallSlipWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_call_slip_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-call-slip-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCallSlipWindow, form_bin);
  gtk_widget_class_bind_template_callback (widget_class, close_request_cb);
  gtk_widget_class_install_action (widget_class, "slip.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "slip.promise", NULL, give_action);
  gtk_widget_class_install_action (widget_class, "slip.pencil", NULL, give_action);
  gtk_widget_class_install_action (widget_class, "slip.usual", NULL, usual_action);
  gtk_widget_class_install_action (widget_class, "slip.ask", NULL, ask_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F5, 0, "slip.pencil", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "slip.ask", NULL);
  gtk_widget_class_install_action (widget_class, "slip.phone", NULL, phone_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "slip.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F3, 0, "slip.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "slip.promise", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F6, 0, "slip.usual", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F8, 0, "slip.phone", NULL);
}

static void
hs_call_slip_window_init (HsCallSlipWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
add_intake (HsCallSlipWindow *self, HsDraft *draft)
{
  self->intake = g_object_new (HS_TYPE_INTAKE_CARD, "ledger", self->ledger, NULL);
  hs_intake_card_set_slip (self->intake, draft);
  hs_call_form_set_below (self->form, GTK_WIDGET (self->intake));
  g_signal_connect_object (self->intake, "group-chosen", G_CALLBACK (hs_call_form_set_group), self->form,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->form, "saved", G_CALLBACK (hs_intake_card_set_job_id), self->intake,
                           G_CONNECT_SWAPPED);
}

HsCallSlipWindow *
hs_call_slip_window_present (HsWindow *parent, HsLedger *ledger, HsDraft *draft)
{
  HsCallSlipWindow *self;

  g_return_val_if_fail (HS_IS_WINDOW (parent), NULL);

  self = g_object_get_data (G_OBJECT (parent), SLIP_KEY);
  if (self == NULL)
    {
      self = g_object_new (HS_TYPE_CALL_SLIP_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
      g_set_weak_pointer (&self->behind, parent);
      self->ledger = g_object_ref (ledger);
      self->form = g_object_new (HS_TYPE_CALL_FORM, "ledger", ledger, NULL);
      g_set_object (&self->draft, draft);
      hs_call_form_set_draft (self->form, draft);
      g_signal_connect_object (self->form, "saved", G_CALLBACK (saved_cb), self, G_CONNECT_SWAPPED);
      adw_bin_set_child (self->form_bin, GTK_WIDGET (self->form));
      g_signal_connect (self, "notify::focus-widget", G_CALLBACK (visit), NULL);
      g_object_bind_property (parent, "narrow", self->form, "narrow", G_BINDING_SYNC_CREATE);
      add_intake (self, draft);
      g_object_set_data (G_OBJECT (parent), SLIP_KEY, self);
      hs_window_fit_over (GTK_WINDOW (self));
      self->drafts = hs_question_new (ledger, hs_ask_drafts, (GDestroyNotify) g_ptr_array_unref);
      g_signal_connect_object (self->drafts, "answered", G_CALLBACK (drafts_cb), self, G_CONNECT_SWAPPED);
      hs_question_ask (self->drafts, g_variant_new ("(ms)", NULL));
    }
  gtk_window_present (GTK_WINDOW (self));
  hs_call_form_go (self->form, NULL, NULL);
  return self;
}

void
hs_call_slip_window_propose (HsCallSlipWindow *self, const HsCallSlip *slip)
{
  g_autoptr (HsCallSlipWindow) held = NULL;

  g_return_if_fail (HS_IS_CALL_SLIP_WINDOW (self));

  /* What was interrupted comes back first, so that it does not write over the proposal. */
  held = g_object_ref (self);
  hs_ledger_wait (self->ledger);
  hs_call_form_propose (self->form, slip);
}

void
hs_call_slip_window_go (HsCallSlipWindow *self, const char *field)
{
  g_return_if_fail (HS_IS_CALL_SLIP_WINDOW (self));

  g_free (self->goes_to);
  self->goes_to = g_strdup (field);
  /* What is on its way brings the field's text with it. */
  if (self->drafts == NULL && field != NULL)
    go_on (self);
}
