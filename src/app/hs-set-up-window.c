// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A book's settings, places and drives.
 *
 *   hs_ask_settings ─▶ one row each      leave a field ─▶ hs_deed_set ─▶ the book's own rule judges
 *   hs_ask_places ─▶ the places there are
 *   HsHolidayCard ─▶ days on which counters keep other hours
 *   HsPostCard ─▶ the settings of posting, and its secret
 *   hs_ask_accuracy ─▶ how far off drives were foretold
 *
 * Use it for a new book and whenever a rate changes. It knows no key itself: what there is, what it means and what is
 * refused come from the book. */

#include "hs-set-up-window.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-decimal.h"
#include "hs-deed-setup.h"
#include "hs-flow-layout.h"
#include "hs-follow.h"
#include "hs-holiday-card.h"
#include "hs-key-button.h"
#include "hs-map-window.h"
#include "hs-post-card.h"
#include "hs-question.h"
#include "hs-refusal.h"
#include "hs-road-card.h"
#include "hs-travel-op.h"

struct _HsSetUpWindow
{
  AdwWindow parent_instance;

  GtkLabel *places_there;
  GtkLabel *drives_told;
  GtkLabel *status;
  GtkEditable *place_code;
  GtkEditable *place_name;
  GtkEditable *place_position;
  GtkLabel *counters_there;
  GtkEditable *counter_name;
  GtkEditable *counter_place;
  GtkEditable *drive_from;
  GtkEditable *drive_to;
  GtkEditable *drive_minutes;
  GtkEditable *drive_miles;
  HsHolidayCard *holidays;
  HsRoadCard *roads;
  HsPostCard *posting;
  GtkBox *rows;

  HsLedger *ledger;
  HsQuestion *settings;
  HsQuestion *places;
  HsQuestion *accuracy;
  HsQuestion *map;
  GHashTable *entries; /* key → GtkEditable of its row */
  char *refused;       /* why the latest value was not taken, since the window was last asked to close */
  gboolean warned;
};

G_DEFINE_FINAL_TYPE (HsSetUpWindow, hs_set_up_window, ADW_TYPE_WINDOW)

static void
tell (HsSetUpWindow *self, const char *text, gboolean good)
{
  gtk_label_set_label (self->status, text);
  if (good)
    return;
  g_free (self->refused);
  self->refused = g_strdup (text);
}

static gboolean
finish (HsRefusal *asked, GObject *source, GAsyncResult *result)
{
  HsSetUpWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;
  gboolean good = hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);

  if (hs_refusal_late (asked, good ? NULL : error->message))
    return FALSE;
  tell (self, good ? _("Written down.") : error->message, good);
  return good && self->entries != NULL;
}

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;

  finish (asked, source, result);
}

/* Ready for the next one; a refused one stays to be mended. */
static void
place_done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSetUpWindow *self = hs_refusal_get_window (asked);

  if (!finish (asked, source, result))
    return;
  hs_road_maker_drive (hs_road_maker_of (self->ledger));
  gtk_editable_set_text (self->place_code, "");
  gtk_editable_set_text (self->place_name, "");
  gtk_editable_set_text (self->place_position, "");
  gtk_widget_grab_focus (GTK_WIDGET (self->place_code));
}

static void
counter_done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSetUpWindow *self = hs_refusal_get_window (asked);

  if (!finish (asked, source, result))
    return;
  hs_road_maker_drive (hs_road_maker_of (self->ledger));
  gtk_editable_set_text (self->counter_name, "");
  gtk_editable_set_text (self->counter_place, "");
  gtk_widget_grab_focus (GTK_WIDGET (self->counter_name));
}

static void
drive_done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSetUpWindow *self = hs_refusal_get_window (asked);

  if (!finish (asked, source, result))
    return;
  gtk_editable_set_text (self->drive_to, "");
  gtk_editable_set_text (self->drive_minutes, "");
  gtk_editable_set_text (self->drive_miles, "");
  gtk_widget_grab_focus (GTK_WIDGET (self->drive_to));
}

