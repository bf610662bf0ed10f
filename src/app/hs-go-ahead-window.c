// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A new go-ahead. It opens on the way, which a digit picks; the sum is gone into by a key of its own, and as long as it
 * is typed no digit is printed anywhere else. F4 writes it down; less than the job comes to is told first and wants +.
 * What the book refuses is told here, in its words. What is typed and not written down stands there again the next
 * time. */

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
  HsKeyButton *sum;
  GtkWidget *insist;
  HsConsent *consent;
  GtkBox *given;
  GtkWidget *write;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *job_id;
  gint64 total_cents; /* what the job comes to */
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

/* (nullable): says @text; what was told before and might have been agreed to holds no more. */
static void
say (HsGoAheadWindow *self, const char *text)
{
  hs_refusal_say (self->refusal, text);
  gtk_widget_set_visible (self->insist, FALSE);
}

static void
typed_cb (HsGoAheadWindow *self)
{
  say (self, NULL);
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
      say (self, error->message);
      return;
    }
  /* It is never altered; a later one counts. */
  done = g_strdup_printf (_("Go-ahead: %s"), gtk_editable_get_text (self->ceiling));
  if (self->page != NULL)
    hs_page_did (self->page, done, NULL, NULL, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

/* On what is missing still, and never into a field: the next digit is none of its. */
static void
focus_next (HsGoAheadWindow *self)
{
  HsSignaturePad *pad = hs_consent_get_pad (self->consent);

  if (hs_consent_get_means (self->consent) == NULL)
    hs_consent_focus (self->consent);
  else
    gtk_widget_grab_focus (gtk_widget_get_mapped (GTK_WIDGET (pad)) ? GTK_WIDGET (pad) : self->write);
}

static gboolean
read_ceiling (HsGoAheadWindow *self, gint64 *ret_cents)
{
  const char *text = gtk_editable_get_text (self->ceiling);
  g_autoptr (GError) error = NULL;

  if (*text == '\0')
    {
      say (self, _("Up to how much? Press . and type the sum."));
      focus_next (self);
      return FALSE;
    }
  if (hs_money_parse (text, hs_ledger_get_currency (hs_page_get_ledger (self->page)), ret_cents, &error))
    return TRUE;
  say (self, error->message);
  gtk_widget_grab_focus (GTK_WIDGET (self->ceiling));
  return FALSE;
}

/* Such a sum is more often a slip of the hand than what the customer said. */
static void
tell_low (HsGoAheadWindow *self, gint64 ceiling_cents)
{
  HsLedger *ledger = hs_page_get_ledger (self->page);
  g_autofree char *total = hs_show_money (ledger, self->total_cents);
  g_autofree char *ceiling = hs_show_money (ledger, ceiling_cents);
  g_autofree char *less = hs_show_money (ledger, self->total_cents - ceiling_cents);
  /* Translators: three sums of money. */
  g_autofree char *said = g_strdup_printf (_("The job comes to %s with tax. Up to %s is %s less. Press + if that is "
                                             "what was said, or . to type another sum."), total, ceiling, less);

  say (self, said);
  gtk_widget_set_visible (self->insist, TRUE);
  focus_next (self);
}

static void
write_down (HsGoAheadWindow *self, gboolean insists)
{
  g_autoptr (GBytes) signature = hs_consent_dup_signature (self->consent);
  HsGoAheadEntry entry = { .by = hs_consent_get_who (self->consent), .means = hs_consent_get_means (self->consent),
                           .signature = signature };

  if (self->page == NULL || !read_ceiling (self, &entry.ceiling_cents))
    return;
  if (entry.means == NULL)
    {
      say (self, hs_consent_say_missing ());
      focus_next (self);
      return;
    }
  if (entry.ceiling_cents < self->total_cents && !insists)
    {
      tell_low (self, entry.ceiling_cents);
      return;
    }
  hs_deed_give_go_ahead (hs_page_get_ledger (self->page), self->job_id, &entry, done_cb,
                         hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->ceiling)));
}

static void
write_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_down (HS_GO_AHEAD_WINDOW (widget), FALSE);
}

static void
insist_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsGoAheadWindow *self = HS_GO_AHEAD_WINDOW (widget);

  if (gtk_widget_get_visible (self->insist))
    write_down (self, TRUE);
}

static void
sum_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_widget_grab_focus (GTK_WIDGET (HS_GO_AHEAD_WINDOW (widget)->ceiling));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* Enter goes on to the way as long as that is missing; then it writes. */
static void
entered_cb (HsGoAheadWindow *self)
{
  GtkWidget *pad = GTK_WIDGET (hs_consent_get_pad (self->consent));

  if (hs_consent_get_means (self->consent) == NULL || gtk_widget_get_mapped (pad))
    focus_next (self);
  else
    write_down (self, FALSE);
}

static void
way_changed_cb (HsGoAheadWindow *self)
{
  say (self, NULL);
  note (self);
}

/* Each key is printed where it acts: nowhere while it is text. */
static void
show_keys (HsGoAheadWindow *self)
{
  gboolean acts = !hs_pad_key_is_text (GTK_WINDOW (self));

  hs_key_button_set_show_key (self->sum, acts);
  hs_consent_show_digits (self->consent, acts);
}

static gboolean
key_cb (HsGoAheadWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || hs_pad_key_is_text (GTK_WINDOW (self)))
    return GDK_EVENT_PROPAGATE;
  if (sign == '.')
    sum_action (GTK_WIDGET (self), NULL, NULL);
  else if (sign == '+')
    insist_action (GTK_WIDGET (self), NULL, NULL);
  else if (sign < '1' || sign > '9')
    return GDK_EVENT_PROPAGATE;
  else if (hs_consent_press (self->consent, (guint) (sign - '0')))
    focus_next (self);
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
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, sum);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, insist);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, consent);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, given);
  gtk_widget_class_bind_template_child (widget_class, HsGoAheadWindow, write);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, way_changed_cb);
  gtk_widget_class_install_action (widget_class, "go-ahead.write", NULL, write_action);
  gtk_widget_class_install_action (widget_class, "go-ahead.insist", NULL, insist_action);
  gtk_widget_class_install_action (widget_class, "go-ahead.sum", NULL, sum_action);
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
  g_signal_connect (self, "notify::focus-widget", G_CALLBACK (show_keys), NULL);
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
  self->total_cents = job->room->total_cents;
  gtk_label_set_label (self->room, job->room_words);
  gtk_editable_set_text (self->ceiling, job->room->total_cents > 0 ? total : "");
  hs_consent_set_who (self->consent, job->room->by != NULL ? job->room->by : job->customer);
  take_up (self);
  self->filled = TRUE;
  hs_choice_face_list_go_aheads (self->given, ledger, job);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  hs_consent_focus (self->consent);
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
