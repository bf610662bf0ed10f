// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How long a part is covered: usual month ends, and the batteries of the demo. */

#include "hs-warranty.h"

#include "core-test.h"

static void
test_last_day (void)
{
  static const struct
  {
    const char *from;
    int months;
    const char *last;
  } rows[] = {
    { "2024-02-29", 12, "2025-02-28" },
    { "2024-08-31", 6, "2025-02-28" },
    { "2026-03-15", 24, "2028-03-15" },
    { "2026-01-31", 1, "2026-02-28" },
    { "2023-10-05", 24, "2025-10-05" },
    { "2023-02-21", 36, "2026-02-21" },
    { "2024-05-14", 36, "2027-05-14" },
    { "2024-05-14", 0, "" },
    { "2024-05-14", -1, "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsWarranty warranty = { day (rows[i].from), rows[i].months, -1, 0 };
      g_autofree char *last = hs_date_format (hs_warranty_last_day (&warranty));

      g_assert_cmpstr (last, ==, rows[i].last);
    }
}

static void
test_last_odometer (void)
{
  static const gint64 rows[][3] = {
    { 81250, 24000, 105250 }, { 0, 12000, 12000 }, { -1, 24000, -1 }, { 81250, 0, -1 }, { 81250, -5, -1 },
    { G_MAXINT64, 1, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsWarranty warranty = { day ("2026-01-01"), 12, rows[i][0], rows[i][1] };

      g_assert_cmpint (hs_warranty_last_odometer (&warranty), ==, rows[i][2]);
    }
}

static void
test_state (void)
{
  static const struct
  {
    int months;
    gint64 start, miles;
    const char *today;
    gint64 odometer;
    HsWarrantyState state;
  } rows[] = {
    /* From 2024-05-14 for 36 months and 24,000 miles at 81,250. */
    { 36, 81250, 24000, "2024-05-14", 81250, HS_WARRANTY_IN_COVER },
    { 36, 81250, 24000, "2027-05-14", 105250, HS_WARRANTY_IN_COVER },
    { 36, 81250, 24000, "2027-05-15", 90000, HS_WARRANTY_ENDED_BY_DATE },
    { 36, 81250, 24000, "2026-05-14", 105251, HS_WARRANTY_ENDED_BY_DISTANCE },
    { 36, 81250, 24000, "2027-05-15", 105251, HS_WARRANTY_ENDED_BY_DATE },
    { 36, 81250, 24000, "2026-05-14", -1, HS_WARRANTY_IN_COVER },
    { 36, -1, 24000, "2026-05-14", 200000, HS_WARRANTY_IN_COVER },
    { 36, 81250, 0, "2026-05-14", 200000, HS_WARRANTY_IN_COVER },
    { 0, 81250, 24000, "2036-05-14", 90000, HS_WARRANTY_IN_COVER },
    { 0, 81250, 24000, "2026-05-14", 105251, HS_WARRANTY_ENDED_BY_DISTANCE },
    { 0, 81250, 0, "2024-05-14", 81250, HS_WARRANTY_NONE },
    { 0, -1, 0, "2024-05-14", -1, HS_WARRANTY_NONE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsWarranty warranty = { day ("2024-05-14"), rows[i].months, rows[i].start, rows[i].miles };

      g_assert_cmpint (hs_warranty_state (&warranty, day (rows[i].today), rows[i].odometer), ==, rows[i].state);
    }
}

/* A battery of 14 May 2024 swapped under warranty on 2 September 2025: cover to 2027-05-14, not 2028-09-02. */
static void
test_swap (void)
{
  HsDate first = day ("2024-05-14");
  HsDate swapped = day ("2025-09-02");
  HsWarranty cover = { hs_warranty_from (swapped, first), 36, -1, 0 };
  HsWarranty naive = { hs_warranty_from (swapped, HS_DATE_NONE), 36, -1, 0 };

  g_assert_cmpint (cover.from, ==, first);
  g_assert_cmpint (naive.from, ==, swapped);
  g_assert_cmpint (hs_warranty_last_day (&cover), ==, day ("2027-05-14"));
  g_assert_cmpint (hs_warranty_last_day (&naive), ==, day ("2028-09-02"));
  /* 2027-05-14 to 2028-09-02: a year and 111 days, with 29 February 2028 in it. */
  g_assert_cmpint (hs_warranty_last_day (&naive) - hs_warranty_last_day (&cover), ==, 477);
}

/* A battery of 21 February 2023 with 36 months: on 10 March 2026 its cover ended 17 days ago. */
static void
test_ended_days_ago (void)
{
  HsWarranty warranty = { day ("2023-02-21"), 36, -1, 0 };

  g_assert_cmpint (day ("2026-03-10") - hs_warranty_last_day (&warranty), ==, 17);
  g_assert_cmpint (hs_warranty_state (&warranty, day ("2026-03-10"), -1), ==, HS_WARRANTY_ENDED_BY_DATE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/warranty/last-day", test_last_day);
  g_test_add_func ("/warranty/last-odometer", test_last_odometer);
  g_test_add_func ("/warranty/state", test_state);
  g_test_add_func ("/warranty/swap", test_swap);
  g_test_add_func ("/warranty/ended-days-ago", test_ended_days_ago);
  return g_test_run ();
}
