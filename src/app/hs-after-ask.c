// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the pane asks for and how it is answered: one digit chooses while the field is empty, Enter takes words, and a
 * number where the words may begin with one. A part that was just put in is asked for field by field; Enter on an empty
 * entry passes one over. Nothing is kept here: every answer goes to the book, which refuses what cannot be, in its own
 * words. */

#include "hs-after-pane-private.h"

#include <glib/gi18n.h>

#include "hs-deed.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-money.h"
#include "hs-show.h"

#define PAGE "after"

/* Choices that a digit can name. */
#define AT_ONCE 9

static const HsTongue tongue = { gettext, ngettext };

/* What is asked of a part that was just put in, in this order. */
static const char *const in_turn[] = { "cost", "why", "months", "date_code", "odometer", "old" };

static const struct
{
  const char *field;
  const char *name;
  const char *question;
} fields[] = {
  { "what", N_ ("Name"), N_ ("What was installed?") },
  { "place", N_ ("Place"), N_ ("Where on the vehicle?") },
  { "serial", N_ ("Serial number"), N_ ("Serial number?") },
  { "date_code", N_ ("Date code"), N_ ("Date code of the battery, as it is stamped?") },
  { "maker", N_ ("Maker"), N_ ("Who made it?") },
  { "bill", N_ ("Supplier's bill"), N_ ("Number of the supplier's bill?") },
  { "months", N_ ("Months of cover"), N_ ("How many months is it covered?") },
  { "miles", N_ ("Miles of cover"), N_ ("How many miles is it covered?") },
  { "odometer", N_ ("Odometer"), N_ ("What does the odometer show?") },
  { "why", N_ ("Why the old one went"), N_ ("Why did the old one go?") },
  { "old", N_ ("Old part"), N_ ("What became of the old one?") },
  { "cost", N_ ("Cost"),
    N_ ("What did it cost? Its price on the bill follows. 0: it is not charged. Enter alone: no price yet.") },
};

static HsLedger *
ledger_of (HsAfterPane *self)
{
  return hs_page_get_ledger (HS_PAGE (self));
}

static const HsRepairShot *
repair_of (HsAfterPane *self)
{
  return hs_job_pane_get_shot (HS_JOB_PANE (self))->repair;
}

static const HsFittedPart *
find_part (HsAfterPane *self, const char *part_id)
{
  const HsRepair *repair = repair_of (self)->repair;

  for (guint i = 0; i < repair->parts->len; i++)
    if (g_strcmp0 (((const HsFittedPart *) g_ptr_array_index (repair->parts, i))->id, part_id) == 0)
      return g_ptr_array_index (repair->parts, i);
  return NULL;
}

static char *
dup_whole (gint64 value)
{
  return value == HS_INT_NONE || value <= 0 ? g_strdup ("") : g_strdup_printf ("%" G_GINT64_FORMAT, value);
}

/* What a field holds now, as it is typed. */
static char *
dup_value (HsAfterPane *self, const HsFittedPart *part, const char *field)
{
  const struct
  {
    const char *field;
    const char *text;
  } texts[] = {
    { "what", part->what },   { "place", part->place }, { "serial", part->serial }, { "date_code", part->date_stamp },
    { "maker", part->maker }, { "bill", part->bill },   { "why", part->why },       { "old", part->old_part },
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (g_str_equal (texts[i].field, field))
      return g_strdup (texts[i].text != NULL ? texts[i].text : "");
  if (g_str_equal (field, "cost"))
    return part->unpriced ? g_strdup ("")
                          : hs_money_format (part->cost_cents, hs_ledger_get_currency (ledger_of (self)));
  if (g_str_equal (field, "months"))
    return dup_whole (part->months);
  if (g_str_equal (field, "miles"))
    return dup_whole (part->millimiles == HS_INT_NONE ? HS_INT_NONE : part->millimiles / 1000);
  return dup_whole (part->odometer);
}

/* Choices -----------------------------------------------------------------------------------------------------------*/

static void
choice_clicked_cb (HsAfterPane *self, GtkButton *button)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "after.press", "u",
                              GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "number")));
}

