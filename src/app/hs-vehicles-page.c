// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which battery is in it, and since when? Four digits of a phone, part of a plate, a name, and the answer stands on
 * the right before the caller has finished.
 *
 *   entry ─▶ hs_ask_find ─▶ hits (HsItems) ─▶ GtkSingleSelection ─▶ list view
 *                                                   │
 *                                                   ▼
 *                                   hs_ask_history ─▶ battery, say, entries
 *
 * While one looks for it the keyboard stays in the entry: ↓ and ↑ choose a hit, Enter opens it: the cursor goes into
 * its history. From there Esc leads back into the entry, and from the entry it clears. A card is only shown for what
 * was found: words without a hit take it away. */

#include "hs-vehicles-page.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-act-row.h"
#include "hs-ask.h"
#include "hs-battery-card.h"
#include "hs-chip.h"
#include "hs-history-row.h"
#include "hs-hit-row.h"
#include "hs-items.h"
#include "hs-key-button.h"
#include "hs-show.h"
#include "hs-spoken.h"

#define MOST_HITS 30
#define MOST_SEEN 8
#define TELEPHONE_TAIL 4

struct _HsVehiclesPage
{
  HsPage parent_instance;

  GtkWidget *list_pane;
  GtkWidget *pane_edge;
  GtkWidget *detail_pane;
  GtkEditable *entry;
  GtkLabel *count_label;
  GtkLabel *hits_title;
  GtkWidget *hits_frame;
  GtkListView *hits_view;
  GtkWidget *none_label;
  GtkListBox *seen_list;
  GtkStack *detail;
  GtkWidget *back_button;
  HsPlateChip *plate;
  GtkLabel *vehicle;
  GtkLabel *owner;
  HsBatteryCard *battery;
  GtkLabel *say;
  GtkWidget *say_box;
  GtkListBox *entries;

  HsItems *hits;
  GtkSingleSelection *selection;
  HsQuestion *find;
  HsQuestion *seen;
  HsQuestion *history;
  char *vehicle_id;
  gboolean detail_shown;
  gboolean moved; /* another hit than the one that is offered was chosen */
  gboolean opens; /* Enter was quicker than the book: what it finds is opened */
  gboolean enters; /* the cursor goes into the history once it is there */
};

G_DEFINE_FINAL_TYPE (HsVehiclesPage, hs_vehicles_page, HS_TYPE_PAGE)

static const char *
hit_key (gconstpointer data)
{
  const HsHit *hit = data;

  return hit->job_id != NULL ? hit->job_id : hit->vehicle_id != NULL ? hit->vehicle_id : hit->customer_id;
}

static void
update_panes (HsVehiclesPage *self)
{
  gboolean narrow = hs_page_get_narrow (HS_PAGE (self)), cramped = hs_page_get_cramped (HS_PAGE (self));

  gtk_widget_set_visible (self->list_pane, !narrow || !self->detail_shown);
  gtk_widget_set_visible (self->pane_edge, !narrow);
  gtk_widget_set_visible (self->detail_pane, !narrow || self->detail_shown);
  gtk_widget_set_visible (self->back_button, narrow);
  gtk_widget_set_hexpand (self->list_pane, narrow);
  gtk_widget_set_size_request (self->list_pane, narrow ? -1 : cramped ? 240 : 335, -1);
  hs_battery_card_set_room (self->battery, narrow, cramped);
  if (narrow)
    gtk_widget_remove_css_class (GTK_WIDGET (self->plate), "hs-large");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->plate), "hs-large");
}

static void
room_changed (HsPage *page)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (page);

  update_panes (self);
  if (hs_question_get (self->history) != NULL)
    g_signal_emit_by_name (self->history, "answered");
}

