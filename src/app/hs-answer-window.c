// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The customer's answer to one option. Digits mean the answer first and the way after it, so that a number pad is
 * enough where the name stands there already; F4, or Enter at the end, writes it down. A cheaper choice is asked for
 * and written down like any other. */

#include "hs-answer-window.h"

#include <glib/gi18n.h>

#include "hs-act-check.h"
#include "hs-deed-choice.h"
#include "hs-job-pane.h"
#include "hs-key-button.h"
#include "hs-pad-key.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-typed.h"
#include "hs-window.h"

struct _HsAnswerWindow
{
  AdwWindow parent_instance;

  GtkLabel *wording;
  GtkLabel *price;
  GtkFlowBox *answers;
  HsConsent *consent;
  GtkWidget *risk_box;
  GtkEditable *risk;
  GtkWidget *days_box;
  GtkEditable *days;
  GtkCheckButton *raise;
  GtkLabel *refusal;
  GtkWidget *write;

  HsLedger *ledger;
  char *choice_id;
  char *shown_risk; /* as it was asked for; on the customer's page without names */
  char *kept_risk;
  const char *answer;
  gint64 would_cents;
  gint64 would_short_cents;
  gint64 ceiling_cents;
  gboolean asks_way; /* a digit means the way now */
  HsJobPane *pane;   /* weak */
  char *field;
  gboolean filled; /* what is changed from now on is the owner's */
  gboolean noted;
};

enum
{
  DONE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsAnswerWindow, hs_answer_window, ADW_TYPE_WINDOW)

static const struct
{
  const char *id;
  const char *word;
} answers[] = {
  { "yes", N_("Yes") },
  { "no", N_("No") },
  { "later", N_("Later") },
  { "open", N_("No answer yet") },
};

static gboolean
is_answer (HsAnswerWindow *self, const char *id)
{
  return g_strcmp0 (self->answer, id) == 0;
}

static GtkWidget *
get_button (HsAnswerWindow *self, guint i)
{
  return gtk_flow_box_child_get_child (gtk_flow_box_get_child_at_index (self->answers, (int) i));
}

/* What is typed and not written down ------------------------------------------------------------------------------- */

#define PAGE "choices"

static void
note (HsAnswerWindow *self)
{
  const char *means = hs_consent_get_means (self->consent);
  g_autofree char *text = NULL;

  if (!self->filled || self->pane == NULL || self->answer == NULL)
    return;
  text = g_strjoin ("\t", self->answer, means != NULL ? means : "", hs_consent_get_who (self->consent),
                    gtk_check_button_get_active (self->raise) ? "+" : "", gtk_editable_get_text (self->days),
                    gtk_editable_get_text (self->risk), NULL);
  hs_job_pane_note (self->pane, PAGE, self->field, text);
  self->noted = TRUE;
}

static void
typed_cb (HsAnswerWindow *self)
{
  note (self);
}

static gboolean
close_request_cb (HsAnswerWindow *self)
{
  if (self->noted && self->pane != NULL)
    hs_job_pane_leave (self->pane, PAGE, self->field);
  return FALSE;
}

/* Digits are printed where they act: nowhere while one is text. */
static void
show_digits (HsAnswerWindow *self)
{
  gboolean acts = !hs_pad_key_is_text (GTK_WINDOW (self));

  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    hs_key_button_set_show_key (HS_KEY_BUTTON (get_button (self, i)), acts && !self->asks_way);
  hs_consent_show_digits (self->consent, acts && self->asks_way);
}

/* What is asked depends on the answer. */
static void
update (HsAnswerWindow *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      GtkWidget *button = get_button (self, i);
      gboolean chosen = is_answer (self, answers[i].id);

      if (chosen)
        gtk_widget_add_css_class (button, "hs-chosen");
      else
        gtk_widget_remove_css_class (button, "hs-chosen");
      gtk_accessible_update_state (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_STATE_PRESSED, chosen, -1);
    }
  show_digits (self);
  gtk_widget_set_visible (GTK_WIDGET (self->consent), self->answer != NULL && !is_answer (self, "open"));
  gtk_widget_set_visible (self->risk_box, self->answer != NULL && !is_answer (self, "open"));
  gtk_widget_set_visible (self->days_box, is_answer (self, "later"));
  gtk_widget_set_visible (GTK_WIDGET (self->raise), is_answer (self, "yes") && self->would_short_cents > 0);
  note (self);
}

