// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The map: keys alone set a pin, a click does, a place is taken whole, and what was picked gets into the book. */

#include "app-book.h"

#include <glib/gstdio.h>

#include "hs-app-test.h"
#include "hs-area-choice.h"
#include "hs-call-slip-window.h"
#include "hs-key-button.h"
#include "hs-map-window.h"
#include "hs-road-card.h"
#include "hs-set-up-window.h"
#include "hs-shop.h"

/* Quayside and Old Market, 2.2 km and 4.2 km apart from the yard. */
static HsSnapshot *
make_places (void)
{
  static const struct
  {
    HsMapKind kind;
    const char *code, *name;
    double latitude, longitude;
  } rows[] = { { HS_MAP_BASE, "T", "Tannery Row", 41.20, -74.30 }, { HS_MAP_AREA, "Q", "Quayside", 41.22, -74.30 },
               { HS_MAP_AREA, "O", "Old Market", 41.20, -74.25 }, { HS_MAP_COUNTER, "O", "Brine Parts", 41.20, -74.25 },
               { HS_MAP_CUSTOMER, "41.21000,-74.27000", "Iris Fenn", 41.21, -74.27 } };
  GPtrArray *places = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_map_place_free);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsMapPlace *place = g_new0 (HsMapPlace, 1);

      *place = (HsMapPlace) { rows[i].kind, g_strdup (rows[i].code), g_strdup (rows[i].name), rows[i].latitude,
                              rows[i].longitude };
      g_ptr_array_add (places, place);
    }
  return hs_snapshot_new (places, (GDestroyNotify) g_ptr_array_unref);
}

typedef struct
{
  GtkWindow *window;
  HsMapView *map;
  guint n_pinned;
  guint n_taken;
} Bed;

static void
pinned_cb (Bed *bed)
{
  bed->n_pinned++;
}

static void
taken_cb (Bed *bed)
{
  bed->n_taken++;
}

static void
make_bed (Bed *bed, gconstpointer data)
{
  g_autoptr (HsSnapshot) places = make_places ();

  bed->map = HS_MAP_VIEW (hs_map_view_new ());
  g_signal_connect_swapped (bed->map, "pinned", G_CALLBACK (pinned_cb), bed);
  g_signal_connect_swapped (bed->map, "taken", G_CALLBACK (taken_cb), bed);
  hs_map_view_set_places (bed->map, places);
  bed->window = hs_app_test_show (GTK_WIDGET (bed->map), 640, 480);
  gtk_widget_grab_focus (GTK_WIDGET (bed->map));
}

static void
clear_bed (Bed *bed, gconstpointer data)
{
  gtk_window_destroy (bed->window);
}

static void
press (Bed *bed, guint keyval, GdkModifierType state)
{
  g_assert_true (hs_app_test_key (GTK_WIDGET (bed->map), keyval, state));
}

static void
spot_of_aim (Bed *bed, double *ret_x, double *ret_y)
{
  double latitude, longitude;

  hs_map_view_get_crosshair (bed->map, &latitude, &longitude);
  hs_map_view_get_spot (bed->map, latitude, longitude, ret_x, ret_y);
}

/* All places are in sight, the crosshair amid them. */
static void
test_shows_all (Bed *bed, gconstpointer data)
{
  static const double ends[][2] = { { 41.20, -74.30 }, { 41.22, -74.30 }, { 41.20, -74.25 } };
  double x, y;

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      hs_map_view_get_spot (bed->map, ends[i][0], ends[i][1], &x, &y);
      g_assert_true (x > 20 && x < 620 && y > 20 && y < 460);
    }
  hs_map_view_get_crosshair (bed->map, &x, &y);
  g_assert_cmpfloat_with_epsilon (x, 41.21, 1e-9);
  g_assert_cmpfloat_with_epsilon (y, -74.275, 1e-9);
}