/* @vehicle_id: (nullable): none: no card stays behind. */
static void
show_vehicle (HsVehiclesPage *self, const char *vehicle_id)
{
  if (g_strcmp0 (vehicle_id, self->vehicle_id) == 0)
    return;
  g_free (self->vehicle_id);
  self->vehicle_id = g_strdup (vehicle_id);
  if (vehicle_id != NULL)
    hs_question_ask (self->history, g_variant_new ("(s)", vehicle_id));
  else
    hs_question_forget (self->history);
  if (vehicle_id == NULL)
    gtk_stack_set_visible_child_name (self->detail, "none");
}

/* Into the history, with a line to see where; without one the cursor stays, and the next sign looks for another. */
static void
enter_history (HsVehiclesPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (self->entries, 0);

  self->enters = FALSE;
  if (first == NULL)
    gtk_editable_select_region (self->entry, 0, -1);
  else if (gtk_widget_grab_focus (GTK_WIDGET (first)) && GTK_IS_WINDOW (root))
    gtk_window_set_focus_visible (GTK_WINDOW (root), TRUE);
}

/* In the hand the card takes the place of the hits. */
static void
open_card (HsVehiclesPage *self)
{
  if (self->vehicle_id == NULL)
    return;
  self->detail_shown = TRUE;
  update_panes (self);
  self->enters = TRUE;
  if (!hs_question_is_asking (self->history) && hs_question_get (self->history) != NULL)
    enter_history (self);
}

/* Hits. */

static void
selected_cb (HsVehiclesPage *self)
{
  const HsHit *hit = hs_items_get_data (self->hits, gtk_single_selection_get_selected (self->selection));

  if (hit != NULL)
    show_vehicle (self, hit->vehicle_id);
}

static gboolean
is_digits (const char *words)
{
  for (const char *at = words; *at != '\0'; at++)
    if (!g_ascii_isdigit (*at) && *at != ' ')
      return FALSE;
  return *words != '\0';
}

/* Four digits are how a caller's telephone ends; a vehicle that has them is offered before a job of that number. */
static guint
offered (GPtrArray *hits, const char *words)
{
  guint n_jobs = 0;

  while (n_jobs < hits->len && ((const HsHit *) g_ptr_array_index (hits, n_jobs))->job_id != NULL)
    n_jobs++;
  return n_jobs < hits->len && is_digits (words) && strlen (words) >= TELEPHONE_TAIL ? n_jobs : 0;
}

static void
show_found (HsVehiclesPage *self)
{
  HsSnapshot *snapshot = hs_question_get_snapshot (self->find);
  GPtrArray *hits = hs_question_get (self->find);
  const char *words = gtk_editable_get_text (self->entry);
  g_autofree char *count = NULL, *title = NULL;
  guint n = hits != NULL ? hits->len : 0;

  hs_items_set (self->hits, snapshot, hits);
  count = n >= MOST_HITS ? g_strdup_printf (_("%u and more"), n)
                         : g_strdup_printf (ngettext ("%u found", "%u found", n), n);
  /* Translators: heading over the hits of a search by digits. */
  title = is_digits (words) ? g_strdup_printf (_("Digits %s"), words) : g_strdup (_("Found"));
  gtk_label_set_label (self->count_label, count);
  gtk_label_set_label (self->hits_title, title);
  gtk_widget_set_visible (self->none_label, n == 0);
  gtk_widget_set_visible (self->hits_frame, n > 0);
  if (n > 0 && (!self->moved || gtk_single_selection_get_selected (self->selection) >= n))
    gtk_single_selection_set_selected (self->selection, offered (hits, words));
  if (n > 0)
    selected_cb (self);
  else
    show_vehicle (self, NULL);
}

static void open_hit (HsVehiclesPage *self);

static void
found_cb (HsVehiclesPage *self)
{
  gboolean opens = self->opens && hs_question_get_trouble (self->find) == NULL;

  show_found (self);
  self->opens = FALSE;
  if (opens && gtk_widget_get_mapped (GTK_WIDGET (self)))
    open_hit (self);
}

