// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Days and spans in words; expected values were written by hand from a calendar. */

#include "hs-say.h"

typedef struct
{
  const char *day;
  const char *today;
  const char *text;
} Row;

static HsDate
day_of (const char *text)
{
  HsDate date = HS_DATE_NONE;

  if (text != NULL)
    g_assert_true (hs_date_parse (text, &date, NULL));
  return date;
}

static void
check_rows (const Row *rows, gsize n_rows, char *(*say) (HsDate, HsDate))
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autofree char *text = say (day_of (rows[i].day), day_of (rows[i].today));

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

static void
test_full (void)
{
  static const char *const rows[][3] = {
    { "2023-10-05", "October 5, 2023", "October 2023" },
    { "2024-02-29", "February 29, 2024", "February 2024" },
    { "1999-12-31", "December 31, 1999", "December 1999" },
    { NULL, "", "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *full = hs_say_day_full (day_of (rows[i][0]));
      g_autofree char *month = hs_say_month (day_of (rows[i][0]));

      g_assert_cmpstr (full, ==, rows[i][1]);
      g_assert_cmpstr (month, ==, rows[i][2]);
    }
}

static void
test_short (void)
{
  static const Row rows[] = {
    { "2026-03-12", "2026-03-10", "Mar 12" },
    { "2026-02-24", "2026-03-10", "Feb 24" },
    { "2025-09-11", "2026-03-10", "Sep 11" },
    { "2025-09-10", "2026-03-10", "Sep 10, 2025" },
    { "2023-10-05", "2026-03-10", "Oct 5, 2023" },
    { "2026-05-01", NULL, "May 1, 2026" },
    { NULL, "2026-03-10", "" },
  };

  check_rows (rows, G_N_ELEMENTS (rows), hs_say_day_short);
}

static void
test_left (void)
{
  static const Row rows[] = {
    { "2026-03-09", "2026-03-10", "overdue since Mar 9" },
    { "2026-03-10", "2026-03-10", "last day today" },
    { "2026-03-11", "2026-03-10", "last day tomorrow" },
    { "2026-03-12", "2026-03-10", "2 days left, Mar 12" },
    { "2026-03-17", "2026-03-10", "7 days left, Mar 17" },
    { "2026-03-18", "2026-03-10", "due Mar 18" },
    { "2026-03-29", "2026-03-10", "due Mar 29" },
    { NULL, "2026-03-10", "" },
  };

  check_rows (rows, G_N_ELEMENTS (rows), hs_say_days_left);
}

static void
test_ended (void)
{
  static const Row rows[] = {
    { "2026-03-09", "2026-03-10", "yesterday" },
    { "2026-02-21", "2026-03-10", "17 days ago, on February 21" },
    { "2026-02-07", "2026-03-10", "31 days ago, on February 7" },
    { "2026-02-06", "2026-03-10", "last February" },
    { "2025-10-05", "2026-03-10", "last October" },
    { "2025-04-11", "2026-03-10", "last April" },
    { "2025-04-10", "2026-03-10", "in April 2025" },
    { "2019-07-31", "2026-03-10", "in July 2019" },
    { NULL, "2026-03-10", "" },
  };

  check_rows (rows, G_N_ELEMENTS (rows), hs_say_ended);
}

static void
test_months (void)
{
  static const char *const rows[] = { "less than a month", "1 month", "2 months" };
  g_autofree char *many = hs_say_months (29);
  g_autofree char *before = hs_say_months (-3);

  for (int i = 0; i < (int) G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_say_months (i);

      g_assert_cmpstr (text, ==, rows[i]);
    }
  g_assert_cmpstr (many, ==, "29 months");
  g_assert_cmpstr (before, ==, "less than a month");
}

static void
test_part (void)
{
  static const char *const rows[][2] = {
    { "starter, rebuilt (Orsane Merle 1.6)", "starter" },
    { "rear pads (Tumbrel Carter)", "rear pads" },
    { "battery 55 Ah flooded, Brackwater", "battery 55 Ah flooded" },
    { "glow plug", "glow plug" },
    { "", "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = hs_say_part (rows[i][0]);

      g_assert_cmpstr (text, ==, rows[i][1]);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/say/full", test_full);
  g_test_add_func ("/ops/say/short", test_short);
  g_test_add_func ("/ops/say/left", test_left);
  g_test_add_func ("/ops/say/ended", test_ended);
  g_test_add_func ("/ops/say/months", test_months);
  g_test_add_func ("/ops/say/part", test_part);
  return g_test_run ();
}
