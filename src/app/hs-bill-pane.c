// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The bill of a job as it stands now, with what can be done to it under digits: priced, squared up, paid. It adds
 * nothing up but the change: every sum comes from the book, and so does the reason where something is refused. */

#include "hs-bill-pane.h"

#include <glib/gi18n.h>

#include "hs-choice-face.h"
#include "hs-deed-bill.h"
#include "hs-deed-repair.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-money.h"
#include "hs-pad-key.h"
#include "hs-past-yes.h"
#include "hs-show.h"
#include "hs-square-window.h"
#include "hs-typed.h"

/* Where typed text is kept. */
#define PAGE "bill"
#define FIELD_GOODWILL "goodwill"
#define FIELD_PAID "paid"
#define FIELD_COST "cost"
#define FIELD_MINUTES "minutes"

/* What the entry asks for. */
typedef enum
{
  ASK_NOTHING,
  ASK_GOODWILL,
  ASK_AMOUNT,
  ASK_COST,
  ASK_MINUTES,
} Asks;

/* Under the digits from 1 on. */
static const char *const ways[] = { "cash", "card", "transfer", "check" };

struct _HsBillPane
{
  HsJobPane parent_instance;

  GtkBox *panes;
  GtkBox *lines;
  GtkLabel *figure_name;
  GtkLabel *figure;
  GtkBox *acts;
  GtkLabel *asked;
  GtkEntry *entry;

  Asks asks;
  guint way;
  gint64 change_cents;
  gboolean busy;
  gboolean filling;
  char *part_id; /* whose cost is asked for */
  HsPastYes past;
};

G_DEFINE_FINAL_TYPE (HsBillPane, hs_bill_pane, HS_TYPE_JOB_PANE)

static gint64
owed_cents (const HsJobView *view)
{
  return view->net_cents + view->tax_cents - view->paid_cents;
}

static gboolean
is_squared (const HsJobShot *shot)
{
  return shot->view->tag->stage == HS_STAGE_SQUARED;
}

static void
say (HsBillPane *self, const char *text)
{
  hs_past_yes_say (&self->past, text);
}

/* Lines ------------------------------------------------------------------------------------------------------------ */

static void
add_sum (HsBillPane *self, const char *text, gint64 cents)
{
  g_autofree char *figure = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), cents);

  hs_line_list_add (self->lines, text, figure, "hs-strong");
}

/* In small print, for the owner; the customer's page never has it. */
static void
add_shares (HsBillPane *self, const HsLineCost *cost)
{
  g_autofree char *shares = hs_choice_face_dup_shares (hs_page_get_ledger (HS_PAGE (self)), cost->cost_cents,
                                                       cost->price_cents, 0);

  if (shares != NULL)
    hs_line_list_add (self->lines, shares, NULL, "hs-caption");
}

static void
add_charges (HsBillPane *self, const HsJobView *view)
{
  GPtrArray *charges = view->lines;

  hs_line_list_add (self->lines, _("Lines"), NULL, "hs-title");
  for (guint i = 0; charges != NULL && i < charges->len; i++)
    {
      g_auto (GStrv) parts = g_strsplit (g_ptr_array_index (charges, i), "\t", 2);

      hs_line_list_add (self->lines, parts[0],
                        g_strcmp0 (parts[1], HS_NO_PRICE_YET) == 0 ? _("no price yet") : parts[1], NULL);
      add_shares (self, &g_array_index (view->costs, HsLineCost, i));
    }
  if ((charges == NULL || charges->len == 0) && view->clock_cents == 0)
    hs_line_list_add (self->lines, _("Nothing is charged yet."), NULL, "hs-soft");
}

/* What the clock adds before the job is priced, so that the bill comes to what the customer is shown. */
static void
add_clock (HsBillPane *self, const HsJobView *view)
{
  gulong minutes = (gulong) view->clock_minutes;
  g_autofree char *cents = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), view->clock_cents);
  g_autofree char *text = NULL;

  if (view->clock_cents == 0)
    return;
  /* Translators: minutes that somebody has worked at the vehicle. */
  text = g_strdup_printf (ngettext ("Work by the clock so far, %lu min on site: not priced yet",
                                    "Work by the clock so far, %lu min on site: not priced yet", minutes), minutes);
  hs_line_list_add (self->lines, text, cents, NULL);
}

