// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The field of the findings page: the figure that is typed or stands there, its verdict with limit and source, and what
 * is said of it to those who do not see it. Shows only; what keys do stands in hs-findings-keys.c. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

#include "hs-face.h"
#include "hs-figure-field.h"
#include "hs-show.h"
#include "hs-spoken.h"

/* So much of what is typed is never cut: the digits of any figure. */
#define MOST_WHOLE 9

/* Nothing is typed and nothing stands there: the field shows where digits come in. */
static gboolean
is_empty (HsFindings *self, const HsReadingResult *result)
{
  return self->asked == NULL && self->text->len == 0 && (result == NULL || result->value_text == NULL);
}

/* A number, or the answer in the language of the screen. */
static char *
dup_format (const HsCheck *check, const HsReading *reading)
{
  g_autofree char *text = hs_check_format (check, reading);

  return check->entry == HS_CHECK_CHOICE ? g_strdup (hs_show_data (text)) : g_steal_pointer (&text);
}

static char *
figure_text (HsFindings *self, const HsReadingResult *result, gboolean *ret_is_number)
{
  const HsCheck *check = hs_findings_check_of (self, result);
  g_autofree char *keyed = hs_findings_dup_keyed (self, NULL);
  HsReading reading;

  *ret_is_number = TRUE;
  if (self->asked != NULL)
    return g_strdup (self->answer->str);
  if (check != NULL && !hs_check_has_number (check) && self->text->len > 0)
    *ret_is_number = FALSE;
  if (self->text->len > 0)
    return check != NULL && hs_check_read_pad_sure (check, keyed, &reading, NULL)
               && (hs_check_has_number (check) || check->entry == HS_CHECK_CHOICE)
             ? dup_format (check, &reading) : g_strdup (keyed);
  if (result != NULL && result->value_text != NULL)
    {
      *ret_is_number = result->has_value;
      return result->answer != NULL ? g_strdup (hs_show_data (result->value_text)) : hs_face_dup_bare_value (result);
    }
  return hs_findings_dup_shape (self);
}

static void
set_shown (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

/* Why the verdict is that, such as "low, but good enough to start with", what to do about it, and how that goes with
 * what is best next. */
static void
set_advice (HsFindings *self, const HsReadingResult *shown)
{
  gboolean is_read = shown != NULL && shown->value_text != NULL;
  const char *why = is_read && shown->why != NULL ? hs_show_data (shown->why) : "";
  const char *next = is_read && shown->next != NULL ? hs_show_data (shown->next) : "";
  g_autofree char *beside = is_read ? hs_findings_dup_beside (self, shown) : NULL;
  const char *between = *why != '\0' && *next != '\0' ? " " : "";
  g_autofree char *text = g_markup_printf_escaped ("%s%s<b>%s</b>%s%s", why, between, next, beside != NULL ? " " : "",
                                                   beside != NULL ? beside : "");

  set_shown (self->advice, *why != '\0' || *next != '\0' || beside != NULL ? text : NULL);
}

/* Verdict, limit and the rest, of what is typed or of what is stored. */
static void
update_verdict (HsFindings *self, const HsReadingResult *shown)
{
  g_autofree char *limit = NULL, *source = NULL;
  gboolean asks = self->asked != NULL || self->asks_why;

  /* A phone has no room for the verdict beside the question. */
  gtk_widget_set_visible (self->verdict_box,
                          !hs_page_get_narrow (HS_PAGE (self)) || !asks || self->trouble != NULL);
  if (self->trouble != NULL || self->doubt != NULL || shown == NULL || shown->value_text == NULL)
    hs_verdict_label_set (self->verdict, NULL, HS_VERDICT_SHAPE_PLAIN);
  else
    hs_verdict_label_set (self->verdict, shown->word, hs_show_verdict_shape (shown->verdict, shown->word));
  if (self->trouble != NULL)
    {
      g_autofree char *lost = hs_findings_dup_lost (self);
      g_autofree char *trouble = g_strjoin ("\n", self->trouble, lost, NULL);

      set_shown (self->limit, trouble);
      return;
    }
  if (shown != NULL && shown->limit != NULL && *shown->limit != '\0')
    limit = g_strdup_printf (_("limit %s"), hs_show_data (shown->limit));
  if (shown != NULL && shown->source != NULL && *shown->source != '\0')
    {
      g_autofree char *says = hs_verdict_source_text (shown->source, shown->sure);

      source = g_markup_printf_escaped (_("<b>Who says so</b> %s"), says);
    }
  set_shown (self->limit, limit);
  set_shown (self->note, shown != NULL ? shown->note : NULL);
  set_shown (self->source, source);
  set_advice (self, shown);
}

/* An empty place for details would take the room of a line. */
static void
show_details (HsFindings *self)
{
  gboolean any = gtk_widget_get_visible (GTK_WIDGET (self->caution))
                 || gtk_widget_get_visible (GTK_WIDGET (self->gauge))
                 || gtk_widget_get_visible (GTK_WIDGET (self->source));

  gtk_widget_set_visible (self->details, any);
}

static void
update_then (HsFindings *self)
{
  const HsReadingResult *result = hs_findings_get_result (self);
  const HsCheck *check = hs_findings_check_of (self, result);
  const HsReadingResult *after = hs_findings_then (self, NULL);
  g_autofree char *then = NULL;

  if (self->follows)
    then = g_strdup (_("Enter stores, then what is best next."));
  else if (after != NULL)
    then = g_strdup_printf (_("Enter stores, then: %s."), hs_show_data (after->name));
  else
    then = g_strdup (_("Enter stores."));
  if (check != NULL && hs_check_has_number (check))
    {
      g_autofree char *lead = g_steal_pointer (&then);

      then = g_strdup_printf ("%s %s", lead, _("Letters behind the figure say where it was taken."));
    }
  gtk_label_set_label (self->then, then);
  set_shown (self->how, result != NULL ? hs_show_data (result->how) : NULL);
  set_shown (self->caution, result != NULL ? hs_show_data (result->caution) : NULL);
}

static const char *
unit_text (HsFindings *self, const HsReadingResult *result, gboolean is_number)
{
  const HsCheck *check = hs_findings_check_of (self, result);

  if (self->asked != NULL && self->asked->key == HS_CONDITION_TEMPERATURE)
    return self->fahrenheit ? "°F" : "°C";
  if (self->asked != NULL)
    return self->asked->unit;
  if (result == NULL || !is_number || result->unit == NULL || (check != NULL && !hs_check_has_number (check))
      || g_str_equal (result->unit, "count"))
    return "";
  return result->unit;
}

static void
say_field (HsFindings *self, const HsReadingResult *result, const char *figure)
{
  const char *name = gtk_label_get_label (self->name);
  g_autofree char *about = is_empty (self, result) ? hs_findings_dup_shape_about (self) : NULL;
  g_autofree char *say = NULL;

  if (self->doubt != NULL && self->loses)
    say = g_strdup_printf (_("%s: %s %s Enter, then plus says: yes, I read that."), name, self->doubt,
                           self->doubt_about);
  else if (self->doubt != NULL)
    say = g_strdup_printf (_("%s: %s %s Plus says: yes, I read that."), name, self->doubt, self->doubt_about);
  else if (about != NULL)
    say = g_strdup_printf (_("%s, empty. %s"), name, about);
  else if (is_empty (self, result))
    say = g_strdup_printf (_("%s, empty"), name);
  else
    say = g_strdup_printf ("%s, %s %s", name, figure, unit_text (self, result, TRUE));
  hs_spoken_name (self->field, say);
  hs_figure_field_set_text (HS_FIGURE_FIELD (self->field), self->asked != NULL ? self->answer->str : self->text->str);
}

/* The figure's look: a number, words, or only the places that digits come into. */
static void
set_figure_class (HsFindings *self, const char *css_class, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (GTK_WIDGET (self->figure), css_class);
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->figure), css_class);
}

