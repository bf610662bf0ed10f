// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Places by every name they may be called by, what is refused, and positions as areas of their own. */

#include "hs-spot.h"

#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <math.h>

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "areas", "code,name,position\nO,Old Market,\"41.3, -74.6\"\nS,Sedge End,\n", 2, 0, 0);
  hs_ops_test_import_ok (test, "customers",
                         "name,phone,street,area,lat,lon\nIris Fenn,555-0190,4 Quay Street,S,41.1,-74.1\n"
                         "Ivo Fenn,555-0191,40 Quay Street,S,41.2,-74.3\nAda Stane,555-0192,7 Kiln Road,O,,\n"
                         "Ada Stane & Son,555-0193,7 Kiln Road,O,,\n",
                         4, 0, 0);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,area\nA-0001,555-0190,hums,\nA-0002,555-0190,hums,O\n"
                         "A-0003,555-0115,hums,\n",
                         3, 0, 0);
  return test;
}

/* S lies amid its customers, at 41.15, -74.2; T and H have no position. */
static void
test_find (void)
{
  static const struct
  {
    const char *text;
    const char *area;
    const char *name;
    double latitude;
    double longitude;
  } rows[] = {
    { "T", "T", "Tannery Row", NAN, NAN },
    { " t ", "T", "Tannery Row", NAN, NAN },
    { "tannery row", "T", "Tannery Row", NAN, NAN },
    { "O", "O", "Old Market", 41.3, -74.6 },
    { "S", "S", "Sedge End", 41.15, -74.2 },
    { "41.25, -74.5", NULL, "41.25000,-74.50000", 41.25, -74.5 },
    { "geo:41.25,-74.5;crs=wgs84", NULL, "41.25000,-74.50000", 41.25, -74.5 },
    { "41°15'N 74°30'W", NULL, "41.25000,-74.50000", 41.25, -74.5 },
    { "A-0001", "S", "A-0001", 41.1, -74.1 },
    { "a1", "S", "A-0001", 41.1, -74.1 },
    { "A-0002", "O", "A-0002", 41.3, -74.6 },
    { "A-0003", "T", "A-0003", NAN, NAN },
    { "larch & weir", "H", "Larch & Weir", NAN, NAN },
    { "4 quay street", "S", "4 Quay Street", 41.1, -74.1 },
    { "40 Quay", "S", "40 Quay Street", 41.2, -74.3 },
    { "Iris", "S", "4 Quay Street", 41.1, -74.1 },
    { "7 Kiln Road", "O", "7 Kiln Road", 41.3, -74.6 },
    { "Teo Calloway", "T", "Teo Calloway", NAN, NAN },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsSpot) spot = hs_spot_find (test->book, rows[i].text, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (spot->area, ==, rows[i].area);
      g_assert_cmpstr (spot->name, ==, rows[i].name);
      g_assert_cmpint (spot->has_position, ==, !isnan (rows[i].latitude));
      if (!spot->has_position)
        continue;
      g_assert_cmpfloat_with_epsilon (spot->latitude, rows[i].latitude, 1e-9);
      g_assert_cmpfloat_with_epsilon (spot->longitude, rows[i].longitude, 1e-9);
    }
}

static void
test_find_refused (void)
{
  static const struct
  {
    const char *text;
    const char *said;
  } rows[] = {
    { "", "There is no place “”" },
    { "Far End", "There is no place “Far End”" },
    { "A-0009", "There is no place “A-0009”" },
    { "95, 10", "a latitude lies between" },
    { "geo:1,2;crs=nad27", "only WGS-84" },
    { "4", "“4” may be Iris Fenn (4 Quay Street) or Ivo Fenn (40 Quay Street)" },
  };
  g_autoptr (HsOpsTest) test = start ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_spot_find (test->book, rows[i].text, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
}

/* Two areas that differ in nothing but accents and letter case. A code that is meant exactly is never
 * in doubt, and a code goes before a name. */
static void
test_find_ambiguous (void)
{
  static const struct
  {
    const char *text;
    const char *area;
    const char *said;
  } rows[] = {
    { "Val Doré", NULL, "“Val Doré” may be Val Doré (V1) or VAL DORE (V2): give its code" },
    { "val-dore", NULL, "“val-dore” may be Val Doré (V1) or VAL DORE (V2): give its code" },
    { "v1", "V1", NULL },
    { "V2", "V2", NULL },
    { "ab", "ab", NULL },
    { "AB", "AB", NULL },
    { "Ab", NULL, "“Ab” may be Low Ford (AB) or High Ford (ab): give its code" },
    { "low ford", "AB", NULL },
    { "q9", "Q9", NULL },
  };
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_ok (test, "areas",
                         "code,name,position\nV1,Val Doré,\nV2,VAL DORE,\nAB,Low Ford,\nab,High Ford,\nQ9,Brine,\n"
                         "R9,Q9,\n", 6, 0, 0);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsSpot) spot = hs_spot_find (test->book, rows[i].text, &error);

      if (rows[i].said != NULL)
        {
          g_assert_null (spot);
          g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
          hs_ops_test_refused (&error, rows[i].said);
          continue;
        }
      g_assert_no_error (error);
      g_assert_cmpstr (spot->area, ==, rows[i].area);
    }
}

