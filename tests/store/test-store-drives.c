// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Drives as the book keeps them: off the stamps of visits, written down one by one, over the roads of a map. */

#include "book.h"

#include "hs-chase-row.h"
#include "hs-drive-row.h"
#include "hs-road-row.h"
#include "hs-store-private.h"

#include <string.h>

typedef struct
{
  char *folder;
  HsStore *store;
  GError *error;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->store = test_book_new (place->folder);
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_assert_no_error (place->error);
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

static void
sql (Place *place, const char *statements)
{
  test_run (place->store->db, statements);
}

static char *
instant_text (HsInstant instant)
{
  return instant == HS_INSTANT_NONE ? g_strdup ("-") : g_strdup_printf ("%" G_GINT64_FORMAT, instant);
}

/* "job>area rolling-arrived before@at/left counter" of each drive. */
static char *
drives_text (Place *place)
{
  g_autoptr (GPtrArray) rows = NULL;
  GString *text = g_string_new (NULL);

  g_assert_true (hs_drive_row_list (place->store, &rows, &place->error));
  for (guint i = 0; i < rows->len; i++)
    {
      const HsDriveRow *row = g_ptr_array_index (rows, i);
      g_autofree char *before_at = instant_text (row->before_at);
      g_autofree char *before_left_at = instant_text (row->before_left_at);

      g_string_append_printf (text, "%s%s>%s %d-%d %s@%s/%s%s", i > 0 ? "; " : "", row->job_id, row->to_id,
                              (int) row->rolling_at, (int) row->arrived_at,
                              row->before_id != NULL ? row->before_id : "-", before_at, before_left_at,
                              row->by_counter ? " counter" : "");
    }
  return g_string_free (text, FALSE);
}

static void
assert_drives (Place *place, const char *expected)
{
  g_autofree char *text = drives_text (place);

  g_assert_cmpstr (text, ==, expected);
}

/* A visit without stamps for the way is no drive, but it is where the next one started. */
static void
test_drives (Place *place, gconstpointer data)
{
  sql (place, "DELETE FROM visit; UPDATE job SET area_id = 'O' WHERE id = 'open';"
              "UPDATE job SET area_id = 'Q' WHERE id = 'open2';");
  assert_drives (place, "");
  sql (place, "INSERT INTO visit (id, job_id, rolling_at, arrived_at, left_at) VALUES"
              " ('1', 'open', 100, 700, 3000), ('2', 'open2', 3000, 3400, NULL)");
  assert_drives (place, "open>O 100-700 -@-/-; open2>Q 3000-3400 O@700/3000");
  sql (place, "UPDATE visit SET rolling_at = NULL WHERE id = '1'");
  assert_drives (place, "open2>Q 3000-3400 O@700/3000");
  sql (place, "UPDATE visit SET arrived_at = NULL, left_at = NULL WHERE id = '1'");
  assert_drives (place, "open2>Q 3000-3400 -@-/-");
  sql (place, "UPDATE job SET area_id = NULL WHERE id = 'open2'");
  assert_drives (place, "");
}

/* The order is that of arriving, not that of writing down, and each van has its own. */
static void
test_vans (Place *place, gconstpointer data)
{
  sql (place, "DELETE FROM visit; INSERT INTO van (id, letter) VALUES ('vb', 'B');"
              "UPDATE job SET area_id = 'O'; UPDATE job SET van_id = 'vb' WHERE id = 'proven';"
              "UPDATE job SET van_id = 'va' WHERE id = 'open2';"
              "INSERT INTO visit (id, job_id, rolling_at, arrived_at, left_at) VALUES"
              " ('3', 'open2', 900, 1000, 1100), ('4', 'proven', 850, 950, 990), ('5', 'open', 100, 200, 300)");
  assert_drives (place, "open>O 100-200 -@-/-; proven>O 850-950 -@-/-; open2>O 900-1000 O@200/300");
}

static void
test_by_counter (Place *place, gconstpointer data)
{
  sql (place, "DELETE FROM visit; UPDATE job SET area_id = 'O';"
              "INSERT INTO visit (id, job_id, rolling_at, arrived_at) VALUES"
              " ('1', 'open', 100, 700), ('2', 'open2', 3000, 3400);"
              "INSERT INTO day_plan (id, van_id, day, leave_at, home_at, accepted_at)"
              " VALUES ('p', 'va', '2026-03-10', 1, 2, 3);"
              "INSERT INTO day_stop (id, plan_id, position, job_id, supplier_id) VALUES"
              " ('s1', 'p', 1, 'open', NULL), ('s2', 'p', 2, NULL, 'k'), ('s3', 'p', 3, 'open2', NULL)");
  assert_drives (place, "open>O 100-700 -@-/-; open2>O 3000-3400 O@700/- counter");
}

static void
test_timed_trips (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  sql (place, "INSERT INTO trip (id, van_id, on_date, from_area_id, to_area_id, seconds, left_at, millimiles, purpose)"
              " VALUES ('t1', 'va', '2026-03-10', 'O', 'Q', 360, 1773139500, 1900, 'job'),"
              " ('t2', 'va', '2026-03-09', 'Q', 'O', 400, NULL, 1900, 'job'),"
              " ('t3', 'va', '2026-03-10', NULL, 'Q', 360, NULL, 1900, 'job'),"
              " ('t4', 'va', '2026-03-10', 'O', NULL, 360, NULL, 1900, 'job'),"
              " ('t5', 'va', '2026-03-10', 'O', 'Q', NULL, NULL, 1900, 'job')");
  g_assert_true (hs_trip_row_list_timed (place->store, &rows, &place->error));
  g_assert_cmpint (rows->len, ==, 2);
  g_assert_cmpstr (((HsTripRow *) rows->pdata[0])->id, ==, "t2");
  g_assert_true (((HsTripRow *) rows->pdata[0])->left_at == HS_INSTANT_NONE);
  g_assert_cmpint (((HsTripRow *) rows->pdata[1])->left_at, ==, 1773139500);
}

static void
put_road (Place *place, const char *from, const char *to, const char *stamp, gint64 seconds)
{
  g_autoptr (HsRoadRow) row = hs_road_row_new ();

  hs_row_set (&row->from_place, from);
  hs_row_set (&row->to_place, to);
  hs_row_set (&row->profile, "motorcar");
  hs_row_set (&row->stamp, stamp);
  row->seconds = seconds;
  row->millimiles = seconds == HS_INT_NONE ? HS_INT_NONE : 10 * seconds;
  g_assert_true (hs_road_row_put (place->store, row, &place->error));
}

static void
assert_roads (Place *place, const char *profile, const char *stamp, const char *expected)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GString) text = g_string_new (NULL);

  g_assert_true (hs_road_row_list (place->store, profile, stamp, &rows, &place->error));
  for (guint i = 0; i < rows->len; i++)
    {
      const HsRoadRow *row = g_ptr_array_index (rows, i);

      g_string_append_printf (text, "%s>%s %d ", row->from_place, row->to_place,
                              row->seconds == HS_INT_NONE ? -1 : (int) row->seconds);
    }
  g_assert_cmpstr (text->str, ==, expected);
}

/* One row a way; a new map takes the place of the old one, and until then the old figures are not heard. */
static void
test_roads (Place *place, gconstpointer data)
{
  put_road (place, "1,1", "2,2", "m1", 500);
  put_road (place, "2,2", "1,1", "m1", 520);
  put_road (place, "1,1", "3,3", "m1", HS_INT_NONE);
  assert_roads (place, "motorcar", "m1", "1,1>2,2 500 2,2>1,1 520 1,1>3,3 -1 ");
  put_road (place, "1,1", "2,2", "m1", 510);
  assert_roads (place, "motorcar", "m1", "1,1>2,2 510 2,2>1,1 520 1,1>3,3 -1 ");
  put_road (place, "2,2", "1,1", "m2", 600);
  assert_roads (place, "motorcar", "m1", "1,1>2,2 510 1,1>3,3 -1 ");
  assert_roads (place, "motorcar", "m2", "2,2>1,1 600 ");
  assert_roads (place, "goods", "m2", "");
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "drives", test_drives },
    { "vans", test_vans },
    { "by-counter", test_by_counter },
    { "timed-trips", test_timed_trips },
    { "roads", test_roads },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/store/drives/", tests[i].name, NULL);

      g_test_add (path, Place, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
