// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the telephone takes over. The telephone calls and sends; nothing leaves the laptop, and nothing is written into
 * the book. */

#include "hs-hand-off-window.h"

#include <glib/gi18n.h>

#include "hs-ask-hand-off.h"
#include "hs-hand-off.h"
#include "hs-key-button.h"
#include "hs-pad-key.h"
#include "hs-qr.h"
#include "hs-show.h"
#include "hs-spoken.h"

/* By how much + and − move the time in a text, and how soon she is there when no plan says. */
#define STEP_SECONDS 300
#define SOON_SECONDS 900

/* What can be handed over, as it is shown and as it is in the code. */
typedef struct
{
  char *title;
  char *words;
  char *text;
  gboolean timed;
} Offer;

struct _HsHandOffWindow
{
  AdwWindow parent_instance;

  GtkBox *choices;
  GtkLabel *title;
  GtkLabel *words;
  GtkLabel *trouble;
  AdwBin *code_bin;
  GtkWidget *times;
  HsQr *code;

  HsLedger *ledger;
  HsQuestion *ask;
  char *phone;
  HsInstant arrive;
  GPtrArray *offers;
  guint chosen;
};

G_DEFINE_FINAL_TYPE (HsHandOffWindow, hs_hand_off_window, ADW_TYPE_WINDOW)

static void
offer_free (gpointer data)
{
  Offer *offer = data;

  g_free (offer->title);
  g_free (offer->words);
  g_free (offer->text);
  g_free (offer);
}

static Offer *
get_chosen (HsHandOffWindow *self)
{
  return self->chosen < self->offers->len ? g_ptr_array_index (self->offers, self->chosen) : NULL;
}

static void
update_code (HsHandOffWindow *self)
{
  const Offer *offer = get_chosen (self);
  gboolean shown = hs_qr_set_text (self->code, offer != NULL ? offer->text : NULL);
  g_autofree char *say = offer != NULL ? g_strdup_printf (_("Code: %s, %s"), offer->title, offer->words)
                                       : g_strdup (_("No code"));

  gtk_label_set_label (self->title, offer != NULL ? offer->title : "");
  gtk_label_set_label (self->words, offer != NULL ? offer->words : "");
  gtk_label_set_label (self->trouble, offer == NULL ? _("There is no number and no address on this call yet.")
                                                    : _("This is too long for a code. Shorten it."));
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), offer == NULL || !shown);
  gtk_widget_set_visible (self->times, offer != NULL && offer->timed);
  hs_spoken_name (GTK_WIDGET (self->code), say);
}

/* What there is. */

static void
add_offer (HsHandOffWindow *self, char *title, const char *words, char *text, gboolean timed)
{
  Offer *offer;

  if (text == NULL)
    {
      g_free (title);
      return;
    }
  offer = g_new0 (Offer, 1);
  offer->title = title;
  offer->words = g_strdup (words);
  offer->text = text;
  offer->timed = timed;
  g_ptr_array_add (self->offers, offer);
}

static char *
late_words (HsHandOffWindow *self, const HsHandOff *known)
{
  g_autofree char *clock = hs_show_clock (self->ledger, self->arrive);

  if (known != NULL && known->plate != NULL)
    /* Translators: a text to a customer: the plate of the car, a clock time. */
    return g_strdup_printf (_("About your car %s: I am running late and expect to be with you at %s."), known->plate,
                            clock);
  /* Translators: a text to a customer: a clock time. */
  return g_strdup_printf (_("I am running late and expect to be with you at %s."), clock);
}

static void
add_texts (HsHandOffWindow *self, const HsHandOff *known, const char *phone)
{
  g_autofree char *late = late_words (self, known);
  g_autofree char *money = NULL;
  g_autofree char *estimate = NULL;

  add_offer (self, g_strdup (_("Text: running late")), late, hs_hand_off_sms (phone, late), TRUE);
  if (known == NULL || known->cents <= 0)
    return;
  money = hs_show_money (self->ledger, known->cents);
  /* Translators: a text to a customer: the plate of the car or the number of the job, a sum of money. */
  estimate = g_strdup_printf (_("About your car %s: the estimate is %s with tax. Do I go ahead?"),
                              known->plate != NULL ? known->plate : known->number, money);
  add_offer (self, g_strdup (_("Text: the estimate")), estimate, hs_hand_off_sms (phone, estimate), FALSE);
}

static void
add_place (HsHandOffWindow *self, const HsHandOff *known)
{
  if (known == NULL)
    return;
  if (known->position != NULL)
    add_offer (self, g_strdup (_("The place on a map")), known->address != NULL ? known->address : known->position,
               g_strdup (known->position), FALSE);
  if (known->address != NULL)
    add_offer (self, g_strdup (_("The address")), known->address, g_strdup (known->address), FALSE);
}

static void
fill_offers (HsHandOffWindow *self)
{
  const HsHandOff *known = self->ask != NULL ? hs_question_get (self->ask) : NULL;
  const char *phone = self->phone != NULL ? self->phone : known != NULL ? known->phone : NULL;

  g_ptr_array_set_size (self->offers, 0);
  if (known != NULL && known->customer != NULL)
    add_offer (self, g_strdup_printf (_("Call %s"), known->customer), phone, hs_hand_off_tel (phone), FALSE);
  else
    add_offer (self, g_strdup (_("Call")), phone, hs_hand_off_tel (phone), FALSE);
  add_texts (self, known, phone);
  add_place (self, known);
  self->chosen = MIN (self->chosen, MAX (1, self->offers->len) - 1);
  update_code (self);
}

