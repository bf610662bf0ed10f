// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long a part is covered and how that is said, and what each place that can be disturbed brings onto the list. */

#include "ops-repair.h"

#include <string.h>

/* Every end reckoned by hand. The vehicle showed 61,000 on 2026-01-19. With 63,000 on 2026-03-10 it is driven 40 a day,
 * so that 12,000 take 300 days and 4,000 take 100; 61,500 after 22 days say nothing; 61,000 after 50 stand still. In
 * kilometers 12,000 miles are 19,312, and 39,000 km in 50 days are 780 a day: 24 days. */
static const struct
{
  const char *on;
  int months;
  gint64 miles;
  gint64 odometer;
  gboolean kilometers;
  const char *until;
  gint64 last;
  const char *expected;
  const char *said;
} covers[] = {
  { "2026-03-10", 24, 12000, 63000, FALSE, "2028-03-10", 75000, "2027-01-04",
    "Covered to March 10, 2028 or 75,000 miles on the odometer, whichever comes first." },
  { "2026-03-10", 6, 12000, 63000, FALSE, "2026-09-10", 75000, "2026-09-10",
    "Covered to September 10, 2026 or 75,000 miles on the odometer, whichever comes first." },
  { "2026-03-10", 0, 4000, 63000, FALSE, "", 67000, "2026-06-18", "Covered to 67,000 miles on the odometer." },
  { "2026-03-10", 12, 12000, 0, FALSE, "2027-03-10", -1, "2027-03-10",
    "Covered to March 10, 2027 or 12,000 miles from that day on, whichever comes first." },
  { "2026-03-10", 0, 12000, 0, FALSE, "", -1, "", "Covered to 12,000 miles from that day on." },
  { "2026-03-10", 12, 12000, 61000, FALSE, "2027-03-10", 73000, "2027-03-10",
    "Covered to March 10, 2027 or 73,000 miles on the odometer, whichever comes first." },
  { "2026-03-10", 0, 12000, 61000, FALSE, "", 73000, "", "Covered to 73,000 miles on the odometer." },
  { "2026-02-10", 12, 100, 61500, FALSE, "2027-02-10", 61600, "2027-02-10",
    "Covered to February 10, 2027 or 61,600 miles on the odometer, whichever comes first." },
  { "2026-02-10", 0, 100, 61500, FALSE, "", 61600, "", "Covered to 61,600 miles on the odometer." },
  { "2026-03-10", 0, 12000, 100000, TRUE, "", 119312, "2026-04-03", "Covered to 119,312 kilometers on the odometer." },
  { "2026-03-10", 3, 12000, 0, TRUE, "2026-06-10", -1, "2026-06-10",
    "Covered to June 10, 2026 or 19,312 kilometers from that day on, whichever comes first." },
  { "2026-03-10", 1, 500, 63000, FALSE, "2026-04-10", 63500, "2026-03-22",
    "Covered to April 10, 2026 or 63,500 miles on the odometer, whichever comes first." },
  /* The ends of months. */
  { "2026-01-31", 1, 0, 0, FALSE, "2026-02-28", -1, "2026-02-28", "Covered to February 28, 2026." },
  { "2024-01-31", 1, 0, 0, FALSE, "2024-02-29", -1, "2024-02-29", "Covered to February 29, 2024." },
  { "2026-08-31", 6, 0, 0, FALSE, "2027-02-28", -1, "2027-02-28", "Covered to February 28, 2027." },
  { "2027-08-31", 6, 0, 0, FALSE, "2028-02-29", -1, "2028-02-29", "Covered to February 29, 2028." },
  { "2028-02-29", 12, 0, 0, FALSE, "2029-02-28", -1, "2029-02-28", "Covered to February 28, 2029." },
  { "2024-02-29", 48, 0, 0, FALSE, "2028-02-29", -1, "2028-02-29", "Covered to February 29, 2028." },
  { "2026-12-31", 2, 0, 0, FALSE, "2027-02-28", -1, "2027-02-28", "Covered to February 28, 2027." },
  { "2026-10-31", 1, 0, 0, FALSE, "2026-11-30", -1, "2026-11-30", "Covered to November 30, 2026." },
  { "2026-03-10", 0, 0, 63000, FALSE, "", -1, "", "No cover was agreed." },
  { "2026-03-10", 0, 0, 0, FALSE, "", -1, "", "No cover was agreed." },
};

static HsDate
date_of (const char *text)
{
  HsDate date = HS_DATE_NONE;

  g_assert_true (*text == '\0' || hs_date_parse (text, &date, NULL));
  return date;
}

static void
test_cover (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (covers); i++)
    {
      g_auto (Bay) bay = bay_start ();
      const HsInstallEntry entry = { .what = "wiper motor", .why = "due", .warranty_months = covers[i].months,
                                     .warranty_millimiles = covers[i].miles * 1000,
                                     .odometer = covers[i].odometer };
      g_autofree char *at = g_strdup_printf ("%sT08:00", covers[i].on);
      g_autofree char *id = NULL;
      g_autoptr (HsRepair) repair = NULL;
      g_autoptr (GError) error = NULL;
      const HsFittedPart *part;

      if (covers[i].kilometers)
        hs_ops_test_run (bay.test, "UPDATE vehicle SET odometer_unit = 'km'");
      id = hs_part_install (bay.book, bay.job, &entry, hs_ops_test_at (at), &error);
      g_assert_no_error (error);
      repair = bay_load (&bay);
      part = g_ptr_array_index (repair->parts, 0);
      g_assert_cmpstr (part->cover, ==, covers[i].said);
      g_assert_cmpint (part->cover_until, ==, date_of (covers[i].until));
      g_assert_cmpint (part->cover_odometer, ==, covers[i].last);
      g_assert_cmpint (part->cover_expected, ==, date_of (covers[i].expected));
      g_assert_cmpint (part->cover_from, ==,
                       covers[i].months + covers[i].miles > 0 ? date_of (covers[i].on) : HS_DATE_NONE);
    }
}

