// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The lines of an option while it is written: one goes into the book as a whole, or says what it lacks and stays. */

#include "hs-option-window-private.h"

#include <glib/gi18n.h>

#include "hs-choice-face.h"
#include "hs-decimal.h"
#include "hs-deed-choice.h"
#include "hs-line-list.h"
#include "hs-money.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-typed.h"

static const struct
{
  const char *id;
  const char *word;
  const char *number;
  gboolean counted;
} kinds[HS_OPTION_N_KINDS] = {
  { "part", N_("Part"), N_("C_ost of one; empty: the price at the counter"), TRUE },
  { "labor", N_("Labor"), N_("_Minutes"), FALSE },
  { "call_out", N_("Call-out"), NULL, FALSE },
  { "sundry", N_("Sundry"), N_("Pr_ice"), FALSE },
  { "core_deposit", N_("Core deposit"), N_("Pr_ice"), FALSE },
  { "discount", N_("Discount"), N_("What it takes _off"), FALSE },
};

const char *
hs_option_window_get_kind_id (guint kind)
{
  return kind < G_N_ELEMENTS (kinds) ? kinds[kind].id : NULL;
}

const char *
hs_option_window_get_kind_word (guint kind)
{
  g_return_val_if_fail (kind < G_N_ELEMENTS (kinds), NULL);

  return _(kinds[kind].word);
}

void
hs_option_window_set_kind (HsOptionWindow *self, guint kind)
{
  self->kind = kind;
  hs_option_window_mark (self->kinds, kind);
  gtk_widget_set_visible (self->number_box, kinds[kind].number != NULL);
  if (kinds[kind].number != NULL)
    gtk_label_set_text_with_mnemonic (self->number_label, _(kinds[kind].number));
  gtk_widget_set_visible (self->times_box, kinds[kind].counted);
}

static void
empty_line (HsOptionWindow *self)
{
  self->filling = TRUE;
  gtk_editable_set_text (self->what, "");
  gtk_editable_set_text (self->number, "");
  gtk_editable_set_text (self->times, "");
  self->filling = FALSE;
}

/* It is in the book, so that it must not stand there again to be added once more. */
static void
line_added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsOptionWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;
  gboolean ending = self->ending;

  self->sending_line = FALSE;
  self->ending = FALSE;
  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (error == NULL)
    {
      hs_option_typed_forget_line (self);
      g_clear_pointer (&self->line_id, g_free);
    }
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  if (error != NULL)
    {
      hs_late_keys_drop (self->late);
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  hs_refusal_say (self->refusal, NULL);
  empty_line (self);
  /* The next line begins with its kind: a digit picks it, and words go on with the same. */
  gtk_widget_grab_focus (hs_option_window_nth_button (self->kinds, self->kind));
  hs_late_keys_release (self->late);
  if (ending)
    gtk_window_close (GTK_WINDOW (self));
}

static gboolean
read_number (HsOptionWindow *self, HsChoiceLineEntry *line, GError **error)
{
  const char *text = gtk_editable_get_text (self->number);
  gint64 cents;

  if (g_str_equal (kinds[self->kind].id, "labor"))
    {
      line->minutes = hs_typed_minutes (text);
      return TRUE;
    }
  if (*text == '\0' || kinds[self->kind].number == NULL)
    return TRUE;
  if (!hs_money_parse (text, hs_ledger_get_currency (hs_option_window_get_ledger (self)), &cents, error))
    return FALSE;
  if (kinds[self->kind].counted)
    line->cost_cents = cents;
  else
    line->price_cents = cents;
  return TRUE;
}

static gboolean
read_line (HsOptionWindow *self, HsChoiceLineEntry *line, GError **error)
{
  const char *times = gtk_editable_get_text (self->times);

  *line = HS_CHOICE_LINE_NONE;
  line->id = self->line_id;
  line->kind = kinds[self->kind].id;
  line->what = gtk_editable_get_text (self->what);
  return read_number (self, line, error)
         && (*times == '\0' || !kinds[self->kind].counted || hs_decimal_parse (times, 3, &line->quantity_milli, error));
}

/* What is seen of a line that was begun; what its kind does not ask for stays hidden. */
gboolean
hs_option_window_is_line_begun (HsOptionWindow *self)
{
  return *gtk_editable_get_text (self->what) != '\0'
         || (kinds[self->kind].number != NULL && *gtk_editable_get_text (self->number) != '\0')
         || (kinds[self->kind].counted && *gtk_editable_get_text (self->times) != '\0');
}

void
hs_option_line_name (HsOptionWindow *self)
{
  if (self->line_id == NULL)
    self->line_id = g_uuid_string_random ();
}

static gboolean
has_line (const HsChoice *choice, const char *id)
{
  for (guint i = 0; id != NULL && i < choice->lines->len; i++)
    if (g_str_equal (((const HsChoiceLine *) g_ptr_array_index (choice->lines, i))->id, id))
      return TRUE;
  return FALSE;
}

