// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the window of usual jobs asks, with the digits that answer it, and what was told so far. */

#include "hs-usual-window-private.h"

#include <glib/gi18n.h>

#include "hs-key-button.h"
#include "hs-show.h"

const char *const hs_usual_ways[] = { "cash", "card", "transfer", "check", NULL };

static const char *const reason_words[] = {
  N_("the customer had to go"), N_("not safe here"), N_("tool not on hand"), N_("it cannot be tried here"),
};

const HsUsual *
hs_usual_window_get (HsUsualWindow *self)
{
  GPtrArray *list = hs_question_get (self->ask);

  for (guint i = 0; list != NULL && i < list->len; i++)
    if (((const HsUsual *) g_ptr_array_index (list, i))->nth == self->nth)
      return g_ptr_array_index (list, i);
  return NULL;
}

const HsCheck *
hs_usual_window_get_check (HsUsualWindow *self)
{
  const HsUsual *usual = hs_usual_window_get (self);
  HsChecks *checks = hs_ledger_get_checks (self->ledger);

  return usual != NULL && usual->check != NULL && checks != NULL ? hs_checks_lookup (checks, usual->check) : NULL;
}

void
hs_usual_window_tell (HsUsualWindow *self, const char *text)
{
  gtk_label_set_label (self->refusal, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->refusal), text != NULL);
}

static void
answer_clicked_cb (HsUsualWindow *self, GtkButton *button)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "usual.press", "i",
                              GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "sign")));
}

void
hs_usual_window_add_answer (HsUsualWindow *self, const char *key, char sign, const char *text, gboolean inviting)
{
  GtkWidget *button = hs_key_button_new (key, text, NULL);

  hs_key_button_set_row (HS_KEY_BUTTON (button));
  if (inviting)
    gtk_widget_add_css_class (button, "hs-fill");
  g_object_set_data (G_OBJECT (button), "sign", GINT_TO_POINTER (sign));
  g_signal_connect_object (button, "clicked", G_CALLBACK (answer_clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->answers, button);
}

void
hs_usual_window_add_note (HsUsualWindow *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_box_append (self->answers, label);
}

static void
add_digit (HsUsualWindow *self, guint digit, const char *text)
{
  char key[2] = { (char) ('0' + digit), '\0' };

  hs_usual_window_add_answer (self, key, key[0], text, FALSE);
}

static char *
dup_price (HsUsualWindow *self, const HsUsual *usual)
{
  return hs_show_money (self->ledger, usual->price_cents);
}

static void
ask_what (HsUsualWindow *self)
{
  GPtrArray *list = hs_question_get (self->ask);

  gtk_label_set_label (self->question, _("Which usual job?"));
  for (guint i = 0; list != NULL && i < list->len; i++)
    {
      const HsUsual *usual = g_ptr_array_index (list, i);
      g_autofree char *price = dup_price (self, usual);
      g_autofree char *text = g_strdup_printf ("%s · %s", usual->name, price);

      add_digit (self, usual->nth, text);
    }
  if (list != NULL && list->len == 0)
    hs_usual_window_tell (self, _("No usual job is worded in this book. Word one under Set Up This Book."));
}

static void
ask_yes (HsUsualWindow *self)
{
  gtk_label_set_label (self->question, _("Does the customer say yes to this price?"));
  add_digit (self, 1, _("Yes, on the phone"));
  add_digit (self, 2, _("Yes, here"));
  add_digit (self, 0, _("No"));
}

static void
ask_why (HsUsualWindow *self, const HsUsual *usual)
{
  gtk_label_set_label (self->question, _("Why did it happen?"));
  for (guint i = 0; usual->whys[i] != NULL; i++)
    add_digit (self, i + 1, usual->whys[i]);
  add_digit (self, 0, _("not known, and the customer was told"));
}

static char *
dup_proof_words (HsUsualWindow *self, const char *keyed)
{
  const HsCheck *check = hs_usual_window_get_check (self);
  g_autofree char *answer = NULL;
  HsReading reading;

  if (check == NULL || keyed == NULL || !hs_check_read_pad (check, keyed, &reading, NULL))
    return g_strdup ("");
  answer = check->entry == HS_CHECK_CHOICE ? hs_check_dup_answer (check, keyed, NULL)
                                           : hs_check_format (check, &reading);
  return g_strdup_printf ("%s: %s%s%s", hs_show_data (check->name), answer != NULL ? hs_show_data (answer) : keyed,
                          hs_check_has_number (check) ? " " : "", hs_check_has_number (check) ? check->unit : "");
}

/* A figure is typed, a known answer is one digit. */
static void
ask_proof (HsUsualWindow *self, const HsUsual *usual)
{
  const HsCheck *check = hs_usual_window_get_check (self);
  g_autofree char *words = dup_proof_words (self, usual->keyed != NULL ? usual->keyed : self->typed->str);

  if (check != NULL && usual->keyed == NULL)
    {
      gtk_label_set_label (self->question, *words != '\0' ? words : hs_show_data (check->name));
      gtk_label_set_label (self->figure, self->typed->len > 0 ? self->typed->str : " ");
      hs_usual_window_add_answer (self, "Enter", '\n', _("That is the reading"), TRUE);
    }
  else
    {
      gtk_label_set_label (self->question, _("Does it work now?"));
      if (check != NULL)
        add_digit (self, 1, words);
    }
  hs_usual_window_add_answer (self, "*", '*', _("Not tested, because …"), FALSE);
}

static void
ask_unproven (HsUsualWindow *self)
{
  gtk_label_set_label (self->question, _("Why was it not tested?"));
  for (guint i = 0; i < G_N_ELEMENTS (reason_words); i++)
    add_digit (self, i + 1, _(reason_words[i]));
}

static const char *
way_word (int way)
{
  return hs_usual_ways[way] != NULL ? hs_words_label (HS_WORDS_PAID_HOW, hs_usual_ways[way]) : _("on account");
}

static void
ask_paid (HsUsualWindow *self)
{
  gtk_label_set_label (self->question, _("How is it paid?"));
  for (guint i = 0; i < HS_USUAL_N_WAYS; i++)
    add_digit (self, i + 1, way_word ((int) i));
}

static void
ask_square (HsUsualWindow *self)
{
  gtk_label_set_label (self->question, _("Square it up? That is for good."));
  hs_usual_window_add_answer (self, "Enter", '\n', _("Square Up"), TRUE);
}

static void
show_receipt (HsUsualWindow *self)
{
  const HsJobView *view = self->receipt;
  gint64 total = view->net_cents + view->tax_cents;
  g_autofree char *paid = hs_show_money (self->ledger, view->paid_cents);
  g_autofree char *open = hs_show_money (self->ledger, total - view->paid_cents);
  g_autofree char *tax = hs_show_money (self->ledger, view->tax_cents);
  g_autofree char *sum = hs_show_money (self->ledger, total);
  g_autofree char *text = NULL;

  gtk_label_set_label (self->figure, sum);
  /* Translators: a receipt: its number, the caller, the plate; then tax, what was paid, what is still to be paid. */
  text = g_strdup_printf (_("%s · %s · %s\nTax %s · Paid %s · To pay %s"), view->tag->number,
                          view->tag->customer != NULL ? view->tag->customer : "",
                          view->tag->plate != NULL ? view->tag->plate : "", tax, paid, open);
  gtk_label_set_label (self->question, text);
  hs_usual_window_add_answer (self, "Enter", '\n', _("Done"), TRUE);
}

static void
ask_step (HsUsualWindow *self, const HsUsual *usual)
{
  switch (self->step)
    {
    case HS_USUAL_YES:
      ask_yes (self);
      break;
    case HS_USUAL_SAFE:
      gtk_label_set_label (self->question, self->moved ? _("At the vehicle, which was moved: is it safe?")
                                                        : _("At the vehicle: is it safe?"));
      hs_usual_window_show_safe (self);
      break;
    case HS_USUAL_WHY:
      ask_why (self, usual);
      break;
    case HS_USUAL_PROOF:
      ask_proof (self, usual);
      break;
    case HS_USUAL_UNPROVEN:
      ask_unproven (self);
      break;
    case HS_USUAL_PAID:
      ask_paid (self);
      break;
    case HS_USUAL_SQUARE:
      ask_square (self);
      break;
    case HS_USUAL_RECEIPT:
      show_receipt (self);
      break;
    case HS_USUAL_WHAT:
    case HS_USUAL_N_STEPS:
    default:
      ask_what (self);
      break;
    }
}

/* What was told so far, in one line. */
static void
show_so_far (HsUsualWindow *self, const HsUsual *usual)
{
  g_autoptr (GString) text = g_string_new (usual != NULL && self->step > HS_USUAL_WHAT ? usual->name : "");

  if (self->step > HS_USUAL_WHY && usual != NULL)
    g_string_append_printf (text, " · %s", self->why >= 0 ? usual->whys[self->why] : _("not known, told"));
  if (self->step > HS_USUAL_UNPROVEN && self->unproven >= 0)
    g_string_append_printf (text, " · %s", _(reason_words[self->unproven]));
  else if (self->step > HS_USUAL_UNPROVEN)
    {
      g_autofree char *proof = dup_proof_words (self, self->proof);

      g_string_append_printf (text, " · %s", proof);
    }
  if (self->step > HS_USUAL_PAID)
    g_string_append_printf (text, " · %s", way_word (self->way));
  gtk_label_set_label (self->so_far, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->so_far), text->len > 0);
}

