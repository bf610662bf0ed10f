// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where one more call fits a day.
 *
 *   area, minutes, window ─▶ hs_ask_offers ─▶ HsOfferRow …      Enter on one ─▶ call slip with its van and time
 *
 * It writes nothing itself and asks again when the book changes. The order that stands is kept; days timed anew are
 * asked for by their own switch, since they move what callers were told. */

#include "hs-squeeze-window.h"

#include <glib/gi18n.h>

#include "hs-act-check.h"
#include "hs-act-row.h"
#include "hs-area-choice.h"
#include "hs-ask.h"
#include "hs-call-slip-window.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-offer-row.h"
#include "hs-question.h"
#include "hs-show.h"
#include "hs-typed.h"

struct _HsSqueezeWindow
{
  AdwWindow parent_instance;

  HsAreaChoice *area;
  GtkEditable *minutes;
  GtkEditable *from;
  GtkEditable *to;
  GtkCheckButton *anew;
  GtkLabel *day_label;
  GtkLabel *state;
  GtkWidget *frame;
  GtkListBox *list;
  HsKeyButton *write;

  HsWindow *behind; /* weak */
  HsLedger *ledger;
  HsDraft *draft;
  HsQuestion *places;
  HsQuestion *offers;
  HsDate day;
};

G_DEFINE_FINAL_TYPE (HsSqueezeWindow, hs_squeeze_window, ADW_TYPE_WINDOW)

#define SQUEEZE_KEY "hs-squeeze"
/* What is said to a caller whose place in the day has no free window: "from then on, within the hour". */
#define SAID_MINUTES 60

static void changed_cb (HsSqueezeWindow *self);

static void
places_cb (HsSqueezeWindow *self)
{
  hs_area_choice_set_places (self->area, hs_question_get_snapshot (self->places));
  changed_cb (self);
}

/* What keeps the question from being asked; %NULL when nothing does. */
static const char *
what_is_missing (HsSqueezeWindow *self)
{
  const char *from = gtk_editable_get_text (self->from), *to = gtk_editable_get_text (self->to);
  int minutes = hs_typed_minutes (gtk_editable_get_text (self->minutes));

  if (minutes < 0)
    return _("Minutes of work are a whole number, at most a week.");
  if ((*from != '\0' && hs_typed_clock (from) < 0) || (*to != '\0' && hs_typed_clock (to) < 0))
    return _("A time is written 930 or 9:30.");
  if (hs_area_choice_get_place (self->area) == NULL || minutes == 0)
    return _("Area and minutes say where it fits.");
  return NULL;
}

static void
show_state (HsSqueezeWindow *self, const char *text)
{
  gtk_label_set_label (self->state, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->state), text != NULL);
  gtk_widget_set_visible (self->frame, text == NULL);
}

static void
ask_offers (HsSqueezeWindow *self)
{
  int from = hs_typed_clock (gtk_editable_get_text (self->from));
  int to = hs_typed_clock (gtk_editable_get_text (self->to));

  if (what_is_missing (self) != NULL)
    {
      hs_question_forget (self->offers);
      show_state (self, what_is_missing (self));
      return;
    }
  hs_question_ask (self->offers, g_variant_new ("(isiiib)", self->day, hs_area_choice_get_place (self->area)->code,
                                                hs_typed_minutes (gtk_editable_get_text (self->minutes)),
                                                MAX (from, 0), to >= 0 ? to : HS_MINUTES_PER_DAY,
                                                gtk_check_button_get_active (self->anew)));
}

static void
offers_cb (HsSqueezeWindow *self)
{
  GPtrArray *offers = hs_question_get (self->offers);
  GtkListBoxRow *old;

  while ((old = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (old));
  if (hs_question_get_trouble (self->offers) != NULL || offers == NULL || offers->len == 0)
    {
      show_state (self, hs_question_get_trouble (self->offers) != NULL ? hs_question_get_trouble (self->offers)
                                                                      : _("It fits nowhere on this day."));
      return;
    }
  for (guint i = 0; i < offers->len; i++)
    {
      const HsOffer *offer = g_ptr_array_index (offers, i);
      GtkWidget *row = hs_act_row_new ();
      g_autofree char *say = hs_offer_row_say (self->ledger, offer);

      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), hs_offer_row_new (self->ledger, offer));
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
      gtk_list_box_append (self->list, row);
    }
  show_state (self, NULL);
}

static void
changed_cb (HsSqueezeWindow *self)
{
  if (self->offers != NULL)
    ask_offers (self);
}

/* Enter in a field goes on to the offers. */
static void
entered_cb (HsSqueezeWindow *self)
{
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (self->list, 0);

  if (first != NULL && gtk_widget_get_visible (self->frame))
    gtk_widget_grab_focus (GTK_WIDGET (first));
  else
    gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
}

/* The offer whose row is @row or has the focus; %NULL where none has. */
static const HsOffer *
offer_of (HsSqueezeWindow *self, GtkListBoxRow *row)
{
  GPtrArray *offers = hs_question_get (self->offers);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  GtkWidget *focused = focus != NULL ? gtk_widget_get_ancestor (focus, GTK_TYPE_LIST_BOX_ROW) : NULL;
  int at;

  if (row == NULL && focused != NULL && gtk_widget_is_ancestor (focused, GTK_WIDGET (self->list)))
    row = GTK_LIST_BOX_ROW (focused);
  at = row != NULL ? gtk_list_box_row_get_index (row) : -1;
  return offers != NULL && at >= 0 && (guint) at < offers->len ? g_ptr_array_index (offers, (guint) at) : NULL;
}

