// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where the cursor of the call slip goes, and what is missing before it can be a job or be given its time. */

#include "hs-call-form-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-phone.h"
#include "hs-typed.h"

/* What is wrong or missing before it can be a job, and where; %NULL when nothing is. What was typed comes first: its
 * field was just left. */
const char *
hs_call_form_what_is_missing (HsCallForm *self, guint *ret_field)
{
  int from = hs_typed_clock (hs_call_form_text_of (self, FIELD_FROM));
  int to = hs_typed_clock (hs_call_form_text_of (self, FIELD_TO));

  *ret_field = hs_call_form_text_of (self, FIELD_FROM) != NULL && from < 0 ? FIELD_FROM : FIELD_TO;
  if ((hs_call_form_text_of (self, FIELD_FROM) != NULL && from < 0)
      || (hs_call_form_text_of (self, FIELD_TO) != NULL && to < 0))
    return _("A time is written 930 or 9:30.");
  *ret_field = FIELD_MINUTES;
  if (hs_typed_minutes (hs_call_form_text_of (self, FIELD_MINUTES)) < 0)
    return _("Minutes of work are a whole number, at most a week.");
  *ret_field = FIELD_WORDS;
  if (hs_call_form_text_of (self, FIELD_WORDS) == NULL)
    return _("A few words of the caller make it a job.");
  *ret_field = FIELD_PHONE;
  if (hs_call_form_text_of (self, FIELD_PHONE) == NULL && hs_call_form_text_of (self, FIELD_NAME) == NULL)
    return _("A number or a name makes it a job.");
  *ret_field = FIELD_DAY;
  if ((from >= 0 || to >= 0) && hs_call_form_chosen_day (self) == HS_DATE_NONE)
    return _("A window of which day? Choose the day.");
  return NULL;
}

/* Fewer digits than one is asked for at the phone say nobody's number. */
guint
hs_call_form_count_meant (HsCallForm *self)
{
  const char *phone = hs_call_form_text_of (self, FIELD_PHONE);
  g_autofree char *digits = hs_phone_digits (phone != NULL ? phone : "");
  gboolean alone = self->job_id == NULL && strlen (digits) >= 4 && hs_call_form_text_of (self, FIELD_NAME) == NULL
                   && hs_call_form_text_of (self, FIELD_PLATE) == NULL;

  return alone ? hs_caller_list_count (self->callers) : 0;
}

/* The list is found by anything that has those digits; a plate is not a number. */
gboolean
hs_call_form_has_number (HsCallForm *self, const char *phone)
{
  const char *typed = hs_call_form_text_of (self, FIELD_PHONE);
  g_autofree char *wanted = hs_phone_digits (typed != NULL ? typed : "");
  g_autofree char *known = hs_phone_digits (phone != NULL ? phone : "");

  return g_str_has_suffix (known, wanted);
}

gboolean
hs_call_form_is_unsettled (HsCallForm *self)
{
  guint field;

  return hs_call_form_count_meant (self) > 0 && hs_call_form_what_is_missing (self, &field) == NULL;
}

gboolean
hs_call_form_settle_caller (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), TRUE);

  /* The answer about the last digit may still be on its way. */
  if (hs_question_is_asking (self->find))
    hs_ledger_wait (hs_page_get_ledger (HS_PAGE (self)));
  if (hs_call_form_count_meant (self) > 1)
    {
      /* Leaving a field says what it lacks; this comes after it. */
      gtk_widget_child_focus (GTK_WIDGET (self->callers), GTK_DIR_TAB_FORWARD);
      hs_call_form_tell (self, _("More than one known caller or vehicle has that number. Pick one, or type a name."));
      return FALSE;
    }
  if (hs_call_form_count_meant (self) == 1 && !self->settling)
    {
      self->settling = TRUE;
      hs_caller_list_pick_first (self->callers);
      hs_ledger_wait (hs_page_get_ledger (HS_PAGE (self)));
      self->settling = FALSE;
    }
  return TRUE;
}

/* To the caller's words, at their end, with what was typed already. */
void
hs_call_form_go_on_with_words (HsCallForm *self, const char *typed)
{
  int at = -1;

  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->words));
  if (typed != NULL)
    gtk_editable_insert_text (self->words, typed, -1, &at);
  gtk_editable_set_position (self->words, -1);
}

/* At the end of what stands there: one key too many writes nothing over. */
static void
go_to_entry (HsCallForm *self, guint field)
{
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entries[field]));
  gtk_editable_set_position (self->entries[field], -1);
}

