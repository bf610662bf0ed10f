// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The drop-down of the owner's areas, for the call slip and for squeezing one in.
 *
 *   HsSnapshot of HsPlace … ─▶ GtkStringList: not said yet, names …     wanted ─▶ selected
 *
 * The list comes from the book anew with each change of it; the pick lives here, by its code, and outlasts that. A
 * position that was picked on the map has a line of its own until the book has it as an area. Letters that are typed
 * pick the area whose code or name they begin; into the open list they go as its search, and Enter takes the first that
 * is found. Enter behind such letters goes on to the next field. */

#include "hs-area-choice.h"

#include <glib/gi18n.h>

#include "hs-geo.h"
#include "hs-key-button.h"
#include "hs-map-window.h"
#include "hs-pad-key.h"
#include "hs-spoken.h"
#include "hs-text.h"

/* Letters that come later than this begin a new word. */
#define PAUSE (1500 * G_TIME_SPAN_MILLISECOND)

struct _HsAreaChoice
{
  AdwBin parent_instance;

  GtkWidget *popover;     /* of the drop-down, and in it: */
  GtkEditable *search;
  GtkListView *found;
  GtkDropDown *drop_down; /* ours too: a page may still ask while it is being taken down */
  GtkWidget *on_map;
  HsSnapshot *places;
  HsLedger *ledger; /* (nullable): where there is a map */
  HsPlace *fresh;   /* (nullable): the last line, a position */
  char *wanted;
  char *none; /* what the first line says */
  gboolean filling;
  gboolean by_letters; /* picked by letters since the focus came */
  GString *typed;
  gint64 typed_at;
};

G_DEFINE_FINAL_TYPE (HsAreaChoice, hs_area_choice, ADW_TYPE_BIN)

static guint chosen_signal;

const HsPlace *
hs_area_choice_get_place (HsAreaChoice *self)
{
  GPtrArray *places;
  guint at;

  g_return_val_if_fail (HS_IS_AREA_CHOICE (self), NULL);

  places = hs_snapshot_get (self->places);
  at = gtk_drop_down_get_selected (self->drop_down);
  /* The first line says that none is chosen. */
  if (places != NULL && at > 0 && at <= places->len)
    return g_ptr_array_index (places, at - 1);
  return at == (places != NULL ? places->len : 0) + 1 ? self->fresh : NULL;
}

static guint
line_of (HsAreaChoice *self, const char *area)
{
  GPtrArray *places = hs_snapshot_get (self->places);

  for (guint i = 0; places != NULL && area != NULL && i < places->len; i++)
    {
      const HsPlace *place = g_ptr_array_index (places, i);

      if (g_strcmp0 (place->code, area) == 0 || g_strcmp0 (place->name, area) == 0)
        return i + 1;
    }
  if (self->fresh != NULL && g_strcmp0 (self->fresh->code, area) == 0)
    return (places != NULL ? places->len : 0) + 1;
  return 0;
}

static void
want (HsAreaChoice *self, const char *area)
{
  g_autofree char *wanted = g_strdup (area);

  g_free (self->wanted);
  self->wanted = g_steal_pointer (&wanted);
}

static void
selected_cb (HsAreaChoice *self)
{
  const HsPlace *place = hs_area_choice_get_place (self);

  if (self->filling)
    return;
  want (self, place != NULL ? place->code : NULL);
  g_signal_emit (self, chosen_signal, 0);
}

/* Whether a position is wanted that no area was made for yet. */
static void
freshen (HsAreaChoice *self)
{
  g_clear_pointer (&self->fresh, hs_place_free);
  if (self->wanted == NULL || !hs_geo_is_meant (self->wanted) || line_of (self, self->wanted) > 0)
    return;
  self->fresh = g_new0 (HsPlace, 1);
  self->fresh->code = g_strdup (self->wanted);
  self->fresh->name = g_strdup (self->wanted);
}

