// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A map of five by five streets, made here, driven on. The router measures on a sphere on which a hundredth of a degree
 * of latitude is 1.113 km and, at 40°, one of longitude 0.852 km; every street allows 36 km/h, 10 m a second. */

#include "hs-roads.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define SIDE 5

typedef struct
{
  char *folder;
  char *extract;
} Place;

static void
append_way (GString *osm, int way, gboolean along, int at, gboolean oneway)
{
  g_string_append_printf (osm, "<way id=\"%d\" version=\"1\">", way);
  for (int i = 0; i < SIDE; i++)
    g_string_append_printf (osm, "<nd ref=\"%d\"/>", 1 + (along ? at * SIDE + i : i * SIDE + at));
  g_string_append_printf (osm, "<tag k=\"highway\" v=\"residential\"/><tag k=\"maxspeed\" v=\"36\"/>%s</way>",
                          oneway ? "<tag k=\"oneway\" v=\"yes\"/>" : "");
}

/* The southmost street is one-way to the west in a map with @oneway. */
static char *
make_extract (gboolean oneway)
{
  GString *osm = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?><osm version=\"0.6\">");

  for (int i = 0; i < SIDE * SIDE; i++)
    g_string_append_printf (osm, "<node id=\"%d\" version=\"1\" lat=\"40.0%d\" lon=\"-74.9%d\"/>", i + 1, i / SIDE,
                            i % SIDE);
  for (int i = 0; i < SIDE; i++)
    {
      append_way (osm, 100 + i, TRUE, i, oneway && i == 0);
      append_way (osm, 200 + i, FALSE, i, FALSE);
    }
  g_string_append (osm, "</osm>");
  return g_string_free (osm, FALSE);
}

static void
write_extract (Place *place, gboolean oneway)
{
  g_autofree char *osm = make_extract (oneway);

  g_assert_true (g_file_set_contents (place->extract, osm, -1, NULL));
}

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp (NULL, NULL);
  g_assert_nonnull (place->folder);
  place->extract = g_build_filename (place->folder, "grid.osm", NULL);
  write_extract (place, FALSE);
}

static void
tear_down (Place *place, gconstpointer data)
{
  GDir *dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_dir_close (dir);
  g_assert_cmpint (g_rmdir (place->folder), ==, 0);
  g_free (place->folder);
  g_free (place->extract);
}

static gboolean
can_make_maps (void)
{
  g_autofree char *splitter = g_find_program_in_path ("planetsplitter");

  if (hs_roads_are_built_in () && splitter != NULL)
    return TRUE;
  g_test_skip ("no router here");
  return FALSE;
}

static HsRoads *
make_and_open (Place *place)
{
  g_autoptr (GError) error = NULL;
  HsRoads *roads;

  hs_roads_make_map (place->extract, place->folder, &error);
  g_assert_no_error (error);
  roads = hs_roads_open (place->folder, &error);
  g_assert_no_error (error);
  return roads;
}

static void
assert_drive (HsRoads *roads, const double *ends, gboolean found, double km)
{
  g_autoptr (GError) error = NULL;
  gboolean led = !found;
  gint64 seconds = -1, millimiles = -1;

  hs_roads_drive (roads, ends[0], ends[1], ends[2], ends[3], &led, &seconds, &millimiles, &error);
  g_assert_no_error (error);
  g_assert_cmpint (led, ==, found);
  if (fabs (seconds - km * 100) > 1.5 || fabs (millimiles - km * 1000 / 1.609344) > 3)
    g_error ("%d s and %d thousandths of a mile are not %d m", (int) seconds, (int) millimiles, (int) (1000 * km));
}

static void
test_drives (Place *place, gconstpointer data)
{
  static const struct
  {
    double ends[4];
    gboolean found;
    double km;
  } rows[] = {
    { { 40.00, -74.90, 40.01, -74.90 }, TRUE, 1.113 },
    { { 40.01, -74.90, 40.00, -74.90 }, TRUE, 1.113 },
    { { 40.00, -74.90, 40.00, -74.91 }, TRUE, 0.852 },
    { { 40.00, -74.90, 40.04, -74.94 }, TRUE, 4 * 1.113 + 4 * 0.852 },
    { { 40.005, -74.90, 40.01, -74.90 }, TRUE, 0.5565 },
    { { 40.00, -74.90, 40.00, -74.90 }, TRUE, 0 },
    { { 40.00, -74.90, 41.00, -74.90 }, FALSE, 0 },
    { { 41.00, -74.90, 40.00, -74.90 }, FALSE, 0 },
  };
  g_autoptr (HsRoads) roads = NULL;

  if (!can_make_maps ())
    return;
  roads = make_and_open (place);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    assert_drive (roads, rows[i].ends, rows[i].found, rows[i].km);
}