static void
test_arrows (Bed *bed, gconstpointer data)
{
  static const struct
  {
    guint keyval;
    GdkModifierType state;
    double right, down;
  } rows[] = { { GDK_KEY_Right, 0, 24, 0 }, { GDK_KEY_Left, GDK_SHIFT_MASK, -2, 0 }, { GDK_KEY_Up, 0, 0, -24 },
               { GDK_KEY_KP_Down, GDK_SHIFT_MASK, 0, 2 }, { GDK_KEY_Left, GDK_CONTROL_MASK, -120, 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double x, y, after_x, after_y;

      spot_of_aim (bed, &x, &y);
      press (bed, rows[i].keyval, rows[i].state);
      spot_of_aim (bed, &after_x, &after_y);
      g_assert_cmpfloat_with_epsilon (after_x - x, rows[i].right, 1e-3);
      g_assert_cmpfloat_with_epsilon (after_y - y, rows[i].down, 1e-3);
    }
  g_assert_cmpuint (bed->n_pinned, ==, 0);
}

/* However far the arrows go, the crosshair stays in sight; Home brings the places back. */
static void
test_crosshair_in_sight (Bed *bed, gconstpointer data)
{
  double x, y;

  for (guint i = 0; i < 20; i++)
    press (bed, GDK_KEY_Right, GDK_CONTROL_MASK);
  spot_of_aim (bed, &x, &y);
  g_assert_true (x <= 640 && x > 500);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &x, &y);
  g_assert_true (x < 0);
  press (bed, GDK_KEY_Home, 0);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &x, &y);
  g_assert_true (x > 0 && x < 640);
}

/* Enter sets the pin under the crosshair, once more takes it; a key in between moves on. */
static void
test_enter (Bed *bed, gconstpointer data)
{
  double latitude = 0, longitude = 0, aim[2];

  g_assert_false (hs_map_view_get_pin (bed->map, &latitude, &longitude));
  press (bed, GDK_KEY_Down, GDK_CONTROL_MASK);
  hs_map_view_get_crosshair (bed->map, &aim[0], &aim[1]);
  press (bed, GDK_KEY_Return, 0);
  g_assert_true (hs_map_view_get_pin (bed->map, &latitude, &longitude));
  g_assert_cmpfloat_with_epsilon (latitude, aim[0], 1e-9);
  g_assert_cmpfloat_with_epsilon (longitude, aim[1], 1e-9);
  g_assert_cmpuint (bed->n_pinned, ==, 1);
  g_assert_cmpuint (bed->n_taken, ==, 0);
  press (bed, GDK_KEY_KP_Enter, 0);
  g_assert_cmpuint (bed->n_taken, ==, 1);
  press (bed, GDK_KEY_Down, 0);
  press (bed, GDK_KEY_space, 0);
  g_assert_cmpuint (bed->n_pinned, ==, 2);
  g_assert_cmpuint (bed->n_taken, ==, 1);
}

/* Twice as close is twice as far apart on the screen; the crosshair stays where it is. */
static void
test_zoom (Bed *bed, gconstpointer data)
{
  double x, y, other_x, other_y, before, aim_x, aim_y;

  hs_map_view_get_spot (bed->map, 41.20, -74.30, &x, &y);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &other_x, &other_y);
  before = other_x - x;
  press (bed, GDK_KEY_Up, GDK_CONTROL_MASK);
  spot_of_aim (bed, &aim_x, &aim_y);
  press (bed, GDK_KEY_plus, GDK_SHIFT_MASK);
  hs_map_view_get_spot (bed->map, 41.20, -74.30, &x, &y);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &other_x, &other_y);
  g_assert_cmpfloat_with_epsilon ((other_x - x) / before, 1.25, 1e-3);
  spot_of_aim (bed, &x, &y);
  g_assert_cmpfloat_with_epsilon (x, aim_x, 0.1);
  g_assert_cmpfloat_with_epsilon (y, aim_y, 0.1);
  press (bed, GDK_KEY_minus, 0);
  hs_map_view_get_spot (bed->map, 41.20, -74.30, &x, &y);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &other_x, &other_y);
  g_assert_cmpfloat_with_epsilon ((other_x - x) / before, 1, 1e-3);
}