static void
card_told_cb (HsSetUpWindow *self, const char *text, gboolean good)
{
  tell (self, text, good);
}

/* Settings. */

static const HsSetting *
find_setting (HsSetUpWindow *self, const char *key)
{
  GPtrArray *settings = self->settings != NULL ? hs_question_get (self->settings) : NULL;

  for (guint i = 0; settings != NULL && i < settings->len; i++)
    if (g_str_equal (((const HsSetting *) g_ptr_array_index (settings, i))->key, key))
      return g_ptr_array_index (settings, i);
  return NULL;
}

static void
save_entry (HsSetUpWindow *self, GtkWidget *entry)
{
  const char *key = g_object_get_data (G_OBJECT (entry), "key");
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  const HsSetting *setting = find_setting (self, key);

  if (setting != NULL && hs_follow_is_touched (GTK_EDITABLE (entry)))
    hs_deed_set (self->ledger, key, text, done_cb, hs_refusal_expect (GTK_WINDOW (self), text));
}

/* Where the base is, picked: the field is written as if it was left. */
static void
base_picked_cb (GtkWidget *entry, const char *place)
{
  HsSetUpWindow *self = HS_SET_UP_WINDOW (gtk_widget_get_root (entry));

  gtk_editable_set_text (GTK_EDITABLE (entry), place);
  save_entry (self, entry);
}

static HsMapWindow *
show_map (HsSetUpWindow *self, const char *what, GtkEditable *entry)
{
  return hs_map_window_present (GTK_WINDOW (self), self->ledger, what, gtk_editable_get_text (entry),
                                hs_ledger_get_today (self->ledger));
}

static void
base_on_map_cb (GtkWidget *entry)
{
  HsSetUpWindow *self = HS_SET_UP_WINDOW (gtk_widget_get_root (entry));

  g_signal_connect_object (show_map (self, _("Base"), GTK_EDITABLE (entry)), "picked", G_CALLBACK (base_picked_cb),
                           entry, G_CONNECT_SWAPPED);
}

/* A field that wants a place has the map beside it. */
static GtkWidget *
with_map (GtkWidget *entry)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0), *button = hs_key_button_new (NULL, _("On Map"), NULL);

  gtk_widget_set_layout_manager (box, g_object_new (HS_TYPE_FLOW_LAYOUT, NULL));
  gtk_widget_set_hexpand (entry, TRUE);
  g_signal_connect_object (button, "clicked", G_CALLBACK (base_on_map_cb), entry, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), entry);
  gtk_box_append (GTK_BOX (box), button);
  return box;
}

static void
entry_left_cb (HsSetUpWindow *self, GtkEventController *controller)
{
  save_entry (self, gtk_event_controller_get_widget (controller));
}

static void
add_row (HsSetUpWindow *self, const HsSetting *setting)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *label = gtk_label_new (setting->help);
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, "hs-caption");
  g_object_set_data_full (G_OBJECT (entry), "key", g_strdup (setting->key), g_free);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, setting->help, -1);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 8);
  g_signal_connect_object (entry, "activate", G_CALLBACK (save_entry), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (entry_left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (entry, focus);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), g_str_equal (setting->key, "base_area") ? with_map (entry) : entry);
  gtk_box_append (self->rows, row);
  g_hash_table_insert (self->entries, g_strdup (setting->key), entry);
}

static void
settings_cb (HsSetUpWindow *self)
{
  GPtrArray *settings = hs_question_get (self->settings);

  for (guint i = 0; settings != NULL && i < settings->len; i++)
    {
      const HsSetting *setting = g_ptr_array_index (settings, i);
      GtkWidget *entry = g_hash_table_lookup (self->entries, setting->key);

      if (hs_post_card_has (setting->key))
        continue;
      if (entry == NULL)
        {
          add_row (self, setting);
          entry = g_hash_table_lookup (self->entries, setting->key);
        }
      hs_follow_fill (GTK_EDITABLE (entry), setting->value);
    }
}

