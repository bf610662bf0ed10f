// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The real splitter from the window: a street of 4.2 km at 36 km/h between the yard and Old Market becomes the drive of
 * the day, and what goes wrong leaves the map that was there. Skipped where there is no router. */

#include "app-book.h"

#include <glib/gstdio.h>
#include <unistd.h>

#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-deed-setup.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-key-button.h"
#include "hs-road-card.h"
#include "hs-road-wiring.h"
#include "hs-roads.h"
#include "hs-set-up-window.h"

/* Where the map lies; a test may point it elsewhere. */
static char *roads_folder;

static char *
dup_folder (void)
{
  return g_strdup (roads_folder);
}

static HsRoadWorks works;

typedef struct
{
  AppBook book;
  char *maps;
  char *extract;
  HsRoadMaker *maker;
  HsSetUpWindow *window;
  GtkWidget *card;
  gboolean stop_at_once;
} Bed;

static gboolean
is_skipped (void)
{
  g_autofree char *splitter = g_find_program_in_path ("planetsplitter");

  if (hs_roads_are_built_in () && splitter != NULL)
    return FALSE;
  g_test_skip ("no router here");
  return TRUE;
}

/* One street along a parallel, @n + 1 nodes on it. */
static void
write_street (const char *path, int n)
{
  g_autoptr (GString) osm = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?><osm version=\"0.6\">");

  for (int i = 0; i <= n; i++)
    g_string_append_printf (osm, "<node id=\"%d\" version=\"1\" lat=\"41.20\" lon=\"-74.%d\"/>", i + 1,
                            30000 - i * 5000 / n);
  g_string_append (osm, "<way id=\"1\" version=\"1\">");
  for (int i = 0; i <= n; i++)
    g_string_append_printf (osm, "<nd ref=\"%d\"/>", i + 1);
  g_string_append (osm, "<tag k=\"highway\" v=\"residential\"/><tag k=\"maxspeed\" v=\"36\"/></way></osm>");
  g_assert_true (g_file_set_contents (path, osm->str, -1, NULL));
}

static void
changed_cb (Bed *bed)
{
  if (hs_road_maker_get_state (bed->maker) == HS_ROAD_MAKER_SPLITTING && bed->stop_at_once)
    hs_road_maker_stop (bed->maker);
}

static void
settle (Bed *bed)
{
  app_book_settle (&bed->book);
  hs_app_test_frames ();
}

/* A yard, Old Market, and a call there today. */
static void
fill_book (Bed *bed)
{
  HsCallSlip slip = { .phone = "555-0194", .words = "won't start", .area = "O", .window_from = 9 * 60,
                      .window_to = 11 * 60, .minutes = 60 };
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = NULL;
  g_autofree char *id = NULL;

  hs_deed_add_place (bed->book.ledger, "T", "Tannery Row", "41.20,-74.30", NULL, NULL);
  hs_deed_add_place (bed->book.ledger, "O", "Old Market", "41.20,-74.25", NULL, NULL);
  hs_deed_set (bed->book.ledger, "base_area", "T", NULL, NULL);
  app_book_settle (&bed->book);
  other = hs_book_open (bed->book.path, HS_BOOK_WRITE, &user, NULL);
  slip.day = hs_ledger_get_today (bed->book.ledger);
  id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);
  g_assert_nonnull (id);
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_PROMISED, NULL, hs_demo_get_now (), NULL));
}

static void
make_bed (Bed *bed, gconstpointer data)
{
  app_book_open_new (&bed->book, NULL);
  bed->maps = g_dir_make_tmp (NULL, NULL);
  g_free (roads_folder);
  roads_folder = g_build_filename (bed->maps, "roads", NULL);
  bed->extract = g_build_filename (bed->maps, "town.osm", NULL);
  write_street (bed->extract, 50);
  works = *hs_road_wiring_get ();
  works.dup_folder = dup_folder;
  hs_road_works_install (&works);
  fill_book (bed);
  bed->maker = hs_road_maker_of (bed->book.ledger);
  g_signal_connect_swapped (bed->maker, "changed", G_CALLBACK (changed_cb), bed);
  bed->window = hs_set_up_window_present (bed->book.window, bed->book.ledger);
  settle (bed);
  bed->card = hs_app_test_find (GTK_WIDGET (bed->window), HS_TYPE_ROAD_CARD);
}

