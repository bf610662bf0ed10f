// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Conditions are asked only where a verdict still wants them, and never by themselves: the hand may be on the next
 * reading already, and its digits must not become a temperature. `+` asks, of what is typed and, on its line, of what
 * stands there; one digit answers with a word, a number with Enter, Enter alone is not known, which can be asked anew
 * at any time. What holds for the whole visit is asked once. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

#include "hs-chip.h"
#include "hs-deed.h"
#include "hs-show.h"

#define MOST_DIGITS 6

/* What is true of one reading only: it is asked again for the next one. */
static gboolean
is_of_one_reading (HsConditionKey key)
{
  switch (key)
    {
    case HS_CONDITION_REST:
    case HS_CONDITION_JUST_CHARGED:
    case HS_CONDITION_FULL_CHARGE:
    case HS_CONDITION_LOADED:
    case HS_CONDITION_PLACE:
    case HS_CONDITION_ENGINE:
    case HS_CONDITION_METER_AT:
    case HS_CONDITION_WAITED:
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
is_passing (gpointer id, gpointer text, gpointer data)
{
  return is_of_one_reading (hs_condition_lookup (id)->key);
}

void
hs_findings_forget_told (HsFindings *self, gboolean all)
{
  if (all)
    g_hash_table_remove_all (self->told);
  else
    g_hash_table_foreach_remove (self->told, is_passing, NULL);
}

char *
hs_findings_dup_told (HsFindings *self)
{
  const HsCheck *check = hs_findings_get_check (self);
  g_autoptr (GString) told = g_string_new (NULL);

  for (guint i = 0; check != NULL && i < check->n_asks; i++)
    {
      const HsCondition *condition = hs_condition_get (check->asks[i]);
      const char *text = g_hash_table_lookup (self->told, condition->id);

      if (text != NULL && *text != '\0')
        g_string_append_printf (told, "%s%s:%s", told->len > 0 ? "; " : "", condition->id, text);
    }
  return told->len > 0 ? g_string_free (g_steal_pointer (&told), FALSE) : NULL;
}

/* What a verdict wants: the first that nobody was asked for, else the first that nobody knew. */
static const HsCondition *
find_wanted_by (HsFindings *self, const HsReadingResult *judged)
{
  const HsCondition *unknown = NULL;

  for (guint i = 0; judged->wanted != NULL && judged->wanted[i] != NULL; i++)
    {
      const HsCondition *condition = hs_condition_lookup (judged->wanted[i]);

      if (condition != NULL && !g_hash_table_contains (self->told, condition->id))
        return condition;
      if (unknown == NULL)
        unknown = condition;
    }
  return unknown;
}

/* A verdict that says nothing yet is worth a question; one that does is not interrupted. */
static gboolean
is_undecided (HsFindings *self)
{
  const HsReadingResult *judged = hs_findings_judged (self);

  return judged != NULL && judged->verdict != NULL
         && (g_str_equal (judged->verdict, hs_verdict_id (HS_VERDICT_CANNOT_TELL))
             || g_str_equal (judged->verdict, hs_verdict_id (HS_VERDICT_DEPENDS)));
}

/* Of what stands there only where somebody went to it: a hand that stored the last line goes on to the next phase. */
static const HsCondition *
find_wanted (HsFindings *self)
{
  const HsReadingResult *judged = hs_findings_judged (self);
  gboolean stands = self->text->len == 0;

  if (judged == NULL || (stands && (judged->id == NULL || self->rests || !is_undecided (self))))
    return NULL;
  return find_wanted_by (self, judged);
}

gboolean
hs_findings_ask_next (HsFindings *self)
{
  const HsCondition *wanted = hs_findings_is_rolling (self) ? NULL : find_wanted (self);

  if (wanted == NULL)
    return FALSE;
  self->asked = wanted;
  g_string_truncate (self->answer, 0);
  hs_findings_update_entry (self);
  return TRUE;
}

static void
told_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsFindings) self = HS_FINDINGS (data);
  g_autoptr (GError) error = NULL;

  self->storing = FALSE;
  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_findings_press_waiting (self);
  else
    {
      g_free (self->trouble);
      self->trouble = g_strdup (error->message);
      hs_findings_lose (self, self->waiting);
      hs_findings_update_entry (self);
    }
}