/* Lines without the one that was picked keep the wish for it. */
static void
fill (HsAreaChoice *self)
{
  GPtrArray *places = hs_snapshot_get (self->places);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  self->filling = TRUE;
  freshen (self);
  gtk_string_list_append (names, self->none);
  for (guint i = 0; places != NULL && i < places->len; i++)
    gtk_string_list_append (names, ((const HsPlace *) g_ptr_array_index (places, i))->name);
  if (self->fresh != NULL)
    gtk_string_list_append (names, self->fresh->name);
  gtk_drop_down_set_model (self->drop_down, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->drop_down, line_of (self, self->wanted));
  self->filling = FALSE;
}

static void
picked_cb (HsAreaChoice *self, const char *place)
{
  hs_area_choice_choose (self, place);
}

/* Back to where the map was opened from, whether a place was picked on it or not. */
static void
map_closed_cb (HsAreaChoice *self)
{
  GtkRoot *root = gtk_widget_get_root (self->on_map);

  if (!gtk_widget_get_mapped (self->on_map) || gtk_widget_in_destruction (self->on_map))
    return;
  gtk_widget_grab_focus (self->on_map);
  if (GTK_IS_WINDOW (root))
    gtk_window_set_focus_visible (GTK_WINDOW (root), TRUE);
}

static void
on_map_cb (HsAreaChoice *self)
{
  const HsPlace *place = hs_area_choice_get_place (self);
  HsMapWindow *window = hs_map_window_present (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), self->ledger,
                                               _("Area"), place != NULL ? place->code : NULL,
                                               hs_ledger_get_today (self->ledger));

  g_signal_connect_object (window, "picked", G_CALLBACK (picked_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "destroy", G_CALLBACK (map_closed_cb), self, G_CONNECT_SWAPPED);
}

/* Typing to find. */

/* How well @folded fits: 0 a code, 1 the begin of a name, 2 of a word within it, 3 not at all. */
static guint
rank_of (const HsPlace *place, const char *folded)
{
  g_autofree char *code = hs_text_fold (place->code), *name = hs_text_fold (place->name);
  g_autofree char *inner = g_strconcat (" ", folded, NULL);

  if (g_str_equal (code, folded))
    return 0;
  return g_str_has_prefix (name, folded) ? 1 : strstr (name, inner) != NULL ? 2 : 3;
}

/* The line that @typed fits best; with @after the next one behind that line that it fits at all. 0: none. */
static guint
find_typed (HsAreaChoice *self, const char *typed, guint after)
{
  GPtrArray *places = hs_snapshot_get (self->places);
  g_autofree char *folded = hs_text_fold (typed);
  guint best = 0, best_rank = 3;

  for (guint i = 0; places != NULL && i < places->len; i++)
    {
      guint line = (after + i) % places->len + 1;
      guint rank = rank_of (g_ptr_array_index (places, line - 1), folded);

      if (rank < 3 && after > 0)
        return line;
      if (rank < best_rank)
        {
          best = line;
          best_rank = rank;
        }
    }
  return best;
}

/* A letter pressed again goes on to the next area that it begins. */
static gboolean
type (HsAreaChoice *self, gunichar letter)
{
  g_autofree char *before = g_strdup (self->typed->str);
  guint line;

  g_string_append_unichar (self->typed, letter);
  line = find_typed (self, self->typed->str, 0);
  if (line == 0 && g_utf8_strlen (before, -1) == 1 && g_utf8_get_char (before) == letter)
    {
      g_string_assign (self->typed, before);
      line = find_typed (self, before, gtk_drop_down_get_selected (self->drop_down));
    }
  if (line == 0)
    {
      g_string_assign (self->typed, before);
      gtk_widget_error_bell (GTK_WIDGET (self));
      return FALSE;
    }
  gtk_drop_down_set_selected (self->drop_down, line);
  self->by_letters = TRUE;
  return TRUE;
}

/* The open list. */

/* (nullable) (transfer none): the first widget of @type below @widget. */
static GtkWidget *
find_below (GtkWidget *widget, GType type)
{
  GtkWidget *found = NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = g_type_is_a (G_OBJECT_TYPE (child), type) ? child : find_below (child, type);
  return found;
}