static void
go_to_area (HsCallForm *self, const char *code)
{
  if (code != NULL && *code != '\0')
    hs_area_choice_choose (self->area, code);
  gtk_widget_grab_focus (GTK_WIDGET (self->area));
}

static void
go_to_day (HsCallForm *self, const char *date)
{
  HsDate day;

  if (date != NULL && hs_date_parse (date, &day, NULL))
    hs_call_form_choose_day (self, day);
  gtk_widget_grab_focus (GTK_WIDGET (self->day));
}

void
hs_call_form_go (HsCallForm *self, const char *field, const char *text)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  for (guint i = 0; i < N_FIELDS; i++)
    if (g_strcmp0 (hs_call_fields[i].id, field) == 0)
      {
        if (text != NULL && *text != '\0')
          hs_call_form_set_text (self, i, text);
        go_to_entry (self, i);
        return;
      }
  if (g_strcmp0 (field, hs_call_fields[FIELD_AREA].id) == 0)
    go_to_area (self, text);
  else if (g_strcmp0 (field, hs_call_fields[FIELD_DAY].id) == 0)
    go_to_day (self, text);
  else
    go_to_entry (self, FIELD_PHONE);
}

char *
hs_call_form_dup_field (HsCallForm *self, GtkWidget *focus)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), NULL);

  for (guint i = 0; i < N_FIELDS; i++)
    if (gtk_widget_is_ancestor (focus, GTK_WIDGET (self->entries[i])))
      return g_strdup (hs_call_fields[i].id);
  if (gtk_widget_is_ancestor (focus, GTK_WIDGET (self->area)))
    return g_strdup (hs_call_fields[FIELD_AREA].id);
  return gtk_widget_is_ancestor (focus, GTK_WIDGET (self->day)) ? g_strdup (hs_call_fields[FIELD_DAY].id) : NULL;
}

void
hs_call_form_go_on (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  for (guint i = 0; i < N_FIELDS; i++)
    {
      if (i == FIELD_FROM && hs_area_choice_get_place (self->area) == NULL)
        hs_call_form_go (self, hs_call_fields[FIELD_AREA].id, NULL);
      else if (i == FIELD_FROM && hs_call_form_chosen_day (self) == HS_DATE_NONE)
        hs_call_form_go (self, hs_call_fields[FIELD_DAY].id, NULL);
      else if (hs_call_form_text_of (self, i) == NULL)
        hs_call_form_go (self, hs_call_fields[i].id, NULL);
      else
        continue;
      return;
    }
  hs_call_form_go_on_with_words (self, NULL);
}

void
hs_call_form_point_at_missing (HsCallForm *self)
{
  const char *missing;
  guint field;

  g_return_if_fail (HS_IS_CALL_FORM (self));

  missing = hs_call_form_what_is_missing (self, &field);
  if (missing == NULL)
    return;
  hs_call_form_tell (self, missing);
  self->hint = missing;
  hs_call_form_go (self, hs_call_fields[field].id, NULL);
}

gboolean
hs_call_form_point_at_untimed (HsCallForm *self)
{
  static const guint needed[] = { FIELD_AREA, FIELD_DAY, FIELD_MINUTES };
  gboolean missing[G_N_ELEMENTS (needed)];
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *text = NULL;
  const char *first = NULL;
  guint field;

  g_return_val_if_fail (HS_IS_CALL_FORM (self), FALSE);

  /* What cannot be read is no window and no work: no time is given on it. */
  if (hs_call_form_what_is_missing (self, &field) != NULL && field >= FIELD_FROM)
    {
      hs_call_form_point_at_missing (self);
      return TRUE;
    }
  missing[0] = hs_area_choice_get_place (self->area) == NULL;
  missing[1] = hs_call_form_chosen_day (self) == HS_DATE_NONE;
  missing[2] = hs_typed_minutes (hs_call_form_text_of (self, FIELD_MINUTES)) <= 0;
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    if (missing[i])
      {
        first = first != NULL ? first : hs_call_fields[needed[i]].id;
        g_string_append_printf (names, "%s%s", names->len > 0 ? " · " : "", _(hs_call_fields[needed[i]].title));
      }
  if (first == NULL)
    return FALSE;
  /* Translators: names of fields of the call slip, such as "Area · Day". */
  text = g_strdup_printf (_("To be given a time it still needs: %s"), names->str);
  hs_call_form_tell (self, text);
  hs_call_form_go (self, first, NULL);
  return TRUE;
}