/* @text: (nullable): %NULL if nobody knows. */
static void
tell (HsFindings *self, const char *text)
{
  const HsReadingResult *stands = self->text->len == 0 ? hs_findings_get_result (self) : NULL;
  const char *condition = self->asked->id;

  g_hash_table_replace (self->told, (gpointer) condition, g_strdup (text != NULL ? text : ""));
  self->asked = NULL;
  hs_findings_text_changed (self);
  /* That nobody knows is how it stands already. */
  if (stands == NULL || stands->id == NULL || text == NULL)
    return;
  self->storing = TRUE;
  hs_deed_tell_reading (hs_page_get_ledger (HS_PAGE (self)), stands->id, condition, text, told_cb,
                        g_object_ref (self));
}

static void
take_number (HsFindings *self)
{
  gboolean warm = self->asked->key == HS_CONDITION_TEMPERATURE;
  g_autofree char *text = g_strdup_printf ("%s%s", self->answer->str, warm && self->fahrenheit ? "F" : "");
  g_autofree char *written = g_strdup_printf ("%s:%s", self->asked->id, text);
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_autoptr (GError) error = NULL;

  if (self->answer->len == 0)
    {
      tell (self, NULL);
      return;
    }
  if (hs_conditions_put (written, &conditions, &error))
    {
      tell (self, text);
      return;
    }
  g_free (self->trouble);
  self->trouble = g_strdup (error->message);
  hs_findings_update_entry (self);
}

static void
take_digit (HsFindings *self, guint digit)
{
  gsize n_words = 2;
  const HsWord *words = self->asked->entry == HS_CONDITION_WORD ? hs_words_get (self->asked->words, &n_words) : NULL;

  if (digit < 1 || digit > n_words)
    return;
  tell (self, words != NULL ? words[digit - 1].id : digit == 1 ? "yes" : "no");
}

static void
stop_asking (HsFindings *self)
{
  self->asked = NULL;
  hs_findings_text_changed (self);
}

static void
type_number (HsFindings *self, char sign)
{
  g_clear_pointer (&self->trouble, g_free);
  if (self->answer->len < MOST_DIGITS)
    g_string_append_c (self->answer, sign);
  hs_findings_update_entry (self);
}

void
hs_findings_press_answer (HsFindings *self, char sign)
{
  gboolean number = self->asked->entry == HS_CONDITION_NUMBER;

  if (sign == '\n')
    take_number (self);
  else if (!number && g_ascii_isdigit (sign))
    take_digit (self, (guint) (sign - '0'));
  else if (number && (g_ascii_isdigit (sign) || sign == '.' || (sign == '-' && self->answer->len == 0)))
    type_number (self, sign);
  else if (sign == '+' && self->asked->key == HS_CONDITION_TEMPERATURE)
    {
      self->fahrenheit = !self->fahrenheit;
      hs_findings_update_entry (self);
    }
  else if ((sign == '\b' || sign == '-') && self->answer->len > 0)
    {
      g_string_truncate (self->answer, self->answer->len - 1);
      hs_findings_update_entry (self);
    }
  else if (sign == '\b' || sign == '-')
    stop_asking (self);
}

/* --- What can be pressed ----------------------------------------------------------------------------------------- */

/* So many letters of an answer stay in one line. */
#define UNBROKEN 40
#define UNBROKEN_NARROW 10

/* A key and its word: the one look of whatever is answered by a key. */
static void
append_choice (HsFindings *self, GString *spoken, const char *key, const char *word)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *cap = hs_keycap_new (key);
  GtkWidget *label = gtk_label_new (word);
  int letters = (int) g_utf8_strlen (word, -1);
  int unbroken = hs_page_get_narrow (HS_PAGE (self)) ? UNBROKEN_NARROW : UNBROKEN;

  gtk_widget_set_valign (cap, GTK_ALIGN_CENTER);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (letters > unbroken)
    {
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
      gtk_label_set_width_chars (GTK_LABEL (label), unbroken);
    }
  gtk_box_append (GTK_BOX (box), cap);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (self->choices_box), box);
  g_string_append_printf (spoken, "%s%s %s", spoken->len > 0 ? ", " : "", key, word);
}

