// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Making and opening books, and what they know beside their rows. */

#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"
#include "hs-store-error.h"

#include <glib/gstdio.h>
#include <string.h>

static void
test_new (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  const HsCheck *check;
  guint n_checks = 0;

  while ((check = hs_checks_get_nth (hs_book_get_checks (test->book), n_checks)) != NULL)
    {
      g_autofree char *where = g_strdup_printf ("check_kind WHERE id = '%s' AND unit = '%s' AND decimals = %u",
                                                check->id, check->unit, check->decimals);

      g_assert_cmpint (hs_ops_test_count (test, where), ==, 1);
      n_checks++;
    }
  g_assert_cmpuint (n_checks, >, 20);
  g_assert_cmpint (hs_ops_test_count (test, "check_kind"), ==, n_checks);
  g_assert_cmpint (hs_ops_test_count (test, "van WHERE letter = 'A' AND next_number = 1"), ==, 1);
  g_assert_cmpstr (hs_book_get_currency (test->book), ==, "USD");
  g_assert_cmpstr (g_time_zone_get_identifier (hs_book_get_zone (test->book)), ==, "America/New_York");
  g_assert_false (hs_book_is_read_only (test->book));
}

/* What the demo's readings are taken with. */
static void
test_checks (void)
{
  static const struct
  {
    const char *id;
    const char *unit;
    HsCheckEntry entry;
  } rows[] = {
    { "battery_rest", "V", HS_CHECK_NUMBER },   { "battery_strength", "A", HS_CHECK_NUMBER },
    { "cranking", "V", HS_CHECK_NUMBER },       { "charging", "V", HS_CHECK_NUMBER },
    { "charging_output", "A", HS_CHECK_PAIR },  { "sleeping_draw", "A", HS_CHECK_NUMBER },
    { "glow_plug", "ohm", HS_CHECK_NUMBER },    { "pad_left", "mm", HS_CHECK_NUMBER },
    { "fuel_water", "ml", HS_CHECK_NUMBER },    { "cooling_pressure_lost", "bar", HS_CHECK_NUMBER },
    { "relay_feed", "V", HS_CHECK_NUMBER },     { "starts_good", "count", HS_CHECK_PAIR },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsCheck *check = hs_checks_lookup (hs_book_get_checks (test->book), rows[i].id);

      g_assert_nonnull (check);
      g_assert_cmpstr (check->unit, ==, rows[i].unit);
      g_assert_cmpint (check->entry, ==, rows[i].entry);
    }
}

static void
test_refuses_zone (void)
{
  static const char *const zones[] = { "Mars/Olympus", "", "EST5EDT junk" };
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();

  for (gsize i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_book_new (test->path, zones[i], &test->user, &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      g_assert_false (g_file_test (test->path, G_FILE_TEST_EXISTS));
    }
}

static void
test_refuses_to_overwrite (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  g_assert_true (g_file_set_contents (test->path, "mine", -1, NULL));
  g_assert_null (hs_book_new (test->path, "UTC", &test->user, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_REFUSED);
  g_assert_true (g_file_get_contents (test->path, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "mine");
}

static void
test_refuses_missing_folder (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();
  g_autofree char *path = g_build_filename (test->folder, "nowhere", "a.hsbook", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_book_new (path, "UTC", &test->user, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
}

static void
test_reopens (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  GError *error = NULL;

  g_assert_true (hs_settings_set (test->book, "zone", "Europe/Berlin", HS_OPS_TEST_NOW, &error));
  g_assert_true (hs_settings_set (test->book, "currency", "EUR", HS_OPS_TEST_NOW, &error));
  g_assert_cmpstr (g_time_zone_get_identifier (hs_book_get_zone (test->book)), ==, "Europe/Berlin");
  g_clear_pointer (&test->book, hs_book_close);
  test->book = hs_book_open (test->path, HS_BOOK_WRITE, &test->user, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (g_time_zone_get_identifier (hs_book_get_zone (test->book)), ==, "Europe/Berlin");
  g_assert_cmpstr (hs_book_get_currency (test->book), ==, "EUR");
}

/* Opening for reading writes nothing at all. */
static void
test_reads_only (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;
  gint64 seen;

  g_clear_pointer (&test->book, hs_book_close);
  seen = hs_ops_test_count (test, "change_log");
  test->book = hs_book_open (test->path, HS_BOOK_READ, &test->user, &error);
  g_assert_no_error (error);
  g_assert_false (hs_settings_set (test->book, "spare_minutes", "10", HS_OPS_TEST_NOW, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY);
  g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
}

static void
test_refuses_foreign (void)
{
  static const char *const texts[] = { "", "This is no book." };
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;

      g_assert_true (g_file_set_contents (test->path, texts[i], -1, NULL));
      g_assert_null (hs_book_open (test->path, HS_BOOK_WRITE, &test->user, &error));
      g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_A_BOOK);
      g_assert_true (g_file_get_contents (test->path, &text, NULL, NULL));
      g_assert_cmpstr (text, ==, texts[i]);
    }
}

static void
test_refuses_missing (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_folder ();
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_book_open (test->path, HS_BOOK_WRITE, &test->user, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
  g_assert_false (g_file_test (test->path, G_FILE_TEST_EXISTS));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/book/new", test_new);
  g_test_add_func ("/book/checks", test_checks);
  g_test_add_func ("/book/refuses-zone", test_refuses_zone);
  g_test_add_func ("/book/refuses-to-overwrite", test_refuses_to_overwrite);
  g_test_add_func ("/book/refuses-missing-folder", test_refuses_missing_folder);
  g_test_add_func ("/book/reopens", test_reopens);
  g_test_add_func ("/book/reads-only", test_reads_only);
  g_test_add_func ("/book/refuses-foreign", test_refuses_foreign);
  g_test_add_func ("/book/refuses-missing", test_refuses_missing);
  return g_test_run ();
}
