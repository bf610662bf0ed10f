// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What of a book stands on a map: everything with a position, once, with the code by which the book takes it. */

#include "hs-map-place.h"

#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <math.h>

typedef struct
{
  HsMapKind kind;
  const char *code;
  const char *name;
  double latitude;
  double longitude;
} Wanted;

static HsOpsTest *
start (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  return test;
}

static void
assert_places (HsOpsTest *test, const Wanted *wanted, guint n)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) places = hs_map_places (test->book, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (places->len, ==, n);
  for (guint i = 0; i < n; i++)
    {
      const HsMapPlace *place = g_ptr_array_index (places, i);

      g_assert_cmpint (place->kind, ==, wanted[i].kind);
      g_assert_cmpstr (place->code, ==, wanted[i].code);
      g_assert_cmpstr (place->name, ==, wanted[i].name);
      g_assert_cmpfloat_with_epsilon (place->latitude, wanted[i].latitude, 1e-9);
      g_assert_cmpfloat_with_epsilon (place->longitude, wanted[i].longitude, 1e-9);
    }
}

static void
test_nothing_placed (void)
{
  g_autoptr (HsOpsTest) test = start ();

  assert_places (test, NULL, 0);
}

static void
test_all_kinds (void)
{
  static const Wanted wanted[] = {
    { HS_MAP_BASE, "O", "Old Market", 41.3, -74.6 },
    { HS_MAP_AREA, "S", "Sedge End", 41.15, -74.2 },
    { HS_MAP_COUNTER, "O", "Brine Street Parts", 41.3, -74.6 },
    { HS_MAP_COUNTER, "41.25000,-74.50000", "Lock Parts", 41.25, -74.5 },
    { HS_MAP_COUNTER, "41.25000,-74.50000", "Lock Tires", 41.25, -74.5 },
    { HS_MAP_CUSTOMER, "41.10000,-74.10000", "Iris Fenn", 41.1, -74.1 },
    { HS_MAP_CUSTOMER, "41.20000,-74.30000", "Ivo Fenn", 41.2, -74.3 },
  };
  g_autoptr (HsOpsTest) test = start ();
  g_autoptr (GError) error = NULL;

  hs_ops_test_import_ok (test, "areas", "code,name,position\nO,Old Market,\"41.3, -74.6\"\nS,Sedge End,\n", 2, 0, 0);
  hs_ops_test_import_ok (test, "customers",
                         "name,phone,street,area,lat,lon\nIris Fenn,555-0190,4 Quay Street,S,41.1,-74.1\n"
                         "Ivo Fenn,555-0191,40 Quay Street,S,41.2,-74.3\nAda Stane,555-0192,7 Kiln Road,O,,\n",
                         3, 0, 0);
  /* The area of the second and third is nothing but their position; the fourth has none. */
  hs_ops_test_import_ok (test, "suppliers",
                         "name,area\nBrine Street Parts,O\nLock Parts,\"geo:41.25,-74.5\"\n"
                         "Lock Tires,\"41.25, -74.5\"\nNowhere Parts,\n", 4, 0, 0);
  g_assert_true (hs_settings_set (test->book, "base_area", "O", HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  assert_places (test, wanted, G_N_ELEMENTS (wanted));
}

/* A base that is a position stays on the map beside the counter there. */
static void
test_base_is_a_position (void)
{
  static const Wanted wanted[] = {
    { HS_MAP_BASE, "41.25000,-74.50000", "41.25000,-74.50000", 41.25, -74.5 },
    { HS_MAP_COUNTER, "41.25000,-74.50000", "Lock Parts", 41.25, -74.5 },
  };
  g_autoptr (HsOpsTest) test = start ();
  g_autoptr (GError) error = NULL;

  hs_ops_test_import_ok (test, "suppliers", "name,area\nLock Parts,\"41.25, -74.5\"\n", 1, 0, 0);
  g_assert_true (hs_settings_set (test->book, "base_area", "geo:41.25,-74.5", HS_OPS_TEST_NOW, &error));
  g_assert_no_error (error);
  assert_places (test, wanted, G_N_ELEMENTS (wanted));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/map-place/nothing-placed", test_nothing_placed);
  g_test_add_func ("/map-place/all-kinds", test_all_kinds);
  g_test_add_func ("/map-place/base-is-a-position", test_base_is_a_position);
  return g_test_run ();
}
