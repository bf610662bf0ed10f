// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Opening hours: the counters of the demo town. */

#include "hs-hours.h"

#include "core-test.h"

#define AT(hour, minute) ((hour) * 60 + (minute))
#define SECONDS(hour, minute) (AT (hour, minute) * 60)

/* Larch & Weir: 08:00–12:30 and 13:15–17:00 on weekdays, Saturday 08:30–12:00; not in order. */
static const HsOpenSpan larch[] = {
  { 2, AT (13, 15), AT (17, 0) }, { 2, AT (8, 0), AT (12, 30) }, { 6, AT (8, 30), AT (12, 0) },
};

static void
test_next_start (void)
{
  static const struct
  {
    int weekday;
    gint64 arrive;
    gint64 stop;
    gint64 start;
  } rows[] = {
    /* An 8-minute stop: arriving 12:22 it is served, 12:23 waits until 13:15. */
    { 2, SECONDS (12, 22), 480, SECONDS (12, 22) },
    { 2, SECONDS (12, 22) + 1, 480, SECONDS (13, 15) },
    { 2, SECONDS (12, 23), 480, SECONDS (13, 15) },
    { 2, SECONDS (13, 0), 480, SECONDS (13, 15) },
    { 2, SECONDS (7, 30), 480, SECONDS (8, 0) },
    { 2, 0, 480, SECONDS (8, 0) },
    { 2, SECONDS (16, 52), 480, SECONDS (16, 52) },
    { 2, SECONDS (16, 53), 480, -1 },
    { 2, SECONDS (17, 0), 480, -1 },
    { 2, SECONDS (17, 0), 0, SECONDS (17, 0) },
    { 2, SECONDS (8, 0), 4 * 3600 + 1800, SECONDS (8, 0) },
    { 2, SECONDS (8, 0), 4 * 3600 + 1801, -1 },
    { 6, SECONDS (8, 0), 480, SECONDS (8, 30) },
    { 6, SECONDS (11, 53), 480, -1 },
    { 7, SECONDS (9, 0), 480, -1 },
    { 1, SECONDS (9, 0), 480, -1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gint64 start = -1;
      gboolean found = hs_hours_next_start (larch, G_N_ELEMENTS (larch), rows[i].weekday, rows[i].arrive, rows[i].stop,
                                            &start);

      g_assert_cmpint (found, ==, rows[i].start >= 0);
      g_assert_cmpint (start, ==, rows[i].start);
    }
}

/* Spans that touch are one: nobody shuts the door at noon to open it at noon. */
static void
test_touching (void)
{
  static const HsOpenSpan spans[] = {
    { 1, AT (12, 0), AT (14, 0) }, { 1, AT (8, 0), AT (10, 0) }, { 1, AT (10, 0), AT (12, 0) },
    { 2, AT (14, 0), AT (20, 0) },
  };
  gint64 start;

  g_assert_true (hs_hours_next_start (spans, G_N_ELEMENTS (spans), 1, SECONDS (9, 55), 600, &start));
  g_assert_cmpint (start, ==, SECONDS (9, 55));
  g_assert_true (hs_hours_next_start (spans, G_N_ELEMENTS (spans), 1, SECONDS (8, 0), 6 * 3600, &start));
  g_assert_cmpint (start, ==, SECONDS (8, 0));
  g_assert_false (hs_hours_next_start (spans, G_N_ELEMENTS (spans), 1, SECONDS (13, 55), 600, &start));
  g_assert_false (hs_hours_next_start (spans, 0, 1, 0, 0, &start));
}

static void
test_check (void)
{
  static const struct
  {
    HsOpenSpan spans[3];
    gsize n_spans;
    const char *words;
  } rows[] = {
    { { { 1, 480, 750 }, { 1, 795, 1020 }, { 2, 480, 750 } }, 3, NULL },
    { { { 1, 480, 750 }, { 1, 750, 1020 } }, 2, NULL },
    { { { 7, 0, 1440 } }, 1, NULL },
    { { { 1, 0, 1 } }, 0, NULL },
    { { { 0, 480, 750 } }, 1, "0 is not a weekday" },
    { { { 8, 480, 750 } }, 1, "8 is not a weekday" },
    { { { 1, 750, 480 } }, 1, "on mon run from 12:30 to 08:00" },
    { { { 2, 480, 480 } }, 1, "on tue run from 08:00 to 08:00" },
    { { { 3, 480, 1441 } }, 1, "on wed run from 08:00 to 24:01" },
    { { { 4, -1, 480 } }, 1, "on thu" },
    { { { 5, 480, 750 }, { 5, 749, 1020 } }, 2, "on fri overlap" },
    { { { 6, 480, 750 }, { 7, 480, 750 }, { 6, 400, 481 } }, 3, "on sat overlap" },
    { { { 1, 480, 750 }, { 1, 480, 750 } }, 2, "overlap" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean accepted = hs_hours_check (rows[i].spans, rows[i].n_spans, &error);

      if (rows[i].words != NULL)
        assert_bad_value (accepted, &error, rows[i].words);
      else
        g_assert_true (accepted);
    }
}

static void
test_format (void)
{
  g_autofree char *tuesday = hs_hours_format (larch, G_N_ELEMENTS (larch), 2);
  g_autofree char *saturday = hs_hours_format (larch, G_N_ELEMENTS (larch), 6);
  g_autofree char *sunday = hs_hours_format (larch, G_N_ELEMENTS (larch), 7);

  g_assert_cmpstr (tuesday, ==, "08:00–12:30, 13:15–17:00");
  g_assert_cmpstr (saturday, ==, "08:30–12:00");
  g_assert_cmpstr (sunday, ==, "shut");
}

static void
test_weekdays (void)
{
  /* ISO 8601 numbers the days from Monday. */
  static const char *const ids[] = { "mon", "tue", "wed", "thu", "fri", "sat", "sun" };
  static const char *const refused[] = { "", "monday", "mo", "1", "mon ", "tues" };
  int weekday;
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      g_autofree char *capitals = g_ascii_strup (ids[i], -1);

      g_assert_true (hs_weekday_parse (ids[i], &weekday, NULL));
      g_assert_cmpint (weekday, ==, (int) i + 1);
      g_assert_cmpstr (hs_weekday_id (weekday), ==, ids[i]);
      g_assert_true (hs_weekday_parse (capitals, &weekday, NULL));
      g_assert_cmpint (weekday, ==, (int) i + 1);
    }
  weekday = 4711;
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    assert_bad_value (hs_weekday_parse (refused[i], &weekday, &error), &error, "write mon, tue, wed");
  g_assert_cmpint (weekday, ==, 4711);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hours/next-start", test_next_start);
  g_test_add_func ("/hours/touching", test_touching);
  g_test_add_func ("/hours/check", test_check);
  g_test_add_func ("/hours/format", test_format);
  g_test_add_func ("/hours/weekdays", test_weekdays);
  return g_test_run ();
}
