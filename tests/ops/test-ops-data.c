// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The data that is compiled in. */

#include <gio/gio.h>

#include "hs-data.h"
#include "hs-ops-private.h"

#define ROUNDS 60
#define LOOKUPS 3000

static void
test_present (void)
{
  static const char *const names[] = {
    "checks/checks.ini", "demo/areas.csv", "demo/story.json", "reference/makers.csv",
  };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) bytes = hs_ops_load_data (names[i], &error);

      g_assert_no_error (error);
      g_assert_cmpuint (g_bytes_get_size (bytes), >, 100);
    }
}

static void
test_absent (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_ops_load_data ("checks/none.ini", &error));
  g_assert_error (error, G_RESOURCE_ERROR, G_RESOURCE_ERROR_NOT_FOUND);
}

static void
test_loaded (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsChecks) checks = hs_data_load_checks (&error);
  g_autoptr (HsReference) reference = hs_data_load_reference (&error);

  g_assert_no_error (error);
  g_assert_nonnull (hs_checks_lookup (checks, "ripple"));
  g_assert_cmpstr (hs_reference_lookup_maker (reference, "JTD")->country, ==, "Japan");
  g_assert_nonnull (hs_reference_lookup_trouble (reference, "P0562"));
  g_assert_nonnull (hs_reference_get_nth_rate (reference, 0));
  g_assert_nonnull (hs_reference_lookup_deposit (reference, "New York"));
}

static gpointer
load_cb (gpointer data)
{
  g_atomic_int_set ((int *) data, 1);
  return hs_ops_load_data ("checks/checks.ini", NULL);
}

/* The window looks for icons in the main thread while the worker opens the first book. */
static void
test_first_use_beside_lookups (void)
{
  if (g_test_subprocess ())
    {
      int started = 0;
      GThread *worker;
      g_autoptr (GBytes) bytes = NULL;

      g_assert_false (g_resources_get_info ("/none", G_RESOURCE_LOOKUP_FLAGS_NONE, NULL, NULL, NULL));
      worker = g_thread_new ("worker", load_cb, &started);
      while (g_atomic_int_get (&started) == 0)
        ;
      for (guint i = 0; i < LOOKUPS; i++)
        g_resources_get_info ("/none", G_RESOURCE_LOOKUP_FLAGS_NONE, NULL, NULL, NULL);
      bytes = g_thread_join (worker);
      g_assert_nonnull (bytes);
      return;
    }
  for (guint i = 0; i < ROUNDS; i++)
    {
      g_test_trap_subprocess (NULL, 0, 0);
      g_test_trap_assert_passed ();
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/data/present", test_present);
  g_test_add_func ("/ops/data/absent", test_absent);
  g_test_add_func ("/ops/data/loaded", test_loaded);
  g_test_add_func ("/ops/data/first-use-beside-lookups", test_first_use_beside_lookups);
  return g_test_run ();
}