/* What is not on the bill, why, and what to do. */
static char *
dup_unclocked (HsLedger *ledger, const HsJobView *view)
{
  g_autofree char *day = hs_show_day_of (ledger, view->unclocked_at);
  g_autofree char *clock = hs_show_clock (ledger, view->unclocked_at);

  if (view->unclocked_left_at != view->unclocked_at)
    /* Translators: a day, which may be "today", and a time of day. */
    return g_strdup_printf (_("Work of %s, begun at %s: this machine's clock was put back since then, so the "
                              "minutes are not known and not on the bill. Type them: press 5."), day, clock);
  /* Translators: a day, which may be "today", and a time of day. */
  return g_strdup_printf (_("Work of %s, begun and ended at %s: this machine's clock was put back, so the minutes are "
                            "not known and not on the bill. Type them: press 5."), day, clock);
}

static gboolean
is_unclocked (const HsJobView *view)
{
  return view->unclocked_at != HS_INSTANT_NONE;
}

static void
add_unclocked (HsBillPane *self, const HsJobView *view)
{
  g_autofree char *text = is_unclocked (view) ? dup_unclocked (hs_page_get_ledger (HS_PAGE (self)), view) : NULL;

  if (text != NULL)
    hs_line_list_add (self->lines, text, NULL, "hs-caution");
}

/* What was agreed stands; what the work took beyond it is told to the owner alone. */
static void
add_past (HsBillPane *self, const HsJobView *view)
{
  gulong minutes = (gulong) view->past_minutes;
  g_autofree char *text = NULL;

  if (minutes == 0)
    return;
  text = g_strdup_printf (ngettext ("%lu min past what was agreed, not charged. Tell a new option to charge it.",
                                    "%lu min past what was agreed, not charged. Tell a new option to charge them.",
                                    minutes), minutes);
  hs_line_list_add (self->lines, text, NULL, "hs-soft");
}

/* By how much it passes the go-ahead is told here already, before it stands in the way. */
static void
add_room (HsBillPane *self, const HsJobShot *shot)
{
  const HsGoAheadRoom *room = shot->choices->room;
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  g_autofree char *covered = hs_show_money (ledger, room->ceiling_cents + room->overrun_cents);
  g_autofree char *over = hs_show_money (ledger, room->short_cents);
  g_autofree char *text = NULL;

  if (!room->given || room->short_cents == 0 || is_squared (shot))
    return;
  /* Translators: two sums of money: what the customer's yes covers, and by how much the bill is more. */
  text = g_strdup_printf (_("The go-ahead covers %s: short by %s."), covered, over);
  hs_line_list_add (self->lines, text, NULL, "hs-caution");
}

static void
update_lines (HsBillPane *self, const HsJobShot *shot)
{
  const HsJobView *view = shot->view;

  hs_line_list_clear (self->lines);
  add_charges (self, view);
  add_clock (self, view);
  add_unclocked (self, view);
  add_past (self, view);
  add_sum (self, _("Net"), view->net_cents);
  add_sum (self, _("Tax"), view->tax_cents);
  add_sum (self, _("Total"), view->net_cents + view->tax_cents);
  add_room (self, shot);
  add_sum (self, _("Paid"), view->paid_cents);
  hs_line_list_add_all (self->lines, _("Installed"), view->installed, _("No part was installed."));
}

/* Acts ------------------------------------------------------------------------------------------------------------- */

static void
act_clicked_cb (HsBillPane *self, GtkButton *button)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "bill.press", "u",
                              GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "digit")));
}

