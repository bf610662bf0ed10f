// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A new go-ahead. Digits mean the sum in its field and the way everywhere else; F4 writes it down. What the book
 * refuses is told here, in its words. What is typed and not written down stands there again the next time. */

#include "hs-go-ahead-window.h"

#include <glib/gi18n.h>

#include "hs-choice-face.h"
#include "hs-deed-choice.h"
#include "hs-job-pane.h"
#include "hs-key-button.h"
#include "hs-money.h"
#include "hs-pad-key.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsGoAheadWindow
{
  AdwWindow parent_instance;

  GtkLabel *room;
  GtkLabel *refusal;
  GtkEditable *ceiling;
  HsConsent *consent;
  GtkBox *given;
  GtkWidget *write;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *job_id;
  gboolean filled; /* what is changed from now on is the owner's */
  gboolean noted;
};

G_DEFINE_FINAL_TYPE (HsGoAheadWindow, hs_go_ahead_window, ADW_TYPE_WINDOW)

/* What is typed and not written down ------------------------------------------------------------------------------- */

#define PAGE "choices"

static void
note (HsGoAheadWindow *self)
{
  g_autofree char *text = NULL;

  if (!self->filled || self->page == NULL)
    return;
  text = g_strjoin ("\t", gtk_editable_get_text (self->ceiling), hs_consent_get_who (self->consent),
                    hs_consent_get_means (self->consent) != NULL ? hs_consent_get_means (self->consent) : "", NULL);
  hs_job_pane_note (HS_JOB_PANE (self->page), PAGE, HS_GO_AHEAD_FIELD, text);
  self->noted = TRUE;
}

static void
take_up (HsGoAheadWindow *self)
{
  const char *text = hs_job_pane_get_typed (HS_JOB_PANE (self->page), HS_GO_AHEAD_FIELD);
  g_auto (GStrv) parts = text != NULL ? g_strsplit (text, "\t", 3) : NULL;

  if (parts == NULL || g_strv_length (parts) < 3)
    return;
  gtk_editable_set_text (self->ceiling, parts[0]);
  hs_consent_set_who (self->consent, parts[1]);
  hs_consent_set_means (self->consent, parts[2]);
}

static void
typed_cb (HsGoAheadWindow *self)
{
  note (self);
}

static gboolean
close_request_cb (HsGoAheadWindow *self)
{
  if (self->noted && self->page != NULL)
    hs_job_pane_leave (HS_JOB_PANE (self->page), PAGE, HS_GO_AHEAD_FIELD);
  return FALSE;
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsGoAheadWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  g_autofree char *done = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (error == NULL && self->page != NULL)
    hs_job_pane_note (HS_JOB_PANE (self->page), PAGE, HS_GO_AHEAD_FIELD, "");
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  /* It is never altered; a later one counts. */
  done = g_strdup_printf (_("Go-ahead: %s"), gtk_editable_get_text (self->ceiling));
  if (self->page != NULL)
    hs_page_did (self->page, done, NULL, NULL, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
focus_way (HsGoAheadWindow *self)
{
  HsSignaturePad *pad = hs_consent_get_pad (self->consent);

  gtk_widget_grab_focus (gtk_widget_get_mapped (GTK_WIDGET (pad)) ? GTK_WIDGET (pad) : self->write);
}

static void
write_down (HsGoAheadWindow *self)
{
  g_autoptr (GBytes) signature = hs_consent_dup_signature (self->consent);
  HsGoAheadEntry entry = { .by = hs_consent_get_who (self->consent), .means = hs_consent_get_means (self->consent),
                           .signature = signature };
  g_autoptr (GError) error = NULL;
  HsLedger *ledger;

  if (self->page == NULL)
    return;
  ledger = hs_page_get_ledger (self->page);
  if (!hs_money_parse (gtk_editable_get_text (self->ceiling), hs_ledger_get_currency (ledger), &entry.ceiling_cents,
                       &error))
    {
      hs_refusal_say (self->refusal, error->message);
      gtk_widget_grab_focus (GTK_WIDGET (self->ceiling));
      return;
    }
  if (entry.means == NULL)
    {
      hs_refusal_say (self->refusal, hs_consent_say_missing ());
      focus_way (self);
      return;
    }
  hs_deed_give_go_ahead (ledger, self->job_id, &entry, done_cb,
                         hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->ceiling)));
}

static void
write_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_down (HS_GO_AHEAD_WINDOW (widget));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* Enter in the sum goes on to the way; in the name it writes. */
static void
entered_cb (HsGoAheadWindow *self, GtkWidget *widget)
{
  if (widget == GTK_WIDGET (self->ceiling))
    focus_way (self);
  else
    write_down (self);
}

static void
way_changed_cb (HsGoAheadWindow *self)
{
  hs_refusal_say (self->refusal, NULL);
  note (self);
}

static gboolean
key_cb (HsGoAheadWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || (focus != NULL && GTK_IS_EDITABLE (focus)) || sign < '1'
      || sign > '9')
    return GDK_EVENT_PROPAGATE;
  if (hs_consent_press (self->consent, (guint) (sign - '0')))
    focus_way (self);
  return GDK_EVENT_STOP;
}

/* Not before the book has answered: what is typed stands on the page until then. */
static void
hs_go_ahead_window_finalize (GObject *object)
{
  HsGoAheadWindow *self = HS_GO_AHEAD_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_free (self->job_id);
  G_OBJECT_CLASS (hs_go_ahead_window_parent_class)->finalize (object);
}

static void
hs_go_ahead_window_class_init (HsGoAheadWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_go_ahead_window_finalize;
  g_type_ensure (HS_TYPE_CONSENT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-go-ahead-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, room);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, refusal);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, ceiling);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, consent);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, given);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, write);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, way_changed_cb);
  gtk_widget_class_install_action (widget_class, "go-ahead.write", NULL, write_action);
  gtk_widget_class_install_action (widget_class, "go-ahead.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "go-ahead.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "go-ahead.write", NULL);
}

static void
hs_go_ahead_window_init (HsGoAheadWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_object (self->ceiling, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "close-request", G_CALLBACK (close_request_cb), NULL);
}

/* A sum as it is typed: without grouping. */
static char *
dup_typed (HsLedger *ledger, gint64 cents)
{
  return hs_money_format (cents, hs_ledger_get_currency (ledger));
}

HsGoAheadWindow *
hs_go_ahead_window_present (HsPage *page, const char *job_id, const HsJobChoices *job)
{
  HsGoAheadWindow *self;
  HsLedger *ledger = hs_page_get_ledger (page);
  g_autofree char *total = dup_typed (ledger, job->room->total_cents);

  g_return_val_if_fail (HS_IS_JOB_PANE (page), NULL);

  self = g_object_new (HS_TYPE_GO_AHEAD_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  gtk_label_set_label (self->room, job->room_words);
  gtk_editable_set_text (self->ceiling, job->room->total_cents > 0 ? total : "");
  hs_consent_set_who (self->consent, job->room->by != NULL ? job->room->by : job->customer);
  take_up (self);
  self->filled = TRUE;
  hs_choice_face_list_go_aheads (self->given, ledger, job);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->ceiling));
  return self;
}

void
hs_go_ahead_window_set_ceiling (HsGoAheadWindow *self, const char *text)
{
  g_return_if_fail (HS_IS_GO_AHEAD_WINDOW (self));

  gtk_editable_set_text (self->ceiling, text);
}

HsConsent *
hs_go_ahead_window_get_consent (HsGoAheadWindow *self)
{
  g_return_val_if_fail (HS_IS_GO_AHEAD_WINDOW (self), NULL);

  return self->consent;
}