/* Where the next thing is missing: the way first, whatever the answer is, for digits mean it now; a field would take
 * them as words. */
static void
focus_next (HsAnswerWindow *self)
{
  gboolean declined = is_answer (self, "no") || is_answer (self, "later");

  if (hs_consent_get_means (self->consent) != NULL && declined && *gtk_editable_get_text (self->risk) == '\0')
    gtk_widget_grab_focus (GTK_WIDGET (self->risk));
  else if (g_strcmp0 (hs_consent_get_means (self->consent), "signed_on_screen") == 0
           && gtk_widget_get_mapped (GTK_WIDGET (hs_consent_get_pad (self->consent))))
    gtk_widget_grab_focus (GTK_WIDGET (hs_consent_get_pad (self->consent)));
  else
    gtk_widget_grab_focus (self->write);
}

void
hs_answer_window_answer (HsAnswerWindow *self, guint digit)
{
  g_return_if_fail (HS_IS_ANSWER_WINDOW (self));

  if (digit < 1 || digit > G_N_ELEMENTS (answers))
    return;
  self->answer = answers[digit - 1].id;
  self->asks_way = !is_answer (self, "open");
  hs_refusal_say (self->refusal, NULL);
  update (self);
  focus_next (self);
}

static void
answer_clicked_cb (HsAnswerWindow *self, GtkWidget *button)
{
  hs_answer_window_answer (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "digit")));
}

/* Writing ---------------------------------------------------------------------------------------------------------- */

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsAnswerWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (error == NULL && self->pane != NULL)
    hs_job_pane_note (self->pane, PAGE, self->field, "");
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      if (*gtk_editable_get_text (self->risk) == '\0')
        gtk_widget_grab_focus (GTK_WIDGET (self->risk));
      return;
    }
  g_signal_emit (self, signals[DONE], 0);
  gtk_window_close (GTK_WINDOW (self));
}

static HsDate
read_day (HsAnswerWindow *self)
{
  int days = hs_typed_minutes (gtk_editable_get_text (self->days));

  return days > 0 ? hs_date_add_days (hs_ledger_get_today (self->ledger), days) : HS_DATE_NONE;
}

/* How it came is never guessed. A decline without its risk is refused for that first. */
static gboolean
lacks_way (HsAnswerWindow *self)
{
  gboolean declined = is_answer (self, "no") || is_answer (self, "later");

  return hs_consent_get_means (self->consent) == NULL && !is_answer (self, "open")
         && !(declined && *gtk_editable_get_text (self->risk) == '\0');
}

static gboolean
raises (HsAnswerWindow *self)
{
  return self->would_short_cents > 0 && gtk_check_button_get_active (self->raise);
}

/* That a go-ahead is raised is agreed to by a press of its own, never by one for something else. */
static gboolean
lacks_go_ahead (HsAnswerWindow *self, GBytes *signature)
{
  return is_answer (self, "yes") && signature != NULL && self->would_short_cents > 0 && !raises (self);
}

/* What was told stays as it is written unless something else was typed. */
static const char *
get_new_risk (HsAnswerWindow *self)
{
  const char *typed = gtk_editable_get_text (self->risk);

  if (*typed == '\0'
      || (g_strcmp0 (typed, self->shown_risk) == 0 && g_strcmp0 (self->kept_risk, self->shown_risk) == 0))
    return NULL;
  return typed;
}