static void
add_act (HsBillPane *self, guint digit, const char *text, gboolean inviting)
{
  char key[2] = { (char) ('0' + digit), '\0' };
  GtkWidget *button = hs_key_button_new (key, text, NULL);

  hs_key_button_set_row (HS_KEY_BUTTON (button));
  if (inviting)
    gtk_widget_add_css_class (button, "hs-fill");
  g_object_set_data (G_OBJECT (button), "digit", GUINT_TO_POINTER (digit));
  g_signal_connect_object (button, "clicked", G_CALLBACK (act_clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->acts, button);
}

/* Of a job that was called off only the fee is charged, if there is one. */
static gboolean
is_called_off (const HsJobView *view)
{
  return view->tag->stage == HS_STAGE_CALLED_OFF;
}

static void
add_open_acts (HsBillPane *self, const HsJobView *view)
{
  gboolean unclocked = is_unclocked (view);
  gboolean priced = view->lines != NULL && view->lines->len > 0 && view->clock_cents == 0 && !unclocked;

  if (is_called_off (view))
    {
      if (priced)
        add_act (self, 3, _("Square Up"), TRUE);
      return;
    }
  add_act (self, 1, priced ? _("Price It Anew") : _("Price It from the Clock and the Parts"), !priced && !unclocked);
  add_act (self, 2, _("On the House"), FALSE);
  add_act (self, 3, _("Square Up"), priced && view->unpriced == NULL && view->tag->stage == HS_STAGE_PROVEN);
  if (view->unpriced != NULL)
    {
      /* Translators: a part that was installed. */
      g_autofree char *text = g_strdup_printf (_("What “%s” Cost"), view->unpriced);

      add_act (self, 4, text, TRUE);
    }
  if (unclocked)
    add_act (self, 5, _("Type the Minutes at the Vehicle"), TRUE);
}

static void
update_acts (HsBillPane *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;

  hs_line_list_clear (self->acts);
  if (self->asks == ASK_NOTHING && !is_squared (shot))
    add_open_acts (self, shot->view);
  for (guint i = 0; self->asks == ASK_NOTHING && is_squared (shot) && owed_cents (shot->view) > 0
                    && i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *text = g_strdup_printf (_("Paid: %s"), hs_show_word (HS_WORDS_PAID_HOW, ways[i]));

      add_act (self, i + 1, text, FALSE);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->entry), self->asks != ASK_NOTHING);
  gtk_widget_set_visible (GTK_WIDGET (self->asked), self->asks != ASK_NOTHING);
  hs_page_keep_focus (HS_PAGE (self), had_focus, GTK_WIDGET (self));
}

/* The one large figure: the change as long as there is some to give, else what is to pay. */
static void
update_figure (HsBillPane *self, const HsJobView *view)
{
  gint64 cents = self->change_cents > 0 ? self->change_cents : owed_cents (view);
  g_autofree char *text = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), cents);

  gtk_label_set_label (self->figure_name, self->change_cents > 0 ? _("Change") : _("To pay"));
  gtk_label_set_label (self->figure, text);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsBillPane *self = HS_BILL_PANE (pane);

  if (!is_squared (shot) && self->asks == ASK_AMOUNT)
    self->asks = ASK_NOTHING;
  update_lines (self, shot);
  update_figure (self, shot->view);
  update_acts (self);
}

/* Asking ----------------------------------------------------------------------------------------------------------- */

