// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Windows against the customer's hours and against the clock: what exists, and what is taken but noted. */

#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-log-row.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-reach.h"

#define FIELD "window_outside_reach"

static HsOpsTest *
start (const char *from, const char *to)
{
  HsOpsTest *test = hs_ops_test_open ();
  g_autofree char *csv = g_strdup_printf ("name,phone,reach_from,reach_to\nNadira Quell,555-0117,%s,%s\n", from, to);

  hs_ops_test_import_ok (test, "customers", csv, 1, 0, 0);
  return test;
}

static char *
take (HsOpsTest *test, const char *job_id, const char *day, int from, int to)
{
  HsCallSlip slip
      = { .job_id = job_id, .phone = "555-0117", .words = "hums", .window_from = from, .window_to = to };
  g_autoptr (GError) error = NULL;
  char *id;

  g_assert_true (hs_date_parse (day, &slip.day, NULL));
  id = hs_call_take (test->book, &slip, HS_OPS_TEST_NOW, &error);
  g_assert_no_error (error);
  return id;
}

/* The last note in the log about this job; %NULL if there is none. */
static char *
note_of (HsOpsTest *test, const char *job_id, guint *ret_count)
{
  g_autoptr (GPtrArray) rows = NULL;
  char *note = NULL;

  *ret_count = 0;
  g_assert_true (hs_log_row_list_of (hs_book_get_store (test->book), "job", job_id, &rows, NULL));
  for (guint i = 0; i < rows->len; i++)
    {
      const HsLogRow *row = g_ptr_array_index (rows, i);

      if (g_strcmp0 (row->field, FIELD) != 0)
        continue;
      g_assert_cmpint (row->at, ==, HS_OPS_TEST_NOW);
      g_assert_cmpstr (row->act, ==, "changed");
      g_free (note);
      note = g_strdup (row->became);
      (*ret_count)++;
    }
  return note;
}

typedef struct
{
  const char *from;
  const char *to;
  int window_from;
  int window_to;
  const char *note; /* NULL: inside */
} Reach;

/* The ends count as reachable; one end may be open; no hours at all mean any hour. */
static const Reach reaches[] = {
  { "14:00", "20:00", 840, 1200, NULL },
  { "14:00", "20:00", 900, 1020, NULL },
  { "14:00", "20:00", 839, 1020,
    "13:59 to 17:00 is outside the hours at which Nadira Quell can be reached, 14:00 to 20:00" },
  { "14:00", "20:00", 900, 1201,
    "15:00 to 20:01 is outside the hours at which Nadira Quell can be reached, 14:00 to 20:00" },
  { "14:00", "20:00", 480, 600,
    "08:00 to 10:00 is outside the hours at which Nadira Quell can be reached, 14:00 to 20:00" },
  { "14:00", "", 900, 1440, NULL },
  { "14:00", "", 0, 900,
    "00:00 to 15:00 is outside the hours at which Nadira Quell can be reached, 14:00 to 24:00" },
  { "", "12:00", 0, 720, NULL },
  { "", "12:00", 660, 780,
    "11:00 to 13:00 is outside the hours at which Nadira Quell can be reached, 00:00 to 12:00" },
  { "", "", 0, 1440, NULL },
  { "00:00", "24:00", 0, 1440, NULL },
  { "10:30", "10:30", 630, 630, NULL },
  /* Half a window: only what was said can lie outside. */
  { "14:00", "20:00", 840, -1, NULL },
  { "14:00", "20:00", -1, 1200, NULL },
  { "14:00", "", -1, 1440, NULL },
  { "14:00", "20:00", 1260, -1,
    "after 21:00 is outside the hours at which Nadira Quell can be reached, 14:00 to 20:00" },
  { "14:00", "20:00", -1, 780,
    "by 13:00 is outside the hours at which Nadira Quell can be reached, 14:00 to 20:00" },
};

static void
test_reach (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (reaches); i++)
    {
      const Reach *row = &reaches[i];
      g_autoptr (HsOpsTest) test = start (row->from, row->to);
      g_autofree char *id = take (test, NULL, "2026-03-11", row->window_from, row->window_to);
      guint count;
      g_autofree char *note = note_of (test, id, &count);

      g_assert_cmpstr (note, ==, row->note);
      g_assert_cmpuint (count, ==, row->note != NULL);
      g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 1);
    }
}