/* The wheel zooms at the pointer: what is under it stays. */
static void
test_wheel (Bed *bed, gconstpointer data)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (GTK_WIDGET (bed->map));
  double x, y, other_x, other_y, before, apart;
  gboolean taken = FALSE;

  hs_map_view_get_spot (bed->map, 41.22, -74.30, &x, &y);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &other_x, &other_y);
  before = other_x - x;
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_MOTION (controller))
        g_signal_emit_by_name (controller, "motion", x, y);
    }
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
        g_signal_emit_by_name (controller, "scroll", 0.0, -2.0, &taken);
    }
  g_assert_true (taken);
  hs_map_view_get_spot (bed->map, 41.22, -74.30, &other_x, &other_y);
  g_assert_cmpfloat_with_epsilon (other_x, x, 0.1);
  g_assert_cmpfloat_with_epsilon (other_y, y, 0.1);
  hs_map_view_get_spot (bed->map, 41.20, -74.25, &apart, &other_y);
  g_assert_cmpfloat_with_epsilon ((apart - other_x) / before, 1.5625, 1e-2);
}

/* A click near a place takes the place; the area before the counter in it. */
static void
test_click (Bed *bed, gconstpointer data)
{
  static const struct
  {
    double latitude, longitude, right;
    const char *name;
  } rows[] = { { 41.20, -74.25, 5, "Old Market" }, { 41.22, -74.30, -7, "Quayside" },
               { 41.20, -74.30, 0, "Tannery Row" }, { 41.21, -74.27, 3, "Iris Fenn" },
               { 41.20, -74.25, 30, NULL } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsMapPlace *place;
      double x, y, latitude = 0, longitude = 0;

      hs_map_view_get_spot (bed->map, rows[i].latitude, rows[i].longitude, &x, &y);
      hs_map_view_click (bed->map, x + rows[i].right, y);
      place = hs_map_view_get_place (bed->map);
      g_assert_cmpstr (place != NULL ? place->name : NULL, ==, rows[i].name);
      g_assert_true (hs_map_view_get_pin (bed->map, &latitude, &longitude));
      g_assert_true (place == NULL || (place->latitude == latitude && place->longitude == longitude));
      g_assert_cmpuint (bed->n_pinned, ==, i + 1);
    }
}

/* On the demo book. */

static void
settle_frames (AppBook *book)
{
  app_book_settle (book);
  hs_app_test_frames ();
}

static GtkWindow *
newest_window (GType type)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (g_type_is_a (G_OBJECT_TYPE (at->data), type) && gtk_widget_get_visible (at->data))
      return at->data;
  return NULL;
}

static void
type_position (AppBook *book, const char *text)
{
  HsMapWindow *window = HS_MAP_WINDOW (newest_window (HS_TYPE_MAP_WINDOW));

  settle_frames (book);
  gtk_editable_set_text (hs_map_window_get_entry (window), text);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "map.use", NULL));
  settle_frames (book);
}

/* The first button below @widget whose word is @text, shown. */
static GtkWidget *
find_button (GtkWidget *widget, const char *text)
{
  g_autofree char *word = NULL;

  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (HS_IS_KEY_BUTTON (widget))
    {
      g_object_get (widget, "text", &word, NULL);
      return g_strcmp0 (word, text) == 0 ? widget : NULL;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_button (child, text);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* A wrong position stays in the field, with the reason; the window stays. */
static void
test_refused (AppBook *book, gconstpointer data)
{
  HsMapWindow *window = hs_map_window_present (GTK_WINDOW (book->window), book->ledger, "Base", NULL,
                                               hs_ledger_get_today (book->ledger));

  settle_frames (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "No place has a position yet"));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "map.use", NULL));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "Set the pin first"));
  type_position (book, "95, 200");
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (window)));
  g_assert_cmpstr (gtk_editable_get_text (hs_map_window_get_entry (window)), ==, "95, 200");
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "95"));
  gtk_window_close (GTK_WINDOW (window));
  settle_frames (book);
}

