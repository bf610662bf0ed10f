// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Picking a place.
 *
 *   hs_ask_map ─▶ HsMapView          hs_ask_day ─▶ its wire          pin ⇄ field ─▶ ::picked
 *
 * It writes nothing: whoever opened it decides what the place is of. */

#include "hs-map-window.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-geo.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-question.h"
#include "hs-window.h"

struct _HsMapWindow
{
  AdwWindow parent_instance;

  HsMapView *map;
  GtkEditable *position;
  GtkLabel *state;

  HsLedger *ledger;
  HsQuestion *places;
  HsQuestion *plan;
  char *start; /* waits for the places */
  char *typed; /* what the field said when the pin was set */
};

G_DEFINE_FINAL_TYPE (HsMapWindow, hs_map_window, ADW_TYPE_WINDOW)

static guint picked_signal;

static void
show_pin (HsMapWindow *self)
{
  const HsMapPlace *place = hs_map_view_get_place (self->map);
  double latitude, longitude;

  if (!hs_map_view_get_pin (self->map, &latitude, &longitude))
    return;
  g_free (self->typed);
  self->typed = hs_geo_format (latitude, longitude);
  gtk_editable_set_text (self->position, self->typed);
  gtk_label_set_label (self->state, place != NULL ? place->name : self->typed);
}

/* The crosshair is read out, or what the pin under it stands on. */
static void
moved_cb (HsMapWindow *self)
{
  const HsMapPlace *place = hs_map_view_get_place (self->map);
  g_autofree char *text = NULL;
  double latitude, longitude;

  hs_map_view_get_crosshair (self->map, &latitude, &longitude);
  if (place != NULL && place->latitude == latitude && place->longitude == longitude)
    {
      gtk_label_set_label (self->state, place->name);
      return;
    }
  text = hs_geo_format (latitude, longitude);
  gtk_label_set_label (self->state, text);
}

static void
places_cb (HsMapWindow *self)
{
  GPtrArray *places = hs_question_get (self->places);

  hs_map_view_set_places (self->map, hs_question_get_snapshot (self->places));
  for (guint i = 0; places != NULL && self->start != NULL && i < places->len; i++)
    {
      const HsMapPlace *place = g_ptr_array_index (places, i);

      if (!g_str_equal (place->code, self->start) && !g_str_equal (place->name, self->start))
        continue;
      g_clear_pointer (&self->start, g_free);
      hs_map_view_set_pin (self->map, place->latitude, place->longitude);
      show_pin (self);
    }
  if (places != NULL && places->len == 0 && self->typed == NULL)
    gtk_label_set_label (self->state, _("No place has a position yet: type one, such as 40.7128, -74.006."));
}

/* From the base and back to it. */
static void
plan_cb (HsMapWindow *self)
{
  const HsDayPlan *plan = hs_question_get (self->plan);
  GPtrArray *places = hs_question_get (self->places);
  g_autoptr (GPtrArray) codes = g_ptr_array_new ();
  const char *base = NULL;

  for (guint i = 0; places != NULL && i < places->len; i++)
    if (((const HsMapPlace *) g_ptr_array_index (places, i))->kind == HS_MAP_BASE)
      base = ((const HsMapPlace *) g_ptr_array_index (places, i))->code;
  if (plan == NULL || base == NULL)
    return;
  g_ptr_array_add (codes, (gpointer) base);
  for (guint i = 0; i < plan->stops->len; i++)
    if (((const HsPlannedStop *) g_ptr_array_index (plan->stops, i))->area != NULL)
      g_ptr_array_add (codes, ((const HsPlannedStop *) g_ptr_array_index (plan->stops, i))->area);
  g_ptr_array_add (codes, (gpointer) base);
  g_ptr_array_add (codes, NULL);
  hs_map_view_set_legs (self->map, (const char *const *) codes->pdata);
}

/* What is typed becomes the pin; %FALSE with the reason shown. */
static gboolean
take_typed (HsMapWindow *self)
{
  g_autoptr (GError) error = NULL;
  HsGeo geo;

  if (!hs_geo_parse (gtk_editable_get_text (self->position), &geo, &error))
    {
      gtk_label_set_label (self->state, error->message);
      gtk_widget_grab_focus (GTK_WIDGET (self->position));
      return FALSE;
    }
  hs_map_view_set_pin (self->map, geo.latitude, geo.longitude);
  show_pin (self);
  return TRUE;
}

static void
entered_cb (HsMapWindow *self)
{
  if (take_typed (self))
    gtk_widget_grab_focus (GTK_WIDGET (self->map));
}