/* Words are an answer as well, and may begin with a digit: “12 V bulb”. A number is one of the whole list then, and
 * Enter takes it. */
static gboolean
takes_number (HsAfterPane *self)
{
  return self->asks == HS_AFTER_ASK_FIT || self->asks == HS_AFTER_ASK_DISTURBED;
}

static void
add_choice (HsAfterPane *self, const char *value, const char *label)
{
  guint number = self->values->len + 1;
  guint digit = number - self->page * AT_ONCE;
  g_autofree char *key = g_strdup_printf ("%u", takes_number (self) ? number : digit);
  GtkWidget *button;

  g_ptr_array_add (self->values, g_strdup (value));
  if (number <= self->page * AT_ONCE || digit > AT_ONCE)
    return;
  button = hs_key_button_new (key, label, NULL);

  hs_key_button_set_row (HS_KEY_BUTTON (button));
  hs_key_button_set_wraps (HS_KEY_BUTTON (button), TRUE);
  g_object_set_data (G_OBJECT (button), "number", GUINT_TO_POINTER (number));
  g_signal_connect_object (button, "clicked", G_CALLBACK (choice_clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->acts, button);
}

/* The list goes on: the next nine, and after the last the first again. */
static void
add_more (HsAfterPane *self)
{
  if (self->values->len > AT_ONCE)
    gtk_box_append (self->acts, hs_key_button_new ("+", _("More"), "after.more"));
}

void
hs_after_ask_turn (HsAfterPane *self)
{
  if (self->values->len <= AT_ONCE)
    return;
  self->page = (self->page + 1) * AT_ONCE < self->values->len ? self->page + 1 : 0;
  hs_after_ask_update (self);
}

static void
add_words (HsAfterPane *self, HsWords words)
{
  gsize n;
  const HsWord *list = hs_words_get (words, &n);

  for (gsize i = 0; i < n; i++)
    add_choice (self, list[i].id, _(list[i].label));
}

/* A finding says why it failed, and is picked as such. */
static void
add_whys (HsAfterPane *self)
{
  GPtrArray *reasons = repair_of (self)->reasons;

  for (guint i = 0; i < reasons->len; i++)
    {
      const HsRepairReason *reason = g_ptr_array_index (reasons, i);
      g_autofree char *label = g_strdup_printf (_("It failed: %s"), reason->what);

      add_choice (self, reason->id, label);
    }
  add_choice (self, "due", _("It was due"));
  add_choice (self, "none_before", _("There was none before"));
  add_choice (self, "not_known", _("Not known, and the customer is told"));
}

static const char *
say_from (const HsRepairNeed *need)
{
  if (need->from == HS_REPAIR_FROM_NEED)
    return _("for this job");
  return need->from == HS_REPAIR_FROM_BILL ? _("on the bill") : "";
}

static void
add_needs (HsAfterPane *self)
{
  GPtrArray *needs = repair_of (self)->needs;

  for (guint i = 0; i < needs->len; i++)
    {
      const HsRepairNeed *need = g_ptr_array_index (needs, i);
      g_autofree char *label = hs_show_joined (need->name, need->number != NULL ? need->number : "", say_from (need),
                                               need->in_van ? _("out of the van") : "", NULL);

      add_choice (self, need->number != NULL ? need->number : need->name, label);
    }
}

static void
add_fields (HsAfterPane *self)
{
  const HsFittedPart *part = find_part (self, self->part_id);

  for (guint i = 0; part != NULL && i < G_N_ELEMENTS (fields); i++)
    {
      g_autofree char *value = dup_value (self, part, fields[i].field);
      g_autofree char *label = *value == '\0' ? g_strdup (_(fields[i].name))
                                              : g_strdup_printf ("%s: %s", _(fields[i].name), value);

      add_choice (self, fields[i].field, label);
    }
}

static void
add_places (HsAfterPane *self)
{
  const HsAfterPlace *place;

  for (guint i = 0; self->list != NULL && (place = hs_after_list_get_nth (self->list, i)) != NULL; i++)
    add_choice (self, place->id, hs_show_data (place->name));
}

/* What can be done, each under its digit. */
static void
add_acts (HsAfterPane *self)
{
  const char *const acts[] = { _("Part Installed"), _("Something Disturbed"), _("Tried Again"),
                               _("Not Proven Because"), _("Safe to Drive"), _("Odometer") };

  for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
    add_choice (self, NULL, acts[i]);
}

/* A squared job takes nothing any more. */
static gboolean
is_open (HsAfterPane *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));

  return shot != NULL && shot->view->tag->stage != HS_STAGE_SQUARED;
}