static void
write_answer (HsAnswerWindow *self)
{
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GBytes) signature = hs_consent_dup_signature (self->consent);
  gboolean yes = is_answer (self, "yes");

  if (self->answer == NULL)
    {
      hs_refusal_say (self->refusal, _("What is the answer? Press 1 to 4."));
      return;
    }
  if (lacks_way (self))
    {
      self->asks_way = TRUE;
      update (self);
      hs_refusal_say (self->refusal, hs_consent_say_missing ());
      gtk_widget_grab_focus (self->write);
      return;
    }
  if (signature == NULL && !is_answer (self, "open")
      && g_strcmp0 (hs_consent_get_means (self->consent), "signed_on_screen") == 0)
    {
      hs_refusal_say (self->refusal,
                      _("Nothing is signed yet. Have it signed in the box, or say how else the answer came."));
      return;
    }
  if (lacks_go_ahead (self, signature))
    {
      g_autofree char *would = hs_show_money (self->ledger, self->would_cents);
      /* Translators: a sum of money, with tax. */
      g_autofree char *said = g_strdup_printf (_("A signed yes goes with a go-ahead. Press + for one up to %s, or say "
                                                 "how else the answer came."), would);

      hs_refusal_say (self->refusal, said);
      gtk_widget_grab_focus (self->write);
      return;
    }
  answer.choice = self->answer;
  answer.by = hs_consent_get_who (self->consent);
  answer.means = hs_consent_get_means (self->consent);
  answer.risk = get_new_risk (self);
  if (is_answer (self, "later"))
    answer.call_on = read_day (self);
  answer.signature = is_answer (self, "open") ? NULL : signature;
  /* That of a yes stands in a go-ahead, also where the one before reaches far enough. */
  if (yes && (signature != NULL || raises (self)))
    answer.ceiling_cents = self->ceiling_cents == HS_INT_NONE ? self->would_cents
                                                              : MAX (self->ceiling_cents, self->would_cents);
  hs_deed_decide (self->ledger, self->choice_id, &answer, done_cb,
                  hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->risk)));
}

static void
write_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_answer (HS_ANSWER_WINDOW (widget));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* Enter writes it down once it is said how the answer came; before that digits mean the way. */
static void
entered_cb (HsAnswerWindow *self)
{
  if (hs_consent_get_means (self->consent) == NULL)
    gtk_widget_grab_focus (self->write);
  else
    write_answer (self);
}

static void
kept_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;

  /* Of an option that is answered the risk stays as it was told; it goes along with the next answer. */
  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
}

/* What was typed is kept when the field is left, whether or not the answer is written down. */
static void
risk_left_cb (HsAnswerWindow *self)
{
  const char *typed = gtk_editable_get_text (self->risk);

  if (self->ledger == NULL || *typed == '\0' || g_strcmp0 (typed, self->kept_risk) == 0)
    return;
  g_free (self->kept_risk);
  self->kept_risk = g_strdup (typed);
  hs_deed_change_choice (self->ledger, self->choice_id, &(HsChoiceEntry) { .risk = self->kept_risk }, kept_cb, NULL);
}

static void
way_changed_cb (HsAnswerWindow *self)
{
  hs_refusal_say (self->refusal, NULL);
  update (self);
}

static gboolean
key_cb (HsAnswerWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || hs_pad_key_is_text (GTK_WINDOW (self)))
    return GDK_EVENT_PROPAGATE;
  if (sign == '+' && gtk_widget_get_visible (GTK_WIDGET (self->raise)))
    gtk_check_button_set_active (self->raise, !gtk_check_button_get_active (self->raise));
  else if (sign == '-' && self->asks_way)
    {
      self->asks_way = FALSE;
      update (self);
    }
  else if (sign >= '1' && sign <= '9' && self->asks_way)
    {
      if (hs_consent_press (self->consent, (guint) (sign - '0')))
        focus_next (self);
    }
  else if (sign >= '1' && sign <= '4')
    hs_answer_window_answer (self, (guint) (sign - '0'));
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
hs_answer_window_dispose (GObject *object)
{
  HsAnswerWindow *self = HS_ANSWER_WINDOW (object);

  g_clear_object (&self->ledger);
  g_clear_pointer (&self->choice_id, g_free);
  g_clear_pointer (&self->shown_risk, g_free);
  g_clear_pointer (&self->kept_risk, g_free);
  G_OBJECT_CLASS (hs_answer_window_parent_class)->dispose (object);
}

/* What is typed stands on the page until the book has answered, which may be after the window was shut. */
static void
hs_answer_window_finalize (GObject *object)
{
  HsAnswerWindow *self = HS_ANSWER_WINDOW (object);

  g_clear_weak_pointer (&self->pane);
  g_free (self->field);
  G_OBJECT_CLASS (hs_answer_window_parent_class)->finalize (object);
}

static void
hs_answer_window_class_init (HsAnswerWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_answer_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_answer_window_finalize;
  signals[DONE] = g_signal_new ("done", HS_TYPE_ANSWER_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (HS_TYPE_CONSENT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_ACT_CHECK);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-answer-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, wording);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, price);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, answers);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, consent);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, risk_box);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, risk);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, days_box);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, days);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, raise);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, refusal);
  gtk_widget_class_bind_template_child (widget_class, HsAnswerWindow, write);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, way_changed_cb);
  gtk_widget_class_install_action (widget_class, "answer.write", NULL, write_action);
  gtk_widget_class_install_action (widget_class, "answer.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "answer.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "answer.write", NULL);
}