/* What the store says is no “there is no such place”. */
static void
test_store_error (void)
{
  static const char *const texts[] = { "Tannery Row", "41.25, -74.5", "Nowhere" };
  g_autoptr (HsOpsTest) test = start ();
  HsStore *store = hs_book_get_store (test->book);

  hs_ops_test_run (test, "PRAGMA legacy_alter_table = ON; ALTER TABLE area RENAME TO gone");
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      char *id = NULL;

      g_assert_null (hs_spot_find (test->book, texts[i], &error));
      g_assert_nonnull (error);
      g_assert_false (g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND));
      g_clear_error (&error);
      g_assert_false (hs_spot_area_id (store, texts[i], &id, &error));
      g_assert_cmpint ((int) error->domain, ==, (int) HS_STORE_ERROR);
      g_assert_null (id);
    }
}

/* The first time it is named it becomes an area; then it is that one in any spelling. */
static void
test_area_id (void)
{
  static const struct
  {
    const char *text;
    const char *id;
  } rows[] = {
    { "T", "T" },
    { "Nowhere", "Nowhere" },
    { "41.25, -74.5", "41.25000,-74.50000" },
    { "geo:41.25,-74.50", "41.25000,-74.50000" },
    { "41.25000,-74.50000", "41.25000,-74.50000" },
  };
  g_autoptr (HsOpsTest) test = start ();
  HsStore *store = hs_book_get_store (test->book);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, HS_OPS_TEST_NOW, &error));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = NULL;

      g_assert_true (hs_spot_area_id (store, rows[i].text, &id, &error));
      g_assert_cmpstr (id, ==, rows[i].id);
    }
  {
    char *id = NULL;

    g_assert_false (hs_spot_area_id (store, "95, 10", &id, &error));
    g_assert_null (id);
    g_clear_error (&error);
  }
  g_assert_true (hs_store_commit (store, &error));
  hs_ops_test_one (test, "area WHERE id = '41.25000,-74.50000' AND lat = 41.25 AND lon = -74.5");
  {
    g_autoptr (HsSpot) spot = hs_spot_find (test->book, "41.25,-74.5", &error);

    g_assert_cmpstr (spot->area, ==, "41.25000,-74.50000");
  }
}

/* A position stands where the code of an area would: in files, on the call slip, as the base. */
static void
test_positions_as_areas (void)
{
  g_autoptr (HsOpsTest) test = start ();
  g_autoptr (GError) error = NULL;
  g_autofree char *job = NULL;
  g_autofree char *base = NULL;
  HsCallSlip slip = { .phone = "555-0177", .name = "Odo Wren", .words = "hums", .area = "41.5 N 74.25 W",
                      .window_from = -1, .window_to = -1 };

  hs_ops_test_import_ok (test, "suppliers", "name,area\nFar Counter,\"41.25, -74.5\"\n", 1, 0, 0);
  hs_ops_test_one (test, "supplier WHERE name = 'Far Counter' AND area_id = '41.25000,-74.50000'");
  job = hs_call_take (test->book, &slip, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  hs_ops_test_one (test, "job WHERE area_id = '41.50000,-74.25000'");
  hs_ops_test_one (test, "customer WHERE name = 'Odo Wren' AND area_id = '41.50000,-74.25000'");
  g_assert_true (hs_settings_set (test->book, "base_area", "geo:41.125,-74.5", HS_OPS_TEST_NOW, &error));
  base = hs_settings_dup (test->book, "base_area", &error);
  g_assert_cmpstr (base, ==, "41.12500,-74.50000");
  g_assert_false (hs_settings_set (test->book, "base_area", "geo:95,0", HS_OPS_TEST_NOW, &error));
  hs_ops_test_refused (&error, "base_area: ");
}

static void
test_area_file (void)
{
  g_autoptr (HsOpsTest) test = start ();

  hs_ops_test_import_ok (test, "areas", "code,name,position\nO,Old Market,\"geo:41.3,-74.6\"\n", 0, 0, 1);
  hs_ops_test_import_ok (test, "areas", "code,name,position\nO,Old Market,41°18'N 74°36'W\nS,Sedge End,\n", 0, 0, 2);
  hs_ops_test_import_ok (test, "areas", "code,name,position\nO,Old Market,\"41.4, -74.6\"\n", 0, 1, 0);
  hs_ops_test_one (test, "area WHERE id = 'O' AND lat = 41.4 AND lon = -74.6");
  hs_ops_test_import_bad (test, "areas", "code,name,position\nO,Old Market,\"41.4, 274.6\"\n",
                          "areas.csv:2: position: “41.4, 274.6”: a longitude lies between -180 and 180\n");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/spot/find", test_find);
  g_test_add_func ("/ops/spot/find-refused", test_find_refused);
  g_test_add_func ("/ops/spot/find-ambiguous", test_find_ambiguous);
  g_test_add_func ("/ops/spot/store-error", test_store_error);
  g_test_add_func ("/ops/spot/area-id", test_area_id);
  g_test_add_func ("/ops/spot/positions-as-areas", test_positions_as_areas);
  g_test_add_func ("/ops/spot/area-file", test_area_file);
  return g_test_run ();
}