static void
add_choices (HsAfterPane *self)
{
  const char *field = self->asks == HS_AFTER_ASK_FIELD ? fields[self->field].field : "";

  if (self->asks == HS_AFTER_ASK_NOTHING && is_open (self))
    add_acts (self);
  else if (self->asks == HS_AFTER_ASK_FIT)
    add_needs (self);
  else if (self->asks == HS_AFTER_ASK_WHICH)
    add_fields (self);
  else if (self->asks == HS_AFTER_ASK_DISTURBED)
    add_places (self);
  else if (self->asks == HS_AFTER_ASK_SAFE)
    add_words (self, HS_WORDS_SAFE_TO_DRIVE);
  else if (g_str_equal (field, "why"))
    add_whys (self);
  else if (g_str_equal (field, "old"))
    add_words (self, HS_WORDS_OLD_PART);
  for (guint i = 0; self->asks == HS_AFTER_ASK_UNPROVED && hs_unproved_reason (i, &tongue) != NULL; i++)
    add_choice (self, hs_unproved_reason (i, &tongue), hs_unproved_reason (i, &tongue));
}

static const char *
say_question (HsAfterPane *self)
{
  switch (self->asks)
    {
    case HS_AFTER_ASK_FIT:
      return _("What was installed? A number and Enter chooses, or type the words.");
    case HS_AFTER_ASK_WHICH:
      return _("What about it is to be written down?");
    case HS_AFTER_ASK_FIELD:
      return _(fields[self->field].question);
    case HS_AFTER_ASK_DISTURBED:
      return _("What was disturbed? A number and Enter chooses, or type the words.");
    case HS_AFTER_ASK_TRIES:
      return _("How often was it good, of how many tries? 55 is 5 of 5, 9.12 is 9 of 12.");
    case HS_AFTER_ASK_UNPROVED:
      return _("It is not proven because:");
    case HS_AFTER_ASK_SAFE:
      return _("Is it safe to drive?");
    case HS_AFTER_ASK_ODOMETER:
      return _("What does the odometer show?");
    case HS_AFTER_ASK_NOTHING:
    default:
      return "";
    }
}

/* Where there is one column, what is asked for comes before what is known. */
static void
put_in_order (HsAfterPane *self, gboolean asked_first)
{
  if (asked_first == (gtk_widget_get_first_child (GTK_WIDGET (self->panes)) == self->ask_box))
    return;
  gtk_box_reorder_child_after (self->panes, self->ask_box, asked_first ? NULL : self->facts_box);
}

void
hs_after_ask_update (HsAfterPane *self)
{
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;
  gboolean asking = self->asks != HS_AFTER_ASK_NOTHING;

  if (hs_job_pane_get_shot (HS_JOB_PANE (self)) == NULL)
    return;
  hs_line_list_clear (self->acts);
  g_ptr_array_set_size (self->values, 0);
  add_choices (self);
  add_more (self);
  gtk_label_set_label (self->asked, say_question (self));
  gtk_widget_set_visible (GTK_WIDGET (self->asked), asking);
  gtk_widget_set_visible (GTK_WIDGET (self->entry), asking);
  gtk_widget_set_visible (self->more, !asking);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, say_question (self),
                                  -1);
  put_in_order (self, asking && hs_page_get_narrow (HS_PAGE (self)));
  hs_page_keep_focus (HS_PAGE (self), had_focus, asking ? GTK_WIDGET (self->entry) : GTK_WIDGET (self));
}

/* Asking ------------------------------------------------------------------------------------------------------------*/