static void
seen_cb (HsVehiclesPage *self)
{
  GPtrArray *hits = hs_question_get (self->seen);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->seen_list))) != NULL)
    gtk_list_box_remove (self->seen_list, child);
  for (guint i = 0; hits != NULL && i < hits->len; i++)
    {
      const HsHit *hit = g_ptr_array_index (hits, i);
      GtkWidget *row = hs_act_row_new (), *face = hs_hit_row_new ();
      g_autofree char *say = hs_hit_row_say (hs_page_get_ledger (HS_PAGE (self)), hit);

      hs_hit_row_set (HS_HIT_ROW (face), hs_page_get_ledger (HS_PAGE (self)), hit);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), face);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
      g_object_set_data_full (G_OBJECT (row), "vehicle", g_strdup (hit->vehicle_id), g_free);
      gtk_list_box_append (self->seen_list, row);
    }
}

static void
changed_cb (HsVehiclesPage *self)
{
  const char *words = gtk_editable_get_text (self->entry);
  gboolean empty = *words == '\0';

  self->moved = self->opens = self->enters = FALSE;
  gtk_widget_set_visible (GTK_WIDGET (self->hits_title), !empty);
  gtk_widget_set_visible (GTK_WIDGET (self->count_label), !empty);
  if (!empty)
    {
      hs_question_ask (self->find, g_variant_new ("(su)", words, MOST_HITS));
      return;
    }
  hs_question_forget (self->find);
  hs_items_set (self->hits, NULL, NULL);
  gtk_widget_set_visible (self->hits_frame, FALSE);
  gtk_widget_set_visible (self->none_label, FALSE);
}

static void
show_detail (HsVehiclesPage *self, gboolean shown)
{
  self->detail_shown = shown;
  update_panes (self);
}

/* A job opens where it is worked on, one that is squared where its proof stands. */
static gboolean
open_job (HsVehiclesPage *self)
{
  const HsHit *hit = hs_items_get_data (self->hits, gtk_single_selection_get_selected (self->selection));

  if (hit == NULL || hit->job_id == NULL)
    return FALSE;
  hs_page_open_job (HS_PAGE (self), hit->job_id,
                    hit->stage < HS_STAGE_ON_SITE ? "call" : hs_stage_is_open (hit->stage) ? "findings" : "after");
  return TRUE;
}

static void
open_hit (HsVehiclesPage *self)
{
  if (open_job (self))
    return;
  selected_cb (self);
  open_card (self);
}

/* Until the answer about the last sign is there, the hits are of what stood there before it. */
static void
open_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (widget);

  self->opens = hs_question_is_asking (self->find);
  if (!self->opens)
    open_hit (self);
}

static void
activate_cb (HsVehiclesPage *self)
{
  open_action (GTK_WIDGET (self), NULL, NULL);
}

static void
hit_activated_cb (HsVehiclesPage *self, guint position)
{
  gtk_single_selection_set_selected (self->selection, position);
  open_hit (self);
}

static void
seen_activated_cb (HsVehiclesPage *self, GtkListBoxRow *row)
{
  show_vehicle (self, g_object_get_data (G_OBJECT (row), "vehicle"));
  open_card (self);
}

static void
search_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (widget);

  show_detail (self, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  gtk_editable_select_region (self->entry, 0, -1);
}

static gboolean
is_in_card (HsVehiclesPage *self)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));

  return focus != NULL && gtk_widget_is_ancestor (focus, self->detail_pane);
}

static void
clear_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (widget);

  self->opens = self->enters = FALSE;
  if (is_in_card (self) || (hs_page_get_narrow (HS_PAGE (self)) && self->detail_shown))
    {
      search_action (widget, NULL, NULL);
      return;
    }
  gtk_editable_set_text (self->entry, "");
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

static void
find_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (widget);

  gtk_editable_set_text (self->entry, g_variant_get_string (parameter, NULL));
  show_detail (self, TRUE);
}

static void
move_selection (HsVehiclesPage *self, int step)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->hits));
  guint at = gtk_single_selection_get_selected (self->selection);

  if (n == 0)
    return;
  if (step > 0 && at + 1 < n)
    at++;
  else if (step < 0 && at > 0)
    at--;
  self->moved = TRUE;
  gtk_single_selection_set_selected (self->selection, at);
  gtk_widget_activate_action (GTK_WIDGET (self->hits_view), "list.scroll-to-item", "u", at);
}

