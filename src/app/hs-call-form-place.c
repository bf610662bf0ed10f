// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The call slip's place, day and hours, and where the call fits. */

#include "hs-call-form-private.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-offer-row.h"
#include "hs-show.h"
#include "hs-typed.h"

#define MOST_OFFERS 3
#define DAYS_AHEAD 21

HsDate
hs_call_form_chosen_day (HsCallForm *self)
{
  guint at = gtk_drop_down_get_selected (self->day);

  return at == GTK_INVALID_LIST_POSITION || at == 0 ? HS_DATE_NONE : self->first_day + (HsDate) at - 1;
}

void
hs_call_form_show_places (HsCallForm *self)
{
  hs_area_choice_set_places (self->area, hs_question_get_snapshot (self->places));
}

void
hs_call_form_fill_days (HsCallForm *self)
{
  HsDate today = hs_ledger_get_today (hs_page_get_ledger (HS_PAGE (self)));
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  self->first_day = self->wanted_day != HS_DATE_NONE ? MIN (today, self->wanted_day) : today;
  gtk_string_list_append (names, _("not given yet"));
  for (HsDate day = self->first_day; day < MAX (today, self->wanted_day) + DAYS_AHEAD; day++)
    {
      g_autofree char *name = hs_page_get_narrow (HS_PAGE (self)) ? hs_show_weekday (day) : hs_show_full_day (day);

      gtk_string_list_append (names, name);
    }
  gtk_drop_down_set_model (self->day, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->day, self->wanted_day != HS_DATE_NONE
                                           ? (guint) (self->wanted_day - self->first_day + 1) : 0);
}

void
hs_call_form_show_offers (HsCallForm *self)
{
  GPtrArray *offers = hs_question_get (self->offers);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; offers != NULL && i < MIN (offers->len, MOST_OFFERS); i++)
    {
      g_autofree char *line = hs_offer_row_say (hs_page_get_ledger (HS_PAGE (self)), g_ptr_array_index (offers, i));

      g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", line);
    }
  if (hs_question_get_trouble (self->offers) != NULL)
    g_string_assign (text, hs_question_get_trouble (self->offers));
  else if (offers != NULL && offers->len == 0)
    g_string_assign (text, _("it fits nowhere on this day"));
  gtk_label_set_label (self->fits, text->str);
}

void
hs_call_form_ask_offers (HsCallForm *self)
{
  const HsPlace *place = hs_area_choice_get_place (self->area);
  HsDate day = hs_call_form_chosen_day (self);
  int from = hs_typed_clock (hs_call_form_text_of (self, FIELD_FROM));
  int to = hs_typed_clock (hs_call_form_text_of (self, FIELD_TO));
  int minutes = hs_typed_minutes (hs_call_form_text_of (self, FIELD_MINUTES));

  if (self->placed || place == NULL || day == HS_DATE_NONE || minutes <= 0)
    {
      hs_question_forget (self->offers);
      gtk_label_set_label (self->fits, self->placed ? "" : _("Place, day and minutes say where it fits."));
      return;
    }
  hs_question_ask (self->offers, g_variant_new ("(isiiib)", day, place->code, minutes, MAX (from, 0),
                                                to >= 0 ? to : HS_MINUTES_PER_DAY, FALSE));
}

void
hs_call_form_choose_day (HsCallForm *self, HsDate day)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  gtk_drop_down_set_selected (self->day, day >= self->first_day ? (guint) (day - self->first_day + 1) : 0);
}