/* Places and drives. */

static void
places_cb (HsSetUpWindow *self)
{
  GPtrArray *places = hs_question_get (self->places);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; places != NULL && i < places->len; i++)
    {
      const HsPlace *place = g_ptr_array_index (places, i);

      g_string_append_printf (text, "%s%s", i > 0 ? " · " : "", place->code);
      if (!g_str_equal (place->code, place->name))
        g_string_append_printf (text, " %s", place->name);
    }
  gtk_label_set_label (self->places_there, text->len > 0 ? text->str : _("No place yet. Give the yard a short code, "
                                                                         "then set it as the first setting below."));
}

/* The counters that have a position, and those of the areas that have: "Q Quayside 40.71280,-74.00600". */
static void
map_cb (HsSetUpWindow *self)
{
  GPtrArray *places = hs_question_get (self->map);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; places != NULL && i < places->len; i++)
    {
      const HsMapPlace *place = g_ptr_array_index (places, i);

      if (place->kind != HS_MAP_COUNTER)
        continue;
      g_string_append_printf (text, "%s%s (%s)", text->len > 0 ? " · " : "", place->name, place->code);
    }
  gtk_label_set_label (self->counters_there, text->len > 0 ? text->str : _("No counter has a position yet."));
}

static void
position_picked_cb (HsSetUpWindow *self, const char *place, const char *position)
{
  gtk_editable_set_text (self->place_position, position);
  gtk_widget_grab_focus (GTK_WIDGET (self->place_position));
}

static void
counter_picked_cb (HsSetUpWindow *self, const char *place)
{
  gtk_editable_set_text (self->counter_place, place);
  gtk_widget_grab_focus (GTK_WIDGET (self->counter_place));
}

static void
place_on_map_cb (HsSetUpWindow *self)
{
  const char *position = gtk_editable_get_text (self->place_position);
  HsMapWindow *window = show_map (self, _("Place"), *position != '\0' ? self->place_position : self->place_code);

  g_signal_connect_object (window, "picked", G_CALLBACK (position_picked_cb), self, G_CONNECT_SWAPPED);
}

static void
counter_on_map_cb (HsSetUpWindow *self)
{
  HsMapWindow *window = show_map (self, _("Counter"), self->counter_place);

  g_signal_connect_object (window, "picked", G_CALLBACK (counter_picked_cb), self, G_CONNECT_SWAPPED);
}

static const char *
source_label (HsTravelSource source)
{
  switch (source)
    {
    case HS_TRAVEL_OWN:
      return _("own trips");
    case HS_TRAVEL_FEW:
      return _("a few own trips");
    case HS_TRAVEL_TABLED:
      return _("your table");
    case HS_TRAVEL_ROADS:
      return _("roads");
    case HS_TRAVEL_GUESS:
      return _("guess");
    }
  g_assert_not_reached ();
}

/* "own trips 1.5 min · your table 2 min", the best first. */
static char *
off_text (const HsTravelAccuracy *accuracy)
{
  static const HsTravelSource sources[]
      = { HS_TRAVEL_OWN, HS_TRAVEL_FEW, HS_TRAVEL_TABLED, HS_TRAVEL_ROADS, HS_TRAVEL_GUESS };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (sources); i++)
    {
      gint64 tenths = 0;
      g_autofree char *minutes = NULL;

      if (accuracy->count[sources[i]] == 0
          || !hs_ratio_half_up (accuracy->off_seconds[sources[i]], 1, 6, &tenths))
        continue;
      minutes = hs_decimal_format_short (tenths, 1);
      g_string_append (text, text->len > 0 ? " · " : "");
      g_string_append_printf (text, _("%s %s min"), source_label (sources[i]), minutes);
    }
  return g_string_free (text, FALSE);
}

