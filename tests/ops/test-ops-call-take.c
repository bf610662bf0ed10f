// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Call slips: who is found, what is added, and what is refused. */

#include "hs-customer-row.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-ops-error.h"
#include "hs-ops-test.h"
#include "hs-vehicle-row.h"

#include <string.h>

#define SLIP(...) ((HsCallSlip) { .day = HS_DATE_NONE, .window_from = -1, .window_to = -1, __VA_ARGS__ })

static char *
take (HsOpsTest *test, HsCallSlip slip)
{
  GError *error = NULL;
  char *id = hs_call_take (test->book, &slip, HS_OPS_TEST_NOW, &error);

  g_assert_no_error (error);
  g_assert_nonnull (id);
  return id;
}

static HsJobRow *
load (HsOpsTest *test, const char *id)
{
  HsJobRow *job = NULL;

  g_assert_true (hs_job_row_load (hs_book_get_store (test->book), id, &job, NULL));
  return job;
}

static void
test_stranger (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = NULL;
  g_autoptr (HsJobRow) job = NULL;

  id = take (test, SLIP (.phone = "555-0122", .words = "one click, no crank"));
  job = load (test, id);
  g_assert_cmpstr (job->number, ==, "A-0001");
  g_assert_cmpstr (job->stage, ==, "called_in");
  g_assert_cmpstr (job->kind, ==, "repair");
  g_assert_cmpint (job->called_at, ==, HS_OPS_TEST_NOW);
  g_assert_null (job->vehicle_id);
  g_assert_cmpint (job->day, ==, HS_DATE_NONE);
  g_assert_cmpint (hs_ops_test_count (test, "customer WHERE name = 'Caller 555-0122'"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "phone WHERE digits = '5550122'"), ==, 1);
}

static void
test_known (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  HsCallSlip slip = SLIP (.phone = "(555) 0117", .name = "Someone else", .words = "flat", .plate = "tdm-7717",
                          .group = "will_not_start", .minutes = 40);
  g_autofree char *id = NULL;
  g_autoptr (HsJobRow) job = NULL;

  hs_ops_test_fill (test);
  slip.day = hs_date_from_ymd (2026, 3, 11);
  slip.window_from = 480;
  slip.window_to = 600;
  id = take (test, slip);
  job = load (test, id);
  g_assert_cmpint (hs_ops_test_count (test, "customer"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (test, "vehicle"), ==, 2);
  g_assert_cmpstr (job->area_id, ==, "H");
  g_assert_nonnull (job->vehicle_id);
  g_assert_cmpstr (job->complaint_group, ==, "will_not_start");
  g_assert_cmpint (job->guess_seconds, ==, 2400);
  g_assert_cmpint (job->window_from, ==, HS_OPS_TEST_NOW + 86400 + 75 * 60);
  g_assert_cmpint (job->window_to - job->window_from, ==, 7200);
}

/* "After two" and "by four": what was not said stays open, and what was said is kept. */
static void
test_half_a_window (void)
{
  static const struct
  {
    int from, to;
  } rows[] = { { 14 * 60, -1 }, { -1, 16 * 60 } };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      HsCallSlip slip = SLIP (.phone = "555-0122", .words = "hums");
      g_autofree char *id = NULL;
      g_autoptr (HsJobRow) job = NULL;
      HsInstant midnight;

      slip.day = hs_date_from_ymd (2026, 3, 11);
      slip.window_from = rows[i].from;
      slip.window_to = rows[i].to;
      midnight = hs_instant_from_local (hs_book_get_zone (test->book), slip.day, 0);
      id = take (test, slip);
      job = load (test, id);
      g_assert_cmpint (job->window_from, ==, rows[i].from < 0 ? HS_INSTANT_NONE : midnight + 60 * rows[i].from);
      g_assert_cmpint (job->window_to, ==, rows[i].to < 0 ? HS_INSTANT_NONE : midnight + 60 * rows[i].to);
    }
}