static void
ask (HsBillPane *self, Asks asks, const char *what, const char *text)
{
  self->asks = asks;
  hs_past_yes_forget (&self->past);
  say (self, NULL);
  gtk_label_set_label (self->asked, what);
  self->filling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  self->filling = FALSE;
  gtk_entry_set_input_purpose (self->entry,
                               asks == ASK_GOODWILL ? GTK_INPUT_PURPOSE_FREE_FORM : GTK_INPUT_PURPOSE_NUMBER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, what, -1);
  update_acts (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

static void
stop_asking (HsBillPane *self)
{
  self->asks = ASK_NOTHING;
  hs_past_yes_forget (&self->past);
  g_clear_pointer (&self->part_id, g_free);
  hs_job_pane_forget (HS_JOB_PANE (self), PAGE);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  update_acts (self);
}

static void
entry_changed_cb (HsBillPane *self)
{
  g_autofree char *paid = g_strconcat (FIELD_PAID, "/", ways[self->way], NULL);
  g_autofree char *cost = g_strconcat (FIELD_COST, "/", self->part_id, NULL);
  const char *const fields[] = { [ASK_GOODWILL] = FIELD_GOODWILL, [ASK_AMOUNT] = paid, [ASK_COST] = cost,
                                 [ASK_MINUTES] = FIELD_MINUTES };

  hs_past_yes_forget (&self->past);
  if (!self->filling && self->asks != ASK_NOTHING)
    hs_job_pane_note (HS_JOB_PANE (self), PAGE, fields[self->asks],
                      gtk_editable_get_text (GTK_EDITABLE (self->entry)));
}

static gboolean
finish_task (HsBillPane *self, GObject *source, GAsyncResult *result)
{
  g_autoptr (GError) error = NULL;

  self->busy = FALSE;
  hs_past_yes_forget (&self->past);
  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      say (self, NULL);
      return TRUE;
    }
  self->change_cents = 0;
  hs_past_yes_refuse (&self->past, error);
  return FALSE;
}

static void
priced_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsBillPane) self = data;

  if (!finish_task (self, source, result))
    return;
  if (self->asks != ASK_NOTHING && self->asks != ASK_AMOUNT)
    stop_asking (self);
}

static void
paid_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsBillPane) self = data;

  g_autofree char *done = NULL;

  if (!finish_task (self, source, result))
    return;
  done = g_strdup_printf (_("Paid: %s"), hs_show_word (HS_WORDS_PAID_HOW, ways[self->way]));
  hs_page_did (HS_PAGE (self), done, NULL, NULL, NULL);
  stop_asking (self);
}

static void
price (HsBillPane *self, const char *goodwill)
{
  self->busy = TRUE;
  hs_deed_price (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)), goodwill, priced_cb,
                 g_object_ref (self));
}

/* @typed: (nullable): instead of all that is owed. */
static void
ask_amount (HsBillPane *self, guint way, gint64 owed, const char *typed)
{
  g_autofree char *text = hs_money_format (owed, hs_ledger_get_currency (hs_page_get_ledger (HS_PAGE (self))));
  g_autofree char *what = g_strdup_printf (_("Paid: %s. How much?"), hs_show_word (HS_WORDS_PAID_HOW, ways[way]));

  self->way = way;
  self->change_cents = 0;
  ask (self, ASK_AMOUNT, what, typed != NULL ? typed : text);
}

static void
ask_goodwill (HsBillPane *self, const char *typed)
{
  ask (self, ASK_GOODWILL, _("Nothing is charged because:"), typed);
}

/* @typed: (nullable): for the part @part_id, if it still lacks a price. */
static void
ask_cost (HsBillPane *self, const HsJobView *view, const char *part_id, const char *typed)
{
  g_autofree char *what = NULL;

  if (view->unpriced_id == NULL || g_strcmp0 (part_id, view->unpriced_id) != 0)
    return;
  /* Translators: a part that was installed. */
  what = g_strdup_printf (_("What did “%s” cost? Its price follows. 0: it is not charged."), view->unpriced);
  g_free (self->part_id);
  self->part_id = g_strdup (part_id);
  ask (self, ASK_COST, what, typed != NULL ? typed : "");
}

/* @typed: (nullable): if they are still not known. */
static void
ask_minutes (HsBillPane *self, const HsJobView *view, const char *typed)
{
  g_autofree char *day = NULL, *what = NULL;

  if (!is_unclocked (view))
    return;
  day = hs_show_day_of (hs_page_get_ledger (HS_PAGE (self)), view->unclocked_at);
  /* Translators: a day, which may be "today". */
  what = g_strdup_printf (_("Work of %s: how many minutes at the vehicle, without pauses?"), day);
  ask (self, ASK_MINUTES, what, typed != NULL ? typed : "");
}