static void
accuracy_cb (HsSetUpWindow *self)
{
  const HsTravelAccuracy *accuracy = hs_question_get (self->accuracy);
  g_autofree char *off = accuracy != NULL ? off_text (accuracy) : NULL;
  g_autofree char *text = NULL;

  if (off == NULL || *off == '\0')
    text = g_strdup (_("Trips of your own are learned from Rolling and At the vehicle."));
  else
    text = g_strdup_printf (ngettext ("Off in the middle of %u own trip, foretold without itself: %s",
                                      "Off in the middle of %u own trips, each foretold without itself: %s",
                                      accuracy->trips), accuracy->trips, off);
  gtk_label_set_label (self->drives_told, text);
}

static void
add_place_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSetUpWindow *self = HS_SET_UP_WINDOW (widget);

  hs_deed_add_place (self->ledger, gtk_editable_get_text (self->place_code), gtk_editable_get_text (self->place_name),
                     gtk_editable_get_text (self->place_position), place_done_cb,
                     hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->place_code)));
}

static void
place_counter_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSetUpWindow *self = HS_SET_UP_WINDOW (widget);

  hs_deed_place_counter (self->ledger, gtk_editable_get_text (self->counter_name),
                         gtk_editable_get_text (self->counter_place), counter_done_cb,
                         hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->counter_name)));
}

static void
add_drive_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSetUpWindow *self = HS_SET_UP_WINDOW (widget);

  hs_deed_add_drive (self->ledger, gtk_editable_get_text (self->drive_from), gtk_editable_get_text (self->drive_to),
                     gtk_editable_get_text (self->drive_minutes), gtk_editable_get_text (self->drive_miles),
                     drive_done_cb,
                     hs_refusal_expect (GTK_WINDOW (self), gtk_editable_get_text (self->drive_minutes)));
}

static void
add_place_cb (HsSetUpWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "setup.add-place", NULL);
}

static void
place_counter_cb (HsSetUpWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "setup.place-counter", NULL);
}

static void
add_drive_cb (HsSetUpWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "setup.add-drive", NULL);
}

static gboolean
is_typed (GtkEditable *entry)
{
  return *gtk_editable_get_text (entry) != '\0';
}

/* The field that has the focus is left only now, and what was not added yet is added; what is refused keeps the window,
 * once. */
static gboolean
close_request_cb (HsSetUpWindow *self)
{
  GHashTableIter iter;
  gpointer entry;
  g_autofree char *text = NULL;

  g_clear_pointer (&self->refused, g_free);
  if (is_typed (self->place_code) || is_typed (self->place_name) || is_typed (self->place_position))
    add_place_cb (self);
  if (is_typed (self->counter_name) || is_typed (self->counter_place))
    place_counter_cb (self);
  if (is_typed (self->drive_to) || is_typed (self->drive_minutes) || is_typed (self->drive_miles))
    add_drive_cb (self);
  hs_holiday_card_flush (self->holidays);
  hs_post_card_flush (self->posting);
  g_hash_table_iter_init (&iter, self->entries);
  while (g_hash_table_iter_next (&iter, NULL, &entry))
    save_entry (self, entry);
  hs_ledger_wait (self->ledger);
  if (self->refused == NULL || self->warned)
    return FALSE;
  self->warned = TRUE;
  text = g_strconcat (self->refused, "\n", _("Not saved, so it stays here. Esc again throws it away."), NULL);
  gtk_label_set_label (self->status, text);
  return TRUE;
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
hs_set_up_window_dispose (GObject *object)
{
  HsSetUpWindow *self = HS_SET_UP_WINDOW (object);

  g_clear_object (&self->settings);
  g_clear_object (&self->places);
  g_clear_object (&self->accuracy);
  g_clear_object (&self->map);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->entries, g_hash_table_unref);
  g_clear_pointer (&self->refused, g_free);
  G_OBJECT_CLASS (hs_set_up_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, places_there);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, drives_told);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, status);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, place_code);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, place_name);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, place_position);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, counters_there);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, counter_name);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, counter_place);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, drive_from);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, drive_to);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, drive_minutes);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, drive_miles);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, holidays);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, roads);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, posting);
  gtk_widget_class_bind_template_child (widget_class, HsSetUpWindow, rows);
  /* Enter moves on; in the last field of a row it adds the row. */
  gtk_widget_class_bind_template_callback (widget_class, gtk_widget_grab_focus);
  gtk_widget_class_bind_template_callback (widget_class, add_place_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_drive_cb);
  gtk_widget_class_bind_template_callback (widget_class, place_counter_cb);
  gtk_widget_class_bind_template_callback (widget_class, place_on_map_cb);
  gtk_widget_class_bind_template_callback (widget_class, counter_on_map_cb);
  gtk_widget_class_bind_template_callback (widget_class, close_request_cb);
  gtk_widget_class_bind_template_callback (widget_class, card_told_cb);
}