static int
minute_of (HsSqueezeWindow *self, HsInstant instant)
{
  HsDate day;
  int seconds;

  hs_instant_to_local (hs_ledger_get_zone (self->ledger), instant, &day, &seconds);
  return CLAMP ((day - self->day) * HS_MINUTES_PER_DAY + seconds / 60, 0, HS_MINUTES_PER_DAY);
}

/* The time that may be promised there, within the caller's own; where nothing is free, from the start of work on. */
static void
take_window (HsSqueezeWindow *self, const HsOffer *offer, HsCallSlip *slip)
{
  gboolean is_free = hs_offer_row_has_free (offer);
  int from = minute_of (self, is_free ? offer->free_from : offer->start);
  int to = minute_of (self, is_free ? offer->free_to : offer->start + SAID_MINUTES * 60);

  if (is_free && slip->window_from > from && slip->window_from < to)
    from = slip->window_from;
  if (is_free && slip->window_to > from && slip->window_to < to)
    to = slip->window_to;
  slip->window_from = from;
  slip->window_to = to;
}

/* @offer: (nullable): the one that was chosen; without it the slip gets what was typed. */
static void
write_slip (HsSqueezeWindow *self, const HsOffer *offer)
{
  const HsPlace *place = hs_area_choice_get_place (self->area);
  g_autoptr (HsWindow) behind = g_object_ref (self->behind);
  g_autoptr (HsLedger) ledger = g_object_ref (self->ledger);
  g_autoptr (HsDraft) draft = g_object_ref (self->draft);
  HsCallSlip slip = { .day = self->day };
  g_autofree char *area = g_strdup (place->code), *van = offer != NULL ? g_strdup (offer->van) : NULL;

  slip.area = area;
  slip.window_from = hs_typed_clock (gtk_editable_get_text (self->from));
  slip.window_to = hs_typed_clock (gtk_editable_get_text (self->to));
  slip.minutes = hs_typed_minutes (gtk_editable_get_text (self->minutes));
  slip.van = van;
  if (offer != NULL)
    take_window (self, offer, &slip);
  gtk_window_close (GTK_WINDOW (self));
  hs_call_slip_window_propose (hs_call_slip_window_present (behind, ledger, draft), &slip);
}

static void
activated_cb (HsSqueezeWindow *self, GtkListBoxRow *row)
{
  if (what_is_missing (self) == NULL)
    write_slip (self, offer_of (self, row));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
write_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  activated_cb (HS_SQUEEZE_WINDOW (widget), NULL);
}

static void
step_aside (HsSqueezeWindow *self)
{
  if (self->behind != NULL && g_object_get_data (G_OBJECT (self->behind), SQUEEZE_KEY) == self)
    g_object_set_data (G_OBJECT (self->behind), SQUEEZE_KEY, NULL);
}

static gboolean
close_request_cb (HsSqueezeWindow *self)
{
  step_aside (self);
  return FALSE;
}

static void
hs_squeeze_window_dispose (GObject *object)
{
  HsSqueezeWindow *self = HS_SQUEEZE_WINDOW (object);

  step_aside (self);
  g_clear_weak_pointer (&self->behind);
  g_clear_object (&self->places);
  g_clear_object (&self->offers);
  g_clear_object (&self->draft);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_squeeze_window_parent_class)->dispose (object);
}

static void
hs_squeeze_window_class_init (HsSqueezeWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_squeeze_window_dispose;
  g_type_ensure (HS_TYPE_AREA_CHOICE);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_ACT_CHECK);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-squeeze-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, area);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, minutes);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, from);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, to);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, anew);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, day_label);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, state);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, frame);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, list);
  gtk_widget_class_bind_template_child (widget_class, HsSqueezeWindow, write);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, close_request_cb);
  gtk_widget_class_install_action (widget_class, "squeeze.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "squeeze.write", NULL, write_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "squeeze.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F5, 0, "squeeze.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F3, 0, "squeeze.write", NULL);
}

static void
hs_squeeze_window_init (HsSqueezeWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_key_button_set_wraps (self->write, TRUE);
}

static void
start (HsSqueezeWindow *self)
{
  g_autofree char *day = hs_show_full_day (self->day);

  gtk_label_set_label (self->day_label, day);
  self->places = hs_question_new (self->ledger, hs_ask_places, (GDestroyNotify) g_ptr_array_unref);
  self->offers = hs_question_new (self->ledger, hs_ask_offers, (GDestroyNotify) g_ptr_array_unref);
  g_signal_connect_object (self->places, "answered", G_CALLBACK (places_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->offers, "answered", G_CALLBACK (offers_cb), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->places, NULL);
  ask_offers (self);
}

HsSqueezeWindow *
hs_squeeze_window_present (HsWindow *parent, HsLedger *ledger, HsDraft *draft, HsDate day)
{
  HsSqueezeWindow *self;

  g_return_val_if_fail (HS_IS_WINDOW (parent), NULL);

  self = g_object_get_data (G_OBJECT (parent), SQUEEZE_KEY);
  if (self == NULL)
    {
      self = g_object_new (HS_TYPE_SQUEEZE_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
      g_set_weak_pointer (&self->behind, parent);
      self->ledger = g_object_ref (ledger);
      self->draft = g_object_ref (draft);
      self->day = day;
      hs_window_fit_over (GTK_WINDOW (self));
      g_object_set_data (G_OBJECT (parent), SQUEEZE_KEY, self);
      start (self);
    }
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->area));
  gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
  return self;
}

void
hs_squeeze_window_fill (HsSqueezeWindow *self, const char *area, const char *minutes, const char *from,
                        const char *to)
{
  g_return_if_fail (HS_IS_SQUEEZE_WINDOW (self));

  hs_area_choice_choose (self->area, area);
  gtk_editable_set_text (self->minutes, minutes);
  gtk_editable_set_text (self->from, from);
  gtk_editable_set_text (self->to, to);
}