static void
test_new_vehicle (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = NULL;
  g_autofree char *again = NULL;

  id = take (test, SLIP (.name = "Marguerite Stane", .words = "hums", .plate = "TDM 1315", .make = "Orsane",
                         .model = "Merle"));
  again = take (test, SLIP (.name = "Marguerite Stane", .words = "hums still", .plate = "TDM1315"));
  g_assert_cmpint (hs_ops_test_count (test, "customer"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "vehicle WHERE make = 'Orsane'"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "ownership WHERE from_date = '2026-03-10' AND to_date IS NULL"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 2);
}

/* A slip that does not say the kind leaves it. */
static void
test_kind_stays (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = take (test, SLIP (.phone = "555-0115", .words = "oil", .kind = "service"));
  g_autofree char *again = take (test, SLIP (.job_id = id, .phone = "555-0115", .words = "oil and filter"));
  g_autoptr (HsJobRow) job = load (test, again);

  g_assert_cmpstr (job->kind, ==, "upkeep");
  g_assert_cmpstr (job->words, ==, "oil and filter");
}

/* The same slip again, with more on it, is the same job. */
static void
test_rewritten (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = NULL;
  g_autofree char *again = NULL;
  g_autoptr (HsJobRow) job = NULL;

  hs_ops_test_fill (test);
  id = take (test, SLIP (.phone = "555-0115", .words = "hums"));
  again = take (test, SLIP (.job_id = id, .phone = "555-0115", .words = "hums loudly", .plate = "TDM 5508",
                            .area = "H"));
  g_assert_cmpstr (again, ==, id);
  job = load (test, id);
  g_assert_cmpstr (job->number, ==, "A-0001");
  g_assert_cmpstr (job->words, ==, "hums loudly");
  g_assert_cmpstr (job->area_id, ==, "H");
  g_assert_nonnull (job->vehicle_id);
  g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 1);
}

static void
test_return_visit (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;
  g_autoptr (HsJobRow) job = NULL;

  hs_ops_test_fill (test);
  first = take (test, SLIP (.phone = "555-0115", .words = "lamp on", .plate = "TDM 5508"));
  second = take (test, SLIP (.phone = "555-0115", .words = "lamp on again", .plate = "TDM 5508",
                             .kind = "return visit", .follows = "a1"));
  job = load (test, second);
  g_assert_cmpstr (job->kind, ==, "return_visit");
  g_assert_cmpstr (job->follows_job_id, ==, first);
  g_assert_cmpstr (job->return_why, ==, "not_decided");
}

static void
test_refused (void)
{
  static const struct
  {
    HsCallSlip slip;
    const char *said;
  } rows[] = {
    { { .phone = "555-0115", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 }, "what the caller says" },
    { { .words = "hums", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 }, "Who calls" },
    { { .words = "hums", .name = " ", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 }, "Who calls" },
    { { .words = "hums", .phone = "hello", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 }, "" },
    { { .words = "hums", .phone = "555-0115", .day = HS_DATE_NONE, .window_from = 480, .window_to = 600 },
      "of which day" },
    { { .words = "hums", .phone = "555-0115", .day = 20522, .window_from = 600, .window_to = 480 },
      "ends before it starts" },
    { { .words = "hums", .phone = "555-0115", .day = HS_DATE_NONE, .window_from = -1, .window_to = 960 },
      "of which day" },
    { { .words = "hums", .phone = "555-0115", .day = HS_DATE_NONE, .window_from = 840, .window_to = -1 },
      "of which day" },
    { { .words = "hums", .phone = "555-0115", .minutes = -1, .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 },
      "less than no time" },
    { { .words = "hums", .phone = "555-0115", .group = "ghosts", .day = HS_DATE_NONE, .window_from = -1,
        .window_to = -1 },
      "will_not_start" },
    { { .words = "hums", .phone = "555-0115", .plate = "--", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 },
      "is no plate" },
    { { .words = "hums", .phone = "555-0115", .kind = "return_visit", .day = HS_DATE_NONE, .window_from = -1,
        .window_to = -1 },
      "earlier job" },
    { { .words = "hums", .phone = "555-0115", .follows = "A-0099", .day = HS_DATE_NONE, .window_from = -1,
        .window_to = -1 },
      "A-0099" },
    { { .words = "hums", .phone = "555-0115", .kind = "holiday", .day = HS_DATE_NONE, .window_from = -1,
        .window_to = -1 },
      "holiday" },
    { { .words = "hums", .phone = "555-0115", .van = "Z", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 },
      "set vans" },
    { { .words = "hums", .phone = "555-0115", .area = "Z", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 },
      "The book has no area “Z”" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hs_call_take (test->book, &rows[i].slip, HS_OPS_TEST_NOW, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, rows[i].said));
      g_assert_cmpint (hs_ops_test_count (test, "job"), ==, 0);
      g_assert_cmpint (hs_ops_test_count (test, "customer"), ==, 0);
    }
  g_assert_cmpint (hs_ops_test_count (test, "van WHERE next_number = 1"), ==, 1);
}

