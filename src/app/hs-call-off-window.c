// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Called off. A digit says how and goes to the fee that the settings ask for; Enter goes on to the reason, and does it
 * there. What the book refuses is told here, and everything that was typed stays. */

#include "hs-call-off-window.h"

#include <glib/gi18n.h>

#include "hs-ask-arrive.h"
#include "hs-deed-arrive.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-money.h"
#include "hs-mover.h"
#include "hs-pad-key.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-window.h"

#define NONE G_MAXUINT

struct _HsCallOffWindow
{
  AdwWindow parent_instance;

  GtkFlowBox *ways;
  GtkEditable *fee;
  GtkLabel *rule;
  GtkEditable *reason;
  GtkLabel *refusal;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsQuestion *fees;
  char *job_id;
  char *number;
  guint how;
};

G_DEFINE_FINAL_TYPE (HsCallOffWindow, hs_call_off_window, ADW_TYPE_WINDOW)

static void
show_fee (HsCallOffWindow *self)
{
  const HsCallOffFees *fees = hs_question_get (self->fees);
  g_autofree char *text = NULL, *rule = NULL;

  if (fees == NULL || self->how == NONE || self->page == NULL)
    return;
  text = hs_money_format (fees->cents[self->how], hs_ledger_get_currency (hs_page_get_ledger (self->page)));
  gtk_editable_set_text (self->fee, text);
  gtk_editable_select_region (self->fee, 0, -1);
  /* Translators: a way to be called off, such as "no-show", and an amount of money. */
  rule = g_strdup_printf (_("Set for “%s”: %s. Enter takes what stands here; 0 asks for none."),
                          hs_show_word (HS_WORDS_CALLED_OFF_HOW,
                                        hs_words_get (HS_WORDS_CALLED_OFF_HOW, NULL)[self->how].id),
                          text);
  gtk_label_set_label (self->rule, rule);
}

/* The fee goes with the way, and is asked before the reason. */
static void
choose (HsCallOffWindow *self, guint how)
{
  GtkFlowBoxChild *child;

  self->how = how;
  for (guint i = 0; (child = gtk_flow_box_get_child_at_index (self->ways, (int) i)) != NULL; i++)
    {
      GtkWidget *button = gtk_flow_box_child_get_child (child);

      if (i == how)
        gtk_widget_add_css_class (button, "hs-chosen");
      else
        gtk_widget_remove_css_class (button, "hs-chosen");
      gtk_accessible_update_state (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_STATE_PRESSED,
                                   i == how ? GTK_ACCESSIBLE_TRISTATE_TRUE : GTK_ACCESSIBLE_TRISTATE_FALSE, -1);
    }
  hs_refusal_say (self->refusal, NULL);
  show_fee (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->fee));
}

static void
way_clicked_cb (HsCallOffWindow *self, GtkWidget *button)
{
  choose (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "how")));
}

/* A fee is still to be squared up. */
static char *
dup_done (HsCallOffWindow *self)
{
  const char *fee = gtk_editable_get_text (self->fee);
  gint64 cents = 0;

  if (self->page == NULL || *fee == '\0'
      || !hs_money_parse (fee, hs_ledger_get_currency (hs_page_get_ledger (self->page)), &cents, NULL) || cents == 0)
    return hs_mover_dup_act (self->number, HS_STAGE_CALLED_OFF);
  /* Translators: a job's number. */
  return g_strdup_printf (_("%s: called off. The fee is on the bill; square it up there."), self->number);
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsCallOffWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;
  g_autofree char *done = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  done = dup_done (self);
  if (self->page != NULL)
    hs_page_tell (self->page, done);
  gtk_window_close (GTK_WINDOW (self));
}

static void
call_off (HsCallOffWindow *self)
{
  const char *text = gtk_editable_get_text (self->fee);
  g_autoptr (GError) error = NULL;
  gint64 cents = 0;

  if (self->page == NULL)
    return;
  if (self->how == NONE)
    {
      hs_refusal_say (self->refusal, _("How was it called off? 1, 2 or 3."));
      gtk_widget_child_focus (GTK_WIDGET (self->ways), GTK_DIR_TAB_FORWARD);
      return;
    }
  if (*text != '\0' && !hs_money_parse (text, hs_ledger_get_currency (hs_page_get_ledger (self->page)), &cents, &error))
    {
      hs_refusal_say (self->refusal, error->message);
      gtk_widget_grab_focus (GTK_WIDGET (self->fee));
      return;
    }
  hs_deed_call_off (hs_page_get_ledger (self->page), self->job_id,
                    hs_words_get (HS_WORDS_CALLED_OFF_HOW, NULL)[self->how].id, cents,
                    gtk_editable_get_text (self->reason), done_cb,
                    hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->reason)));
}