static void
opened_cb (HsAreaChoice *self)
{
  self->by_letters = FALSE;
  gtk_editable_set_text (self->search, "");
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}

/* Found from the first letter on, without the wait that a search field makes for the next one. */
static void
search_changed_cb (HsAreaChoice *self)
{
  g_signal_emit_by_name (self->search, "search-changed");
}

static void
search_entered_cb (HsAreaChoice *self)
{
  GtkSelectionModel *model = gtk_list_view_get_model (self->found);

  if (g_list_model_get_n_items (G_LIST_MODEL (model)) == 0)
    {
      gtk_widget_error_bell (GTK_WIDGET (self));
      return;
    }
  gtk_selection_model_select_item (model, 0, TRUE);
  g_signal_emit_by_name (self->found, "activate", 0);
}

/* Letters that come while the focus is beside the search field go there too. */
static gboolean
search_on (HsAreaChoice *self, gunichar letter)
{
  char text[7] = { 0 };
  int at = -1;

  if (!g_unichar_isalnum (letter))
    return GDK_EVENT_PROPAGATE;
  g_unichar_to_utf8 (letter, text);
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
  gtk_editable_insert_text (self->search, text, -1, &at);
  gtk_editable_set_position (self->search, -1);
  return GDK_EVENT_STOP;
}

static gboolean
key_cb (HsAreaChoice *self, guint keyval, guint keycode, GdkModifierType state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);
  gint64 now = g_get_monotonic_time ();

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (gtk_widget_get_mapped (self->popover))
    return search_on (self, letter);
  if (hs_pad_key_sign (keyval) == '*' && gtk_widget_get_visible (self->on_map))
    {
      on_map_cb (self);
      return GDK_EVENT_STOP;
    }
  if (now - self->typed_at > PAUSE)
    g_string_truncate (self->typed, 0);
  if (!g_unichar_isalnum (letter) && (letter != ' ' || self->typed->len == 0))
    return GDK_EVENT_PROPAGATE;
  self->typed_at = now;
  type (self, letter);
  return GDK_EVENT_STOP;
}

/* Past the map: the area is picked. */
static void
go_on (HsAreaChoice *self)
{
  GtkWidget *root = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self)));

  gtk_widget_grab_focus (gtk_widget_get_visible (self->on_map) ? self->on_map : GTK_WIDGET (self->drop_down));
  gtk_widget_child_focus (root, GTK_DIR_TAB_FORWARD);
}

/* Caught on their way down, since the drop-down takes Enter for its list and the list takes Tab for its lines: Enter
 * behind letters that picked an area goes on, and so does Tab out of the open list, which changes nothing then. */
static gboolean
going_cb (HsAreaChoice *self, guint keyval, guint keycode, GdkModifierType state)
{
  gboolean open = gtk_widget_get_mapped (self->popover);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SHIFT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (open && (keyval == GDK_KEY_Tab || keyval == GDK_KEY_KP_Tab))
    gtk_popover_popdown (GTK_POPOVER (self->popover));
  else if (open || !self->by_letters || (keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter))
    return GDK_EVENT_PROPAGATE;
  go_on (self);
  return GDK_EVENT_STOP;
}

static void
left_cb (HsAreaChoice *self)
{
  self->by_letters = FALSE;
}

static gboolean
hs_area_choice_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (HS_AREA_CHOICE (widget)->drop_down));
}

static void
hs_area_choice_finalize (GObject *object)
{
  HsAreaChoice *self = HS_AREA_CHOICE (object);

  g_clear_object (&self->drop_down);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->places, hs_snapshot_unref);
  g_clear_pointer (&self->fresh, hs_place_free);
  g_free (self->wanted);
  g_free (self->none);
  g_string_free (self->typed, TRUE);
  G_OBJECT_CLASS (hs_area_choice_parent_class)->finalize (object);
}

