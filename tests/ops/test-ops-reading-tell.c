// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a verdict depends on, told after the reading was stored. */

#include "hs-board.h"
#include "hs-job-op.h"
#include "hs-undo.h"
#include "ops-site.h"

#include <string.h>

#define NOW HS_OPS_TEST_NOW

/* (transfer full): the id of a reading that is accepted. */
static char *
measure (OpsSite *site, const char *check, const char *keyed, const char *phase, const char *conditions)
{
  const HsReadingEntry entry
    = { .check = check, .keyed = keyed, .phase = phase, .conditions = conditions, .at = NOW };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job_id, &entry, NOW, &error);

  g_assert_no_error (error);
  return g_strdup (result->id);
}

static void
assert_verdict (OpsSite *site, const char *reading_id, const char *verdict)
{
  g_autoptr (HsJobView) view = hs_job_view_load (site->book, site->job_id, NOW, NULL);

  for (guint i = 0; i < view->readings->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (view->readings, i);

      if (g_str_equal (row->id, reading_id))
        {
          g_assert_cmpstr (row->verdict, ==, verdict);
          return;
        }
    }
  g_assert_not_reached ();
}

static void
tell (OpsSite *site, const char *reading_id, const char *condition, const char *text)
{
  g_autoptr (GError) error = NULL;

  hs_reading_tell (site->book, reading_id, condition, text, NOW, &error);
  g_assert_no_error (error);
}

/* 12.50 V is within for a flooded battery, from 12.40, and low for AGM, from 12.60. */
static void
test_tells (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *reading = NULL;

  ops_site_arrive (&site, "2026-03-10T08:30");
  reading = measure (&site, "battery_rest", "1250", "before", "fan ran; battery_kind:unknown");
  assert_verdict (&site, reading, "cannot_tell");
  tell (&site, reading, "battery_kind", "AGM");
  hs_ops_test_one (site.test, "reading WHERE conditions = 'fan ran; battery_kind:AGM'");
  assert_verdict (&site, reading, "watch");
  tell (&site, reading, "Battery_Kind", "flooded");
  hs_ops_test_one (site.test, "reading WHERE conditions = 'fan ran; battery_kind:flooded'");
  assert_verdict (&site, reading, "within");
  tell (&site, reading, "battery_kind", " ");
  hs_ops_test_one (site.test, "reading WHERE conditions = 'fan ran'");
  assert_verdict (&site, reading, "cannot_tell");
  for (guint i = 0; i < 3; i++)
    g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  hs_ops_test_one (site.test, "reading WHERE conditions = 'fan ran; battery_kind:unknown'");
}

/* The kind of battery is that of the vehicle: told beside one reading, it holds for the others of its phase; after the
 * repair there may be another battery. What is written beside a reading itself comes first. */
static void
test_one_for_all (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autofree char *own = NULL;
  g_autofree char *after = NULL;

  ops_site_arrive (&site, "2026-03-10T08:30");
  first = measure (&site, "battery_rest", "1250", "before", NULL);
  own = measure (&site, "battery_rest", "1250", "before", "battery_kind:AGM");
  second = measure (&site, "battery_rest", "1250", "before", NULL);
  after = measure (&site, "battery_rest", "1250", "after", NULL);
  tell (&site, own, "battery_kind", NULL);
  assert_verdict (&site, second, "cannot_tell");
  tell (&site, first, "battery_kind", "flooded");
  tell (&site, own, "battery_kind", "AGM");
  assert_verdict (&site, second, "within");
  assert_verdict (&site, own, "watch");
  assert_verdict (&site, after, "cannot_tell");
}

static void
test_refused (void)
{
  static const struct
  {
    const char *condition;
    const char *text;
    const char *said;
  } rows[] = {
    { "weather", "wet", "There is no condition “weather”." },
    { "battery_kind", "wooden", "wooden" },
    { "temperature", "500", "500" },
  };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *reading = NULL;
  g_autoptr (GError) error = NULL;

  ops_site_arrive (&site, "2026-03-10T06:30");
  reading = measure (&site, "battery_rest", "1250", "before", NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_false (hs_reading_tell (site.book, reading, rows[i].condition, rows[i].text, NOW, &error));
      g_assert_nonnull (strstr (error->message, rows[i].said));
      g_clear_error (&error);
    }
  g_assert_false (hs_reading_tell (site.book, "none", "battery_kind", "AGM", NOW, &error));
  g_clear_error (&error);
  hs_ops_test_one (site.test, "reading WHERE conditions IS NULL");
  g_free (measure (&site, "charging", "1420", "after", NULL));
  ops_site_square (&site, NOW + 600);
  g_assert_false (hs_reading_tell (site.book, reading, "battery_kind", "AGM", NOW + 700, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading-tell/tells", test_tells);
  g_test_add_func ("/reading-tell/one-for-all", test_one_for_all);
  g_test_add_func ("/reading-tell/refused", test_refused);
  return g_test_run ();
}