static void
ask (HsAfterPane *self, HsAfterAsks asks, const char *text)
{
  self->asks = asks;
  self->page = 0;
  hs_past_yes_forget (&self->past);
  hs_after_pane_say (self, NULL);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  hs_after_ask_update (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

void
hs_after_ask_stop (HsAfterPane *self)
{
  self->asks = HS_AFTER_ASK_NOTHING;
  self->page = 0;
  self->in_turn = self->fitted = FALSE;
  hs_past_yes_forget (&self->past);
  g_clear_pointer (&self->part_id, g_free);
  hs_after_pane_say (self, NULL);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  hs_job_pane_forget (HS_JOB_PANE (self), PAGE);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  hs_after_ask_update (self);
}

static guint
find_field (const char *field)
{
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (g_strcmp0 (fields[i].field, field) == 0)
      return i;
  return G_N_ELEMENTS (fields);
}

static void
ask_field (HsAfterPane *self, guint field, gboolean with_value)
{
  const HsFittedPart *part = find_part (self, self->part_id);
  gboolean chosen = g_str_equal (fields[field].field, "why") || g_str_equal (fields[field].field, "old");
  gboolean shown = part != NULL && with_value && !chosen;
  g_autofree char *value = shown ? dup_value (self, part, fields[field].field) : g_strdup ("");

  self->field = field;
  ask (self, HS_AFTER_ASK_FIELD, value);
}

/* The next question about a part that was just put in. */
static void
ask_in_turn (HsAfterPane *self, guint from)
{
  const HsFittedPart *part = find_part (self, self->part_id);

  for (guint i = from; i < G_N_ELEMENTS (in_turn); i++)
    {
      if (g_str_equal (in_turn[i], "cost") && part != NULL && !part->unpriced)
        continue;
      if (g_str_equal (in_turn[i], "date_code") && part != NULL && g_strcmp0 (part->kind, "battery") != 0)
        continue;
      self->in_turn = TRUE;
      ask_field (self, find_field (in_turn[i]), TRUE);
      return;
    }
  hs_after_ask_stop (self);
}

static void
go_on (HsAfterPane *self)
{
  if (self->asks == HS_AFTER_ASK_FIELD && self->in_turn)
    {
      for (guint i = 0; i < G_N_ELEMENTS (in_turn); i++)
        if (g_str_equal (in_turn[i], fields[self->field].field))
          {
            ask_in_turn (self, i + 1);
            return;
          }
    }
  else if (self->asks == HS_AFTER_ASK_FIELD)
    ask (self, HS_AFTER_ASK_WHICH, "");
  else
    hs_after_ask_stop (self);
}

void
hs_after_ask_part (HsAfterPane *self, const char *part_id)
{
  g_free (self->part_id);
  self->part_id = g_strdup (part_id);
  self->in_turn = FALSE;
  ask (self, HS_AFTER_ASK_WHICH, "");
}

gboolean
hs_after_ask_start (HsAfterPane *self, guint digit)
{
  static const HsAfterAsks acts[] = { HS_AFTER_ASK_FIT,      HS_AFTER_ASK_DISTURBED, HS_AFTER_ASK_TRIES,
                                      HS_AFTER_ASK_UNPROVED, HS_AFTER_ASK_SAFE,      HS_AFTER_ASK_ODOMETER };
  const HsRepair *repair;

  if (!is_open (self) || digit < 1 || digit > G_N_ELEMENTS (acts))
    return FALSE;
  repair = repair_of (self)->repair;
  ask (self, acts[digit - 1],
       acts[digit - 1] == HS_AFTER_ASK_UNPROVED && repair->unproved_why != NULL ? repair->unproved_why : "");
  return TRUE;
}

/* Answers -----------------------------------------------------------------------------------------------------------*/

static void
answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsAfterPane) self = data;

  if (hs_after_pane_done (self, source, result, NULL) && self->asks != HS_AFTER_ASK_NOTHING)
    go_on (self);
}

static void
tried_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsAfterPane) self = data;
  gpointer answer = NULL;

  if (!hs_after_pane_done (self, source, result, &answer))
    return;
  hs_reading_result_free (answer);
  go_on (self);
}