/* The same extract has the same stamp, another one another; the way back round a one-way street is longer. */
static void
test_another_map (Place *place, gconstpointer data)
{
  static const double west[] = { 40.00, -74.90, 40.00, -74.91 };
  static const double east[] = { 40.00, -74.91, 40.00, -74.90 };
  g_autoptr (HsRoads) roads = NULL;
  g_autofree char *first = NULL;

  if (!can_make_maps ())
    return;
  roads = make_and_open (place);
  first = g_strdup (hs_roads_get_stamp (roads));
  g_assert_cmpuint (strlen (first), ==, 16);
  hs_roads_close (g_steal_pointer (&roads));
  roads = make_and_open (place);
  g_assert_cmpstr (hs_roads_get_stamp (roads), ==, first);
  hs_roads_close (g_steal_pointer (&roads));
  write_extract (place, TRUE);
  roads = make_and_open (place);
  g_assert_cmpstr (hs_roads_get_stamp (roads), !=, first);
  assert_drive (roads, west, TRUE, 0.852);
  assert_drive (roads, east, TRUE, 2 * 1.113 + 0.852);
}

static void
test_refused (Place *place, gconstpointer data)
{
  static const char *const bad[] = { "", "no map at all", "<?xml version=\"1.0\"?><osm version=\"0.6\"></osm>" };
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_roads_open (place->folder, &error));
  g_assert_error (error, HS_ROADS_ERROR,
                  hs_roads_are_built_in () ? HS_ROADS_ERROR_NO_MAP : HS_ROADS_ERROR_NOT_BUILT_IN);
  g_clear_error (&error);
  g_assert_false (hs_roads_make_map ("/nowhere/at/all.osm", place->folder, &error));
  g_assert_nonnull (error);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_clear_error (&error);
      g_assert_true (g_file_set_contents (place->extract, bad[i], -1, NULL));
      g_assert_false (hs_roads_make_map (place->extract, place->folder, &error));
      g_assert_nonnull (error);
    }
  g_clear_error (&error);
  g_assert_null (hs_roads_open (place->folder, &error));
  g_assert_nonnull (error);
  hs_roads_close (NULL);
}

/* Of no use: other maps and a splitter's notes. The map that counts and everything else is. */
static void
test_left_over (Place *place, gconstpointer data)
{
  static const struct
  {
    const char *name;
    gboolean before, after;
  } rows[] = { { "map-old-nodes.mem", TRUE, TRUE }, { "map-new-nodes.mem", TRUE, FALSE },
               { "map-newer-nodes.mem", TRUE, TRUE }, { "nodesx.0x1.tmp", TRUE, TRUE }, { "stamp", FALSE, FALSE },
               { "my own.osm", FALSE, FALSE } };
  g_autofree char *stamp = g_build_filename (place->folder, "stamp", NULL);

  g_assert_false (hs_roads_has_map (place->folder));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_roads_is_left_over (place->folder, rows[i].name), ==,
                     hs_roads_are_built_in () && rows[i].before);
  g_assert_true (g_file_set_contents (stamp, "new", -1, NULL));
  g_assert_cmpint (hs_roads_has_map (place->folder), ==, hs_roads_are_built_in ());
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_roads_is_left_over (place->folder, rows[i].name), ==,
                     hs_roads_are_built_in () && rows[i].after);
}

/* Only what is of no use is taken away, and a folder that is not there is no trouble. */
static void
test_sweep (Place *place, gconstpointer data)
{
  static const char *const names[] = { "map-old-nodes.mem", "map-new-nodes.mem", "nodesx.0x1.tmp", "stamp",
                                       "my own.osm" };
  static const gboolean stays[] = { FALSE, TRUE, FALSE, TRUE, TRUE };
  g_autofree char *nowhere = g_build_filename (place->folder, "nowhere", NULL);
  g_autofree char *below = hs_roads_dup_folder ("share");

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (place->folder, names[i], NULL);

      g_assert_true (g_file_set_contents (path, "new", -1, NULL));
    }
  hs_roads_sweep (place->folder);
  hs_roads_sweep (nowhere);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (place->folder, names[i], NULL);

      g_assert_cmpint (g_file_test (path, G_FILE_TEST_EXISTS), ==, stays[i] || !hs_roads_are_built_in ());
    }
  g_assert_cmpstr (below, ==, "share/halfshaft/roads");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/roads/drives", Place, NULL, set_up, test_drives, tear_down);
  g_test_add ("/roads/another-map", Place, NULL, set_up, test_another_map, tear_down);
  g_test_add ("/roads/left-over", Place, NULL, set_up, test_left_over, tear_down);
  g_test_add ("/roads/sweep", Place, NULL, set_up, test_sweep, tear_down);
  g_test_add ("/roads/refused", Place, NULL, set_up, test_refused, tear_down);
  return g_test_run ();
}