static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_folder (path);
      else
        g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
clear_bed (Bed *bed, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (bed->window));
  app_book_close (&bed->book, NULL);
  hs_road_works_install (NULL);
  remove_folder (bed->maps);
  g_free (bed->maps);
  g_free (bed->extract);
}

static void
make (Bed *bed, const char *extract)
{
  hs_road_maker_make (bed->maker, extract);
  hs_app_test_wait (!hs_road_maker_is_busy (bed->maker));
  settle (bed);
}

static HsDayPlan *
plan_of (Bed *bed)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (bed->book.path, HS_BOOK_READ, &user, NULL);
  g_autoptr (GError) error = NULL;
  HsDayPlan *plan = hs_day_plan_make (other, hs_ledger_get_today (bed->book.ledger), NULL, HS_INSTANT_NONE, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (plan->stops->len, ==, 1);
  return plan;
}

static gboolean
is_guess (Bed *bed)
{
  g_autoptr (HsDayPlan) plan = plan_of (bed);

  return ((const HsPlannedStop *) g_ptr_array_index (plan->stops, 0))->guess;
}

/* 0.05° at 41.2° north are 4.19 km: 419 s at 36 km/h, 2.60 mi; there and back. */
static void
assert_on_the_street (Bed *bed)
{
  g_autoptr (HsDayPlan) plan = plan_of (bed);

  g_test_message ("%" G_GINT64_FORMAT " s, %" G_GINT64_FORMAT, plan->drive_seconds, plan->millimiles);
  g_assert_false (is_guess (bed));
  g_assert_cmpint (ABS (plan->drive_seconds - 2 * 419), <=, 20);
  g_assert_cmpint (ABS (plan->millimiles - 2 * 2602), <=, 60);
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *) a, *(const char *const *) b);
}