static void
start_search (HsVehiclesPage *self, gunichar letter)
{
  char text[7] = { 0 };

  g_unichar_to_utf8 (letter, text);
  show_detail (self, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  gtk_editable_set_text (self->entry, text);
  gtk_editable_set_position (self->entry, -1);
}

/* A first sign that was keyed on another page. */
static void
type_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  start_search (HS_VEHICLES_PAGE (widget), g_utf8_get_char (g_variant_get_string (parameter, NULL)));
}

/* Above the history are the hits. */
static gboolean
is_on_first_entry (HsVehiclesPage *self)
{
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (self->entries, 0);

  return first != NULL && hs_page_get_focus (HS_PAGE (self)) == GTK_WIDGET (first);
}

/* Keys of the whole page, before the focused widget sees them: arrows choose a hit while typing, text goes into the
 * entry from wherever the focus is. */
static gboolean
key_cb (HsVehiclesPage *self, guint keyval, guint keycode, GdkModifierType state, GtkEventControllerKey *controller)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  gboolean in_entry = focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->entry));
  gunichar letter = gdk_keyval_to_unicode (keyval);

  if (keyval == GDK_KEY_Escape)
    {
      clear_action (GTK_WIDGET (self), NULL, NULL);
      return GDK_EVENT_STOP;
    }
  if (keyval == GDK_KEY_Up && is_on_first_entry (self))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->entry));
      in_entry = TRUE;
    }
  if (in_entry && (keyval == GDK_KEY_Down || keyval == GDK_KEY_Up))
    {
      move_selection (self, keyval == GDK_KEY_Down ? 1 : -1);
      return GDK_EVENT_STOP;
    }
  if (in_entry || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || !g_unichar_isgraph (letter))
    return GDK_EVENT_PROPAGATE;
  start_search (self, letter);
  return GDK_EVENT_STOP;
}

/* The vehicle. */

static void
show_battery (HsVehiclesPage *self, const HsHistory *history)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  const HsBatteryFact *battery = history->battery;
  g_autofree char *say = NULL;

  hs_battery_card_set (self->battery, ledger, battery, history->entries);
  say = battery != NULL ? hs_show_quoted (battery->say)
                        : g_strdup (_("“I have not written down which battery is in it.”"));
  gtk_label_set_label (self->say, say);
}

static void
history_cb (HsVehiclesPage *self)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  const HsHistory *history = hs_question_get (self->history);
  g_autofree char *owner = NULL;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->entries))) != NULL)
    gtk_list_box_remove (self->entries, child);
  if (history == NULL)
    {
      gtk_stack_set_visible_child_name (self->detail, "none");
      return;
    }
  owner = hs_show_joined (history->engine != NULL ? history->engine : "",
                          history->customer != NULL ? history->customer : "",
                          history->phone != NULL ? history->phone : "", history->area != NULL ? history->area : "",
                          history->high_voltage ? _("high voltage") : "", NULL);
  hs_chip_set_text (HS_CHIP (self->plate), history->plate);
  gtk_label_set_label (self->vehicle, history->vehicle != NULL ? history->vehicle : "");
  gtk_label_set_label (self->owner, owner);
  show_battery (self, history);
  for (guint i = 0; i < history->entries->len; i++)
    {
      const HsHistoryEntry *entry = g_ptr_array_index (history->entries, i);
      g_autofree char *date = hs_show_day (entry->day);
      g_autofree char *say = hs_show_joined (date, entry->job_number != NULL ? entry->job_number : "", entry->title,
                                             NULL);
      GtkWidget *row = hs_act_row_new ();

      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row),
                                  hs_history_row_new (ledger, entry, hs_page_get_narrow (HS_PAGE (self))));
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
      gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), entry->job_id != NULL);
      gtk_list_box_append (self->entries, row);
    }
  gtk_stack_set_visible_child_name (self->detail, "vehicle");
  if (self->enters)
    enter_history (self);
}