static void
fitted_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsAfterPane) self = data;
  gpointer answer = NULL;

  if (!hs_after_pane_done (self, source, result, &answer))
    return;
  g_free (self->part_id);
  self->part_id = answer;
  self->fitted = TRUE;
  hs_after_ask_shown (self);
}

void
hs_after_ask_shown (HsAfterPane *self)
{
  if (!self->fitted || find_part (self, self->part_id) == NULL)
    return;
  self->fitted = FALSE;
  ask_in_turn (self, 0);
}

static void
fit (HsAfterPane *self, const char *text, gboolean insists)
{
  GPtrArray *needs = repair_of (self)->needs;
  const HsRepairNeed *need = NULL;

  for (guint i = 0; i < needs->len; i++)
    if (g_strcmp0 (((const HsRepairNeed *) g_ptr_array_index (needs, i))->number, text) == 0)
      need = g_ptr_array_index (needs, i);
  hs_deed_fit (ledger_of (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)), need != NULL ? NULL : text,
               need != NULL ? need->number : NULL, need != NULL && need->in_van, insists, fitted_cb,
               g_object_ref (self));
}

static void
add_tries (HsAfterPane *self, const char *text)
{
  const char *check = repair_of (self)->repair->try_check;
  const HsReadingEntry entry = { .check = check != NULL ? check : "tried_again", .keyed = text, .phase = "after",
                                 .at = HS_INSTANT_NONE };

  hs_deed_add_reading (ledger_of (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)), &entry, tried_cb,
                       g_object_ref (self));
}

static void
say_of_job (HsAfterPane *self, const char *what, const char *text)
{
  hs_deed_say (ledger_of (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)), what, text, answered_cb,
               g_object_ref (self));
}

static void
send (HsAfterPane *self, const char *text, gboolean insists)
{
  const char *job_id = hs_job_pane_get_job_id (HS_JOB_PANE (self));

  self->busy = TRUE;
  hs_past_yes_give (&self->past, text);
  if (self->asks == HS_AFTER_ASK_FIT)
    fit (self, text, insists);
  else if (self->asks == HS_AFTER_ASK_FIELD)
    hs_deed_set_part (ledger_of (self), self->part_id, fields[self->field].field, text, insists, answered_cb,
                      g_object_ref (self));
  else if (self->asks == HS_AFTER_ASK_DISTURBED)
    hs_deed_disturb (ledger_of (self), job_id, text, answered_cb, g_object_ref (self));
  else if (self->asks == HS_AFTER_ASK_TRIES)
    add_tries (self, text);
  else
    say_of_job (self, self->asks == HS_AFTER_ASK_UNPROVED ? "unproved"
                      : self->asks == HS_AFTER_ASK_SAFE   ? "safe"
                                                          : "odometer", text);
}

gboolean
hs_after_ask_insist (HsAfterPane *self)
{
  g_autofree char *text = g_strdup (self->past.passes);

  if (text != NULL && !self->busy)
    send (self, text, TRUE);
  return text != NULL;
}

static void
give (HsAfterPane *self, const char *text)
{
  gboolean may_be_empty = self->asks == HS_AFTER_ASK_UNPROVED
                          || (self->asks == HS_AFTER_ASK_FIELD && !self->in_turn);

  if (*text == '\0' && !may_be_empty)
    {
      go_on (self);
      return;
    }
  if (self->asks == HS_AFTER_ASK_WHICH)
    {
      if (find_field (text) < G_N_ELEMENTS (fields))
        ask_field (self, find_field (text), TRUE);
      return;
    }
  /* The same again says nothing new. */
  if (g_strcmp0 (self->past.passes, text) == 0)
    return;
  hs_past_yes_forget (&self->past);
  send (self, text, FALSE);
}

void
hs_after_ask_choose (HsAfterPane *self, guint number)
{
  if (self->busy || self->fitted || number < 1 || number > self->values->len)
    return;
  if (self->asks == HS_AFTER_ASK_NOTHING)
    {
      hs_after_ask_start (self, number);
      return;
    }
  g_autofree char *value = g_strdup (g_ptr_array_index (self->values, number - 1));

  give (self, value);
}