/* What is typed is read in every notation and pinned; keys go on from there. */
static void
test_typed (AppBook *book, gconstpointer data)
{
  static const char *const texts[] = { "41.25, -74.5", "geo:41.25,-74.5", "41°15'N 74°30'W" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      HsMapWindow *window = hs_map_window_present (GTK_WINDOW (book->window), book->ledger, "Base", texts[i],
                                                   hs_ledger_get_today (book->ledger));
      double latitude = 0, longitude = 0;

      settle_frames (book);
      g_assert_true (hs_map_view_get_pin (hs_map_window_get_view (window), &latitude, &longitude));
      g_assert_cmpfloat_with_epsilon (latitude, 41.25, 1e-9);
      g_assert_cmpfloat_with_epsilon (longitude, -74.5, 1e-9);
      g_assert_cmpstr (gtk_editable_get_text (hs_map_window_get_entry (window)), ==, "41.25000,-74.50000");
      g_assert_true (hs_app_test_says (GTK_WIDGET (window), "41.25000,-74.50000"));
      hs_app_test_picture (GTK_WIDGET (window), "map-window");
      gtk_window_close (GTK_WINDOW (window));
      settle_frames (book);
    }
}

/* Set up: the base by the map, an area's position, a counter's. */
static void
test_set_up (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);
  GtkEditable *base;

  settle_frames (book);
  gtk_editable_set_text (hs_set_up_window_get_entry (window, "place_code"), "Q");
  gtk_editable_set_text (hs_set_up_window_get_entry (window, "place_name"), "Quayside");
  g_signal_emit_by_name (find_button (GTK_WIDGET (window), "On Map"), "clicked");
  type_position (book, "41.22, -74.3");
  g_assert_cmpstr (gtk_editable_get_text (hs_set_up_window_get_entry (window, "place_position")), ==,
                   "41.22000,-74.30000");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "setup.add-place", NULL));
  settle_frames (book);
  gtk_editable_set_text (hs_set_up_window_get_entry (window, "counter_name"), "Lock Parts");
  gtk_editable_set_text (hs_set_up_window_get_entry (window, "counter_place"), "geo:41.25,-74.5");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "setup.place-counter", NULL));
  settle_frames (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (window), "Lock Parts (41.25000,-74.50000)"));
  base = hs_set_up_window_get_entry (window, "base_area");
  g_signal_emit_by_name (find_button (gtk_widget_get_parent (GTK_WIDGET (base)), "On Map"), "clicked");
  settle_frames (book);
  /* The pin on Quayside takes its code. */
  type_position (book, "41.22, -74.3");
  g_assert_cmpstr (gtk_editable_get_text (base), ==, "Q");
  hs_app_test_picture (GTK_WIDGET (window), "map-set-up");
  gtk_window_close (GTK_WINDOW (window));
  settle_frames (book);
  window = hs_set_up_window_present (book->window, book->ledger);
  settle_frames (book);
  g_assert_cmpstr (gtk_editable_get_text (hs_set_up_window_get_entry (window, "base_area")), ==, "Q");
  gtk_window_close (GTK_WINDOW (window));
}

/* A call's place from the map is an area of the book once the call is written down. */
/* On a phone's width nothing is cut off. */
static void
test_narrow (AppBook *book, gconstpointer data)
{
  GtkWidget *windows[2];

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 640);
  hs_app_test_frames ();
  windows[0] = GTK_WIDGET (hs_set_up_window_present (book->window, book->ledger));
  windows[1] = GTK_WIDGET (hs_map_window_present (GTK_WINDOW (book->window), book->ledger, "Base", NULL,
                                                  hs_ledger_get_today (book->ledger)));
  app_book_settle (book);
  hs_app_test_frames ();
  for (guint i = 0; i < G_N_ELEMENTS (windows); i++)
    {
      int least;

      gtk_widget_measure (windows[i], GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_test_message ("%s: %d px", G_OBJECT_TYPE_NAME (windows[i]), least);
      g_assert_cmpint (least, <=, 360);
      g_assert_cmpint (gtk_widget_get_width (windows[i]), <=, 360);
      gtk_window_destroy (GTK_WINDOW (windows[i]));
    }
}