static void
set_minutes (HsBillPane *self, const char *text)
{
  int minutes = g_str_equal (text, "0") ? 0 : hs_typed_minutes (text);

  if (*text == '\0' || minutes < 0)
    {
      say (self, _("Type whole minutes, such as 45; 0 where there were none."));
      return;
    }
  self->busy = TRUE;
  hs_deed_set_minutes (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)), minutes,
                       priced_cb, g_object_ref (self));
}

/* More cash than is owed leaves change; by any other way it is for the book to refuse. */
static void
pay (HsBillPane *self, const HsJobView *view, const char *text)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  gint64 owed = owed_cents (view), cents;
  g_autoptr (GError) error = NULL;

  if (!hs_money_parse (text, hs_ledger_get_currency (ledger), &cents, &error))
    {
      say (self, error->message);
      return;
    }
  self->change_cents = self->way == 0 ? MAX (0, cents - owed) : 0;
  self->busy = TRUE;
  hs_deed_pay (ledger, hs_job_pane_get_job_id (HS_JOB_PANE (self)), cents - self->change_cents, ways[self->way],
               paid_cb, g_object_ref (self));
}

static void
send_cost (HsBillPane *self, const char *text, gboolean insists)
{
  self->busy = TRUE;
  hs_past_yes_give (&self->past, text);
  hs_deed_set_part (hs_page_get_ledger (HS_PAGE (self)), self->part_id, "cost", text, insists, priced_cb,
                    g_object_ref (self));
}

/* Returns: whether something was told that a yes is wanted to. */
static gboolean
insist (HsBillPane *self)
{
  g_autofree char *text = g_strdup (self->past.passes);

  if (text != NULL && !self->busy)
    send_cost (self, text, TRUE);
  return text != NULL;
}

static void
entry_activate_cb (HsBillPane *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));

  if (self->busy || shot == NULL)
    return;
  if (self->asks == ASK_AMOUNT)
    pay (self, shot->view, text);
  else if (self->asks == ASK_MINUTES)
    set_minutes (self, text);
  else if (self->asks == ASK_COST && *text == '\0')
    say (self, _("Write down what it cost; 0 where nothing is charged for it."));
  else if (self->asks == ASK_COST && self->past.passes == NULL)
    send_cost (self, text, FALSE);
  else if (self->asks == ASK_COST)
    return; /* the same again says nothing new */
  else if (*text == '\0')
    say (self, _("Say why nothing is charged; it stands on the invoice."));
  else
    price (self, text);
}

static void
press_open (HsBillPane *self, const HsJobView *view, guint digit)
{
  if (digit == 1)
    price (self, NULL);
  else if (digit == 2)
    ask_goodwill (self, "");
  else if (digit == 3)
    hs_square_window_present (HS_PAGE (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)), view->tag->number);
  else if (digit == 4)
    ask_cost (self, view, view->unpriced_id, NULL);
  else if (digit == 5)
    ask_minutes (self, view, NULL);
}

/* Whether @digit stands on an act of a bill that is not frozen. */
static gboolean
is_open_act (const HsJobView *view, guint digit)
{
  if (is_called_off (view))
    return digit == 3 && owed_cents (view) != 0;
  return digit <= 3 || (digit == 4 && view->unpriced != NULL) || (digit == 5 && is_unclocked (view));
}

/* Whether @digit is one of those that are shown. */
static gboolean
press (HsBillPane *self, guint digit)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));
  gboolean squared = shot != NULL && is_squared (shot);

  if (shot == NULL || self->asks != ASK_NOTHING || digit < 1
      || (squared ? owed_cents (shot->view) <= 0 || digit > G_N_ELEMENTS (ways) : !is_open_act (shot->view, digit)))
    return FALSE;
  if (self->busy)
    return TRUE;
  if (squared)
    ask_amount (self, digit - 1, owed_cents (shot->view), NULL);
  else
    press_open (self, shot->view, digit);
  return TRUE;
}