static void
entry_activated_cb (HsVehiclesPage *self, GtkListBoxRow *row)
{
  const char *job_id = hs_history_row_get_job_id (HS_HISTORY_ROW (gtk_list_box_row_get_child (row)));

  if (job_id != NULL)
    hs_page_open_job (HS_PAGE (self), job_id, "after");
}

/* Rows of the hits. */

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item)
{
  gtk_list_item_set_child (item, hs_hit_row_new ());
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, HsVehiclesPage *self)
{
  const HsHit *hit = hs_item_get (HS_ITEM (gtk_list_item_get_item (item)));

  g_autofree char *say = hs_hit_row_say (hs_page_get_ledger (HS_PAGE (self)), hit);

  hs_hit_row_set (HS_HIT_ROW (gtk_list_item_get_child (item)), hs_page_get_ledger (HS_PAGE (self)), hit);
  hs_spoken_name_item (item, say);
}

static void
shown (HsPage *page)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (page);

  hs_question_ask (self->seen, g_variant_new ("(su)", "", MOST_SEEN));
  gtk_widget_grab_focus (GTK_WIDGET (self->entry));
}

static void
hs_vehicles_page_constructed (GObject *object)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (object);
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  G_OBJECT_CLASS (hs_vehicles_page_parent_class)->constructed (object);
  self->find = hs_page_ask (HS_PAGE (self), hs_ask_look_up, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (found_cb));
  self->seen = hs_page_ask (HS_PAGE (self), hs_ask_find, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (seen_cb));
  self->history = hs_page_ask (HS_PAGE (self), hs_ask_history, (GDestroyNotify) hs_history_free,
                               G_CALLBACK (history_cb));
  self->hits = hs_items_new (hit_key, NULL);
  self->selection = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->hits)));
  g_signal_connect_object (self->selection, "notify::selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, 0);
  gtk_list_view_set_factory (self->hits_view, factory);
  gtk_list_view_set_model (self->hits_view, GTK_SELECTION_MODEL (self->selection));
  changed_cb (self);
  update_panes (self);
}

static void
hs_vehicles_page_dispose (GObject *object)
{
  HsVehiclesPage *self = HS_VEHICLES_PAGE (object);

  g_clear_object (&self->selection);
  g_clear_object (&self->hits);
  G_OBJECT_CLASS (hs_vehicles_page_parent_class)->dispose (object);
}

static void
hs_vehicles_page_finalize (GObject *object)
{
  g_free (HS_VEHICLES_PAGE (object)->vehicle_id);
  G_OBJECT_CLASS (hs_vehicles_page_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, list_pane);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, pane_edge);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, detail_pane);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, entry);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, count_label);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, hits_title);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, hits_frame);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, hits_view);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, none_label);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, seen_list);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, detail);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, back_button);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, plate);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, vehicle);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, owner);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, battery);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, say);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, say_box);
  gtk_widget_class_bind_template_child (widget_class, HsVehiclesPage, entries);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, hit_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, seen_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, entry_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}

static void
hs_vehicles_page_class_init (HsVehiclesPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->constructed = hs_vehicles_page_constructed;
  object_class->dispose = hs_vehicles_page_dispose;
  object_class->finalize = hs_vehicles_page_finalize;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_BATTERY_CARD);
  g_type_ensure (HS_TYPE_PLATE_CHIP);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-vehicles-page.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "page.open", NULL, open_action);
  gtk_widget_class_install_action (widget_class, "page.clear", NULL, clear_action);
  gtk_widget_class_install_action (widget_class, "page.search", NULL, search_action);
  gtk_widget_class_install_action (widget_class, "page.find", "s", find_action);
  gtk_widget_class_install_action (widget_class, "page.type", "s", type_action);
}

static void
hs_vehicles_page_init (HsVehiclesPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_spoken_stack (self->detail);
}