/* What changes the map stands beside it and covers no place. */
static void
test_map_is_free (AppBook *book, gconstpointer data)
{
  HsMapWindow *window = hs_map_window_present (GTK_WINDOW (book->window), book->ledger, "Base", NULL,
                                               hs_ledger_get_today (book->ledger));
  GtkWidget *map = GTK_WIDGET (hs_map_window_get_view (window));

  app_book_settle (book);
  hs_app_test_frames ();
  for (int x = 2; x < gtk_widget_get_width (map); x += 20)
    for (int y = 2; y < gtk_widget_get_height (map); y += 20)
      {
        double at_x, at_y;

        gtk_widget_translate_coordinates (map, GTK_WIDGET (window), x, y, &at_x, &at_y);
        g_assert_true (gtk_widget_pick (GTK_WIDGET (window), at_x, at_y, GTK_PICK_DEFAULT) == map);
      }
  gtk_window_destroy (GTK_WINDOW (window));
}

static void
test_call (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsAreaChoice *choice = HS_AREA_CHOICE (hs_app_test_find (page, HS_TYPE_AREA_CHOICE));
  HsMapWindow *window;

  settle_frames (book);
  g_signal_emit_by_name (find_button (GTK_WIDGET (choice), "On Map"), "clicked");
  type_position (book, "41.21, -74.27");
  g_assert_cmpstr (hs_area_choice_get_place (choice)->code, ==, "41.21000,-74.27000");
  window = hs_map_window_present (GTK_WINDOW (book->window), book->ledger, "Area", "41.21000,-74.27000",
                                  hs_ledger_get_today (book->ledger));
  settle_frames (book);
  g_assert_nonnull (hs_map_view_get_place (hs_map_window_get_view (window)));
  g_assert_cmpstr (hs_map_view_get_place (hs_map_window_get_view (window))->code, ==, "41.21000,-74.27000");
  gtk_window_close (GTK_WINDOW (window));
  settle_frames (book);
}

/* From the map, with a place or without one, the focus comes back to where it was opened. */
static void
test_focus_comes_back (AppBook *book, gconstpointer data)
{
  static const char *const positions[] = { "41.21, -74.27", NULL };
  HsCallSlipWindow *slip = hs_call_slip_window_present (book->window, book->ledger,
                                                        hs_shop_get_draft (hs_shop_of (book->window)));
  GtkWidget *button;

  settle_frames (book);
  button = find_button (GTK_WIDGET (slip), "On Map");
  for (guint i = 0; i < G_N_ELEMENTS (positions); i++)
    {
      gtk_widget_grab_focus (button);
      g_signal_emit_by_name (button, "clicked");
      settle_frames (book);
      gtk_window_set_focus (GTK_WINDOW (slip), NULL);
      if (positions[i] != NULL)
        type_position (book, positions[i]);
      else
        g_assert_true (gtk_widget_activate_action (GTK_WIDGET (newest_window (HS_TYPE_MAP_WINDOW)), "map.close",
                                                   NULL));
      settle_frames (book);
      g_assert_true (gtk_root_get_focus (GTK_ROOT (slip)) == button);
    }
  gtk_window_close (GTK_WINDOW (slip));
  settle_frames (book);
}

/* Roads: a splitter that never ends by itself. */

static char *
dup_folder (void)
{
  return g_build_filename (g_get_tmp_dir (), "halfshaft-test-roads", NULL);
}

static char **
dup_splitter (const char *extract, const char *folder, char **ret_stamp, GError **error)
{
  const char *words[] = { "/bin/sh", "-c", "echo 'Read: Nodes=25'; exec sleep 60", NULL };

  *ret_stamp = g_strdup ("0123");
  return g_strdupv ((char **) words);
}

static void
sweep (const char *folder)
{
}

static gboolean
has_map (const char *folder)
{
  return FALSE;
}