static void
fill_choices (HsHandOffWindow *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->choices))) != NULL)
    gtk_box_remove (self->choices, child);
  for (guint i = 0; i < self->offers->len; i++)
    {
      const Offer *offer = g_ptr_array_index (self->offers, i);
      g_autofree char *key = g_strdup_printf ("%u", i + 1);
      g_autofree char *action = g_strdup_printf ("hand-off.choose(%u)", i);
      GtkWidget *button = hs_key_button_new (key, offer->title, action);

      hs_key_button_set_row (HS_KEY_BUTTON (button));
      gtk_box_append (self->choices, button);
    }
}

static void
answered_cb (HsHandOffWindow *self)
{
  const HsHandOff *known = hs_question_get (self->ask);
  HsInstant soon = hs_ledger_get_now (self->ledger) + SOON_SECONDS;

  if (self->arrive == HS_INSTANT_NONE)
    {
      self->arrive = known != NULL && known->arrive != HS_INSTANT_NONE ? MAX (known->arrive, soon) : soon;
      self->arrive -= self->arrive % STEP_SECONDS;
    }
  fill_offers (self);
  fill_choices (self);
}

gboolean
hs_hand_off_window_choose (HsHandOffWindow *self, guint nth)
{
  g_return_val_if_fail (HS_IS_HAND_OFF_WINDOW (self), FALSE);

  if (nth >= self->offers->len)
    return FALSE;
  self->chosen = nth;
  update_code (self);
  return TRUE;
}

const char *
hs_hand_off_window_get_text (HsHandOffWindow *self)
{
  const Offer *offer;

  g_return_val_if_fail (HS_IS_HAND_OFF_WINDOW (self), NULL);

  offer = get_chosen (self);
  return offer != NULL ? offer->text : NULL;
}

/* Keys. */

static void
choose_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_hand_off_window_choose (HS_HAND_OFF_WINDOW (widget), (guint) g_variant_get_int32 (parameter));
}

static void
move_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsHandOffWindow *self = HS_HAND_OFF_WINDOW (widget);
  const Offer *offer = get_chosen (self);

  if (offer == NULL || !offer->timed)
    return;
  self->arrive += g_str_equal (name, "hand-off.later") ? STEP_SECONDS : -STEP_SECONDS;
  fill_offers (self);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
key_cb (HsHandOffWindow *self, guint keyval)
{
  char sign = hs_pad_key_sign (keyval);

  if (keyval == GDK_KEY_Escape || keyval == GDK_KEY_F8)
    return gtk_widget_activate_action (GTK_WIDGET (self), "hand-off.close", NULL);
  if (sign == '+' || sign == '-')
    return gtk_widget_activate_action (GTK_WIDGET (self), sign == '+' ? "hand-off.later" : "hand-off.sooner", NULL);
  return sign >= '1' && sign <= '9' && hs_hand_off_window_choose (self, (guint) (sign - '1'));
}

static void
hs_hand_off_window_dispose (GObject *object)
{
  HsHandOffWindow *self = HS_HAND_OFF_WINDOW (object);

  g_clear_object (&self->ask);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->phone, g_free);
  G_OBJECT_CLASS (hs_hand_off_window_parent_class)->dispose (object);
}

static void
hs_hand_off_window_finalize (GObject *object)
{
  g_ptr_array_unref (HS_HAND_OFF_WINDOW (object)->offers);
  G_OBJECT_CLASS (hs_hand_off_window_parent_class)->finalize (object);
}

static void
hs_hand_off_window_class_init (HsHandOffWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_hand_off_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_hand_off_window_finalize;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-hand-off-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsHandOffWindow, choices);
  gtk_widget_class_bind_template_child (widget_class, HsHandOffWindow, title);
  gtk_widget_class_bind_template_child (widget_class, HsHandOffWindow, words);
  gtk_widget_class_bind_template_child (widget_class, HsHandOffWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, HsHandOffWindow, code_bin);
  gtk_widget_class_bind_template_child (widget_class, HsHandOffWindow, times);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "hand-off.choose", "i", choose_action);
  gtk_widget_class_install_action (widget_class, "hand-off.later", NULL, move_action);
  gtk_widget_class_install_action (widget_class, "hand-off.sooner", NULL, move_action);
  gtk_widget_class_install_action (widget_class, "hand-off.close", NULL, close_action);
}

static void
hs_hand_off_window_init (HsHandOffWindow *self)
{
  self->offers = g_ptr_array_new_with_free_func (offer_free);
  self->arrive = HS_INSTANT_NONE;
  gtk_widget_init_template (GTK_WIDGET (self));
  self->code = HS_QR (hs_qr_new ());
  adw_bin_set_child (self->code_bin, GTK_WIDGET (self->code));
}

HsHandOffWindow *
hs_hand_off_window_present (GtkWindow *over, HsLedger *ledger, const char *job_id, const char *phone)
{
  HsHandOffWindow *self;

  g_return_val_if_fail (GTK_IS_WINDOW (over) && HS_IS_LEDGER (ledger), NULL);

  self = g_object_new (HS_TYPE_HAND_OFF_WINDOW, "transient-for", over, "destroy-with-parent", TRUE, NULL);
  self->ledger = g_object_ref (ledger);
  self->phone = phone != NULL && *phone != '\0' ? g_strdup (phone) : NULL;
  self->ask = hs_question_new (ledger, hs_ask_hand_off, (GDestroyNotify) hs_hand_off_free);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (answered_cb), self, G_CONNECT_SWAPPED);
  if (job_id != NULL)
    hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  else
    answered_cb (self);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
