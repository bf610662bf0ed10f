// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Making a map with a splitter of our own: a script that does as it is told. */

#include "hs-ask.h"
#include "hs-deed-setup.h"
#include "hs-road-maker.h"
#include "hs-travel-op.h"
#include "model-book.h"

#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* The works below have no data to carry. */
static struct
{
  char *folder;
  char *extract;
  const char *script;
  gboolean whole;
  guint sweeps;
  guint opened;
} yard;

static char *
dup_folder (void)
{
  return g_build_filename (yard.folder, "roads", NULL);
}

static char **
dup_splitter (const char *extract, const char *folder, char **ret_stamp, GError **error)
{
  const char *words[] = { "/bin/sh", "-c", yard.script, NULL };
  const char *none[] = { "/nowhere/at/all/splitter", NULL };

  *ret_stamp = g_strdup ("0123");
  return g_strdupv ((char **) (yard.script != NULL ? words : none));
}

static gboolean
take_map (const char *folder, const char *stamp, GError **error)
{
  g_autofree char *path = g_build_filename (folder, "stamp", NULL);

  if (!yard.whole)
    {
      g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_FAILED, "The extract has no road in it.");
      return FALSE;
    }
  g_assert_cmpstr (stamp, ==, "0123");
  return g_file_set_contents (path, stamp, -1, error);
}

static void
sweep (const char *folder)
{
  yard.sweeps++;
}

static gboolean
has_map (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "stamp", NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static gpointer
open_map (const char *folder, GError **error)
{
  yard.opened++;
  return yard.folder;
}

static void
close_map (gpointer map)
{
  yard.opened--;
}

/* Every drive takes 7 minutes. */
static gboolean
drive (gpointer data, double from_latitude, double from_longitude, double to_latitude, double to_longitude,
       gboolean *ret_found, gint64 *ret_seconds, gint64 *ret_millimiles, GError **error)
{
  *ret_found = TRUE;
  *ret_seconds = 420;
  *ret_millimiles = 3000;
  return TRUE;
}

static HsRoadSource
source_of (gpointer map)
{
  return (HsRoadSource) { "motorcar", "0123", drive, map };
}

static const HsRoadWorks fake = { dup_folder, dup_splitter, take_map, sweep, has_map, open_map, close_map, source_of };

static void
start (ModelBook *book, gconstpointer data)
{
  model_book_open (book, data);
  yard.folder = g_dir_make_tmp (NULL, NULL);
  yard.extract = g_build_filename (yard.folder, "town.osm.pbf", NULL);
  yard.script = NULL;
  yard.whole = TRUE;
  yard.sweeps = yard.opened = 0;
  g_assert_true (g_file_set_contents (yard.extract, "roads", -1, NULL));
  hs_road_works_install (&fake);
}

static void
end (ModelBook *book, gconstpointer data)
{
  g_autofree char *roads = dup_folder ();
  g_autofree char *stamp = g_build_filename (roads, "stamp", NULL);

  g_assert_cmpuint (yard.opened, ==, 0);
  hs_road_works_install (NULL);
  model_book_close (book, data);
  (void) g_unlink (stamp);
  (void) g_rmdir (roads);
  g_assert_cmpint (g_unlink (yard.extract), ==, 0);
  g_assert_cmpint (g_rmdir (yard.folder), ==, 0);
  g_free (yard.extract);
  g_free (yard.folder);
}

static gboolean
is_idle (gpointer data)
{
  return !hs_road_maker_is_busy (data);
}

static gboolean
is_splitting (gpointer data)
{
  return hs_road_maker_get_state (data) == HS_ROAD_MAKER_SPLITTING && hs_road_maker_get_step (data) != NULL;
}

static void
add_place (ModelBook *book, const char *code, const char *position)
{
  hs_deed_add_place (book->ledger, code, code, position, NULL, NULL);
  hs_ledger_wait (book->ledger);
}

static void
count_step_cb (guint *steps)
{
  (*steps)++;
}

/* Steps are counted, headings are not; afterwards the book has each drive between its two places, and only once. */
static void
test_made (ModelBook *book, gconstpointer data)
{
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);
  guint changes = 0;

  add_place (book, "N1", "41.1, -74.1");
  add_place (book, "N2", "41.2, -74.2");
  yard.script = "echo Parse; echo =====; echo; echo 'Read: Nodes=25'; echo 'Sorted Ways: Ways=10'";
  g_assert_true (maker == hs_road_maker_of (book->ledger));
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_IDLE);
  g_signal_connect_swapped (maker, "changed", G_CALLBACK (count_step_cb), &changes);
  hs_road_maker_make (maker, yard.extract);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_READING);
  /* One at a time. */
  hs_road_maker_make (maker, "/nowhere");
  model_wait (is_idle, maker);
  g_assert_cmpstr (hs_road_maker_get_trouble (maker), ==, NULL);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_DONE);
  g_assert_cmpstr (hs_road_maker_get_step (maker), ==, "Sorted Ways: Ways=10");
  g_assert_cmpfloat_with_epsilon (hs_road_maker_get_share (maker), 3 / 48.0, 1e-9);
  g_assert_cmpuint (hs_road_maker_get_driven (maker), ==, 2);
  /* Reading, splitting, three steps, driving, done. */
  g_assert_cmpuint (changes, ==, 7);
  hs_road_maker_make (maker, yard.extract);
  model_wait (is_idle, maker);
  g_assert_cmpuint (hs_road_maker_get_driven (maker), ==, 0);
}