/* The names in the map's folder, in order. */
static char *
list_maps (void)
{
  g_autoptr (GDir) dir = g_dir_open (roads_folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  g_ptr_array_add (names, NULL);
  return g_strjoinv (" ", (char **) names->pdata);
}

static void
test_make (Bed *bed, gconstpointer data)
{
  if (is_skipped ())
    return;
  g_assert_true (is_guess (bed));
  make (bed, bed->extract);
  g_assert_cmpint (hs_road_maker_get_state (bed->maker), ==, HS_ROAD_MAKER_DONE);
  /* What it said last may be read after its end. */
  hs_app_test_wait (hs_road_maker_get_step (bed->maker) != NULL);
  g_assert_cmpuint (hs_road_maker_get_driven (bed->maker), >, 0);
  g_assert_true (hs_roads_has_map (roads_folder));
  assert_on_the_street (bed);
}

static GtkWidget *
find_button (GtkWidget *widget, const char *text)
{
  if (HS_IS_KEY_BUTTON (widget) && hs_app_test_says (widget, text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_button (child, text);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* The button gives way to Stop and comes back; the keyboard stays on it. */
static void
test_focus (Bed *bed, gconstpointer data)
{
  if (is_skipped ())
    return;
  g_assert_true (gtk_widget_grab_focus (find_button (bed->card, "Make Road Map …")));
  hs_road_maker_make (bed->maker, bed->extract);
  g_assert_true (gtk_widget_is_focus (find_button (bed->card, "Stop")));
  hs_app_test_wait (!hs_road_maker_is_busy (bed->maker));
  settle (bed);
  g_assert_true (gtk_widget_is_focus (find_button (bed->card, "Make Road Map …")));
}

/* Stopped by hand: nothing of it stays, the map from before does, and it can be begun again. */
static void
test_stop (Bed *bed, gconstpointer data)
{
  g_autofree char *before = NULL, *after = NULL;

  if (is_skipped ())
    return;
  make (bed, bed->extract);
  before = list_maps ();
  write_street (bed->extract, 40);
  bed->stop_at_once = TRUE;
  make (bed, bed->extract);
  g_assert_cmpint (hs_road_maker_get_state (bed->maker), ==, HS_ROAD_MAKER_STOPPED);
  g_assert_true (hs_app_test_says (bed->card, "Stopped. Nothing was changed."));
  after = list_maps ();
  g_assert_cmpstr (after, ==, before);
  assert_on_the_street (bed);
  bed->stop_at_once = FALSE;
  make (bed, bed->extract);
  g_assert_cmpint (hs_road_maker_get_state (bed->maker), ==, HS_ROAD_MAKER_DONE);
  assert_on_the_street (bed);
}

/* Not a map, half a map, a map without a road, no such file: told, and the map from before stays. */
static void
test_bad_files (Bed *bed, gconstpointer data)
{
  static const struct
  {
    const char *name, *content, *says, *or_says; /* of a later splitter, which ends where the older goes on */
  } rows[] = {
    { "bad.osm", "this is no map", "a whole OpenStreetMap extract" },
    { "half.osm", "<?xml version=\"1.0\"?><osm version=\"0.6\"><node id=\"1\" version=\"1\" lat=\"41.2\"",
      "a whole OpenStreetMap extract" },
    { "none.osm", "<?xml version=\"1.0\"?><osm version=\"0.6\"></osm>", "there seems to be no road in the file",
      "a whole OpenStreetMap extract" },
    { "bad.osm.pbf", "this is no map either, but longer", "a whole OpenStreetMap extract" },
    { "empty.osm", "", "a whole OpenStreetMap extract" },
    { "no-such.osm", NULL, "No such file" },
  };
  g_autofree char *before = NULL;

  if (is_skipped ())
    return;
  make (bed, bed->extract);
  before = list_maps ();
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_build_filename (bed->maps, rows[i].name, NULL), *after = NULL;

      if (rows[i].content != NULL)
        g_assert_true (g_file_set_contents (path, rows[i].content, -1, NULL));
      make (bed, path);
      g_test_message ("%s: %s", rows[i].name, hs_road_maker_get_trouble (bed->maker));
      g_assert_cmpint (hs_road_maker_get_state (bed->maker), ==, HS_ROAD_MAKER_FAILED);
      g_assert_true (strstr (hs_road_maker_get_trouble (bed->maker), rows[i].says) != NULL
                     || (rows[i].or_says != NULL
                         && strstr (hs_road_maker_get_trouble (bed->maker), rows[i].or_says) != NULL));
      g_assert_true (hs_app_test_says_part (bed->card, hs_road_maker_get_trouble (bed->maker)));
      after = list_maps ();
      g_assert_cmpstr (after, ==, before);
      assert_on_the_street (bed);
    }
}

/* An extract of 4 TiB, of which nothing is on the disk. */
static void
test_no_room (Bed *bed, gconstpointer data)
{
  FILE *file = g_fopen (bed->extract, "w");
  gboolean grown = ftruncate (fileno (file), (off_t) 1 << 42) == 0;

  fclose (file);
  if (!grown)
    {
      g_test_skip ("the disk holds no such file");
      return;
    }
  make (bed, bed->extract);
  g_assert_cmpint (hs_road_maker_get_state (bed->maker), ==, HS_ROAD_MAKER_FAILED);
  g_assert_true (hs_app_test_says_part (bed->card, "There is no room for this map"));
  g_assert_true (is_guess (bed));
}

/* The folder cannot be made: a file stands in its way. */
static void
test_no_folder (Bed *bed, gconstpointer data)
{
  g_free (roads_folder);
  roads_folder = g_build_filename (bed->extract, "roads", NULL);
  make (bed, bed->extract);
  g_assert_cmpint (hs_road_maker_get_state (bed->maker), ==, HS_ROAD_MAKER_FAILED);
  g_assert_true (hs_app_test_says_part (bed->card, "cannot be made"));
  g_assert_true (is_guess (bed));
}

#define ADD(name, func) g_test_add ("/roads/" name, Bed, NULL, make_bed, func, clear_bed)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("make", test_make);
  ADD ("focus", test_focus);
  ADD ("stop", test_stop);
  ADD ("bad-files", test_bad_files);
  ADD ("no-room", test_no_room);
  ADD ("no-folder", test_no_folder);
  return g_test_run ();
}