static void
test_find (void)
{
  static const char *const spellings[] = { "A-0001", "a1", "A 1", "a-01" };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = take (test, SLIP (.phone = "555-0115", .words = "hums"));
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (spellings); i++)
    {
      g_autofree char *found = hs_job_find (test->book, spellings[i], NULL);

      g_assert_cmpstr (found, ==, id);
    }
  g_assert_null (hs_job_find (test->book, "A-0002", &error));
  g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
}

static void
test_where (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autofree char *id = take (test, SLIP (.phone = "555-0115", .words = "hums"));
  g_autoptr (GError) error = NULL;
  HsWhere *where;

  g_assert_null (hs_where_load (test->book, &error));
  g_assert_no_error (error);
  g_assert_true (hs_where_save (test->book, id, "findings", "battery_rest", "12", HS_OPS_TEST_NOW, &error));
  g_assert_true (hs_where_save (test->book, id, "findings", "charging", "14.", HS_OPS_TEST_NOW + 5, &error));
  g_assert_no_error (error);
  where = hs_where_load (test->book, &error);
  g_assert_cmpstr (where->job_id, ==, id);
  g_assert_cmpstr (where->job_number, ==, "A-0001");
  g_assert_cmpstr (where->field, ==, "charging");
  g_assert_cmpstr (where->text, ==, "14.");
  g_assert_cmpint (where->at, ==, HS_OPS_TEST_NOW + 5);
  hs_where_free (where);
  g_assert_true (hs_where_save (test->book, id, NULL, NULL, NULL, HS_OPS_TEST_NOW + 9, &error));
  g_assert_null (hs_where_load (test->book, &error));
  g_assert_no_error (error);
}

/* A slip that is no job yet has a place too. */
static void
test_where_without_job (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (GError) error = NULL;
  HsWhere *where;

  g_assert_true (hs_where_save (test->book, NULL, "call", "words", "one cli", HS_OPS_TEST_NOW, &error));
  where = hs_where_load (test->book, &error);
  g_assert_null (where->job_id);
  g_assert_null (where->job_number);
  g_assert_cmpstr (where->text, ==, "one cli");
  hs_where_free (where);
}

/* What was said is part of what was squared up. */
static void
test_squared (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  HsCallSlip slip = { .phone = "555-0122", .words = "one click", .street = "6 Butter Cross", .day = HS_DATE_NONE,
                      .window_from = -1, .window_to = -1 };
  g_autoptr (GError) error = NULL;
  g_autofree char *id = hs_call_take (test->book, &slip, HS_OPS_TEST_NOW, NULL), *again = NULL;

  g_assert_nonnull (id);
  hs_ops_test_run (test, "UPDATE job SET unproved_why = 'gone', stage = 'squared'");
  slip.job_id = id;
  slip.street = "99 Elsewhere";
  again = hs_call_take (test->book, &slip, HS_OPS_TEST_NOW, &error);
  g_assert_null (again);
  g_assert_nonnull (strstr (error->message, "is squared up; what the call said stays as it is"));
  hs_ops_test_one (test, "job WHERE street = '6 Butter Cross'");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/call/stranger", test_stranger);
  g_test_add_func ("/call/known", test_known);
  g_test_add_func ("/call/half-a-window", test_half_a_window);
  g_test_add_func ("/call/new-vehicle", test_new_vehicle);
  g_test_add_func ("/call/kind-stays", test_kind_stays);
  g_test_add_func ("/call/rewritten", test_rewritten);
  g_test_add_func ("/call/return-visit", test_return_visit);
  g_test_add_func ("/call/refused", test_refused);
  g_test_add_func ("/call/find", test_find);
  g_test_add_func ("/call/where", test_where);
  g_test_add_func ("/call/where-without-job", test_where_without_job);
  g_test_add_func ("/call/squared", test_squared);
  return g_test_run ();
}