/* With the caution of the work goes whose word comes first. */
static void
show_caution (HsUsualWindow *self, const HsUsual *usual)
{
  gboolean before = self->step == HS_USUAL_YES || self->step == HS_USUAL_WHY;
  gboolean wanted = usual != NULL && usual->caution != NULL && before;
  g_autofree char *text = NULL;

  if (wanted)
    text = g_strdup_printf (_("%s. The vehicle maker, local rules and licensed practice come first."), usual->caution);
  gtk_label_set_label (self->caution, wanted ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->caution), wanted);
}

void
hs_usual_window_ask (HsUsualWindow *self, HsUsualStep step)
{
  const HsUsual *usual = hs_usual_window_get (self);
  GtkWidget *child;
  g_autofree char *price = usual != NULL && step > HS_USUAL_WHAT ? dup_price (self, usual) : g_strdup ("");

  self->step = step;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->answers))) != NULL)
    gtk_box_remove (self->answers, child);
  hs_usual_window_tell (self, NULL);
  show_so_far (self, usual);
  show_caution (self, usual);
  /* The list wants the room. */
  gtk_label_set_label (self->figure, step != HS_USUAL_SAFE ? price : "");
  ask_step (self, usual);
  gtk_widget_set_visible (GTK_WIDGET (self->figure), *gtk_label_get_label (self->figure) != '\0');
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "usual.back", step > HS_USUAL_WHY && step < HS_USUAL_RECEIPT);
  gtk_widget_child_focus (GTK_WIDGET (self->answers), GTK_DIR_TAB_FORWARD);
}