/* When a battery was made, and nothing but a battery. */
static void
test_made (void)
{
  static const struct
  {
    const char *what;
    const char *code;
    const char *made;
  } rows[] = {
    { "battery 55 Ah", "C5", "March 2025" },
    { "battery 55 Ah", "5C", "March 2025" },
    { "battery 55 Ah", "03/25", "March 2025" },
    { "battery 55 Ah", "0126", "January 2026" },
    { "battery 55 Ah", "24C", "March 2024" },
    { "battery 55 Ah", "J5", "September 2025 or October 2025" },
    { "battery 55 Ah", "made somewhere", NULL },
    { "battery 55 Ah", "99", NULL },
    { "battery 55 Ah", "1326", NULL },
    { "battery 55 Ah", "A6", "January 2026" },
    { "battery 55 Ah", "a 6", "January 2026" },
    { "battery 55 Ah", "H5", "August 2025" },
    { "battery 55 Ah", "02-26", "February 2026" },
    { "battery 55 Ah", NULL, NULL },
    { "alternator", "C5", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      const HsInstallEntry entry = { .what = rows[i].what, .why = "due", .date_stamp = rows[i].code };
      g_autofree char *id = bay_fit (&bay, &entry);
      g_autoptr (HsRepair) repair = bay_load (&bay);
      const HsFittedPart *part = g_ptr_array_index (repair->parts, 0);

      g_assert_cmpstr (part->id, ==, id);
      g_assert_cmpstr (part->date_stamp, ==, rows[i].code);
      g_assert_cmpstr (part->made, ==, rows[i].made);
    }
}

/* In the order in which they are picked by their number: how many lines each brings. */
static void
test_places (void)
{
  static const struct
  {
    const char *id;
    guint n_lines;
    guint n_calls;
  } rows[] = {
    { "battery", 5, 0 }, { "relay", 2, 0 },   { "joint", 2, 0 },    { "plug", 2, 0 },   { "belt", 3, 0 },
    { "wheel", 2, 1 },   { "brakes", 4, 0 },  { "cooling", 3, 0 },  { "fuel", 2, 0 },   { "airbag", 2, 0 },
    { "starter", 2, 0 }, { "ignition", 2, 0 }, { "air", 2, 0 },     { "oil", 4, 0 },    { "high_voltage", 2, 0 },
    { "panels", 2, 0 },  { "jacked", 2, 0 },
  };
  g_autoptr (HsAfterList) list = hs_data_load_after (NULL);
  g_auto (Bay) bay = bay_start ();
  guint n_lines = 0;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      guint n_added = 0;

      g_assert_cmpstr (hs_after_list_get_nth (list, i)->id, ==, rows[i].id);
      g_assert_true (hs_disturbed_add (bay.book, bay.job, number, NOW, &n_added, NULL));
      g_assert_cmpuint (n_added, ==, rows[i].n_lines);
      g_assert_cmpint (hs_ops_test_count (bay.test, "disturbed"), ==, n_lines += n_added);
      g_assert_false (hs_disturbed_add (bay.book, bay.job, rows[i].id, NOW, NULL, NULL));
    }
  g_assert_null (hs_after_list_get_nth (list, G_N_ELEMENTS (rows)));
  hs_ops_test_one (bay.test, "chase WHERE kind = 'retorque'");
}

/* What became of the old one, and why it went, as they are said. */
static void
test_words (void)
{
  static const struct
  {
    const char *why;
    const char *said;
    const char *old;
    const char *old_id;
  } rows[] = {
    { "due", "the old one was due", "shown", "shown" },
    { "upkeep", "the old one was due", "kept by us", "kept" },
    { "none before", "there was none before", "handed over", "handed_over" },
    { "not known, told", "not known, told", "goes back as a core", "core" },
    { "failed", "the old one failed: worn through", "", NULL },
    { "Worn Through", "the old one failed: worn through", "core", "core" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bay) bay = bay_start ();
      const HsInstallEntry entry = { .what = "hose" };
      g_autofree char *finding = bay_find (&bay, "worn through", "cause", "cured");
      g_autofree char *id = bay_fit (&bay, &entry);
      g_autoptr (HsRepair) repair = NULL;
      const HsFittedPart *part;

      g_assert_true (hs_part_set (bay.book, id, "why", rows[i].why, NOW, NULL));
      g_assert_true (hs_part_set (bay.book, id, "old", rows[i].old, NOW, NULL));
      repair = bay_load (&bay);
      part = g_ptr_array_index (repair->parts, 0);
      g_assert_cmpstr (part->why_said, ==, rows[i].said);
      g_assert_cmpstr (part->old_part, ==, rows[i].old_id);
      g_assert_nonnull (finding);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cover/cover", test_cover);
  g_test_add_func ("/cover/made", test_made);
  g_test_add_func ("/cover/places", test_places);
  g_test_add_func ("/cover/words", test_words);
  return g_test_run ();
}
