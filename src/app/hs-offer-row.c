// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is weighed against a day: a place where a call could go, another order. What breaks a promise is boxed and
 * named; it is never hidden, because the owner may ring and move that promise. */

#include "hs-offer-row.h"

#include <glib/gi18n.h>

#include "hs-act-row.h"
#include "hs-show.h"
#include "hs-verdict-label.h"
#include "hs-wide-layout.h"

struct _HsOfferRow
{
  AdwBin parent_instance;

  GtkLabel *start;
  GtkLabel *place;
  GtkLabel *detail;
  GtkLabel *cost;
  HsVerdictLabel *broken;
};

G_DEFINE_FINAL_TYPE (HsOfferRow, hs_offer_row, ADW_TYPE_BIN)

static void
hs_offer_row_class_init (HsOfferRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  g_type_ensure (HS_TYPE_WIDE_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-offer-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HsOfferRow, start);
  gtk_widget_class_bind_template_child (widget_class, HsOfferRow, place);
  gtk_widget_class_bind_template_child (widget_class, HsOfferRow, detail);
  gtk_widget_class_bind_template_child (widget_class, HsOfferRow, cost);
  gtk_widget_class_bind_template_child (widget_class, HsOfferRow, broken);
}

static void
hs_offer_row_init (HsOfferRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static char *
slot_text (const HsOffer *offer)
{
  if (offer->replanned)
    return offer->after != NULL ? g_strdup_printf (_("day timed anew, after %s"), offer->after)
                                : g_strdup (_("day timed anew, first stop"));
  return offer->after != NULL ? g_strdup_printf (_("after %s"), offer->after) : g_strdup (_("first stop of the day"));
}

/* With the van where there are several. */
static char *
place_text (const HsOffer *offer)
{
  g_autofree char *slot = slot_text (offer);

  return offer->van != NULL ? g_strdup_printf (_("van %s, %s"), offer->van, slot) : g_steal_pointer (&slot);
}

/* "free 10:41–11:39", "free from 16:18" where only the day ends it; %NULL where nothing may be promised. */
static char *
free_text (HsLedger *ledger, const HsOffer *offer)
{
  g_autofree char *window = NULL;
  HsDate from, to;

  if (!hs_offer_row_has_free (offer))
    return NULL;
  hs_instant_to_local (hs_ledger_get_zone (ledger), offer->free_from, &from, NULL);
  hs_instant_to_local (hs_ledger_get_zone (ledger), offer->free_to, &to, NULL);
  if (to > from)
    {
      window = hs_show_clock (ledger, offer->free_from);
      return g_strdup_printf (_("free from %s"), window);
    }
  window = hs_show_window (ledger, offer->free_from, offer->free_to);
  return g_strdup_printf (_("free %s"), window);
}

/* "A-0022 8 min late, A-0024 3 min late"; %NULL where every promise is kept. */
static char *
broken_text (const HsOffer *offer)
{
  g_autoptr (GString) text = NULL;

  for (guint i = 0; i < offer->breaks->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (offer->breaks, i);

      if (text == NULL)
        text = g_string_new (NULL);
      else
        g_string_append (text, ", ");
      if (broken->late_seconds > 0)
        g_string_append_printf (text, _("%s %d min late"), broken->id, (int) ((broken->late_seconds + 59) / 60));
      else
        g_string_append (text, broken->id);
    }
  return text != NULL ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

static void
set_text (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

GtkWidget *
hs_offer_row_new_with_face (const HsOfferFace *face)
{
  HsOfferRow *self = g_object_new (HS_TYPE_OFFER_ROW, NULL);

  set_text (self->start, face->start);
  set_text (self->place, face->title);
  set_text (self->detail, face->detail);
  set_text (self->cost, face->cost);
  gtk_widget_set_visible (GTK_WIDGET (self->broken), face->verdict != NULL);
  if (face->verdict != NULL)
    hs_verdict_label_set (self->broken, face->verdict, HS_VERDICT_SHAPE_HEAVY);
  return GTK_WIDGET (self);
}

/* What a screen reader says of a row is all of its parts. */
void
hs_offer_row_append (GtkListBox *list, const HsOfferFace *face)
{
  GtkWidget *row = hs_act_row_new ();
  g_autofree char *say = hs_show_joined (face->start != NULL ? face->start : "", face->title,
                                         face->verdict != NULL ? face->verdict : "",
                                         face->detail != NULL ? face->detail : "", face->cost != NULL ? face->cost : "",
                                         NULL);

  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), hs_offer_row_new_with_face (face));
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  gtk_list_box_append (list, row);
  gtk_widget_set_visible (GTK_WIDGET (list), TRUE);
}

GtkWidget *
hs_offer_row_new (HsLedger *ledger, const HsOffer *offer)
{
  g_autofree char *start = hs_show_clock (ledger, offer->start);
  g_autofree char *place = place_text (offer);
  g_autofree char *broken = broken_text (offer);
  g_autofree char *span = hs_show_span (offer->adds_seconds);
  g_autofree char *miles = hs_show_miles (offer->adds_millimiles);
  g_autofree char *home = hs_show_clock (ledger, offer->home);
  g_autofree char *adds = g_strdup_printf (_("+%s, +%s mi, home %s"), span, miles, home);
  g_autofree char *free_window = free_text (ledger, offer);
  g_autofree char *detail = hs_show_joined (broken != NULL ? broken : "", free_window != NULL ? free_window : "", adds,
                                            NULL);
  g_autofree char *cents = hs_show_money (ledger, offer->adds_cents);
  g_autofree char *cost = g_strconcat ("+", cents, NULL);

  return hs_offer_row_new_with_face (
      &(HsOfferFace){ start, place, broken != NULL ? _("breaks a promise") : NULL, detail, cost });
}

gboolean
hs_offer_row_has_free (const HsOffer *offer)
{
  return offer->free_from != HS_INSTANT_NONE && offer->free_to >= offer->free_from + 60;
}

char *
hs_offer_row_say (HsLedger *ledger, const HsOffer *offer)
{
  g_autofree char *start = hs_show_clock (ledger, offer->start);
  g_autofree char *span = hs_show_span (offer->adds_seconds);
  g_autofree char *cost = hs_show_money (ledger, offer->adds_cents);
  g_autofree char *miles = hs_show_miles (offer->adds_millimiles);
  g_autofree char *home = hs_show_clock (ledger, offer->home);
  g_autofree char *place = place_text (offer);
  g_autofree char *broken = broken_text (offer);

  g_autofree char *free_window = free_text (ledger, offer);

  if (broken != NULL)
    return g_strdup_printf (_("breaks a promise at %s: %s, %s"), start, broken, place);
  return g_strdup_printf (_("fits %s, +%s, +%s mi, +%s, home %s, %s, %s"), start, span, miles, cost, home, place,
                          free_window != NULL ? free_window : "");
}