/* What was typed since is another line. */
void
hs_option_line_settle (HsOptionWindow *self, const HsChoice *choice)
{
  if (self->sending_line || !has_line (choice, self->line_id))
    return;
  g_clear_pointer (&self->line_id, g_free);
  if (g_strcmp0 (gtk_editable_get_text (self->what), self->taken) == 0)
    empty_line (self);
  else
    hs_option_typed_note_kind (self);
}

/* Returns: nothing is missing. */
static gboolean
point_at_missing_of_line (HsOptionWindow *self)
{
  g_autofree char *text = NULL;

  if (*gtk_editable_get_text (self->what) == '\0')
    {
      /* Translators: a kind of line, such as "Labor". */
      text = g_strdup_printf (_("%s: the line has no words yet. Write for what, or empty its fields."),
                              _(kinds[self->kind].word));
      hs_refusal_say (self->refusal, text);
      gtk_widget_grab_focus (GTK_WIDGET (self->what));
      return FALSE;
    }
  if (kinds[self->kind].number == NULL || kinds[self->kind].counted || *gtk_editable_get_text (self->number) != '\0')
    return TRUE;
  /* Translators: a kind of line, such as "Labor". */
  text = g_strdup_printf (_("%s: the line has no figure yet. Write how much, or empty its fields."),
                          _(kinds[self->kind].word));
  hs_refusal_say (self->refusal, text);
  gtk_widget_grab_focus (GTK_WIDGET (self->number));
  return FALSE;
}

void
hs_option_window_add_line (HsOptionWindow *self, gboolean ending)
{
  HsChoiceLineEntry line;
  g_autoptr (GError) error = NULL;

  hs_option_window_save_fields (self);
  if (hs_option_window_get_ledger (self) == NULL || self->adding)
    return;
  /* What stands in the fields until the book answers is that line still. */
  if (self->sending_line)
    {
      self->ending |= ending;
      return;
    }
  if (self->choice_id == NULL)
    {
      hs_refusal_say (self->refusal, _("What is it? An option begins with its words."));
      gtk_widget_grab_focus (GTK_WIDGET (self->wording));
    }
  else if (!point_at_missing_of_line (self))
    return;
  else if (hs_option_line_name (self), !read_line (self, &line, &error))
    hs_refusal_say (self->refusal, error->message);
  else
    {
      self->sending_line = TRUE;
      self->ending = ending;
      hs_late_keys_hold (self->late);
      hs_deed_add_choice_line (hs_option_window_get_ledger (self), self->choice_id, &line, line_added_cb,
                               hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->what)));
    }
}

/* From the words to the number, from there into the book. */
void
hs_option_window_line_entered (HsOptionWindow *self, GtkWidget *entry)
{
  if (entry == GTK_WIDGET (self->what) && gtk_widget_get_visible (self->number_box)
      && *gtk_editable_get_text (self->number) == '\0')
    gtk_widget_grab_focus (GTK_WIDGET (self->number));
  else
    hs_option_window_add_line (self, FALSE);
}

static void
line_removed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsOptionWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (!hs_refusal_late (asked, error != NULL ? error->message : NULL) && error != NULL)
    hs_refusal_say (self->refusal, error->message);
}

static void
remove_line_cb (HsOptionWindow *self, GtkWidget *button)
{
  if (hs_option_window_get_ledger (self) != NULL)
    hs_deed_remove_choice_line (hs_option_window_get_ledger (self), g_object_get_data (G_OBJECT (button), "line"),
                                line_removed_cb, hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
append_line (HsOptionWindow *self, const HsChoiceLine *line)
{
  g_autofree char *words = hs_choice_face_dup_line (line);
  g_autofree char *price = hs_show_money (hs_option_window_get_ledger (self), line->price_cents + line->tax_cents);
  g_autofree char *shares
      = hs_choice_face_dup_shares (hs_option_window_get_ledger (self), line->cost_cents, line->price_cents,
                                   line->tax_cents);
  g_autofree char *name = NULL;
  GtkWidget *row;
  GtkWidget *button = gtk_button_new_from_icon_name ("user-trash-symbolic");

  hs_line_list_add (self->lines, words, price, NULL);
  row = gtk_widget_get_last_child (GTK_WIDGET (self->lines));
  /* Translators: a line of an option. */
  name = g_strdup_printf (_("Take “%s” away"), line->what);
  hs_spoken_name (button, name);
  g_object_set_data_full (G_OBJECT (button), "line", g_strdup (line->id), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (remove_line_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (row), button);
  if (shares != NULL)
    hs_line_list_add (self->lines, shares, NULL, "hs-caption");
}

void
hs_option_window_list_lines (HsOptionWindow *self, const HsChoice *choice)
{
  hs_line_list_clear (self->lines);
  for (guint i = 0; i < choice->lines->len; i++)
    append_line (self, g_ptr_array_index (choice->lines, i));
}