static gboolean
is_on_roads (ModelBook *book)
{
  g_autofree HsTravelAccuracy *accuracy = model_ask (book->ledger, hs_ask_accuracy, NULL);

  return accuracy->count[HS_TRAVEL_ROADS] > 0;
}

/* The demo's own trips are between areas that get a position now: from then on roads have a say in them. */
static void
test_used_at_once (ModelBook *book, gconstpointer data)
{
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);
  static const char *const places[][2] = { { "T", "41.1, -74.1" }, { "Q", "41.11, -74.1" }, { "O", "41.1, -74.12" },
                                           { "H", "41.13, -74.12" } };

  yard.script = "true";
  hs_road_maker_make (maker, yard.extract);
  model_wait (is_idle, maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_DONE);
  g_assert_cmpuint (hs_road_maker_get_driven (maker), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    add_place (book, places[i][0], places[i][1]);
  g_assert_false (is_on_roads (book));
  hs_road_maker_drive (maker);
  hs_ledger_wait (book->ledger);
  g_assert_true (is_on_roads (book));
}

static void
test_troubles (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *script;
    gboolean whole;
    const char *says;
  } rows[] = {
    { NULL, TRUE, "is not on this machine: install the package routino" },
    { "echo 'XML Parser: Error on line 1.' >&2; exit 1", TRUE, "could not be made: XML Parser: Error on line 1. Is" },
    { "exit 1", TRUE, "could not be made: the splitter gave up. Is the file a whole OpenStreetMap extract" },
    { "kill -9 $$", TRUE, "the splitter gave up" },
    /* Names of files need not be UTF-8; what is said after them is heard, and read away. */
    { "printf 'caf\\351: not a map\\n' >&2; exit 1", TRUE, "caf\357\277\275: not a map. Is" },
    { "printf 'caf\\351\\n'; yes step | head -c 200000; exit 1", TRUE, "the splitter gave up" },
    { "echo 'Cannot write: No space left on device' >&2; exit 1", TRUE, "The disk is full: make room" },
    { "true", FALSE, "The extract has no road in it." },
  };
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      guint sweeps = yard.sweeps;

      yard.script = rows[i].script;
      yard.whole = rows[i].whole;
      hs_road_maker_make (maker, yard.extract);
      model_wait (is_idle, maker);
      g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_FAILED);
      g_assert_nonnull (strstr (hs_road_maker_get_trouble (maker), rows[i].says));
      g_assert_cmpuint (yard.sweeps, >, sweeps);
    }
}

/* A file that is not there, and one that is larger than any disk: neither gets as far as the splitter. */
static void
test_no_room (ModelBook *book, gconstpointer data)
{
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);

  yard.script = "true";
  hs_road_maker_make (maker, "/nowhere/at/all.osm");
  model_wait (is_idle, maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_FAILED);
  g_assert_nonnull (strstr (hs_road_maker_get_trouble (maker), "/nowhere/at/all.osm"));
  if (truncate (yard.extract, (off_t) 1 << 43) != 0)
    {
      g_test_skip ("no file with holes of that size here");
      return;
    }
  hs_road_maker_make (maker, yard.extract);
  model_wait (is_idle, maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_FAILED);
  g_assert_nonnull (strstr (hs_road_maker_get_trouble (maker), "There is no room for this map: it wants about"));
  g_assert_null (hs_road_maker_get_step (maker));
}

/* Stopped, the splitter is gone at once and so is what it left; then it may begin again. */
static void
test_stopped (ModelBook *book, gconstpointer data)
{
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);
  guint sweeps;

  yard.script = "echo begun; exec sleep 60";
  hs_road_maker_make (maker, yard.extract);
  model_wait (is_splitting, maker);
  g_assert_cmpstr (hs_road_maker_get_step (maker), ==, "begun");
  sweeps = yard.sweeps;
  hs_road_maker_stop (maker);
  model_wait (is_idle, maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_STOPPED);
  g_assert_cmpuint (yard.sweeps, ==, sweeps + 1);
  g_assert_null (hs_road_maker_get_trouble (maker));
  hs_road_maker_make (maker, yard.extract);
  hs_road_maker_stop (maker);
  model_wait (is_idle, maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_STOPPED);
  g_assert_null (hs_road_maker_get_trouble (maker));
  yard.script = "true";
  hs_road_maker_make (maker, yard.extract);
  model_wait (is_idle, maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_DONE);
}

static void
test_without_roads (ModelBook *book, gconstpointer data)
{
  HsRoadMaker *maker = hs_road_maker_of (book->ledger);

  hs_road_works_install (NULL);
  hs_road_maker_make (maker, yard.extract);
  hs_road_maker_drive (maker);
  hs_road_maker_stop (maker);
  g_assert_cmpint (hs_road_maker_get_state (maker), ==, HS_ROAD_MAKER_IDLE);
}

#define ADD(name, func) g_test_add ("/road-maker/" name, ModelBook, NULL, start, func, end)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("made", test_made);
  ADD ("used-at-once", test_used_at_once);
  ADD ("troubles", test_troubles);
  ADD ("no-room", test_no_room);
  ADD ("stopped", test_stopped);
  ADD ("without-roads", test_without_roads);
  return g_test_run ();
}