/* Begun, shown, left alone while the window is shut, stopped. */
static void
test_roads (AppBook *book, gconstpointer data)
{
  static const HsRoadWorks works = { .dup_folder = dup_folder, .dup_splitter = dup_splitter, .sweep = sweep,
                                     .has_map = has_map };
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);
  g_autofree char *folder = dup_folder ();
  HsSetUpWindow *window;
  GtkWidget *card;

  hs_road_works_install (&works);
  window = hs_set_up_window_present (book->window, book->ledger);
  settle_frames (book);
  card = hs_app_test_find (GTK_WIDGET (window), HS_TYPE_ROAD_CARD);
  g_assert_true (hs_app_test_says_part (card, "There is no road map yet."));
  g_assert_nonnull (find_button (card, "Make Road Map …"));
  g_assert_null (find_button (card, "Stop"));
  hs_road_maker_make (maker, book->path);
  hs_app_test_wait (hs_road_maker_get_step (maker) != NULL);
  g_assert_true (hs_app_test_says_part (card, "Making the road map."));
  g_assert_true (hs_app_test_says (card, "Read: Nodes=25"));
  g_assert_null (find_button (card, "Make Road Map …"));
  hs_app_test_picture (GTK_WIDGET (window), "map-roads");
  gtk_window_close (GTK_WINDOW (window));
  settle_frames (book);
  g_assert_true (hs_road_maker_is_busy (maker));
  window = hs_set_up_window_present (book->window, book->ledger);
  settle_frames (book);
  card = hs_app_test_find (GTK_WIDGET (window), HS_TYPE_ROAD_CARD);
  g_signal_emit_by_name (find_button (card, "Stop"), "clicked");
  hs_app_test_wait (!hs_road_maker_is_busy (maker));
  g_assert_true (hs_app_test_says (card, "Stopped. Nothing was changed."));
  g_assert_nonnull (find_button (card, "Make Road Map …"));
  gtk_window_close (GTK_WINDOW (window));
  settle_frames (book);
  hs_road_works_install (NULL);
  (void) g_rmdir (folder);
}

/* A program without roads says so and has no button for them. */
static void
test_without_roads (AppBook *book, gconstpointer data)
{
  HsSetUpWindow *window = hs_set_up_window_present (book->window, book->ledger);
  GtkWidget *card;

  settle_frames (book);
  card = hs_app_test_find (GTK_WIDGET (window), HS_TYPE_ROAD_CARD);
  g_assert_true (hs_app_test_says_part (card, "This program was built without roads"));
  g_assert_null (find_button (card, "Make Road Map …"));
  gtk_window_close (GTK_WINDOW (window));
  settle_frames (book);
}

#define ADD(name, func) g_test_add ("/map/" name, Bed, NULL, make_bed, func, clear_bed)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("shows-all", test_shows_all);
  ADD ("arrows", test_arrows);
  ADD ("crosshair-in-sight", test_crosshair_in_sight);
  ADD ("enter", test_enter);
  ADD ("zoom", test_zoom);
  ADD ("wheel", test_wheel);
  ADD ("click", test_click);
  g_test_add ("/map/refused", AppBook, NULL, app_book_open_new, test_refused, app_book_close);
  g_test_add ("/map/typed", AppBook, NULL, app_book_open, test_typed, app_book_close);
  g_test_add ("/map/set-up", AppBook, NULL, app_book_open_new, test_set_up, app_book_close);
  g_test_add ("/map/narrow", AppBook, NULL, app_book_open, test_narrow, app_book_close);
  g_test_add ("/map/map-is-free", AppBook, NULL, app_book_open, test_map_is_free, app_book_close);
  g_test_add ("/map/call", AppBook, NULL, app_book_open, test_call, app_book_close);
  g_test_add ("/map/focus-comes-back", AppBook, NULL, app_book_open, test_focus_comes_back, app_book_close);
  g_test_add ("/map/roads", AppBook, NULL, app_book_open_new, test_roads, app_book_close);
  g_test_add ("/map/without-roads", AppBook, NULL, app_book_open_new, test_without_roads, app_book_close);
  return g_test_run ();
}