static void
hs_answer_window_init (HsAnswerWindow *self)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_object (focus, "leave", G_CALLBACK (risk_left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self->risk), focus);
  g_signal_connect_object (self->risk, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->days, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->raise, "toggled", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "close-request", G_CALLBACK (close_request_cb), NULL);
  g_signal_connect (self, "notify::focus-widget", G_CALLBACK (show_digits), NULL);
  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    {
      g_autofree char *key = g_strdup_printf ("%u", i + 1);
      GtkWidget *button = hs_key_button_new (key, _(answers[i].word), NULL);

      g_object_set_data (G_OBJECT (button), "digit", GUINT_TO_POINTER (i + 1));
      g_signal_connect_object (button, "clicked", G_CALLBACK (answer_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_flow_box_append (self->answers, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
    }
  update (self);
}

/* What was answered and not written down stands there again; it is for F4 to write it. */
static void
take_up (HsAnswerWindow *self)
{
  const char *text = self->pane != NULL ? hs_job_pane_get_typed (self->pane, self->field) : NULL;
  g_auto (GStrv) parts = text != NULL ? g_strsplit (text, "\t", 6) : NULL;

  if (parts == NULL || g_strv_length (parts) < 6)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    if (g_str_equal (answers[i].id, parts[0]))
      hs_answer_window_answer (self, i + 1);
  hs_consent_set_means (self->consent, parts[1]);
  hs_consent_set_who (self->consent, parts[2]);
  gtk_check_button_set_active (self->raise, *parts[3] == '+');
  gtk_editable_set_text (self->days, parts[4]);
  gtk_editable_set_text (self->risk, parts[5]);
  focus_next (self);
}

HsAnswerWindow *
hs_answer_window_present (GtkWindow *over, HsLedger *ledger, const HsAnswerAsk *ask)
{
  HsAnswerWindow *self;
  g_autofree char *price = hs_show_money (ledger, ask->asked_cents);
  g_autofree char *would = hs_show_money (ledger, ask->would_cents);
  g_autofree char *raise = NULL;
  GtkWidget *label;

  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);

  self = g_object_new (HS_TYPE_ANSWER_WINDOW, "transient-for", over, "destroy-with-parent", TRUE, NULL);
  self->ledger = g_object_ref (ledger);
  self->choice_id = g_strdup (ask->choice_id);
  self->would_cents = ask->would_cents;
  self->would_short_cents = ask->would_short_cents;
  self->ceiling_cents = ask->ceiling_cents;
  gtk_label_set_label (self->wording, ask->wording);
  gtk_label_set_label (self->price, price);
  self->shown_risk = g_strdup (ask->risk);
  self->kept_risk = g_strdup (ask->risk);
  gtk_editable_set_text (self->risk, ask->risk != NULL ? ask->risk : "");
  /* Translators: a sum of money, with tax. */
  raise = g_strdup_printf (_("With a go-ahead up to %s"), would);
  label = gtk_label_new (raise);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_check_button_set_child (self->raise, label);
  hs_spoken_name (GTK_WIDGET (self->raise), raise);
  hs_consent_set_who (self->consent, ask->who);
  hs_consent_set_signed (self->consent, ask->signature);
  if (ask->pane != NULL)
    g_set_weak_pointer (&self->pane, HS_JOB_PANE (ask->pane));
  self->field = g_strconcat (HS_ANSWER_FIELD, ask->choice_id, NULL);
  update (self);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (get_button (self, 0));
  take_up (self);
  self->filled = TRUE;
  return self;
}

HsConsent *
hs_answer_window_get_consent (HsAnswerWindow *self)
{
  g_return_val_if_fail (HS_IS_ANSWER_WINDOW (self), NULL);

  return self->consent;
}

void
hs_answer_window_set_risk (HsAnswerWindow *self, const char *risk)
{
  g_return_if_fail (HS_IS_ANSWER_WINDOW (self));

  gtk_editable_set_text (self->risk, risk);
  g_signal_emit_by_name (self->risk, "activate");
}