static void
append_digit (HsFindings *self, GString *spoken, guint digit, const char *word)
{
  g_autofree char *key = g_strdup_printf ("%u", digit);

  append_choice (self, spoken, key, word);
}

/* What can be pressed to answer the condition. */
static void
append_answers (HsFindings *self, GString *spoken)
{
  gsize n_words = 0;
  const HsWord *words = self->asked->entry == HS_CONDITION_WORD ? hs_words_get (self->asked->words, &n_words) : NULL;

  for (gsize i = 0; i < n_words && i < 9; i++)
    append_digit (self, spoken, (guint) i + 1, words[i].label);
  if (self->asked->entry == HS_CONDITION_YES_NO)
    {
      append_digit (self, spoken, 1, _("yes"));
      append_digit (self, spoken, 2, _("no"));
    }
  if (self->asked->key == HS_CONDITION_TEMPERATURE)
    append_choice (self, spoken, "+", self->fahrenheit ? "°C" : "°F");
  append_choice (self, spoken, _("Enter"), _("not known"));
}

static void
append_doubt (HsFindings *self, GString *spoken)
{
  /* Among keys that were not taken, + is one of them. */
  if (self->loses)
    append_choice (self, spoken, _("Enter"), _("not taken; then + or −"));
  else
    append_choice (self, spoken, "+", _("yes, I read that"));
  append_choice (self, spoken, "−", self->doubt_sign == '/' ? _("leaves it") : _("key it anew"));
}

static void
append_reasons (HsFindings *self, GString *spoken)
{
  for (guint i = 0; hs_findings_get_reason (i) != NULL; i++)
    append_digit (self, spoken, i + 1, _(hs_findings_get_reason (i)));
}

/* Returns: the sentence over them; "" if there are none. */
static const char *
fill_choices (HsFindings *self, GString *spoken)
{
  const HsCheck *check = hs_findings_get_check (self);

  if (self->asked != NULL)
    {
      append_answers (self, spoken);
      return _("The verdict depends on it:");
    }
  if (self->asks_why)
    {
      append_reasons (self, spoken);
      return _("Not measured. Why? One digit:");
    }
  if (self->doubt != NULL)
    {
      append_doubt (self, spoken);
      return self->doubt;
    }
  if (is_undecided (self) && find_wanted (self) != NULL)
    {
      append_choice (self, spoken, "+", find_wanted (self)->label);
      return _("The verdict depends on it:");
    }
  if (check == NULL || check->answers == NULL)
    return "";
  for (guint i = 0; check->answers[i] != NULL; i++)
    append_digit (self, spoken, i + 1, hs_show_data (check->answers[i]));
  return _("One digit:");
}

/* (transfer full) (nullable): what has to be known before one is pressed. */
static char *
dup_about (HsFindings *self)
{
  g_autofree char *lost = hs_findings_dup_lost (self);

  if (self->asks_why)
    return hs_findings_dup_stands (self);
  return self->doubt != NULL ? g_strjoin ("\n", self->doubt_about, lost, NULL) : NULL;
}

void
hs_findings_show_choices (HsFindings *self)
{
  g_autoptr (GString) spoken = g_string_new (NULL);
  g_autofree char *about = self->asked == NULL ? dup_about (self) : NULL;
  const char *title;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->choices_box)) != NULL)
    gtk_box_remove (GTK_BOX (self->choices_box), child);
  title = fill_choices (self, spoken);
  gtk_label_set_label (self->choices_title, title);
  gtk_label_set_label (self->choices_about, about != NULL ? about : "");
  gtk_widget_set_visible (GTK_WIDGET (self->choices_about), about != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->choices), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, spoken->str, -1);
  gtk_widget_set_visible (self->choices, spoken->len > 0);
}