/* Who types a number on a button means the entry. */
static gboolean
type_number (HsAfterPane *self, guint digit)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));
  char text[] = { (char) ('0' + digit), '\0' };
  int at = -1;

  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->entry)))
    return FALSE;
  gtk_entry_grab_focus_without_selecting (self->entry);
  gtk_editable_insert_text (GTK_EDITABLE (self->entry), text, 1, &at);
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
  return TRUE;
}

gboolean
hs_after_ask_press (HsAfterPane *self, guint digit)
{
  guint number = self->page * AT_ONCE + digit;

  if (takes_number (self))
    return type_number (self, digit);
  if (*gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0' || digit < 1 || number > self->values->len)
    return FALSE;
  hs_after_ask_choose (self, number);
  return TRUE;
}

/* A digit that stands for nothing is no answer in words either. */
static gboolean
is_no_choice (HsAfterPane *self, const char *text)
{
  gboolean picked = self->asks == HS_AFTER_ASK_SAFE || self->asks == HS_AFTER_ASK_DISTURBED
                    || self->asks == HS_AFTER_ASK_WHICH
                    || (self->asks == HS_AFTER_ASK_FIELD
                        && (g_str_equal (fields[self->field].field, "why")
                            || g_str_equal (fields[self->field].field, "old")));
  guint64 number;

  return picked && self->values->len > 0 && g_ascii_string_to_unsigned (text, 10, 0, G_MAXUINT32, &number, NULL);
}

void
hs_after_ask_take (HsAfterPane *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  guint before = takes_number (self) ? 0 : self->page * AT_ONCE;
  guint last = takes_number (self) ? self->values->len : MIN (self->values->len - before, AT_ONCE);
  guint64 number;

  if (self->busy || self->fitted || self->asks == HS_AFTER_ASK_NOTHING)
    return;
  if (last > 0 && g_ascii_string_to_unsigned (text, 10, 1, last, &number, NULL))
    hs_after_ask_choose (self, before + (guint) number);
  else if (is_no_choice (self, text))
    {
      g_autofree char *said = g_strdup_printf (_("“%s” is not on the list: press 1 to %u."), text, last);

      hs_after_pane_say (self, said);
    }
  else
    give (self, text);
}

/* Where was I -------------------------------------------------------------------------------------------------------*/

static char *
dup_place (HsAfterPane *self)
{
  if (self->asks == HS_AFTER_ASK_FIELD)
    return g_strdup_printf ("part:%s:%s", fields[self->field].field, self->part_id);
  return g_strdup_printf ("%u", self->asks);
}

void
hs_after_ask_note (HsAfterPane *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_autofree char *place = NULL;

  if (self->asks == HS_AFTER_ASK_NOTHING || self->asks == HS_AFTER_ASK_WHICH || *text == '\0')
    return;
  place = dup_place (self);
  hs_job_pane_note (HS_JOB_PANE (self), PAGE, place, text);
}

void
hs_after_ask_go (HsAfterPane *self, const char *field, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (field != NULL ? field : "", ":", 3);
  guint n = g_strv_length (parts);
  guint64 asks;

  if (n == 3 && g_str_equal (parts[0], "part") && find_field (parts[1]) < G_N_ELEMENTS (fields)
      && find_part (self, parts[2]) != NULL)
    {
      g_free (self->part_id);
      self->part_id = g_strdup (parts[2]);
      ask_field (self, find_field (parts[1]), TRUE);
      gtk_editable_set_text (GTK_EDITABLE (self->entry), text != NULL ? text : "");
    }
  else if (n == 1
           && g_ascii_string_to_unsigned (parts[0], 10, HS_AFTER_ASK_FIT, HS_AFTER_ASK_ODOMETER, &asks, NULL)
           && asks != HS_AFTER_ASK_WHICH && asks != HS_AFTER_ASK_FIELD)
    ask (self, (HsAfterAsks) asks, text != NULL ? text : "");
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
}