/* One sentence beside the empty field. */
static void
update_shape (HsFindings *self, const HsReadingResult *result)
{
  g_autofree char *about = is_empty (self, result) ? hs_findings_dup_shape_about (self) : NULL;

  set_figure_class (self, "hs-shape", is_empty (self, result));
  set_shown (self->shape_about, about);
}

const HsReadingResult *
hs_findings_judged (HsFindings *self)
{
  const HsReadingResult *judged = hs_question_get (self->judge);
  const HsReadingResult *result = hs_findings_get_result (self);

  if (self->text->len == 0)
    return result;
  return judged != NULL && result != NULL && g_strcmp0 (judged->check, result->check) == 0 ? judged : NULL;
}

void
hs_findings_update_entry (HsFindings *self)
{
  const HsReadingResult *result = hs_findings_get_result (self);
  const HsReadingResult *shown = hs_findings_judged (self);
  gboolean is_number;
  g_autofree char *figure = figure_text (self, result, &is_number);
  g_autofree char *told = hs_findings_dup_told (self);
  g_autofree char *typed = self->text->len > 0 ? g_strdup_printf (_("typed %s"), self->text->str) : NULL;

  gtk_label_set_label (self->name, self->asked != NULL ? self->asked->label
                                   : result != NULL    ? hs_show_data (result->name)
                                                       : "");
  gtk_label_set_label (self->figure, *figure != '\0' ? figure : " ");
  gtk_label_set_label (self->unit, unit_text (self, result, is_number));
  gtk_label_set_label (self->typed, typed != NULL ? typed : "");
  gtk_label_set_ellipsize (self->typed,
                           self->text->len <= MOST_WHOLE ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_START);
  set_figure_class (self, "hs-word-value", !is_number);
  /* A number is never cut; of words, which stand in full among the choices and on the line, the last typed is seen. */
  gtk_label_set_ellipsize (self->figure, is_number             ? PANGO_ELLIPSIZE_NONE
                                         : self->text->len > 1 ? PANGO_ELLIPSIZE_START
                                                               : PANGO_ELLIPSIZE_END);
  update_shape (self, result);
  update_verdict (self, shown);
  hs_face_gauge (self->gauge, hs_page_get_ledger (HS_PAGE (self)), hs_findings_get_shot (self),
                 hs_findings_check_of (self, result), shown, told);
  update_then (self);
  show_details (self);
  hs_findings_update_next (self, FALSE);
  hs_findings_show_choices (self);
  hs_findings_give_room (self);
  say_field (self, result, figure);
  hs_findings_update_rolling (self);
}