/* What was typed and not stored. */
static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsBillPane *self = HS_BILL_PANE (pane);
  const HsJobShot *shot = hs_job_pane_get_shot (pane);
  g_auto (GStrv) parts = g_strsplit (field != NULL ? field : "", "/", 2);

  if (shot == NULL || text == NULL || *text == '\0')
    return;
  if (g_strcmp0 (parts[0], FIELD_GOODWILL) == 0 && !is_squared (shot))
    ask_goodwill (self, text);
  if (g_strcmp0 (parts[0], FIELD_COST) == 0 && !is_squared (shot))
    ask_cost (self, shot->view, parts[1], text);
  if (g_strcmp0 (parts[0], FIELD_MINUTES) == 0 && !is_squared (shot))
    ask_minutes (self, shot->view, text);
  for (guint i = 0; g_strcmp0 (parts[0], FIELD_PAID) == 0 && is_squared (shot) && i < G_N_ELEMENTS (ways); i++)
    if (g_strcmp0 (parts[1], ways[i]) == 0)
      ask_amount (self, i, owed_cents (shot->view), text);
}

static void
press_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  press (HS_BILL_PANE (widget), g_variant_get_uint32 (parameter));
}

/* For a finger, a voice or a switch. */
static void
take_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  entry_activate_cb (HS_BILL_PANE (widget));
}

static void
insist_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  insist (HS_BILL_PANE (widget));
}

static void
leave_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  stop_asking (HS_BILL_PANE (widget));
}

static gboolean
key_cb (HsBillPane *self, guint keyval, guint keycode, GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  if (self->asks != ASK_NOTHING)
    {
      if (hs_pad_key_sign (keyval) == '+' && insist (self))
        return TRUE;
      if (keyval != GDK_KEY_Escape)
        return FALSE;
      stop_asking (self);
      return TRUE;
    }
  if (keyval >= GDK_KEY_0 && keyval <= GDK_KEY_9)
    return press (self, keyval - GDK_KEY_0);
  if (keyval >= GDK_KEY_KP_0 && keyval <= GDK_KEY_KP_9)
    return press (self, keyval - GDK_KEY_KP_0);
  return FALSE;
}

static void
room_changed (HsPage *page)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (HS_BILL_PANE (page)->panes), hs_page_get_narrow (page)
                                                                                 ? GTK_ORIENTATION_VERTICAL
                                                                                 : GTK_ORIENTATION_HORIZONTAL);
}

/* Digits act as soon as the bill is looked at. */
static void
shown (HsPage *page)
{
  gtk_widget_grab_focus (HS_BILL_PANE (page)->asks == ASK_NOTHING ? GTK_WIDGET (page)
                                                                  : GTK_WIDGET (HS_BILL_PANE (page)->entry));
}

static void
hs_bill_pane_finalize (GObject *object)
{
  g_free (HS_BILL_PANE (object)->part_id);
  hs_past_yes_clear (&HS_BILL_PANE (object)->past);
  G_OBJECT_CLASS (hs_bill_pane_parent_class)->finalize (object);
}

static void
hs_bill_pane_class_init (HsBillPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_bill_pane_finalize;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-bill-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, panes);
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, lines);
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, figure_name);
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, figure);
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, acts);
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, asked);
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, entry);
  gtk_widget_class_bind_template_child_full (widget_class, "insist", FALSE, G_STRUCT_OFFSET (HsBillPane, past.insist));
  gtk_widget_class_bind_template_child_full (widget_class, "said", FALSE, G_STRUCT_OFFSET (HsBillPane, past.said));
  gtk_widget_class_bind_template_callback (widget_class, entry_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, entry_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "bill.take", NULL, take_action);
  gtk_widget_class_install_action (widget_class, "bill.insist", NULL, insist_action);
  gtk_widget_class_install_action (widget_class, "bill.leave", NULL, leave_action);
  gtk_widget_class_install_action (widget_class, "bill.press", "u", press_action);
}

static void
hs_bill_pane_init (HsBillPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