static void
use (HsMapWindow *self)
{
  const char *text = gtk_editable_get_text (self->position);
  const HsMapPlace *place;
  g_autofree char *code = NULL;

  if (*text == '\0')
    {
      gtk_label_set_label (self->state, _("Set the pin first: click the map, or arrows and Enter."));
      return;
    }
  if (g_strcmp0 (text, self->typed) != 0 && !take_typed (self))
    return;
  place = hs_map_view_get_place (self->map);
  code = g_strdup (place != NULL ? place->code : self->typed);
  g_signal_emit (self, picked_signal, 0, code, self->typed);
  gtk_window_close (GTK_WINDOW (self));
}

static void
use_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  use (HS_MAP_WINDOW (widget));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
all_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_map_view_show_all (HS_MAP_WINDOW (widget)->map);
}

static void
zoom_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_map_view_zoom (HS_MAP_WINDOW (widget)->map, g_str_equal (name, "map.closer") ? 1.5 : 1 / 1.5);
}

static void
hs_map_window_dispose (GObject *object)
{
  HsMapWindow *self = HS_MAP_WINDOW (object);

  g_clear_object (&self->places);
  g_clear_object (&self->plan);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->start, g_free);
  g_clear_pointer (&self->typed, g_free);
  G_OBJECT_CLASS (hs_map_window_parent_class)->dispose (object);
}

static void
hs_map_window_class_init (HsMapWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_map_window_dispose;
  picked_signal = g_signal_new ("picked", HS_TYPE_MAP_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                G_TYPE_STRING, G_TYPE_STRING);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_MAP_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-map-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsMapWindow, map);
  gtk_widget_class_bind_template_child (widget_class, HsMapWindow, position);
  gtk_widget_class_bind_template_child (widget_class, HsMapWindow, state);
  gtk_widget_class_bind_template_callback (widget_class, moved_cb);
  gtk_widget_class_bind_template_callback (widget_class, show_pin);
  gtk_widget_class_bind_template_callback (widget_class, use);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_install_action (widget_class, "map.use", NULL, use_action);
  gtk_widget_class_install_action (widget_class, "map.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "map.all", NULL, all_action);
  gtk_widget_class_install_action (widget_class, "map.closer", NULL, zoom_action);
  gtk_widget_class_install_action (widget_class, "map.wider", NULL, zoom_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "map.close", NULL);
}

static void
hs_map_window_init (HsMapWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static HsQuestion *
ask (HsMapWindow *self, HsLedgerFunc func, GDestroyNotify free_answer, GCallback answered, GVariant *args)
{
  HsQuestion *question = hs_question_new (self->ledger, func, free_answer);

  g_signal_connect_object (question, "answered", answered, self, G_CONNECT_SWAPPED);
  hs_question_ask (question, args);
  return question;
}

HsMapWindow *
hs_map_window_present (GtkWindow *parent, HsLedger *ledger, const char *what, const char *place, HsDate day)
{
  HsMapWindow *self;
  g_autofree char *title = NULL;
  HsGeo geo;

  g_return_val_if_fail (GTK_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);

  /* Translators: whose place is picked. */
  title = g_strdup_printf (_("On the Map: %s"), what);
  self = g_object_new (HS_TYPE_MAP_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, "title", title, NULL);
  self->ledger = g_object_ref (ledger);
  self->start = place != NULL && *place != '\0' ? g_strdup (place) : NULL;
  hs_window_fit_over (GTK_WINDOW (self));
  self->places = ask (self, hs_ask_map, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (places_cb), NULL);
  self->plan = ask (self, hs_ask_day, (GDestroyNotify) hs_day_plan_free, G_CALLBACK (plan_cb),
                    g_variant_new ("(ib)", day, FALSE));
  if (self->start != NULL && hs_geo_is_meant (self->start) && hs_geo_parse (self->start, &geo, NULL))
    {
      g_clear_pointer (&self->start, g_free);
      hs_map_view_set_pin (self->map, geo.latitude, geo.longitude);
      show_pin (self);
    }
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->map));
  return self;
}

HsMapView *
hs_map_window_get_view (HsMapWindow *self)
{
  g_return_val_if_fail (HS_IS_MAP_WINDOW (self), NULL);

  return self->map;
}

GtkEditable *
hs_map_window_get_entry (HsMapWindow *self)
{
  g_return_val_if_fail (HS_IS_MAP_WINDOW (self), NULL);

  return self->position;
}