/* The hours are those of the wall: on the days of the clock changes too. */
static void
test_reach_on_change_days (void)
{
  static const struct
  {
    const char *day;
    int from;
    int to;
    gboolean noted;
  } rows[] = {
    { "2026-03-08", 840, 1200, FALSE }, { "2026-03-08", 839, 900, TRUE },  { "2026-11-01", 840, 1200, FALSE },
    { "2026-11-01", 1100, 1201, TRUE }, { "2026-11-01", 839, 1200, TRUE }, { "2026-03-07", 840, 1200, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = start ("14:00", "20:00");
      g_autofree char *id = take (test, NULL, rows[i].day, rows[i].from, rows[i].to);
      guint count;
      g_autofree char *note = note_of (test, id, &count);

      g_assert_true ((note != NULL) == rows[i].noted);
    }
}

/* Every choice of a window is a choice; writing the slip again is none. */
static void
test_logged_once (void)
{
  g_autoptr (HsOpsTest) test = start ("14:00", "20:00");
  g_autofree char *id = take (test, NULL, "2026-03-11", 480, 600);
  g_autofree char *same = take (test, id, "2026-03-11", 480, 600);
  guint count;
  g_autofree char *first = note_of (test, id, &count);

  g_assert_cmpstr (same, ==, id);
  g_assert_cmpuint (count, ==, 1);
  g_autofree char *other = take (test, id, "2026-03-11", 500, 600);
  g_autofree char *second = note_of (test, id, &count);
  g_assert_cmpuint (count, ==, 2);
  g_assert_true (g_str_has_prefix (second, "08:20 to 10:00"));
  g_autofree char *good = take (test, id, "2026-03-11", 900, 960);
  g_autofree char *third = note_of (test, id, &count);
  g_assert_cmpuint (count, ==, 2);
  g_autofree char *none = take (test, id, "2026-03-11", -1, -1);
  g_autofree char *fourth = note_of (test, id, &count);
  g_assert_cmpuint (count, ==, 2);
}

/* What a file promises outside the hours is taken, told and logged; told only when it changes something. */
static void
test_import_notes (void)
{
  static const char file[] = "number,customer_phone,words,day,window_from,window_to\n"
                             "A-0001,555-0117,hums,2026-03-11,08:00,10:00\n"
                             "A-0002,555-0117,hums,2026-03-11,14:00,16:00\n"
                             "A-0003,555-0117,hums,,,\n";
  g_autoptr (HsOpsTest) test = start ("14:00", "20:00");
  g_autoptr (HsImportReport) report = NULL;
  g_autoptr (HsImportReport) again = NULL;
  g_autoptr (HsImportReport) moved = NULL;
  g_autofree char *id = NULL;
  guint count;

  g_assert_true (hs_ops_test_import (test, "jobs", file, &report, NULL));
  g_assert_cmpuint (report->notes->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (report->notes, 0), ==,
                   "jobs.csv:2: window_from: 08:00 to 10:00 is outside the hours at which Nadira Quell can be reached, "
                   "14:00 to 20:00");
  id = hs_job_find (test->book, "A-0001", NULL);
  g_autofree char *note = note_of (test, id, &count);
  g_assert_cmpuint (count, ==, 1);
  g_assert_true (g_str_has_prefix (note, "08:00 to 10:00"));
  g_assert_true (hs_ops_test_import (test, "jobs", file, &again, NULL));
  g_assert_cmpuint (again->notes->len, ==, 0);
  g_assert_cmpuint (again->unchanged, ==, 3);
  g_assert_true (hs_ops_test_import (test, "jobs",
                                     "number,customer_phone,words,day,window_from,window_to\n"
                                     "A-0002,555-0117,hums,2026-03-11,20:00,21:00\n",
                                     &moved, NULL));
  g_assert_cmpuint (moved->notes->len, ==, 1);
  g_assert_cmpuint (moved->changed, ==, 1);
}

/* Nothing is noted of what was not saved. */
static void
test_refused_file_has_no_notes (void)
{
  g_autoptr (HsOpsTest) test = start ("14:00", "20:00");
  g_autoptr (HsImportReport) report = NULL;
  g_autofree char *faults = NULL;

  g_assert_false (hs_ops_test_import (test, "jobs",
                                      "number,customer_phone,words,day,window_from,window_to\n"
                                      "A-0001,555-0117,hums,2026-03-11,08:00,10:00\n"
                                      "A-0002,555-0199,hums,,,\n",
                                      &report, &faults));
  g_assert_cmpuint (report->notes->len, ==, 0);
  g_assert_cmpuint (report->faults->len, ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "change_log WHERE field = '" FIELD "'"), ==, 0);
}