static void
hs_area_choice_class_init (HsAreaChoiceClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_area_choice_finalize;
  GTK_WIDGET_CLASS (klass)->grab_focus = hs_area_choice_grab_focus;
  chosen_signal = g_signal_new ("chosen", HS_TYPE_AREA_CHOICE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
find_parts (HsAreaChoice *self)
{
  self->popover = find_below (GTK_WIDGET (self->drop_down), GTK_TYPE_POPOVER);
  self->search = GTK_EDITABLE (find_below (self->popover, GTK_TYPE_SEARCH_ENTRY));
  self->found = GTK_LIST_VIEW (find_below (self->popover, GTK_TYPE_LIST_VIEW));
  g_signal_connect_object (self->popover, "map", G_CALLBACK (opened_cb), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  hs_spoken_name (GTK_WIDGET (self->search), _("Search"));
  g_signal_connect_object (self->search, "changed", G_CALLBACK (search_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "activate", G_CALLBACK (search_entered_cb), self, G_CONNECT_SWAPPED);
}

static void
hs_area_choice_init (HsAreaChoice *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkEventController *keys = gtk_event_controller_key_new (), *going = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkExpression *name = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");

  self->typed = g_string_new (NULL);
  self->none = g_strdup (_("not said yet"));
  self->drop_down = g_object_ref_sink (GTK_DROP_DOWN (gtk_drop_down_new (NULL, name)));
  gtk_drop_down_set_enable_search (self->drop_down, TRUE);
  find_parts (self);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self->drop_down), keys);
  gtk_event_controller_set_propagation_phase (going, GTK_PHASE_CAPTURE);
  g_signal_connect_object (going, "key-pressed", G_CALLBACK (going_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self->drop_down), going);
  g_signal_connect_object (focus, "leave", G_CALLBACK (left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self->drop_down), focus);
  hs_spoken_name_drop_down (self->drop_down, _("Area"));
  gtk_widget_set_hexpand (GTK_WIDGET (self->drop_down), TRUE);
  self->on_map = hs_key_button_new ("*", _("On Map"), NULL);
  gtk_widget_set_visible (self->on_map, FALSE);
  g_signal_connect_object (self->on_map, "clicked", G_CALLBACK (on_map_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->drop_down));
  gtk_box_append (GTK_BOX (box), self->on_map);
  adw_bin_set_child (ADW_BIN (self), box);
  fill (self);
  g_signal_connect_object (self->drop_down, "notify::selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
}

void
hs_area_choice_set_places (HsAreaChoice *self, HsSnapshot *places)
{
  g_return_if_fail (HS_IS_AREA_CHOICE (self));

  g_clear_pointer (&self->places, hs_snapshot_unref);
  self->places = places != NULL ? hs_snapshot_ref (places) : NULL;
  fill (self);
}

void
hs_area_choice_choose (HsAreaChoice *self, const char *area)
{
  guint line;

  g_return_if_fail (HS_IS_AREA_CHOICE (self));

  want (self, area);
  if (area != NULL && hs_geo_is_meant (area) && line_of (self, area) == 0)
    {
      fill (self);
      g_signal_emit (self, chosen_signal, 0);
      return;
    }
  line = line_of (self, self->wanted);
  /* To wait for a list that has it is not to pick none. */
  self->filling = line == 0 && area != NULL;
  gtk_drop_down_set_selected (self->drop_down, line);
  self->filling = FALSE;
}

void
hs_area_choice_offer_map (HsAreaChoice *self, HsLedger *ledger)
{
  g_return_if_fail (HS_IS_AREA_CHOICE (self));

  g_set_object (&self->ledger, ledger);
  gtk_widget_set_visible (self->on_map, ledger != NULL);
}

void
hs_area_choice_set_words (HsAreaChoice *self, const char *name, const char *none)
{
  g_return_if_fail (HS_IS_AREA_CHOICE (self));

  g_free (self->none);
  self->none = g_strdup (none);
  hs_spoken_name_drop_down (self->drop_down, name);
  fill (self);
}

void
hs_area_choice_set_stacked (HsAreaChoice *self, gboolean stacked)
{
  GtkWidget *box;

  g_return_if_fail (HS_IS_AREA_CHOICE (self));

  box = gtk_widget_get_parent (GTK_WIDGET (self->drop_down));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (box),
                                  stacked ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
}
