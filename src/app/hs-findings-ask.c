// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Conditions are asked only where the verdict of what is typed still wants them, and never by themselves: the hand may
 * be on the next reading already, and its digits must not become a temperature. `+` asks; one digit answers with a
 * word, a number with Enter, Enter alone is not known. What holds for the whole visit is asked once. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

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

/* The first that the verdict of what is typed wants and nobody was asked for. */
static const HsCondition *
find_wanted (HsFindings *self)
{
  const HsReadingResult *judged = self->text->len > 0 ? hs_findings_judged (self) : NULL;

  for (guint i = 0; judged != NULL && judged->wanted != NULL && judged->wanted[i] != NULL; i++)
    {
      const HsCondition *condition = hs_condition_lookup (judged->wanted[i]);

      if (condition != NULL && !g_hash_table_contains (self->told, condition->id))
        return condition;
    }
  return NULL;
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

void
hs_findings_ask_next (HsFindings *self)
{
  const HsCondition *wanted = find_wanted (self);

  if (wanted == NULL)
    return;
  self->asked = wanted;
  g_string_truncate (self->answer, 0);
  hs_findings_update_entry (self);
}

/* @text: (nullable): %NULL if nobody knows. */
static void
tell (HsFindings *self, const char *text)
{
  g_hash_table_replace (self->told, (gpointer) self->asked->id, g_strdup (text != NULL ? text : ""));
  self->asked = NULL;
  hs_findings_text_changed (self);
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

static void
append_choice (GString *text, guint digit, const char *word)
{
  g_string_append_printf (text, "%s%u %s", text->len > 0 ? " · " : "", digit, word);
}

/* What can be pressed to answer the condition. */
static void
append_answers (GString *text, const HsCondition *asked, gboolean fahrenheit)
{
  gsize n_words = 0;
  const HsWord *words = asked->entry == HS_CONDITION_WORD ? hs_words_get (asked->words, &n_words) : NULL;

  for (gsize i = 0; i < n_words && i < 9; i++)
    append_choice (text, (guint) i + 1, words[i].label);
  if (asked->entry == HS_CONDITION_YES_NO)
    {
      append_choice (text, 1, _("yes"));
      append_choice (text, 2, _("no"));
    }
  if (asked->key == HS_CONDITION_TEMPERATURE)
    g_string_append_printf (text, "%s + %s", text->len > 0 ? " ·" : "", fahrenheit ? "°C" : "°F");
  g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", _("Enter: not known"));
}

void
hs_findings_show_choices (HsFindings *self)
{
  const HsCheck *check = hs_findings_get_check (self);
  g_autoptr (GString) text = g_string_new (NULL);
  const char *title = "";

  if (self->asked != NULL)
    {
      title = _("The verdict depends on it:");
      append_answers (text, self->asked, self->fahrenheit);
    }
  else if (self->asks_why)
    {
      title = _("Not measured. Why? One digit:");
      for (guint i = 0; hs_findings_get_reason (i) != NULL; i++)
        append_choice (text, i + 1, _(hs_findings_get_reason (i)));
    }
  else if (is_undecided (self) && find_wanted (self) != NULL)
    {
      title = _("The verdict depends on it:");
      g_string_append_printf (text, "+ %s", find_wanted (self)->label);
    }
  else if (check != NULL && check->answers != NULL)
    {
      title = _("One digit:");
      for (guint i = 0; check->answers[i] != NULL; i++)
        append_choice (text, i + 1, check->answers[i]);
    }
  gtk_label_set_label (self->choices_title, title);
  gtk_label_set_label (self->choices_text, text->str);
  gtk_widget_set_visible (self->choices, text->len > 0);
}