typedef struct
{
  const char *day;
  int from;
  int to;
  const char *said;
} Refused;

/* 02:00 to 03:00 of March 8 is skipped; a window neither starts nor ends there, nor before it starts; nor does
 * half of one. */
static const Refused refused[] = {
  { "2026-03-08", 120, 300, "02:00 does not exist on that day; clocks go forward then" },
  { "2026-03-08", 150, 300, "02:30 does not exist on that day; clocks go forward then" },
  { "2026-03-08", 60, 179, "02:59 does not exist on that day; clocks go forward then" },
  { "2026-03-08", 130, 170, "02:10 does not exist" },
  { "2026-03-11", 600, 599, "The window ends before it starts" },
  { "2026-03-11", 1440, 0, "The window ends before it starts" },
  { "2026-03-08", 150, -1, "02:30 does not exist on that day; clocks go forward then" },
  { "2026-03-08", -1, 150, "02:30 does not exist on that day; clocks go forward then" },
};

static void
test_refused (void)
{
  g_autoptr (HsOpsTest) test = start ("", "");
  gint64 seen = hs_ops_test_count (test, "change_log");

  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      HsCallSlip slip = { .phone = "555-0117",
                          .words = "hums",
                          .window_from = refused[i].from,
                          .window_to = refused[i].to };
      g_autoptr (GError) error = NULL;

      g_assert_true (hs_date_parse (refused[i].day, &slip.day, NULL));
      g_assert_null (hs_call_take (test->book, &slip, HS_OPS_TEST_NOW, &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      hs_ops_test_refused (&error, refused[i].said);
      g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
    }
}

/* A clock time of a day as UTC, by the offset that New York has then; the repeated hour is the first one. */
static void
test_instants (void)
{
  static const struct
  {
    const char *day;
    int minutes;
    const char *utc;
  } rows[] = {
    { "2026-03-07", 0, "2026-03-07T05:00:00Z" },    { "2026-03-08", 119, "2026-03-08T06:59:00Z" },
    { "2026-03-08", 180, "2026-03-08T07:00:00Z" },  { "2026-03-08", 1440, "2026-03-09T04:00:00Z" },
    { "2026-03-10", 525, "2026-03-10T12:45:00Z" },  { "2026-11-01", 60, "2026-11-01T05:00:00Z" },
    { "2026-11-01", 119, "2026-11-01T05:59:00Z" },  { "2026-11-01", 120, "2026-11-01T07:00:00Z" },
    { "2026-11-01", 1440, "2026-11-02T05:00:00Z" }, { "2026-12-31", 1440, "2027-01-01T05:00:00Z" },
  };
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("America/New_York");

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *utc = NULL;
      HsInstant instant = HS_INSTANT_NONE;
      HsDate day;

      g_assert_true (hs_date_parse (rows[i].day, &day, NULL));
      g_assert_true (hs_reach_instant (zone, day, rows[i].minutes, &instant, &error));
      g_assert_no_error (error);
      utc = hs_instant_format (instant);
      g_assert_cmpstr (utc, ==, rows[i].utc);
    }
}

/* Where the skipped hour is the one after midnight, the day before may still end at 24:00. */
static void
test_gap_at_midnight (void)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier ("Asia/Beirut");
  HsDate day = hs_date_from_ymd (2026, 3, 29);
  HsInstant instant = 17;
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (zone);
  g_assert_false (hs_reach_instant (zone, day, 0, &instant, &error));
  hs_ops_test_refused (&error, "00:00 does not exist");
  g_assert_cmpint (instant, ==, 17);
  g_assert_true (hs_reach_instant (zone, day, 60, &instant, &error));
  g_assert_no_error (error);
  g_assert_true (hs_reach_instant (zone, day - 1, 1439, &instant, &error));
  g_assert_no_error (error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reach/reach", test_reach);
  g_test_add_func ("/reach/change-days", test_reach_on_change_days);
  g_test_add_func ("/reach/logged-once", test_logged_once);
  g_test_add_func ("/reach/import-notes", test_import_notes);
  g_test_add_func ("/reach/refused-file", test_refused_file_has_no_notes);
  g_test_add_func ("/reach/refused", test_refused);
  g_test_add_func ("/reach/instants", test_instants);
  g_test_add_func ("/reach/gap-at-midnight", test_gap_at_midnight);
  return g_test_run ();
}