static void
hs_set_up_window_class_init (HsSetUpWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_set_up_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_HOLIDAY_CARD);
  g_type_ensure (HS_TYPE_POST_CARD);
  g_type_ensure (HS_TYPE_ROAD_CARD);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-set-up-window.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "setup.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "setup.add-place", NULL, add_place_action);
  gtk_widget_class_install_action (widget_class, "setup.add-drive", NULL, add_drive_action);
  gtk_widget_class_install_action (widget_class, "setup.place-counter", NULL, place_counter_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "setup.close", NULL);
}

static void
hs_set_up_window_init (HsSetUpWindow *self)
{
  self->entries = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
}

static HsQuestion *
ask (HsSetUpWindow *self, HsLedgerFunc func, GDestroyNotify free_answer, GCallback answered)
{
  HsQuestion *question = hs_question_new (self->ledger, func, free_answer);

  g_signal_connect_object (question, "answered", answered, self, G_CONNECT_SWAPPED);
  hs_question_ask (question, NULL);
  return question;
}

HsSetUpWindow *
hs_set_up_window_present (HsWindow *parent, HsLedger *ledger)
{
  HsSetUpWindow *self;

  g_return_val_if_fail (HS_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);

  self = g_object_new (HS_TYPE_SET_UP_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
  self->ledger = g_object_ref (ledger);
  hs_road_card_set_ledger (self->roads, ledger);
  hs_holiday_card_set_ledger (self->holidays, ledger);
  hs_post_card_set_ledger (self->posting, ledger);
  hs_window_fit_over (GTK_WINDOW (self));
  self->settings = ask (self, hs_ask_settings, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (settings_cb));
  self->places = ask (self, hs_ask_places, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (places_cb));
  self->accuracy = ask (self, hs_ask_accuracy, g_free, G_CALLBACK (accuracy_cb));
  self->map = ask (self, hs_ask_map, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (map_cb));
  gtk_window_present (GTK_WINDOW (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->place_code));
  return self;
}

void
hs_set_up_window_show_posting (HsSetUpWindow *self)
{
  g_return_if_fail (HS_IS_SET_UP_WINDOW (self));

  gtk_widget_grab_focus (hs_post_card_get (self->posting, "post_url"));
}

GtkEditable *
hs_set_up_window_get_entry (HsSetUpWindow *self, const char *name)
{
  g_return_val_if_fail (HS_IS_SET_UP_WINDOW (self), NULL);

  if (g_str_has_prefix (name, "place_") || g_str_has_prefix (name, "drive_")
      || g_str_has_prefix (name, "counter_"))
    {
      GObject *child = gtk_widget_get_template_child (GTK_WIDGET (self), HS_TYPE_SET_UP_WINDOW, name);

      return GTK_IS_EDITABLE (child) ? GTK_EDITABLE (child) : NULL;
    }
  return g_hash_table_lookup (self->entries, name);
}