static void
fee_entered_cb (HsCallOffWindow *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self->reason));
}

static void
call_off_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  call_off (HS_CALL_OFF_WINDOW (widget));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* Printed where they act: nowhere while a digit is part of the fee or the reason. */
static void
show_digits (HsCallOffWindow *self)
{
  GtkFlowBoxChild *child;

  for (int i = 0; (child = gtk_flow_box_get_child_at_index (self->ways, i)) != NULL; i++)
    hs_key_button_set_show_key (HS_KEY_BUTTON (gtk_flow_box_child_get_child (child)),
                                !hs_pad_key_is_text (GTK_WINDOW (self)));
}

/* A digit says how unless it is part of the fee or the reason. */
static gboolean
key_cb (HsCallOffWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);

  if (keyval == GDK_KEY_Escape)
    gtk_window_close (GTK_WINDOW (self));
  else if (keyval == GDK_KEY_F4)
    call_off (self);
  else if (hs_pad_key_is_text (GTK_WINDOW (self)) || letter < '1' || letter > '3')
    return GDK_EVENT_PROPAGATE;
  else
    choose (self, letter - '1');
  return GDK_EVENT_STOP;
}

static void
fill (HsCallOffWindow *self)
{
  gsize n_words;
  const HsWord *words = hs_words_get (HS_WORDS_CALLED_OFF_HOW, &n_words);

  for (gsize i = 0; i < n_words; i++)
    {
      g_autofree char *key = g_strdup_printf ("%u", (guint) i + 1);
      const char *name = hs_show_word (HS_WORDS_CALLED_OFF_HOW, words[i].id);
      GtkWidget *button = hs_key_button_new (key, name, NULL);

      g_object_set_data (G_OBJECT (button), "how", GUINT_TO_POINTER ((guint) i));
      g_signal_connect_object (button, "clicked", G_CALLBACK (way_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_flow_box_append (self->ways, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
      hs_spoken_name (gtk_widget_get_parent (button), name);
    }
}

static void
hs_call_off_window_dispose (GObject *object)
{
  HsCallOffWindow *self = HS_CALL_OFF_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_object (&self->fees);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  G_OBJECT_CLASS (hs_call_off_window_parent_class)->dispose (object);
}

static void
hs_call_off_window_class_init (HsCallOffWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_call_off_window_dispose;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-call-off-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCallOffWindow, ways);
  gtk_widget_class_bind_template_child (widget_class, HsCallOffWindow, fee);
  gtk_widget_class_bind_template_child (widget_class, HsCallOffWindow, rule);
  gtk_widget_class_bind_template_child (widget_class, HsCallOffWindow, reason);
  gtk_widget_class_bind_template_child (widget_class, HsCallOffWindow, refusal);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, fee_entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, call_off);
  gtk_widget_class_install_action (widget_class, "off.do", NULL, call_off_action);
  gtk_widget_class_install_action (widget_class, "off.close", NULL, close_action);
}

static void
hs_call_off_window_init (HsCallOffWindow *self)
{
  self->how = NONE;
  gtk_widget_init_template (GTK_WIDGET (self));
  fill (self);
  g_signal_connect (self, "notify::focus-widget", G_CALLBACK (show_digits), NULL);
}

HsCallOffWindow *
hs_call_off_window_present (HsPage *page, const char *job_id, const char *number, const char *reason)
{
  g_autofree char *title = NULL;
  HsCallOffWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);
  g_return_val_if_fail (job_id != NULL && number != NULL, NULL);

  self = g_object_new (HS_TYPE_CALL_OFF_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  /* Translators: the number of a job. */
  title = g_strdup_printf (_("%s: called off"), number);
  gtk_window_set_title (GTK_WINDOW (self), title);
  if (reason != NULL)
    gtk_editable_set_text (self->reason, reason);
  self->fees = hs_question_new (hs_page_get_ledger (page), hs_ask_call_off_fees, g_free);
  g_signal_connect_object (self->fees, "answered", G_CALLBACK (show_fee), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->fees, NULL);
  gtk_window_set_default_size (GTK_WINDOW (self), 560, 440);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_widget_child_focus (GTK_WIDGET (self->ways), GTK_DIR_TAB_FORWARD);
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
